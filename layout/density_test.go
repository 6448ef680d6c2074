package layout_test

import (
	"math"
	"testing"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// rectangle is a floor of so many square feet, one foot wide.
func rectangle(squareFeet float64) plane.Region {
	x, y := squareFeet*plane.Foot, plane.Foot
	return plane.Region{{Outer: plane.Ring{{X: 0, Y: 0}, {X: x, Y: 0}, {X: x, Y: y}, {X: 0, Y: y}}}}
}

// Worked by hand: 237 W / 15.1 ft² = 15.70 W/ft²; 64 ft by 3.47 in are
// 64 x 3.47 / 12 = 18.51 ft², and 237 / 18.51 = 12.81 W/ft².
func TestPowerPerAreaHasItsArea(t *testing.T) {
	c := layout.Cable{Label: job.Cable{Watts: 237, Length: 64 * plane.Foot}, Spacing: 3.47 * plane.Inch,
		Share: rectangle(15.1)}
	perFoot := func(wm2 float64) float64 { return wm2 / circuit.WattsPerSquareFoot }
	if got := perFoot(c.OverServed()); math.Abs(got-15.70) > 0.005 {
		t.Errorf("over the heated floor: %.3f W/ft²", got)
	}
	if got := c.AtEven() / (plane.Foot * plane.Foot); math.Abs(got-18.51) > 0.005 {
		t.Errorf("at even spacing: %.3f ft²", got)
	}
	c.Density = 12.81 * circuit.WattsPerSquareFoot
	for _, v := range []struct {
		most, densest float64 // W/ft²
		over          string
		keeps         bool
		judged        float64
	}{
		{15, 14.8, "", false, 15.70},
		{15.8, 14.8, "", true, 15.70},
		{15, 14.8, job.OverHeated, false, 15.70},
		{15, 14.8, job.OverEven, true, 14.8},
		{14.5, 14.8, job.OverEven, false, 14.8},
		{12, 0, job.OverEven, false, 12.81},
		{13, 0, job.OverEven, true, 12.81},
		{15.8, 16, "", false, 16},
		{15.8, 16, job.OverHeated, false, 16},
		{0, 99, "", true, 99},
	} {
		c.Gaps = layout.Gaps{Most: v.most * circuit.WattsPerSquareFoot, Densest: v.densest * circuit.WattsPerSquareFoot,
			MostOver: v.over}
		if got := perFoot(c.Judged()); c.Keeps() != v.keeps || math.Abs(got-v.judged) > 0.005 {
			t.Errorf("%g W/ft² %s, densest %g: kept %v, judged %.2f", v.most, layout.LimitOver(v.over), v.densest,
				c.Keeps(), got)
		}
	}
	if got := (&layout.Cable{Label: job.Cable{Watts: 237}}).OverServed(); got != 0 {
		t.Errorf("without a floor: %g", got)
	}
}

// EN 1264-2: 9 K over the air, 29 °C in a room at 20 °C, 33 °C in a bathroom at 24 °C.
func TestComfortByKindOfRoom(t *testing.T) {
	for _, v := range []struct {
		fixture        job.FixtureKind
		warmest, rise  float64
		limit, surface float64
		over           bool
	}{
		{"", 20, 8.9, 29, 28.9, false},
		{"", 20, 9.1, 29, 29.1, true},
		{"", 22, 8, 29, 30, true},
		{"", 18, 8.9, 29, 28.9, false},
		{job.Vanity, 20, 9.1, 29, 29.1, true},
		{job.Tub, 20, 8.9, 33, 32.9, false},
		{job.Tub, 20, 9.1, 33, 33.1, true},
		{job.Shower, 26, 8, 33, 34, true},
		{job.Shower, 24, 8, 33, 32, false},
	} {
		r := layout.Room{Job: &job.Room{Fixtures: []job.Fixture{{Kind: v.fixture}}}, Cables: []layout.Cable{{ID: "H1"},
			{ID: "H2"}}}
		w := &layout.Warmth{Warmest: v.warmest, Runs: []layout.Warm{
			{Cables: []string{"H2"}, Hot: layout.Bound{Steady: heat.Steady{OverCable: v.rise}}},
			{Cables: []string{"H1"}, Hot: layout.Bound{Steady: heat.Steady{OverCable: v.rise - 1}}},
		}}
		got := w.Comfort(&r)
		if got == nil || got.Over() != v.over || got.Limit.Celsius != v.limit ||
			math.Abs(got.Surface-v.surface) > 1e-9 {
			t.Errorf("%q, air at %g, %g K over it: %+v", v.fixture, v.warmest, v.rise, got)
		}
	}
	var none *layout.Warmth
	if got := none.Comfort(&layout.Room{Job: &job.Room{}, Cables: []layout.Cable{{ID: "H1"}}}); got != nil {
		t.Errorf("warmth that is not known: %+v", got)
	}
}
