package drawing

import (
	"math"
	"testing"
)

// TestWithin: what is left of items in a box, worked out by hand: half of a square, a line
// from side to side, lettering that is wholly inside.
func TestWithin(t *testing.T) {
	b := Box{X1: 10, Y1: 10}
	square := Rectangle(Box{X0: 5, Y0: 2, X1: 15, Y1: 6})
	items := []Item{
		&Path{Title: "both", Segs: square, Stroke: ThinLine(), Fill: Filled(Black)},
		&Path{Title: "line", Segs: Polyline(Pt{X: -5, Y: 5}, Pt{X: 5, Y: 5}, Pt{X: 5, Y: 20}), Stroke: ThinLine()},
		&Path{Title: "inside", Segs: Circle(Pt{X: 5, Y: 5}, 2), Stroke: ThinLine()},
		&Path{Title: "outside", Segs: Circle(Pt{X: 50, Y: 5}, 2), Stroke: ThinLine()},
		&Text{Text: "in", At: Pt{X: 2, Y: 8}, Height: H25}, &Text{Text: "across", At: Pt{X: 8, Y: 8}, Height: H25},
	}
	area, length, titles := 0.0, map[string]float64{}, map[string]int{}
	for _, it := range Within(items, b) {
		switch it := it.(type) {
		case *Text:
			titles[it.Text]++
		case *Path:
			titles[it.Title]++
			for _, l := range Flatten(it.Segs, 0.01) {
				for i := 1; i < len(l); i++ {
					if it.Fill != nil {
						area += l[i-1].Cross(l[i]) / 2
					} else {
						length[it.Title] += l[i-1].Dist(l[i])
					}
				}
			}
		}
	}
	if math.Abs(math.Abs(area)-20) > 1e-9 || math.Abs(length["both"]-14) > 1e-9 || math.Abs(length["line"]-10) > 1e-9 {
		t.Errorf("area %v, want 20; lines %v, want 14 and 10", area, length)
	}
	if titles["inside"] != 1 || titles["outside"] != 0 || titles["in"] != 1 || titles["across"] != 0 ||
		titles["both"] != 2 {
		t.Errorf("%v", titles)
	}
}
