package route

import (
	"math"
	"sort"

	"oxturn/layout/plane"
)

// A span is a stretch of pegs on one line, both ends included.
type span struct{ a, b int }

func (s span) width() int { return s.b - s.a }

// A grid is one zone in whole pegs, turned so that its rows are the
// direction of the runs. Row y, column x; (0, 0) is the zone's low corner.
type grid struct {
	nx, ny  int
	rows    [][]span  // per row, where cable may run along it
	cols    [][]span  // per column, where cable may run across the rows
	up      [][]int16 // [y][x]: pegs a link may go from (x, y) towards greater y; -1 outside
	lattice Lattice
	turns   turns // from the lattice's axes to the grid's
	ox, oy  int   // lattice coordinates of (0, 0), in the grid's own axes
	wide    []int // pegs inside, per row
	below   []int // the same from each row on
	free    int   // and in all
}

// A turns is a number of quarter turns: the runs lie along the lattice's first
// axis or, if it is odd, along the second; 2 and 3 begin at the other side.
type turns int

// there turns lattice coordinates into the grid's.
func (t turns) there(u, v float64) (x, y float64) {
	for range t {
		u, v = v, -u
	}
	return u, v
}

// back turns grid coordinates into the lattice's.
func (t turns) back(x, y float64) (u, v float64) {
	for range t {
		x, y = -y, x
	}
	return x, y
}

// pegSlop is how far in mm a peg may lie outside the zone by rounding of the
// clearance line's chords.
const pegSlop = 0.3

// newGrid marks where cable may run on the lattice lines inside zone.
func newGrid(zone plane.Region, l Lattice, t turns) *grid {
	g := &grid{lattice: l, turns: t}
	rings := g.turned(zone)
	box := plane.Rect{Min: plane.Pt(math.Inf(1), math.Inf(1)), Max: plane.Pt(math.Inf(-1), math.Inf(-1))}
	for _, r := range rings {
		box = box.Union(r.Bounds())
	}
	if len(rings) == 0 {
		return g
	}
	epsX, epsY := pegSlop/g.pitchX(), pegSlop/g.pitchY()
	g.ox, g.oy = int(math.Ceil(box.Min.X-epsX)), int(math.Ceil(box.Min.Y-epsY))
	g.nx, g.ny = int(math.Floor(box.Max.X+epsX))-g.ox+1, int(math.Floor(box.Max.Y+epsY))-g.oy+1
	if g.nx <= 0 || g.ny <= 0 {
		g.nx, g.ny = 0, 0
		return g
	}
	for _, r := range rings {
		for i := range r {
			r[i] = r[i].Sub(plane.Pt(float64(g.ox), float64(g.oy)))
		}
	}
	g.rows = lines(rings, g.ny, epsY, epsX, false)
	g.cols = lines(rings, g.nx, epsX, epsY, true)
	g.count()
	return g
}

// turned returns the zone's rings in pegs in the grid's axes.
func (g *grid) turned(zone plane.Region) []plane.Ring {
	var out []plane.Ring
	for _, r := range zone.Rings() {
		t := make(plane.Ring, len(r))
		for i, p := range r {
			t[i] = plane.Pt(g.turns.there(g.lattice.ToPegs(p)))
		}
		out = append(out, t)
	}
	return out
}

// pitchX is peg to peg along the rows, mm.
func (g *grid) pitchX() float64 {
	if g.turns%2 != 0 {
		return g.lattice.across()
	}
	return g.lattice.Pitch
}

// pitchY is peg to peg across the rows, mm.
func (g *grid) pitchY() float64 {
	if g.turns%2 != 0 {
		return g.lattice.Pitch
	}
	return g.lattice.across()
}

// world returns the floor point of a place in the grid.
func (g *grid) world(x, y float64) plane.Point {
	return g.lattice.ToWorld(g.turns.back(x+float64(g.ox), y+float64(g.oy)))
}

// place returns the grid coordinates of a floor point.
func (g *grid) place(p plane.Point) (x, y float64) {
	u, v := g.turns.there(g.lattice.ToPegs(p))
	return u - float64(g.ox), v - float64(g.oy)
}

// lines returns the spans inside the rings on n lattice lines. A line counts
// as inside where either of two lines eps beside it is, so that a line lying
// on an edge is not lost to rounding, and a peg where it is as little as along beyond one.
func lines(rings []plane.Ring, n int, eps, along float64, upright bool) [][]span {
	if upright {
		rings = plane.Transposed(rings)
	}
	lo, hi := plane.Across(rings, n, -eps), plane.Across(rings, n, eps)
	out := make([][]span, n)
	for i := range out {
		out[i] = whole(merge(lo[i], hi[i]), along)
	}
	return out
}

// merge returns the union of two sorted lists of intervals.
func merge(a, b [][2]float64) [][2]float64 {
	all := append(append([][2]float64(nil), a...), b...)
	sort.Slice(all, func(i, j int) bool { return all[i][0] < all[j][0] })
	var out [][2]float64
	for _, s := range all {
		if k := len(out) - 1; k >= 0 && s[0] <= out[k][1] {
			out[k][1] = math.Max(out[k][1], s[1])
			continue
		}
		out = append(out, s)
	}
	return out
}

// whole rounds intervals inwards to pegs.
func whole(in [][2]float64, eps float64) []span {
	var out []span
	for _, s := range in {
		a, b := int(math.Ceil(s[0]-eps)), int(math.Floor(s[1]+eps))
		if b >= a {
			out = append(out, span{a, b})
		}
	}
	return out
}

// count fills in the link lengths and the peg counts.
func (g *grid) count() {
	g.up = make([][]int16, g.ny)
	flat := make([]int16, g.nx*g.ny)
	for i := range flat {
		flat[i] = -1
	}
	for y := range g.up {
		g.up[y] = flat[y*g.nx : (y+1)*g.nx]
	}
	for x, col := range g.cols {
		for _, s := range col {
			for y := max(0, s.a); y <= min(s.b, g.ny-1); y++ {
				g.up[y][x] = int16(min(s.b, g.ny-1) - y)
			}
		}
	}
	g.wide = make([]int, g.ny)
	for y, row := range g.rows {
		for i, s := range row {
			row[i] = span{max(0, s.a), min(s.b, g.nx-1)}
			g.wide[y] += row[i].width() + 1
		}
		g.free += g.wide[y]
	}
	g.below = make([]int, g.ny+1)
	for y := g.ny - 1; y >= 0; y-- {
		g.below[y] = g.below[y+1] + g.wide[y]
	}
}

// inside reports whether peg (x, y) may hold cable.
func (g *grid) inside(x, y int) bool {
	if x < 0 || y < 0 || x >= g.nx || y >= g.ny {
		return false
	}
	return g.spanAt(x, y) >= 0
}

// spanAt returns the index of the span of row y that holds x, or -1.
func (g *grid) spanAt(x, y int) int {
	for i, s := range g.rows[y] {
		if x >= s.a && x <= s.b {
			return i
		}
	}
	return -1
}

// strip returns the columns in which a link may go from row y to row y+gap.
func (g *grid) strip(y, gap int) []span {
	var out []span
	if y+gap >= g.ny || gap == 0 {
		return nil
	}
	start := -1
	for x := range g.nx + 1 {
		ok := x < g.nx && int(g.up[y][x]) >= gap && g.inside(x, y) && g.inside(x, y+gap)
		switch {
		case ok && start < 0:
			start = x
		case !ok && start >= 0:
			out = append(out, span{start, x - 1})
			start = -1
		}
	}
	return out
}
