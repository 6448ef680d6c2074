package sheets

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout/say"
)

// Ticks are few, evenly spaced, and cover the range.
func TestAxisCoversItsRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e4, 1e4).Draw(t, "lo")
		hi := lo + rapid.Float64Range(1e-6, 1e4).Draw(t, "length")
		a := setting.AxisFor(lo, hi, 5)
		ticks := a.Ticks()
		if len(ticks) < 2 || len(ticks) > 9 || a.Lo > lo+a.Step*1e-6 || ticks[len(ticks)-1] < hi-a.Step*1e-6 {
			t.Fatalf("%g to %g: %v", lo, hi, ticks)
		}
		seen := map[string]bool{}
		for _, v := range ticks {
			if seen[a.Figure(v)] {
				t.Fatalf("%g to %g: two ticks read %s", lo, hi, a.Figure(v))
			}
			seen[a.Figure(v)] = true
		}
	})
	if a := setting.AxisFor(20, 20, 5); a.Hi <= a.Lo {
		t.Errorf("a range of nothing: %+v", a)
	}
}

// No two curves, nor a curve and a limit, are drawn with the same line: colour
// tells nothing.
func TestCurvesDifferByTheirLines(t *testing.T) {
	var lines []*drawing.Stroke
	for i := range 12 {
		lines = append(lines, setting.CurveLine(i))
	}
	for i := range 3 {
		lines = append(lines, setting.LimitStroke(i))
	}
	look := func(s *drawing.Stroke) string {
		var b strings.Builder
		for _, d := range append([]float64{s.Width}, s.Dash...) {
			b.WriteString(say.TrimFigure(d*100) + " ")
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
