package heat

import "math"

// A balance is the floor averaged along its width: sideways flow then cancels,
// and what is left is two resistances, exactly.
type balance struct {
	surface  float64 // mean surface rise, K
	plane    float64 // mean rise at the cable's depth, K
	up, down float64 // W/m²
}

// MeanRise is the mean rise of the surface once it has settled with the cable on, K.
func (s Section) MeanRise() float64 { return s.balanced(s.Flux()).surface }

// halvings halve any interval to nothing.
const halvings = 200

// balanced returns the mean state with q W/m² given off at the cable's depth.
// The heat given up grows with the surface's rise and the heat left for it
// falls, so the one rise where both agree is found by halving.
func (s Section) balanced(q float64) balance {
	above, below := s.resistanceBetween(0, s.Depth), s.resistanceBelow()
	at := func(surface float64) balance {
		up := s.Top.Flux(surface)
		plane := surface + up*above
		down := 0.0
		if !math.IsInf(below, 1) {
			down = (plane - s.Below.Rise) / below
		}
		return balance{surface, plane, up, down}
	}
	low := math.Min(0, s.Below.Rise)
	high := math.Max(0, s.Below.Rise) + s.Top.Rise(q)
	for range halvings {
		mid := (low + high) / 2
		if b := at(mid); b.up+b.down < q {
			low = mid
		} else {
			high = mid
		}
	}
	return at((low + high) / 2)
}
