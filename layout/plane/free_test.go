package plane

import (
	"slices"
	"testing"
)

// Counted on a line of 1000 by hand.
func TestFree(t *testing.T) {
	for _, c := range []struct{ taken, want [][2]float64 }{
		{nil, [][2]float64{{0, 1000}}},
		{[][2]float64{{900, 1200}, {100, 300}, {200, 350}}, [][2]float64{{0, 100}, {350, 900}}},
		{[][2]float64{{-50, 20}, {1000, 1100}}, [][2]float64{{20, 1000}}},
		{[][2]float64{{1200, 1300}}, [][2]float64{{0, 1000}}},
		{[][2]float64{{100, 900}, {200, 300}}, [][2]float64{{0, 100}, {900, 1000}}},
		{[][2]float64{{0, 1000}}, nil},
	} {
		if got := Free(1000, c.taken); !slices.Equal(got, c.want) {
			t.Errorf("%v taken leave %v, want %v", c.taken, got, c.want)
		}
	}
}
