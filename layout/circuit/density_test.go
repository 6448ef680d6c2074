package circuit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Heat per area from W per length over the gap: plain arithmetic.
func TestEvenRunsGivePowerOverGap(t *testing.T) {
	for _, c := range []struct{ perMetre, gap, want float64 }{
		{10, 75, 133.333},
		{12, 76.2, 157.480},
		{3 * WattsPerFoot, 76.2, 12 * WattsPerSquareFoot},
		{4 * WattsPerFoot, 3.6 * 25.4, 13.333 * WattsPerSquareFoot},
	} {
		got, err := Local(c.perMetre, c.gap, c.gap)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "W/m²", got, c.want, 5e-3)
	}
}

// 12, 15 and 33 W/ft² in W/m², and 16.5 W/ft in W/m: plain arithmetic.
func TestPerFootConversions(t *testing.T) {
	near(t, "12 W/ft²", 12*WattsPerSquareFoot, 129.17, 5e-3)
	near(t, "15 W/ft²", 15*WattsPerSquareFoot, 161.46, 5e-3)
	near(t, "33 W/ft²", 33*WattsPerSquareFoot, 355.21, 5e-3)
	near(t, "16.5 W/ft", 16.5*WattsPerFoot, 54.13, 5e-3)
}

// A run between a gap of 60 and one of 120 mm has 90 mm of floor: plain
// arithmetic. Runs at the edge count by their one gap.
func TestUnevenRunsAreJudgedLocally(t *testing.T) {
	none := math.Inf(1)
	for _, c := range []struct{ before, after, want float64 }{
		{60, 60, 200}, {60, 120, 12 / 0.09}, {120, 60, 12 / 0.09}, {none, 60, 200}, {120, none, 100}, {none, none, 0},
	} {
		got, err := Local(12, c.before, c.after)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "W/m²", got, c.want, 1e-9)
	}
}

func TestDensityEdges(t *testing.T) {
	for _, gap := range []float64{0, -1, math.NaN()} {
		if _, err := Local(12, 60, gap); err == nil {
			t.Errorf("a gap of %g: no error", gap)
		}
	}
	if _, err := Local(math.NaN(), 60, 60); err == nil {
		t.Error("no power: no error")
	}
	if got, err := Density(600, 5e6); got != 120 || err != nil {
		t.Errorf("600 W over 5 m²: %g, %v", got, err)
	}
	if _, err := Density(600, 0); err == nil {
		t.Error("no area: no error")
	}
}

// Whatever the gaps, the densest run is at least as dense as the mean over all
// gaps: an average can hide it, the local figure cannot.
func TestLocalIsNeverBelowTheMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gaps := rapid.SliceOfN(rapid.Float64Range(40, 200), 1, 30).Draw(t, "gaps")
		sum, densest := 0.0, 0.0
		for i := range len(gaps) + 1 {
			before, after := math.Inf(1), math.Inf(1)
			if i > 0 {
				before = gaps[i-1]
				sum += before
			}
			if i < len(gaps) {
				after = gaps[i]
			}
			d, err := Local(12, before, after)
			if err != nil {
				t.Fatal(err)
			}
			densest = math.Max(densest, d)
		}
		if mean := 12000 * float64(len(gaps)) / sum; densest < mean*(1-1e-12) {
			t.Fatalf("densest %g below the mean %g", densest, mean)
		}
	})
}
