package layout

import (
	"container/heap"
	"math"

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
	blocked map[[2]int]bool // steps that cross a barrier, by node pair
	cost    []float64
	from    []int
}

// newWalk lays the grid over the floor, its nodes in step with origin.
func newWalk(floor plane.Region, origin plane.Point, angle, step float64) *walk {
	w := &walk{floor: floor, angle: angle, step: step, blocked: map[[2]int]bool{}}
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
		y := float64(j)*w.step + 1e-7
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
	for _, d := range [...][2]int{{1, 0}, {0, 1}} {
		if i+d[0] < w.nx && j+d[1] < w.ny && s.Meets(plane.Segment{A: here, B: here.Add(plane.Pt(float64(d[0]), float64(d[1])))}) {
			w.blocked[[2]int{n, n + d[1]*w.nx + d[0]}] = true
		}
	}
}

// turnCost, in steps, keeps a lead straight rather than staircase-like.
const turnCost = 3

// run finds the cheapest way from start to every node; a state is a node and
// the direction it was entered by, so that turns can be charged for.
func (w *walk) run(start plane.Point) {
	w.cost = make([]float64, 4*len(w.free))
	w.from = make([]int, 4*len(w.free))
	for i := range w.cost {
		w.cost[i], w.from[i] = math.Inf(1), -1
	}
	q := &frontier{}
	if n := w.nearest(start); n >= 0 {
		for d := range 4 {
			w.cost[4*n+d] = 0
			heap.Push(q, visit{0, 4*n + d})
		}
	}
	for q.Len() > 0 {
		v := heap.Pop(q).(visit)
		if v.cost > w.cost[v.state] {
			continue
		}
		w.spread(q, v)
	}
}

func (w *walk) spread(q *frontier, v visit) {
	n, entered := v.state/4, v.state%4
	i, j := n%w.nx, n/w.nx
	for d, step := range [...][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		a, b := i+step[0], j+step[1]
		if a < 0 || b < 0 || a >= w.nx || b >= w.ny {
			continue
		}
		m := b*w.nx + a
		if !w.free[m] || w.blocked[[2]int{min(n, m), max(n, m)}] {
			continue
		}
		c := v.cost + 1
		if d != entered {
			c += turnCost
		}
		if s := 4*m + d; c < w.cost[s] {
			w.cost[s], w.from[s] = c, v.state
			heap.Push(q, visit{c, s})
		}
	}
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

// reach returns the cheapest way to the node at p, its corners only, or nil
// when p is not a free node that can be reached.
func (w *walk) reach(p plane.Point) (way []plane.Point, cost float64) {
	c := w.cell(p)
	i, j := int(math.Round(c.X)), int(math.Round(c.Y))
	if i < 0 || j < 0 || i >= w.nx || j >= w.ny || c.Dist(plane.Pt(float64(i), float64(j))) > 0.51 {
		return nil, 0
	}
	state, cost := -1, math.Inf(1)
	for d := range 4 {
		if s := 4*(j*w.nx+i) + d; w.cost[s] < cost {
			state, cost = s, w.cost[s]
		}
	}
	if state < 0 {
		return nil, 0
	}
	for s := state; s >= 0; s = w.from[s] {
		way = append(way, w.point(s/4))
	}
	for a, b := 0, len(way)-1; a < b; a, b = a+1, b-1 {
		way[a], way[b] = way[b], way[a]
	}
	return corners(way), cost
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

type visit struct {
	cost  float64
	state int
}

// frontier is a heap of visits, cheapest first; ties by state, so that the way
// found does not depend on chance.
type frontier []visit

func (f frontier) Len() int { return len(f) }
func (f frontier) Less(i, j int) bool {
	return f[i].cost < f[j].cost || f[i].cost == f[j].cost && f[i].state < f[j].state
}
func (f frontier) Swap(i, j int) { f[i], f[j] = f[j], f[i] }

// Push and Pop are for container/heap.
func (f *frontier) Push(x any) { *f = append(*f, x.(visit)) }

// Pop removes the last visit.
func (f *frontier) Pop() any {
	old := *f
	v := old[len(old)-1]
	*f = old[:len(old)-1]
	return v
}
