package job

import (
	"math"
	"testing"

	"oxturn/layout/plane"
)

// A worked traverse of a surveying textbook, J. Mahun, Traverse Computations, E. Adjustment,
// example "traverse with bearings": S 68 05 35 W 472.68 ft, N 19 46 00 W 216.13, N 45 55 20 E
// 276.52, S 54 59 15 E 382.24; its latitudes and departures miss by +0.083 and +0.075 ft, and
// these are they as adjusted by the compass rule.
func TestTraverseOfTheTextbook(t *testing.T) {
	const foot = 12 * plane.Inch
	walls := []string{"248.0930556deg 472.68ft", "340.2333333deg 216.13ft", "45.9222222deg 276.52ft",
		"125.0125deg 382.24ft"}
	adjusted := [][2]float64{{-176.386, -438.574}, {203.382, -73.105}, {192.340, 198.635}, {-219.336, 313.044}}
	rd := &reader{units: plane.Inches}
	var legs []leg
	for _, w := range walls {
		l, err := rd.parseLeg(w)
		if err != nil {
			t.Fatal(err.message)
		}
		legs = append(legs, l)
	}
	ring, gap := layOut(legs)
	// the printed sums are of four figures of three decimals each
	if math.Abs(gap.Y/foot-0.083) > 1e-3 || math.Abs(gap.X/foot-0.075) > 1e-3 {
		t.Errorf("it misses by %.4f north and %.4f east, in ft", gap.Y/foot, gap.X/foot)
	}
	if miss := TapeOf(walls, plane.Inches).Miss / foot; math.Abs(miss-math.Hypot(0.083, 0.075)) > 1.4e-3 {
		t.Errorf("the tape misses by %.4f ft", miss)
	}
	adjust(ring, legs, gap)
	for i, want := range adjusted {
		e := ring.Edge(i)
		way := e.B.Sub(e.A)
		if math.Abs(way.Y/foot-want[0]) > 1.1e-3 || math.Abs(way.X/foot-want[1]) > 1.1e-3 {
			t.Errorf("line %d: latitude %.4f, departure %.4f, printed %v", i, way.Y/foot, way.X/foot, want)
		}
	}
}
