package sheets

import (
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/layout/plane"

	"pgregory.net/rapid"
)

// Ticks are few, evenly spaced, and cover the range.
func TestAxisCoversItsRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e4, 1e4).Draw(t, "lo")
		hi := lo + rapid.Float64Range(1e-6, 1e4).Draw(t, "length")
		a := axisFor(lo, hi, 5)
		ticks := a.ticks()
		if len(ticks) < 2 || len(ticks) > 9 || a.lo > lo+a.step*1e-6 || ticks[len(ticks)-1] < hi-a.step*1e-6 {
			t.Fatalf("%g to %g: %v", lo, hi, ticks)
		}
		seen := map[string]bool{}
		for _, v := range ticks {
			if seen[a.figure(v)] {
				t.Fatalf("%g to %g: two ticks read %s", lo, hi, a.figure(v))
			}
			seen[a.figure(v)] = true
		}
	})
	if a := axisFor(20, 20, 5); a.hi <= a.lo {
		t.Errorf("a range of nothing: %+v", a)
	}
}

// No two curves, nor a curve and a limit, are drawn with the same line: colour
// tells nothing.
func TestCurvesDifferByTheirLines(t *testing.T) {
	var lines []*drawing.Stroke
	for i := range 2 * mostCurves {
		lines = append(lines, curveLine(i))
	}
	for i := range 3 {
		lines = append(lines, limitStroke(i))
	}
	look := func(s *drawing.Stroke) string {
		var b strings.Builder
		for _, d := range append([]float64{s.Width}, s.Dash...) {
			b.WriteString(trimFigure(d*100) + " ")
		}
		return b.String()
	}
	seen := map[string]bool{}
	for i, s := range lines {
		if seen[look(s)] || s.Colour != drawing.Black {
			t.Errorf("line %d looks like another", i)
		}
		seen[look(s)] = true
	}
}

// A chart and a joint detail stay within their boxes at any width, and their
// lettering apart.
func TestChartStaysInItsBox(t *testing.T) {
	p := samplePlan(t, plane.Inches)
	p.Job.BuildUp = sampleLayers()
	blocks := append(jointDetailOf(p), chart{head: "A chart of something", across: "hours", up: "°C, mean of the surface", curves: []curve{
		{"one", []drawing.Pt{{X: 0, Y: 20}, {X: 2, Y: 26}, {X: 4, Y: 27.3}}}, {"two", []drawing.Pt{{X: 0, Y: 20}, {X: 4, Y: 23}}},
	}, limits: []limitLine{{"a limit that has a long name", 29}}})
	for _, w := range []float64{64, 90, 118, 180} {
		for _, b := range blocks {
			pg := newPage(p, drawing.Paper{Name: "A3", W: 420, H: 297})
			h := b.height(pg.ty, w)
			at := drawing.Pt{X: 50, Y: 50}
			b.set(pg, at, w)
			pg.sheet.ID = "chart"
			box := drawing.Box{X0: at.X - 0.5, Y0: at.Y - 0.5, X1: at.X + w + 0.5, Y1: at.Y + h + 0.5}
			for _, it := range pg.sheet.Items {
				if !box.Contains(drawing.BoxOfItem(it)) {
					t.Errorf("%T, %g wide: %s reaches to %.1f of %.1f", b, w, describe(it), drawing.BoxOfItem(it), box)
				}
			}
			checkLettering(t, pg.sheet)
		}
	}
}
