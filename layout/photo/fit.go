package photo

import (
	"image"
	"math"

	"oxturn/layout/plane"
)

// fitted fits the map to pairs in a picture of a size, whatever comes of it; nil where they
// do not settle one.
func fitted(size image.Point, pairs []Pair) *Fit {
	f := &Fit{Pairs: pairs, size: size, half: math.Sqrt(dot(float64(size.X), float64(size.X), float64(size.Y),
		float64(size.Y))) / 2}
	f.normalise()
	n := len(f.model.h)
	if f.LensKnown = len(pairs) >= LensPairs; f.LensKnown {
		n++
	}
	if !f.begin() || !f.improve(n) {
		return nil
	}
	f.judgeSigma(n)
	return f
}

// normalise puts the floor's known points about their middle, at a mean distance of the
// root of two (R. Hartley, In defense of the eight-point algorithm, 1997).
func (f *Fit) normalise() {
	for _, p := range f.Pairs {
		f.middle = f.middle.Add(p.Floor.Mul(1 / float64(len(f.Pairs))))
	}
	for _, p := range f.Pairs {
		f.unit += p.Floor.Dist(f.middle) / float64(len(f.Pairs)) / math.Sqrt2
	}
	f.unit = math.Max(f.unit, 1e-9)
}

// begin solves the direct linear transformation, h8 being 1: the middle of the points is
// before the camera, so that it is never 0.
func (f *Fit) begin() bool {
	s := newNormals(len(f.model.h))
	for _, p := range f.Pairs {
		x, y := f.own(p.Floor)
		u, v := f.normal(p.Image)
		s.add([]float64{x, y, 1, 0, 0, 0, -u * x, -u * y}, u)
		s.add([]float64{0, 0, 0, x, y, 1, -v * x, -v * y}, v)
	}
	l, ok := factored(s.squares, 0)
	if ok {
		copy(f.model.h[:], solved(l, s.right))
	}
	return ok
}

// Steps of the least squares: damped after Levenberg and Marquardt, until they are small.
const (
	mostSteps  = 60
	firstDamp  = 1e-4
	mostDamp   = 1e8
	smallEnd   = 1e-12
	dampFactor = 10
)

// improve makes the residuals in the picture least, by so many parameters, and keeps how
// far these are settled.
func (f *Fit) improve(n int) bool {
	damp, sum := firstDamp, f.squares(&f.model)
	for range mostSteps {
		s := f.normals(n)
		moved, less := false, 0.0
		for ; damp < mostDamp; damp *= dampFactor {
			l, ok := factored(s.squares, damp)
			if !ok {
				continue
			}
			next := f.model.moved(solved(l, s.right))
			if now := f.squares(&next); now <= sum {
				moved, less = true, sum-now
				f.model, sum = next, now
				break
			}
		}
		if damp = math.Max(damp/dampFactor, 1e-12); !moved || less <= float64(smallEnd*sum) {
			break
		}
	}
	l, ok := factored(f.normals(n).squares, 0)
	if ok {
		f.spread = inverse(l)
	}
	return ok
}

func (m model) moved(by []float64) model {
	for i := range m.h {
		m.h[i] += by[i]
	}
	if len(by) > len(m.h) {
		m.k += by[len(m.h)]
	}
	return m
}

// squares sums the squares of the residuals in the picture.
func (f *Fit) squares(m *model) float64 {
	sum := 0.0
	for _, p := range f.Pairs {
		s := m.at(f.own(p.Floor))
		u, v := f.normal(p.Image)
		sum += dot(u-s.u, u-s.u, v-s.v, v-s.v)
	}
	return sum
}

func (f *Fit) normals(n int) normals {
	out := newNormals(n)
	for _, p := range f.Pairs {
		s := f.model.at(f.own(p.Floor))
		u, v := f.normal(p.Image)
		du, dv := s.ownSlopes(&f.model, n)
		out.add(du, u-s.u)
		out.add(dv, v-s.v)
	}
	return out
}

// judgeSigma finds what the residuals say of a point's accuracy.
func (f *Fit) judgeSigma(n int) {
	f.Lens = f.model.k
	for _, p := range f.Pairs {
		s := f.model.at(f.own(p.Floor))
		f.Off = append(f.Off, p.Image.Sub(f.pixel(s.u, s.v)))
		off := math.Inf(1)
		if at, ok := f.Floor(p.Image); ok {
			off = at.Dist(p.Floor)
		}
		f.OffFloor = append(f.OffFloor, off)
	}
	if f.Free = 2*len(f.Pairs) - n; f.Free == 0 {
		j := f.model.at(0, 0)
		slopes := j.floorSlopes(&f.model)
		f.sigma = assumedSigma / f.unit * math.Sqrt(math.Abs(dot(slopes[0][0], slopes[1][1], -slopes[0][1],
			slopes[1][0])))
		return
	}
	f.sigma = math.Sqrt(f.squares(&f.model) / float64(f.Free))
	f.Sigma = f.sigma * f.half
	f.sigma = math.Max(f.sigma, leastSigma/f.half)
}

// behind reports whether the camera would have some of the known points behind itself, and
// mirrored whether the picture would show the floor as in a mirror, or from below.
func (f *Fit) behind() bool {
	for _, p := range f.Pairs {
		if s := f.model.at(f.own(p.Floor)); !s.front() {
			return true
		}
	}
	return false
}

func (f *Fit) mirrored() bool {
	s := f.model.at(0, 0)
	j := s.floorSlopes(&f.model)
	return dot(j[0][0], j[1][1], -j[0][1], j[1][0]) > 0 // y is up on the floor and down in the picture
}

// onLine reports whether three places lie on a line, as near as that leaves a map unsettled.
func onLine[Of any](a, b, c plane.Vec[Of]) bool {
	long := math.Max(a.Dist(b), math.Max(b.Dist(c), a.Dist(c)))
	return math.Abs(b.Sub(a).Cross(c.Sub(a))) <= float64(thinTriangle*float64(long*long))
}

// thinTriangle is the height of a triangle, as a share of its longest side, below which its
// corners are taken to lie on a line.
const thinTriangle = 0.02
