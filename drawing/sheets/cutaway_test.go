package sheets

import (
	"math"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
)

// TestTheFloorCutOpen: the picture keeps to its place, shows every layer with its number, and lays
// nothing otherwise than a floor may be laid: the sensor midway between two runs, and nothing
// from the box across the cable.
func TestTheFloorCutOpen(t *testing.T) {
	p := example(t, "bath").plan
	blocks := cutaways(p)
	if len(blocks) != 1 {
		t.Fatalf("%d pictures", len(blocks))
	}
	const wide = 70.0
	pg := setting.NewPage(p, drawing.Paper{W: 200, H: 200})
	at := drawing.Pt{X: 10, Y: 10}
	blocks[0].Set(pg, at, wide)
	room := drawing.Box{X0: at.X, Y0: at.Y, X1: at.X + wide, Y1: at.Y + blocks[0].Height(pg.Ty, wide)}
	runs, all := [][]drawing.Pt(nil), ""
	var others [][]drawing.Pt
	for _, it := range pg.Sheet.Items {
		if b := drawing.BoxOfItem(it); !room.Grow(0.5).Contains(b) {
			t.Errorf("%T at %v reaches out of %v", it, b, room)
		}
		switch it := it.(type) {
		case *drawing.Text:
			all += it.Text + "\n"
		case *drawing.Path:
			switch line := drawing.Flatten(it.Segs, 0.1); {
			case it.Layer == drawing.LayerCable:
				runs = append(runs, line...)
			case it.Layer == drawing.LayerLeads, it.Layer == drawing.LayerSensors && it.Stroke != nil:
				others = append(others, line...)
			}
		}
	}
	for i := range p.Job.BuildUp {
		if n := string(rune('1' + i)); !strings.Contains(all, n+"\n") {
			t.Errorf("layer %s has no number in %q", n, all)
		}
	}
	for _, cable := range runs {
		for _, line := range others {
			for i := 1; i < len(cable); i++ {
				for k := 1; k < len(line); k++ {
					leg := drawing.Straight{A: cable[i-1], B: cable[i]}
					if leg.Crosses(drawing.Straight{A: line[k-1], B: line[k]}) {
						t.Errorf("something crosses the cable at %v", cable[i])
					}
				}
			}
		}
	}
	if a, b := runAt(sensorRun)-runAt(1), runAt(2)-runAt(sensorRun); math.Abs(a-b) > 1e-9 {
		t.Errorf("the sensor lies %g from one run and %g from the other", a, b)
	}
}
