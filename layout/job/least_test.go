package job

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// What is said, and what is let pass, of things at just the figure where that changes.
func TestSaidAtTheirLeast(t *testing.T) {
	arcB := "[[room.arc]]\nwall = \"B\"\n"
	tub := "[[room.fixture]]\nkind = \"tub\"\nname = \"tub\"\nwall = \"A\"\nfrom = 400\nwidth = 700\ndepth = 500\n"
	fixture := func(keys string) string { return "[[room.fixture]]\nkind = \"cabinet\"\n" + keys + "\n" }
	for _, k := range []struct{ name, things, want, not string }{
		{"a half circle by its radius", arcB + "radius = 1000\n", "", "no circle of"},
		{"a radius too small", arcB + "radius = 999\n", "no circle of 999 mm radius spans it", ""},
		{"beside another from the wall's start",
			tub + fixture("beside = \"tub\"\nside = \"before\"\nwidth = 400\ndepth = 300"),
			"", "finds no room"},
		{"beside another to the wall's end", tub + fixture("beside = \"tub\"\nwidth = 1900\ndepth = 300"), "",
			"finds no room"},
		{"beside another beyond the wall", tub + fixture("beside = \"tub\"\nwidth = 2000\ndepth = 300"),
			"it would run from 1100 mm to 3100 mm on wall A, which is 3000 mm long", ""},
		{"beside what is misspelt", tub + fixture("beside = \"tubb\"\nwidth = 400\ndepth = 300"), `did you mean "tub"?`,
			""},
		{"beside what is not there", tub + fixture("beside = \"window seat\"\nwidth = 400\ndepth = 300"),
			"there are: tub",
			"did you mean \"\"?"},
		{"beside nothing", fixture("beside = \"window seat\"\nwidth = 400\ndepth = 300"),
			"what it stands beside is written before it", "there are:"},
		{"between what is not there", tub + fixture("wall = \"A\"\nbetween = [\"window seat\", \"tub\"]\ndepth = 300"),
			"there are: tub, B, D", ""},
		{"deeper than the room", fixture("wall = \"A\"\nfrom = 500\nwidth = 400\ndepth = 2100"), "make it less deep",
			""},
		{"a flange beyond its toilet", "[[room.fixture]]\nkind = \"toilet\"\nwall = \"A\"\nfrom = 500\nwidth = " +
			"400\ndepth = 700\n" +
			"off = 100\nrough_in = 900\n", "would lie beyond it: it reaches 800 mm into the room", ""},
		{"two places of a fixing", "[[room.fixing]]\nkind = \"door stop\"\nat = [500, 500]\nline = [[1, 1], [9, 9]]\n",
			"has both at and line", ""},
		{"a cabinet and a toilet on one floor", fixture("wall = \"A\"\nfrom = 500\nwidth = 400\ndepth = 300") +
			"[[room.fixture]]\nkind = \"toilet\"\nwall = \"A\"\nfrom = 600\nwidth = 400\ndepth = 700\n", "overlaps",
			""},
	} {
		said := saidOf(t, anticlockwise, k.things)
		if !strings.Contains(said, k.want) || k.not != "" && strings.Contains(said, k.not) {
			t.Errorf("%s: %s", k.name, said)
		}
	}
	// walls that lean in by 600 mm over 2000: 180 mm at 600, along the wall below them
	for _, k := range []struct{ corners, keys, want string }{
		{"[3000, 0], [2400, 2000], [0, 2000]", "from = 2600\nwidth = 400", "make from 180 mm less"},
		{"[3000, 0], [3000, 2000], [600, 2000]", "to_end = 2600\nwidth = 400", "make to_end 180 mm less"},
		{"[3000, 0], [2400, 2000], [0, 2000]", "from = 100\nwidth = 2900", "it is too large for its place"},
		{"[3000, 0], [2400, 2000], [0, 2000]", "from = 180\nwidth = 2820", "make from 180 mm less"},
	} {
		said := saidOf(t, "corners = [[0, 0], "+k.corners+"]\n", fixture("wall = \"A\"\n"+k.keys+"\ndepth = 600"))
		if !strings.Contains(said, k.want) {
			t.Errorf("%s: %s", k.keys, said)
		}
	}
	for _, diagonal := range []string{"-C 3 m", "AC 3 m"} {
		said := saidOf(t, "walls = [\"east 3 m\", \"north 2 m\", \"west 3 m\", \"south 2 m\"]\ndiagonals = [\""+
			diagonal+"\"]\n",
			"")
		if !strings.Contains(said, "diagonal") || strings.Contains(said, "walls A to") {
			t.Errorf("%s: %s", diagonal, said)
		}
	}
	for text, want := range map[string]string{"format = 0\n": "format is 0; it cannot be below 1",
		"units = \"mm\"\n[spacing]\nwidest = 0\n":   "widest is 0; it cannot be below 1",
		"units = \"mm\"\n[membrane]\npitchs = 30\n": "did you mean pitch?"} {
		if got := reported(text); !strings.Contains(got, want) {
			t.Errorf("%q: %s", text, got)
		}
	}
	for keys, want := range map[string]string{"start = [100, 100]\nlegs = [\"north 1\"]\n": "",
		"start = [100, 100]\nlegs = []\n": "legs", "runs = 1\n[[as_laid.mark]]\nlength = 500\nrun = 0\n": "run is 0"} {
		if _, got := record(keys); !strings.Contains(got, want) || want == "" && got != "" {
			t.Errorf("%q: %s", keys, got)
		}
	}
}

// A box that hangs in a doorway is told to move to where the wall goes on, and to another where
// it does not.
func TestBoxesInDoorways(t *testing.T) {
	for door, want := range map[string]string{"from = 100\nwidth = 700": "move it to less than 100 mm or more than " +
		"800 mm along",
		"from = 0\nwidth = 800":    "move it to more than 800 mm along wall A, or to another wall",
		"to_end = 0\nwidth = 2800": "move it to less than 200 mm along wall A, or to another wall",
		"from = 0\nwidth = 3000":   "move it to another wall"} {
		_, report := readText(head + "[[room]]\nname = \"R\"\n" + anticlockwise +
			"[[room.opening]]\nkind = \"door\"\nwall = \"A\"\n" +
			door + "\n" + strings.Replace(tail, "from = 100", "from = 300", 1))
		if said := spoken(report); !strings.Contains(said, want) {
			t.Errorf("%s: %s", door, said)
		}
	}
}

// A label's tolerance may begin or end at nothing; a cable may just be bent as tightly as its pegs ask.
func TestLabelsAtTheirLeast(t *testing.T) {
	for _, k := range []struct {
		low, high float64
		wrong     bool
	}{{0, 0.1, false}, {-0.05, 0, false}, {0.01, 0.1, true}, {-0.05, -0.01, true}} {
		text := head + "[[room]]\nname = \"R\"\n" + anticlockwise + tail
		text = strings.Replace(text, "[[cable]]\n", fmt.Sprintf("[[cable]]\ntolerance = [%g, %g]\n", k.low, k.high), 1)
		if !strings.Contains(text, "tolerance") {
			t.Fatal("no cable in the text")
		}
		if said := reported(text); strings.Contains(said, "the tolerance of cable") != k.wrong {
			t.Errorf("%+v: %s", k, said)
		}
	}
	for bend, wrong := range map[string]bool{"15": false, "16": true} {
		text := strings.Replace(head, "[membrane]\n", "[membrane]\nbend_radius = 15\n", 1) +
			"[[room]]\nname = \"R\"\n" +
			anticlockwise + tail
		text = strings.Replace(text, "[[cable]]\n", "[[cable]]\nmin_bend = "+bend+"\n", 1)
		if said := reported(text); strings.Contains(said, "is below the minimum of cable") != wrong {
			t.Errorf("min_bend %s: %s", bend, said)
		}
	}
}

// An opening in a curve is a straight side of it: the curve's sides go round one after the other, one of them
// bears the letter, and openings of walls before stay where they are.
func TestOpeningsOfACurve(t *testing.T) {
	opening := func(wall string, from float64) string {
		return fmt.Sprintf("[[room.opening]]\nkind = \"door\"\nwall = %q\nfrom = %g\nwidth = 700\n", wall, from)
	}
	for _, from := range []float64{0, 400} {
		r := roomOf(t, anticlockwise, "[[room.arc]]\nwall = \"C\"\nrise = 300\n"+opening("B", 0)+opening("C", from))
		lettered := 0
		for i, w := range r.Walls {
			next := r.Walls[(i+1)%len(r.Walls)]
			if w.B.Dist(next.A) > 1e-6 || w.Length() < lengthRounding {
				t.Errorf("from %g: wall %d ends at %v, the next begins at %v", from, i, w.B, next.A)
			}
			if w.Letter == "C" && r.BearsLetter(i) {
				lettered++
				if i != 2+w.Arc.Sides/2 {
					t.Errorf("from %g: side %d bears the letter", from, i)
				}
			}
		}
		if lettered != 1 || r.baseOf(4).wall != 2 {
			t.Errorf("from %g: %d letters, the curve begins at %d", from, lettered, r.baseOf(4).wall)
		}
		a, b := r.Openings[0], r.Openings[1]
		if a.Wall != 1 || a.From != 0 || math.Abs(a.To-700) > 1e-6 || b.From != 0 || r.Walls[b.Wall].Letter != "C" {
			t.Errorf("from %g: %+v and %+v", from, a, b)
		}
		if at := r.Walls[b.Wall].A; from == 0 && at.Dist(plane.Pt(3000, 2000)) > 1e-6 {
			t.Errorf("the door begins at %v", at)
		}
		n := len(r.Walls)
		if _, _, _, ok := r.side(table{}, "a hook", r.baseOf(2), 2900, 2900); !ok || len(r.Walls) != n {
			t.Errorf("a place on a curve is a side of it: %d walls, %d before", len(r.Walls), n)
		}
	}
	first := roomOf(t, anticlockwise, "[[room.arc]]\nwall = \"A\"\nrise = 300\n")
	if got := first.baseOf(2).wall; got != 0 {
		t.Errorf("the first wall's curve begins at side %d", got)
	}
	// beyond a niche an opening is measured on the piece of wall that it is in
	beyond := roomOf(t, anticlockwise, "[[room.niche]]\nwall = \"A\"\nfrom = 300\nwidth = 500\ndepth = 400\n"+
		opening("A", 1000))
	if o := beyond.Openings[0]; math.Abs(o.From-200) > 1e-6 || math.Abs(o.To-900) > 1e-6 {
		t.Errorf("%+v", o)
	}
}

// A corner cut off as far as it goes leaves three corners.
func TestACornerCutOffWholly(t *testing.T) {
	r := roomOf(t, anticlockwise, "[[room.fixture]]\nkind = \"shower\"\ncorner = \"C\"\nwidth = 900\ndepth = 900\n"+
		"shape = \"neo-angle\"\ncut = 900\n")
	if ring := r.Fixtures[0].Outline; len(ring) != 3 || math.Abs(ring.Area()-900*900/2) > 1e-6 {
		t.Errorf("%v", ring)
	}
}

// Small things by hand: figures without a unit, sizes in words, what a value stands in.
func TestSmallThingsOfAJob(t *testing.T) {
	rd := &reader{}
	if v, err := rd.length("0", Key{Path: "room.clear"}); err != nil || v != 0 {
		t.Errorf("%g, %v", v, err)
	}
	for _, s := range []string{"1", "5"} {
		if v, err := rd.length(s, Key{Path: "room.clear"}); err == nil || !err.unitless {
			t.Errorf("%s: %g, %v", s, v, err)
		}
	}
	rd.countUnits("30 mm")
	if rd.metric != 1 || rd.imperial != 0 {
		t.Errorf("%d metric, %d imperial", rd.metric, rd.imperial)
	}
	for _, n := range []int{40, 41} {
		rd := &reader{text: strings.Repeat("é", n)}
		want := map[int]string{40: strings.Repeat("é", 40), 41: strings.Repeat("é", 39) + "…"}[n]
		if got := rd.source(&tree.Node{Span: tree.Range{End: len(rd.text)}}); got != want {
			t.Errorf("%d letters: %s", n, got)
		}
	}
	if got := usualSizes(func(z size) float64 { return z.diameter }); strings.Contains(got, "(0 mm)") || got == "" {
		t.Error(got)
	}
	here := Span{File: "a"}
	if got := (Spans{"": here}).At("units"); got != here {
		t.Errorf("%+v", got)
	}
	a, b := plane.Rectangle(plane.Pt(0, 0), plane.Pt(9, 9)), plane.Rectangle(plane.Pt(2, 2), plane.Pt(5, 5))
	if !within(b, a) || within(a, b) {
		t.Error("a square within another")
	}
	for _, k := range []struct {
		f, g FixtureKind
		want bool
	}{{Cabinet, Toilet, false}, {Toilet, Cabinet, false}, {Cabinet, Appliance, true}} {
		if got := builtTogether(Fixture{Kind: k.f, Outline: a}, Fixture{Kind: k.g, Outline: b}); got != k.want {
			t.Errorf("%v and %v are built together: %v", k.f, k.g, got)
		}
	}
	r := roomOf(t, anticlockwise, "")
	j := &Job{Cables: []Cable{{ID: "A", Length: 30000}}}
	c := issuedCable{ID: "H1", Label: "A", Zone: 2, Length: 28000, Path: [][2]float64{{100, 100}, {900, 100}}}
	if _, err := j.issuedCable(c, &r); err == nil || !strings.Contains(err.Error(),
		"28.00 m long in it, and 30.00 m by the job's catalogue") {
		t.Errorf("%v", err)
	}
	c.Length = 30000
	for n, want := range map[int]float64{0: 100, 1: 100, 2: 500} {
		c := c
		text := fmt.Sprintf(`{"as_laid": {"whole": true, "planned": %s}}`, [...]string{"[]", "[[500, 500]]",
			"[[500, 500], [900, 500]]"}[n])
		if err := json.Unmarshal([]byte(text), &c); err != nil || c.AsLaid == nil || len(c.AsLaid.Planned) != n {
			t.Fatalf("%s: %v, %+v", text, err, c.AsLaid)
		}
		if got, err := j.issuedCable(c, &r); err != nil || got.Path[0].Y != want {
			t.Errorf("%d places: %+v, %v", n, got, err)
		}
	}
	if !slices.Contains(r.wallsNextTo(r.baseOf(0)), "B") {
		t.Error("wall A ends at none")
	}
}
