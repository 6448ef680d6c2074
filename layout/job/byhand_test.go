package job

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

func TestDefaultsInWords(t *testing.T) {
	for _, k := range []struct {
		key  Key
		want string
	}{{Key{Default: "50 mm"}, "50 mm"}, {Key{Default: "50 mm", DefaultIn: "2 in"}, "50 mm; in a job in inches 2 in"}} {
		if got := k.key.DefaultWords(); got != k.want {
			t.Errorf("%q, want %q", got, k.want)
		}
	}
}

// A text ends bare where a figure is its last letter, but not where that is of m² or ft².
func TestFiguresWithoutAUnit(t *testing.T) {
	for text, want := range map[string]bool{"": false, `""`: false, "30": true, `"30"`: true, "30 ": true,
		"30 mm": false, "2 m2": false, "2 ft2": false, "9": true, "a0": true, "x": false, "5/": false, "5:": false} {
		if got := endsBare(text); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

// A date is one only where no other can be meant.
func TestDaysThatCanBeOne(t *testing.T) {
	for text, want := range map[string]string{"2026-5-3": "2026-05-03", "2026/12/31": "2026-12-31",
		"13/05/2026": "2026-05-13", "05/13/2026": "2026-05-13", "5.5.2026": "2026-05-05", "12/11/2026": "",
		"1/12/2026": "", "x": ""} {
		if got := day(text); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// What a box may hang on: the pieces of a wall, a curve once, both faces of a partition.
func TestWallsForABox(t *testing.T) {
	r := roomOf(t, anticlockwise, "[[room.arc]]\nwall = \"B\"\nrise = 300\n[[room.arc]]\nwall = \"D\"\nrise = 200\n"+
		"[[room.niche]]\nwall = \"C\"\nfrom = 1000\nwidth = 900\ndepth = 400\n"+
		"[[room.partition]]\nname = \"Screen\"\nfrom = [1500, 0]\nto = [1500, 900]\n")
	for name, want := range map[string]string{"A": "wall A ", "a": "wall A ", "B": "wall B curved ",
		" d ": "wall D curved ", "screen": "partition left partition right ", "Q": "", "": ""} {
		got := ""
		for _, w := range r.BoxWalls(name) {
			kind := "partition "
			if w.Side() == "" {
				kind = w.Called + " "
			}
			got += kind
			if w.Curved() {
				got += "curved "
			}
			if w.Side() != "" {
				got += w.Side() + " "
			}
		}
		if got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
	pieces := r.BoxWalls("C")
	if len(pieces) != 5 || pieces[0].Length() != 1100 && pieces[0].Length() != 1000 {
		t.Errorf("%d pieces of a wall with a niche", len(pieces))
	}
	round := roomOf(t, anticlockwise, "[[room.arc]]\nwall = \"A\"\nrise = 300\n")
	if got := round.BoxWalls("A"); len(got) != 1 || !got[0].Curved() {
		t.Errorf("%+v", got)
	}
	moved := r.WithBox(r.BoxWalls("A")[0], 700)
	if at := moved.Thermostat.At; at != plane.Pt(700, 0) || moved.Thermostat.Along != 700 || r.Thermostat.At == at {
		t.Errorf("%+v", moved.Thermostat)
	}
}

// Beside a tub from 1000 to 1700 mm: after it from 1750, before it as wide and 50 mm nearer.
func TestBesideAnother(t *testing.T) {
	tub := "[[room.fixture]]\nkind = \"tub\"\nname = \"tub\"\nwall = \"A\"\nfrom = 1000\nwidth = 700\ndepth = 500\n"
	for side, want := range map[string][2]float64{"after": {1750, 2150}, "before": {550, 950}} {
		r := roomOf(t, anticlockwise, tub+"[[room.fixture]]\nkind = \"cabinet\"\nbeside = \"tub\"\nside = \""+side+
			"\"\ngap = 50\nwidth = 400\ndepth = 300\n")
		b := r.Fixtures[1].Outline.Bounds()
		near(t, side, b.Min.X, want[0], 1e-6)
		near(t, side, b.Max.X, want[1], 1e-6)
	}
}

// An opening may end where its partition does, and not beyond.
func TestOpeningsToTheEnd(t *testing.T) {
	part := "[[room.partition]]\nname = \"P\"\nfrom = [1500, 300]\nto = [1500, 1300]\n[[room.partition.opening]]\n" +
		"kind = \"opening\"\nfrom = 200\nwidth = "
	if said := saidOf(t, anticlockwise, part+"800\n"); strings.Contains(said, "would lie from") {
		t.Error(said)
	}
	if said := saidOf(t, anticlockwise, part+"802\n"); !strings.Contains(said, "would lie from") {
		t.Error(said)
	}
}

// A cable of a layout file lies in the zone whose number is one more there, on its planned path
// where it was laid whole, and within its room.
func TestCablesAsIssued(t *testing.T) {
	r := roomOf(t, anticlockwise, "")
	j := &Job{Cables: []Cable{{ID: "A", Length: 30000}}}
	c := issuedCable{ID: "H1", Label: "A", Zone: 2, Length: 30000, Path: [][2]float64{{100, 100}, {900, 100}}}
	got, err := j.issuedCable(c, &r)
	if err != nil || got.Zone != 1 || got.ID != "H1" || !slices.Equal(got.Path, []plane.Point{{X: 100, Y: 100}, {X: 900,
		Y: 100}}) {
		t.Fatalf("%+v, %v", got, err)
	}
	for _, k := range []struct {
		set  func(c *issuedCable)
		says string
	}{
		{func(c *issuedCable) { c.Label = "B" }, "does not have"},
		{func(c *issuedCable) { c.Length = 30001.5 }, "m long in it"},
		{func(c *issuedCable) { c.Length = 30000.5 }, ""}, {func(c *issuedCable) { c.Path = c.Path[:1] }, "no path"},
		{func(c *issuedCable) { c.Path = [][2]float64{{100, 100}, {3400, 100}} }, "outside wall B"},
	} {
		c := c
		k.set(&c)
		_, err := j.issuedCable(c, &r)
		if (err == nil) != (k.says == "") || err != nil && !strings.Contains(err.Error(), k.says) {
			t.Errorf("%s: %v", k.says, err)
		}
	}
}

// Of a line that is wrong at one place one letter is marked, of a span each of its letters, at
// the line's end a blank.
func TestMarkedCells(t *testing.T) {
	for _, k := range []struct {
		column int
		span   Span
		from   int
		marks  string
	}{{2, Span{Start: 5, End: 5}, 1, ".x."}, {1, Span{Start: 0, End: 2}, 0, "xx."},
		{3, Span{Start: 2, End: 9}, 2, "..x"}, {4, Span{Start: 3, End: 4}, 3, "...x"}} {
		cells, from := cellsOf("abc", k.column, k.span)
		marks := ""
		for _, c := range cells {
			marks += map[bool]string{true: "x", false: "."}[c.marked]
		}
		if marks != k.marks || from != k.from {
			t.Errorf("%+v: %s from %d, want %s from %d", k, marks, from, k.marks, k.from)
		}
	}
}

// What cannot be is refused at its least: beds and layers of half a millimetre.
func TestLeastThicknesses(t *testing.T) {
	for _, k := range []string{"[materials]\nbed_thickness = %s\n", "[[layer]]\nkind = \"mortar\"\nthickness = %s\n"} {
		for v, want := range map[string]bool{"0.5": false, "1": true, "3": true} {
			_, report := readText(head + fmt.Sprintf(k, v) + "[[room]]\nname = \"R\"\n" + anticlockwise + tail)
			if got := report.Errors() == 0; got != want {
				t.Errorf(k+"%s", v, spoken(report))
			}
		}
	}
}

// Only walls as taped tell in which units a file is written, not the names of cables.
func TestUnitsOfWallsAreCounted(t *testing.T) {
	for path, want := range map[string]int{"room.walls": 2, "room.cables": 0} {
		rd := &reader{}
		rd.countWalls(Key{Path: path}, []string{"north 5 ft", "east 4 ft"})
		rd.countWalls(Key{Path: path}, 5)
		if rd.imperial != want {
			t.Errorf("%s: %d", path, rd.imperial)
		}
	}
}

// A niche with a fault is not read on.
func TestFaultyNiches(t *testing.T) {
	said := saidOf(t, anticlockwise, "[[room.niche]]\nwall = \"A\"\nfrom = 1000\nwidth = 900\ndepth = \"deep\"\n")
	if n := strings.Count(said, "niche"); n > 1 || said == "" {
		t.Errorf("%d: %s", n, said)
	}
}
