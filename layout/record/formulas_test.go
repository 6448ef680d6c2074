package record

import (
	"go/constant"
	"go/token"
	"go/types"
	"math"
	"regexp"
	"strings"
	"testing"

	"oxturn/layout/circuit"
)

// evaluated reads the last figures of a printed formula, units left out, and
// has Go's own constant arithmetic work them out.
func evaluated(t *testing.T, formula string) float64 {
	t.Helper()
	_, text, _ := strings.Cut(formula, " = ")
	text = text[strings.LastIndex(text, "= ")+2:]
	text, _, _ = strings.Cut(text, ", of")
	text = regexp.MustCompile(` m/ns| (m|ns)\b`).ReplaceAllString(text, "")
	// whole numbers are made fractions, or they would be divided as whole numbers
	text = regexp.MustCompile(`\d+(\.\d+)?`).ReplaceAllStringFunc(strings.ReplaceAll(text, "×", "*"),
		func(n string) string {
			if strings.Contains(n, ".") {
				return n
			}
			return n + ".0"
		})
	v, err := types.Eval(token.NewFileSet(), nil, token.NoPos, text)
	if err != nil {
		t.Fatalf("%q of %q: %v", text, formula, err)
	}
	f, _ := constant.Float64Val(v.Value)
	return f
}

// TestPrintedFormulasGiveThePlace: whoever works out what is printed comes to
// the place that is printed beside it.
func TestPrintedFormulasGiveThePlace(t *testing.T) {
	c := Cable{Length: 60_000, Ohms: exact(53), LeadOhms: exact(0.5), Lead: 3000, Farads: exact(9)}
	both := c
	both.Ends = circuit.BothEnds
	place := func(v float64) float64 { return v * 1000 }
	ohmsOf := func(v float64) float64 { return (v - 0.25) / 52.5 * 2 * 60_000 }
	for name, f := range map[string]struct {
		find finder
		at   func(v float64) float64
	}{
		"short":             {func() (Stretch, error) { return c.Short(exact(19)) }, place},
		"break":             {func() (Stretch, error) { return c.Break(exact(4)) }, place},
		"break of one core": {func() (Stretch, error) { return both.Break(exact(4)) }, place},
		"echo by time": {func() (Stretch, error) { return c.EchoTime(exact(200), exact(0.6)) },
			place},
		"echo by distance": {func() (Stretch, error) { return c.EchoDistance(exact(20_000), 0.66, exact(0.7)) },
			place},
		"earth": {func() (Stretch, error) { return c.EarthReadings(exact(53), exact(110), exact(130)) },
			ohmsOf},
		"Varley": {func() (Stretch, error) { return c.Varley(exact(10), exact(20), exact(30), Measured{}) },
			ohmsOf},
		"Murray": {func() (Stretch, error) {
			return Cable{Length: 60_000}.Murray(exact(30), exact(10),
				Measured{})
		}, func(v float64) float64 { return v * 2 * 60_000 }},
		"break from both ends": {func() (Stretch, error) {
			return Cable{Length: 60_000, Ends: circuit.BothEnds}.BreakBothWays(exact(2), exact(6))
		}, func(v float64) float64 { return v * 60_000 }},
	} {
		s, err := f.find()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		want := f.at(evaluated(t, s.Formula))
		if name == "earth" || name == "Varley" {
			if want > 60_000 {
				want = 120_000 - want
			}
		}
		if math.Abs(s.Best-want) > 5 { // figures are printed with seven digits at most
			t.Errorf("%s: %s gives %.1f mm, printed %.1f mm", name, s.Formula, want, s.Best)
		}
	}
}

func TestWordsOnLeadsAndCores(t *testing.T) {
	for _, c := range []struct {
		name string
		find finder
		want string
	}{
		{"no lead", func() (Stretch, error) { return Cable{Length: 60_000, Farads: exact(9)}.Break(exact(4)) },
			"the lead's length is not given"},
		{"1 mm of lead", func() (Stretch, error) {
			return Cable{Length: 60_000, Farads: exact(9),
				Lead: 1}.Break(exact(4))
		}, "the lead, 0.001 m, has the same"},
		{"3 m of lead", func() (Stretch, error) {
			return Cable{Length: 60_000, Farads: exact(9),
				Lead: 3000}.Break(exact(4))
		}, "the lead, 3 m, has the same"},
		{"no ohms of lead", func() (Stretch, error) { return twin.Short(exact(19)) }, "the leads' ohms are not given"},
		{"1 Ω of lead", func() (Stretch, error) {
			return Cable{Length: 60_000, Ohms: exact(53), LeadOhms: exact(1)}.Short(exact(19))
		}, "1 Ω taken off for the leads"},
		{"cores alike", func() (Stretch, error) { return twin.Murray(exact(3), exact(1), Measured{}) },
			"both cores have the same ohms"},
		{"unlike cores", func() (Stretch, error) {
			return Cable{Length: 60_000, Ohms: exact(53), CoreShare: 0.25}.Murray(exact(3), exact(1), Measured{})
		}, "the first core has 25 % of the ohms"},
	} {
		s, err := c.find()
		if err != nil || !strings.Contains(strings.Join(s.Assumptions, "\n"), c.want) {
			t.Errorf("%s: %v in %v, want %q", c.name, err, s.Assumptions, c.want)
		}
	}
}

// A pulse fades: the caution stands where the far end of the stretch lies
// beyond 30 m, the lead counted in.
func TestFadingPulseIsTold(t *testing.T) {
	const caution = "doubtful"
	for _, c := range []struct {
		shown, lead float64
		told        bool
	}{{20_000, 0, false}, {29_999, 0, false}, {30_001, 0, true}, {29_999, 3000, false}, {32_000, 3000, true}, {40_000,
		0, true}} {
		s, err := Cable{Length: 60_000, Lead: c.lead}.EchoDistance(exact(c.shown), 0.7, exact(0.7))
		if err != nil || strings.Contains(strings.Join(s.Cautions, "\n"), caution) != c.told {
			t.Errorf("echo from %g mm, lead %g: %v, %v", c.shown, c.lead, s.Cautions, err)
		}
	}
	_, err := Cable{Length: 10_000}.EchoDistance(exact(50_000), 0.7, exact(0.7))
	if err == nil {
		t.Error("an echo from beyond the end has a place")
	}
}

func TestFactorsAtTheirBounds(t *testing.T) {
	c := Cable{Length: 60_000}
	for _, v := range []struct {
		set, factor float64
		good        bool
	}{{1, 1, true}, {0, 0.7, false}, {1.01, 0.7, false}, {0.7, 0, false}, {0.7, 1.01, false}, {0.7, -0.1, false}} {
		if _, err := c.EchoDistance(exact(1000), v.set, exact(v.factor)); (err == nil) != v.good {
			t.Errorf("set %g, factor %g: %v", v.set, v.factor, err)
		}
	}
}

func TestCablesThatCannotBe(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]Cable{
		"no length": {}, "endless": {Length: math.Inf(1)}, "lead below zero": {Length: 1, Lead: -1},
		"endless lead":    {Length: 1, Lead: math.Inf(1)},
		"all in one core": {Length: 1, CoreShare: 1}, "less than none": {Length: 1, CoreShare: -0.1},
		"ohms": {Length: 1, Ohms: exact(nan)}, "lead ohms": {Length: 1, LeadOhms: exact(-1)},
		"farads": {Length: 1, Farads: Measured{Value: 1, Error: -1}},
	} {
		if c.check() == nil {
			t.Errorf("%s: %+v is taken", name, c)
		}
	}
	if err := (Cable{Length: 0.5, Lead: 0, CoreShare: 0.99}).check(); err != nil {
		t.Error(err)
	}
}

// What lies off the cable is as far off as the reading says, on either side.
func TestHowFarOffTheCable(t *testing.T) {
	for _, c := range []struct {
		name   string
		find   finder
		off    float64
		inLead bool
	}{
		{"short of 60 Ω on 50 Ω and 100 m",
			func() (Stretch, error) { return Cable{Length: 100_000, Ohms: exact(50)}.Short(exact(60)) }, 20_000, false},
		{"echo from the lead", func() (Stretch, error) {
			return Cable{Length: 1000, Lead: 3000}.EchoDistance(
				exact(2000), 1, exact(1))
		}, 1000, true},
		{"echo past one end", func() (Stretch, error) {
			return Cable{Length: 1000}.EchoDistance(exact(1500), 1,
				exact(1))
		}, 500, false},
		{"echo past both", func() (Stretch, error) {
			return Cable{Length: 1000, Ends: circuit.BothEnds}.EchoDistance(exact(1500), 1, exact(1))
		}, 500, true},
		// the fault 55 Ω along a loop of 50 Ω: a tenth of the loop, 20 m of 100 m, too far
		{"loop too long", func() (Stretch, error) {
			return Cable{Length: 100_000}.EarthReadings(exact(50), exact(100),
				exact(40))
		}, 20_000, true},
		{"loop too short", func() (Stretch, error) {
			return Cable{Length: 100_000}.EarthReadings(exact(50), exact(40),
				exact(100))
		}, 20_000, true},
	} {
		_, err := c.find()
		e, ok := err.(*Elsewhere)
		if !ok || math.Abs(e.Off-c.off) > 1e-6 || e.InLead != c.inLead {
			t.Errorf("%s: %v (%+v)", c.name, err, e)
		}
	}
}

func TestLongStretchSaysItsShare(t *testing.T) {
	c := Cable{Length: 80_000, Ohms: exact(100)}
	for spread, want := range map[float64]string{12: "", 13: "the stretch is 26 % of the cable",
		20: "the stretch is 40 % of the cable"} {
		s, err := c.Short(Measured{Value: 50, Error: spread})
		said := strings.Join(s.Cautions, "\n")
		if err != nil || !strings.Contains(said, want) || strings.Contains(said, "the stretch is") != (want != "") {
			t.Errorf("± %g %%: %v, %v", spread, err, s.Cautions)
		}
	}
}

// The caution on the lead stands where the stretch reaches past an end that has one.
func TestLeadCautionByEnd(t *testing.T) {
	const caution = "may also lie in a cold lead"
	for _, c := range []struct {
		name string
		find finder
		told bool
	}{
		{"middle", func() (Stretch, error) { return twin.Short(Measured{Value: 20, Error: 1}) }, false},
		{"start", func() (Stretch, error) { return twin.Short(Measured{Value: 0.5, Error: 1}) }, true},
		{"far end of a twin", func() (Stretch, error) { return twin.Short(Measured{Value: 52.5, Error: 1}) }, false},
		{"far end of a single", func() (Stretch, error) {
			return single(1000).EchoDistance(Measured{Value: 990, Error: 20}, 1, exact(1))
		}, true},
		{"middle of a single", func() (Stretch, error) {
			return single(1000).EchoDistance(Measured{Value: 500, Error: 20}, 1, exact(1))
		}, false},
		{"loop's middle", func() (Stretch, error) {
			return twin.Murray(exact(3), Measured{Value: 1, Error: 0.05},
				Measured{})
		}, false},
		{"loop's start", func() (Stretch, error) {
			return twin.EarthReadings(exact(52.9), Measured{Value: 1, Error: 2}, exact(52.9))
		}, true},
		{"loop's end", func() (Stretch, error) {
			return twin.EarthReadings(exact(52.9), exact(52.9), Measured{Value: 1, Error: 2})
		}, true},
	} {
		s, err := c.find()
		if err != nil || strings.Contains(strings.Join(s.Cautions, "\n"), caution) != c.told {
			t.Errorf("%s: %v, %v", c.name, s.Cautions, err)
		}
	}
}

func TestBreakNeedsLessThanTheWhole(t *testing.T) {
	c := Cable{Length: 60_000, Farads: Measured{Value: 9, Error: 0.2}}
	for _, r := range []struct {
		now  Measured
		good bool
	}{{Measured{Value: 8.6, Error: 0.1}, true}, {Measured{Value: 8.71, Error: 0.1}, false}, {Measured{Value: 8.75,
		Error: 0.1}, false}, {Measured{Value: 8.85, Error: 0.1}, false}, {Measured{Value: 8.6, Error: 0.3}, false}} {
		if _, err := c.Break(r.now); (err == nil) != r.good {
			t.Errorf("%v of 9 ± 0.2 nF: %v", r.now, err)
		}
	}
}

// Ohms of the loop must be above the leads' beyond what both meters err.
func TestErrorsOfWholeAndLead(t *testing.T) {
	for _, c := range []struct {
		whole, lead Measured
		good        bool
	}{{Measured{Value: 10, Error: 1}, Measured{Value: 8, Error: 0.5}, true}, {Measured{Value: 10, Error: 1},
		Measured{Value: 8, Error: 1.5}, false}, {Measured{Value: 10, Error: 3}, Measured{Value: 8, Error: 0}, false}} {
		if _, err := (Cable{Length: 1000, Ohms: c.whole, LeadOhms: c.lead}).Short(exact(9)); (err == nil) != c.good {
			t.Errorf("%v with a lead of %v: %v", c.whole, c.lead, err)
		}
	}
}

// 5 % beyond what both readings err is a second fault or another temperature.
func TestLoopUnlikeTheWholeByErrors(t *testing.T) {
	c := Cable{Length: 1000, Ohms: Measured{Value: 100, Error: 1}}
	for ab, told := range map[float64]bool{100: false, 106: false, 107: false, 109: true, 93.1: false, 91: true} {
		s, err := c.EarthReadings(Measured{Value: ab, Error: 1}, exact(150), exact(150))
		if err != nil || strings.Contains(strings.Join(s.Cautions, "\n"), "second fault") != told {
			t.Errorf("loop of %g Ω: %v, %v", ab, s.Cautions, err)
		}
	}
	half := Cable{Length: 1000, Ohms: exact(0.5)}
	if s, err := half.EarthReadings(exact(0.6), exact(3), exact(3)); err != nil ||
		!strings.Contains(strings.Join(s.Cautions, "\n"), "second fault") {
		t.Errorf("0.6 Ω of 0.5 Ω: %v, %v", s.Cautions, err)
	}
}

func TestArmsOfNothing(t *testing.T) {
	if _, err := twin.Murray(exact(0), exact(0), Measured{}); err == nil {
		t.Error("two arms of zero")
	}
	if s, err := twin.Murray(exact(1), exact(1), Measured{}); err != nil || math.Abs(s.Best-60_000) > 1e-6 {
		t.Errorf("equal arms: %v, %v", s.Best, err)
	}
	if s, err := twin.Varley(exact(0.5), exact(0.5), exact(0), Measured{}); err != nil ||
		math.Abs(s.Best-60_000) > 1e-6 {
		t.Errorf("equal arms of half an ohm: %v, %v", s.Best, err)
	}
	if _, err := (Cable{Length: 1000, LeadOhms: exact(1)}).Murray(exact(1), exact(1), Measured{}); err == nil {
		t.Error("the leads' ohms are taken off a loop that is not known")
	}
	if s, err := (Cable{Length: 1000, Ohms: exact(10), LeadOhms: exact(1)}).Murray(exact(3), exact(1),
		Measured{}); err != nil || math.Abs(s.Best-(10*0.25-0.5)/9*2000) > 1e-6 {
		t.Errorf("a lead of 1 Ω: %v, %v", s.Best, err)
	}
}

// An error works both ways; the wider side of a curved formula counts.
func TestErrorsOnBothSides(t *testing.T) {
	inverse := func(v []float64) float64 { return 1 / v[0] }
	// 1/1 - 1/2 against 1/2 - 1/3
	if got := propagate(inverse, Measured{Value: 2, Error: 1}); math.Abs(got.Error-0.5) > 1e-12 {
		t.Errorf("1/(2 ± 1) errs by %v", got.Error)
	}
	square := func(v []float64) float64 { return v[0] * v[0] }
	if got := propagate(square, Measured{Value: 2, Error: 1}); got.Error != 5 { // 9 - 4 against 4 - 1
		t.Errorf("(2 ± 1)² errs by %v", got.Error)
	}
}
