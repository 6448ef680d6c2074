package sheets

import (
	"math"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

func sampleLayers() []job.Layer {
	return []job.Layer{
		{Name: "porcelain", Kind: "tile", Thickness: 9}, {Name: "bed", Kind: "mortar", Thickness: 4},
		{Name: "membrane", Kind: "membrane", Thickness: 5.5}, {Name: "slab", Kind: "concrete", Thickness: 120},
	}
}

// sampleWarmth is a floor of the middle of the road, solved.
func sampleWarmth(t *testing.T, tariff float64) *layout.Warmth {
	t.Helper()
	s := heat.Section{Depth: 15.75, Spacing: 90, WattsPerMetre: 12, Below: heat.Below{Kind: heat.Ground, Rise: -10}}
	for _, l := range sampleLayers() {
		kind := l.Kind
		m, ok := heat.DefaultMaterial(kind)
		if !ok {
			t.Fatal(kind)
		}
		s.Layers = append(s.Layers, m.Layer(l.Thickness))
	}
	st, err := s.Solve()
	if err != nil {
		t.Fatal(err)
	}
	offers, err := s.Offers([]float64{60, 90}, nil, 8, 4)
	if err != nil {
		t.Fatal(err)
	}
	use, err := heat.Use{Watts: 180, Hours: heat.Range{Low: 4, High: 10}, Duty: heat.Range{Low: 0.4, High: 1},
		Tariff: tariff, Currency: "$"}.Energy()
	if err != nil {
		t.Fatal(err)
	}
	hot := s.OnSoil(heat.Soil{Conductivity: 2, Dimension: 4}, -10)
	warm, err := hot.Solve()
	if err != nil {
		t.Fatal(err)
	}
	return &layout.Warmth{
		Layers: s.Layers, Sources: make([]language.Message,
			len(s.Layers)), Holds: 2, Depth: s.Depth, Room: 20, Warmest: 20,
		Rise: 8, Hours: 4, Offers: offers,
		Runs: []layout.Warm{{Cables: []string{"H1"}, Cold: layout.Bound{Section: s, Steady: st},
			Hot: layout.Bound{Section: hot, Steady: warm}, Verdicts: warm.Against(20, heat.OccupiedLimit)}},
		Use: []layout.RoomUse{{Room: "Hall bath", Energy: use}},
	}
}

func wordsOf(blocks []setting.Block) string {
	pg := setting.NewPage(&layout.Plan{Job: &job.Job{}}, drawing.Paper{W: 420, H: 2000})
	y := 0.0
	for _, b := range blocks {
		b.Set(pg, drawing.Pt{Y: y}, 110)
		y += b.Height(pg.Ty, 110)
	}
	var out []string
	for _, t := range pg.Sheet.Texts() {
		out = append(out, t.Text)
	}
	return strings.Join(out, "\n")
}

// Costs stand only where there is a tariff, always as a range; what is not
// known is said.
func TestWarmthSaysWhatItKnows(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	if got := wordsOf(warmthBlocks(p)); !strings.Contains(got, "no [[layer]]") {
		t.Errorf("without layers: %s", got)
	}
	p.Warmth = &layout.Warmth{Problem: "the conductivity of cork is 0"}
	if got := wordsOf(warmthBlocks(p)); !strings.Contains(got, "cork") {
		t.Errorf("with a problem: %s", got)
	}
	p.Warmth = sampleWarmth(t, 0)
	got := wordsOf(warmthBlocks(p))
	for _, want := range []string{"Surface, settled, °C", "Warm-up for each spacing", "90 mm apart",
		"8 °C gained: 21.5 °C", "no room temperature is computed",
		"±50 %", "no tariff given"} {
		if !strings.Contains(strings.ReplaceAll(got, "\n", " "), want) &&
			!strings.Contains(strings.ToLower(strings.ReplaceAll(got, "\n", " ")), want) {
			t.Errorf("%q is missing in:\n%s", want, got)
		}
	}
	if strings.Contains(got, "Cost") {
		t.Error("a cost without a tariff")
	}
	p.Warmth, p.Job.Energy.Currency = sampleWarmth(t, 0.3), "EUR"
	if got := strings.ReplaceAll(wordsOf(warmthBlocks(p)), "\n", " "); !strings.Contains(got, "Cost, EUR") ||
		!strings.Contains(got, "0.05") {
		t.Errorf("no cost with a tariff: %s", got)
	}
}

// TestGoalIsWhereTimesEnd: the line on the warm-up chart lies where the times of the
// table are counted to, also where the floor starts colder than the room.
func TestGoalIsWhereTimesEnd(t *testing.T) {
	p := example(t, "kitchen").plan // on a slab 10 K colder than the room
	w := p.Warmth
	f := p.Job.Figures()
	c := warmUpChart(w, f)[0].(setting.Chart)
	tried := 0
	for i, o := range w.Offers {
		seconds, ok := o.Curve.TimeTo(w.Rise)
		if !ok || o.Board || o.Curve.Start > -1 {
			continue
		}
		tried++
		if got := temperature(f, w.Room+o.Curve.At(seconds)); math.Abs(got-c.Limits[0].At) > 0.05 {
			t.Errorf("offer %d reaches %.2f when its time is over, the line is at %.2f", i, got, c.Limits[0].At)
		}
	}
	if tried == 0 {
		t.Error("no offer on a colder slab: nothing is tried")
	}
}

func TestSentenceBeginsWithAWholeLetter(t *testing.T) {
	for in, want := range map[string]string{"±15 % of it": "±15 % of it.", "émail.": "Émail.", "": ""} {
		if got := sentence(in); got != want {
			t.Errorf("%q: %q", in, got)
		}
	}
}
