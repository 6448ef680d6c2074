package layout

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A walk finds the shortest way over the floor from one point to all others
// without crossing a barrier, on a grid of half pegs in step with the
// lattice, so that the middle of every gap between two runs is on it.
//
//	o---o---o     o  grid node, half a peg apart
//	|   |   |     #  cable: no step lands on it or crosses it
//	o---o###o
type walk struct {
	floor   plane.Region
	origin  plane.Point
	angle   float64
	step    float64
	nx, ny  int
	free    []bool
	blocked [2][]bool // per node: the step east, the step north crosses a barrier
	cost    []int32   // per state: cheapest way there, far where there is none
	from    []int32   // per state: the one before, -1 at the start
}

// far is the cost of a place that cannot be reached.
const far = math.MaxInt32

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
	w.free = make([]bool, w.nx*w.ny)
	w.blocked = [2][]bool{make([]bool, len(w.free)), make([]bool, len(w.free))}
	w.fill()
	return w
}

// fill marks the nodes inside the floor, row by row.
func (w *walk) fill() {
	rings := w.floor.Rings()
	local := make([]plane.Ring, len(rings))
	for i, r := range rings {
		for _, p := range r {
			local[i] = append(local[i], p.Sub(w.origin).Rotate(-w.angle))
		}
	}
	for j := range w.ny {
		y := float64(float64(j)*w.step) + 1e-7
		for _, r := range local {
			for k := range r {
				w.toggle(r.Edge(k), y, j)
			}
		}
	}
}

// toggle flips every node of row j to the right of where edge crosses height y.
func (w *walk) toggle(edge plane.Segment, y float64, j int) {
	a, b := edge.A, edge.B
	if (a.Y > y) == (b.Y > y) {
		return
	}
	x := a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
	for i := max(0, int(math.Ceil(x/w.step))); i < w.nx; i++ {
		w.free[j*w.nx+i] = !w.free[j*w.nx+i]
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

// bar forbids every step that meets the line through pts.
func (w *walk) bar(pts []plane.Point) {
	for k := 1; k < len(pts); k++ {
		a, b := w.cell(pts[k-1]), w.cell(pts[k])
		box := plane.Bounds([]plane.Point{a, b})
		for j := max(0, int(box.Min.Y)-1); j <= min(w.ny-1, int(box.Max.Y)+2); j++ {
			for i := max(0, int(box.Min.X)-1); i <= min(w.nx-1, int(box.Max.X)+2); i++ {
				w.barNode(i, j, plane.Segment{A: a, B: b})
			}
		}
	}
}

func (w *walk) barNode(i, j int, s plane.Segment) {
	n, here := j*w.nx+i, plane.Pt(float64(i), float64(j))
	if s.Distance(here) < 0.3 {
		w.free[n] = false
		return
	}
	if i+1 < w.nx && s.Meets(plane.Segment{A: here, B: here.Add(plane.Pt(1, 0))}) {
		w.blocked[0][n] = true
	}
	if j+1 < w.ny && s.Meets(plane.Segment{A: here, B: here.Add(plane.Pt(0, 1))}) {
		w.blocked[1][n] = true
	}
}

// turnCost, in steps, keeps a lead straight rather than staircase-like.
const turnCost = 3

// steps are the four ways on from a node: east, north, west, south.
var steps = [4][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}

// run finds the cheapest way from start to every node; a state is a node and
// the direction it was entered by, so that turns can be charged for. Costs are
// small whole numbers, so the frontier is a list of states per cost.
func (w *walk) run(start plane.Point) {
	w.cost = make([]int32, 4*len(w.free))
	w.from = make([]int32, 4*len(w.free))
	for i := range w.cost {
		w.cost[i], w.from[i] = far, -1
	}
	n := w.nearest(start)
	if n < 0 {
		return
	}
	frontier := [][]int32{nil}
	for d := range 4 {
		w.cost[4*n+d] = 0
		frontier[0] = append(frontier[0], int32(4*n+d))
	}
	for c := 0; c < len(frontier); c++ {
		for k := 0; k < len(frontier[c]); k++ {
			if s := frontier[c][k]; w.cost[s] == int32(c) {
				frontier = w.spread(frontier, int(s), c)
			}
		}
		frontier[c] = nil
	}
}

// spread takes the four steps on from a state reached at cost c.
func (w *walk) spread(frontier [][]int32, state, c int) [][]int32 {
	n, entered := state/4, state%4
	for d := range steps {
		m, ok := w.next(n, d)
		if !ok {
			continue
		}
		on := c + 1
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

// next returns the node one step on in direction d; ok is false when the step
// leaves the floor or crosses a barrier.
func (w *walk) next(n, d int) (m int, ok bool) {
	i, j := n%w.nx+steps[d][0], n/w.nx+steps[d][1]
	if i < 0 || j < 0 || i >= w.nx || j >= w.ny {
		return 0, false
	}
	m = j*w.nx + i
	return m, w.free[m] && !w.blocked[d%2][min(n, m)]
}

// nearest returns the free node nearest to p, -1 when none is within 8 steps.
func (w *walk) nearest(p plane.Point) int {
	c := w.cell(p)
	best, at := math.Inf(1), -1
	for j := int(c.Y) - 8; j <= int(c.Y)+9; j++ {
		for i := int(c.X) - 8; i <= int(c.X)+9; i++ {
			if i < 0 || j < 0 || i >= w.nx || j >= w.ny || !w.free[j*w.nx+i] {
				continue
			}
			if d := c.Dist(plane.Pt(float64(i), float64(j))); d < best {
				best, at = d, j*w.nx+i
			}
		}
	}
	return at
}

// reached returns the cheapest state at the node nearest to p, and its cost; far
// when p is not on a free node that can be reached.
func (w *walk) reached(p plane.Point) (state int, cost int32) {
	c := w.cell(p)
	i, j := int(math.Round(c.X)), int(math.Round(c.Y))
	state, cost = -1, far
	if i < 0 || j < 0 || i >= w.nx || j >= w.ny || c.Dist(plane.Pt(float64(i), float64(j))) > 0.51 {
		return state, cost
	}
	for d := range 4 {
		if s := 4*(j*w.nx+i) + d; w.cost[s] < cost {
			state, cost = s, w.cost[s]
		}
	}
	return state, cost
}

// way returns the cheapest way to a state, its corners only.
func (w *walk) way(state int) []plane.Point {
	var way []plane.Point
	for s := state; s >= 0; s = int(w.from[s]) {
		way = append(way, w.point(s/4))
	}
	slices.Reverse(way)
	return corners(way)
}

// corners drops the points of a line that lie straight between their neighbours.
func corners(pts []plane.Point) []plane.Point {
	out := pts[:1:1]
	for i := 1; i < len(pts); i++ {
		if i+1 < len(pts) {
			u, v := pts[i].Sub(out[len(out)-1]), pts[i+1].Sub(pts[i])
			if math.Abs(u.Cross(v)) < 1e-6*u.Norm()*v.Norm() && u.Dot(v) > 0 || v.Norm() < 1e-9 {
				continue
			}
		}
		out = append(out, pts[i])
	}
	return out
}
