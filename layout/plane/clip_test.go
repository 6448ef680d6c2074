package plane

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/skip"
)

// A rectangle cut along a line leaves what is on the line's left, worked out by hand.
func TestClip(t *testing.T) {
	box := Rectangle(Pt(0, 0), Pt(4, 2))
	for _, c := range []struct {
		cut  Segment
		area float64
	}{
		{Segment{Pt(1, 5), Pt(1, -5)}, 6}, // going south: its left is the east
		{Segment{Pt(1, -5), Pt(1, 5)}, 2},
		{Segment{Pt(0, 0), Pt(4, 2)}, 4},
		{Segment{Pt(0, 3), Pt(1, 3)}, 0},
		{Segment{Pt(0, -1), Pt(1, -1)}, 8},
	} {
		if got := box.Clip(c.cut.Left); math.Abs(got.Area()-c.area) > 1e-12 {
			t.Errorf("left of %v: %v, want %g mm²", c.cut, got, c.area)
		}
	}
	ell := Ring{{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 3}, {0, 3}}
	if got := ell.Clip(func(p Point) float64 { return p.Y - 2 }); math.Abs(got.Area()-1) > 1e-12 {
		t.Errorf("an L above its bend: %v", got)
	}
	if got := (Ring{}).Clip(Segment{Pt(0, 0), Pt(1, 0)}.Left); got != nil {
		t.Errorf("nothing cut: %v", got)
	}
}

// Whatever the line, both sides together are the whole, and none reaches over it.
func TestClipLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-50, 50)
		point := func(name string) Point { return Pt(at.Draw(t, name+" x"), at.Draw(t, name+" y")) }
		ring := Ring{point("a"), point("b"), point("c")}
		cut := Segment{point("from"), point("to")}
		if cut.Length() < 1 {
			skip.Test(t, skip.OtherCase, "no line")
		}
		left, right := ring.Clip(cut.Left), ring.Clip(Segment{cut.B, cut.A}.Left)
		if sum := left.Area() + right.Area(); math.Abs(sum-ring.Area()) > 1e-6*(1+ring.Area()) {
			t.Errorf("%v and %v of %v", left, right, ring)
		}
		for _, p := range left {
			if cut.Left(p) < -1e-6*cut.Length()*(1+p.Norm()) {
				t.Errorf("%v is to the right of %v", p, cut)
			}
		}
	})
}
