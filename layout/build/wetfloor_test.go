package build_test

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
)

// A room of 2600 x 2200 mm with a shower of 1 m² in a corner, with a drain of 100 mm in
// its middle. HEATED stands for what the shower says of itself.
const wetRoom = `units = "mm"
[membrane]
pitch = 30
[clearance]
wall = 75
drain = 100
fixture = 50
[[cable]]
id = "C"
volts = 240
watts = 600
length = "LENGTH m"
lead = "4 m"
[[room]]
name = "Wet room"
corners = [[0, 0], [2600, 0], [2600, 2200], [0, 2200]]
[[room.fixture]]
kind = "shower"
corner = "C"
width = 1000
depth = 1000
HEATED
[[room.fixture]]
kind = "drain"
at = [2100, 1700]
[room.thermostat]
wall = "A"
from = 500
`

// TestWarmedShowerTakesCable: with heated the floor within the clearances is all of the
// room's but the drain's disc of 150 mm radius, by hand 2450 x 2050 mm less 0.0707 m²,
// cable lies in the shower, and no lead, joint or sensor does; without, none lies there.
func TestWarmedShowerTakesCable(t *testing.T) {
	shower := plane.Rectangle(plane.Pt(1600, 1200), plane.Pt(2600, 2200))
	for _, c := range []struct {
		heated, length string
		area           float64
	}{
		{"heated = true", "52", 2450*2050 - math.Pi*150*150},
		{"", "40", 2450*2050 - 975*975}, // 50 mm off the shower
	} {
		p, said := trial.Said(t, strings.NewReplacer("HEATED", c.heated, "LENGTH", c.length).Replace(wetRoom))
		r := &p.Rooms[0]
		if len(r.Cables) != 1 {
			t.Fatalf("%q: %d cables, %v", c.heated, len(r.Cables), said)
		}
		if math.Abs(r.Heated.Area()-c.area) > 2000 {
			t.Errorf("%q: %.4f m² to heat, by hand %.4f", c.heated, r.Heated.Area()/1e6, c.area/1e6)
		}
		in := 0.0
		for _, s := range plane.Segments(r.Cables[0].Path) {
			for d := 5.0; d < s.Length(); d += 10 {
				if p := s.At(d); shower.Contains(p) {
					in += 10
				}
				if s.At(d).Dist(plane.Pt(2100, 1700)) < 149 {
					t.Fatalf("%q: cable at %v, over the drain", c.heated, s.At(d))
				}
			}
		}
		if warm := c.heated != ""; warm != (in > 5000) || !warm && in > 0 {
			t.Errorf("%q: %.1f m of cable in the shower", c.heated, in/1000)
		}
		if shower.Contains(r.Cables[0].Path[0]) {
			t.Errorf("%q: the lead joint lies in the shower", c.heated)
		}
		for _, s := range r.Sensors {
			if shower.Contains(s.Tip) {
				t.Errorf("%q: %s lies in the shower", c.heated, s.Name)
			}
		}
	}
}
