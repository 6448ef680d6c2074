package sheets

import (
	"math"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/layout/plane"
)

// TestClearancesAreFigured: on the plans that cable is laid by, the white before walls and before fixtures is
// dimensioned, each once: the line is as long as the clearance at the sheet's scale, and its figure stands beside it.
func TestClearancesAreFigured(t *testing.T) {
	for _, c := range []struct {
		name, id string
		mm       []float64
	}{{"bath on letter", "field-sheet", []float64{75, 50}}, {"kitchen on A4", "field-sheet", []float64{75, 50}},
		{"kitchen", "setting-out", []float64{75, 50}}} {
		d := example(t, c.name)
		f := d.plan.Job.Figures().Fine()
		for _, s := range d.set {
			if !strings.HasPrefix(s.ID, c.id) {
				continue
			}
			found := map[string]int{}
			for _, it := range s.Items {
				p, ok := it.(*drawing.Path)
				if !ok || p.Title != "clearance" {
					continue
				}
				line := drawing.Flatten(p.Segs, 0.1)[0]
				for _, mm := range c.mm {
					if math.Abs(line[0].Dist(line[1])*s.Ratio-mm) < 1 {
						found[f.Length(mm)]++
						beside(t, s, f.Length(mm), line)
					}
				}
			}
			for _, mm := range c.mm {
				if found[f.Length(mm)] != 1 {
					t.Errorf("%s: %s is figured %d times", c.name, f.Length(mm), found[f.Length(mm)])
				}
			}
		}
	}
}

// beside asks for a figure within 8 mm of a line.
func beside(t *testing.T, s *drawing.Sheet, figure string, line []drawing.Pt) {
	t.Helper()
	for _, x := range s.Texts() {
		c := x.Box().Centre()
		if x.Text == figure && min(c.Dist(line[0]), c.Dist(line[1])) < 8 {
			return
		}
	}
	t.Errorf("%s: no %s beside its line at %v", s.ID, figure, line)
}

// TestNoClearanceOfNothing: where nothing is heated, nothing keeps clear of walls.
func TestNoClearanceOfNothing(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	p.Rooms[0].Heated = nil
	set, err := Set(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range set {
		for _, it := range s.Items {
			if q, ok := it.(*drawing.Path); ok && q.Title == "clearance" {
				t.Errorf("%s: figured though nothing is heated", s.ID)
			}
		}
	}
}
