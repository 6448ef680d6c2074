package job

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// A job with a table of most kinds, none of which is named by another: what goes wrong with
// a value has no more to say than that.
const alone = `units = "mm"
[membrane]
pitch = 30
[tile]
size = [300, 600]
joint = 3
per_box = 6
[spacing]
closest = 2
widest = 4
[[cable]]
id = "A"
volts = 230
watts = 440
length = "40 m"
lead = "4 m"
[sensor]
kind = "table"
table = ["10 C 19900", "20 C 12490", "30 C 8057"]
tolerance = 2
[[revision]]
letter = "X"
text = "as built"
date = 2026-11-24
[[room]]
name = "Alone"
measured_to = "stud"
lining = 15
walls = ["east 3 m", "north 2 m", "west 3 m", "south 2.02 m"]
closure = 40
diagonals = ["A-C 3.6 m"]
first_peg = [400, 300]
along = "A"
[[room.arc]]
wall = "B"
rise = 200
[[room.niche]]
wall = "A"
from = 1200
width = 700
depth = 300
[[room.partition]]
from = "A 700"
to = [700, 800]
thickness = 100
[[room.opening]]
kind = "door"
wall = "C"
from = 100
width = 800
[[room.fixture]]
kind = "cabinet"
wall = "D"
from = 400
width = 500
depth = 300
clear = 20
[[room.fixture]]
kind = "column"
at = [2000, 1000]
diameter = 200
[[room.joint]]
from = [1500, 0]
to = [1500, 2000]
clear = 30
[[room.fixing]]
kind = "door stop"
at = [2500, 1500]
clear = 30
[[room.fixing]]
kind = "rail"
wall = "C"
from = 1000
width = 300
off = 20
[[room.keep_out]]
outline = [[2200, 300], [2400, 300], [2400, 500], [2200, 500]]
clear = 20
[[room.low]]
at = [2600, 700]
width = 100
depth = 100
[[room.cold]]
at = [2600, 1000]
width = 100
depth = 100
[[room.revised]]
letter = "X"
at = "D 300, 400"
[room.thermostat]
wall = "C"
from = 1500
height = 1200
`

// lonely reads the job alone with its line i written anew, and returns what is said.
func lonely(i int, line string) *Report {
	lines := strings.Split(alone, "\n")
	lines[i] = line
	_, r := readText(strings.Join(lines, "\n"))
	return r
}

// A value that is none of its key's, at any key, is said once, in its line, and nothing
// that would follow from its want is.
func TestAnUnreadableValueIsSaidOnce(t *testing.T) {
	if j := mustRead(t, alone); len(j.Rooms[0].Fixtures) != 2 {
		t.Fatal("the job does not say what it should")
	}
	for i, was := range strings.Split(alone, "\n") {
		key, _, ok := strings.Cut(was, " = ")
		if !ok || key == "id" || key == "letter" { // named by others
			continue
		}
		for _, value := range []string{`{ odd = "?" }`, ""} {
			r := lonely(i, key+" = "+value)
			at := 0
			for _, d := range r.Diagnostics() {
				if d.Severity == Error {
					at = r.Position(d.Span.File, d.Span.Start).Line
				}
			}
			if r.Errors() != 1 || at != i+1 {
				t.Errorf("line %d, %s = %s, is said thus:\n%s", i+1, key, value, spoken(r))
			}
		}
	}
}

// What is said of a job alone where one line of it is another.
func TestSaidOfOneLine(t *testing.T) {
	was := strings.Split(alone, "\n")
	for _, c := range []struct{ old, line, want string }{
		{"date = 2026-11-24", "date = 07:32:00", "not a time of day"},
		{"kind = \"column\"", "knd =", "knd has no value"},
		{"from = [1500, 0]", "from = \"Z 100\"", `movement joint "MJ1" stands on wall "Z"`},
		{"to = [1500, 2000]", "to = \"Z 100\"", `movement joint "MJ1" stands on wall "Z"`},
		{"at = [2500, 1500]", "at = \"Z 300, 400\"", `door stop stands on wall "Z"`},
		{"name = \"Alone\"", "name = \"" + strings.Repeat("é", maxName) + "\"", ""},
		{"name = \"Alone\"", "name = \"" + strings.Repeat("é", maxName+1) + "\"", "has 101 letters; 100 are the most"},
		{"text = \"as built\"", "text = \"" + strings.Repeat("n", maxText) + "\"", ""},
		{"text = \"as built\"", "text = \"" + strings.Repeat("n", maxText+1) + "\"", "1001 bytes; 1000 are the most"},
	} {
		i := 0
		for was[i] != c.old {
			i++
		}
		got := spoken(lonely(i, c.line))
		if c.want == "" && got != "" || !strings.Contains(got, c.want) || strings.Count(got, " error: ") > 1 {
			t.Errorf("%s: want %q, got\n%s", c.line, c.want, got)
		}
	}
}

// Where lists of walls go wrong: at the ends of what is taken, and in words by which wall.
func TestSaidOfWalls(t *testing.T) {
	for _, c := range []struct{ walls, want string }{
		{`"east 3 m", "north 2 m", "west 3 m", "south 4.9 mm"`, "is its unit missing?"},
		{`"east 3 m", "north 2 m", "west 3 m", "south 0 mm"`, "write it like walls"},
		{`"east 3 m", "north 1 m", "east 1 m", "north 1 m", "west 4 m", "south 1 m", "south 1.2 m"`,
			"it is B (200 mm more) or D (200 mm more) or F (200 mm less) or G (200 mm less); tape it again"},
		{`"east 3 m", "north 1 m", "east 1 m", "north 1 m", "west 4 m", "south 1 m", "south 0.5 m", "south 0.7 m"`,
			"tape the walls again; a wall left out would be \"north 200 mm\""},
		{`"east 3 m", "north 2 m", "west 2.5 m"`, "is the last wall missing? add \"south 2061.6 mm\""},
	} {
		_, r := readText(head + "[[room]]\nname = \"R\"\nwalls = [" + c.walls + "]\n" + tail)
		if got := spoken(r); !strings.Contains(got, c.want) || strings.Count(got, " error: ") != 1 {
			t.Errorf("%s: want %q, got\n%s", c.walls, c.want, got)
		}
	}
	for _, c := range []struct{ corners, want string }{
		{"[[0, 0], [3000, 0], [0, 2000], [3000, 2000]]", "corners 3 and 4 are the wrong way round: swap them"},
		{"[[0, 0], [3000, 0], [0, 2000], [1500, 2600], [3000, 2000]]",
			"corners 3 to 5 are the wrong way round: write them from the last to the first"},
		{"[[0, 0], [3000, 0], [0, 2000], [500, 2600], [2500, 2600], [3000, 2000]]", "corners 3 to 6 are the wrong"},
		{"[[0, 0], [3000, 0], [3000, 0], [3000, 2000], [0, 2000]]", "leave out one of the two corners"},
	} {
		_, r := readText(head + "[[room]]\nname = \"R\"\ncorners = " + c.corners + "\n" + tail)
		if got := spoken(r); !strings.Contains(got, c.want) || strings.Count(got, " error: ") != 1 {
			t.Errorf("%s: want %q, got\n%s", c.corners, c.want, got)
		}
	}
	inches := strings.NewReplacer(`units = "mm"`, `units = "in"`, "pitch = 30", `pitch = "30 mm"`).Replace(head)
	_, r := readText(inches + "[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n" + tail)
	if got := spoken(r); !strings.Contains(got, "in mm its figures would make 64.6 ft² of floor") {
		t.Error(got)
	}
}

// By hand: floor left cold is numbered, a place an inch and the tape's slack outside is taken,
// one a millimetre farther is not.
func TestPlacesAtTheEdgeOfARoom(t *testing.T) {
	cold := "[[room.cold]]\nat = [%, 1000]\nwidth = 100\ndepth = 100\n"
	r := roomOf(t, anticlockwise, strings.ReplaceAll(cold, "%", "500")+strings.ReplaceAll(cold, "%", "900"))
	for i, want := range []string{"left cold", "left cold 2"} {
		if r.KeepOuts[i].Name != want {
			t.Errorf("%q, want %q", r.KeepOuts[i].Name, want)
		}
	}
	row := "[[revision]]\nletter = \"B\"\ntext = \"moved\"\n"
	beside := "[[room.fixture]]\nkind = \"vanity\"\nname = \"one\"\nwall = \"C\"\nfrom = 0\nwidth = 1000\n" +
		"depth = 300\n" +
		"[[room.fixture]]\nkind = \"vanity\"\nname = \"two\"\nbeside = \"one\"\nwidth = "
	for _, c := range []struct{ things, want string }{
		{"[[room.revised]]\nletter = \"B\"\nat = [400, -5]\n" + row, ""},
		{"[[room.revised]]\nletter = \"B\"\nat = [400, -6]\n" + row,
			"what revision B changed lies 6 mm outside wall A"},
		{beside + "2005\ndepth = 300\n", ""},
		{beside + "2006\ndepth = 300\n", "two\" finds no room beside \"one\": it would run from 1000 mm to 3006 mm"},
	} {
		if got := saidOf(t, anticlockwise, c.things); c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q, got\n%s", c.things, c.want, got)
		}
	}
	rd := newReader(&Report{}, newSchema(nil), "", nil)
	at := table{rd, &tree.Node{}, ""}
	for off, want := range map[float64]bool{onWallReach + r.slack(): true, 31: false} {
		if got := r.laidInside(at, "the joint", Span{}, plane.Pt(1500, -off)); got != want {
			t.Errorf("%g mm outside: taken %v", off, got)
		}
		j := &Job{Cables: []Cable{{ID: "A", Length: 30000}}}
		c := issuedCable{ID: "H1", Label: "A", Length: 30000, Path: [][2]float64{{100, 100}, {1500, -off}}}
		if _, err := j.issuedCable(c, &r); (err == nil) != want {
			t.Errorf("a path %g mm outside: %v", off, err)
		}
	}
	for width, want := range map[float64]string{2999.75: "from may be 0 here", 2999.5: "from may be 0.5 mm at most"} {
		if got := alongHint(at, "from", 3000, width); got != want {
			t.Errorf("%g mm wide: %s", width, got)
		}
	}
}

// A side 5 mm off a wall at either end does not lie on it: the back is the first side then.
func TestSidesThatLieOnAWall(t *testing.T) {
	for _, c := range []struct {
		outline string
		back    plane.Point // where it begins
	}{
		{"[[1600, 400], [1000, 400], [1000, 4], [1600, 4]]", plane.Pt(1000, 4)},
		{"[[1600, 400], [1000, 400], [1000, 4], [1600, 5]]", plane.Pt(1600, 400)},
		{"[[1600, 400], [1000, 400], [1000, 5], [1600, 4]]", plane.Pt(1600, 400)},
	} {
		r := roomOf(t, anticlockwise, "[[room.fixture]]\nkind = \"cabinet\"\noutline = "+c.outline+"\n")
		if got := r.Fixtures[0].Back.A; got != c.back {
			t.Errorf("%s: its back begins at %v, want %v", c.outline, got, c.back)
		}
	}
}

// Small things of reading: what is the last of an empty list, a line that a file does not have,
// what a record without a word of the cable says, in what units a job is printed.
func TestSmallThingsOfReading(t *testing.T) {
	if empty := (&tree.Node{Kind: tree.Array}); lastLeaf(empty) != empty {
		t.Error("an empty list has a last value")
	}
	r := &Report{}
	r.AddSource("prices.csv", []byte("code,price\nmembrane,5\n"))
	for line, want := range map[int]Span{0: {File: "prices.csv"}, 1: {"prices.csv", 0, 4}, 2: {"prices.csv", 11, 15},
		9: {File: "prices.csv"}} {
		if got := r.spanAt("prices.csv", line, 1, 4); got != want {
			t.Errorf("line %d is at %v, want %v", line, got, want)
		}
	}
	if got := r.spanAt("other.csv", 1, 1, 4); got != (Span{File: "other.csv"}) {
		t.Errorf("a file that was not read: %v", got)
	}
	for _, c := range []struct {
		a    Laid
		want bool
	}{{Laid{}, false}, {Laid{AsPlanned: true}, true}, {Laid{Runs: 4}, false}, {Laid{Legs: []Leg{{0, 9}}}, true}} {
		if c.a.Whole() != c.want {
			t.Errorf("%+v says where the whole cable lies: %v", c.a, !c.want)
		}
	}
	for _, c := range []struct{ sheet, want plane.Units }{{plane.NoUnits, plane.Inches},
		{plane.Millimetres, plane.Millimetres}} {
		j := Job{Units: plane.Inches, Sheet: Sheet{Units: c.sheet, Both: true}}
		if j.Printed() != c.want || j.Figures().Units != c.want || !j.Figures().Both {
			t.Errorf("sheets in %v print in %v", c.sheet, j.Printed())
		}
	}
	rd := newReader(&Report{}, newSchema(nil), "", nil)
	k := Key{Path: "revision.text", Type: TypeText}
	for n, want := range map[int]bool{longestRewriting: true, longestRewriting + 1: false} {
		if got := rd.accepted(k, "“"+strings.Repeat("a", n-6)+"”"); (got != "") != want {
			t.Errorf("a value of %d bytes is written as %q", n, got)
		}
	}
}

// Names that are near, figures in short, and texts in quotes, by hand at the ends of what is taken.
func TestWordsAtTheirEnds(t *testing.T) {
	for n, want := range map[int]bool{longestWord: true, longestWord + 1: false} {
		word := strings.Repeat("k", n)
		if got := nearest(word, []string{word[1:]}); (got != "") != want {
			t.Errorf("%d letters: %q", n, got)
		}
	}
	for v, want := range map[float64]string{9.94: "9.9", 9.96: "10", 10.04: "10", 10.06: "10.1", 12: "12",
		12.34: "12.3",
		99.4:  "99.4", 99.6: "100", 123.4: "123", 0.126: "0.13", -12.34: "-12.3", -0.5: "-0.5", 1: "1"} {
		if got := brief(v); got != want {
			t.Errorf("%g in short is %s, want %s", v, got, want)
		}
	}
	for s, want := range map[string]string{"": "", "a": `"a"`, `5"`: `'5"'`, `C:\x`: `'C:\x'`, "5'": `"5'"`,
		`5' 2"`: ""} {
		if got := inQuotes(s); got != want {
			t.Errorf("%q in quotes is %s, want %s", s, got, want)
		}
	}
	rd := newReader(&Report{}, newSchema(nil), "", nil)
	share := Key{Path: "tile.waste", Type: TypeShare, Limits: Limits{Max: 1}}
	for typed, want := range map[string]string{"2": `"2 %"`, "10": `"10 %"`, "1.9": `"1.9"`, "12,5": `"12.5 %"`} {
		if got := rd.rewritings(share, typed); !slices.Contains(got, want) ||
			strings.Contains(want, "%") != slices.Contains(got, `"`+strings.ReplaceAll(typed, ",", ".")+` %"`) {
			t.Errorf("%s as a share may be %q, want %s", typed, got, want)
		}
	}
	closed := []plane.Point{{}, {X: 9}, {}}
	if got := opened(closed); len(got) != 3 {
		t.Errorf("three points of which two are one: %v", got)
	}
	if got := opened([]plane.Point{{}, {X: 9}, {X: 9, Y: 9}, {}}); len(got) != 3 {
		t.Errorf("a triangle closed: %v", got)
	}
	got := HeatCannotBe(10000, 1e6, true, plane.Millimetres)
	if !strings.HasSuffix(got, "make 10000 W/m²; tiled floors are given 10 to 500 W/m² ("+commonPractice+")") {
		t.Error(got)
	}
	if got := HeatCannotBe(5, 1e6, false, plane.Millimetres); got != "" {
		t.Errorf("5 W where there may be more floor than theirs: %s", got)
	}
	if got := HeatCannotBe(5, 1e6, true, plane.Millimetres); !strings.Contains(got, "make 5 W/m²") {
		t.Errorf("5 W on all of a square metre: %q", got)
	}
}

// What is said of a whole job, by what of it is odd.
func TestSaidOfOddJobs(t *testing.T) {
	room := func(keys string) string { return head + "[[room]]\nname = \"R\"\n" + keys + tail }
	cable := func(keys string) string {
		return head + "[[cable]]\nid = \"Z\"\nvolts = 120\nwatts = 240\nlength = 20000\nlead = 3000\n" + keys +
			"[[room]]\nname = \"R\"\n" + anticlockwise + tail
	}
	tile := func(second string) string {
		return room(anticlockwise + "first_tile = [[100, 100], " + second + "]\n")
	}
	for _, c := range []struct{ text, want string }{
		{room("corners = [[0, 0], [1990, 0], [1990, 50], [0, 50]]\n"), "in cm its figures would make 10 m² of floor"},
		{room("corners = [[5, 5], [5, 5], [5, 5]]\n"), "leave out one of the two corners"},
		{room(anticlockwise + "[[room.revised]]\nletter = \"A\"\nat = [400, 300]\n"),
			"add it: [[revision]] with its letter, text and date"},
		{cable("ohms = 7\n"), "read volts, watts and ohms off the label again"},
		{cable("ohms = 240\n"), "are the volts right? 240 V would make 240 ohms"},
		{cable("ohms = 60\n"), ""},
		{head + "[sheet]\nscale = \"1:37\"\n" + strings.TrimPrefix(room(anticlockwise), head),
			"standard scales: 1:1, 1:2, 1:5, 1:10, 1:15, 1:20, 1:25, 1:30, 1:40, 1:50, 1:75, 1:100, 1:200, 1:500, " +
				"3in = 1ft, 1-1/2in = 1ft, 1in = 1ft"},
		{tile("[200, 100]"), ""}, {tile("[199.9, 100]"), "too near to tell which way the rows run"},
		{room("walls = [\"east 3\", \"north 2\", \"west 3\", \"south 2\"]\n"), "is its unit missing?"},
		{room("walls = [\"east 3\", \"north 2\", \"west 3\", \"up 2\"]\n"),
			`wall "up 2" does not begin with a direction`},
	} {
		_, r := readText(c.text)
		if got := spoken(r); c.want == "" && strings.Contains(got, " error: ") || !strings.Contains(got, c.want) {
			t.Errorf("want %q, got\n%s", c.want, got)
		}
	}
	zone := "[[room.zone]]\nat = [500, 500]\n"
	r := roomOf(t, anticlockwise, zone+"cold = true\n"+zone+"name = \"spa\"\ndensity = 100\n"+zone+"density = 150\n")
	for i, want := range []string{"zone 1", "spa", "zone 3"} {
		if r.Zones[i].Name != want {
			t.Errorf("%q, want %q", r.Zones[i].Name, want)
		}
	}
}

// A price list ends with the ten thousandth price, at its first column.
func TestMorePricesThanAreRead(t *testing.T) {
	var list strings.Builder
	list.WriteString("code,price\n")
	for i := range maxPrices + 1 {
		fmt.Fprintf(&list, "part-%05d,%d\n", i, i)
	}
	j, r := Read("job.toml", []byte("prices = \"p.csv\"\n"+head+"[[room]]\nname = \"R\"\n"+anticlockwise+tail),
		func(string) ([]byte, error) { return []byte(list.String()), nil })
	d := r.Diagnostics()[0]
	if len(j.Prices) != maxPrices || r.Errors() != 1 || d.Message != "the price file has more than 10000 prices" ||
		r.Position("p.csv", d.Span.Start).Line != maxPrices+2 || d.Span.End-d.Span.Start != len("part-10000") {
		t.Errorf("%d prices; %+v", len(j.Prices), d)
	}
}

// A partition that begins at the face of another goes on to its far face.
func TestPartitionsFaceToFace(t *testing.T) {
	part := func(from, to, thickness string) string {
		return "[[room.partition]]\nfrom = " + from + "\nto = " + to + "\nthickness = " + thickness + "\n"
	}
	r := roomOf(t, anticlockwise, part("[1500, 0]", "[1500, 1200]", "100")+part("[1550, 600]", "[2600, 600]", "60")+
		part("[400, 900]", "[1450, 900]", "60")+part("[2651, 300]", "[2651, 900]", "100"))
	for i, want := range [][2]float64{{1450, 1550}, {1500, 2600}, {400, 1500}, {2601, 2701}} {
		if b := r.KeepOuts[i].Outline.Bounds(); b.Min.X != want[0] || b.Max.X != want[1] {
			t.Errorf("partition %d runs from %g to %g, want %v", i+1, b.Min.X, b.Max.X, want)
		}
	}
}
