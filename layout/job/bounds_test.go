package job

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/circuit"
	"oxturn/layout/plancode"
	"oxturn/layout/plane"
)

// said is all that is said of a room of 3 x 2 m with more keys and tables.
func said(things string) string {
	_, report := readText(head + "[[room]]\nname = \"R\"\n" + anticlockwise + things + tail)
	return human(report)
}

// What lies exactly on a bound is taken, what lies a bit beyond is not; a thing
// that is wrong in one way is told of once.
func TestBoundsOfThings(t *testing.T) {
	thing := func(kind, keys string) string { return "[[room." + kind + "]]\n" + keys + "\n" }
	cabinet := func(keys string) string { return thing("fixture", "kind = \"cabinet\"\n"+keys) }
	two := func(second string) string {
		vanity := func(keys string) string { return thing("fixture", "kind = \"vanity\"\n"+keys) }
		return vanity("at = [1000, 1000]\nwidth = 600\ndepth = 600") + vanity("name = \"other\"\n"+second)
	}
	for _, c := range []struct{ name, things, want string }{
		{"to the end of its wall", cabinet("wall = \"A\"\nfrom = 2198\nwidth = 800"), ""},
		{"as far over it as a tape may err", cabinet("wall = \"A\"\nfrom = 2205\nwidth = 800"), ""},
		{"too far over it", cabinet("wall = \"A\"\nfrom = 2206\nwidth = 800"), "ends 6 mm beyond the end of wall A"},
		{"nearly as wide as the wall", cabinet("wall = \"A\"\nfrom = 100\nwidth = 2998"),
			"ends 98 mm beyond the end of wall A"},
		{"as wide as the wall and a tape's error", cabinet("wall = \"A\"\nfrom = 1\nwidth = 3005"),
			"ends 6 mm beyond the end of wall A"},
		{"before the wall's start", cabinet("wall = \"A\"\ncentre = 300\nwidth = 800"),
			"begins 100 mm before the start of wall A"},
		{"overlapping by what a tape may err", two("at = [1595, 1000]\nwidth = 600\ndepth = 600"), ""},
		{"overlapping by more", two("at = [1594, 1000]\nwidth = 600\ndepth = 600"), "overlaps"},
		{"one within the other", two("at = [1000, 1000]\nwidth = 200\ndepth = 200"), "overlaps"},
		{"the other within the one", two("at = [1000, 1000]\nwidth = 900\ndepth = 900"), "overlaps"},
		{"a run of cabinets round a corner", cabinet("wall = \"B\"\nto_end = 0\nwidth = 1500") +
			cabinet("name = \"other\"\nwall = \"C\"\nfrom = 0\nwidth = 1500"), ""},
		{"an appliance under a worktop", cabinet("wall = \"C\"\nfrom = 0\nwidth = 2000") +
			thing("fixture", "kind = \"dishwasher\"\nwall = \"C\"\nfrom = 700\nwidth = 600"),
			"is read as \"appliance\""},
		{"a cabinet written twice", cabinet("wall = \"C\"\nfrom = 0\nwidth = 2000") +
			cabinet("name = \"other\"\nwall = \"C\"\nfrom = 700\nwidth = 600"), "overlaps"},
		{"side by side", two("at = [1700, 1000]\nwidth = 600\ndepth = 600"), ""},
		{"an outline of half a square millimetre", thing("keep_out", "outline = [[500, 500], [501, 500], [500, 501]]"),
			"encloses nothing"},
		{"a fixing out of two walls alike", thing("fixing", "kind = \"pipe\"\nline = [[-50, 1000], [3050, 1000]]"),
			"50 mm outside wall D"},
		{"a joint over 0.7 mm of a corner", thing("joint", "from = [-9.5, 10]\nto = [10, -9.5]"), "misses room"},
		{"a joint over a corner", thing("joint", "from = [-9, 11]\nto = [11, -9]"), ""},
		{"a thermostat at the edge of a door", thing("opening", "wall = \"A\"\nfrom = 100\nwidth = 800"), ""},
		{"a thermostat in a door", thing("opening", "wall = \"A\"\nfrom = 90\nwidth = 800"), "would hang in door"},
		{"as many things as are taken", strings.Repeat(thing("fixing", "kind = \"pipe\"\nat = [500, 500]"), maxThings),
			""},
		{"a fixing that cannot be read", thing("fixing", "kind = \"pipe\"\nwall = \"A\"\nfrom = \"far\""),
			"1 error, 0 warnings"},
		{"more outside wall than there is", "exposed = 10006\n", "only 10000 mm round"},
		{"as much as there is", "exposed = 10005\n", ""},
		{"that, and another error", "exposed = 20000\nlow = 3\n", "1 error, 0 warnings"},
	} {
		got := said(c.things)
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q, got\n%s", c.name, c.want, got)
		}
	}
}

func TestWidestRoom(t *testing.T) {
	text := func(w string) string {
		return head + "[[room]]\nname = \"R\"\ncorners = [[0, 0], [" + w + ", 0], [" + w + ", 2000], [0, 2000]]\n" +
			tail
	}
	mustRead(t, text("100000"))
	if _, r := readText(text("100001")); !strings.Contains(human(r), "is the most") {
		t.Error(human(r))
	}
}

// A lining thicker than half the room turns its sides round, one or all.
func TestLiningThatLeavesNothing(t *testing.T) {
	for lining, want := range map[string]string{"900": "", "1000": "leaves nothing", "1200": "leaves nothing",
		"1600": "board and wall tile come to", "90000": "board and wall tile come to"} {
		for _, outline := range []string{anticlockwise, clockwise} {
			_, r := readText(head + "[[room]]\nname = \"R\"\n" + outline + "measured_to = \"stud\"\nlining = " +
				lining + "\n" + tail)
			if got := human(r); (want == "") != (r.Errors() == 0) || !strings.Contains(got, want) {
				t.Errorf("lining %s: want %q, got\n%s", lining, want, got)
			}
		}
	}
}

func TestBackOfAnOutline(t *testing.T) {
	back := func(outline string) plane.Segment {
		return roomOf(t, anticlockwise, "[[room.fixture]]\nkind = \"cabinet\"\noutline = "+outline).Fixtures[0].Back
	}
	// its long sides stand free; of two as long on walls the first is its back
	if b := back("[[3000, 500], [3000, 900], [2000, 900], [2000, 500]]"); b.A.X != 3000 || b.B.X != 3000 {
		t.Errorf("back %v", b)
	}
	if b := back("[[2000, 0], [3000, 0], [3000, 1000], [2000, 1000]]"); b.A.Y != 0 || b.B.Y != 0 {
		t.Errorf("back %v", b)
	}
}

func TestRoundAndFreeThings(t *testing.T) {
	r := roomOf(t, anticlockwise, "[[room.fixture]]\nkind = \"column\"\nwall = \"A\"\nfrom = 500\ndiameter = "+
		"300\n[[room.fixture]]\nkind = \"cabinet\"\nat = [2000, 1000]\nwidth = 800\ndepth = 600\n")
	b := r.Fixtures[0].Outline.Bounds()
	near(t, "column's middle", b.Centre().Dist(plane.Pt(650, 150)), 0, 3)
	near(t, "cabinet's floor", r.Fixtures[1].Outline.Area(), 800*600, 1e-6)
	samePoints(t, "cabinet", r.Fixtures[1].Outline, []plane.Point{{X: 1600, Y: 700}, {X: 2400, Y: 700},
		{X: 2400, Y: 1300}, {X: 1600, Y: 1300}})
}

func TestApartOrNot(t *testing.T) {
	box := func(x, y, w, h float64) plane.Ring { return plane.Rectangle(plane.Pt(x, y), plane.Pt(x+w, y+h)) }
	a := box(0, 0, 100, 100)
	for _, c := range []struct {
		b    plane.Ring
		want bool
	}{
		{box(100, 20, 50, 50), true}, {box(-50, 20, 50, 50), true}, {box(20, 100, 50, 50), true},
		{box(20, -50, 50, 50), true},
		{box(99, 20, 50, 50), false}, {box(-49, 20, 50, 50), false}, {box(20, 99, 50, 50), false},
		{box(20, -49, 50, 50), false},
		{box(20, 20, 10, 10), false}, {box(-20, -20, 200, 200), false},
		{plane.Ring{{X: 90, Y: 130}, {X: 130, Y: 90}, {X: 130, Y: 130}}, true}, // boxes overlap, shapes do not
	} {
		if got := apart(a, c.b); got != c.want {
			t.Errorf("%v: %v", c.b, got)
		}
	}
}

func TestParseDiagonal(t *testing.T) {
	rd := newReader(&Report{}, newSchema(nil), "", nil)
	rd.units = plane.Millimetres
	for _, c := range []struct {
		text    string
		corners int
		want    string // of the message; empty: read
	}{
		{"A-C 5000", 4, ""}, {"C-A 5000", 4, ""}, {"D-B 5000", 4, ""}, {"A-D 5000", 5, ""}, {"B-E 5000", 5, ""},
		{"A-A 5000", 4, "ends of one wall"}, {"A-B 5000", 4, "ends of one wall"}, {"B-A 5000", 4, "ends of one wall"},
		{"A-D 5000", 4, "ends of one wall"}, {"D-A 5000", 4, "ends of one wall"},
		{"A-Z 5000", 4, "walls A to D"}, {"Z-A 5000", 4, "walls A to D"},
		{"A-C 1000 m", 4, ""}, {"A-C 1000001", 4, "must be above 0"}, {"A-C 0", 4, "must be above 0"},
	} {
		d, got := parseDiagonal(table{rd: rd}, c.text, 0, c.corners)
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s of %d: %q, want %q", c.text, c.corners, got, c.want)
		}
		if got == "" && d.called() != strings.Fields(c.text)[0] {
			t.Errorf("%s is read as %s", c.text, d.called())
		}
	}
	// 12.7 mm is within what a tape leaves, in a room of 3 by 4 m
	room := "walls = [\"east 4000\", \"north 3000\", \"west 4000\", \"south 3000\"]\n"
	for length, want := range map[string]int{"5012.7": 0, "5012.8": 1, "4987.3": 0, "4987.2": 1} {
		if _, r := readText(head + "[[room]]\nname = \"R\"\n" + room + "diagonals = [\"A-C 5000\", \"B-D " + length +
			"\"]\n" + tail); r.Warnings() != want {
			t.Errorf("%s: %s", length, human(r))
		}
	}
}

func TestOhmsWithinTolerance(t *testing.T) {
	// 240² / 600 is 96 Ω; 91.2 to 105.6 Ω are the label's
	for ohms, want := range map[string]int{"91.2": 0, "91.1": 1, "105.6": 0, "105.7": 1} {
		_, r := readText(strings.Replace(head, "watts = 600\n", "watts = 600\nohms = "+ohms+
			"\ntolerance = [-0.05, 0.10]\n", 1) + "[[room]]\nname = \"R\"\n" + anticlockwise + tail)
		if r.Warnings() != want {
			t.Errorf("%s ohms: %s", ohms, human(r))
		}
	}
}

func TestFiguresOfMessages(t *testing.T) {
	for v, want := range map[float64]string{12345: "12345", -12345: "-12345", 12.3456: "12.35", 0.5: "0.5",
		1e15: "1e+15", 123456.5: "1.235e+05"} {
		if got := figure(v); got != want {
			t.Errorf("%v: %s, want %s", v, got, want)
		}
	}
}

// Names are looked up where something can be chosen from; else one error says it all.
func TestNoCableAndNoCatalogueThatCanBeRead(t *testing.T) {
	bare := "units = \"mm\"\n[membrane]\npitch = 30\n[[room]]\nname = \"R\"\n" + anticlockwise + tail
	for text, want := range map[string]string{bare: "has no cable to choose from", "catalogue = \"none.toml\"\n" +
		bare: "1 error"} {
		_, r := Read("job.toml", []byte(text), func(string) ([]byte, error) { return nil, os.ErrNotExist })
		if got := human(r); r.Errors() != 1 || !strings.Contains(got, want) {
			t.Errorf("want %q, got\n%s", want, got)
		}
	}
}

func TestRegionOfAJob(t *testing.T) {
	for _, c := range []struct {
		name string
		job  Job
		want circuit.Region
	}{
		{"metric", Job{Units: plane.Millimetres, Cables: []Cable{{Volts: 230}}}, circuit.Elsewhere},
		{"in inches", Job{Units: plane.Inches, Cables: []Cable{{Volts: 230}}}, circuit.NorthAmerica},
		{"120 V", Job{Units: plane.Millimetres, Cables: []Cable{{Volts: 230}, {Volts: 120}}}, circuit.NorthAmerica},
		{"240 V, of a catalogue for both", Job{Units: plane.Millimetres, Supply: Supply{Volts: 240}, Cables: []Cable{
			{Volts: 120}, {Volts: 240}}}, circuit.Elsewhere},
		{"by the supply", Job{Units: plane.Millimetres, Supply: Supply{Volts: 120}}, circuit.NorthAmerica},
		{"no volts said", Job{Units: plane.Millimetres, Cables: []Cable{{}}}, circuit.Elsewhere},
		{"150 V is no low supply", Job{Units: plane.Millimetres, Supply: Supply{Volts: 150}}, circuit.Elsewhere},
		{"by a wire's gauge", Job{Units: plane.Millimetres, Circuits: []Circuit{{Conductor: "12 AWG"}}},
			circuit.NorthAmerica},
		{"by a wire's square", Job{Units: plane.Millimetres, Circuits: []Circuit{{Conductor: "2.5 mm²"}}},
			circuit.Elsewhere},
		{"as it says", Job{Units: plane.Inches, Supply: Supply{Region: circuit.Europe.Name}}, circuit.Europe},
	} {
		if got := c.job.Region(); got.Name != c.want.Name {
			t.Errorf("%s: %s, want %s", c.name, got.Name, c.want.Name)
		}
	}
}

// Every unit, by what one of it is: the pound and the foot of 1959, the gallon of
// 231 cubic inches, the British thermal unit of the International Table (from memory).
func TestEveryUnit(t *testing.T) {
	foot, pound := 0.3048, 0.45359237
	btuPerHour := 1055.05585262 / 3600 / (foot * foot) * 1.8
	for _, c := range []struct {
		units []unit
		names string
		want  float64
	}{
		{angleUnits, "deg,°,degrees", 1}, {shareUnits, "%,percent", 0.01},
		{areaUnits, "m2,m²,sqm", 1}, {areaUnits, "ft2,ft²,sqft,sq ft", foot * foot},
		{volumeUnits, "L,l,litres", 1}, {volumeUnits, "ml,mL", 0.001},
		{volumeUnits, "gal", 231 * 2.54 * 2.54 * 2.54 / 1000}, {volumeUnits, "ft3,ft³", foot * foot * foot * 1000},
		{massUnits, "kg", 1}, {massUnits, "lb,lbs", pound}, {massUnits, "g", 0.001},
		{spanUnits, "m", 1}, {spanUnits, "ft", foot}, {spanUnits, "cm", 0.01}, {spanUnits, "mm", 0.001},
		{transmittanceUnits, "W/m2K,W/m²K,W/m2 K,W/(m2 K),W/(m² K),W/(m²K)", 1},
		{transmittanceUnits, "Btu/h ft2 F,Btu/(h ft2 F),Btu/h ft² °F,Btu/(h ft² °F),Btu/hr ft2 F", btuPerHour},
		{densityUnits, "W/m2,W/m²", 1}, {densityUnits, "W/ft2,W/ft²,W/sqft", 1 / (foot * foot)},
	} {
		for _, name := range strings.Split(c.names, ",") {
			got, err := quantity("2 "+name, c.units)
			if err != nil || math.Abs(got/2/c.want-1) > 1e-6 {
				t.Errorf("2 %s is %g, want %g (%v)", name, got, 2*c.want, err)
			}
		}
	}
}

func TestDistanceOfWords(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"ab", "ba", 1}, {"abcd", "abdc", 1}, {"kitten", "sitting", 3}, {"ca", "abc", 3}, {"", "abc", 3}, {"same", "same",
		0}, {"abcdef", "badcfe", 3}} {
		if got, back := LettersApart(c.a, c.b), LettersApart(c.b, c.a); got != c.want || back != c.want {
			t.Errorf("%q and %q: %d and %d, want %d", c.a, c.b, got, back, c.want)
		}
	}
	for word, want := range map[string]string{"in": "inches", "inches wide": "inches", "i": "", "m": ""} {
		if got := onlyLonger(word, []string{"inches", "mm"}); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

func TestThingsAreNamed(t *testing.T) {
	for _, c := range []struct{ kind, name, want string }{
		{"toilet", "", "toilet"}, {"toilet", "toilet", "toilet"}, {"toilet", "toilet 2", "toilet 2"},
		{"toilet", "toilet by the door", `toilet "toilet by the door"`},
		{"toilet", "12", `toilet "12"`}, {"toilet", "toilet ", `toilet "toilet "`},
	} {
		if got := thing(c.kind, c.name); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
	r := roomOf(t, anticlockwise, "[[room.fixing]]\nkind = \"pipe\"\nat = [900, 900]\n[[room.fixing]]\nkind = "+
		"\"pipe\"\nname = \"riser\"\nat = [500, 500]\n")
	if len(r.Fixings) != 2 || r.Fixings[0].Name != "pipe" || r.Fixings[1].Name != "riser" {
		t.Errorf("%+v", r.Fixings)
	}
	for path, want := range map[string]bool{"job.title": true, "room.name": true, "catalogue": false, "prices": false} {
		i := slices.IndexFunc(Keys(), func(k Key) bool { return k.Path == path })
		if i < 0 || isName(Keys()[i]) != want {
			t.Errorf("%s (%d) is a name: %v", path, i, !want)
		}
	}
	if isName(Key{Path: "pitch", Type: TypeLength}) {
		t.Error("a length is no name")
	}
}

// A share is of a whole, and what is counted begins at one.
func TestKeysOfSharesAndCounts(t *testing.T) {
	for _, k := range Keys() {
		if k.Type == TypeShare && k.Limits.Max != 1 {
			t.Errorf("%s may be %g", k.Path, k.Limits.Max)
		}
		for _, path := range []string{"closest", "widest", "as_laid.runs", "as_laid.miscount.run", "as_laid.mark.run"} {
			if k.Type == TypeWhole && strings.HasSuffix("membrane."+k.Path, path) && k.Limits.Min > 1 {
				t.Errorf("%s begins at %g", k.Path, k.Limits.Min)
			}
		}
	}
	for _, piece := range []string{"closest = 0", "widest = 0"} {
		if _, r := readText(strings.Replace(head, "pitch = 30", "pitch = 30\n"+piece, 1) + "[[room]]\nname = \"R\"\n" +
			anticlockwise + tail); r.Errors() == 0 {
			t.Errorf("%s is taken", piece)
		}
	}
	if _, r := readText(head + "[[room]]\nname = \"R\"\n" + anticlockwise + tail +
		"[[as_laid]]\nroom = \"R\"\nevidence = \"plan only\"\nruns = 0\n"); r.Errors() == 0 {
		t.Error("runs = 0 is taken")
	}
}

// record is what is said of a room with one record as laid.
func record(keys string) (*Job, string) {
	j, report := readPlanned(head + "[[room]]\nname = \"R\"\n" + anticlockwise + tail +
		"[[as_laid]]\nroom = \"R\"\nevidence = \"measured by hand\"\n" + keys)
	return j, human(report)
}

func TestRecordsAsLaid(t *testing.T) {
	for _, c := range []struct{ keys, want string }{
		{"as_planned = false\ncorners = [[100, 100], [900, 100]]\n", ""},
		{"as_planned = true\nplan = \"p.json\"\ncorners = [[100, 100], [900, 100]]\n",
			"is given by as_planned and by corners"},
		{"start = [100, 100]\nlegs = [\"north-east 5\"]\n", ""},
		{"start = [100, 100]\nlegs = [\"30deg 5\"]\n", "is not a direction and a number of pegs"},
		{"start = [100, 100]\nlegs = [\"north 0\"]\n", "is not a direction"},
		{"start = [100, 100]\nlegs = [\"north 10001\"]\n", "is not a direction"},
		{"start = [100, 100]\nlegs = [\"north 10000\"]\n", ""},
		{"datums = [\"Q\", \"B\"]\ncorners = [[9000, 100], [9000, 900]]\n", "1 error, 0 warnings"},
		{"datums = [\"A\", \"Q\"]\ncorners = [[9000, 100], [9000, 900]]\n", "1 error, 0 warnings"},
		{"datums = [\"A\", \"C\"]\ncorners = [[100, 100], [900, 100]]\n", "walls A and C are parallel"},
		{"plan = \"" + plancode.Example + "\"\nruns = 3\n", ""},
		{"plan = \"7KF-4R0\"\nruns = 3\n", "never in one"},
	} {
		_, got := record(c.keys)
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q, got\n%s", c.keys, c.want, got)
		}
	}
	if a := (&Laid{Legs: []Leg{{0, 5}}}); !a.Whole() {
		t.Error("a leg from a start is a cable's place")
	}
	if (&Laid{Runs: 3}).Whole() {
		t.Error("runs so far are not the whole cable")
	}
}

func TestRestOn(t *testing.T) {
	j, _ := record("runs = 3\n")
	file := func(string) ([]byte, error) { return []byte(issued), nil }
	none := func(string) ([]byte, error) { return nil, os.ErrNotExist }
	a := &j.Laid[0]
	if err := j.RestOn(a, "p.json", file); err != nil || a.Issued == nil || a.PlanCode != a.Issued.Code ||
		len(a.PlanCode) != 7 {
		t.Errorf("%v, %q", err, a.PlanCode)
	}
	if f, err := openFile("p.json", file); err != nil || f.Code != a.PlanCode {
		t.Errorf("%+v, %v, want %q", f, err, a.PlanCode)
	}
	if err := j.RestOn(a, strings.ToLower(plancode.Example), none); err != nil || a.PlanCode != plancode.Example ||
		a.Issued != nil {
		t.Errorf("%v, %q", err, a.PlanCode)
	}
	for _, plan := range []string{"p.json", "7KF-4R0"} {
		if err := j.RestOn(a, plan, none); err == nil {
			t.Errorf("rests on %s", plan)
		}
	}
}

// A layout file is named by the same parts of its plan as the plan itself.
func TestIssuedFileIsNamedByItsPlan(t *testing.T) {
	text := `{"schema": 1, "rooms": [{"name": "R", "lattice": {"origin": [75, 80], "angle_deg": 12, "pitch_mm": 30},
 "cables": [{"id": "H1", "catalogue": "A", "length_mm": 60000, "path": [[75,75],[75,1900]], "cold_lead": [[100,0],[75,75]], "return_lead": [[1,2],[3,4]]}],
 "sensors": [{"name": "S1", "tip": [120, 900], "lead": [[100,0],[120,900]]}]}]}`
	want := plancode.Of([]plancode.Room{{Name: "R", Origin: plane.Pt(75, 80), Angle: 12, Pitch: 30,
		Cables: []plancode.Cable{{ID: "H1", Label: "A", Length: 60000, Path: []plane.Point{{X: 75, Y: 75},
			{X: 75, Y: 1900}}, ColdLead: []plane.Point{{X: 100}, {X: 75, Y: 75}},
			Return: []plane.Point{{X: 1, Y: 2}, {X: 3, Y: 4}}}},
		Sensors: []plancode.Sensor{{Name: "S1", Tip: plane.Pt(120, 900), Lead: []plane.Point{{X: 100},
			{X: 120, Y: 900}}}}}})
	open := func(string) ([]byte, error) { return []byte(text), nil }
	if f, err := openFile("p.json", open); err != nil || f.Code != want {
		t.Fatalf("%q, %v, want %q", f.Code, err, want)
	}
	is, err := openIssued("p.json", "R", "", open)
	if err != nil || is.Pegs == nil || is.Pegs.Origin != plane.Pt(75, 80) ||
		math.Abs(is.Pegs.Angle-12*math.Pi/180) > 1e-12 {
		t.Errorf("%+v, %v", is, err)
	}
	text = strings.Replace(text, `"rooms"`, `"plan_code": "`+plancode.Example+`", "rooms"`, 1)
	if _, err := openFile("p.json", open); err == nil {
		t.Error("a file whose paths are not those of its code passes")
	}
}

// The line under an error is cut only where it is longer than the page, and an
// end that is cut off is marked.
func TestWindow(t *testing.T) {
	line := func(n int) []cell {
		out := make([]cell, n)
		for i := range out {
			out[i] = cell{string(rune('a' + i%26)), 1, false}
		}
		return out
	}
	for _, c := range []struct {
		n, from, first, shown int
		cut                   cutEnds
	}{
		{excerptWidth, excerptWidth - 1, 0, excerptWidth, cutEnds{}},
		{excerptWidth + 1, 0, 0, excerptWidth, cutEnds{false, true}},
		{excerptWidth + 20, excerptWidth / 3, 0, excerptWidth, cutEnds{false, true}},
		{excerptWidth + 20, excerptWidth/3 + 1, 1, excerptWidth, cutEnds{true, true}},
		{excerptWidth + 20, excerptWidth + 19, excerptWidth + 19 - excerptWidth/3, excerptWidth/3 + 1,
			cutEnds{true, false}},
	} {
		shown, cut := window(line(c.n), c.from)
		if len(shown) != c.shown || cut != c.cut || shown[0].text != string(rune('a'+c.first%26)) {
			t.Errorf("%d cells, mark at %d: %d from %s, %v", c.n, c.from, len(shown), shown[0].text, cut)
		}
	}
}

// As many as are printed keep their order; of more, errors come first.
func TestFirstDiagnostics(t *testing.T) {
	w, e := Diagnostic{Severity: Warning, Message: "w"}, Diagnostic{Severity: Error, Message: "e"}
	text := func(ds []Diagnostic) (s string) {
		for _, d := range ds {
			s += d.Message
		}
		return s
	}
	for _, c := range []struct {
		n    int
		want string
	}{{4, "wewe"}, {5, "wewe"}, {3, "eew"}, {1, "e"}} {
		if got := text(first([]Diagnostic{w, e, w, e}, c.n)); got != c.want {
			t.Errorf("of %d: %s, want %s", c.n, got, c.want)
		}
	}
}

func TestLossIsToldWhereItIsWrong(t *testing.T) {
	for piece, want := range map[string]string{
		strings.Replace(lossRoom, "-5", "20",
			1): "is not colder than the room at 20 °C",
		lossRoom +
			"walls = \"20 m2\"\nwalls_u = 0.3\nwindows = \"10 m2\"\nwindows_u = 1\n": "come to 30 m², but all its " +
			"walls are 24 m²",
		lossRoom +
			"windows = \"1 m2\"\n": "one of windows and windows_u without the other",
		"[energy]\nleast_duty = 0.5\nmost_duty = 0.5\n" + lossRoom: "",
		"[energy]\nleast_duty = 0.6\nmost_duty = 0.5\n" +
			lossRoom: "least_duty = 0.6 is more than most_duty = 0.5",
		"[energy]\nleast_hours = 5\nmost_hours = 5\n" + lossRoom:                                "",
		strings.Replace(lossRoom, "[[room]]", "[warmth]\nroom = 22\nwarmest = 22\n[[room]]", 1): "",
		strings.Replace(lossRoom, "[[room]]", "[warmth]\nroom = 22\nwarmest = 21\n[[room]]",
			1): "warmest = 21 °C is colder than room = 22 °C",
		lossRoom + "air_changes = 1\nmost_air_changes = 1\n": "",
		strings.Replace(lossRoom, "[[room]]", "[[labour]]\nphase = \"laying\"\n[[room]]",
			1): "the phase \"laying\" has no hours",
		strings.Replace(lossRoom, "[[room]]", "[[labour]]\nphase = \"laying\"\nfixed = 1\n[[room]]", 1): "",
	} {
		_, r := readText(head + piece + tail)
		if got := human(r); (want == "") != (got == "") || !strings.Contains(got, want) {
			t.Errorf("%s: want %q, got\n%s", piece, want, got)
		}
	}
	_, r := readText(head + lossRoom + "windows = \"1 m2\"\n" + tail)
	if d := r.Diagnostics()[0]; !strings.HasPrefix((head + lossRoom + "windows = \"1 m2\"\n" + tail)[d.Span.Start:],
		"\"1 m2\"") {
		t.Errorf("told at %v", d.Span)
	}
}

func TestCurrencyOfEnergy(t *testing.T) {
	text := func(c string) string {
		return "currency = \"EUR\"\n" + head + "[energy]\ntariff = 0.3\n" + c + "[[room]]\nname = \"R\"\n" +
			anticlockwise + tail
	}
	for piece, want := range map[string]string{"": "EUR", "currency = \"CHF\"\n": "CHF"} {
		if got := mustRead(t, text(piece)).Energy.Currency; got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestPricesAtTheirBounds(t *testing.T) {
	text := "prices = \"p.csv\"\n" + head + "[[room]]\nname = \"R\"\n" + anticlockwise + tail
	start := "code,price\na,1e9\n# "
	for n, want := range map[int]int{maxFile: 0, maxFile + 1: 1} {
		j, r := Read("job.toml", []byte(text), func(string) ([]byte, error) {
			return []byte(start + strings.Repeat("x", n-len(start))), nil
		})
		if r.Errors() != want || want == 0 && (len(j.Prices) != 1 || j.Prices[0].Price != 1e9) {
			t.Errorf("%d bytes: %s", n, human(r))
		}
	}
	if _, r := Read("job.toml", []byte(text),
		func(string) ([]byte, error) { return []byte("code,price\na,1000000001\n"), nil }); r.Errors() != 1 {
		t.Error(human(r))
	}
}

func TestLayersAreFoundByKind(t *testing.T) {
	j := &Job{BuildUp: []Layer{{Kind: "tile", Name: "top"}, {Kind: "mortar"}, {Kind: "tile", Name: "below"}}}
	if l, ok := j.layer("tile"); !ok || l.Name != "top" {
		t.Errorf("%+v, %v", l, ok)
	}
	if l, ok := j.layer("mortar"); !ok || l.Kind != "mortar" {
		t.Errorf("%+v, %v", l, ok)
	}
	if _, ok := j.layer("wood"); ok {
		t.Error("there is no wood")
	}
}

// What walls that do not close may come of: a wall left out, one that lies along
// the gap, or none that could explain it alone.
func TestGapHints(t *testing.T) {
	for walls, want := range map[string]string{
		`"east 4000", "north 3000", "west 4000"`: `is the last wall missing? add ` +
			`\"south 3000 mm\"`,
		`"east 4000", "north 3000", "west 3000", "south 3000"`: "if one wall is wrong it is A " +
			"(1000 mm less) or C (1000 mm more)",
		`"east 4000", "north 3000", "north-west 1000", "west 3292.9", "south 3000"`: "if one wall is wrong it is B " +
			"(707.1 mm less) or E",
		`"east 4000", "north 3000", "west 4300", "south 2700"`: "tape the walls again; a wall " +
			"left out would be \"south-east 424.3 mm\"",
		`"90deg 4000", "10deg 3000", "250deg 4000", "190deg 1000", "150deg 500"`: "if one wall is wrong it is C (",
	} {
		_, r := readText(head + "[[room]]\nname = \"R\"\nwalls = [" + walls + "]\n" + tail)
		hint := ""
		for _, d := range r.Diagnostics() {
			hint += d.Hint
		}
		if !strings.Contains(hint, strings.ReplaceAll(want, `\"`, `"`)) {
			t.Errorf("%s: want %q, got %q", walls, want, hint)
		}
	}
	one := []leg{{90, 4000}, {45, 500}, {315, 500}}
	if got, want := gapHint(table{rd: newReader(&Report{}, newSchema(nil), "", nil)}, slices.Concat(one, one[1:]),
		plane.Pt(1000, 0)), "if one wall is wrong it is A ("; !strings.HasPrefix(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestShortWallsAreAskedForTheirUnit(t *testing.T) {
	rd := newReader(&Report{}, newSchema(nil), "", nil)
	rd.units = plane.Millimetres
	for s, want := range map[string]string{"north 4.9": "is its unit missing?", "north 1": "is its unit missing?",
		"north 0": "", "north -1": ""} {
		if _, err := rd.parseLeg(s); err == nil || !strings.HasPrefix(err.hint, want) || want == "" && err.hint != "" {
			t.Errorf("%s: %+v", s, err)
		}
	}
	if l, err := rd.parseLeg("north 5"); err != nil || l.length != 5 {
		t.Errorf("%v, %v", l, err)
	}
}

// An error beside the walls does not take them away: what stands in the room is
// still looked at.
func TestRoomWithAnErrorKeepsItsWalls(t *testing.T) {
	_, r := readText(head + "[[room]]\nname = \"R\"\nwalls = [\"east 3000\", \"north 2000\", \"west 3000\", \"south " +
		"2000\"]\ndiagonals = [\"A-Z 1 m\"]\n[[room.fixture]]\nkind = \"tub\"\nwall = \"B\"\nfrom = 0\nwidth = 2500\n" +
		tail)
	if got := human(r); !strings.Contains(got, "2500 mm wide, but wall B is 2000 mm long") {
		t.Error(got)
	}
	_, r = readText(head + "[sensor]\nkind = \"nonsense\"\ntolerance = 2\n[[room]]\nname = \"R\"\n" + anticlockwise +
		tail)
	if r.Errors() != 1 {
		t.Error(human(r))
	}
}

func TestItemsThatAreNotThere(t *testing.T) {
	tab := table{rd: newReader(&Report{}, newSchema(nil), "x", nil)}
	if got := fmt.Sprint(tab.atItem("corners", 3)); got != fmt.Sprint(tab.span()) {
		t.Error(got)
	}
}

// The tile's bed is mortar right under tile, wherever other layers lie.
func TestBedIsMortarUnderTile(t *testing.T) {
	for _, c := range []struct {
		kinds string
		want  string // its name; empty: none
	}{{"tile mortar", "1"}, {"tile board mortar", ""}, {"mortar tile", ""}, {"mortar tile mortar", "2"}, {"wood mortar",
		""}} {
		j := &Job{}
		for i, kind := range strings.Fields(c.kinds) {
			j.BuildUp = append(j.BuildUp, Layer{Kind: kind, Name: fmt.Sprint(i)})
		}
		if l, ok := j.Bed(); l.Name != c.want || ok != (c.want != "") {
			t.Errorf("%s: %q, %v", c.kinds, l.Name, ok)
		}
	}
}
