package circuit

import (
	"fmt"
	"math"
)

// WattsPerSquareFoot is 1 W/ft² in W/m².
const WattsPerSquareFoot = 1 / 0.09290304

// WattsPerFoot is 1 W/ft of cable in W/m.
const WattsPerFoot = 1 / 0.3048

// Density returns watts over an area in mm² as W/m².
func Density(watts, area float64) (float64, error) {
	if !usable(watts) || !usable(area) || area == 0 {
		return 0, fmt.Errorf("%g W over %g mm² gives no usable heat per area", watts, area)
	}
	return watts / (area / 1e6), nil
}

// Local returns the heat in W/m² round a run, given the cable's W/m and the
// gaps in mm to its neighbours on either side, infinite for none: over three
// neighbouring runs, that is the run itself and half of each neighbour, on the
// floor between the neighbours, 2 q'/(before + after). A run with one
// neighbour counts as q'/gap; a lone run has no floor of its own and gives 0.
func Local(wattsPerMetre, before, after float64) (float64, error) {
	if !usable(wattsPerMetre) {
		return 0, fmt.Errorf("%g W/m is not a usable figure", wattsPerMetre)
	}
	for _, g := range []float64{before, after} {
		if !(g > 0) {
			return 0, fmt.Errorf("a gap of %g mm is not usable", g)
		}
	}
	switch {
	case math.IsInf(before, 1) && math.IsInf(after, 1):
		return 0, nil
	case math.IsInf(before, 1):
		before = after
	case math.IsInf(after, 1):
		after = before
	}
	const metre = 1000 // mm
	return wattsPerMetre * 2 * metre / (before + after), nil
}
