package sheets

import (
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout/plane"
)

// A chart and a joint detail stay within their boxes at any width, and their
// lettering apart.
func TestChartStaysInItsBox(t *testing.T) {
	p := samplePlan(t, plane.Inches)
	p.Job.BuildUp = sampleLayers()
	blocks := append(detailBlocks(p, nil, ofSection), setting.Chart{Head: "A chart of something", Across: "hours",
		Up: "°C, mean of the surface", Curves: []setting.Curve{
			{Name: "one", Pts: []drawing.Pt{{X: 0, Y: 20}, {X: 2, Y: 26}, {X: 4, Y: 27.3}}},
			{Name: "two", Pts: []drawing.Pt{{X: 0, Y: 20}, {X: 4, Y: 23}}},
		}, Limits: []setting.LimitLine{{Name: "a limit that has a long name", At: 29}}})
	for _, w := range []float64{64, 90, 118, 180} {
		for _, b := range blocks {
			pg := setting.NewPage(p, drawing.Paper{Name: "A3", W: 420, H: 297})
			h := b.Height(pg.Ty, w)
			at := drawing.Pt{X: 50, Y: 50}
			b.Set(pg, at, w)
			pg.Sheet.ID = "chart"
			box := drawing.Box{X0: at.X - 0.5, Y0: at.Y - 0.5, X1: at.X + w + 0.5, Y1: at.Y + h + 0.5}
			for _, it := range pg.Sheet.Items {
				if !box.Contains(drawing.BoxOfItem(it)) {
					t.Errorf("%T, %g wide: %s reaches to %.1f of %.1f", b, w, describe(it), drawing.BoxOfItem(it), box)
				}
			}
			checkLettering(t, pg.Sheet)
		}
	}
}
