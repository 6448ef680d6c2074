package symbols

import (
	"math"
	"strings"
	"testing"

	"oxturn/drawing"
)

// What is drawn is what was encoded: as much ink as dark modules, in their box.
func TestCodeIsDrawnAsItIs(t *testing.T) {
	rows, err := CodeRows("OXTURN FLOOR 1")
	if err != nil {
		t.Fatal(err)
	}
	p := Code(drawing.Pt{X: 10, Y: 20}, rows, 0.5, "code").(*drawing.Path)
	dark := 0
	for _, row := range rows {
		for _, on := range row {
			if on {
				dark++
			}
		}
	}
	area := 0.0
	var pts []drawing.Pt
	for i := range p.Segs {
		if p.Segs[i].Op != drawing.Close {
			pts = append(pts, p.Segs[i].To)
		}
	}
	for i := 0; i+3 < len(p.Segs); i++ {
		if p.Segs[i].Op == drawing.Move {
			b := drawing.BoxOf(p.Segs[i].To, p.Segs[i+1].To, p.Segs[i+2].To, p.Segs[i+3].To)
			area += b.W() * b.H()
		}
	}
	if want := float64(dark) * 0.25; math.Abs(area-want) > 1e-6 {
		t.Errorf("%.3f mm² are inked, want %.3f", area, want)
	}
	if n := float64(len(rows)); math.Abs(drawing.BoxOf(pts...).W()-n/2) > 0.51 {
		t.Errorf("it is %v wide", drawing.BoxOf(pts...).W())
	}
}

func TestTooLongForACode(t *testing.T) {
	if _, err := CodeRows(strings.Repeat("x", 3000)); err == nil {
		t.Error("3000 letters are no code")
	}
}
