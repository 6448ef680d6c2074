package photo

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"oxturn/layout/plane"
)

// TestSlipsThatTheMapBendsToAreFound: of seven or eight points that are exact one is misread by 500 mm. The map,
// with the lens above all, bends to some of these so far that no residual is large (masking, as of outliers in any
// least squares: P. Rousseeuw, A. Leroy, Robust regression and outlier detection, 1987): each is found, by as much.
func TestSlipsThatTheMapBendsToAreFound(t *testing.T) {
	bent := 0
	for n := maskedPairs; n <= len(moreFloor); n++ {
		for i := range n {
			for _, by := range []plane.Point{{X: -300, Y: 400}, {X: 500}, {Y: -500}, {X: -400, Y: 300}} {
				pairs := seenBy(slanted, moreFloor[:n]...)
				pairs[i].Floor = pairs[i].Floor.Add(by)
				if fitted(pictureSize, pairs).sound() {
					bent++
				}
				_, err := FitTo(pictureSize, pairs)
				var f *Fault
				if !errors.As(err, &f) || f.Trouble != Astray || f.Points[0] != i || math.Abs(f.By-500) > 1 {
					t.Errorf("point %d of %d off by %v: %v", i, n, by, err)
				}
			}
		}
	}
	if bent < 4 {
		t.Errorf("the map bends to %d of them only: nothing is shown", bent)
	}
}

// TestHonestPointsAreTaken: points that are read to a few pixels are never taken for slips.
func TestHonestPointsAreTaken(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	for n := leftOver; n <= len(moreFloor); n++ {
		for range 300 {
			pairs := seenBy(slanted, moreFloor[:n]...)
			for i := range pairs {
				pairs[i].Image.X += 3 * r.NormFloat64()
				pairs[i].Image.Y += 3 * r.NormFloat64()
			}
			if _, err := FitTo(pictureSize, pairs); err != nil {
				t.Fatalf("%d points read to 3 px: %v", n, err)
			}
		}
	}
}
