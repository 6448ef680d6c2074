package takeoff

import (
	"math"

	"oxturn/layout/plane"
)

// narrowestPiece is the narrowest floor in mm that a piece is cut for.
const narrowestPiece = 1.0

// usable reports whether v is an ordinary figure, zero or more, and small
// enough to be bought.
func usable(v float64) bool { return v >= 0 && v < 1e12 }

// snap rounds away what floating point adds to a figure, so that 10 m² of
// floor does not ask for an eleventh pack.
func snap(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// WholePacks returns the number of packs of a size that hold gross; 0 when
// pack is 0 or a figure is not usable.
func WholePacks(gross, pack float64) int {
	if !usable(gross) || !usable(pack) || pack == 0 || gross/pack > 1e9 {
		return 0
	}
	return int(math.Ceil(gross/pack - plane.Whit))
}
