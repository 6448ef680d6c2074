package heat

import (
	"testing"

	"pgregory.net/rapid"
)

// EN 1264-2 basic characteristic, tabled from its formula independently.
func TestCharacteristic(t *testing.T) {
	for _, c := range []struct{ rise, q float64 }{
		{1, 8.920}, {2, 19.120}, {3, 29.867}, {4, 40.986}, {5, 52.388}, {6, 64.022}, {7, 75.853},
		{8, 87.854}, {9, 100.007}, {10, 112.296}, {12, 137.235}, {15, 175.414},
	} {
		near(t, "flux", Film{}.Flux(c.rise), c.q, 5e-4)
		near(t, "rise", Film{}.Rise(c.q), c.rise, 5e-5)
	}
}

// 9 K and 15 K are the standard's comfort limits, spoken of as 100 and
// 175 W/m² (EN 1264, rounded).
func TestCharacteristicAtTheLimits(t *testing.T) {
	near(t, "occupied floor", Film{}.Flux(9), 100, 0.5)
	near(t, "edge zone", Film{}.Flux(15), 175, 0.5)
}

func TestFilmRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Film{Coefficient: rapid.SampledFrom([]float64{0, 5.88, 10.8}).Draw(t, "film")}
		rise := rapid.Float64Range(-40, 80).Draw(t, "rise")
		if got := f.Rise(f.Flux(rise)); got-rise > 1e-9 || rise-got > 1e-9 {
			t.Fatalf("%g came back as %g", rise, got)
		}
		if q := f.At(rise) * rise; q-f.Flux(rise) > 1e-6 || f.Flux(rise)-q > 1e-6 {
			t.Fatalf("coefficient times rise is %g, flux %g", q, f.Flux(rise))
		}
	})
}
