package ownersmap

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/record"
)

// A faultRead is one reading of a faulty cable, as the page takes it.
type faultRead struct {
	Way     string     `json:"way"`
	Figures []measured `json:"figures"`
	Factor  *measured  `json:"factor,omitempty"`
	Set     float64    `json:"set,omitempty"`
}

// A faultAsked is a cable with what was read and typed of it.
type faultAsked struct {
	Cable    cable          `json:"cable"`
	Readings []faultRead    `json:"readings"`
	Typed    map[string]any `json:"typed"`
}

// A faultFound is an answer to it.
type faultFound struct {
	Error, Method, Formula, Core string
	From, Best, To               float64
	FaultOhms                    measured
	Assumptions, Cautions        []string
}

// figuresOf says how many figures each way of reading takes.
var figuresOf = map[string]int{"short": 1, "earth": 3, "murray": 2, "varley": 4, "break": 1, "ends": 2, "time": 1,
	"distance": 1}

// byRecord answers as package record does.
func (a faultAsked) byRecord() faultFound {
	c := a.cable()
	if kelvin, ok := a.Typed["warmer"].(float64); ok {
		c = c.Warmed(kelvin, a.Typed["perKelvin"].(float64))
	}
	var all []record.Stretch
	for _, r := range a.Readings {
		s, err := r.find(c)
		if err != nil {
			return faultFound{Error: err.Error()}
		}
		all = append(all, s)
	}
	s, err := c.Meet(all)
	if err != nil {
		return faultFound{Error: err.Error()}
	}
	core := ""
	if s.Core != record.AnyCore {
		core = s.Core.String()
	}
	return faultFound{Method: s.Method, Formula: s.Formula, Core: core, From: s.From, Best: s.Best, To: s.To,
		FaultOhms: measured(s.FaultOhms), Assumptions: s.Assumptions, Cautions: s.Cautions}
}

func (a faultAsked) cable() record.Cable {
	typed := func(name string) record.Measured { m, _ := a.Typed[name].(measured); return record.Measured(m) }
	share, _ := a.Typed["coreShare"].(float64)
	c := record.Cable{Length: a.Cable.Length, Lead: a.Cable.Lead, Feet: a.Cable.Feet, CoreShare: share,
		Ohms: typed("ohms"), Farads: typed("farads"), LeadOhms: typed("leadOhms")}
	if a.Cable.Return {
		c.Ends = circuit.BothEnds
	}
	return c
}

func (r faultRead) find(c record.Cable) (record.Stretch, error) {
	v := make([]record.Measured, len(r.Figures))
	for i, f := range r.Figures {
		v[i] = record.Measured(f)
	}
	switch r.Way {
	case "short":
		return c.Short(v[0])
	case "earth":
		return c.EarthReadings(v[0], v[1], v[2])
	case "murray":
		return c.Murray(v[0], v[1], record.Measured{})
	case "varley":
		return c.Varley(v[0], v[1], v[2], v[3])
	case "break":
		return c.Break(v[0])
	case "ends":
		return c.BreakBothWays(v[0], v[1])
	case "time":
		return c.EchoTime(v[0], record.Measured(*r.Factor))
	}
	return c.EchoDistance(v[0], r.Set, record.Measured(*r.Factor))
}

// A chancer makes up cables and readings.
type chancer struct{ *rand.Rand }

func (c chancer) between(low, high float64) float64 { return low + c.Float64()*(high-low) }

// off is a reading of a true value by a meter: mostly near it, now and then anything.
func (c chancer) off(v float64) measured {
	if c.IntN(40) == 0 {
		v = c.between(-10, 2*v)
	}
	share, rest := c.between(0, 0.02), c.between(0, 0.002)*v
	if c.IntN(4) == 0 {
		share, rest = 0, 0
	}
	v *= 1 + c.between(-1, 1)*share
	return measured(record.MeterReading(v, share, 1, math.Abs(rest)))
}

// asked makes up a cable with one fault and what is read of it in up to three ways.
func (c chancer) asked() faultAsked {
	k := cable{Length: c.between(5e3, 150e3), Lead: c.between(0, 5e3), Return: c.IntN(2) == 0, Feet: c.IntN(2) == 0}
	if c.IntN(8) == 0 {
		k.Lead = 0
	}
	ohms, lead, at, fault := c.between(5, 500), c.between(0, 1), c.Float64(), c.between(0, 2000)
	if c.IntN(5) == 0 {
		lead = 0
	}
	a := faultAsked{Cable: k, Typed: map[string]any{"meterShare": 0.01, "ohms": c.off(ohms + lead),
		"leadOhms": c.off(lead), "farads": c.off(c.between(3, 20))}}
	first := 0.5
	if c.IntN(3) == 0 {
		first = c.between(0.1, 0.98)
		a.Typed["coreShare"] = first
	}
	if c.IntN(3) == 0 {
		a.Typed["warmer"], a.Typed["perKelvin"] = c.between(-20, 40), c.between(0.00005, 0.0045)
	}
	share := at * first // of the loop
	if k.Return {
		share = at
	}
	toA, toB := share*ohms+lead/2, (1-share)*ohms+lead/2
	factor := c.off(c.between(0.4, 0.9))
	true1 := map[string][]float64{"short": {at*ohms + lead}, "earth": {ohms + lead, toA + fault, toB + fault},
		"murray": {10 * toB, 10 * toA}, "varley": {100, 100, math.Abs(toB - toA), ohms + lead},
		"break": {a.Typed["farads"].(measured).Value * at}, "ends": {5 * at, 5 * (1 - at)},
		"time":     {(at*k.Length + k.Lead) * 2 / (factor.Value * 299.792458)},
		"distance": {(at*k.Length + k.Lead) * 0.66 / factor.Value}}
	for range 1 + c.IntN(3) {
		names := []string{"short", "earth", "murray", "varley", "break", "ends", "time", "distance"}
		r := faultRead{Way: names[c.IntN(len(names))], Factor: &factor, Set: 0.66}
		for _, v := range true1[r.Way] {
			r.Figures = append(r.Figures, c.off(v))
		}
		a.Readings = append(a.Readings, r)
	}
	return a
}

// findAll asks the page about many faults at once.
func findAll(t *testing.T, ctx context.Context, all []faultAsked) (out []faultFound) {
	t.Helper()
	questions, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	text := evaluate[string](t, ctx, fmt.Sprintf(`JSON.stringify(%s.map((q) => { try { return `+
		`window.floorMap.fault.find(q.cable, q.readings, q.typed); } catch (e) { return { error: e.message }; } }))`,
		questions))
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// near mm: half a millimetre of cable is below what a hand marks.
const nearMM = 0.5

// TestPageFindsFaultsAsRecordDoes holds the page's formulas, errors and words to package record's
// on many made-up cables and readings, in all ways and several at once.
func TestPageFindsFaultsAsRecordDoes(t *testing.T) {
	ctx := browser(t, write(t, samplePlan(plane.Millimetres, job.AsLaid, "Bath")))
	c := chancer{rand.New(rand.NewPCG(18, 4))}
	all := make([]faultAsked, 3000)
	for i := range all {
		all[i] = c.asked()
	}
	ways, refused := map[string]int{}, 0
	for i, got := range findAll(t, ctx, all) {
		want := all[i].byRecord()
		if want.Error != "" {
			refused++
		} else if len(all[i].Readings) == 1 {
			ways[all[i].Readings[0].Way]++
		} else {
			ways["several"]++
		}
		if !sameFound(got, want) {
			t.Fatalf("%+v:\nthe page finds %+v\nrecord %+v", all[i], got, want)
		}
	}
	for way := range figuresOf {
		if ways[way] < 30 {
			t.Errorf("%s found a place %d times only", way, ways[way])
		}
	}
	if ways["several"] < 150 || refused < 150 {
		t.Errorf("%d by several ways, %d refused", ways["several"], refused)
	}
}

func sameFound(a, b faultFound) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= nearMM }
	return a.Error == b.Error && a.Method == b.Method && a.Formula == b.Formula && a.Core == b.Core &&
		near(a.From, b.From) && near(a.Best, b.Best) && near(a.To, b.To) &&
		math.Abs(a.FaultOhms.Value-b.FaultOhms.Value) < 1e-6 && math.Abs(a.FaultOhms.Error-b.FaultOhms.Error) < 1e-6 &&
		slices.Equal(a.Assumptions, b.Assumptions) && slices.Equal(a.Cautions, b.Cautions)
}

// TestPageTracesFaultsAsProbeDoes holds what the page makes of a stretch on the floor, tiles
// and runs beside it too, to what package probe does.
func TestPageTracesFaultsAsProbeDoes(t *testing.T) {
	for _, kind := range []struct {
		units  plane.Units
		status job.Status
		in     language.Language
	}{{plane.Millimetres, job.AsLaid, language.English}, {plane.Inches, job.AsLaid, language.English},
		{plane.Inches, job.ForInstallation, language.English}, {plane.Inches, job.ForInstallation, language.Spanish},
		{plane.Millimetres, job.AsLaid, language.German}} {
		p := samplePlan(kind.units, kind.status, "Bath")
		p.Job.Language = kind.in
		p.Rooms[0].Cables[0].Spacing = 90
		ctx := browser(t, write(t, p))
		c := chancer{rand.New(rand.NewPCG(18, 5))}
		var spans [][3]float64
		for range 150 {
			from := c.between(0, 9300)
			to := min(9300, from+c.between(0, 1500))
			spans = append(spans, [3]float64{from, c.between(from, to), to})
		}
		spans = append(spans, [3]float64{0, 0, 0}, [3]float64{9300, 9300, 9300}, [3]float64{0, 4000, 9300})
		sent, _ := json.Marshal(spans)
		text := evaluate[string](t, ctx, fmt.Sprintf(`JSON.stringify(%s.map(([from, best, to]) => { const m = window.floorMap, room = m.rooms[0],
  f = m.fault.trace(room, room.cables[0], { from, best, to, method: "m", formula: "f", core: "", faultOhms: m.record.exact(0), assumptions: ["a"], cautions: ["c"] });
  return { Facts: m.fault.facts(room, f), Cautions: m.fault.cautions(room, f), Line: f.line }; }))`, sent))
		var got []struct {
			Facts    [][2]string
			Cautions []string
			Line     [][2]float64
		}
		if err := json.Unmarshal([]byte(text), &got); err != nil {
			t.Fatal(err)
		}
		tiles, beside := 0, 0
		for i, span := range spans {
			f, err := probe.TraceIn(p, "H1", record.Stretch{From: span[0], Best: span[1], To: span[2], Method: "m",
				Formula: "f", Assumptions: []string{"a"}, Cautions: []string{"c"}}, kind.in)
			if err != nil {
				t.Fatal(err)
			}
			tiles, beside = tiles+len(f.Tiles), beside+len(f.Neighbours)
			sameFacts(t, fmt.Sprint(span), got[i].Facts, f.Map, f.Facts())
			if !slices.Equal(got[i].Cautions, f.Cautions()) {
				t.Errorf("%v: the page warns %q, probe %q", span, got[i].Cautions, f.Cautions())
			}
			sameLine(t, span, got[i].Line, f.Line)
		}
		if tiles < 150 || beside < 100 {
			t.Errorf("%d tiles and %d runs beside were tried", tiles, beside)
		}
	}
}

func sameLine(t *testing.T, what any, got [][2]float64, want []plane.Point) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%v: %d points, want %d", what, len(got), len(want))
	}
	for i, p := range want {
		if p.Dist(plane.Pt(got[i][0], got[i][1])) > nearMM {
			t.Errorf("%v: point %d is %v, want %v", what, i, got[i], p)
		}
	}
}
