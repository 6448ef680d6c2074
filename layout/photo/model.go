package photo

import "math"

// A model is the map in its own units.
type model struct {
	h [8]float64
	k float64
}

// A spot is a place of the floor as a model sees it.
type spot struct {
	x, y, w float64
	a, b    float64 // without the lens
	u, v    float64 // with it
	stretch float64 // 1 + 3 k r²: how a step away from the middle is stretched there
}

// dot sums the products of its arguments two by two, each rounded, so that machines that
// multiply and add in one step give the same bits.
func dot(pairs ...float64) float64 {
	sum := 0.0
	for i := 0; i+1 < len(pairs); i += 2 {
		sum += float64(pairs[i] * pairs[i+1])
	}
	return sum
}

func (m *model) at(x, y float64) spot {
	h := &m.h
	s := spot{x: x, y: y, w: float64(h[6]*x) + float64(h[7]*y) + 1}
	s.a = (float64(h[0]*x) + float64(h[1]*y) + h[2]) / s.w
	s.b = (float64(h[3]*x) + float64(h[4]*y) + h[5]) / s.w
	rr := float64(s.a*s.a) + float64(s.b*s.b)
	bent := 1 + float64(m.k*rr)
	s.u, s.v, s.stretch = s.a*bent, s.b*bent, 1+float64(3*float64(m.k*rr))
	return s
}

// leastFront is how near the horizon a place is still told, as a share of the depth of the
// middle of the known points.
const leastFront = 1e-3

// front reports whether the camera has a place before it, where the lens does not fold.
func (s spot) front() bool { return s.w > leastFront && s.stretch > 0 }

// lensSlopes are the slopes of u and v by a and b.
func (s spot) lensSlopes(m *model) [2][2]float64 {
	bent := 1 + dot(m.k, dot(s.a, s.a, s.b, s.b))
	cross := 2 * m.k * s.a * s.b
	return [2][2]float64{{bent + dot(2*m.k, s.a*s.a), cross}, {cross, bent + dot(2*m.k, s.b*s.b)}}
}

// floorSlopes are the slopes of u and v by x and y.
func (s spot) floorSlopes(m *model) (out [2][2]float64) {
	plain := [2][2]float64{
		{(m.h[0] - dot(s.a, m.h[6])) / s.w, (m.h[1] - dot(s.a, m.h[7])) / s.w},
		{(m.h[3] - dot(s.b, m.h[6])) / s.w, (m.h[4] - dot(s.b, m.h[7])) / s.w},
	}
	lens := s.lensSlopes(m)
	for i := range out {
		for k := range out[i] {
			out[i][k] = dot(lens[i][0], plain[0][k], lens[i][1], plain[1][k])
		}
	}
	return out
}

// ownSlopes are the slopes of u and v by the model's parameters, so many of them: 8, or 9
// with the lens.
func (s spot) ownSlopes(m *model, n int) (du, dv []float64) {
	x, y, one := s.x/s.w, s.y/s.w, 1/s.w
	da := [8]float64{x, y, one, 0, 0, 0, -s.a * x, -s.a * y}
	db := [8]float64{0, 0, 0, x, y, one, -s.b * x, -s.b * y}
	lens := s.lensSlopes(m)
	du, dv = make([]float64, n), make([]float64, n)
	for i := range da {
		du[i] = dot(lens[0][0], da[i], lens[0][1], db[i])
		dv[i] = dot(lens[1][0], da[i], lens[1][1], db[i])
	}
	if n > len(da) {
		rr := dot(s.a, s.a, s.b, s.b)
		du[8], dv[8] = s.a*rr, s.b*rr
	}
	return du, dv
}

// back returns the place that is seen at u, v.
func (m *model) back(u, v float64) (x, y float64, ok bool) {
	a, b, ok := m.straight(u, v)
	if !ok {
		return 0, 0, false
	}
	h := &m.h
	// two lines of the place: (h0 - a h6) x + (h1 - a h7) y = a - h2, and the like of b
	p, q, r := h[0]-float64(a*h[6]), h[1]-float64(a*h[7]), a-h[2]
	s, t, w := h[3]-float64(b*h[6]), h[4]-float64(b*h[7]), b-h[5]
	det := float64(p*t) - float64(q*s)
	if det == 0 {
		return 0, 0, false
	}
	x, y = (float64(r*t)-float64(q*w))/det, (float64(p*w)-float64(r*s))/det
	return x, y, float64(h[6]*x)+float64(h[7]*y)+1 > leastFront
}

// straight takes the lens out of u, v: r (1 + k r²) is the radius there.
func (m *model) straight(u, v float64) (a, b float64, ok bool) {
	far := math.Sqrt(float64(u*u) + float64(v*v))
	if m.k == 0 || far == 0 {
		return u, v, true
	}
	r := far
	for range 30 {
		slope := 1 + float64(3*float64(m.k*float64(r*r)))
		if slope <= 0 {
			return 0, 0, false
		}
		step := (r + float64(m.k*float64(r*float64(r*r))) - far) / slope
		r -= step
		if math.Abs(step) < 1e-14 {
			break
		}
	}
	if 1+float64(3*float64(m.k*float64(r*r))) <= 0 {
		return 0, 0, false
	}
	return u * r / far, v * r / far, true
}
