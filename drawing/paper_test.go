package drawing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// ISO 216 gives the A sizes in whole mm; the American sizes are whole or half inches
// (ANSI/ASME Y14.1; the architectural ones are 6 x 9 in times 2, 4, 6 and 8 one way or both, common practice).
func TestPapers(t *testing.T) {
	want := map[string][2]float64{
		"A4": {210, 297}, "A3": {297, 420}, "A2": {420, 594}, "A1": {594, 841}, "A0": {841, 1189},
		"letter": {215.9, 279.4}, "tabloid": {279.4, 431.8}, "arch C": {457.2, 609.6},
		"ANSI C": {431.8, 558.8}, "ANSI D": {558.8, 863.6}, "ANSI E": {863.6, 1117.6}, "arch D": {609.6, 914.4},
		"arch E": {914.4, 1219.2},
	}
	if len(Papers()) != len(want) {
		t.Errorf("%d sizes, want %d", len(Papers()), len(want))
	}
	for name, size := range want {
		p, ok := PaperNamed(name)
		if !ok || math.Abs(p.W-size[0]) > 1e-9 || math.Abs(p.H-size[1]) > 1e-9 {
			t.Errorf("%s: %v, want %v", name, p, size)
		}
		if l := p.Landscape(); l.W != p.H || l.H != p.W || l.Landscape() != l || l.Portrait() != p {
			t.Errorf("%s lying: %v", name, l)
		}
	}
	if _, ok := PaperNamed("LETTER"); !ok {
		t.Error("letter case matters")
	}
	if _, ok := PaperNamed("B5"); ok {
		t.Error("an unknown size was found")
	}
}

// The A series halves: two A4 side by side are an A3, within the rounding to
// whole mm that ISO 216 makes.
func TestPapersHalve(t *testing.T) {
	a4, _ := PaperNamed("A4")
	a3, _ := PaperNamed("A3")
	a2, _ := PaperNamed("A2")
	if a3.W != a4.H || a3.H != 2*a4.W || a2.W != a3.H || a2.H != 2*a3.W {
		t.Errorf("%v %v %v", a4, a3, a2)
	}
}

// ISO 5457 drawing spaces: A4 180 x 277, A3 277 x 390, A2 400 x 564.
func TestFrame(t *testing.T) {
	for name, want := range map[string][2]float64{"A4": {180, 277}, "A3": {390, 277}, "A2": {564, 400}} {
		p, _ := PaperNamed(name)
		if name != "A4" {
			p = p.Landscape()
		}
		if f := p.Frame(); f.W() != want[0] || f.H() != want[1] || f.X0 != 20 {
			t.Errorf("%s: %v", name, f)
		}
	}
}

// Inches to the foot and ratio, from an architect's conversion table; what 10
// ft are on paper is worked out by hand.
func TestInchScales(t *testing.T) {
	for _, c := range []struct {
		name  string
		ratio float64
		tenFt float64 // inches on paper
	}{
		{`3" = 1'-0"`, 4, 30}, {`1 1/2" = 1'-0"`, 8, 15}, {`1" = 1'-0"`, 12, 10}, {`3/4" = 1'-0"`, 16, 7.5},
		{`1/2" = 1'-0"`, 24, 5}, {`3/8" = 1'-0"`, 32, 3.75}, {`1/4" = 1'-0"`, 48, 2.5}, {`3/16" = 1'-0"`, 64, 1.875},
		{`1/8" = 1'-0"`, 96, 1.25}, {`3/32" = 1'-0"`, 128, 0.9375}, {`1/16" = 1'-0"`, 192, 0.625},
	} {
		s, ok := ScaleOf(c.ratio, plane.Inches)
		if !ok || s.Name != c.name {
			t.Errorf("%s: %v", c.name, s)
		}
		if got := (View{Ratio: s.Ratio}).Len(10*plane.Foot) / plane.Inch; math.Abs(got-c.tenFt) > 1e-12 {
			t.Errorf("%s: 10 ft are %v in", c.name, got)
		}
	}
}

// ISO 5455: 1, 2 and 5 times powers of ten; between 1:10 and 1:100 those that triangular
// scale rulers have too (1:25, 1:30, 1:40, 1:75; common practice), and 1:15.
func TestMetricScales(t *testing.T) {
	want := []float64{0.2, 0.5, 1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500, 1000}
	for i, s := range MetricScales() {
		if s.Ratio != want[i] {
			t.Errorf("scale %d is %v, want %v", i, s, want[i])
		}
	}
}

func TestScaleOf(t *testing.T) {
	if s, _ := ScaleOf(24, plane.Inches); s.Name != `1/2" = 1'-0"` {
		t.Errorf("24: %v", s)
	}
	if s, _ := ScaleOf(1, plane.Millimetres); s.Name != "1:1" {
		t.Errorf("1: %v", s)
	}
	if s, ok := ScaleOf(24, plane.Millimetres); !ok || s.Ratio != 24 {
		t.Errorf("a job in mm may ask for an inch scale: %v", s)
	}
	if _, ok := ScaleOf(27, plane.Millimetres); ok {
		t.Error("27 is no standard scale")
	}
}

func TestViewThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(-2e4, 2e4)
		room := plane.Bounds([]plane.Point{plane.Pt(c.Draw(t, "x0"), c.Draw(t, "y0")),
			plane.Pt(c.Draw(t, "x1"), c.Draw(t, "y1"))})
		field := Box{20, 10, 300, 200}
		v := NewView(room, field, rapid.SampledFrom([]float64{5, 20, 24, 192}).Draw(t, "ratio"))
		p := plane.Pt(c.Draw(t, "x"), c.Draw(t, "y"))
		if back := v.Floor(v.Pt(p)); back.Dist(p) > 1e-6 {
			t.Fatalf("%v came back as %v", p, back)
		}
		if got := v.Pt(room.Centre()); got.Dist(field.Centre()) > 1e-9 {
			t.Fatalf("the room's middle lies at %v", got)
		}
	})
	v := View{Ratio: 20, At: Pt{X: 100, Y: 100}}
	if got := v.Pt(plane.Pt(3500, 1000)); got != (Pt{X: 275, Y: 50}) {
		t.Errorf("3.5 m east and 1 m north at 1:20 lie at %v", got)
	}
}

func TestViewOfRegion(t *testing.T) {
	r := plane.Region{{Outer: plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 500)),
		Holes: []plane.Ring{plane.Rectangle(plane.Pt(100, 100), plane.Pt(200, 200))}}}
	v := View{Ratio: 10, At: Pt{X: 0, Y: 50}}
	if rings := v.Rings(r); len(rings) != 2 || BoxOf(rings[0]...) != (Box{0, 0, 100, 50}) {
		t.Errorf("%v", rings)
	}
	if segs := v.Outline(r); len(segs) != 10 || PathBox(segs) != (Box{0, 0, 100, 50}) {
		t.Errorf("%v", segs)
	}
}
