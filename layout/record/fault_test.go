package record

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/circuit"
	"oxturn/layout/internal/published"
)

var near = published.Near

func exact(v float64) Measured { return Measured{Value: v} }

// twin is a cable of 230 V and 1000 W, so 52.9 Ω, 60 m long.
var twin = Cable{Length: 60_000, Ohms: exact(52.9)}

// single is a single-conductor cable of length mm.
func single(length float64) Cable { return Cable{Length: length, Ends: circuit.BothEnds} }

// finder is any method on its readings.
type finder func() (Stretch, error)

// Places worked by hand from the formulas of electrical handbooks. Two come from
// print: Murray's 1.0906 miles from Hawkins Electrical Guide vol. 3 p. 54, which
// gives 1.09, and the readings of the 200 m from an examination question
// (expertsmind.com, "define Murray loop test").
func TestPlacesWorkedByHand(t *testing.T) {
	withLead := twin
	withLead.Ohms, withLead.LeadOhms = exact(53.02), exact(0.12)
	farads := single(60_000)
	farads.Farads = exact(9.0)
	farLead := farads
	farLead.Lead = 3000
	tied := Cable{Length: 60_000, Farads: exact(9.0)}
	for _, c := range []struct {
		name string
		find finder
		want float64
	}{
		{"short: 19.0 of 52.9 Ω", func() (Stretch, error) { return twin.Short(exact(19.0)) }, 21550.09},
		{"short, 0.12 Ω of lead in both", func() (Stretch, error) { return withLead.Short(exact(19.12)) }, 21550.09},
		{"earth: 21 of 52.9 Ω, 1200 Ω of fault", func() (Stretch, error) {
			return twin.EarthReadings(exact(52.9),
				exact(1221), exact(1231.9))
		}, 47637.05},
		{"Murray: arms 600 and 400, twin of 100 m", func() (Stretch, error) {
			return Cable{Length: 100_000}.Murray(exact(600), exact(400), Measured{})
		}, 80_000},
		{"Murray: Hawkins Electrical Guide vol. 3 p. 54: A 332, r 54.07 Ω, 16.46 Ω a mile", func() (Stretch, error) {
			// The book finds A r / (1000 M) miles: the arms A and 1000-A on a loop of r ohms,
			// r/M miles of one conductor.
			return single(54.07/16.46*1e6).Murray(exact(668), exact(332), Measured{})
		}, 1.0906e6},
		{"Murray: examination question, arms 2 and 1, 300 m", func() (Stretch, error) {
			return Cable{Length: 300_000}.Murray(exact(2), exact(1), Measured{})
		}, 200_000},
		// the same fault as above, 21 of 52.9 Ω, seen by a bridge through leads of 0.1 Ω
		// each: arms 32.0 and 21.1; on a single conductor 21/52.9 of it, on a twin
		// twice that
		{"Murray: single conductor, leads of 0.2 Ω", func() (Stretch, error) {
			c := single(60_000)
			c.LeadOhms = exact(0.2)
			return c.Murray(exact(32.0), exact(21.1), exact(53.1))
		}, 23_818.53},
		{"Murray: twin, leads of 0.2 Ω", func() (Stretch, error) {
			c := Cable{Length: 60_000, Ohms: exact(53.1), LeadOhms: exact(0.2)}
			return c.Murray(exact(32.0), exact(21.1), Measured{})
		}, 47_637.05},
		{"Varley: like arms, loop 12 Ω, 7.2 Ω in series: 2.4 Ω", func() (Stretch, error) {
			return single(12_000).Varley(exact(100), exact(100), exact(7.2), exact(12))
		}, 2400},
		{"Varley: arms 100 and 200, loop 30 Ω, 15 Ω in series: 15 Ω", func() (Stretch, error) {
			return single(30_000).Varley(exact(100), exact(200), exact(15), exact(30))
		}, 15_000},
		{"break: 3.15 of 9.0 nF", func() (Stretch, error) { return farads.Break(exact(3.15)) }, 21_000},
		{"break of a twin, conductors tied", func() (Stretch, error) { return tied.Break(exact(3.15)) }, 21_000},
		{"break, both ends: 3.15 and 5.85 nF", func() (Stretch, error) {
			return farads.BreakBothWays(exact(3.15),
				exact(5.85))
		}, 21_000},
		{"break, both ends, leads of 3 m: 66 m × 0.35 - 3 m",
			func() (Stretch, error) { return farLead.BreakBothWays(exact(3.15), exact(5.85)) }, 20_100},
		{"break of a twin, both cores in turn, lead of 3 m: 126 m × 0.35 - 3 m", func() (Stretch, error) {
			return Cable{Length: 60_000, Lead: 3000}.BreakBothWays(exact(3.15), exact(5.85))
		}, 41_100},
		{"break, leads of 3 m: 66 m × 3.3/9 - 3 m", func() (Stretch, error) { return farLead.Break(exact(3.3)) },
			21_200},
		{"echo: 200 ns at 0.66", func() (Stretch, error) { return twin.EchoTime(exact(200), exact(0.66)) }, 19786.30},
		{"echo: 20 m shown at 0.66, cable 0.62", func() (Stretch, error) {
			return twin.EchoDistance(exact(20_000), 0.66,
				exact(0.62))
		}, 18787.88},
	} {
		s, err := c.find()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		near(t, c.name, s.Best, c.want, math.Max(0.01, 5e-5*c.want))
		if s.From != s.Best || s.To != s.Best {
			t.Errorf("%s: exact readings give %g to %g", c.name, s.From, s.To)
		}
		if s.Formula == "" || s.Method == "" {
			t.Errorf("%s: formula %q of method %q", c.name, s.Formula, s.Method)
		}
	}
}

// The loop method cancels the fault's own ohms, from a dead short to 50 kΩ.
func TestEarthReadingsCancelTheFault(t *testing.T) {
	for _, fault := range []float64{0, 1200, 50_000} {
		s, err := twin.EarthReadings(exact(52.9), exact(21+fault), exact(31.9+fault))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "place", s.Best, 47637.05, 0.01)
		near(t, "ohms of the fault", s.FaultOhms.Value, fault, 1e-6)
		if s.Core != FirstCore {
			t.Errorf("on %s", s.Core)
		}
	}
}

// Read the other way round, the same fault lies on the return core, as far out.
func TestReturnCore(t *testing.T) {
	s, err := twin.EarthReadings(exact(52.9), exact(1231.9), exact(1221))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "place", s.Best, 47637.05, 0.01)
	if s.Core != ReturnCore {
		t.Errorf("on %s", s.Core)
	}
}

// A return core of copper takes almost none of the ohms: 20 of 50 Ω lie at
// 20/49 of the length when the first core has 49 of them.
func TestUnlikeCores(t *testing.T) {
	c := Cable{Length: 49_000, Ohms: exact(50), CoreShare: 0.98}
	s, err := c.EarthReadings(exact(50), exact(20), exact(30))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "place", s.Best, 20_000, 1e-6)
	if !strings.Contains(strings.Join(s.Assumptions, "\n"), "98 %") {
		t.Error(s.Assumptions)
	}
}

// Half of the leads' ohms lie before the heating conductor, half behind it.
func TestLeadsComeOffTheLoop(t *testing.T) {
	c := twin
	c.LeadOhms = exact(0.2)
	s, err := c.EarthReadings(exact(53.1), exact(21.1), exact(32.0))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "place", s.Best, 47637.05, 0.01)
}

// A meter of 1 % and 2 steps on 19.0 Ω is 0.39 Ω off, 442 mm of this cable.
func TestErrorBecomesAStretch(t *testing.T) {
	s, err := twin.Short(MeterReading(19.0, 0.01, 2, 0.1))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "from", s.From, 21550.09-442.34, 0.1)
	near(t, "to", s.To, 21550.09+442.34, 0.1)
}

// Two large braid readings that are each off by 1 % on its own account tell little about their small
// difference: the stretch is most of the cable, and says so.
func TestRoughReadingsGiveALongStretch(t *testing.T) {
	s, err := twin.EarthReadings(Measured{Value: 52.9, Error: 0.529}, Measured{Value: 1221, Error: 12.21},
		Measured{Value: 1231.9, Error: 12.319})
	if err != nil {
		t.Fatal(err)
	}
	if s.From > 20_000 || s.To != 60_000 || s.Core != EitherCore {
		t.Errorf("%g to %g mm on %s", s.From, s.To, s.Core)
	}
	if !strings.Contains(strings.Join(s.Cautions, "\n"), "too long to act on") {
		t.Error(s.Cautions)
	}
}

// Near the far end the error spans both cores; the stretch must run to the end.
func TestStretchFoldsAtTheFarEnd(t *testing.T) {
	s, err := twin.Murray(exact(51), Measured{Value: 49, Error: 2}, Measured{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "best", s.Best, 58_800, 0.1)
	if s.Core != EitherCore || s.To != 60_000 || s.From > 57_700 || s.From < 57_500 {
		t.Errorf("%g to %g mm on %s", s.From, s.To, s.Core)
	}
}

func TestFaultOffTheCable(t *testing.T) {
	lead := twin
	lead.LeadOhms = exact(0.5)
	echo := twin
	echo.Lead = 4000
	for _, c := range []struct {
		name   string
		find   finder
		inLead bool
	}{
		{"short in the lead", func() (Stretch, error) { return lead.Short(exact(0.2)) }, true},
		{"short beyond the end", func() (Stretch, error) { return twin.Short(exact(60)) }, false},
		{"echo from the lead", func() (Stretch, error) { return echo.EchoTime(exact(20), exact(0.66)) }, true},
		{"loop in lead A", func() (Stretch, error) { return lead.EarthReadings(exact(53), exact(0.1), exact(52.9)) },
			true},
		{"loop in lead B", func() (Stretch, error) { return lead.EarthReadings(exact(53), exact(52.9), exact(0.1)) },
			true},
		{"break in the lead", func() (Stretch, error) {
			return Cable{Length: 60_000, Lead: 3000, Farads: exact(9)}.Break(exact(0.1))
		}, true},
	} {
		_, err := c.find()
		var off *Elsewhere
		if !errors.As(err, &off) || off.InLead != c.inLead || off.Off <= 0 || off.Error() == "" {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestStretchReachingTheLeadSaysSo(t *testing.T) {
	s, err := twin.Short(Measured{Value: 0.3, Error: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	if s.From != 0 || !strings.Contains(s.Cautions[0], "cold lead") {
		t.Errorf("from %g: %v", s.From, s.Cautions)
	}
}

func TestWhatCannotBeRead(t *testing.T) {
	lead := twin
	lead.LeadOhms = exact(60)
	farads := Cable{Length: 60_000, Farads: Measured{Value: 9, Error: 0.2}}
	for want, find := range map[string]finder{
		"no second core":         func() (Stretch, error) { return single(1000).Short(exact(1)) },
		"needs the ohms":         func() (Stretch, error) { return Cable{Length: 1000}.Short(exact(1)) },
		"above those":            func() (Stretch, error) { return lead.EarthReadings(exact(52), exact(1), exact(1)) },
		"is NaN":                 func() (Stretch, error) { return twin.Short(exact(math.NaN())) },
		"is -3":                  func() (Stretch, error) { return twin.Short(exact(-3)) },
		"the error of":           func() (Stretch, error) { return twin.Short(Measured{Value: 3, Error: -1}) },
		"length is 0":            func() (Stretch, error) { return Cable{}.Murray(exact(1), exact(1), exact(1)) },
		"both arms":              func() (Stretch, error) { return twin.Murray(exact(0), exact(0), Measured{}) },
		"at most one core":       func() (Stretch, error) { return farads.Break(exact(8.9)) },
		"capacitance of the":     func() (Stretch, error) { return twin.Break(exact(3)) },
		"both readings are zero": func() (Stretch, error) { return twin.BreakBothWays(exact(0), exact(0)) },
		"velocity factor is 1.2": func() (Stretch, error) { return twin.EchoTime(exact(100), exact(1.2)) },
		"factor set is 0":        func() (Stretch, error) { return twin.EchoDistance(exact(100), 0, exact(0.66)) },
		"share of the ohms is 2": func() (Stretch, error) { return Cable{Length: 1, CoreShare: 2}.Short(exact(1)) },
	} {
		if _, err := find(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

// A loop that has changed since it was whole is worth a word.
func TestChangedLoopIsTold(t *testing.T) {
	s, err := twin.EarthReadings(exact(40), exact(1015), exact(1025))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(s.Cautions[0], "52.9 Ω when whole") {
		t.Error(s.Cautions)
	}
}

// A twin cut right through reads alike from both cores; the far end must not
// be taken for the place without a word.
func TestCutThroughTwinIsTold(t *testing.T) {
	s, err := twin.BreakBothWays(Measured{Value: 2, Error: 0.1}, Measured{Value: 2, Error: 0.1})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(s.Cautions[0], "both cores are cut") {
		t.Error(s.Cautions)
	}
}

func TestCautionsAreAlwaysThere(t *testing.T) {
	s, err := twin.Short(exact(19))
	if err != nil {
		t.Fatal(err)
	}
	words := strings.ToLower(strings.Join(append(s.Cautions, s.Assumptions...), "\n"))
	for _, want := range []string{"isolate", "second method", "before a tile is lifted", "do not re-energise",
		"same ohms per length"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not said in\n%s", want, words)
		}
	}
	for _, never := range []string{"safe", "complian"} {
		if strings.Contains(words, never) {
			t.Errorf("%q is said", never)
		}
	}
}

// Whatever the place, the fault's ohms and the leads, the readings of a true
// cable lead back to it; with errors given, the stretch holds it.
func TestReadingsLeadBackToTheFault(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(5_000, 300_000).Draw(t, "length")
		ohms := rapid.Float64Range(5, 500).Draw(t, "ohms")
		lead := rapid.Float64Range(0, 1).Draw(t, "lead")
		share := rapid.Float64Range(0, 1).Draw(t, "share of the loop")
		fault := rapid.Float64Range(0, 1e4).Draw(t, "fault")
		c := Cable{Length: length, Ohms: exact(ohms + lead), LeadOhms: exact(lead), CoreShare: rapid.Float64Range(0.1,
			0.9).Draw(t, "core")}
		if rapid.Bool().Draw(t, "single") {
			c.Ends = circuit.BothEnds
		}
		want := share * length
		if c.Ends == circuit.OneEnd {
			want = length * math.Min(share/c.CoreShare, (1-share)/(1-c.CoreShare))
		}
		e := rapid.Float64Range(0, 0.02).Draw(t, "error")
		read := func(v float64) Measured { // off by as much as the error allows
			return Measured{Value: v * (1 + e*rapid.Float64Range(-1, 1).Draw(t, "off")), Error: v * e * 1.03}
		}
		toA, toB := share*ohms+lead/2, (1-share)*ohms+lead/2
		s, err := c.EarthReadings(read(ohms+lead), read(toA+fault), read(toB+fault))
		if err != nil {
			t.Fatal(err)
		}
		if want < s.From-1e-3 || want > s.To+1e-3 || s.Best < s.From-1e-3 || s.Best > s.To+1e-3 {
			t.Fatalf("fault at %g mm, found %g in %g to %g", want, s.Best, s.From, s.To)
		}
		if e == 0 && math.Abs(s.Best-want) > 1e-3 {
			t.Fatalf("fault at %g mm, found %g", want, s.Best)
		}
	})
}

// A bridge through leads that are not thrown away finds the place too: Murray's
// arms are as the conductor's two parts, Varley's resistor makes up for what the
// far part is longer.
func TestBridgesLeadBackToTheFault(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ohms := rapid.Float64Range(5, 500).Draw(t, "ohms")
		lead := rapid.Float64Range(0, 1).Draw(t, "lead")
		share := rapid.Float64Range(0, 1).Draw(t, "share of the loop")
		arms := rapid.Float64Range(1, 2000).Draw(t, "arms")
		c := Cable{Length: 40_000, Ohms: exact(ohms + lead), LeadOhms: exact(lead),
			Ends: circuit.Ends(rapid.IntRange(0, 1).Draw(t, "ends"))}
		want := share * c.Length
		if c.Ends == circuit.OneEnd {
			want = 2 * math.Min(share, 1-share) * c.Length
		}
		toA, toB := share*ohms+lead/2, (1-share)*ohms+lead/2
		found := map[string]finder{
			"Murray": func() (Stretch, error) {
				return c.Murray(exact(arms*toB), exact(arms*toA),
					Measured{})
			},
			"Murray, loop": func() (Stretch, error) {
				return c.Murray(exact(arms*toB), exact(arms*toA),
					exact(ohms+lead))
			},
			"Varley": func() (Stretch, error) {
				return c.Varley(exact(arms), exact(arms), exact(toB-toA),
					Measured{})
			},
			"Varley, 1 to 10": func() (Stretch, error) {
				return c.Varley(exact(arms), exact(10*arms), exact(10*toB-toA),
					Measured{})
			},
		}
		for name, find := range found {
			if strings.HasPrefix(name, "Varley") && toA > toB {
				continue // the resistor stands on the nearer end's side
			}
			s, err := find()
			if err != nil || math.Abs(s.Best-want) > 1e-3 {
				t.Fatalf("%s: fault at %g mm, found %g (%v)", name, want, s.Best, err)
			}
		}
	})
}

// No figures make a method panic or leave the cable.
func TestAnyReadingStaysOnTheCable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		any := func(name string) Measured {
			return Measured{Value: rapid.Float64().Draw(t, name), Error: rapid.Float64().Draw(t, name+" error")}
		}
		c := Cable{
			Length: rapid.Float64().Draw(t, "length"), Ends: circuit.Ends(rapid.IntRange(0, 1).Draw(t, "ends")),
			Ohms: any("ohms"), LeadOhms: any("lead"), Lead: rapid.Float64().Draw(t, "lead length"),
			Farads: any("farads"),
		}
		a, b, ab := any("a"), any("b"), any("ab")
		for _, find := range []finder{
			func() (Stretch, error) { return c.Short(a) },
			func() (Stretch, error) { return c.EarthReadings(ab, a, b) },
			func() (Stretch, error) { return c.Murray(a, b, ab) },
			func() (Stretch, error) { return c.Varley(a, b, a, ab) },
			func() (Stretch, error) { return c.Break(a) },
			func() (Stretch, error) { return c.BreakBothWays(a, b) },
			func() (Stretch, error) { return c.EchoTime(a, b) },
			func() (Stretch, error) { return c.EchoDistance(a, b.Value, ab) },
		} {
			s, err := find()
			if err == nil && !(0 <= s.From && s.From <= s.Best && s.Best <= s.To && s.To <= c.Length) {
				t.Fatalf("%s: %g in %g to %g of %g mm", s.Method, s.Best, s.From, s.To, c.Length)
			}
		}
	})
}

// The dielectric's velocity factors, 1/sqrt(permittivity): 2.1 0.690, 2.3
// 0.659, 2.6 0.620, 3.5 0.535, 5 0.447, permittivities from memory. Published
// arithmetic (docslib.org/doc/398353): light runs 983,571,056.43 ft/s; a factor of
// 84 % is 826,199,687.4 ft/s, 1.21 ns/ft.
func TestVelocityFactor(t *testing.T) {
	for _, c := range [][2]float64{{1, 1}, {2.1, 0.690066}, {2.3, 0.659380}, {2.6, 0.620174}, {3.5, 0.534522},
		{5, 0.447214}} {
		near(t, "factor", velocityFactor(c[0]), c[1], 1e-6)
	}
	near(t, "ft/ns", 0.84*lightSpeed/304.8, 0.8261996874, 1e-10)
	near(t, "ns/ft", 304.8/(0.84*lightSpeed), 1.21, 5e-3)
	near(t, "light, ft/s", lightSpeed/304.8*1e9, 983_571_056.43, 0.01)
	for _, c := range []struct {
		name         string
		value, error float64
	}{{"PE", 0.659380, 0.03}, {" pvc", (0.534522 + 0.447214) / 2, (0.534522-0.447214)/2 + 0.03}} {
		m, ok := VelocityOf(c.name)
		if !ok {
			t.Errorf("%s is not known", c.name)
		}
		near(t, c.name, m.Value, c.value, 1e-6)
		near(t, c.name+", error", m.Error, c.error, 1e-6)
	}
	if _, ok := VelocityOf("wool"); ok {
		t.Error("wool is no insulation of cores")
	}
}

// A loop of 52.9 Ω when whole that reads 60 Ω, 13 % more, is no longer what it
// was; one that reads 54 Ω, or 60 Ω with a meter that may be 5 Ω off, may be. The
// twentieth of the ohms allowed is common practice: a label holds -5 to +10 %.
func TestLoopThatIsNoLongerWhole(t *testing.T) {
	for _, c := range []struct {
		loop Measured
		want bool
	}{{exact(60), true}, {exact(46), true}, {exact(54), false}, {Measured{Value: 60, Error: 5},
		false}, {Measured{Value: 46, Error: 5}, false}} {
		s, err := twin.EarthReadings(c.loop, exact(1221), exact(1231.9))
		if err != nil {
			t.Fatal(err)
		}
		if said := strings.Contains(strings.Join(s.Cautions, "\n"), "there may be a second fault"); said != c.want {
			t.Errorf("loop of %v: warned %v, want %v", c.loop, said, c.want)
		}
	}
}

// One meter's gain moves both braid readings alike, so that a share of 1 % is
// left in their difference of 10.9 Ω only, 0.109 Ω, beside 0.529 Ω of the loop's
// own reading. By hand: x/L is 2 (AB + A - B) / (2 AB) on the return side, or
// 1 + (A - B)/AB: the band is 60 m × (10.9/52.9) × (0.01 + 0.01), 0.25 m, to the
// second order; another 0.05 Ω on each adds 60 m × (0.1/52.9 + 10.9 × 0.05/52.9²).
func TestOneMetersGainCountsOnce(t *testing.T) {
	read := func(v, rest float64) Measured { return Measured{Value: v, Error: v*0.01 + rest, Gain: v * 0.01} }
	for _, c := range []struct{ rest, half float64 }{{0, 247.3}, {0.05, 247.3 + 113.4 + 11.7}} {
		s, err := twin.EarthReadings(read(52.9, c.rest), read(1221, c.rest), read(1231.9, c.rest))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "half band", (s.To-s.From)/2, c.half, 4)
	}
}

// What one meter's gain does to figures read alike, by hand. 10 ± 2 squared is 100, and 144 at the
// most: 44 more. 1/10 becomes 1/8 at the least of 10: 0.025 more. In 2/(2+6) all of a gain of a
// tenth goes, and 0.05 on each is left: 1.95/7.95 is 0.0047170 less, 2/7.95 0.0015723 more.
func TestGainOfFiguresReadAlike(t *testing.T) {
	read := func(v, gain, rest float64) Measured { return Measured{Value: v, Error: gain + rest, Gain: gain} }
	for _, k := range []struct {
		f    func(v []float64) float64
		in   []Measured
		want Measured
	}{
		{func(v []float64) float64 { return v[0] * v[0] }, []Measured{read(10, 2, 0)}, Measured{Value: 100, Error: 44}},
		{func(v []float64) float64 { return 1 / v[0] }, []Measured{read(10, 2, 0)}, Measured{Value: 0.1, Error: 0.025}},
		{func(v []float64) float64 { return v[0] / (v[0] + v[1]) }, []Measured{read(2, 0.2, 0), read(6, 0.6, 0)},
			Measured{Value: 0.25}},
		{func(v []float64) float64 { return v[0] / (v[0] + v[1]) }, []Measured{read(2, 0.2, 0.05), read(6, 0.6, 0.05)},
			Measured{Value: 0.25, Error: 0.0047170 + 0.0015723}},
	} {
		alike := []int{0, 1}[:len(k.in)]
		got := propagateAlike(k.f, alike, k.in...)
		near(t, "value", got.Value, k.want.Value, 1e-9)
		near(t, "error", got.Error, k.want.Error, 1e-6)
	}
	// capacitances from both ends, by one meter: nothing of its gain is left in their share
	s, err := twin.BreakBothWays(read(2, 0.02, 0), read(6, 0.06, 0))
	if err != nil || s.To-s.From > 1e-6 {
		t.Errorf("%+v, %v", s, err)
	}
	// the fault's own ohms: half of 110 + 130 - 53, off by half of 1.1, 1.3 and 0.53
	s, err = twin.EarthReadings(read(53, 0.53, 0), read(110, 1.1, 0), read(130, 1.3, 0))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ohms of the fault", s.FaultOhms.Value, 93.5, 1e-9)
	near(t, "their error", s.FaultOhms.Error, 1.465, 1e-9)
	// ohms when it is warmer grow with all that may be wrong of them
	if got := (Cable{Ohms: read(50, 0.5, 0.1)}).Warmed(10, 0.004).Ohms; math.Abs(got.Value-52) > 1e-9 ||
		math.Abs(got.Error-0.624) > 1e-9 || math.Abs(got.Gain-0.52) > 1e-9 {
		t.Errorf("%+v", got)
	}
}

// Truth stays within the band: readings of a made-up meter with a gain anywhere
// in its share, the same for both braid readings, and each off by up to a last
// place besides. The errors are bounds, so that no trial may fall outside; 95 %
// would do.
func TestTruthLiesWithinTheBand(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 5))
	either := func(e float64) float64 { return e * (2*random.Float64() - 1) }
	inside, tried := map[string]int{}, map[string]int{}
	const trials = 4000
	for range trials {
		share, fault, g, own := random.Float64(), 2000*random.Float64(), either(0.01), either(0.01)
		place := 2 * min(share, 1-share) * 60_000
		read := func(v, g float64) Measured {
			return MeterReading(math.Max(0, v*(1+g)+either(0.1)), 0.0102, 1, 0.102)
		}
		earth := func() (Stretch, error) {
			return twin.EarthReadings(read(52.9, own), read(52.9*share+fault, g), read(52.9*(1-share)+fault, g))
		}
		whole := twin
		whole.Ohms = read(52.9, own)
		farads := twin
		farads.Farads = read(90, own)
		for name, find := range map[string]finder{
			"earth": earth,
			"short": func() (Stretch, error) { return whole.Short(read(52.9*place/60_000, g)) },
			"break": func() (Stretch, error) { return farads.Break(read(90*place/60_000, g)) },
			"echo": func() (Stretch, error) {
				return twin.EchoTime(read(place/(0.66*lightSpeed/2), g), Measured{Value: 0.66 + either(0.03),
					Error: 0.03})
			},
			"ends": func() (Stretch, error) { return twin.BreakBothWays(read(180*share, g), read(180*(1-share), g)) },
			"murray": func() (Stretch, error) {
				return twin.Murray(read(1000*(1-share), g), read(1000*share, g), Measured{})
			},
		} {
			s, err := find()
			if err != nil {
				continue // beside the cable's ends a reading may be refused
			}
			tried[name]++
			if place >= s.From-1e-6 && place <= s.To+1e-6 {
				inside[name]++
			}
		}
	}
	for name, n := range tried {
		if n < trials*9/10 || inside[name] < n*95/100 {
			t.Errorf("%s: the fault lay within the band %d times of %d, of %d trials", name, inside[name], n, trials)
		}
	}
}

// Hawkins Electrical Guide, volume 3, on the Murray loop with unequal wires: a
// grounded wire of 16.46 Ω a mile in a loop of 54.07 Ω, the contact at 332 of 1000:
// 1.09 miles.
func TestMurrayAsPublished(t *testing.T) {
	const mile = 1_609_344
	c := Cable{Length: 54.07 / 16.46 * mile, Ends: circuit.BothEnds}
	s, err := c.Murray(exact(1000-332), exact(332), exact(54.07))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "miles", s.Best/mile, 1.09, 0.005)
}

// A conductor 15 K warmer at 0.0039 per kelvin reads 5.85 % more: 20 of 52.9 Ω cold
// are 21.17 Ω warm, and still 20/52.9 of the length.
func TestWarmedCable(t *testing.T) {
	s, err := twin.Warmed(15, 0.0039).Short(exact(21.17))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "place", s.Best, 20/52.9*60_000, 0.01)
	if !strings.Contains(strings.Join(s.Assumptions, "\n"), "coefficient given") {
		t.Error(s.Assumptions)
	}
}

// Stretches by two methods meet in what they have in common, or contradict
// each other.
func TestMethodsMeet(t *testing.T) {
	a := Stretch{Method: "a", From: 10, Best: 20, To: 30, Core: FirstCore, Cautions: []string{"x"}}
	b := Stretch{Method: "b", From: 24, Best: 26, To: 28, Cautions: []string{"x", "y"}}
	s, err := (Cable{}).Meet([]Stretch{a, b})
	if err != nil || s.From != 24 || s.To != 28 || s.Best != 26 || s.Core != FirstCore || len(s.Cautions) != 2 {
		t.Errorf("%+v, %v", s, err)
	}
	b.From, b.Best, b.To = 5, 12, 15
	if s, err := (Cable{}).Meet([]Stretch{a, b}); err != nil || s.From != 10 || s.To != 15 || s.Best != 12 {
		t.Errorf("%+v, %v", s, err)
	}
	for _, touching := range [][2]float64{{30, 40}, {2, 10}} {
		b.From, b.Best, b.To = touching[0], 6, touching[1]
		if s, err := (Cable{}).Meet([]Stretch{a, b}); err != nil || s.From != s.To {
			t.Errorf("what touches does not meet: %+v, %v", s, err)
		}
	}
	// the sharper one has the likeliest place, wherever the two lie; what only one of them knows holds
	b.From, b.Best, b.To, b.FaultOhms = 12, 14, 38, Measured{Value: 3}
	for _, both := range [][]Stretch{{a, b}, {b, a}} {
		s, err := (Cable{}).Meet(both)
		if err != nil || s.From != 12 || s.To != 30 || s.Best != 20 || s.FaultOhms.Value != 3 || s.Core != FirstCore {
			t.Errorf("%+v, %v", s, err)
		}
	}
	a.FaultOhms = Measured{Value: 2}
	if s, _ := (Cable{}).Meet([]Stretch{a, b}); s.FaultOhms.Value != 2 {
		t.Errorf("of two fault resistances that of the sharper holds: %+v", s)
	}
	if s, err := (Cable{}).Meet([]Stretch{a}); err != nil || s.Method != "a" {
		t.Errorf("one alone: %+v, %v", s, err)
	}
	b.From, b.Best, b.To = 31, 35, 40
	if _, err := (Cable{}).Meet([]Stretch{a, b}); err == nil || !strings.Contains(err.Error(), "both cannot be true") {
		t.Error(err)
	}
}

// 19.0 of 60.8 ohms on 64 ft: 64 x 19 / 60.8 = 20 ft, written in the feet that it was
// laid by. Plain arithmetic.
func TestFormulaInFeet(t *testing.T) {
	c := Cable{Length: 64 * 304.8, Ohms: Measured{Value: 60.8}, Lead: 3048, Feet: true, Farads: Measured{Value: 9}}
	s, err := c.Short(Measured{Value: 19})
	if err != nil || math.Abs(s.Best-20*304.8) > 1e-6 || !strings.Contains(s.Formula,
		"= 64 ft × (19 - 0) / (60.8 - 0)") {
		t.Errorf("%v, %v", s.Formula, err)
	}
	b, err := c.Break(Measured{Value: 4.5}) // 74 x 4.5 / 9 - 10 = 27 ft
	if err != nil || math.Abs(b.Best-27*304.8) > 1e-6 || !strings.HasSuffix(b.Formula, "= 74 ft × 4.5 / 9 - 10 ft") {
		t.Errorf("%v, %v", b.Formula, err)
	}
	if words := strings.Join(b.Assumptions, "\n"); !strings.Contains(words, "the lead, 10 ft, has") {
		t.Error(words)
	}
	if _, err := c.Meet([]Stretch{s, b}); err == nil || strings.Contains(err.Error(), " m ") || strings.Contains(
		err.Error(), " m,") || !strings.Contains(err.Error(), "ft") {
		t.Error(err)
	}
	// c = 0.98357 ft/ns: 0.66 of it for 100 ns there and back is 32.458 ft, less 10 ft of lead
	e, err := c.EchoTime(Measured{Value: 100}, Measured{Value: 0.66})
	if err != nil || math.Abs(e.Best/304.8-(0.66*0.983571*50-10)) > 1e-3 || !strings.Contains(e.Formula,
		"0.66 × 0.9835711 ft/ns × 100 ns / 2 - 10 ft") {
		t.Errorf("%v, %v", e.Formula, err)
	}
}
