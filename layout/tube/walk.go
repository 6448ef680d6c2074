package tube

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A walk finds the cheapest way over the floor from one point to all others
// without crossing heating cable, on a grid of half pegs in step with the
// lattice, so that the middle of every gap between two runs is on it.
//
//	o---o---o     o  grid node, half a peg apart
//	|   |   |     #  cable: no step lands on it or crosses it
//	o---o###o
type walk struct {
	floor  plane.Region
	origin plane.Point
	angle  float64
	step   float64
	nx, ny int
	free   []bool
	dear   []int32    // per node: what a step onto it asks beside its length
	toll   [2][]int32 // per node: what the step east, the step north asks for what it crosses; far: none may
	cost   []int32    // per state: cheapest way there, far where there is none
	from   []int32    // per state: the one before, -1 at the start
}

// unreachable is the cost of a place that cannot be reached.
const unreachable = math.MaxInt32

// newWalk lays the grid over the floor, its nodes in step with origin.
func newWalk(floor plane.Region, origin plane.Point, angle, step float64) *walk {
	w := &walk{floor: floor, angle: angle, step: step}
	var turned []plane.Point
	for _, p := range floor {
		for _, q := range p.Outer {
			turned = append(turned, q.Sub(origin).Rotate(-angle))
		}
	}
	b := plane.Bounds(turned)
	i0, j0 := math.Floor(b.Min.X/step), math.Floor(b.Min.Y/step)
	w.origin = origin.Add(plane.Pt(i0*step, j0*step).Rotate(angle))
	w.nx, w.ny = int(b.Max.X/step-i0)+2, int(b.Max.Y/step-j0)+2
	n := w.nx * w.ny
	w.free, w.dear = make([]bool, n), make([]int32, n)
	w.toll = [2][]int32{make([]int32, n), make([]int32, n)}
	w.cost, w.from = make([]int32, 4*n), make([]int32, 4*n)
	w.fill()
	return w
}

// rowOff is how far over its nodes a row is looked along, mm: walls lie in step with the
// nodes where a room is as wide as its pegs.
const rowOff = 1e-7

// fill marks the nodes inside the floor.
func (w *walk) fill() {
	var rings []plane.Ring
	for _, r := range w.floor.Rings() {
		var local plane.Ring
		for _, p := range r {
			local = append(local, w.cell(p))
		}
		rings = append(rings, local)
	}
	for j, row := range plane.Across(rings, w.ny, rowOff/w.step) {
		for _, in := range row {
			for i := max(0, int(math.Ceil(in[0]))); i < w.nx && float64(i) < in[1]; i++ {
				w.free[j*w.nx+i] = true
			}
		}
	}
}

func (w *walk) point(n int) plane.Point {
	local := plane.Pt(float64(n%w.nx)*w.step, float64(n/w.nx)*w.step)
	return w.origin.Add(local.Rotate(w.angle))
}

// cell returns p in grid steps.
func (w *walk) cell(p plane.Point) plane.Point {
	return p.Sub(w.origin).Rotate(-w.angle).Mul(1 / w.step)
}

// onNode steps: what is farther from a node lies on none.
const onNode = 0.51

// nodeAt returns the node that p lies on, to within half a step; -1 for none.
func (w *walk) nodeAt(p plane.Point) int {
	c := w.cell(p)
	i, j := int(math.Round(c.X)), int(math.Round(c.Y))
	if i < 0 || j < 0 || i >= w.nx || j >= w.ny || c.Dist(plane.Pt(float64(i), float64(j))) > onNode {
		return -1
	}
	return j*w.nx + i
}

// near calls visit with every node within d mm of s or a little further, as
// the node, its cell, and s in cells.
func (w *walk) near(s plane.Segment, d float64, visit func(n int, here plane.Point, s plane.Segment)) {
	c := plane.Segment{A: w.cell(s.A), B: w.cell(s.B)}
	if c.A.Y > c.B.Y {
		c.A, c.B = c.B, c.A
	}
	m := d/w.step + 1
	for j := max(0, int(c.A.Y-m)); j <= min(w.ny-1, int(c.B.Y+m)); j++ {
		x0, x1 := c.A.X, c.B.X
		if h := c.B.Y - c.A.Y; h > 1 { // the stretch of s that this row comes near to
			x0 = c.A.X + (c.B.X-c.A.X)*min(1, max(0, (float64(j)-m-c.A.Y)/h))
			x1 = c.A.X + (c.B.X-c.A.X)*min(1, max(0, (float64(j)+m-c.A.Y)/h))
		}
		for i := max(0, int(min(x0, x1)-m)); i <= min(w.nx-1, int(max(x0, x1)+m)); i++ {
			visit(j*w.nx+i, plane.Pt(float64(i), float64(j)), c)
		}
	}
}

// onStart steps: what is so near to a way's start does not bar it.
const onStart = 0.3

// bar forbids every step that meets the line through pts.
func (w *walk) bar(pts []plane.Point) {
	for _, s := range plane.Segments(pts) {
		w.near(s, 0, func(n int, here plane.Point, s plane.Segment) {
			if s.Distance(here) < onStart {
				w.free[n] = false
			} else {
				w.charge(n, here, s, unreachable)
			}
		})
	}
}

// cross asks a toll of every step that meets the line through pts.
func (w *walk) cross(pts []plane.Point, toll int32) {
	for _, s := range plane.Segments(pts) {
		w.near(s, 0, func(n int, here plane.Point, s plane.Segment) { w.charge(n, here, s, toll) })
	}
}

// charge puts a toll on the steps east and north of a node that meet s.
func (w *walk) charge(n int, here plane.Point, s plane.Segment, toll int32) {
	for d, to := range [2]plane.Point{plane.Pt(1, 0), plane.Pt(0, 1)} {
		if s.Meets(plane.Segment{A: here, B: here.Add(to)}) {
			w.toll[d][n] = max(w.toll[d][n], toll)
		}
	}
}

// shun asks so much more of every step that lands within d mm of s.
func (w *walk) shun(s plane.Segment, d float64, more int32) {
	w.near(s, d, func(n int, here plane.Point, s plane.Segment) {
		if w.free[n] && s.Distance(here)*w.step < d-plane.Hair {
			w.dear[n] += more
		}
	})
}

// turnCost, in steps, keeps a lead straight rather than staircase-like.
const turnCost = 3

// fourWays are the four ways on from a node: east, north, west, south.
var fourWays = [4][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}

// run goes out from some nodes, cheapest first, until enough, called with each
// state and its cost, is true. A state is a node and the direction it was
// entered by, so that turns can be charged for. Costs are small whole numbers,
// so the frontier is a list of states per cost.
func (w *walk) run(from []int, enough func(state int, cost int32) bool) {
	for i := range w.cost {
		w.cost[i], w.from[i] = unreachable, -1
	}
	frontier := [][]int32{nil}
	for _, n := range from {
		for d := range 4 {
			w.cost[4*n+d] = 0
			frontier[0] = append(frontier[0], int32(4*n+d))
		}
	}
	for c := 0; c < len(frontier); c++ {
		for k := 0; k < len(frontier[c]); k++ {
			s := int(frontier[c][k])
			if w.cost[s] != int32(c) {
				continue
			}
			if enough(s, int32(c)) {
				return
			}
			frontier = w.spread(frontier, s, c)
		}
		frontier[c] = nil
	}
}

// spread takes the four steps on from a state reached at cost c.
func (w *walk) spread(frontier [][]int32, state, c int) [][]int32 {
	n, entered := state/4, state%4
	for d := range fourWays {
		m, ask := w.next(n, d)
		if ask == unreachable {
			continue
		}
		on := c + 1 + int(ask)
		if d != entered {
			on += turnCost
		}
		s := 4*m + d
		if int32(on) >= w.cost[s] {
			continue
		}
		w.cost[s], w.from[s] = int32(on), int32(state)
		for len(frontier) <= on {
			frontier = append(frontier, nil)
		}
		frontier[on] = append(frontier[on], int32(s))
	}
	return frontier
}

// next returns the node one step on in direction d and what the step asks
// beside its length; far when it leaves the floor or crosses cable.
func (w *walk) next(n, d int) (m int, ask int32) {
	i, j := n%w.nx+fourWays[d][0], n/w.nx+fourWays[d][1]
	if i < 0 || j < 0 || i >= w.nx || j >= w.ny {
		return 0, unreachable
	}
	m = j*w.nx + i
	toll := w.toll[d%2][min(n, m)]
	if !w.free[m] || toll == unreachable {
		return 0, unreachable
	}
	return m, w.dear[m] + toll
}

// around returns the free nodes within d mm of p that ok holds of; where it
// holds of none, the nearest within twice as far.
func (w *walk) around(p plane.Point, d float64, ok func(plane.Point) bool) []int {
	var out []int
	best, at := 2*d, -1
	w.near(plane.Segment{A: p, B: p}, 2*d, func(n int, _ plane.Point, _ plane.Segment) {
		if !w.free[n] {
			return
		}
		q := w.point(n)
		switch away := q.Dist(p); {
		case away <= d && ok(q):
			out = append(out, n)
		case away < best:
			best, at = away, n
		}
	})
	if out == nil && at >= 0 {
		out = append(out, at)
	}
	return out
}

// way returns the nodes of the cheapest way to a state.
func (w *walk) way(state int) []plane.Point {
	var way []plane.Point
	for s := state; s >= 0; s = int(w.from[s]) {
		way = append(way, w.point(s/4))
	}
	slices.Reverse(way)
	return way
}
