package circuit

import (
	"math"
	"strings"
	"testing"
)

var label = Label{ID: "H1", Volts: 1, Watts: 1, Length: 0.5, Ohms: 1}

// What a label may say ends here; each bound is tried from both sides.
func TestLabelsAtTheirBounds(t *testing.T) {
	for _, c := range []struct {
		name string
		set  func(l *Label)
		good bool
	}{
		{"one volt, watt and ohm, half a millimetre", func(l *Label) {}, true},
		{"no length", func(l *Label) { l.Length = 0 }, true},
		{"no volts", func(l *Label) { l.Volts = 0 }, false},
		{"no watts", func(l *Label) { l.Watts = 0 }, false},
		{"99 % below", func(l *Label) { l.OhmsLow = -0.99 }, true},
		{"nothing left", func(l *Label) { l.OhmsLow = -1 }, false},
		{"both above", func(l *Label) { l.OhmsLow, l.OhmsHigh = 0.05, 0.10 }, false},
		{"both below", func(l *Label) { l.OhmsLow, l.OhmsHigh = -0.10, -0.05 }, false},
		{"nearly ten times above", func(l *Label) { l.OhmsHigh = 9.99 }, true},
		{"ten times above", func(l *Label) { l.OhmsHigh = 10 }, false},
		{"no figure below", func(l *Label) { l.OhmsLow = math.NaN() }, false},
		{"no figure above", func(l *Label) { l.OhmsHigh = math.NaN() }, false},
	} {
		l := label
		c.set(&l)
		got, err := Compute(l, 0)
		if (err == nil) != c.good {
			t.Errorf("%s: %v", c.name, err)
		}
		if want := 2000.0; c.good && l.Length > 0 && got.WattsPerMetre != want || l.Length == 0 &&
			got.WattsPerMetre != 0 {
			t.Errorf("%s: %v W/m", c.name, got.WattsPerMetre)
		}
	}
	l := label
	l.OhmsLow, l.OhmsHigh = -1.05, 0.10
	if _, err := Compute(l, 0); err == nil || !strings.Contains(err.Error(), "a tolerance of -105/+10 %") {
		t.Errorf("said: %v", err)
	}
}

// A tolerance with one side stated is the label's own, not the default.
func TestOneSidedTolerance(t *testing.T) {
	l := label
	l.OhmsLow = -0.2
	c, err := Compute(l, 0)
	if err != nil || c.Limits.Low != 0.8 || c.Limits.High != 1 || c.Limits.Source != "job file" {
		t.Errorf("%+v, %v", c.Limits, err)
	}
}

func TestDensitiesOfNothing(t *testing.T) {
	for _, c := range [][2]float64{{-1, 1e6}, {1, -1e6}, {1, 0}, {math.Inf(1), 1e6}, {1, math.NaN()}} {
		if d, err := Density(c[0], c[1]); err == nil {
			t.Errorf("%v W over %v mm²: %v", c[0], c[1], d)
		}
	}
	if d, err := Local(10, 0.5, 0.5); err != nil || d != 20_000 {
		t.Errorf("half a millimetre apart: %v, %v", d, err)
	}
}

func TestFeedTemperaturesAtTheirBounds(t *testing.T) {
	for at, good := range map[float64]bool{-100: false, -99: true, 249: true, 250: false} {
		if _, err := FeedDrop(Conductors[0], CopperIEC, at, 1, 230, 1000); (err == nil) != good {
			t.Errorf("at %g °C: %v", at, err)
		}
	}
}

func TestSmallContacts(t *testing.T) {
	c := cable(t, "H1", 240, 480)
	if l := load(t, 1, c); l.Needs != "a relay" || l.Margin != -1 {
		t.Errorf("2 A on contacts for 1 A: %+v", l)
	}
}

func TestAreaOfNothing(t *testing.T) {
	b := Binding{Watts: 150}
	for density, want := range map[float64]float64{-1: 0, 0: 0, 1: 150e6, 100: 1.5e6, math.Inf(1): 0} {
		if got := b.AreaAt(density); got != want {
			t.Errorf("at %v W/m²: %v mm², want %v", density, got, want)
		}
	}
	if got := (Binding{}).AreaAt(100); got != 0 {
		t.Errorf("no watts warm %v mm²", got)
	}
}

// IEC 60751: above 0 °C the third term is none at all, and the curve can be
// turned round at its very ends.
func TestPlatinumAtZeroAndAtItsEnds(t *testing.T) {
	p := Platinum{1}
	for _, c := range []float64{0, 0.5, 1, 20} {
		if got, want := ohms(t, p, c), 1+3.9083e-3*c-5.775e-7*c*c; math.Abs(got-want) > 1e-13 {
			t.Errorf("at %g °C: %.15f, want %.15f", c, got, want)
		}
	}
	for _, c := range []float64{-50, -49.9, -10, -0.5, 0, 0.5, 149.9, 150} {
		for _, r0 := range []float64{0.5, 100, 1000} {
			if got := celsius(t, Platinum{r0}, ohms(t, Platinum{r0}, c)); math.Abs(got-c) > 1e-8 {
				t.Errorf("%g °C of %g Ω comes back as %.12f", c, r0, got)
			}
		}
	}
	for _, c := range []float64{-50, 150} {
		if got := celsius(t, Beta{10000, 3435}, ohms(t, Beta{10000, 3435}, c)); math.Abs(got-c) > 1e-8 {
			t.Errorf("%g °C comes back as %.12f", c, got)
		}
	}
}

func TestTablesAtTheirBounds(t *testing.T) {
	for _, c := range []struct {
		name   string
		points []RT
		said   string // empty: good
	}{
		{"coldest and hottest", []RT{{-273, 1}, {999, 2}}, ""},
		{"absolute zero", []RT{{-273.15, 1}, {20, 2}}, "not a usable point"},
		{"too hot", []RT{{0, 1}, {1000, 2}}, "not a usable point"},
		{"no ohms", []RT{{0, 0}, {20, 2}}, "not a usable point"},
		{"any order", []RT{{30, 1}, {0, 4}, {10, 3}, {20, 2}}, ""},
		{"turns", []RT{{0, 4}, {10, 3}, {20, 5}}, "between 10 and 20 °C they do not"},
		{"turns the other way", []RT{{0, 3}, {10, 4}, {20, 2}}, "between 10 and 20 °C they do not"},
		{"stands still", []RT{{0, 3}, {10, 3}}, "between 0 and 10 °C they do not"},
		{"stands still later", []RT{{0, 2}, {10, 3}, {20, 3}}, "between 10 and 20 °C they do not"},
	} {
		_, err := NewTable(c.points)
		if (err == nil) != (c.said == "") || err != nil && !strings.Contains(err.Error(), c.said) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	if low, high := (Table{}).Range(); low != 0 || high != 0 {
		t.Errorf("an empty table reaches from %v to %v", low, high)
	}
}

// A reading just beyond the last point is none of the table's.
func TestReadingBesideTheTable(t *testing.T) {
	table, err := NewTable([]RT{{0, 100}, {10, 110}})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []float64{99.95, 110.05} {
		if got, err := table.Celsius(r); err == nil {
			t.Errorf("%g Ω reads as %g °C", r, got)
		}
	}
}

func TestFamiliesThatFitAlikeKeepTheirOrder(t *testing.T) {
	twins := []Family{{Name: "a", Curve: ntc3977}, {Name: "b", Curve: ntc3977}, {Name: "c", Curve: ntc3977}}
	fits, err := Fits(twins, 10_000, 20)
	if err != nil || len(fits) != 3 || fits[0].Family.Name+fits[1].Family.Name+fits[2].Family.Name != "abc" {
		t.Errorf("%v, %v", fits, err)
	}
}

func TestNoBetterFamily(t *testing.T) {
	chosen := family(t, "10k-3977")
	at20 := ohms(t, chosen, 20)
	for _, c := range []struct {
		name          string
		ohms, celsius float64
		fails         bool
	}{
		{"no reading", 0, 20, true},
		{"off the scale of all", 1e9, 20, false},
		{"the chosen one fits", at20, 20, false},
		{"the chosen one fits in the cold", ohms(t, chosen, -20), -20, false},
	} {
		other, ok, err := BetterFamily(chosen, c.ohms, c.celsius, 2)
		if ok || other.Family.Name != "" || (err != nil) != c.fails {
			t.Errorf("%s: %v, %v, %v", c.name, other, ok, err)
		}
	}
	// 1097 Ω is 25 °C for platinum and nothing a 10 kΩ sensor reads on a floor
	if other, ok, err := BetterFamily(chosen, 1097.3, 25, 2); err != nil || !ok || other.Family.Name != "pt1000" {
		t.Errorf("platinum: %v, %v, %v", other, ok, err)
	}
}

func TestThermistorCoefficients(t *testing.T) {
	for _, s := range []SteinhartHart{
		{ntc3977.A, 0, ntc3977.C, 1}, {ntc3977.A, -ntc3977.B, ntc3977.C, 1}, {ntc3977.A, ntc3977.B, 0, 1},
		{ntc3977.A, ntc3977.B, -ntc3977.C, 1}, {ntc3977.A, ntc3977.B, ntc3977.C, 0}, {ntc3977.A, ntc3977.B, ntc3977.C,
			-1},
	} {
		if r, err := s.Ohms(20); err == nil {
			t.Errorf("%+v gives %g Ω", s, r)
		}
	}
}

func TestRuleBelowOne(t *testing.T) {
	r := Rule{Most: 0.5}
	if r.outside(0.5) || !r.outside(0.6) || (Rule{}).outside(1e9) {
		t.Error("a limit below 1 is not held")
	}
}
