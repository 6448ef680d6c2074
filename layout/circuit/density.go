package circuit

import "fmt"

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

// LocalDensities returns the heat in W/m² round each run, given the cable's
// W/m and the gaps between neighbouring runs in mm, first to last. Each figure
// is over three neighbouring runs: the run itself and half of each neighbour,
// on the floor between the neighbours, 2 q'/(gap before + gap after). The
// first and last run have one neighbour and count as q'/gap. There is one
// figure a run, len(gaps)+1; none when there are no gaps, since a lone run
// has no floor of its own.
func LocalDensities(wattsPerMetre float64, gaps []float64) ([]float64, error) {
	if !usable(wattsPerMetre) {
		return nil, fmt.Errorf("%g W/m is not a usable figure", wattsPerMetre)
	}
	if len(gaps) == 0 {
		return nil, nil
	}
	for i, g := range gaps {
		if !usable(g) || g == 0 {
			return nil, fmt.Errorf("the gap after run %d is %g mm, which is not usable", i+1, g)
		}
	}
	out := make([]float64, len(gaps)+1)
	for i := range out {
		before, after := gaps[max(i-1, 0)], gaps[min(i, len(gaps)-1)]
		out[i] = wattsPerMetre * 2000 / (before + after)
	}
	return out, nil
}

// Densest returns the largest local density in W/m² and the number of its run,
// counted from 1. run is 0 when there are no gaps.
func Densest(wattsPerMetre float64, gaps []float64) (density float64, run int, err error) {
	all, err := LocalDensities(wattsPerMetre, gaps)
	for i, d := range all {
		if d > density {
			density, run = d, i+1
		}
	}
	return density, run, err
}
