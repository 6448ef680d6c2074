package compare

import (
	"testing"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// figuresOf returns the numbers of a figure in the changes.
func figuresOf(d *diff, of string) (before, after float64) {
	for _, c := range d.out {
		for _, f := range c.Figures {
			if f.Of == of {
				return *f.Before, *f.After
			}
		}
	}
	return 0, 0
}

func oneOf(width, height float64) plane.Region {
	return plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(width, height)))
}

// 1.0049 and 1.0051 m² differ by 2 cm², were they written as 1.00 and 1.01; 1.00 and 1.01 m²
// do differ.
func TestAreasThatHardlyDiffer(t *testing.T) {
	d := &diff{units: plane.Millimetres}
	d.area("Bath", "floor", oneOf(1000, 1004.9), oneOf(1000, 1005.1))
	if len(d.out) != 0 {
		t.Errorf("%v", d.out)
	}
	d.area("Bath", "floor", oneOf(1000, 1000), oneOf(1000, 1010))
	if len(d.out) != 1 {
		t.Errorf("%v", d.out)
	}
}

// cableOf is a cable of a run and back whose figures have tenths.
func cableOf(watts, length, density float64) *layout.Cable {
	c := &layout.Cable{ID: "H1", Label: job.Cable{ID: "C", Volts: 240, Watts: watts, Length: length}, Density: density,
		Path: []plane.Point{{X: 0, Y: 0}, {X: 1000, Y: 0}}}
	c.Marks = make([]layout.Mark, 3)
	return c
}

// between compares a room of 2400 x 2000 to itself.
func between() *diff {
	r := &job.Room{Outline: plane.Rectangle(plane.Pt(0, 0), plane.Pt(2400, 2000))}
	for i, letter := range []string{"A", "B", "C", "D"} {
		r.Walls = append(r.Walls, job.Wall{Letter: letter, Segment: r.Outline.Edge(i)})
	}
	tape := layout.NewTape(r, plane.Millimetres)
	return &diff{units: plane.Millimetres, was: tape, now: tape}
}

// Figures beside the words are to a tenth of a millimetre, watt and W/m².
func TestFiguresToATenth(t *testing.T) {
	d := &diff{units: plane.Millimetres}
	d.walls(&job.Room{Walls: []job.Wall{{Letter: "A", Segment: plane.Segment{B: plane.Pt(2400.26, 0)}}}},
		&job.Room{Walls: []job.Wall{{Letter: "A", Segment: plane.Segment{B: plane.Pt(2410.54, 0)}}}})
	if a, b := figuresOf(d, "length"); a != 2400.3 || b != 2410.5 {
		t.Errorf("walls of %v and %v mm", a, b)
	}
	d = between()
	d.cable("Bath", cableOf(260, 26040.26, 130.26), cableOf(300, 30040.54, 150.54))
	if a, b := figuresOf(d, "length"); a != 26040.3 || b != 30040.5 {
		t.Errorf("cables of %v and %v mm", a, b)
	}
	if a, b := figuresOf(d, "power per area"); a != 130.3 || b != 150.5 {
		t.Errorf("%v and %v W/m²", a, b)
	}
	d.load(&layout.Load{Load: circuit.Load{Amps: 1, Watts: 260.26}},
		&layout.Load{Load: circuit.Load{Amps: 2, Watts: 300.54}})
	if a, b := figuresOf(&diff{out: d.out[len(d.out)-1:]}, "watts"); a != 260.3 || b != 300.5 {
		t.Errorf("loads of %v and %v W", a, b)
	}
}

// A cable that is new is clouded where it starts; of one that a room does not have there is
// nothing to compare, nor of its load.
func TestCableThatIsNew(t *testing.T) {
	d := &diff{units: plane.Millimetres}
	r := &layout.Room{Cables: []layout.Cable{*cableOf(260, 26000, 130)}}
	d.cable("Bath", cableAt(r, 1), cableAt(r, 0))
	if len(d.out) != 1 || d.out[0].At == nil || *d.out[0].At != plane.Pt(0, 0) {
		t.Errorf("%+v", d.out)
	}
	d.load(nil, &layout.Load{})
	d.load(&layout.Load{}, nil)
	if len(d.out) != 1 {
		t.Errorf("a load against none: %+v", d.out)
	}
}

// 4 kg are 8.82 lb, 6 kg 13.23; one bag more than one is two. What is printed alike is not
// said, unless whole packs differ.
func TestQuantitiesByHand(t *testing.T) {
	for u, want := range map[plane.Units]string{
		plane.Millimetres: "take-off, Grout: 4.00 kg -> 6.00 kg, +1 bag to buy",
		plane.Inches:      "take-off, Grout: 8.82 lb (4.00 kg) -> 13.23 lb (6.00 kg), +1 bag to buy",
	} {
		d := &diff{units: u}
		d.quantities([]takeoff.Change{
			{Item: language.As("Grout"), Unit: "kg", Before: 4, After: 6, PacksBefore: 1, Packs: 1, PackName: "bag"},
			{Item: language.As("Primer"), Unit: "L", Before: 4.001, After: 4.002},
			{Item: language.As("Box"), Unit: "each", Before: 2, After: 2, PacksBefore: 2, Packs: 1, PackName: "box"},
		})
		if len(d.out) != 2 || d.out[0].String() != want {
			t.Fatalf("%v, want %q", d.out, want)
		}
		if a, b := figuresOf(d, "packs"); a != 1 || b != 2 {
			t.Errorf("packs: %v and %v", a, b)
		}
	}
}

// What grew is said with its sides to a tenth of a millimetre.
func TestSidesToATenth(t *testing.T) {
	d := between()
	d.thing("Bath", "tub", plane.Rectangle(plane.Pt(0, 0), plane.Pt(600.26, 400.26)),
		plane.Rectangle(plane.Pt(0, 0), plane.Pt(800.54, 500.54)))
	if a, b := figuresOf(d, "east-west"); a != 600.3 || b != 800.5 {
		t.Errorf("%v and %v mm wide", a, b)
	}
	if a, b := figuresOf(d, "north-south"); a != 400.3 || b != 500.5 {
		t.Errorf("%v and %v mm deep", a, b)
	}
}

// A place that is new is said where it is, one that is gone where it was, and none not at all.
func TestPlacesThatAreNew(t *testing.T) {
	d, at := between(), plane.Pt(1000, 500)
	d.place("Bath", "sensor S1", nil, nil)
	d.place("Bath", "sensor S1", nil, &at)
	d.place("Bath", "sensor S2", &at, nil)
	if len(d.out) != 2 || d.out[0].Before != "" || d.out[0].After == "" || d.out[1].After != "" ||
		d.out[1].Before == "" || *d.out[0].At != at || *d.out[1].At != at {
		t.Errorf("%+v", d.out)
	}
}

// An opening of a wall that the room does not have lies nowhere.
func TestOpeningsOfItsWalls(t *testing.T) {
	r := &job.Room{Walls: []job.Wall{{Segment: plane.Segment{B: plane.Pt(2400, 0)}}}}
	for wall := -1; wall <= 1; wall++ {
		r.Openings = append(r.Openings, job.Opening{Name: "door", Wall: wall, From: 200, To: 900})
	}
	got := outlines(r)
	if len(got) != 1 || got[0].ring[0] != plane.Pt(200, 0) || got[0].ring[1] != plane.Pt(900, 0) {
		t.Errorf("%+v", got)
	}
}
