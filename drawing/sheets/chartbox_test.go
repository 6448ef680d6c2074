package sheets

import (
	"testing"

	"oxturn/drawing"
	"oxturn/layout/plane"
)

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
