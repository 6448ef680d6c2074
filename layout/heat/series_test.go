package heat

import "math"

// series is the exact solution the cell method is held against: the layered
// slab with a row of line sources, by Fourier series in x (Carslaw & Jaeger,
// Conduction of Heat in Solids, 2nd ed.; the same series, programmed apart from
// this package, gave the tables in the tests). The film must be a coefficient.
type series struct {
	section          Section
	top, plane, foot []float64 // amplitudes of cos(2 pi n x/s)
}

const modes = 400

func newSeries(s Section) series {
	out := series{section: s}
	spacing := s.Spacing / 1000
	up, down := s.layersBetween(0, s.Depth), s.layersBetween(s.Depth, s.Thickness())
	for i, j := 0, len(up)-1; i < j; i, j = i+1, j-1 {
		up[i], up[j] = up[j], up[i]
	}
	below := map[BelowKind]float64{Insulated: 0, FilmBelow: s.Below.Coefficient, SoilBelow: s.Below.Coefficient,
		Ground: 1e12}[s.Below.Kind]
	for n := 0; n <= modes; n++ {
		q := s.WattsPerMetre / spacing
		if n > 0 {
			q *= 2
		}
		lambda := 2 * math.Pi * float64(n) / spacing
		yu, pu := walked(up, s.Top.Coefficient, lambda)
		yd, pd := walked(down, below, lambda)
		t := q / (yu + yd)
		out.top = append(out.top, t*pu)
		out.plane = append(out.plane, t)
		out.foot = append(out.foot, t*pd)
	}
	return out
}

// walked goes from outside in through layers given from the source
// outwards; passed is the outer amplitude over the inner one.
func walked(layers []Layer, outside, lambda float64) (y, passed float64) {
	y, passed = outside, 1
	for i := len(layers) - 1; i >= 0; i-- {
		k, t := layers[i].Conductivity, layers[i].Thickness/1000
		if lambda == 0 {
			if y == 0 {
				continue
			}
			in := 1 / (1/y + t/k)
			passed *= in / y
			y = in
			continue
		}
		kl, th := k*lambda, math.Tanh(lambda*t)
		passed /= math.Cosh(lambda*t) + y/kl*math.Sinh(lambda*t)
		y = kl * (y + kl*th) / (kl + y*th)
	}
	return y, passed
}

// at sums a series at x mm from a cable.
func (s series) at(amplitudes []float64, x float64) float64 {
	sum := 0.0
	for n, a := range amplitudes {
		sum += a * math.Cos(2*math.Pi*float64(n)*x/s.section.Spacing)
	}
	return sum
}
