package compare_test

import (
	"strings"
	"testing"

	"oxturn/layout/compare"
	"oxturn/layout/internal/hand"
	"oxturn/layout/internal/trial"
)

// What changes the sheets' warmth, energy and rules but no cable is no "nothing changed".
// By hand: 360 W for 4 to 10 of 24 hours, 40 to 100 % of them, 30 days, are 17 to 108 kWh,
// 110 to two figures; at 0.2 and 0.4 a kWh, 3.4 to 22 and 6.8 to 44.
func TestWarmthIsCompared(t *testing.T) {
	loss := "[room.loss]\noutside = \"-5 C\"\nwalls = \"7 m2\"\nwalls_u = \"0.3 W/m2K\"\n"
	was := hand.Bath + loss + hand.BathLayers + "[energy]\ntariff = 0.2\ncurrency = \"EUR\"\n"
	for _, c := range []struct{ from, to, says string }{
		{"tariff = 0.2", "tariff = 0.4",
			"Bath, energy a month: 17 to 110 kWh, 3.4 to 22 EUR -> 17 to 110 kWh, 6.8 to 44 EUR"},
		{"from = 400\n", "from = 400\nfloor_limit = \"28 C\"\n", "Bath, floor limit: new: 28 °C"},
		{"walls_u = \"0.3", "walls_u = \"0.6", "Bath, heat loss: "},
		{"[energy]", "[supply]\nregion = \"europe\"\n[energy]", "region: elsewhere -> europe"},
		{"[energy]", "[warmth]\nwarmest = 23\n[energy]", "Bath, H1, surface over a cable at most: "},
	} {
		now := strings.Replace(was, c.from, c.to, 1)
		before, _ := trial.Said(t, was)
		after, _ := trial.Said(t, now)
		var all []string
		for _, x := range compare.Plans(before, after) {
			all = append(all, x.String())
		}
		if said := strings.Join(all, "\n"); !strings.Contains(said, c.says) {
			t.Errorf("%s: want %q in\n%s", c.to, c.says, said)
		}
		if same := compare.Plans(before, before); len(same) > 0 {
			t.Errorf("a plan differs from itself: %v", same)
		}
	}
}
