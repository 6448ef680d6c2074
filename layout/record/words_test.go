package record

import (
	"math"
	"strings"
	"testing"
	"time"

	"oxturn/layout/plane"
)

func TestFiguresOfInstruments(t *testing.T) {
	for _, c := range []struct {
		f    Figure
		good bool
	}{{read(0), true}, {read(0.5), true}, {read(-0.1), false}, {read(math.Inf(1)), false}, {read(math.NaN()),
		false}, {Figure{Value: -5}, true}} {
		if c.f.valid() != c.good {
			t.Errorf("%+v valid: %v", c.f, !c.good)
		}
	}
}

func TestLimitsAtTheirBounds(t *testing.T) {
	for _, c := range []struct {
		name string
		set  func(l *Limits)
		good bool
	}{
		{"half an ohm", func(l *Limits) { l.Ohms = 0.5 }, true},
		{"no ohms", func(l *Limits) { l.Ohms = 0 }, false},
		{"endless ohms", func(l *Limits) { l.Ohms = math.Inf(1) }, false},
		{"nothing below", func(l *Limits) { l.Low = 0 }, true},
		{"nothing above", func(l *Limits) { l.High = 0 }, true},
		{"all below", func(l *Limits) { l.Low = -1 }, false},
		{"low above", func(l *Limits) { l.Low = 0.01 }, false},
		{"high below", func(l *Limits) { l.High = -0.01 }, false},
		{"ten times", func(l *Limits) { l.High = 10 }, false},
		{"least insulation", func(l *Limits) { l.Megohms = 1 }, true},
		{"less insulation", func(l *Limits) { l.Megohms = 0.99 }, false},
		{"half a volt", func(l *Limits) { l.Volts = 0.5 }, true},
		{"no volts", func(l *Limits) { l.Volts = 0 }, false},
		{"no fall", func(l *Limits) { l.Fall = 1 }, false},
		{"no drift", func(l *Limits) { l.Drift = 0 }, false},
		{"all drift", func(l *Limits) { l.Drift = 1 }, false},
		{"drift below", func(l *Limits) { l.Drift = -0.1 }, false},
	} {
		l := DefaultLimits(100)
		c.set(&l)
		if err := l.Check(); (err == nil) != c.good {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// The drift from the first reading is said in per cent, worked by hand.
func TestDriftIsSaidInPerCent(t *testing.T) {
	cold, warm := full(OnSpool, 110, 1000), full(Laid, 121, 1000)
	cold.Floor, warm.Floor = read(12), read(25)
	v := find(t, judged(t, bath, cold, warm), Laid, "conductor against the first")
	for _, want := range []string{"121.0 Ω, +10.0 % from the first 110.0 Ω, against 5 %",
		"floor 25 °C, at the first 12 °C"} {
		if !strings.Contains(v.Words.String(), want) || v.Grade != Look {
			t.Errorf("%s; want %q", v.Words, want)
		}
	}
	for floor, told := range map[float64]bool{16.9: false, 17: true, 7.1: false, 7: true} {
		warm.Floor = read(floor)
		v := find(t, judged(t, bath, cold, warm), Laid, "conductor against the first")
		if strings.Contains(v.Words.String(), "not corrected") != told {
			t.Errorf("12 and %g °C: %s", floor, v.Words)
		}
	}
	warm.Ohms = read(115.4) // 4.9 %
	if v := find(t, judged(t, bath, cold, warm), Laid, "conductor against the first"); v.Grade != Within {
		t.Error(v.Words)
	}
	warm.Ohms = read(115.7) // 5.2 %
	if v := find(t, judged(t, bath, cold, warm), Laid, "conductor against the first"); v.Grade != Look {
		t.Error(v.Words)
	}
	zero := full(OnSpool, 0, 1000)
	for _, v := range judged(t, bath, zero, full(Laid, 115, 1000)) {
		if v.Item == "conductor against the first" {
			t.Errorf("held against nothing: %s", v.Words)
		}
	}
	one := full(OnSpool, 1, 1000)
	if v := find(t, judged(t, bath, one, full(Laid, 115, 1000)), Laid, "conductor against the first"); v.Grade != Look {
		t.Error(v.Words)
	}
}

// A reading past the meter's range is no first reading to hold others against.
func TestFirstOhmsAreTheFirstThatAre(t *testing.T) {
	broken := full(OnSpool, 0, 1000)
	broken.Ohms = readOver(2000)
	vs := judged(t, bath, broken, full(Laid, 115, 1000), full(Covered, 112, 1000), full(Tiled, 117, 1000))
	if v := find(t, vs, Tiled, "conductor against the first"); !strings.Contains(v.Words.String(),
		"the first 115.0 Ω") {
		t.Error(v.Words)
	}
}

func TestVoltsOfTheTestAreSaid(t *testing.T) {
	low := full(OnSpool, 115, 1000)
	low.Volts = 0
	v := find(t, judged(t, bath, low), OnSpool, "insulation")
	if v.Grade != Look || !strings.Contains(v.Words.String(), "at a voltage not written down") {
		t.Error(v.Words)
	}
	low.Volts = 1
	v = find(t, judged(t, bath, low), OnSpool, "insulation")
	if v.Grade != Look || !strings.Contains(v.Words.String(), "at 1 V") {
		t.Error(v.Words)
	}
	high := full(Laid, 115, 1000)
	if v := find(t, judged(t, bath, low, high), Laid,
		"insulation against the first"); !strings.Contains(v.Words.String(),
		"(at 500 V now, 1 V then)") {
		t.Error(v.Words)
	}
	same := full(Laid, 115, 1000)
	if v := find(t, judged(t, bath, full(OnSpool, 115, 1000), same), Laid,
		"insulation against the first"); strings.Contains(v.Words.String(), "now") {
		t.Error(v.Words)
	}
}

func TestFallIsNamed(t *testing.T) {
	for fall, want := range map[float64]string{10: "fallen to a tenth part", 4: "fallen to a 1/4 part"} {
		l := bath
		l.Fall = fall
		v := find(t, judged(t, l, full(OnSpool, 115, 1000), full(Laid, 115, 25)), Laid, "insulation against the first")
		if !strings.Contains(v.Words.String(), want) {
			t.Errorf("%s; want %q", v.Words, want)
		}
	}
}

func TestOpenHandMeterWithATest(t *testing.T) {
	r := full(OnSpool, 115, 1000)
	for _, c := range []struct {
		hand  HandContact
		taken bool
		said  bool
	}{{Open, true, false}, {Open, false, true}, {NotTried, false, false}, {Connected, true, true}} {
		r.Hand, r.Insulation.Taken = c.hand, c.taken
		said := false
		for _, v := range judged(t, bath, r) {
			said = said || v.Item == "hand meter"
		}
		if said != c.said {
			t.Errorf("%+v: said %v", c, said)
		}
	}
}

func TestSensorAtItsBand(t *testing.T) {
	r := full(OnSpool, 115, 1000)
	for _, c := range []struct {
		ohms  float64
		band  [2]float64
		other string
		want  Grade
		words string
	}{
		{10_000, [2]float64{10_000, 12_000}, "", Within, ""},
		{12_000, [2]float64{10_000, 12_000}, "", Within, ""},
		{9_999, [2]float64{10_000, 12_000}, "", Outside, ""},
		{12_001, [2]float64{10_000, 12_000}, "", Outside, ""},
		{9_000, [2]float64{10_000, 12_000}, "the other", Outside, "it fits another kind better: the other"},
		{10_000, [2]float64{}, "", Look, "no figure to hold it against"},
		{10_000, [2]float64{12_000, 10_000}, "", Look, "no figure to hold it against"},
		{0.7, [2]float64{0.5, 0.9}, "", Within, ""},
		{10_000, [2]float64{10_000, 10_000}, "", Within, ""},
	} {
		r.Sensor, r.SensorBand, r.SensorOther = read(c.ohms), c.band, c.other
		v := find(t, judged(t, bath, r), OnSpool, "sensor")
		if v.Grade != c.want || !strings.Contains(v.Words.String(), c.words) || strings.Contains(v.Words.String(),
			"another kind") != (c.other != "") {
			t.Errorf("%+v: %v %s", c, v.Grade, v.Words)
		}
	}
}

func TestServiceIsAStage(t *testing.T) {
	if !Service.valid() || Stage(-1).valid() || (Service + 1).valid() {
		t.Error("the stages end elsewhere")
	}
	if s, ok := StageNamed("no such stage"); ok || s != 0 {
		t.Error("a name that is none")
	}
}

// The stage that is awaited next is not missing because another one is there.
func TestLastStageIsNotMissing(t *testing.T) {
	for _, v := range judged(t, bath, full(Laid, 115, 1000)) {
		if v.Item == "stage" && (v.Grade == Missing) != (v.Stage < Laid) {
			t.Errorf("%v: %s", v.Stage, v.Words)
		}
	}
}

func TestNoLayersNoDate(t *testing.T) {
	if _, ok := EarliestUse(nil); ok {
		t.Error("a date without a layer")
	}
	day := time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)
	if use, ok := EarliestUse([]Cure{{"mortar", day, 14}}); !ok || !use.Date.Equal(day.AddDate(0, 0, 14)) {
		t.Errorf("one layer: %v, %v", use, ok)
	}
}

func TestLineNamesItsCorner(t *testing.T) {
	bad := furrows(2, 1000, 100)
	bad.Points[2].X = math.NaN()
	if err := bad.Check(); err == nil || !strings.HasPrefix(err.Error(), "corner 3 ") {
		t.Error(err)
	}
	back := furrows(2, 1000, 100)
	back.Along[2] = back.Along[1]
	if err := back.Check(); err == nil || !strings.Contains(err.Error(), "from corner 2 to corner 3") {
		t.Error(err)
	}
}

// Cut at a corner has the corner once.
func TestCutAtACorner(t *testing.T) {
	l := furrows(2, 1000, 100)
	cut := l.Cut(l.Along[1], l.Along[2])
	if len(cut) != 2 || cut[0] != l.Points[1] || cut[1] != l.Points[2] {
		t.Errorf("%v", cut)
	}
}

// The next run, 90 mm away, against the middle 200 mm of a stretch: within
// 150 mm it reaches 120 mm (a 90-120-150 triangle) past either end of it.
func TestNeighbourReachesAsFarAsPythagoras(t *testing.T) {
	l := furrows(2, 2000, 90)
	ns, err := l.Neighbours(900, 1100, 150)
	if err != nil || len(ns) != 1 {
		t.Fatalf("%v, %v", ns, err)
	}
	n := ns[0]
	if math.Abs(n.Gap-90) > 1e-9 || math.Abs(n.From-(2090+2000-1220)) > 10 || math.Abs(n.To-(2090+2000-780)) > 10 {
		t.Errorf("%+v", n)
	}
	if ns, err := l.Neighbours(900, 1100, 90); err != nil || len(ns) != 1 {
		t.Errorf("exactly within reach: %v, %v", ns, err)
	}
	if ns, err := l.Neighbours(900, 1100, 0.5); err != nil || len(ns) != 0 {
		t.Errorf("half a millimetre: %v, %v", ns, err)
	}
	if _, err := l.Neighbours(900, 1100, 0); err == nil {
		t.Error("no reach at all")
	}
}

// A run as long as the reach is a turn.
func TestRunAsLongAsTheReach(t *testing.T) {
	l := Line{[]plane.Point{{}, {X: 500}, {X: 500, Y: 90}, {X: 380, Y: 90}}, []float64{0, 500, 590, 710}}
	for reach, want := range map[float64]int{119: 1, 120: 0, 121: 0} {
		if ns, err := l.Neighbours(100, 450, reach); err != nil || len(ns) != want {
			t.Errorf("reach %g: %v, %v", reach, ns, err)
		}
	}
}
