package circuit

import (
	"math"
	"strings"
	"testing"
)

func cable(t *testing.T, id string, volts, watts float64) Cable {
	t.Helper()
	c, err := Compute(Label{ID: id, Volts: volts, Watts: watts}, volts)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func load(t *testing.T, contacts float64, cables ...Cable) Load {
	t.Helper()
	l, err := Total(cables, contacts, NorthAmerica)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// 1440 W on 120 V is 15 A at 125 %, and 1441 W is 15.0104: plain arithmetic.
func TestContinuousLoadAtItsEdge(t *testing.T) {
	near(t, "1440 W", load(t, 15, cable(t, "H1", 120, 1440)).Continuous, 15, 1e-9)
	over := load(t, 15, cable(t, "H1", 120, 1441))
	near(t, "1441 W", over.Continuous, 15.0104, 5e-5)
	for _, c := range []struct {
		watts float64
		under bool
	}{{1440, true}, {1441, false}} {
		if got := load(t, 15, cable(t, "H1", 120, c.watts)).Bindings(NorthAmerica.Ratings)[0].Under; got != c.under {
			t.Errorf("%g W under 80 %% of 15 A: %v, want %v", c.watts, got, c.under)
		}
	}
}

// 1500 W on 120 V: 12.5 A, over 80 % of 15 A, under 80 % of 20 A and under a 15 A
// thermostat. Plain arithmetic.
func TestFifteenHundredWatts(t *testing.T) {
	l := load(t, 15, cable(t, "H1", 120, 1500))
	near(t, "amps", l.Amps, 12.5, 1e-12)
	near(t, "at 125 %", l.Continuous, 15.625, 1e-12)
	near(t, "margin", l.Margin, 2.5, 1e-12)
	rows := l.Bindings(NorthAmerica.Ratings)
	if rows[0].Under || !rows[1].Under || l.Needs != "" {
		t.Errorf("15 A row %v, 20 A row %v, needs %q", rows[0], rows[1], l.Needs)
	}
}

// 9600 W at 240 V with a 3 A blower is 43 A, 53.75 A at 125 %: worked example
// under the 2017 NEC in an electrical-code newsletter (letter 2089). The blower
// stands here as a 720 W cable.
func TestPublishedHeaterExample(t *testing.T) {
	l := load(t, 0, cable(t, "heater", 240, 9600), cable(t, "blower", 240, 720))
	near(t, "amps", l.Amps, 43, 1e-9)
	near(t, "at 125 %", l.Continuous, 53.75, 1e-9)
}

// A 15 A thermostat: the 15 A breaker's 80 % binds, on 20 A the contacts do, at
// 1800 W on 120 V and 144 ft² at 12.5 W/ft² (common practice).
func TestWhichRatingBinds(t *testing.T) {
	rows := load(t, 15, cable(t, "H1", 120, 1000)).Bindings(NorthAmerica.Ratings)
	if rows[0].Binds != "breaker" || rows[1].Binds != "thermostat contacts" {
		t.Errorf("15 A: %s, 20 A: %s", rows[0].Binds, rows[1].Binds)
	}
	near(t, "watts on 20 A", rows[1].Watts, 1800, 1e-9)
	near(t, "ft² on 20 A", rows[1].AreaAt(12.5*WattsPerSquareFoot)/92903.04, 144, 1e-6)
	if got := load(t, 16, cable(t, "H1", 230, 1000)).Bindings(NorthAmerica.Ratings)[1].Binds; got != "both alike" {
		t.Errorf("16 A contacts and a 20 A breaker: %s", got)
	}
	if got := load(t, 0, cable(t, "H1", 230, 1000)).Bindings(NorthAmerica.Ratings)[4].Binds; got != "breaker" {
		t.Errorf("rating not stated: %s", got)
	}
}

func TestRelayOrSecondThermostat(t *testing.T) {
	for _, c := range []struct {
		name  string
		watts []float64
		needs string
	}{
		{"exactly at the contacts", []float64{1800, 1800}, ""},
		{"a watt over, two cables", []float64{1800, 1801}, "a relay or a second thermostat"},
		{"one cable too much alone", []float64{3700, 100}, "a relay"},
	} {
		l := load(t, 15, cable(t, "H1", 240, c.watts[0]), cable(t, "H2", 240, c.watts[1]))
		if l.Needs != c.needs {
			t.Errorf("%s: needs %q, want %q", c.name, l.Needs, c.needs)
		}
	}
}

// Two 20 Ω cables side by side measure 10 Ω: plain arithmetic.
func TestCablesAreSideBySide(t *testing.T) {
	l := load(t, 0, cable(t, "H1", 240, 2880), cable(t, "H2", 240, 2880))
	near(t, "ohms", l.Ohms, 10, 1e-9)
	near(t, "watts", l.Watts, 5760, 0)
}

func TestTotalRefuses(t *testing.T) {
	_, err := Total([]Cable{cable(t, "H1", 240, 500), cable(t, "H2", 120, 500)}, 15, NorthAmerica)
	if err == nil || !strings.Contains(err.Error(), "H1 (240 V) and H2 (120 V)") {
		t.Errorf("mixed volts: %v", err)
	}
	if _, err := Total(nil, math.NaN(), Europe); err == nil {
		t.Error("a rating that is not a number: no error")
	}
	if l, err := Total(nil, 15, Europe); err != nil || l.Amps != 0 || l.Needs != "" {
		t.Errorf("no cables: %+v, %v", l, err)
	}
}
