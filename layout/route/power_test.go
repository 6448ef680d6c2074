package route

import (
	"math"
	"testing"

	"oxturn/layout/plane"
)

// Beside the point 100 mm along a run eastwards: runs that reach there, to the very point, on
// either side, and no nearer than the run's own millimetre.
func TestRunsBesideAPoint(t *testing.T) {
	own, inf := line(0, 0, 300, 0), math.Inf(1)
	for _, c := range []struct {
		name        string
		runs        []plane.Segment
		left, right float64
	}{
		{"none", nil, inf, inf}, {"itself", []plane.Segment{own}, inf, inf},
		{"left", []plane.Segment{line(0, 60, 300, 60)}, 60, inf}, {"right, the other way", []plane.Segment{line(300,
			-70, 0, -70)}, inf, 70},
		{"the nearer", []plane.Segment{line(0, 90, 300, 90), line(0, 60, 300, 60), line(0, 80, 300, 80)}, 60, inf},
		{"from the point on", []plane.Segment{line(100, 60, 300, 60)}, 60, inf}, {"to the point",
			[]plane.Segment{line(0, 60, 100, 60)}, 60, inf},
		{"from just behind it", []plane.Segment{line(100.5, 60, 300, 60)}, inf, inf},
		{"to just before it", []plane.Segment{line(0, 60, 99.5, 60)}, inf, inf},
		{"to just past it", []plane.Segment{line(0, 60, 100.5, 60)}, 60, inf}, {"across", []plane.Segment{line(100,
			60, 100, 300)}, inf, inf},
		{"askew by half a millimetre", []plane.Segment{line(0, 60, 300, 60.5)}, 60, inf}, {"by one",
			[]plane.Segment{line(0, 60, 300, 61)}, 60, inf},
		{"by more", []plane.Segment{line(0, 60, 300, 61.1)}, inf, inf}, {"a millimetre off", []plane.Segment{line(0,
			1, 300, 1)}, inf, inf},
		{"the other side", []plane.Segment{line(0, -1, 300, -1)}, inf, inf}, {"half", []plane.Segment{line(0, 0.5,
			300, 0.5)}, inf, inf},
		{"more", []plane.Segment{line(0, 1.1, 300, 1.1), line(0, -1.2, 300, -1.2)}, 1.1, 1.2},
	} {
		left, right := beside(own, 100, c.runs)
		if left != c.left && math.Abs(left-c.left) > 1e-9 || right != c.right && math.Abs(right-c.right) > 1e-9 {
			t.Errorf("%s: %g and %g, want %g and %g", c.name, left, right, c.left, c.right)
		}
	}
}

func line(x0, y0, x1, y1 float64) plane.Segment {
	return plane.Segment{A: plane.Pt(x0, y0), B: plane.Pt(x1, y1)}
}

// Gaps of 60 mm to either side make 120 together, and half a millimetre is forgiven. Legs up
// to a length are links, and a run is looked at every 200 mm from its first 100 on.
func TestPowerOfThreeRuns(t *testing.T) {
	three := []plane.Segment{line(0, 0, 900, 0), line(0, 60, 900, 60), line(0, 120, 900, 120)}
	for both, want := range map[float64]bool{0: true, 120: true, 120.5: true, 120.6: false, 1000: false} {
		if got := Cool(three, three, both, 240); got != want {
			t.Errorf("%g mm over two gaps: %v", both, got)
		}
	}
	if !Cool(three, three, 1000, 900) || Cool(three, three, 1000, 899) {
		t.Error("legs of 900 mm are links where links go up to that")
	}
	if !Cool(three[:1], three, 1000, 240) || Cool(three[1:2], three, 1000, 240) {
		t.Error("the outer run has a neighbour on one side only")
	}
	own := []plane.Segment{line(0, 0, 300, 0)}
	for from, want := range map[float64]bool{99: false, 101: true, 300: true} {
		all := []plane.Segment{own[0], line(from, 60, 900, 60), line(from, -60, 900, -60)}
		if got := Cool(own, all, 1000, 240); got != want {
			t.Errorf("beside its neighbours from %g mm on: %v", from, got)
		}
	}
	if !Cool(own, []plane.Segment{own[0], line(0, 60, 240, 60), line(0, -60, 240, -60)}, 1000, 240) {
		t.Error("links beside a run are no neighbours")
	}
}
