package floorplan

import (
	"math"
	"testing"

	"oxturn/layout/plane"
)

// Two cabinets of 600 by 600 that overlap by 200: the second has 400 by 600 of its own,
// by hand; one that touches the first keeps its corners.
func TestBesideByHand(t *testing.T) {
	box := func(x0, x1 float64) plane.Region {
		return plane.FromRing(plane.Rectangle(plane.Pt(x0, 0), plane.Pt(x1, 600)))
	}
	for _, k := range []struct{ from, to, area float64 }{{400, 1000, 240000}, {600, 1200, 360000}, {0, 600, 0}} {
		if got := beside(box(k.from, k.to), box(0, 600)).Area(); math.Abs(got-k.area) > 1 {
			t.Errorf("from %.0f to %.0f: %.0f mm² beside the first, want %.0f", k.from, k.to, got, k.area)
		}
	}
}
