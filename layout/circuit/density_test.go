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
		got, err := LocalDensities(c.perMetre, []float64{c.gap, c.gap, c.gap})
		if err != nil || len(got) != 4 {
			t.Fatalf("%v, %v", got, err)
		}
		for _, d := range got {
			near(t, "W/m²", d, c.want, 5e-3)
		}
	}
}

// 12, 15 and 33 W/ft² in W/m², and 16.5 W/ft in W/m: plain arithmetic.
func TestPerFootConversions(t *testing.T) {
	near(t, "12 W/ft²", 12*WattsPerSquareFoot, 129.17, 5e-3)
	near(t, "15 W/ft²", 15*WattsPerSquareFoot, 161.46, 5e-3)
	near(t, "33 W/ft²", 33*WattsPerSquareFoot, 355.21, 5e-3)
	near(t, "16.5 W/ft", 16.5*WattsPerFoot, 54.13, 5e-3)
}

// Gaps of 60, 60, 120: the third run stands between a close and a wide gap.
func TestUnevenRunsAreJudgedLocally(t *testing.T) {
	got, err := LocalDensities(12, []float64{60, 60, 120})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{200, 200, 12 / 0.09, 100} {
		near(t, "run", got[i], want, 1e-9)
	}
	d, run, err := Densest(12, []float64{120, 60, 60})
	if d != 200 || run != 3 || err != nil {
		t.Errorf("densest %g at run %d (%v), want 200 at run 3", d, run, err)
	}
}

func TestDensityEdges(t *testing.T) {
	if got, err := LocalDensities(12, nil); got != nil || err != nil {
		t.Errorf("a lone run has no local density, got %v, %v", got, err)
	}
	for _, gaps := range [][]float64{{0}, {60, -1}, {math.NaN()}, {math.Inf(1)}} {
		if _, err := LocalDensities(12, gaps); err == nil {
			t.Errorf("gaps %v: no error", gaps)
		}
	}
	if got, err := Density(600, 5e6); got != 120 || err != nil {
		t.Errorf("600 W over 5 m²: %g, %v", got, err)
	}
	if _, err := Density(600, 0); err == nil {
		t.Error("no area: no error")
	}
}

// Whatever the gaps, the densest place is at least as dense as the mean over
// all gaps: an average can hide it, the local figure cannot.
func TestLocalIsNeverBelowTheMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gaps := rapid.SliceOfN(rapid.Float64Range(40, 200), 1, 30).Draw(t, "gaps")
		sum := 0.0
		for _, g := range gaps {
			sum += g
		}
		mean := 12000 * float64(len(gaps)) / sum
		densest, _, err := Densest(12, gaps)
		if err != nil || densest < mean*(1-1e-12) {
			t.Fatalf("densest %g below the mean %g (%v)", densest, mean, err)
		}
	})
}
