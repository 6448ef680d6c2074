package circuit

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Ohms by V²/W: plain arithmetic.
func TestOhmsFromVoltsAndWatts(t *testing.T) {
	for _, c := range []struct{ volts, watts, ohms float64 }{
		{120, 1440, 10}, {240, 2880, 20}, {240, 3840, 15}, {230, 2300, 23},
		{120, 1500, 9.6}, {240, 500, 115.2}, {120, 500, 28.8}, {240, 1000, 57.6},
	} {
		got, err := Compute(Label{ID: "H1", Volts: c.volts, Watts: c.watts}, c.volts)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "ohms", got.Nominal, c.ohms, 1e-9)
		if got.OhmsFrom != "V²/W" {
			t.Errorf("ohms said to be from %q", got.OhmsFrom)
		}
	}
}

// A 240 V, 500 W cable: 115.2 Ω, 2.08 A, 109.4 to 126.7 Ω at -5/+10 % (common
// practice), and a power band of 0.9091 to 1.0526 (plain arithmetic).
func TestDefaultLimits(t *testing.T) {
	c, err := Compute(Label{ID: "H1", Volts: 240, Watts: 500}, 240)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "amps", c.Amps, 2.0833, 1e-4)
	near(t, "low", c.Limits.Low, 109.44, 1e-9)
	near(t, "high", c.Limits.High, 126.72, 1e-9)
	near(t, "most heat", c.WattsHigh/500, 1.0526, 5e-5)
	near(t, "least heat", c.WattsLow/500, 0.9091, 5e-5)
}

func TestLabelWinsOverVoltsAndWatts(t *testing.T) {
	c, err := Compute(Label{ID: "H1", Volts: 240, Watts: 600, Ohms: 98, Length: 60000, OhmsLow: -0.1, OhmsHigh: 0.1,
		Tolerance: "label"}, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ohms", c.Nominal, 98, 0)
	near(t, "gap to V²/W", c.LabelGap, 98.0/96-1, 1e-12)
	near(t, "W/m", c.WattsPerMetre, 10, 1e-12)
	if c.OhmsFrom != "label" || c.Limits.Source != "label" {
		t.Errorf("sources %q and %q, want label for both", c.OhmsFrom, c.Limits.Source)
	}
}

// A reading exactly on a limit is inside; the next figure a meter shows is not.
func TestLimitsAtTheirEdge(t *testing.T) {
	c, _ := Compute(Label{Volts: 240, Watts: 600}, 0)
	for ohms, want := range map[float64]bool{91.2: true, 91.19: false, 105.6: true, 105.61: false, 96: true, 0: false} {
		if got := c.Limits.Holds(ohms); got != want {
			t.Errorf("%g Ω held: %v, want %v", ohms, got, want)
		}
	}
	if c.Limits.Holds(math.NaN()) {
		t.Error("no reading at all counts as within limits")
	}
}

// 208 V on 240 V is 0.7511 of the heat: plain arithmetic, V².
func TestWrongVoltageIsAnErrorWithItsHeat(t *testing.T) {
	_, err := Compute(Label{ID: "H1", Volts: 240, Watts: 500}, 208)
	var wrong *VoltageError
	if !errors.As(err, &wrong) || wrong.Cable != "H1" || wrong.Rated != 240 || wrong.Supply != 208 {
		t.Fatalf("got %v", err)
	}
	near(t, "share", wrong.Share, 0.7511, 5e-5)
	near(t, "watts", wrong.Watts, 375.6, 0.05)
}

func TestHeatGoesWithTheSquareOfVolts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Label{ID: "H1", Volts: rapid.Float64Range(12, 480).Draw(t, "volts"), Watts: rapid.Float64Range(10,
			5000).Draw(t, "watts")}
		k := rapid.Float64Range(1.01, 3).Draw(t, "factor")
		var wrong *VoltageError
		if !errors.As(CheckSupply(l, k*l.Volts), &wrong) {
			t.Fatal("no error")
		}
		if math.Abs(wrong.Watts-l.Watts*k*k) > 1e-9*wrong.Watts {
			t.Fatalf("%g W at %g times the volts, want %g", wrong.Watts, k, l.Watts*k*k)
		}
	})
}

func TestUnusableLabels(t *testing.T) {
	good := Label{ID: "H1", Volts: 240, Watts: 500}
	for name, change := range map[string]func(*Label){
		"no volts":           func(l *Label) { l.Volts = 0 },
		"negative watts":     func(l *Label) { l.Watts = -500 },
		"watts not a number": func(l *Label) { l.Watts = math.NaN() },
		"endless":            func(l *Label) { l.Length = math.Inf(1) },
		"tolerance as percent": func(l *Label) {
			l.OhmsLow, l.OhmsHigh = -5, 10
		},
		"tolerance not a number": func(l *Label) { l.OhmsHigh = math.NaN() },
	} {
		l := good
		change(&l)
		if _, err := Compute(l, 240); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := Compute(good, -240); err == nil {
		t.Error("negative supply: no error")
	}
}
