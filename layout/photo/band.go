package photo

import "math"

// Bound is the share of places that lie within the error that is stated of them.
const Bound = 0.95

// Error returns how far a place read at a pixel may be off, either way, mm of floor: 95 in
// 100 lie within. It has the reading of this pixel in it, as well done as that of the known
// points, and what these leave open of the map. ok is false where the pixel shows no floor.
//
// Its spread is of first order (A. Criminisi, I. Reid, A. Zisserman, A plane measuring
// device, 1997): J the slopes of the picture by the floor, B those by the parameters, S
// their spread, it is J⁻¹ (1 + B S Bᵀ) J⁻ᵀ sigma². Few residuals make sigma unsure: the
// place then follows Student's distribution in two dimensions.
func (f *Fit) Error(p Pixel) (mm float64, ok bool) {
	at, ok := f.Floor(p)
	if !ok {
		return 0, false
	}
	large, small := f.spreadAt(f.model.at(f.own(at)))
	scale := f.sigma * f.unit
	return radius(large, small, f.Free) * scale, true
}

// chance returns the share of places read at a pixel that would lie farther off than mm, by what Error goes by.
func (f *Fit) chance(p Pixel, mm float64) float64 {
	at, ok := f.Floor(p)
	if !ok {
		return 1
	}
	large, small := f.spreadAt(f.model.at(f.own(at)))
	return beyond(large, small, f.Free, mm/(f.sigma*f.unit))
}

// spreadAt returns the variances of a place along and across the direction in which it is
// settled worst, in squares of sigma.
func (f *Fit) spreadAt(s spot) (large, small float64) {
	du, dv := s.ownSlopes(&f.model, len(f.spread))
	uu, uv, vv := 1+f.form(du, du), f.form(du, dv), 1+f.form(dv, dv)
	j := s.floorSlopes(&f.model)
	det := dot(j[0][0], j[1][1], -j[0][1], j[1][0])
	// the rows of the inverse
	x, y := [2]float64{j[1][1] / det, -j[0][1] / det}, [2]float64{-j[1][0] / det, j[0][0] / det}
	of := func(a, b [2]float64) float64 {
		return dot(a[0]*b[0], uu, a[0]*b[1]+a[1]*b[0], uv, a[1]*b[1], vv)
	}
	return eigen(of(x, x), of(x, y), of(y, y))
}

// form is aᵀ S b.
func (f *Fit) form(a, b []float64) (sum float64) {
	for i := range a {
		for k := range b {
			sum += float64(a[i] * float64(f.spread[i][k]*b[k]))
		}
	}
	return sum
}

// directions is by how many directions a circle's share is added up.
const directions = 16

// beyond returns the share of a place of two variances that lies farther off than r; free is how many residuals
// sigma is from, 0: it is known.
//
// Along a direction in which the variance is q the share beyond r is exp(-r²/2q), or with n
// residuals (1 + r²/nq)^(-n/2).
func beyond(large, small float64, free int, r float64) float64 {
	sum := 0.0
	for k := range directions {
		s, c := math.Sincos(math.Pi * (float64(k) + 0.5) / directions)
		q := dot(large, c*c, math.Max(small, 0), s*s)
		if free == 0 {
			sum += math.Exp(-r * r / (2 * q))
		} else {
			sum += math.Pow(1+r*r/(float64(free)*q), -float64(free)/2)
		}
	}
	return sum / directions
}

// radius returns the radius of the circle that holds Bound of a place of two variances, as beyond has them.
func radius(large, small float64, free int) float64 {
	low, high := 0.0, math.Sqrt(large)
	for beyond(large, small, free, high) > 1-Bound {
		low, high = high, 2*high
	}
	for range 40 {
		if mid := (low + high) / 2; beyond(large, small, free, mid) > 1-Bound {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
