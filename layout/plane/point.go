// Package plane holds the geometry of a floor: points, rings, regions, and
// lengths with their units. Inside, everything is millimetres, x east and y
// north.
//
//	y (north)
//	^
//	|      D---C      a Ring is closed without repeating its first point;
//	|      |   |      counter-clockwise, its inside is on the left
//	|      A---B
//	+-------------> x (east)
package plane

import "math"

// A Vec is a place in a plane, or a displacement, in mm. Of says which plane, so that
// places on a floor and on a sheet do not mix.
type Vec[Of any] struct{ X, Y float64 }

// A Point is a place on the floor, or a displacement.
type Point = Vec[floor]

type floor struct{}

// Pt is short for Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// Add returns p + q.
func (p Vec[Of]) Add(q Vec[Of]) Vec[Of] { return Vec[Of]{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Vec[Of]) Sub(q Vec[Of]) Vec[Of] { return Vec[Of]{p.X - q.X, p.Y - q.Y} }

// Mul returns p scaled by k.
func (p Vec[Of]) Mul(k float64) Vec[Of] { return Vec[Of]{float64(p.X * k), float64(p.Y * k)} }

// Dot returns the dot product.
func (p Vec[Of]) Dot(q Vec[Of]) float64 { return float64(p.X*q.X) + float64(p.Y*q.Y) }

// Cross returns the z part of the cross product: positive when q lies to the
// left of p.
func (p Vec[Of]) Cross(q Vec[Of]) float64 { return float64(p.X*q.Y) - float64(p.Y*q.X) }

// Norm returns the length of p.
func (p Vec[Of]) Norm() float64 { return math.Sqrt(p.Dot(p)) }

// Dist returns the distance from p to q.
func (p Vec[Of]) Dist(q Vec[Of]) float64 { return p.Sub(q).Norm() }

// Unit returns p scaled to length 1; the zero point stays zero.
func (p Vec[Of]) Unit() Vec[Of] {
	n := p.Norm()
	if n == 0 {
		return Vec[Of]{}
	}
	return Vec[Of]{p.X / n, p.Y / n}
}

// Left returns p turned a quarter turn counter-clockwise.
func (p Vec[Of]) Left() Vec[Of] { return Vec[Of]{-p.Y, p.X} }

// Rotate returns p turned counter-clockwise by a radians about the origin.
func (p Vec[Of]) Rotate(a float64) Vec[Of] {
	s, c := Sincos(a)
	return Vec[Of]{float64(c*p.X) - float64(s*p.Y), float64(s*p.X) + float64(c*p.Y)}
}

// Lerp returns the point a share t of the way from p to q.
func (p Vec[Of]) Lerp(q Vec[Of], t float64) Vec[Of] {
	return Vec[Of]{p.X + float64((q.X-p.X)*t), p.Y + float64((q.Y-p.Y)*t)}
}

// Finite reports whether both coordinates are ordinary numbers.
func (p Vec[Of]) Finite() bool {
	return !math.IsNaN(p.X-p.X) && !math.IsNaN(p.Y-p.Y)
}

// A Line is the straight line from A to B, both ends included.
type Line[Of any] struct{ A, B Vec[Of] }

// A Segment is a straight line on the floor.
type Segment = Line[floor]

// Length returns the segment's length.
func (s Line[Of]) Length() float64 { return s.A.Dist(s.B) }

// At returns the point d mm from A towards B; it may lie beyond either end.
func (s Line[Of]) At(d float64) Vec[Of] { return s.A.Add(s.B.Sub(s.A).Unit().Mul(d)) }

// Bounds returns the smallest box that holds the segment.
func (s Line[Of]) Bounds() Extent[Of] {
	return Extent[Of]{Vec[Of]{min(s.A.X, s.B.X), min(s.A.Y, s.B.Y)}, Vec[Of]{max(s.A.X, s.B.X), max(s.A.Y, s.B.Y)}}
}

// Nearest returns the point of s nearest to p and its distance from A.
func (s Line[Of]) Nearest(p Vec[Of]) (Vec[Of], float64) {
	v := s.B.Sub(s.A)
	n := v.Dot(v)
	if n == 0 {
		return s.A, 0
	}
	t := max(0, min(1, p.Sub(s.A).Dot(v)/n))
	return s.A.Add(v.Mul(t)), t * math.Sqrt(n)
}

// Distance returns the distance from p to the nearest point of s.
func (s Line[Of]) Distance(p Vec[Of]) float64 {
	q, _ := s.Nearest(p)
	return p.Dist(q)
}

// PathDistance returns the distance from p to the nearest point of a line;
// infinite for fewer than two points.
func PathDistance[Of any](line []Vec[Of], p Vec[Of]) float64 {
	least := math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, b, most := line[i-1], line[i], least+Hair
		if p.X-max(a.X, b.X) > most || min(a.X, b.X)-p.X > most || p.Y-max(a.Y, b.Y) > most ||
			min(a.Y, b.Y)-p.Y > most {
			continue // no nearer, as one sees without working out how far: most of a long line
		}
		least = min(least, Line[Of]{a, b}.Distance(p))
	}
	return least
}

// Corners drops the points of a line that lie straight between their neighbours.
func Corners[Of any](pts []Vec[Of]) []Vec[Of] {
	out := pts[:1:1]
	for i := 1; i < len(pts); i++ {
		if i+1 < len(pts) {
			u, v := pts[i].Sub(out[len(out)-1]), pts[i+1].Sub(pts[i])
			if math.Abs(u.Cross(v)) < 1e-6*u.Norm()*v.Norm() && u.Dot(v) > 0 || v.Norm() < sameCorner {
				continue
			}
		}
		out = append(out, pts[i])
	}
	return out
}

// Nearest returns the place of a line nearest to p, its distance, and the
// index of its leg with the share of that leg before it.
func Nearest[Of any](line []Vec[Of], p Vec[Of]) (at Vec[Of], off float64, leg int, share float64) {
	off = math.Inf(1)
	if len(line) == 1 {
		return line[0], p.Dist(line[0]), 0, 0
	}
	for i := 1; i < len(line); i++ {
		s := Line[Of]{A: line[i-1], B: line[i]}
		q, d := s.Nearest(p)
		if n := q.Dist(p); n < off {
			at, off, leg, share = q, n, i-1, 0
			if s.Length() > 0 {
				share = d / s.Length()
			}
		}
	}
	return at, off, leg, share
}

// PathLength returns the length of a line, corners not rounded.
func PathLength[Of any](line []Vec[Of]) float64 {
	n := 0.0
	for i := 1; i < len(line); i++ {
		n += line[i-1].Dist(line[i])
	}
	return n
}

// Moved returns a line moved aside.
func Moved[Of any](line []Vec[Of], by Vec[Of]) []Vec[Of] {
	out := make([]Vec[Of], len(line))
	for i, p := range line {
		out[i] = p.Add(by)
	}
	return out
}

// Gap returns the smallest distance between s and t, 0 where they meet.
func (s Line[Of]) Gap(t Line[Of]) float64 {
	if s.Meets(t) {
		return 0
	}
	return min(min(s.Distance(t.A), s.Distance(t.B)), min(t.Distance(s.A), t.Distance(s.B)))
}

// side is twice the area of the triangle a, b, c; positive when c is left of ab.
func side[Of any](a, b, c Vec[Of]) float64 { return b.Sub(a).Cross(c.Sub(a)) }

// Crosses reports whether s and t cross at a point inside both. Touching ends
// and overlaps do not count.
func (s Line[Of]) Crosses(t Line[Of]) bool {
	a, b := side(s.A, s.B, t.A), side(s.A, s.B, t.B)
	c, d := side(t.A, t.B, s.A), side(t.A, t.B, s.B)
	return (a > 0 && b < 0 || a < 0 && b > 0) && (c > 0 && d < 0 || c < 0 && d > 0)
}

// Meets reports whether s and t have any point in common.
func (s Line[Of]) Meets(t Line[Of]) bool {
	if s.Crosses(t) {
		return true
	}
	return s.holds(t.A) || s.holds(t.B) || t.holds(s.A) || t.holds(s.B)
}

// holds reports whether p lies on s, to within rounding.
func (s Line[Of]) holds(p Vec[Of]) bool { return s.Distance(p) < sameCorner }

// Intersection returns the point where the infinite lines through s and t
// meet; ok is false when they are parallel.
func (s Line[Of]) Intersection(t Line[Of]) (p Vec[Of], ok bool) {
	u, v := s.B.Sub(s.A), t.B.Sub(t.A)
	d := u.Cross(v)
	if math.Abs(d) < 1e-12*u.Norm()*v.Norm() || d == 0 {
		return Vec[Of]{}, false
	}
	return s.A.Add(u.Mul(t.A.Sub(s.A).Cross(v) / d)), true
}
