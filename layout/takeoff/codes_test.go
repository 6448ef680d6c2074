package takeoff

import (
	"testing"

	"oxturn/layout/plane"
)

func TestEveryLineHasAKnownCode(t *testing.T) {
	in := bath()
	in.Rooms[0].Thermostat.Relay = true
	in.Labour = []Labour{{Phase: "membrane", Fixed: 2, Visits: 1}}
	in.Rooms[0].Doorways, in.Prices = []float64{800}, map[string]float64{"tester-hire": 40}
	in.Materials.Waterproofing.Coverage = 4
	onStrips := in
	onStrips.Strips = []float64{5_000, 5_000, 2_000}
	seen := map[string]bool{}
	for _, l := range append(counted(in).Lines, counted(onStrips).Lines...) {
		seen[l.Code] = true
		if !Known(l.Code) {
			t.Errorf("the code %q is not known", l.Code)
		}
	}
	for _, c := range lineCodes {
		if !seen[c] {
			t.Errorf("no line has the code %q", c)
		}
	}
	for _, c := range []string{"", "membrne", "cable", "labour"} {
		if Known(c) {
			t.Errorf("%q is known", c)
		}
	}
}

// A pack is priced by the pack, what is cut to length by the metre, work by
// the hour.
func TestPricesByPackMetreAndHour(t *testing.T) {
	in := bath()
	in.Labour = []Labour{{Phase: "membrane", Fixed: 2, HourCost: 40}, {Phase: "cable", Fixed: 3, HourCost: 40}}
	in.Prices = map[string]float64{"membrane": 210, "conduit": 1.5, "labour cable": 50, "tile": 60}
	l := counted(in)
	near(t, "one roll", line(t, l, "membrane").Price, 210, 0)
	near(t, "2.4 m of conduit and a tenth", line(t, l, "conduit").Price, 3.96, 1e-9)
	near(t, "the job's rate", line(t, l, "labour membrane").Price, 80, 0)
	near(t, "the file's rate", line(t, l, "labour cable").Price, 150, 0)
	tile := line(t, l, "tile")
	near(t, "boxes of tile", tile.Price, 60*float64(tile.Packs), 0)
	near(t, "no price", line(t, l, "sensor-tube").Price, 0, 0)
}

// Strips are counted piece by piece: a fastener at both ends and none of those between farther off than 300 mm (common
// practice, from memory). 5 m ask for 17 spaces, 2 m for 7, what is shorter than a space for one.
func TestFasteners(t *testing.T) {
	in := bath()
	in.Units, in.Strips = plane.Millimetres, []float64{5_000, 2_000, 200, 300}
	l := counted(in)
	near(t, "strips", line(t, l, "strips").Net, 7.5, 1e-9)
	near(t, "fasteners", line(t, l, "strip-fixings").Net, 18+8+2+2, 0)
	in.Units, in.Strips = plane.Inches, []float64{10 * plane.Foot, 10.5 * plane.Foot}
	near(t, "fasteners a foot apart", line(t, counted(in), "strip-fixings").Net, 11+12, 0)
}
