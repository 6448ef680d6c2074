package heat

import (
	"math"
	"slices"
)

// atCable returns the rise at the cable's surface, its mean and its hottest point, K, from
// the floor's mean state.
//
// The field round the cable is that of a row of line sources in a body of conductivity k
// and what the layers add to it, which is smooth: its mean round the cable is its value in
// the middle. It is summed exactly, as a Fourier series along the floor whose terms meet
// the layers above and below through their admittances, and the row's own taken off
// (Carslaw & Jaeger, Conduction of Heat in Solids):
//
//	sum e^(-2 pi n z/s)/n = -ln(1 - e^(-2 pi z/s))
//
// straight above and below a source, and about -ln(2 pi r/s) round it. k is the mean of the
// conductivities above and below. The hottest point is the topmost or the lowest. A layer
// that ends within the cable's radius is read at its face.
func (s Section) atCable(film float64, b balance) (mean, hottest float64) {
	up, down := s.layersBetween(0, s.Depth), s.layersBetween(s.Depth, s.Thickness())
	slices.Reverse(up) // from the cable outwards, both
	above, under := s.beside(up, film, b.up), s.beside(down, s.Below.admittance(), b.down)
	k := (above.Conductivity + under.Conductivity) / 2
	strength, first := s.WattsPerMetre/(2*math.Pi*k), 2*math.Pi/(s.Spacing/1000)
	mean = b.plane - strength*math.Log(first*s.Diameter/2000)
	top, foot := b.plane-above.falls, b.plane-under.falls
	top -= strength * math.Log(-math.Expm1(-first*above.reach))
	foot -= strength * math.Log(-math.Expm1(-first*under.reach))
	for n := 1; n <= mostTerms; n++ {
		wave, row := first*float64(n), strength/float64(n)
		t := 2 * s.Flux() / (above.into(wave) + under.into(wave))
		mean += t - row
		top += t*above.left(wave) - row*math.Exp(-wave*above.reach)
		foot += t*under.left(wave) - row*math.Exp(-wave*under.reach)
		if wave*min(above.Thickness, under.Thickness)/1000 > settledTerm {
			break
		}
	}
	return mean, max(mean, top, foot)
}

// The series at the cable ends where its terms have fallen by e^-settled at the least, or
// with so many of them: a layer that ends a hundredth of a millimetre off the cable's middle.
const (
	settledTerm = 24.0
	mostTerms   = 20000
)

// A side is the layer that the cable lies in, above or below it, and what is behind.
type side struct {
	Layer
	behind  []Layer
	outside float64 // W/(m² K), behind all of them
	reach   float64 // m from the cable's middle to its top or foot
	falls   float64 // K from the middle to there, of the mean
}

func (s Section) beside(layers []Layer, outside, flux float64) side {
	reach := min(s.Diameter/2, layers[0].Thickness) / 1000
	return side{layers[0], layers[1:], outside, reach, flux * reach / layers[0].Conductivity}
}

// into is the flux into the side of a temperature that goes as cos(wave x), W/m² a K.
func (d side) into(wave float64) float64 {
	return admittance(append([]Layer{d.Layer}, d.behind...), d.outside, wave)
}

// left is the share of such a temperature that is left at the cable's top or foot.
func (d side) left(wave float64) float64 {
	kw, thick, back := d.Conductivity*wave, d.Thickness/1000, -1.0 // held at one temperature
	if y := admittance(d.behind, d.outside, wave); !math.IsInf(y, 1) {
		back = (kw - y) / (kw + y)
	}
	return (math.Exp(-wave*d.reach) + back*math.Exp(-wave*(2*thick-d.reach))) / (1 + back*math.Exp(-2*wave*thick))
}

// admittance is the flux, W/m² a K, into layers from the first one's face, of a
// temperature that goes as cos(wave x), with a coefficient behind the last.
func admittance(layers []Layer, outside, wave float64) float64 {
	y := outside
	for _, l := range slices.Backward(layers) {
		kw, th := l.Conductivity*wave, math.Tanh(wave*l.Thickness/1000)
		if math.IsInf(y, 1) {
			y = kw / th
			continue
		}
		y = kw * (y + kw*th) / (kw + y*th)
	}
	return y
}

// admittance of what lies below, W/(m² K): nothing passes an insulated face, and ground
// is held at one temperature.
func (b Below) admittance() float64 {
	switch b.Kind {
	case FilmBelow, SoilBelow:
		return b.Coefficient
	case Ground:
		return math.Inf(1)
	}
	return 0
}
