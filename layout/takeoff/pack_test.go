package takeoff

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestWholePacks(t *testing.T) {
	for _, c := range []struct {
		gross, pack float64
		want        int
	}{
		{22.3, 14.5, 2}, {29, 14.5, 2}, {29.01, 14.5, 3}, {0, 14.5, 0}, {0.001, 14.5, 1},
		{0.3, 0.1, 3}, {10, 0, 0}, {math.NaN(), 1, 0}, {-1, 1, 0}, {1, math.Inf(1), 0}, {1e11, 1e-3, 0},
	} {
		if got := WholePacks(c.gross, c.pack); got != c.want {
			t.Errorf("%g in packs of %g: %d, want %d", c.gross, c.pack, got, c.want)
		}
	}
}

func TestPacksHoldAndNoneIsIdle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gross, pack := rapid.Float64Range(0.01, 1e5).Draw(t, "gross"), rapid.Float64Range(0.01, 1e3).Draw(t, "pack")
		n := float64(WholePacks(gross, pack))
		if slack := 2e-9 * pack; n*pack < gross-slack || (n-1)*pack >= gross+slack {
			t.Fatalf("%g packs of %g for %g", n, pack, gross)
		}
	})
}
