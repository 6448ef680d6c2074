package route

import (
	"testing"

	"oxturn/layout/plane"
)

// Four corridors joined at their ends by turns, with thin walls between: a straight cut along the rows parts each
// corridor, one across them leaves most of the floor on one side. Two cables share it at a door, and both are laid.
func TestFloorIsPartedAtADoor(t *testing.T) {
	walls := []plane.Ring{box(650, 0, 70, 1670), box(1390, 750, 70, 4020), box(2090, 0, 130, 3230),
		box(2950, 1530, 50, 3240)}
	p := roomOf(t, box(0, 0, 3570, 4770), walls, 75, nil)
	p.Entry = plane.Pt(0, 2110)
	p.Cables = []Cable{{ID: "C1", Length: 86123}, {ID: "C2", Length: 119002}}
	p.Widest = 5
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if bad := broken(p, routes); bad != nil {
		t.Fatal(bad)
	}
	for _, rt := range routes {
		if rt.Score.Covered < 0.985 {
			t.Errorf("cable %d covers %.3f of its share", rt.Cable, rt.Score.Covered)
		}
	}
}

// A passage parts the floor where nothing else leads from its lower side to its upper one: of the two legs of a ring
// none does, of the same ring cut open at its head both do. The lower side of a leg has its own foot and all that hangs
// on that: the other leg and half of the head.
func TestPassages(t *testing.T) {
	ring := plane.Region{{Outer: box(0, 0, 2000, 2000), Holes: []plane.Ring{box(500, 500, 1000, 1000)}}}
	open, err := ring.Less(plane.FromRing(box(900, 1400, 200, 700)))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		floor plane.Region
		legs  int
	}{{ring, 0}, {open, 2}} {
		g, legs := newGrid(c.floor, Lattice{Pitch: 50}, 0), map[bool]bool{}
		for _, one := range g.passages(3) {
			if one.span.width() == 40 {
				continue // across all of the floor
			}
			if legs[one.span.a > 20] = true; one.low <= g.free/2 || one.low >= g.free {
				t.Errorf("%d of %d pegs hang below row %d", one.low, g.free, one.y)
			}
		}
		if len(legs) != c.legs {
			t.Errorf("passages on sides %v: %d legs part the floor", legs, c.legs)
		}
	}
}

// box is a rectangle by its low corner and its sides.
func box(x, y, w, h float64) plane.Ring { return plane.Rectangle(plane.Pt(x, y), plane.Pt(x+w, y+h)) }
