package route

import (
	"cmp"
	"slices"

	"oxturn/layout/plane"
)

// pockets returns the floor that a path leaves alone, in grids of its parts: all their
// pegs lie gap pegs across the rows or more from the path, and a turn has room in each. The
// largest comes first.
func (g *grid) pockets(path []node, gap int, rule *rules) []*grid {
	taken := g.beside(path, gap, rule.flat)
	rest := &grid{nx: g.nx, ny: g.ny, lattice: g.lattice, turns: g.turns, ox: g.ox, oy: g.oy}
	rest.rows = cutOut(g.rows, func(y, x int) bool { return taken[y*g.nx+x] })
	rest.cols = cutOut(g.cols, func(x, y int) bool { return taken[y*g.nx+x] })
	rest.count()
	var out []*grid
	for _, p := range rest.connected() {
		if p.nx > rule.x.turnBack && p.ny > rule.y.turnBack {
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(a, b *grid) int { return cmp.Compare(b.free, a.free) })
	return out
}

// beside marks the pegs that lie closer than gap pegs across the rows to the path, y*nx+x; a peg along
// the rows is flat of those.
func (g *grid) beside(path []node, gap int, flat float64) []bool {
	out := make([]bool, g.nx*g.ny)
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		x0, x1, y0, y1 := min(a.x, b.x), max(a.x, b.x), min(a.y, b.y), max(a.y, b.y)
		for y := max(0, y0-gap+1); y <= min(g.ny-1, y1+gap-1); y++ {
			dy := max(0, y0-y, y-y1)
			dx := 0
			for float64(dx+1)*flat*float64(dx+1)*flat < float64(gap*gap-dy*dy)-plane.Whit {
				dx++
			}
			for x := max(0, x0-dx); x <= min(g.nx-1, x1+dx); x++ {
				out[y*g.nx+x] = true
			}
		}
	}
	return out
}

// cutOut cuts the taken pegs out of the spans of some lines.
func cutOut(lines [][]span, taken func(line, at int) bool) [][]span {
	out := make([][]span, len(lines))
	for i, line := range lines {
		for _, s := range line {
			from := s.a
			for k := s.a; k <= s.b+1; k++ {
				if k <= s.b && !taken(i, k) {
					continue
				}
				if k > from {
					out[i] = append(out[i], span{from, k - 1})
				}
				from = k + 1
			}
		}
	}
	return out
}

// connected returns a grid of each part that hangs together, as large as it must be.
func (g *grid) connected() []*grid {
	part := make([]int, g.nx*g.ny)
	var out []*grid
	for y, row := range g.rows {
		for _, s := range row {
			if part[y*g.nx+s.a] == 0 {
				n := len(out) + 1
				out = append(out, g.cut(g.flood(node{s.a, y}, part, n),
					func(x, y int) bool { return part[y*g.nx+x] == n }))
			}
		}
	}
	return out
}

// A pegBox is a range of pegs, its ends included.
type pegBox struct{ lo, hi node }

// flood marks all pegs that hang together with one by n and returns the box round them.
func (g *grid) flood(from node, part []int, n int) pegBox {
	box := pegBox{from, from}
	part[from.y*g.nx+from.x] = n
	for todo := []node{from}; len(todo) > 0; {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		box.lo = node{min(box.lo.x, at.x), min(box.lo.y, at.y)}
		box.hi = node{max(box.hi.x, at.x), max(box.hi.y, at.y)}
		for _, to := range [...]node{{at.x - 1, at.y}, {at.x + 1, at.y}, {at.x, at.y - 1}, {at.x, at.y + 1}} {
			if g.inside(to.x, to.y) && part[to.y*g.nx+to.x] == 0 && g.holds(at, to) {
				part[to.y*g.nx+to.x] = n
				todo = append(todo, to)
			}
		}
	}
	return box
}

// cut returns the grid of the pegs in a box that are kept.
func (g *grid) cut(box pegBox, kept func(x, y int) bool) *grid {
	out := &grid{nx: box.hi.x - box.lo.x + 1, ny: box.hi.y - box.lo.y + 1, lattice: g.lattice, turns: g.turns,
		ox: g.ox + box.lo.x, oy: g.oy + box.lo.y}
	out.rows = shifted(g.rows[box.lo.y:box.hi.y+1], box.lo.x, func(y, x int) bool { return kept(x, y+box.lo.y) })
	out.cols = shifted(g.cols[box.lo.x:box.hi.x+1], box.lo.y, func(x, y int) bool { return kept(x+box.lo.x, y) })
	out.count()
	return out
}

// shifted returns the spans whose first peg is kept, each by so many pegs nearer to 0.
func shifted(lines [][]span, by int, kept func(line, at int) bool) [][]span {
	out := make([][]span, len(lines))
	for i, line := range lines {
		for _, s := range line {
			if kept(i, s.a) {
				out[i] = append(out[i], span{s.a - by, s.b - by})
			}
		}
	}
	return out
}

// across returns the grid with its runs along the other axis.
func (g *grid) across() *grid {
	out := &grid{nx: g.ny, ny: g.nx, lattice: g.lattice, turns: g.turns + 1, ox: g.oy, oy: -(g.ox + g.nx - 1)}
	for y := range out.ny {
		out.rows = append(out.rows, slices.Clone(g.cols[g.nx-1-y]))
	}
	for x := range out.nx {
		var line []span
		for _, s := range slices.Backward(g.rows[x]) {
			line = append(line, span{g.nx - 1 - s.b, g.nx - 1 - s.a})
		}
		out.cols = append(out.cols, line)
	}
	out.count()
	return out
}

// from returns the node of another grid over the same lattice as one of this.
func (g *grid) from(h *grid, n node) node {
	x, y := g.turns.there(h.turns.back(float64(n.x+h.ox), float64(n.y+h.oy)))
	return node{int(x) - g.ox, int(y) - g.oy}
}
