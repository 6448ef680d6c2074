package plane

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Held against the standard library: nearer than half a step of 1e-12, and
// always on a step, so that a last bit more or less in the angle or in the
// function does not show.
func TestAnglesAreRounded(t *testing.T) {
	onStep := func(x float64) bool { return x == math.Round(x*1e12)/1e12 }
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-10, 10).Draw(t, "angle")
		sin, cos := Sincos(a)
		if math.Abs(sin-math.Sin(a)) > 0.51e-12 || math.Abs(cos-math.Cos(a)) > 0.51e-12 || !onStep(sin) ||
			!onStep(cos) {
			t.Errorf("%v: %v, %v", a, sin, cos)
		}
		if b := Atan2(sin, cos); math.Abs(math.Remainder(b-a, 2*math.Pi)) > 3e-12 || !onStep(b) {
			t.Errorf("%v: back to %v", a, b)
		}
	})
	for k, want := range [][2]float64{{0, 1}, {1, 0}, {0, -1}, {-1, 0}} { // quarter turns are exact
		if sin, cos := Sincos(float64(k) * math.Pi / 2); sin != want[0] || cos != want[1] {
			t.Errorf("%d quarter turns: %v, %v", k, sin, cos)
		}
	}
	if got := Tan(math.Pi / 4); got != 1 {
		t.Errorf("tangent of 45°: %v", got)
	}
}
