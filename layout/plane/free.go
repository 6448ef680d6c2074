package plane

import (
	"cmp"
	"slices"
)

// Free returns what is left of a line of a length where stretches of it are taken, from its
// start to its end; all mm along it. Those taken may lie in any order, on one another and
// past the ends.
func Free(length float64, taken [][2]float64) (out [][2]float64) {
	taken = slices.Clone(taken)
	slices.SortFunc(taken, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	at := 0.0
	for _, t := range taken {
		if from := min(t[0], length); from > at {
			out = append(out, [2]float64{at, from})
		}
		at = max(at, t[1])
	}
	if length > at {
		out = append(out, [2]float64{at, length})
	}
	return out
}
