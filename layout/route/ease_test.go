package route

import (
	"math"
	"testing"

	"oxturn/layout/plane"
)

// TestEaseByHand counts a path drawn on squared paper, a square a peg: three runs of 12,
// joined by links of 3; from the last one a jog of 2 to a run of 4.
func TestEaseByHand(t *testing.T) {
	var path []plane.Point
	for _, p := range [][2]float64{{0, 0}, {12, 0}, {12, 3}, {0, 3}, {0, 6}, {12, 6}, {12, 8}, {16, 8}} {
		path = append(path, plane.Pt(50*p[0], 50*p[1]))
	}
	got := EaseOf(path, 50, 4)
	want := Ease{Long: 36.0 / 48, Runs: 4, Short: 1, Jogs: 1, Directions: 1, Block: 3}
	if math.Abs(got.Long-want.Long) > 1e-12 {
		t.Errorf("%.4f of it in long runs, want %.4f", got.Long, want.Long)
	}
	if got.Long = want.Long; got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// TestSpiralHasTwoDirections: runs of a spiral lie both ways, none as long as the last.
func TestSpiralHasTwoDirections(t *testing.T) {
	path := []plane.Point{plane.Pt(0, 0), plane.Pt(30, 0), plane.Pt(30, 30), plane.Pt(2, 30), plane.Pt(2, 4),
		plane.Pt(26, 4)}
	if e := EaseOf(path, 1, 2); e.Directions != 2 || e.Runs != 5 || e.Block != 2 || e.Long != 1 {
		t.Errorf("%+v", e)
	}
}
