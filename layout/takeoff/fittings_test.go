package takeoff

import (
	"strings"
	"testing"

	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// Fittings by hand: rod is as long as the movement joint, 1300 mm and a tenth; two doorways
// of 900 and 1700 mm take two profiles of 2.5 m, of 8 ft likewise; leads and tubes of 3 m and
// 1.2 m take a third of that in tape.
func TestFittingsByHand(t *testing.T) {
	in := bath()
	in.Rooms[0].Doorways = []float64{900, 1700}
	in.Rooms[0].Thermostat.LeadOnFloor = 1200
	l := counted(in)
	near(t, "rod", line(t, l, "backer-rod").Gross, 1.43, 1e-9)
	if got := line(t, l, "profile"); got.Packs != 2 || got.Gross != 5 || got.Pack != 2.5 || got.Spare != 0 {
		t.Errorf("%+v", got)
	}
	near(t, "tape", line(t, l, "tape").Net, 1.4, 1e-9)
	in.Units = plane.Inches
	if got := line(t, counted(in), "profile"); got.Packs != 2 || got.Pack != 2.4384 {
		t.Errorf("%+v", got)
	}
	in.Rooms[0].Doorways = []float64{900, 1300}
	if got := line(t, counted(in), "profile"); got.Packs != 1 {
		t.Errorf("both from one length: %+v", got)
	}
}

// Spacers by hand: 12 whole tiles take a cross each, in offset rows two tees each; the
// bag of 100 holds 88 and a tenth for those that are lost, not 92.
func TestSpacersByHand(t *testing.T) {
	in := bath()
	in.Rooms[0].Tiled = rect(4*303-3, 3*303-3)
	in.Tile.Length, in.Tile.Width = 300, 300
	near(t, "crosses", line(t, counted(in), "spacers").Net, 12, 0)
	in.Rooms[0].Tiles = &tiling.Layout{Count: tiling.Count{Whole: 40, Cut: 6}}
	in.Tile.Pattern = tiling.Offset
	got := line(t, Compute(in), "spacers")
	if near(t, "tees", got.Net, 92, 0); got.Packs != 2 {
		t.Errorf("%+v", got)
	}
	in.Rooms[0].Tiles.Cut = 4
	if got := line(t, Compute(in), "spacers"); got.Packs != 1 {
		t.Errorf("%+v", got)
	}
	in.Tile.Joint = 0
	if got := Compute(in).find("spacers"); got.Code != "" {
		t.Errorf("without joints: %+v", got)
	}
}

// What a job has no need of has no line: no joint, no doorway, no product, no visit.
func TestNoLineForWhatIsNotThere(t *testing.T) {
	in := bath()
	in.Rooms[0].Joints, in.Rooms[0].Thermostat = nil, nil
	l := counted(in)
	for _, code := range []string{"backer-rod", "profile", "waterproofing", "visits", "tester-hire", "tape", "relay"} {
		if got := l.find(code); got.Code != "" {
			t.Errorf("%+v", got)
		}
	}
}

// Visits add up over the phases, and a crew of two is at 9 hours for four and a half. Testers
// are hired where the price list has them, and are else left out in words.
func TestVisitsAndCrew(t *testing.T) {
	in := bath()
	in.Labour = []Labour{{Phase: "a", Fixed: 9, Crew: 2, Visits: 2, VisitCost: 30}, {Phase: "b", Fixed: 1, Visits: 1}}
	l := counted(in)
	got := line(t, l, "visits")
	if got.Net != 3 || got.Price != 90 || !strings.Contains(got.Basis.String(), "2 for a, 1 for b") {
		t.Errorf("%+v", got)
	}
	if got := line(t, l, "labour a").Note; !strings.Contains(got.String(), "a crew of 2 is 4.50 h at it") {
		t.Error(got)
	}
	hired := func(l List) bool {
		return strings.Contains(strings.Join(english(l.Exclusions), " "), "Hire of an insulation")
	}
	if !hired(l) {
		t.Error("hire is not left out")
	}
	in.Prices = map[string]float64{"tester-hire": 45}
	if l = counted(in); hired(l) || line(t, l, "tester-hire").Price != 45 {
		t.Errorf("%+v", l.Exclusions)
	}
}
