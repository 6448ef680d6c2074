package record

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"oxturn/layout/language"

	"pgregory.net/rapid"
)

// find returns the verdict on an item of a stage.
func find(t *testing.T, vs []Verdict, s Stage, item string) Verdict {
	t.Helper()
	for _, v := range vs {
		if v.Stage == s && v.Item == item {
			return v
		}
	}
	t.Fatalf("nothing is said of %q at %q", item, s)
	return Verdict{}
}

func judged(t *testing.T, l Limits, rs ...Reading) []Verdict {
	t.Helper()
	vs, err := Judge(l, rs)
	if err != nil {
		t.Fatal(err)
	}
	return vs
}

// A cable of 240 V and 500 W: 115.2 Ω, at -5/+10 % 109.4 to 126.7 Ω (worked by
// hand from V²/W).
var bath = DefaultLimits(115.2)

func TestLimitsOfACable(t *testing.T) {
	low, high := bath.OhmsRange()
	near(t, "low", low, 109.44, 1e-9)
	near(t, "high", high, 126.72, 1e-9)
	for _, want := range []string{"109.4 to 126.7 Ω", "label 115.2 Ω", "-5/+10 %", "20 MΩ at 500 V", "default"} {
		if !strings.Contains(bath.String(), want) {
			t.Errorf("%q is not in %q", want, bath)
		}
	}
}

func full(s Stage, ohms, megohms float64) Reading {
	return Reading{Stage: s, Ohms: read(ohms), Insulation: read(megohms), Volts: 500}
}

// Exactly at a limit is within it, a hair beyond is not.
func TestConductorAtItsLimits(t *testing.T) {
	for _, c := range []struct {
		ohms float64
		want Grade
	}{{115.2, Within}, {109.44, Within}, {126.72, Within}, {109.43, Outside}, {126.73, Outside}, {0, Outside}} {
		v := find(t, judged(t, bath, full(OnSpool, c.ohms, 1000)), OnSpool, "conductor")
		if v.Grade != c.want {
			t.Errorf("%g Ω: %s", c.ohms, v.Words)
		}
	}
	broken := full(OnSpool, 0, 1000)
	broken.Ohms = readOver(2000)
	if v := find(t, judged(t, bath, broken), OnSpool, "conductor"); v.Grade != Outside ||
		!strings.Contains(v.Words.String(),
			"broken") {
		t.Error(v)
	}
}

func TestInsulationAgainstTheLimit(t *testing.T) {
	over := full(OnSpool, 115, 0)
	over.Insulation = readOver(1000)
	short := over
	short.Insulation = readOver(10)
	low := full(OnSpool, 115, 50)
	low.Volts = 250
	for _, c := range []struct {
		name string
		r    Reading
		want Grade
	}{
		{"exactly 20 MΩ", full(OnSpool, 115, 20), Within},
		{"19.9 MΩ", full(OnSpool, 115, 19.9), Outside},
		{"over 1000 MΩ", over, Within},
		{"over 10 MΩ, the end of the meter's range", short, Look},
		{"50 MΩ at 250 V only", low, Look},
	} {
		if v := find(t, judged(t, bath, c.r), OnSpool, "insulation"); v.Grade != c.want {
			t.Errorf("%s: %s, %s", c.name, v.Grade, v.Words)
		}
	}
}

// A fall to a tenth counts even where the limit is met.
func TestInsulationFallenByTen(t *testing.T) {
	first := full(OnSpool, 115, 2000)
	for _, c := range []struct {
		now  Figure
		want Grade
	}{{read(201), Within}, {read(200), Outside}, {read(25), Outside}, {readOver(500), Within}, {readOver(100), Look}} {
		second := full(Laid, 115, 0)
		second.Insulation = c.now
		v := find(t, judged(t, bath, first, second), Laid, "insulation against the first")
		if v.Grade != c.want {
			t.Errorf("%+v: %s, %s", c.now, v.Grade, v.Words)
		}
	}
}

func TestDriftFromTheFirst(t *testing.T) {
	first := full(OnSpool, 112, 1000)
	first.Floor = read(21)
	second := full(Laid, 119, 1000)
	second.Floor = read(-2)
	v := find(t, judged(t, bath, first, second), Laid, "conductor against the first")
	if v.Grade != Look || !strings.Contains(v.Words.String(), "floor -2 °C, at the first 21 °C; not corrected") {
		t.Error(v)
	}
	v = find(t, judged(t, bath, first, full(Laid, 113, 1000)), Laid, "conductor against the first")
	if v.Grade != Within || strings.Contains(v.Words.String(), "not corrected") {
		t.Error(v)
	}
}

// Open on a hand meter is never an insulation pass.
func TestHandMeterIsNoInsulationTest(t *testing.T) {
	vs := judged(t, bath, Reading{Stage: Laid, Ohms: read(115), Hand: Open})
	if v := find(t, vs, Laid, "insulation"); v.Grade != Missing {
		t.Error(v)
	}
	if v := find(t, vs, Laid, "hand meter"); v.Grade != Look || !strings.Contains(v.Words.String(),
		"not an insulation test") {
		t.Error(v)
	}
	r := full(Laid, 115, 1000)
	r.Hand = Connected
	if v := find(t, judged(t, bath, r), Laid, "hand meter"); v.Grade != Outside {
		t.Error(v)
	}
}

// A 10 kΩ sensor reads about 12.5 kΩ at 20 °C (published tables).
func TestSensor(t *testing.T) {
	r := full(Tiled, 115, 1000)
	r.Sensor, r.Spare = read(12_490), read(300)
	r.SensorBand = [2]float64{11_800, 13_200}
	vs := judged(t, bath, r)
	if v := find(t, vs, Tiled, "sensor"); v.Grade != Within {
		t.Error(v)
	}
	if v := find(t, vs, Tiled, "spare sensor"); v.Grade != Outside {
		t.Error(v)
	}
	r.SensorBand = [2]float64{}
	if v := find(t, judged(t, bath, r), Tiled, "sensor"); v.Grade != Look {
		t.Error(v)
	}
	r.Sensor = readOver(1e6)
	if v := find(t, judged(t, bath, r), Tiled, "sensor"); v.Grade != Outside {
		t.Error(v)
	}
}

func TestSkippedAndAwaitedStages(t *testing.T) {
	vs := judged(t, bath, full(OnSpool, 115, 1000), full(Tiled, 115, 1000))
	for s, want := range map[Stage]Grade{Laid: Missing, Covered: Missing, Grouted: Awaited, HookUp: Awaited} {
		if v := find(t, vs, s, "stage"); v.Grade != want || v.Reading != -1 {
			t.Errorf("%s: %s", s, v.Grade)
		}
	}
	for _, v := range vs {
		if v.Stage == Service {
			t.Errorf("service is asked for: %+v", v)
		}
	}
}

func TestEmptyRecordIsAwaited(t *testing.T) {
	vs := judged(t, bath)
	if len(vs) != 6 || Worst(vs) != Awaited {
		t.Errorf("%d verdicts, worst %s", len(vs), Worst(vs))
	}
}

func TestOrder(t *testing.T) {
	at := func(s Stage, day int) Reading {
		r := full(s, 115, 1000)
		if day > 0 {
			r.Date = time.Date(2026, 3, day, 0, 0, 0, 0, time.UTC)
		}
		return r
	}
	for name, c := range map[string]struct {
		readings []Reading
		want     []string // item, the reading at fault, the one it goes back behind
	}{
		"in order":    {[]Reading{at(OnSpool, 1), at(Laid, 1), at(Laid, 2), at(Tiled, 9)}, nil},
		"both turned": {[]Reading{at(Tiled, 9), at(Laid, 2)}, []string{OfStage + " 1 0", OfDate + " 1 0"}},
		"a year misread": {[]Reading{at(OnSpool, 9), at(Laid, 2), at(Tiled, 4)},
			[]string{OfDate + " 1 0", OfDate + " 2 0"}},
		"past an undated": {[]Reading{at(OnSpool, 9), at(Laid, 0), at(Tiled, 4)}, []string{OfDate + " 2 0"}},
		"past one in its place": {[]Reading{at(HookUp, 1), at(Laid, 2), at(Tiled, 3)},
			[]string{OfStage + " 1 0", OfStage + " 2 0"}},
		"past an impossible": {[]Reading{full(OnSpool, -1, 1000), at(Tiled, 9), at(Laid, 10)},
			[]string{OfStage + " 2 1"}},
	} {
		var said []string
		for _, v := range judged(t, bath, c.readings...) {
			if v.Item == OfStage || v.Item == OfDate {
				said = append(said, fmt.Sprintf("%s %d %d", v.Item, v.Reading, v.Before))
			}
		}
		if !slices.Equal(said, c.want) {
			t.Errorf("%s: %q, want %q", name, said, c.want)
		}
	}
}

// A figure that no instrument shows is told, and nothing is compared with it.
func TestImpossibleFigures(t *testing.T) {
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		vs := judged(t, bath, full(OnSpool, bad, 1000), full(Laid, 115, 1000))
		if v := find(t, vs, OnSpool, "conductor"); v.Grade != Outside {
			t.Error(v)
		}
		for _, v := range vs {
			if v.Item == "conductor against the first" {
				t.Errorf("compared with %g", bad)
			}
		}
	}
	vs := judged(t, bath, full(Stage(99), 115, 1000))
	if Worst(vs) != Outside {
		t.Errorf("stage 99: %s", Worst(vs))
	}
}

func TestLimitsThatCannotBe(t *testing.T) {
	for want, change := range map[string]func(*Limits){
		"label's ohms":          func(l *Limits) { l.Ohms = 0 },
		"tolerance":             func(l *Limits) { l.Low = 0.05 },
		"may not be set below":  func(l *Limits) { l.Megohms = 0.5 },
		"no test voltage":       func(l *Limits) { l.Volts = 0 },
		"no fall":               func(l *Limits) { l.Fall = 1 },
		"not a share between 0": func(l *Limits) { l.Drift = math.NaN() },
	} {
		l := bath
		change(&l)
		if _, err := Judge(l, nil); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

func TestStageNames(t *testing.T) {
	for _, s := range Stages() {
		if got, ok := StageNamed(s.String()); !ok || got != s {
			t.Errorf("%s is read as %v", s, got)
		}
	}
	if _, ok := StageNamed("finished"); ok {
		t.Error("an unknown stage is known")
	}
}

func TestStagesInWords(t *testing.T) {
	for want, stages := range map[string][]Stage{`stage "tiled"`: {Tiled}, `stages "tiled" and "grouted"`: {Tiled,
		Grouted},
		`stages "covered", "tiled" and "grouted"`:             {Covered, Tiled, Grouted},
		`stages "on spool", "covered", "tiled" and "hook-up"`: {OnSpool, Covered, Tiled, HookUp}} {
		if got := StageWords(stages, language.English); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// Whatever is read: every reading is spoken of, no figure is made up, nothing
// is called safe.
func TestEveryReadingIsSpokenOf(t *testing.T) {
	figure := rapid.Custom(func(t *rapid.T) Figure {
		return Figure{rapid.Float64().Draw(t, "v"), rapid.Bool().Draw(t, "taken"), rapid.Bool().Draw(t, "over")}
	})
	reading := rapid.Custom(func(t *rapid.T) Reading {
		return Reading{
			Stage: Stage(rapid.IntRange(-1, 8).Draw(t, "stage")), Ohms: figure.Draw(t, "ohms"),
			Insulation: figure.Draw(t, "insulation"),
			Volts:      rapid.Float64Range(0, 1000).Draw(t, "volts"),
			Hand:       HandContact(rapid.IntRange(0, 2).Draw(t, "hand")),
			Sensor:     figure.Draw(t, "sensor"), Floor: figure.Draw(t, "floor"),
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		rs := rapid.SliceOfN(reading, 0, 8).Draw(t, "readings")
		vs, err := Judge(bath, rs)
		if err != nil {
			t.Fatal(err)
		}
		spoken := map[int]bool{}
		for _, v := range vs {
			spoken[v.Reading] = true
			low := strings.ToLower(v.Words.String())
			if v.Words.String() == "" || strings.Contains(low, "safe") || strings.Contains(low, "complian") {
				t.Fatalf("%+v", v)
			}
			if v.Reading >= 0 && v.Item == "insulation" && !rs[v.Reading].Insulation.Taken && v.Grade != Missing {
				t.Fatalf("an insulation test that was not made is %s", v.Grade)
			}
		}
		for i := range rs {
			if !spoken[i] {
				t.Fatalf("reading %d is passed over", i)
			}
		}
	})
}

// read is a figure that was taken; readOver is one beyond the range that ends
// at v.
func read(v float64) Figure     { return Figure{Value: v, Taken: true} }
func readOver(v float64) Figure { return Figure{Value: v, Taken: true, Over: true} }
