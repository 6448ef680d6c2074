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

// Where a partition meets another it goes on to that one's far face, at either end; a doorway
// at its end leaves no piece there.
func TestPiecesOfPartitionsThatMeet(t *testing.T) {
	part := func(from, to, thickness, more string) string {
		return "[[room.partition]]\nfrom = " + from + "\nto = " + to + "\nthickness = " + thickness + "\n" + more
	}
	r := roomOf(t, anticlockwise, part("[1500, 0]", "[1500, 1200]", "100", "")+
		part("[1500, 600]", "[3000, 600]", "60", "[[room.partition.opening]]\nfrom = 0\nwidth = 700\n")+
		part("[0, 800]", "[1500, 800]", "60", "")+
		part("[2500, 1000]", "[2500, 2000]", "80", "[[room.partition.opening]]\nto_end = 0\nwidth = 700\n"))
	var got []string
	for _, k := range r.KeepOuts {
		b := k.Outline.Bounds()
		got = append(got, fmt.Sprintf("%.0f-%.0f, %.0f-%.0f", b.Min.X, b.Max.X, b.Min.Y, b.Max.Y))
	}
	want := []string{"1450-1550, 0-1200", "1450-1500, 570-630", "2200-3000, 570-630", "0-1550, 770-830",
		"2460-2540, 1000-1300"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	for opening, line := range map[string]string{"to_end = 400\nwidth = 700\n": "18:",
		"centre = 100\nwidth = 700\n": "18:",
		"width = 1000\n":              "18:"} {
		said := saidOf(t, anticlockwise, part("\"A 1200\"", "\"A 1200, 900\"", "100", "[[room.partition.opening]]\n"+
			opening))
		if !strings.Contains(said, "the partition is 900 mm long") || !strings.HasPrefix(said, line) {
			t.Errorf("%q: %s", opening, said)
		}
	}
}

// Niches are numbered where they have no name, keep cable out only where they are to be cold or bare, begin 10 mm
// from a corner at least and stay clear of other walls.
func TestNichesByHand(t *testing.T) {
	niche := func(wall string, from, width, depth float64, more string) string {
		return fmt.Sprintf("[[room.niche]]\nwall = %q\nfrom = %g\nwidth = %g\ndepth = %g\n%s", wall, from, width, depth,
			more)
	}
	r := roomOf(t, anticlockwise, niche("C", 300, 500, 400, "heated = false\n")+niche("C", 1500, 500, 400,
		"tiled = false\n")+
		niche("D", 500, 500, 400, ""))
	var names []string
	for _, k := range r.KeepOuts {
		names = append(names, k.Name)
	}
	if want := []string{"niche", "niche 2"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	for i, w := range r.Walls {
		if next := r.Walls[(i+1)%len(r.Walls)]; w.Length() < 1 || w.B != next.A {
			t.Errorf("wall %s is from %v to %v, the next begins at %v", w.Letter, w.A, w.B, next.A)
		}
	}
	for _, k := range []struct {
		from, width float64
		want        bool
	}{{10, 500, true}, {9, 500, false}, {2000, 990, true}, {2000, 995, false}} {
		said := saidOf(t, anticlockwise, niche("C", k.from, k.width, 400, ""))
		if (said == "") != k.want || !k.want && !strings.Contains(said, "in a corner of wall C") {
			t.Errorf("from %g, %g wide: %s", k.from, k.width, said)
		}
	}
	u := "corners = [[0, 0], [3000, 0], [3000, 2000], [2000, 2000], [2000, 500], [1000, 500], [1000, 2000], [0, " +
		"2000]]\n"
	for depth, want := range map[float64]bool{900: false, 1100: true} { // the arms stand 1000 mm apart
		said := saidOf(t, u, niche("D", 300, 500, depth, ""))
		if strings.Contains(said, "a niche of room \"R\" would meet another wall") != want {
			t.Errorf("%g mm deep: %s", depth, said)
		}
	}
}

// What a thing's own keys leave open or say twice, where its back is, and what begins a figure.
func TestThingsByTheirKeys(t *testing.T) {
	for _, k := range []struct{ things, want string }{
		{"[[room.fixture]]\nkind = \"column\"\nat = [900, 900]\ndiameter = 300\nwidth = 200\n",
			"and is round: width says nothing"},
		{"[[room.fixture]]\nkind = \"column\"\nat = [900, 900]\ndiameter = 300\nangle = 20\n",
			"and is round: angle says nothing"},
		{"[[room.fixture]]\nkind = \"hearth\"\nwall = \"C\"\nfrom = 500\ndepth = 300\n",
			"has no usual size, and no width is given"},
	} {
		if said := saidOf(t, anticlockwise, k.things); !strings.Contains(said, k.want) {
			t.Errorf("%q: %s", k.things, said)
		}
	}
	at := "[[room.fixing]]\nkind = \"door stop\"\nwall = \"C\"\nfrom = "
	if said := saidOf(t, anticlockwise, at+"3000\n"); said != "" {
		t.Error(said)
	}
	for outline, want := range map[string]plane.Segment{
		"[[1000, 400], [1000, 0], [1600, 0], [1600, 400]]":       {A: plane.Pt(1000, 0), B: plane.Pt(1600, 0)},
		"[[1000, 900], [1600, 900], [1600, 1300], [1000, 1300]]": {A: plane.Pt(1000, 900), B: plane.Pt(1600, 900)},
	} {
		r := roomOf(t, anticlockwise, "[[room.fixture]]\nkind = \"cabinet\"\noutline = "+outline+"\n")
		if got := r.Fixtures[0].Back; got != want {
			t.Errorf("%s: its back is %v, want %v", outline, got, want)
		}
	}
	if got := round(plane.Pt(0, 0), 200).back; got != (plane.Segment{A: plane.Pt(-100, -100), B: plane.Pt(100, -100)}) {
		t.Errorf("the back of a round thing is %v", got)
	}
	for _, k := range productKinds {
		if got := k.keys()[0].Otherwise; (got == "") != (k.pack != "") {
			t.Errorf("%s: %q", k.key, got)
		}
	}
	for written, want := range map[string]string{"": "", "x5": "", `"5 mm"`: "5", "1/2 in": "1/2"} {
		if got, _ := figureOf(written); got != want {
			t.Errorf("%s: %q, want %q", written, got, want)
		}
	}
}

// Only a warning can be allowed: W and three figures.
func TestWhatCanBeAllowed(t *testing.T) {
	for id, want := range map[string]bool{"W103": true, "E103": false, "W10": false, "W1034": false, "w": false} {
		said := reported("[[allow]]\nid = \"" + id + "\"\nreason = \"seen\"\n" + head + "[[room]]\nname = \"R\"\n" +
			anticlockwise + tail)
		if strings.Contains(said, "is not the name of a warning") == want {
			t.Errorf("%s: %s", id, said)
		}
	}
	for depth, want := range map[string]string{"0.9": "sealed joints are 1 to 80 mm deep",
		"1": "are usually 3 to 40 mm deep"} {
		said := reported(head + "[materials]\nsealant_depth = " + depth + "\n[[room]]\nname = \"R\"\n" + anticlockwise +
			tail)
		if !strings.Contains(said, want) {
			t.Errorf("%s mm: %s", depth, said)
		}
	}
}

// A scale has two lengths above nothing, one of them a millimetre.
func TestScalesOfAJob(t *testing.T) {
	for s, want := range map[string]float64{"1:20": 20, "2:1": 0.5, "1:1": 1, "1/2in = 1ft": 24, "0.5:1": 2} {
		if got, err := parseScale(s); err != nil || math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g, %v", s, got, err)
		}
	}
	for _, s := range []string{"1:0", "0:1", "1:-5", "20", "x:1", "1:x"} {
		if got, err := parseScale(s); err == nil {
			t.Errorf("%s: %g", s, got)
		}
	}
}

// A box before a doorway of a curved wall hangs beside it.
func TestBoxesBesideADoorOfACurve(t *testing.T) {
	things := "[[room.arc]]\nwall = \"A\"\nrise = 300\n[[room.opening]]\nkind = \"door\"\nwall = \"A\"\nfrom = " +
		"%g\nwidth = 700\n"
	for from, want := range map[float64]bool{1500: false, 200: false, 50: true} { // the box hangs at 100 mm
		if said := saidOf(t, anticlockwise, fmt.Sprintf(things, from)); strings.Contains(said,
			"would hang in door") != want {
			t.Errorf("a door from %g: %s", from, said)
		}
	}
}

// What is counted is counted from one, and a list that is given has an entry.
func TestWhatIsCountedFromOne(t *testing.T) {
	var counted, listed []string
	for _, k := range Keys() {
		if k.Type == TypeWhole && k.Limits.Min == 1 {
			counted = append(counted, k.Path)
		}
		if k.Least == 1 {
			listed = append(listed, k.Path)
		}
	}
	slices.Sort(counted)
	slices.Sort(listed)
	if want := []string{"as_laid.mark.run", "as_laid.photo.run.run", "as_laid.runs", "format", "labour.crew",
		"proposal.valid_days",
		"spacing.closest",
		"spacing.widest"}; !slices.Equal(counted, want) {
		t.Errorf("%q", counted)
	}
	if want := []string{"as_laid.legs", "room.diagonals"}; !slices.Equal(listed, want) {
		t.Errorf("%q", listed)
	}
	tile := "[tile]\nlength = 300\nwidth = 300\njoint = "
	for line, want := range map[string]string{tile + "0.9\n": "usually 1 to 15 mm wide", tile + "1\n": "",
		"[materials]\nbed_thickness = 0.9\n": "tile is bedded in 1 to 60 mm"} {
		said := reported(head + line + "[[room]]\nname = \"R\"\n" + anticlockwise + tail)
		if !strings.Contains(said, want) || want == "" && strings.Contains(said, "joint") {
			t.Errorf("%q: %s", line, said)
		}
	}
}

// Lengths as they are typed in a job in inches: no feet or inches that are none.
func TestLengthsAsTheyAreTyped(t *testing.T) {
	in := table{rd: &reader{units: plane.Inches}}
	for inches, want := range map[float64]string{0.5: "1/2in", 3: "3in", 3.5: "3-1/2in", 60: "5ft", 60.5: "5ft 0-1/2in",
		63: "5ft 3in", 63.0625: "5ft 3-1/16in"} {
		if got := plainLength(in, inches*plane.Inch); got != want {
			t.Errorf("%g in: %q, want %q", inches, got, want)
		}
		if mm, err := plane.ParseLength(want, plane.Inches); err != nil || math.Abs(mm-inches*plane.Inch) > 1e-9 {
			t.Errorf("%s is read as %g, %v", want, mm, err)
		}
	}
	if got := plainLength(table{rd: &reader{units: plane.Millimetres}}, 12.5); got != "12.5 mm" {
		t.Error(got)
	}
	for s, want := range map[string]bool{"a": true, "z": true, "-": true, "9": false, " ": false, "": false} {
		if letterAt(s, 0) != want {
			t.Errorf("%q is a letter: %v", s, !want)
		}
	}
}
