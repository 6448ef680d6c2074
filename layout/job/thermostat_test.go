package job

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// A wall 100 mm thick up from wall A at 1200, with a doorway from 300 to 1000: by hand.
const screened = "[[room.partition]]\nname = \"Screen\"\nfrom = \"A 1200\"\nto = [1200, 1600]\nthickness = 100\n" +
	"[[room.partition.opening]]\nfrom = 300\nwidth = 700\n"

func boxed(t *testing.T, things, box string) (*Job, *Report) {
	t.Helper()
	return readText(head + "[[room]]\nname = \"R\"\n" + anticlockwise + things + "[room.thermostat]\n" + box)
}

func TestBoxOnAPartition(t *testing.T) {
	for _, c := range []struct {
		box   string
		at    plane.Point
		in    plane.Point
		along float64
	}{
		{"wall = \"screen\"\nfrom = 1200\n", plane.Pt(1150, 1200), plane.Pt(-1, 0), 1200},
		{"wall = \"Screen\"\nface = \"right\"\nto_end = 100\n", plane.Pt(1250, 1500), plane.Pt(1, 0), 1500},
		{"at = [1260, 200]\n", plane.Pt(1250, 200), plane.Pt(1, 0), 200},
		{"at = [1140, 1150]\n", plane.Pt(1150, 1150), plane.Pt(-1, 0), 1150},
	} {
		j, report := boxed(t, screened, c.box)
		if report.Errors() > 0 {
			t.Errorf("%q: %s", c.box, spoken(report))
			continue
		}
		w, hangs := j.Rooms[0].BoxWall()
		samePoints(t, c.box, []plane.Point{j.Rooms[0].Thermostat.At, w.In}, []plane.Point{c.at, c.in})
		if !hangs || w.Called != "Screen" || w.Thickness != 100 || math.Abs(w.Along-c.along) > 1e-9 ||
			len(w.Openings) != 1 || j.Rooms[0].Thermostat.Wall != -1 {
			t.Errorf("%q: %+v", c.box, w)
		}
		if _, hangs := j.Rooms[0].WithoutBox().BoxWall(); hangs {
			t.Error("the box is still there")
		}
	}
	for box, want := range map[string]string{
		"wall = \"Screen\"\nfrom = 500\n":               "would hang in door: it is 500 mm along Screen",
		"wall = \"Screen\"\nfrom = 1700\n":              "beyond the end of Screen",
		"wall = \"A\"\nface = \"right\"\nfrom = 1700\n": "which has one face",
		"wall = \"Screens\"\nfrom = 1700\n":             "and Screen",
		"at = [1200, 1200]\n":                           "is on no wall",
		"at = [1260, 200]\nface = \"left\"\n":           "face says nothing of it",
	} {
		if _, report := boxed(t, screened, box); !strings.Contains(spoken(report), want) {
			t.Errorf("%q: %s", box, spoken(report))
		}
	}
}

// A half circle of 1 m radius in the place of wall B: the box half way round hangs 1 m
// beyond it and looks back to its middle; places before it count along the curve.
func TestBoxOnACurve(t *testing.T) {
	_, report := boxed(t, "[[room.arc]]\nwall = \"B\"\nrise = 1000\n", "wall = \"B\"\ncentre = 1570\n")
	if !strings.Contains(spoken(report), "write from") {
		t.Errorf("centre: %s", spoken(report))
	}
	j, report := boxed(t, "[[room.arc]]\nwall = \"B\"\nrise = 1000\n", "wall = \"B\"\nfrom = 1570.796\n")
	if report.Errors() > 0 {
		t.Fatal(spoken(report))
	}
	w, _ := j.Rooms[0].BoxWall()
	near(t, "x of the box", j.Rooms[0].Thermostat.At.X, 4000, 2)
	near(t, "y of the box", j.Rooms[0].Thermostat.At.Y, 1000, 2)
	near(t, "looks west", w.In.X, -1, 1e-3)
	near(t, "length", w.Length(), 1000*math.Pi, 1e-6)
	if along, before := w.Off(plane.Pt(3000, 1500)); math.Abs(along-math.Pi*1000) > 1 || math.Abs(before-500) > 1 {
		t.Errorf("half way from the centre to its end: %g along, %g before", along, before)
	}
	p := w.Before(math.Pi*1000, 500)
	near(t, "x", p.X, 3000, 1e-6)
	near(t, "y", p.Y, 1500, 1e-6)
}
