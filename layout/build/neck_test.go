package build

import (
	"math"
	"testing"

	"oxturn/layout/plane"
)

// dumbbell is two fields of 1 m by 1 m with a way of 300 mm between them, so
// many mm wide.
func dumbbell(width float64) plane.Region {
	lo, hi := 500-width/2, 500+width/2
	return plane.FromRing(plane.Ring{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: lo}, {X: 1300, Y: lo}, {X: 1300, Y: 0},
		{X: 2300, Y: 0}, {X: 2300, Y: 1000}, {X: 1300, Y: 1000}, {X: 1300, Y: hi}, {X: 1000, Y: hi}, {X: 1000, Y: 1000},
		{X: 0, Y: 1000}})
}

func TestNeckIsAsWideAsItWasDrawn(t *testing.T) {
	home, spot := plane.Pt(300, 400), plane.Pt(2290, 990)
	for _, width := range []float64{3, 20, 41.5, 59} {
		n, narrow := neckTo(dumbbell(width), home, spot, 60)
		if n == nil || narrow || math.Abs(n.width-width) > 0.5 {
			t.Fatalf("%g mm: %v, %v", width, n, narrow)
		}
		if n.at.X < 990 || n.at.X > 1310 || math.Abs(n.at.Y-500) > 31 {
			t.Errorf("%g mm: at %v", width, n.at)
		}
	}
	if n, narrow := neckTo(dumbbell(61), home, spot, 60); n != nil || narrow {
		t.Errorf("61 mm are enough: %v, %v", n, narrow)
	}
	if n, narrow := neckTo(dumbbell(40), home, plane.Pt(1150, 500), 20); n != nil || narrow {
		t.Errorf("a spot in a way that is wide enough: %v, %v", n, narrow)
	}
	blind, err := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000))).Less(
		plane.FromRing(plane.Rectangle(plane.Pt(700, -1), plane.Pt(1001, 940))))
	if err != nil {
		t.Fatal(err)
	}
	if n, narrow := neckTo(blind, home, plane.Pt(990, 970), 80); n != nil || !narrow {
		t.Errorf("a blind way of 60 mm: %v, %v", n, narrow)
	}
}
