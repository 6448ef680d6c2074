package route

import (
	"math"

	"oxturn/layout/plane"
)

// corner is how a path bends at one of its corner points.
type corner struct {
	turn float64 // radians, positive to the left
	cut  float64 // mm from the corner point to where the arc begins
}

// corners returns the bend at every point of path; the ends do not bend.
func corners(path []plane.Point, bend float64) []corner {
	c := make([]corner, len(path))
	for i := 1; i+1 < len(path); i++ {
		u, v := path[i].Sub(path[i-1]), path[i+1].Sub(path[i])
		t := plane.Atan2(u.Cross(v), u.Dot(v))
		c[i] = corner{turn: t, cut: bend * plane.Tan(math.Abs(t)/2)}
	}
	return c
}

// Length returns the true length in mm of the line with corner points path,
// every corner rounded with radius bend. A bend of t radians replaces two
// tangents of bend*tan(t/2) by an arc of bend*t; at a right angle it saves
// (2 - pi/2) bend.
func Length(path []plane.Point, bend float64) float64 {
	n := 0.0
	for i := 1; i < len(path); i++ {
		n += path[i-1].Dist(path[i])
	}
	for _, c := range corners(path, bend) {
		n -= 2*c.cut - float64(bend*math.Abs(c.turn))
	}
	return n
}

// A piece is a straight line or an arc of a rounded path.
type piece struct {
	a, b   plane.Point // ends
	length float64
	centre plane.Point // of an arc
	from   float64     // an arc's first angle
	turn   float64     // an arc's angle, 0 for a line
	leg    int         // index of the path's point that the piece leads to or bends at
}

// at returns the point s mm along the piece.
func (p piece) at(s float64) plane.Point {
	if p.length == 0 {
		return p.a
	}
	t := s / p.length
	if p.turn == 0 {
		return p.a.Lerp(p.b, t)
	}
	sin, cos := plane.Sincos(p.from + float64(t*p.turn))
	r := p.a.Dist(p.centre)
	return p.centre.Add(plane.Pt(r*cos, r*sin))
}

// pieces returns the lines and arcs of a path in order.
func pieces(path []plane.Point, bend float64) []piece {
	cs := corners(path, bend)
	var out []piece
	from := plane.Point{}
	if len(path) > 0 {
		from = path[0]
	}
	for i := 1; i < len(path); i++ {
		u := path[i].Sub(path[i-1]).Unit()
		to := path[i].Sub(u.Mul(cs[i].cut))
		out = append(out, piece{a: from, b: to, length: from.Dist(to), leg: i})
		from = to
		if cs[i].cut > 0 {
			arc := bendAt(path, i, cs[i], bend)
			out = append(out, arc)
			from = arc.b
		}
	}
	return out
}

// bendAt returns the arc at corner i.
func bendAt(path []plane.Point, i int, c corner, bend float64) piece {
	u, v := path[i].Sub(path[i-1]).Unit(), path[i+1].Sub(path[i]).Unit()
	a := path[i].Sub(u.Mul(c.cut))
	centre := a.Add(u.Left().Mul(math.Copysign(bend, c.turn)))
	r := a.Sub(centre)
	return piece{
		a: a, b: path[i].Add(v.Mul(c.cut)), length: bend * math.Abs(c.turn),
		centre: centre, from: plane.Atan2(r.Y, r.X), turn: c.turn, leg: i,
	}
}

// Along returns the point s mm along the rounded path from its first point;
// s outside the path gives the nearer end.
func Along(path []plane.Point, bend, s float64) plane.Point {
	if len(path) == 0 {
		return plane.Point{}
	}
	for _, p := range pieces(path, bend) {
		if s <= p.length {
			return p.at(math.Max(0, s))
		}
		s -= p.length
	}
	return path[len(path)-1]
}

// Stations returns, for every point of path, the length in mm along the
// rounded line from the start to that point or to the middle of the bend
// there. The last is the whole length.
func Stations(path []plane.Point, bend float64) []float64 {
	out := make([]float64, len(path))
	s := 0.0
	for _, p := range pieces(path, bend) {
		if p.turn != 0 {
			out[p.leg] = s + p.length/2
		}
		s += p.length
		if p.turn == 0 {
			out[p.leg] = s
		}
	}
	return out
}

// A Sample is a point on a rounded path.
type Sample struct {
	At    plane.Point
	Along float64 // mm from the path's start
}

// Samples returns points along the rounded path at most step mm apart, both
// ends included.
func Samples(path []plane.Point, bend, step float64) []Sample {
	var out []Sample
	s := 0.0
	for _, p := range pieces(path, bend) {
		k := max(1, int(math.Ceil(p.length/step)))
		for i := range k {
			d := p.length * float64(i) / float64(k)
			out = append(out, Sample{p.at(d), s + d})
		}
		s += p.length
	}
	if len(path) > 0 {
		out = append(out, Sample{path[len(path)-1], s})
	}
	return out
}
