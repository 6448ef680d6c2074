package job

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// Areas and lengths of circular segments by the usual formulas (any handbook of mensuration):
// a half circle over 2 m adds pi/2 m², a rise of 300 over 2 m has a radius of 1816.7 mm.
func TestCurvedWalls(t *testing.T) {
	segment := func(radius, chord float64) float64 {
		half := math.Asin(chord / 2 / radius)
		return radius * radius / 2 * (2*half - math.Sin(2*half))
	}
	for _, c := range []struct {
		outline, arc string
		area, radius float64
	}{
		{anticlockwise, "wall = \"B\"\nrise = 1000\n", 6e6 + math.Pi/2*1e6, 1000},
		{anticlockwise, "wall = \"B\"\nrise = 300\n", 6e6 + segment(1816.6667, 2000), 1816.6667},
		{anticlockwise, "wall = \"B\"\nrise = 300\ninto = true\n", 6e6 - segment(1816.6667, 2000), 1816.6667},
		{anticlockwise, "wall = \"C\"\nradius = 2500\n", 6e6 + segment(2500, 3000), 2500},
		{clockwise, "wall = \"C\"\nrise = 300\n", 6e6 + segment(1816.6667, 2000), 1816.6667},
	} {
		r := roomOf(t, c.outline, "[[room.arc]]\n"+c.arc)
		if got := r.Outline.Area(); math.Abs(got-c.area) > 0.002*c.area {
			t.Errorf("%q: %.0f mm², by the formula %.0f", c.arc, got, c.area)
		}
		var arc *Arc
		letters := 0
		for i, w := range r.Walls {
			if w.Arc == nil {
				continue
			}
			arc = w.Arc
			for _, at := range []plane.Point{w.A, w.B} {
				near(t, "a corner of the curve from its centre", at.Dist(arc.Centre), c.radius, 0.1)
			}
			if off := c.radius - w.At(w.Length()/2).Dist(arc.Centre); off > 1.01 {
				t.Errorf("%q: a side lies %.2f mm off its curve", c.arc, off)
			}
			if r.BearsLetter(i) {
				letters++
			}
		}
		if arc == nil || letters != 1 {
			t.Fatalf("%q: %d letters on the curve", c.arc, letters)
		}
		near(t, "radius", arc.Radius, c.radius, 0.1)
		if len(r.Walls) != len(r.Outline) || r.Walls[len(r.Walls)-1].Letter != "D" {
			t.Errorf("%q: %d walls and %d corners, the last wall is %s", c.arc, len(r.Walls), len(r.Outline),
				r.Walls[len(r.Walls)-1].Letter)
		}
	}
}

// A place along a curve: a half circle of 1 m round (3000, 1000), a third of the way.
func TestPlaceAlongACurve(t *testing.T) {
	r := roomOf(t, anticlockwise, "[[room.arc]]\nwall = \"B\"\nrise = 1000\n[[room.fixing]]\nkind = \"door stop\"\n"+
		"at = \"B 1047.2, 100\"\n")
	want := plane.Pt(3000+900*math.Cos(-math.Pi/6), 1000+900*math.Sin(-math.Pi/6))
	if at := r.Fixings[0].Line[0]; at.Dist(want) > 5 {
		t.Errorf("at %v, want %v", at, want)
	}
}

func TestCurvesRefused(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"[[room.arc]]\nwall = \"Q\"\nrise = 100\n", `the curve stands on wall "Q"`},
		{"[[room.arc]]\nwall = \"B\"\n", "nothing says how curved wall B is"},
		{"[[room.arc]]\nwall = \"B\"\nrise = 100\nradius = 2000\n", "has both rise and radius"},
		{"[[room.arc]]\nwall = \"B\"\nradius = 900\n", "no circle of 900 mm radius spans it"},
		{"[[room.arc]]\nwall = \"B\"\nrise = 1200\n", "more than a half circle over 2000 mm"},
		{"[[room.arc]]\nwall = \"A\"\nrise = 1200\ninto = true\n[[room.arc]]\nwall = \"C\"\nrise = 1200\ninto " +
			"= true\n",
			"would meet another wall"},
		{"[[room.arc]]\nwall = \"B\"\nrise = 100\n[[room.fixture]]\nkind = \"vanity\"\ncorner = \"B\"\n",
			"vanity asks for a straight wall, and wall B is curved"},
	} {
		if said := saidOf(t, anticlockwise, c.text); !strings.Contains(said, c.want) {
			t.Errorf("%q: %s", c.text, said)
		}
	}
}

// Outlines with curved sides by hand: a half round end, a hollow front, written either way
// round.
func TestOutlinesWithCurvedSides(t *testing.T) {
	segment := func(radius, chord float64) float64 {
		a := math.Asin(chord / 2 / radius)
		return radius * radius * (a - math.Sin(2*a)/2)
	}
	const box = "outline = [[1000, 500], [2000, 500], [2000, 1300], [1000, 1300]]\n"
	for _, c := range []struct {
		keys string
		area float64
	}{
		{box + "rises = [0, 400, 0, 0]\n", 800e3 + math.Pi/2*400*400},
		{box + "rises = [-100, 0, 0, 0]\n", 800e3 - segment(1300, 1000)},
		{"outline = [[1000, 1300], [2000, 1300], [2000, 500], [1000, 500]]\nrises = [0, 400, 0, \"-4in\"]\n",
			800e3 + math.Pi/2*400*400 - segment((400*400+101.6*101.6)/203.2, 800)},
	} {
		k := roomOf(t, anticlockwise, "[[room.keep_out]]\n"+c.keys).KeepOuts[0]
		near(t, c.keys, k.Outline.Area(), c.area, 3e-3*c.area)
	}
	for keys, want := range map[string]string{
		box + "rises = [0, 0, 0]\n": "has 4 sides and 3 rises",
		box +
			"rises = [0, 401, 0, 0]\n": "the curve of side 2 of keep-out 1 would rise 401 mm, more than",
		box + "rises = [-420, 0, -420, 0]\n":                                "would cross or touch itself",
		"wall = \"A\"\nfrom = 0\nwidth = 9\ndepth = 9\nrises = [0, 0, 1]\n": "rises says nothing of it",
	} {
		if said := saidOf(t, anticlockwise, "[[room.keep_out]]\n"+keys); !strings.Contains(said, want) {
			t.Errorf("%q: %s", keys, said)
		}
	}
}
