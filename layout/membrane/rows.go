package membrane

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A span is a stretch along a strip, mm.
type span struct{ from, to float64 }

func (s span) length() float64 { return s.to - s.from }

// A frame turns the floor so that strips run along x: a turn of 0 lays them
// along the lattice's channels, a quarter turn across.
type frame struct {
	origin plane.Point
	angle  float64
}

func (f frame) in(p plane.Point) plane.Point  { return p.Sub(f.origin).Rotate(-f.angle) }
func (f frame) out(p plane.Point) plane.Point { return p.Rotate(f.angle).Add(f.origin) }

func (f frame) rings(r plane.Region) []plane.Ring {
	var out []plane.Ring
	for _, ring := range r.Rings() {
		out = append(out, f.ring(ring))
	}
	return out
}

func (f frame) ring(r plane.Ring) plane.Ring {
	out := make(plane.Ring, len(r))
	for i, p := range r {
		out[i] = f.in(p)
	}
	return out
}

// shortestCut is a length too short to be cut, mm.
const shortestCut = 0.01

// scan returns where the line at height y runs inside rings, by the even-odd
// rule.
func scan(rings []plane.Ring, y float64) []span {
	var out []span
	for _, in := range plane.Across(rings, 1, y)[0] {
		out = append(out, span{in[0], in[1]})
	}
	return merge(out, shortestCut)
}

// shadow returns what the floor between two heights covers along the strip.
// The outline of that piece of floor is made of the rings' own sides and of
// the two lines; together they cast the same shadow as the floor itself.
func shadow(rings []plane.Ring, low, high float64) []span {
	out := append(scan(rings, low+shortestCut/2), scan(rings, high-shortestCut/2)...)
	for _, r := range rings {
		for i := range r {
			if s, ok := clipped(r.Edge(i), low, high); ok {
				out = append(out, s)
			}
		}
	}
	return merge(out, shortestCut)
}

// clipped returns the shadow of the part of e between two heights.
func clipped(e plane.Segment, low, high float64) (span, bool) {
	a, b := e.A, e.B
	if a.Y > b.Y {
		a, b = b, a
	}
	low, high = low+shortestCut/2, high-shortestCut/2
	if b.Y <= low || a.Y >= high {
		return span{}, false
	}
	at := func(y float64) float64 {
		if b.Y == a.Y {
			return a.X
		}
		return a.X + (b.X-a.X)*(math.Min(b.Y, math.Max(a.Y, y))-a.Y)/(b.Y-a.Y)
	}
	x0, x1 := at(low), at(high)
	if b.Y == a.Y {
		x1 = b.X
	}
	return span{math.Min(x0, x1), math.Max(x0, x1)}, true
}

// merge puts spans in order and joins those closer than gap.
func merge(spans []span, gap float64) []span {
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var out []span
	for _, s := range spans {
		if n := len(out); n > 0 && s.from <= out[n-1].to+gap {
			out[n-1].to = math.Max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

// overlap returns the spans that a and b have in common.
func overlap(a, b []span) []span {
	var out []span
	for _, s := range a {
		for _, t := range b {
			if lo, hi := math.Max(s.from, t.from), math.Min(s.to, t.to); hi-lo > shortestCut {
				out = append(out, span{lo, hi})
			}
		}
	}
	return out
}

func total(spans []span) float64 {
	n := 0.0
	for _, s := range spans {
		n += s.length()
	}
	return n
}
