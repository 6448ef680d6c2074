package route

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A push moves a straight piece of a plan sideways: on leg i, from s to t pegs
// along it, by h pegs to the left (right when negative). Pushed outward on a
// turn it lengthens two runs, on a run it makes a finger into a pocket, and a
// whole run pushed goes nearer to its neighbour. Every repair of a finished
// plan is made of it.
type push struct{ i, s, t, h int }

// by returns the corner points after the push, in room where they fit there, false when a
// leg would double back.
func (m push) by(nodes, room []node) ([]node, bool) {
	a, b := nodes[m.i], nodes[m.i+1]
	dx, dy, n := sign(b.x-a.x), sign(b.y-a.y), pegs(a, b)
	side := node{-dy * m.h, dx * m.h}
	out := append(slices.Grow(room[:0], len(nodes)+4), nodes[:m.i]...)
	put := func(k int, off node) {
		out = append(out, node{a.x + k*dx + off.x, a.y + k*dy + off.y})
	}
	if m.s > 0 {
		put(0, node{})
		put(m.s, node{})
	}
	put(m.s, side)
	put(m.t, side)
	if m.t < n {
		put(m.t, node{})
		put(n, node{})
	}
	return straighten(append(out, nodes[m.i+2:]...))
}

// straighten leaves out repeated points and points on a straight line; false
// when the line doubles back.
func straighten(nodes []node) ([]node, bool) {
	out := nodes[:0]
	for _, n := range nodes {
		k := len(out)
		if k > 0 && out[k-1] == n {
			continue
		}
		if k >= 2 {
			a, b := out[k-2], out[k-1]
			if along := (b.x-a.x)*(n.x-b.x) + (b.y-a.y)*(n.y-b.y); along < 0 {
				return nil, false
			} else if along > 0 {
				out[k-1] = n
				continue
			}
		}
		out = append(out, n)
	}
	return out, len(out) >= 3
}

func sign(x int) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// pegs is the length of the leg from a to b.
func pegs(a, b node) int { return abs(b.x-a.x) + abs(b.y-a.y) }

// pegs is the length of a plan whose corners are rounded, in pegs across the rows.
func (r rules) pegs(nodes []node) float64 {
	n := 0.0
	for i := 1; i < len(nodes); i++ {
		n += r.leg(nodes[i-1], nodes[i])
	}
	return n - float64(len(nodes)-2)*(2-math.Pi/2)*r.bend/r.y.pitch
}

// allows reports whether the legs of a plan that differ from those of another,
// and those beside them, keep the rules that can be told on pegs.
func (r *rules) allows(g *grid, was, nodes []node) bool {
	last := len(nodes) - 2 // nearly every push changes this leg too: those between need no look for its sake
	lo, hi := changed(was[:len(was)-1], nodes[:last+1])
	lo, hi = max(0, lo-1), min(last, hi+1)
	for i := lo; i < hi; i++ { // the cheap rules first
		if !r.legFits(nodes, i) || !g.holds(nodes[i], nodes[i+1]) {
			return false
		}
	}
	if !g.holds(nodes[last], nodes[last+1]) || !r.legApart(nodes, last) {
		return false
	}
	for i, j := lo, hi-1; i <= j; i, j = i+1, j-1 { // what is too near is so mostly where it is joined on
		if !r.legApart(nodes, i) || !r.legApart(nodes, j) {
			return false
		}
	}
	return true
}

// changed returns the range of legs of b that are not legs of a.
func changed(a, b []node) (lo, hi int) {
	for lo+1 < min(len(a), len(b)) && a[lo] == b[lo] && a[lo+1] == b[lo+1] {
		lo++
	}
	i, j := len(a)-1, len(b)-1
	for i > 0 && j > lo && a[i] == b[j] && a[i-1] == b[j-1] {
		i--
		j--
	}
	return lo, j
}

// legFits reports whether leg i has room for the bends at its ends.
func (r *rules) legFits(nodes []node, i int) bool {
	n, a := pegs(nodes[i], nodes[i+1]), r.of(nodes[i], nodes[i+1])
	if r.held && i+2 < len(nodes) && (a == &r.y && n > a.widest || a == &r.x && n < a.minLeg) {
		return false
	}
	if i == 0 || i+2 == len(nodes) {
		return true
	}
	return n >= a.turnBack || n >= a.minLeg && turnOf(nodes, i-1) != turnOf(nodes, i)
}

// legApart reports whether leg i keeps the closest gap from all others but
// those that it joins, and that it jogs past.
func (r rules) legApart(nodes []node, i int) bool {
	lo, hi := nodes[i], nodes[i+1]
	lo, hi = node{min(lo.x, hi.x) - r.x.closest, min(lo.y, hi.y) - r.y.closest},
		node{max(lo.x, hi.x) + r.x.closest, max(lo.y, hi.y) + r.y.closest}
	for j := 0; j+1 < len(nodes); j++ {
		a, b := &nodes[j], &nodes[j+1]
		if a.x >= hi.x && b.x >= hi.x || a.x <= lo.x && b.x <= lo.x || a.y >= hi.y && b.y >= hi.y ||
			a.y <= lo.y && b.y <= lo.y {
			continue // most legs are far off
		}
		d := abs(i - j)
		if d < 2 || r.apart(nodes[i], nodes[i+1], *a, *b) {
			continue
		}
		if k := min(i, j); d > 2 || turnOf(nodes, k) == turnOf(nodes, k+1) {
			return false
		}
	}
	return true
}

// turnOf is the sense of the turn at the end of leg i, positive to the left.
func turnOf(nodes []node, i int) int {
	a, b, c := nodes[i], nodes[i+1], nodes[i+2]
	return sign((b.x-a.x)*(c.y-b.y) - (b.y-a.y)*(c.x-b.x))
}

// apart reports whether two legs along the lattice keep the closest gap.
func (r *rules) apart(a, b, c, d node) bool {
	dx := max(0, min(a.x, b.x)-max(c.x, d.x), min(c.x, d.x)-max(a.x, b.x))
	dy := max(0, min(a.y, b.y)-max(c.y, d.y), min(c.y, d.y)-max(a.y, b.y))
	w, h, least := float64(dx)*r.x.pitch, float64(dy)*r.y.pitch, r.near-plane.Hair
	return float64(w*w)+float64(h*h) >= float64(least*least)
}

// holds reports whether cable may lie from a to b.
func (g *grid) holds(a, b node) bool {
	if !g.inside(a.x, a.y) || !g.inside(b.x, b.y) {
		return false
	}
	if a.y == b.y {
		return g.spanAt(a.x, a.y) == g.spanAt(b.x, b.y)
	}
	return int(g.up[min(a.y, b.y)][a.x]) >= abs(b.y-a.y)
}
