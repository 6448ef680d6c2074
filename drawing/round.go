package drawing

import "math"

// Round gives a number to one part of so many, without a minus before zero.
// What processors differ by is rounded off first, so that a half goes the same
// way on all of them.
func Round(v, parts float64) float64 {
	const noise = 1e9
	return math.Round(math.Round(v*noise)/noise*parts)/parts + 0
}
