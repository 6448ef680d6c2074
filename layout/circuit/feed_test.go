package circuit

import (
	"math"
	"testing"
)

// Every conductor on file has a published figure beside it.
func TestConductorsAreAllPublished(t *testing.T) {
	if len(Conductors) != len(table(t, "copper-awg.csv"))+len(table(t, "copper-iec60228.csv")) {
		t.Error("a conductor on file has no published figure beside it")
	}
}

// The conventions differ by less than 0.5 % from each other up to 75 °C.
func TestTemperatureConventions(t *testing.T) {
	for _, at := range []float64{20, 50, 75} {
		want := CopperIEC.Factor(20, at)
		near(t, Copper20.Name, Copper20.Factor(20, at), want, 0.005*want)
		near(t, CopperNEC.Name, CopperNEC.Factor(20, at), want, 0.005*want)
	}
	// a meter at 20 °C reads about 82 % of the 75 °C table (voltdropcalc.com)
	near(t, "20 over 75 °C", CopperNEC.Factor(75, 20), 0.82, 0.005)
}

// Plain arithmetic on the published resistances.
func TestFeedDrop(t *testing.T) {
	for _, c := range []struct {
		size              string
		by                Convention
		at                float64
		amps, volts, feet float64
		drop, percent     float64
	}{
		{"12 AWG", CopperNEC, 75, 12, 120, 50, 2.316, 1.93},
		{"14 AWG", CopperNEC, 75, 12, 120, 50, 3.684, 3.07},
		{"10 AWG", CopperNEC, 75, 24, 240, 100, 5.808, 2.42},
		{"2.5 mm²", CopperIEC, 20, 16, 230, 20000 / 304.8, 4.742, 2.062},
		{"2.5 mm²", CopperIEC, 70, 16, 230, 20000 / 304.8, 5.691, 2.474},
	} {
		wire, err := FindConductor(c.size)
		if err != nil {
			t.Fatal(err)
		}
		d, err := FeedDrop(wire, c.by, c.at, c.amps, c.volts, c.feet*304.8)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.size+" V", d.Volts, c.drop, 6e-4)
		near(t, c.size+" %", 100*d.Share, c.percent, 6e-3)
		if (d.Convention == "") != (c.at == wire.At) {
			t.Errorf("%s at %g °C: convention %q", c.size, c.at, d.Convention)
		}
	}
}

// 20 A, 120 V, 100 ft of 12 AWG loses 6.4 V, 5.3 %: voltagedropcalculator.net/examples,
// whose copper is at 20 °C.
func TestPublishedDrop(t *testing.T) {
	wire, _ := FindConductor("12 AWG")
	d, err := FeedDrop(wire, CopperNEC, 20, 20, 120, 100*304.8)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "volts", d.Volts, 6.4, 0.06)
	near(t, "percent", 100*d.Share, 5.3, 0.05)
}

func TestFeedRefuses(t *testing.T) {
	wire, _ := FindConductor("12 AWG")
	for _, f := range [][4]float64{{math.NaN(), 12, 120, 1}, {75, -1, 120, 1}, {75, 1, 0, 1}, {75, 1, 120, math.Inf(1)},
		{-300, 1, 120, 1}} {
		if _, err := FeedDrop(wire, CopperNEC, f[0], f[1], f[2], f[3]); err == nil {
			t.Errorf("%v: no error", f)
		}
	}
	if _, err := FindConductor("13 AWG"); err == nil {
		t.Error("13 AWG: no error")
	}
}
