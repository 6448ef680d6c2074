package job

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// Runs lie along walls, compass words and bearings; starts are corners.
func TestAlongAndStart(t *testing.T) {
	for said, east := range map[string]float64{"A": 0, "B": 90, "c": 180, "north": 90, "south-west": 225, "30deg": 60,
		"east": 0} {
		r := roomOf(t, anticlockwise+"along = \""+said+"\"\nstart = \"c\"\n", "")
		if r.Along == nil || math.Abs(plane.Radians(east)-math.Mod(*r.Along+2*math.Pi, 2*math.Pi)) > 1e-9 {
			t.Errorf("along %s: %v", said, r.Along)
		}
		if r.Start == nil || *r.Start != r.Walls[2].A {
			t.Errorf("start: %v", r.Start)
		}
	}
	r := roomOf(t, anticlockwise, "[[room.zone]]\nat = [500, 500]\nalong = \"B\"\nstart = \"B\"\ndensity = 170\n")
	if z := r.Zones[0]; z.Along == nil || z.Start == nil || z.Density != 170 || r.Along != nil || r.Start != nil {
		t.Errorf("the zone: %+v", z)
	}
}

func TestAskedOfZonesRefused(t *testing.T) {
	for _, c := range []struct{ outline, text, want string }{
		{"along = \"Q\"\n", "", `stands on wall "Q"`},
		{"start = \"Q\"\n", "", `stands on wall "Q"`},
		{"", "[[room.zone]]\nat = [500, 500]\ncold = true\nstart = \"A\"\n", "is to stay cold and has start"},
		{"", "[[room.zone]]\nat = [500, 500]\ncables = [\"X\"]\ndensity = 100\n", "has cables, and a density"},
	} {
		if said := saidOf(t, anticlockwise+c.outline, c.text); !strings.Contains(said, c.want) {
			t.Errorf("%q: %s", c.outline+c.text, said)
		}
	}
}
