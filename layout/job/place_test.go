package job

import (
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// The same room of 3 x 2 m, written both ways round. Wall A is the south wall
// in the first; in the second walls run the other way and A is the west wall.
const (
	anticlockwise = "corners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n"
	clockwise     = "corners = [[0, 0], [0, 2000], [3000, 2000], [3000, 0]]\n"
)

func roomOf(t *testing.T, outline, things string) Room {
	t.Helper()
	return mustRead(t, head+"[[room]]\nname = \"R\"\n"+outline+things+tail).Rooms[0]
}

func TestFixturesAgainstWalls(t *testing.T) {
	tests := []struct {
		name, outline, fixture string
		min, max               plane.Point
		back                   plane.Segment
	}{
		{"south wall from its start", anticlockwise, "wall = \"A\"\nfrom = 500\nwidth = 800\ndepth = 600",
			plane.Pt(500, 0), plane.Pt(1300, 600), plane.Segment{A: plane.Pt(500, 0), B: plane.Pt(1300, 0)}},
		{"east wall to its end", anticlockwise, "wall = \"B\"\nto_end = 100\nwidth = 800\ndepth = 600",
			plane.Pt(2400, 1100), plane.Pt(3000, 1900), plane.Segment{A: plane.Pt(3000, 1100),
				B: plane.Pt(3000, 1900)}},
		{"north wall by its middle", anticlockwise, "wall = \"C\"\ncentre = 1000\nwidth = 800\ndepth = 600",
			plane.Pt(1600, 1400), plane.Pt(2400, 2000), plane.Segment{A: plane.Pt(2400, 2000),
				B: plane.Pt(1600, 2000)}},
		{"between two lengths", anticlockwise, "wall = \"D\"\nfrom = 500\nto_end = 300\ndepth = 600", plane.Pt(0, 300),
			plane.Pt(600, 1500), plane.Segment{A: plane.Pt(0, 1500), B: plane.Pt(0, 300)}},
		{"off the wall", anticlockwise, "wall = \"A\"\nfrom = 500\noff = 50\nwidth = 800\ndepth = 600",
			plane.Pt(500, 50), plane.Pt(1300, 650), plane.Segment{A: plane.Pt(500, 50), B: plane.Pt(1300, 50)}},
		{"clockwise: west wall from its start", clockwise, "wall = \"A\"\nfrom = 500\nwidth = 800\ndepth = 600",
			plane.Pt(0, 500), plane.Pt(600, 1300), plane.Segment{A: plane.Pt(0, 1300), B: plane.Pt(0, 500)}},
		{"free", anticlockwise, "at = [1000, 1000]\nwidth = 800\ndepth = 600", plane.Pt(600, 700), plane.Pt(1400, 1300),
			plane.Segment{A: plane.Pt(600, 700), B: plane.Pt(1400, 700)}},
		{"free and turned", anticlockwise, "at = [1000, 1000]\nangle = 90\nwidth = 800\ndepth = 600",
			plane.Pt(700, 600), plane.Pt(1300, 1400), plane.Segment{A: plane.Pt(1300, 600), B: plane.Pt(1300, 1400)}},
		{"outline with its back on a wall", anticlockwise,
			"outline = [[2000, 500], [2000, 1500], [3000, 1500], [3000, 500]]", plane.Pt(2000, 500),
			plane.Pt(3000, 1500), plane.Segment{A: plane.Pt(3000, 500), B: plane.Pt(3000, 1500)}},
	}
	for _, c := range tests {
		f := roomOf(t, c.outline, "[[room.fixture]]\nkind = \"cabinet\"\n"+c.fixture).Fixtures[0]
		b := f.Outline.Bounds()
		samePoints(t, c.name+": corners", []plane.Point{b.Min, b.Max}, []plane.Point{c.min, c.max})
		samePoints(t, c.name+": back", []plane.Point{f.Back.A, f.Back.B}, []plane.Point{c.back.A, c.back.B})
		if f.Outline.SignedArea() <= 0 {
			t.Errorf("%s: the outline is not counter-clockwise", c.name)
		}
		if c.name != "outline with its back on a wall" && (f.Outline.Edge(0) != f.Back) {
			t.Errorf("%s: the back is not the outline's first side", c.name)
		}
	}
}

func TestUsualFixtures(t *testing.T) {
	r := roomOf(t, "corners = [[0, 0], [9000, 0], [9000, 9000], [0, 9000]]\n", `
[[room.fixture]]
kind = "toilet"
wall = "A"
centre = 500
[[room.fixture]]
kind = "toilet"
wall = "A"
centre = 2000
off = 20
undecided = true
[[room.fixture]]
kind = "tub"
wall = "B"
from = 0
clear = 80
[[room.fixture]]
kind = "drain"
at = [4000, 4000]
[[room.fixture]]
kind = "register"
wall = "C"
from = 0
[[room.fixture]]
kind = "column"
at = [6000, 6000]
diameter = 300
`)
	wc, second, tub, drain, register, column := r.Fixtures[0], r.Fixtures[1], r.Fixtures[2], r.Fixtures[3],
		r.Fixtures[4], r.Fixtures[5]
	near(t, "toilet width", wc.Width, 381, 1e-9)
	near(t, "toilet depth", wc.Depth, 711.2, 1e-9)
	samePoints(t, "flange", []plane.Point{wc.Flange.Centre, second.Flange.Centre}, []plane.Point{{X: 500, Y: 305},
		{X: 2000, Y: 305}})
	near(t, "ring", wc.Flange.Radius, 89, 0)
	near(t, "flange clear", wc.Flange.Clear, 150, 0)
	near(t, "tub length", tub.Width, 1524, 1e-9)
	near(t, "tub depth", tub.Depth, 762, 1e-9)
	near(t, "tub clear", tub.Clear, 80, 0)
	near(t, "drain clear", drain.Clear, 100, 0)
	near(t, "register clear", register.Clear, 200, 0)
	near(t, "column", column.Outline.Bounds().W(), 300, 3)
	if wc.Name != "toilet" || second.Name != "toilet 2" || !second.Undecided || wc.Undecided {
		t.Errorf("names %q, %q", wc.Name, second.Name)
	}
	if !wc.Tiled || tub.Tiled || !register.Heat || tub.Heat || tub.Flange != nil {
		t.Error("what goes with a kind is wrong")
	}
	if tub.ClearSource != FromJob || wc.ClearSource != FromDefault {
		t.Errorf("clearances come from %v and %v", tub.ClearSource, wc.ClearSource)
	}
	// a circle's sides may stand out of it, never cut it off
	for i := range column.Outline {
		if d := column.Outline.Edge(i).Distance(plane.Pt(6000, 6000)); d < 150-1e-9 {
			t.Errorf("a side of the column cuts %v mm off it", 150-d)
		}
	}
}

func TestClearanceFromJob(t *testing.T) {
	text := head + "[clearance]\nfixture = 77\n[[room]]\nname = \"R\"\n" + anticlockwise +
		"[[room.fixture]]\nkind = \"island\"\nat = [1500, 1000]\nwidth = 500\ndepth = 500\n[[room.fixture]]\nkind = " +
		"\"cabinet\"\nwall = \"C\"\nfrom = 0\n" + tail
	r := mustRead(t, text).Rooms[0]
	near(t, "cabinet", r.Fixtures[1].Clear, 77, 0)
	near(t, "island, as from fixtures", r.Fixtures[0].Clear, 77, 0)
	if r.Fixtures[1].ClearSource != FromJob {
		t.Error("a clearance of [clearance] is the job file's")
	}
}

func TestOpenings(t *testing.T) {
	r := roomOf(t, anticlockwise, `
[[room.opening]]
wall = "B"
from = 300
width = 800
threshold = true
[[room.opening]]
kind = "window"
wall = "c"
centre = 1500
width = 1000
`)
	door, window := r.Openings[0], r.Openings[1]
	if door.Kind != "door" || door.Swing != "in" || door.Hinge != "start" || door.Wall != 1 || window.Swing != "none" ||
		window.Wall != 2 {
		t.Errorf("openings %+v, %+v", door, window)
	}
	near(t, "from", door.From, 300, 0)
	near(t, "to", door.To, 1100, 0)
	if len(r.Fixings) != 1 || r.Fixings[0].Kind != "threshold" {
		t.Fatalf("fixings %+v, want the threshold", r.Fixings)
	}
	samePoints(t, "threshold", r.Fixings[0].Line, []plane.Point{{X: 3000, Y: 300}, {X: 3000, Y: 1100}})
	near(t, "threshold clear", r.Fixings[0].Clear, 100, 0)
}

func TestFixings(t *testing.T) {
	r := roomOf(t, clockwise, `
[[room.fixing]]
kind = "door stop"
at = [700, 60]
[[room.fixing]]
kind = "rail"
wall = "B"
from = 500
width = 400
off = 30
[[room.fixing]]
kind = "bracket"
wall = "D"
to_end = 500
`)
	samePoints(t, "point", r.Fixings[0].Line, []plane.Point{{X: 700, Y: 60}})
	samePoints(t, "line", r.Fixings[1].Line, []plane.Point{{X: 500, Y: 1970}, {X: 900, Y: 1970}})
	samePoints(t, "on the wall", r.Fixings[2].Line, []plane.Point{{X: 500, Y: 0}})
}

// TestJoints trims joints to the room; across the notch of an L one joint goes
// from where it first enters to where it last leaves.
func TestJoints(t *testing.T) {
	ell := "corners = [[0, 0], [3000, 0], [3000, 2000], [2000, 2000], [2000, 1000], [1000, 1000], [1000, 2000], [0, " +
		"2000]]\n"
	r := roomOf(t, ell, `
[[room.joint]]
from = [1500, -700]
to = [1500, 5000]
[[room.joint]]
from = [-50, 1500]
to = [3050, 1500]
[[room.joint]]
from = [500, 500]
to = [500, 3000]
[[room.joint]]
from = "a 500"
to = "G 0.5 m"
`)
	want := [][]plane.Point{{{X: 1500, Y: 0}, {X: 1500, Y: 1000}}, {{X: 0, Y: 1500}, {X: 3000, Y: 1500}},
		{{X: 500, Y: 500}, {X: 500, Y: 2000}}, {{X: 500, Y: 0}, {X: 500, Y: 2000}}}
	if len(r.Joints) != len(want) {
		t.Fatalf("%d joints, want %d", len(r.Joints), len(want))
	}
	for i, m := range r.Joints {
		samePoints(t, m.Name, []plane.Point{m.A, m.B}, want[i])
	}
	if r.Joints[0].Name != "MJ1" || r.Joints[0].Clear != 50 || r.Joints[0].Width != 6 {
		t.Errorf("joint %+v", r.Joints[0])
	}
}

func TestThermostats(t *testing.T) {
	tests := []struct {
		name, keys string
		wall       int
		at         plane.Point
		along      float64
	}{
		{"by wall", "wall = \"B\"\nfrom = 500", 1, plane.Pt(3000, 500), 500},
		{"to the end", "wall = \"B\"\nto_end = 500", 1, plane.Pt(3000, 1500), 1500},
		{"on the wall", "at = [1400, 0]", 0, plane.Pt(1400, 0), 1400},
		{"an inch off, taken to the wall", "at = [20, 1400]", 3, plane.Pt(0, 1400), 600},
	}
	for _, c := range tests {
		th := mustRead(t, head+"[[room]]\nname = \"R\"\n"+anticlockwise+"[room.thermostat]\n"+c.keys+
			"\n").Rooms[0].Thermostat
		if th.Wall != c.wall {
			t.Errorf("%s: wall %d, want %d", c.name, th.Wall, c.wall)
		}
		near(t, c.name, th.Along, c.along, 1e-9)
		samePoints(t, c.name, []plane.Point{th.At}, []plane.Point{c.at})
	}
}

// TestTolerance: what a tape leaves over is no error, a finger's breadth is.
func TestTolerance(t *testing.T) {
	text := func(width string) string {
		return head + "[[room]]\nname = \"R\"\n" + anticlockwise +
			"[[room.fixture]]\nkind = \"tub\"\nwall = \"B\"\nfrom = 0\nwidth = " + width + "\n" + tail
	}
	mustRead(t, text("2004"))
	if _, report := readText(text("2006")); report.Errors() != 1 || !strings.Contains(human(report),
		"2006 mm wide, but wall B is 2000 mm long") {
		t.Error(human(report))
	}
}

func TestScales(t *testing.T) {
	tests := []struct {
		in    string
		ratio float64
		ok    bool
	}{
		{"1:20", 20, true}, {"1 : 50", 50, true}, {"1/2in = 1ft", 24, true}, {"1/2\" = 1'-0\"", 24, true},
		{"3/16in = 1 ft", 64, true},
		{"1-1/2in=1ft", 8, true}, {"5mm = 100mm", 20, true}, {"20", 0, false}, {"1:0", 0, false}, {"0:1", 0, false},
		{"1:-20", 0, false}, {"big", 0, false}, {"a:b", 0, false}, {"", 0, false},
	}
	for _, c := range tests {
		got, err := parseScale(c.in)
		if (err == nil) != c.ok {
			t.Errorf("%q: %v", c.in, err)
		}
		if c.ok {
			near(t, c.in, got, c.ratio, 1e-9)
		}
	}
	if standard(27) || !standard(20) || !standard(25) || !standard(128) {
		t.Error("standard scales")
	}
}

// Two words whose last is known are read as that one's kind.
func TestFixturesInTwoWords(t *testing.T) {
	fixture := func(word string) string {
		return head + "[[room]]\nname = \"R\"\n" + anticlockwise + "[[room.fixture]]\nkind = \"" + word +
			"\"\nwall = \"A\"\nfrom = 300\nwidth = 700\ndepth = 600\n" + tail
	}
	for word, want := range map[string]FixtureKind{"double sink": Vanity, "Corner Tub": Tub, "base cabinets": Cabinet,
		"benches": Cabinet, "built-in wine fridge": Appliance, "kitchen sink": Cabinet, "big kitchen sink": Cabinet} {
		j, report := readText(fixture(word))
		if report.Errors() > 0 || report.Warnings() != 1 || j.Rooms[0].Fixtures[0].Kind != want {
			t.Errorf("%q: %s", word, spoken(report))
		}
	}
	if _, report := readText(fixture("sink wall")); !strings.Contains(spoken(report), "kind cannot be") {
		t.Error(spoken(report))
	}
}
