package build

import (
	"math"
	"testing"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// A joint across a floor of 3 m with an island of 1 m in its way lies on tile
// for 2 m.
func TestJointIsMeasuredOnTile(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)))
	tiled, err := floor.Less(plane.FromRing(plane.Rectangle(plane.Pt(1000, 500), plane.Pt(2000, 1500))))
	if err != nil {
		t.Fatal(err)
	}
	r := layout.Room{Tiled: tiled}
	for _, c := range []struct {
		a, b plane.Point
		want float64
	}{
		{plane.Pt(0, 1000), plane.Pt(3000, 1000), 2000},
		{plane.Pt(-200, 1000), plane.Pt(800, 1000), 800},
		{plane.Pt(0, 200), plane.Pt(3000, 200), 3000},
		{plane.Pt(1200, 1000), plane.Pt(1800, 1000), 0},
	} {
		if got := onTile(&r, plane.Segment{A: c.a, B: c.b}); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%v to %v: %.1f, want %.1f", c.a, c.b, got, c.want)
		}
	}
}
