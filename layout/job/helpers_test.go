package job

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"oxturn/layout/plane"
)

// approx compares figures to a millionth.
var approx = cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= 1e-6 })

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within || math.IsNaN(got) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, within)
	}
}

func samePoints(t *testing.T, what string, got, want []plane.Point) {
	t.Helper()
	if d := cmp.Diff(want, got, approx); d != "" {
		t.Errorf("%s (-want +got):\n%s", what, d)
	}
}
