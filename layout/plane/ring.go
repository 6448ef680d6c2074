package plane

import "math"

// A Ring is a closed line of corner points, the last joined to the first.
type Ring []Point

// An Extent is an axis-parallel box.
type Extent[Of any] struct{ Min, Max Vec[Of] }

// A Rect is a box on the floor.
type Rect = Extent[floor]

// W returns the width of r.
func (r Extent[Of]) W() float64 { return r.Max.X - r.Min.X }

// H returns the height of r.
func (r Extent[Of]) H() float64 { return r.Max.Y - r.Min.Y }

// Centre returns the middle of r.
func (r Extent[Of]) Centre() Vec[Of] { return r.Min.Lerp(r.Max, 0.5) }

// Union returns the smallest box that holds both.
func (r Extent[Of]) Union(s Extent[Of]) Extent[Of] {
	return Extent[Of]{
		Vec[Of]{min(r.Min.X, s.Min.X), min(r.Min.Y, s.Min.Y)},
		Vec[Of]{max(r.Max.X, s.Max.X), max(r.Max.Y, s.Max.Y)},
	}
}

// Apart reports whether two boxes are more than d apart along an axis.
func (r Extent[Of]) Apart(s Extent[Of], d float64) bool {
	return r.Min.X > s.Max.X+d || s.Min.X > r.Max.X+d || r.Min.Y > s.Max.Y+d || s.Min.Y > r.Max.Y+d
}

// Segments returns the straight pieces of a line through points, in order.
func Segments[Of any](pts []Vec[Of]) []Line[Of] {
	var out []Line[Of]
	for i := 1; i < len(pts); i++ {
		out = append(out, Line[Of]{A: pts[i-1], B: pts[i]})
	}
	return out
}

// Bounds returns the smallest box that holds all points; the zero Rect for none.
func Bounds[Of any](pts []Vec[Of]) Extent[Of] {
	if len(pts) == 0 {
		return Extent[Of]{}
	}
	r := Extent[Of]{pts[0], pts[0]}
	for _, p := range pts[1:] {
		r = r.Union(Extent[Of]{p, p})
	}
	return r
}

// Bounds returns the smallest box that holds the ring.
func (r Ring) Bounds() Rect { return Bounds(r) }

// Edge returns the side from corner i to the next.
func (r Ring) Edge(i int) Segment { return Segment{r[i], r[(i+1)%len(r)]} }

// SignedArea returns the area inside, positive when counter-clockwise.
func (r Ring) SignedArea() float64 {
	a := 0.0
	for i := range r {
		a += r[i].Cross(r[(i+1)%len(r)])
	}
	return a / 2
}

// Outward returns the unit vector square to a side of the ring that leaves it.
func (r Ring) Outward(side Segment) Point {
	return side.B.Sub(side.A).Unit().Left().Mul(-math.Copysign(1, r.SignedArea()))
}

// Area returns the area inside, never negative.
func (r Ring) Area() float64 { return math.Abs(r.SignedArea()) }

// Perimeter returns the length once round.
func (r Ring) Perimeter() float64 {
	n := 0.0
	for i := range r {
		n += r.Edge(i).Length()
	}
	return n
}

// CCW returns the ring counter-clockwise: r itself or a reversed copy.
func (r Ring) CCW() Ring {
	if r.SignedArea() >= 0 {
		return r
	}
	s := make(Ring, len(r))
	for i, p := range r {
		s[len(r)-1-i] = p
	}
	return s
}

// Contains reports whether p is inside by the even-odd rule. Points on the
// line itself may go either way.
func (r Ring) Contains(p Point) bool { return Inside(r, p) }

// Inside is Contains of a ring in any plane.
func Inside[Of any](ring []Vec[Of], p Vec[Of]) bool {
	in := false
	for i, j := 0, len(ring)-1; i < len(ring); j, i = i, i+1 {
		a, b := ring[i], ring[j]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < (b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y)+a.X {
			in = !in
		}
	}
	return in
}

// Distance returns the distance from p to the ring's line.
func (r Ring) Distance(p Point) float64 {
	least := math.Inf(1)
	for i := range r {
		q, _ := r.Edge(i).Nearest(p)
		if v := q.Sub(p); v.Dot(v) < least {
			least = v.Dot(v)
		}
	}
	return math.Sqrt(least)
}

// A Clash is a pair of sides of one ring that meet where they should not, or
// a side without length (I == J).
type Clash struct {
	I, J int
	At   Point
}

// SelfClash looks for the first two sides that cross, touch or lie on each
// other, neighbours at their common corner apart; ok is false for a simple ring.
func (r Ring) SelfClash() (c Clash, ok bool) {
	n := len(r)
	for i := range r {
		if r.Edge(i).Length() < sameCorner {
			return Clash{i, i, r[i]}, true
		}
	}
	for i := range r {
		for j := i + 1; j < n; j++ {
			if at, bad := r.edgesClash(i, j); bad {
				return Clash{i, j, at}, true
			}
		}
	}
	return Clash{}, false
}

func (r Ring) edgesClash(i, j int) (Point, bool) {
	n := len(r)
	s, t := r.Edge(i), r.Edge(j)
	next, prev := j == i+1, i == 0 && j == n-1
	if next || prev {
		// neighbours share a corner; they clash only when one folds back on the other
		u, v := s.B.Sub(s.A), t.B.Sub(t.A)
		if math.Abs(u.Cross(v)) < sameCorner*u.Norm()*v.Norm() && u.Dot(v) < 0 {
			return s.B, true
		}
		return Point{}, false
	}
	if !s.Meets(t) {
		return Point{}, false
	}
	if p, ok := s.Intersection(t); ok {
		return p, true
	}
	return t.A, true
}

// Translate returns the ring moved by d.
func (r Ring) Translate(d Point) Ring {
	s := make(Ring, len(r))
	for i, p := range r {
		s[i] = p.Add(d)
	}
	return s
}

// Rectangle returns the counter-clockwise rectangle with opposite corners a and b.
func Rectangle(a, b Point) Ring {
	x0, x1 := min(a.X, b.X), max(a.X, b.X)
	y0, y1 := min(a.Y, b.Y), max(a.Y, b.Y)
	return Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// Circle returns a regular polygon of n corners whose sides touch the circle
// of radius r from outside, so that it never leaves part of the circle out.
func Circle(centre Point, r float64, n int) Ring {
	s := make(Ring, n)
	_, cos := Sincos(math.Pi / float64(n))
	out := r / cos
	for i := range s {
		sin, cos := Sincos(2 * math.Pi * (float64(i) + 0.5) / float64(n))
		s[i] = centre.Add(Point{cos, sin}.Mul(out))
	}
	return s
}
