package job

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// An L in plan: its corner D juts into the room, the others are corners to stand in.
const ell = "corners = [[0, 0], [3000, 0], [3000, 1200], [1800, 1200], [1800, 2000], [0, 2000]]\n"

// TestThingsInCorners holds areas and extents against those found by hand: a square of
// 900 less the triangle or the spandrel of what is cut off it.
func TestThingsInCorners(t *testing.T) {
	shower := "[[room.fixture]]\nkind = \"shower\"\nwidth = 900\ndepth = 900\n"
	for _, c := range []struct {
		name, outline, keys string
		min, max            plane.Point
		area                float64
	}{
		{"square", anticlockwise, "corner = \"D\"", plane.Pt(0, 1100), plane.Pt(900, 2000), 810e3},
		{"set back", anticlockwise, "corner = \"C\"\nfrom = 20\noff = 30", plane.Pt(2080, 1070), plane.Pt(2980, 1970),
			810e3},
		{"clockwise", clockwise, "corner = \"C\"", plane.Pt(2100, 1100), plane.Pt(3000, 2000), 810e3},
		{"neo-angle", anticlockwise, "corner = \"B\"\nshape = \"neo-angle\"", plane.Pt(2100, 0), plane.Pt(3000, 900),
			810e3 - 450*450/2},
		{"neo-angle by its cut", anticlockwise, "corner = \"D\"\nshape = \"neo-angle\"\ncut = 300", plane.Pt(0, 1100),
			plane.Pt(900, 2000), 810e3 - 300*300/2},
		// a quarter circle of 32 sides all round: 8 triangles of 550²/2 sin 11.25°
		{"quadrant", anticlockwise, "corner = \"C\"\nshape = \"quadrant\"", plane.Pt(2100, 1100), plane.Pt(3000, 2000),
			810e3 - 550*550 + 8*550*550/2*math.Sin(math.Pi/16)},
		{"all of a quadrant", clockwise, "corner = \"B\"\nshape = \"quadrant\"\ncut = 900", plane.Pt(0, 1100),
			plane.Pt(900, 2000), 8 * 810e3 / 2 * math.Sin(math.Pi/16)},
		{"before the corner that juts", ell, "corner = \"E\"", plane.Pt(900, 1100), plane.Pt(1800, 2000), 810e3},
	} {
		f := roomOf(t, c.outline, shower+c.keys+"\n").Fixtures[0]
		b := f.Outline.Bounds()
		samePoints(t, c.name, []plane.Point{b.Min, b.Max}, []plane.Point{c.min, c.max})
		if math.Abs(f.Outline.SignedArea()-c.area) > 1 {
			t.Errorf("%s: %.0f mm², by hand %.0f", c.name, f.Outline.SignedArea(), c.area)
		}
		if f.Outline.SignedArea() <= 0 || f.Outline.Edge(0) != f.Back {
			t.Errorf("%s: the back %v is not the first side, counter-clockwise, of %v", c.name, f.Back, f.Outline)
		}
	}
}

// A toilet across a corner: both ends of its back, 400 mm wide, touch the walls 400/√2 =
// 282.8 mm from it, and its flange lies on the bisector, 300 mm out from the back's
// middle, which is 200 mm from the corner.
func TestToiletAcrossACorner(t *testing.T) {
	for _, outline := range []string{anticlockwise, clockwise} {
		f := roomOf(t, outline, "[[room.fixture]]\nkind = \"toilet\"\nwidth = 400\ndepth = 700\nrough_in = 300\n"+
			"corner = \"A\"\nshape = \"diagonal\"\n").Fixtures[0]
		a, b := f.Back.A, f.Back.B
		if a.Y < b.Y { // from the south wall to the west wall
			a, b = b, a
		}
		samePoints(t, "back", []plane.Point{a, b}, []plane.Point{plane.Pt(0, 400/math.Sqrt2),
			plane.Pt(400/math.Sqrt2, 0)})
		out := 500 / math.Sqrt2
		samePoints(t, "flange", []plane.Point{f.Flange.Centre}, []plane.Point{plane.Pt(out, out)})
		if math.Abs(f.Outline.SignedArea()-400*700) > 1 {
			t.Errorf("%.0f mm²", f.Outline.SignedArea())
		}
	}
}

// In a corner of 45° a wall leans in over a depth of 300 mm by as much: the cabinet
// begins 300 mm on.
func TestACornerThatLeansIn(t *testing.T) {
	f := roomOf(t, "corners = [[0, 0], [3000, 0], [3000, 2000], [2000, 2000]]\n",
		"[[room.fixture]]\nkind = \"cabinet\"\nwidth = 500\ndepth = 300\ncorner = \"A\"\n").Fixtures[0]
	samePoints(t, "begins", []plane.Point{f.Back.A, f.Back.B}, []plane.Point{plane.Pt(300, 0), plane.Pt(800, 0)})
}

// TestThingsBesideOthers places vanities by what stands there, on walls that run either way.
func TestThingsBesideOthers(t *testing.T) {
	tub := "[[room.fixture]]\nkind = \"tub\"\nname = \"tub\"\nwall = \"C\"\nfrom = 0\nwidth = 1500\ndepth = 700\n"
	vanity := "[[room.fixture]]\nkind = \"vanity\"\nwidth = 600\ndepth = 500\n"
	for _, c := range []struct {
		name, keys string
		min, max   plane.Point
	}{
		{"after", vanity + "beside = \"tub\"\n", plane.Pt(900, 1500), plane.Pt(1500, 2000)},
		{"after a gap, off the wall", vanity + "beside = \"Tub\"\ngap = 100\noff = 20\n", plane.Pt(800, 1480),
			plane.Pt(1400, 1980)},
		{"before what stands after it", vanity + "name = \"first\"\nbeside = \"tub\"\n" + vanity +
			"beside = \"first\"\nside = \"after\"\n", plane.Pt(300, 1500), plane.Pt(900, 2000)},
		{"between tub and wall", vanity + "wall = \"C\"\nbetween = [\"tub\", \"D\"]\n", plane.Pt(450, 1500),
			plane.Pt(1050, 2000)},
		{"all of the gap", "[[room.fixture]]\nkind = \"cabinet\"\ndepth = 500\nwall = \"C\"\n" +
			"between = [\"D\", \"tub\"]\n", plane.Pt(0, 1500), plane.Pt(1500, 2000)},
		{"before", "[[room.fixture]]\nkind = \"cabinet\"\nname = \"end\"\nwall = \"A\"\nto_end = 0\nwidth = 400\n" +
			"depth = 300\n" + vanity + "beside = \"end\"\nside = \"before\"\n", plane.Pt(2000, 0), plane.Pt(2600, 500)},
		{"by a corner, along and out", "[[room.fixture]]\nkind = \"island\"\nwidth = 400\ndepth = 200\n" +
			"at = \"B 600 mm, 0,5 m\"\n", plane.Pt(2300, 500), plane.Pt(2700, 700)},
	} {
		all := roomOf(t, anticlockwise, tub+c.keys).Fixtures
		b := all[len(all)-1].Outline.Bounds()
		samePoints(t, c.name, []plane.Point{b.Min, b.Max}, []plane.Point{c.min, c.max})
	}
}

// TestPlacesThatCannotBe says what is wrong with a place, and what to write.
func TestPlacesThatCannotBe(t *testing.T) {
	vanity := "[[room.fixture]]\nkind = \"vanity\"\nwidth = 600\ndepth = 500\n"
	for _, c := range []struct{ outline, keys, want string }{
		{anticlockwise, "corner = \"G\"", "stands on wall \"G\""},
		{ell, "corner = \"D\"", "juts into the room"},
		{anticlockwise, "corner = \"A\"\ncut = 100", "nothing is cut off it"},
		{anticlockwise, "corner = \"A\"\nshape = \"quadrant\"\ncut = 700", "cannot be cut off"},
		{"corners = [[0, 0], [3000, 0], [3000, 2000], [900, 2000]]\n", "corner = \"A\"\nshape = \"neo-angle\"",
			"made for a square corner"},
		{anticlockwise, "beside = \"tub\"", "does not have above it"},
		{anticlockwise, "wall = \"A\"\nbetween = [\"B\", \"C\"]", "does not have above it"},
		{anticlockwise, "wall = \"A\"\nbetween = [\"B\", \"C\", \"D\"]", "takes two names"},
		{anticlockwise, "wall = \"A\"\nfrom = 0\nshape = \"quadrant\"", "shape says nothing of it"},
		{anticlockwise, "at = \"B 9 m, 1 m\"", "beyond the end of wall B"},
		{anticlockwise, "at = \"B\"", "a wall's letter, a length along it"},
		{anticlockwise, "wall = \"A\"\nfrom = 0\nname = \"one\"\n" + vanity + "beside = \"one\"\nside = \"before\"",
			"finds no room beside"},
	} {
		_, report := readText(head + "[[room]]\nname = \"R\"\n" + c.outline + vanity + c.keys + "\n" + tail)
		if said := spoken(report); !strings.Contains(said, c.want) || strings.Count(said, " error: ") != 1 {
			t.Errorf("%s: want one error with %q, got\n%s", c.keys, c.want, said)
		}
	}
}

// TestWarmedShowersHaveADrain: one without a drain in it is refused, with where one would
// be; a drain elsewhere is not its own.
func TestWarmedShowersHaveADrain(t *testing.T) {
	shower := "[[room.fixture]]\nkind = \"shower\"\ncorner = \"C\"\nwidth = 900\ndepth = 900\nheated = true\n"
	drain := "[[room.fixture]]\nkind = \"drain\"\nat = "
	r := roomOf(t, anticlockwise, shower+drain+"[2550, 1550]\n")
	if !r.Fixtures[0].Heated || !r.Fixtures[0].Tiled {
		t.Errorf("%+v", r.Fixtures[0])
	}
	for _, more := range []string{"", drain + "[1000, 1000]\n"} {
		_, report := readText(head + "[[room]]\nname = \"R\"\n" + anticlockwise + shower + more + tail)
		if said := spoken(report); !strings.Contains(said, "no drain is given in it") || !strings.Contains(said,
			"at = [2550, 1550]") {
			t.Error(said)
		}
	}
}

// TestAlongIsAWall: runs lie along the wall named, whatever way it runs.
func TestAlongIsAWall(t *testing.T) {
	r := roomOf(t, ell, "along = \"F\"\n")
	if r.Along == nil || math.Abs(math.Abs(*r.Along)-math.Pi/2) > 1e-9 {
		t.Errorf("along F: %v", r.Along)
	}
	_, report := readText(head + "[[room]]\nname = \"R\"\n" + ell + "along = \"K\"\n" + tail)
	if said := spoken(report); !strings.Contains(said, "room \"R\" has walls A to F") {
		t.Error(said)
	}
}
