package route

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// standing takes fixtures with their clearances out of a problem's one zone.
func standing(t fataler, p *Problem, clear float64, fixtures ...plane.Ring) {
	for _, f := range fixtures {
		grown, err := plane.FromRing(f).Grow(clear * 1.002)
		if err == nil {
			p.Zones[0], err = p.Zones[0].Less(grown)
		}
		if err == nil {
			p.Floor, err = p.Floor.Less(plane.FromRing(f))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// TestLargeSkewedRooms has close runs in rooms out of square, with the box far
// from where a sweep begins: the cable is to reach everywhere, not to run out
// before the last corner.
func TestLargeSkewedRooms(t *testing.T) {
	begun := roomOf(t, plane.Ring{{X: 183.6, Y: 0}, {X: 4635.4, Y: 52.1}, {X: 4176.2, Y: 3445.5}, {X: 0, Y: 3157.5}},
		nil, 100, nil)
	standing(t, &begun, 40, plane.Ring{{X: 4280.6, Y: 2674.4}, {X: 4181.8, Y: 3403.9}, {X: 3889.6, Y: 3364.3},
		{X: 3988.3, Y: 2634.8}})
	standing(t, &begun, 75, plane.Ring{{X: 33.9, Y: 2574.4}, {X: 70.4, Y: 1947.3}, {X: 721, Y: 1985.1},
		{X: 684.5, Y: 2612.3}})
	begun.Entry, begun.Cables = plane.Pt(111, 1249), []Cable{{ID: "H1", Length: 167140, LeadReach: 6000}}

	spent := roomOf(t, plane.Ring{{X: 0, Y: 144.3}, {X: 5547.5, Y: 0}, {X: 5643.7, Y: 3701.5}, {X: 3873.1, Y: 3747.6},
		{X: 3834.8, Y: 2273}, {X: 1828.5, Y: 2325.2}, {X: 1866.9, Y: 3799.8}, {X: 96.3, Y: 3845.8}}, nil, 100, nil)
	spent.Pitch, spent.Bend = 25, 12.5
	standing(t, &spent, 75, plane.Ring{{X: 1234.2, Y: 112.2}, {X: 1838.2, Y: 96.5}, {X: 1855, Y: 744.1},
		{X: 1251.1, Y: 759.8}})
	standing(t, &spent, 40, plane.Ring{{X: 2667.2, Y: 775}, {X: 3548.2, Y: 752.1}, {X: 3560.9, Y: 1239},
		{X: 2679.9, Y: 1261.9}})
	spent.Entry, spent.Cables = plane.Pt(5072.8, 3716.4), []Cable{{ID: "H1", Length: 197210, LeadReach: 6000}}

	for _, p := range []Problem{begun, spent} {
		routes, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		if bad := broken(p, routes); bad != nil {
			t.Fatal(bad)
		}
		if s := routes[0].Score; s.Covered < 0.975 || s.Evenness > 0.1 {
			t.Errorf("%.0f m: covered %.4f, evenness %.3f", p.Cables[0].Length/1000, s.Covered, s.Evenness)
		}
	}
}

// TestPathEndsAreNeverDearerThanCounted holds what a start and an end are said
// to cost at least against what they cost, row by row.
func TestPathEndsAreNeverDearerThanCounted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawRoom(t)
		r := &room{p: p, lattice: chooseLattice(p), steps: p.steps()}
		wish := &wishes{strip: newStrip(p.Floor, p.Zones, p.Entry), reach: 6000, both: rapid.Bool().Draw(t, "both")}
		g := newGrid(p.Zones[0], r.lattice, turns(rapid.IntRange(0, 3).Draw(t, "turns")))
		for _, cost := range []func(*grid, int, int) float32{wish.startCost, wish.endCost} {
			e := newPathEnd(g, cost)
			least := inf32
			for y := g.ny - 1; y >= 0; y-- {
				for _, s := range g.rows[y] {
					least = min(least, cost(g, s.a, y), cost(g, s.b, y))
				}
				if e.least[y] != least {
					t.Fatalf("row %d of %d: counted %g, the least is %g", y, g.ny, e.least[y], least)
				}
			}
		}
	})
}

// TestTurnsGoThereAndBack turns places by quarters: length stays, back undoes
// there, and two quarters turn round.
func TestTurnsGoThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u, v := rapid.Float64Range(-1e3, 1e3).Draw(t, "u"), rapid.Float64Range(-1e3, 1e3).Draw(t, "v")
		n := turns(rapid.IntRange(0, 3).Draw(t, "turns"))
		x, y := n.there(u, v)
		if a, b := n.back(x, y); a != u || b != v {
			t.Fatalf("(%g, %g) comes back as (%g, %g)", u, v, a, b)
		}
		if a, b := (n + 2).there(u, v); a != -x || b != -y {
			t.Fatalf("two more quarters: (%g, %g), not (%g, %g)", a, b, -x, -y)
		}
		if math.Abs(math.Hypot(x, y)-math.Hypot(u, v)) > 1e-9 {
			t.Fatal("the length has changed")
		}
	})
}
