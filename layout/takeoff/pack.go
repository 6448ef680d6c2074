package takeoff

import (
	"math"

	"oxturn/layout/plane"
)

// narrowestPiece is the narrowest floor in mm that a piece is cut for.
const narrowestPiece = 1.0

// beyondUse is no quantity of a job.
const beyondUse = 1e12

// usable reports whether v is an ordinary figure, zero or more, and small
// enough to be bought.
func usable(v float64) bool { return v >= 0 && v < beyondUse }

// sumsRounded parts of a unit: sums are rounded to one, so that 3 x 0.1 is 0.3.
const sumsRounded = 1e9

// snap rounds away what floating point adds to a figure, so that 10 m² of
// floor does not ask for an eleventh pack.
func snap(v float64) float64 { return math.Round(v*sumsRounded) / sumsRounded }

// mostPacks packs are no order.
const mostPacks = 1e9

// WholePacks returns the number of packs of a size that hold gross; 0 when
// pack is 0 or a figure is not usable.
func WholePacks(gross, pack float64) int {
	if !usable(gross) || !usable(pack) || pack == 0 || gross/pack > mostPacks {
		return 0
	}
	return int(math.Ceil(gross/pack - plane.Whit))
}
