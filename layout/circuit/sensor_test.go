package circuit

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func family(t *testing.T, name string) Family {
	t.Helper()
	f, err := FindFamily(name)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func ohms(t *testing.T, c Curve, celsius float64) float64 {
	t.Helper()
	r, err := c.Ohms(celsius)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func celsius(t *testing.T, c Curve, r float64) float64 {
	t.Helper()
	v, err := c.Celsius(r)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// A single beta is a label, not a curve: against the published table it is up
// to 0.8 K off from 0 to 65 °C, and really is more than 0.6 K off at 0 °C.
func TestBetaIsOnlyNear(t *testing.T) {
	b := Beta{10000, 3977}
	for _, row := range table(t, "sensor-10k-3977.csv") {
		if row[0] >= 0 && row[0] <= 65 {
			near(t, "°C", celsius(t, b, row[1]), row[0], 0.8)
		}
	}
	if off := celsius(t, b, 32650.9); math.Abs(off) < 0.6 {
		t.Errorf("beta reads %g °C at 0 °C; its doc says 0.7 K off", off)
	}
}

// Beta curves, by their definition: plain arithmetic.
func TestBetaCurves(t *testing.T) {
	for _, c := range []struct{ b, t0, t10, t30, t50 float64 }{
		{3435, 28704, 18410, 8269, 4101}, {3950, 33621, 20175, 8037, 3588}, {3977, 33900, 20272, 8025, 3563},
	} {
		for t0, want := range map[float64]float64{0: c.t0, 10: c.t10, 25: 10000, 30: c.t30, 50: c.t50} {
			near(t, "Ω", ohms(t, Beta{10000, c.b}, t0), want, 0.51)
		}
	}
}

// 12 k and 15 k are taken as exact multiples of the 3977 curve, an assumption
// that their source must state; figures plain arithmetic on that.
func TestMultiplesStateTheirAssumption(t *testing.T) {
	for name, want := range map[string][3]float64{"12k": {39180, 14992, 9667}, "15k": {48974, 18740, 12084}} {
		f := family(t, name)
		for i, at := range []float64{0, 20, 30} {
			near(t, name, ohms(t, f, at), want[i], 0.6)
		}
		if !strings.Contains(f.Source, "assumed") {
			t.Errorf("%s: source %q", name, f.Source)
		}
	}
}

// Platinum by IEC 60751's formula: plain arithmetic on the standard's figures.
func TestPlatinumByHand(t *testing.T) {
	p := Platinum{1000}
	// below 0 °C the fourth power counts; plain arithmetic on the standard's figures
	near(t, "Ω at -40 °C", ohms(t, p, -40), 842.707, 0.001)
	near(t, "°C at 842.707", celsius(t, p, 842.707), -40, 0.001)
	near(t, "°C at 1116.729", celsius(t, p, 1116.729), 30, 1e-3)
	near(t, "°C at exactly 1000 Ω", celsius(t, p, 1000), 0, 1e-9)
}

func TestCurvesInvert(t *testing.T) {
	for _, f := range Families() {
		rapid.Check(t, func(rt *rapid.T) {
			at := rapid.Float64Range(coldestFormula, hottestFormula).Draw(rt, "celsius")
			r, err := f.Ohms(at)
			if err != nil {
				rt.Fatal(err)
			}
			back, err := f.Celsius(r)
			if err != nil || math.Abs(back-at) > 1e-6 {
				rt.Fatalf("%s: %g °C -> %g Ω -> %g °C (%v)", f.Name, at, r, back, err)
			}
		})
	}
}

func TestOutsideTheCurve(t *testing.T) {
	for _, f := range Families() {
		for _, bad := range []float64{-51, 151, math.NaN(), math.Inf(-1)} {
			if _, err := f.Ohms(bad); err == nil {
				t.Errorf("%s at %g °C: no error", f.Name, bad)
			}
		}
		for _, bad := range []float64{0, -5, 0.01, 1e12, math.NaN(), math.Inf(1)} {
			if got, err := f.Celsius(bad); err == nil {
				t.Errorf("%s at %g Ω: %g °C and no error", f.Name, bad, got)
			}
		}
	}
	if _, err := (SteinhartHart{}).Ohms(20); err == nil {
		t.Error("zero coefficients: no error")
	}
}

// At 0 °C the two 10 kΩ families differ by 10 %, at 40 °C by 5 %: a reading
// tells them apart.
func TestReadingOfAnotherFamily(t *testing.T) {
	chosen := family(t, "10k-3977")
	for _, c := range []struct {
		ohms, celsius float64
		want          string
	}{
		{12490, 20, ""},        // published for 3977 itself
		{29490, 0, "10k-3695"}, // from memory for 3695
		{1077.9, 20, "pt1000"}, // published for Pt1000
		{14992, 20, "12k"},
		{18740, 20, "15k"},
		{500, 20, ""},  // nothing fits
		{3000, 20, ""}, // another one is nearer, but 35 K off
	} {
		fit, ok, err := BetterFamily(chosen, c.ohms, c.celsius, 1)
		if err != nil {
			t.Fatal(err)
		}
		if ok != (c.want != "") || ok && fit.Family.Name != c.want {
			t.Errorf("%g Ω at %g °C: %q %v, want %q", c.ohms, c.celsius, fit.Family.Name, ok, c.want)
		}
	}
	for _, bad := range []float64{0, math.Inf(1), math.NaN()} {
		if _, _, err := BetterFamily(chosen, bad, 20, 1); err == nil {
			t.Errorf("%g Ω: no error", bad)
		}
	}
}

func TestFindFamily(t *testing.T) {
	if f := family(t, "PT1000"); f.Name != "pt1000" {
		t.Errorf("got %q", f.Name)
	}
	if _, err := FindFamily("10k"); err == nil || !strings.Contains(err.Error(), "10k-3977, 10k-3695") {
		t.Errorf("got %v", err)
	}
}
