package warmth

import (
	"math"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/plane"
)

// A line is a cable's way with the W that it gives off a mm.
type line struct {
	path  []plane.Point
	perMM float64
}

// A ground is a room's floor in square cells, a row of none all round it: that nothing
// lies beyond the floor needs no asking then.
type ground struct {
	plane.Raster
	rows  [][]plane.Span // of cells that are floor
	ways  []int8         // to how many neighbours heat goes on, cell by cell; -1: no floor
	power []float64      // W/m² of cell
	// shares are how much of each cell is floor; nil: all of it
	shares []float64
}

// Sizes of a ground: mm of a cell at most and in a spacing of the runs at least, and how
// many cells there are at most, which bounds the work: over some 400 m² cells are larger.
const (
	mostCell   = 10.0
	inSpacing  = 9.0
	mostCells  = 4_000_000
	beyondWall = 3 // cells on each side of the room
)

// newGround is the floor of a room in cells. Its error is that of openFloor.
func newGround(r *layout.Room, spacing float64) (*ground, error) {
	open, err := openFloor(r)
	if err != nil {
		return nil, err
	}
	box := r.Floor.Bounds()
	cell := math.Min(mostCell, spacing/inSpacing)
	cell = math.Max(cell, math.Sqrt(box.W()*box.H()/mostCells))
	by := plane.Pt(beyondWall*cell, beyondWall*cell)
	g := &ground{Raster: plane.RasterOver(plane.Rect{Min: box.Min.Sub(by), Max: box.Max.Add(by)}, cell)}
	g.rows = g.Rows(open)
	n := g.NX * g.NY
	g.ways, g.power = make([]int8, n), make([]float64, n)
	for c := range g.ways {
		g.ways[c] = -1
	}
	g.each(g.rows, func(c int) { g.ways[c] = 0 })
	g.joined()
	return g, nil
}

// openFloor is the tiled floor that nothing stands on, or only what is on legs. Below the
// rest no cable lies and no heat is given off, such as under a toilet on its tile.
func openFloor(r *layout.Room) (plane.Region, error) {
	var closed []plane.Region
	for _, s := range r.Job.Stands() {
		if !s.Open {
			closed = append(closed, plane.FromRing(s.Outline))
		}
	}
	all, err := plane.Union(closed...)
	if err != nil {
		return nil, err
	}
	return r.Tiled.Less(all)
}

// joined counts to how many neighbours heat goes on.
func (g *ground) joined() {
	g.each(g.rows, func(c int) {
		for _, next := range []int{c - 1, c + 1, c - g.NX, c + g.NX} {
			if g.ways[next] >= 0 {
				g.ways[c]++
			}
		}
	})
}

// each calls f with every cell of some rows.
func (g *ground) each(rows [][]plane.Span, f func(c int)) {
	for y, row := range rows {
		for _, s := range row {
			for c := y*g.NX + s.From; c <= y*g.NX+s.To; c++ {
				f(c)
			}
		}
	}
}

// deposit shares the heat of cables out to the cells. A short piece goes to the cells about
// its middle by a kernel that blurs it alike wherever it lies in its cell.
func (g *ground) deposit(lines []line) {
	for _, l := range lines {
		for _, s := range plane.Segments(l.path) {
			length := s.Length()
			n := int(math.Ceil(length / (g.Cell / 4)))
			for k := range n {
				g.give(s.A.Lerp(s.B, (float64(k)+0.5)/float64(n)), l.perMM*length/float64(n))
			}
		}
	}
}

// give gives some W to the floor about a place; beyond the floor it is lost.
func (g *ground) give(at plane.Point, watts float64) {
	p := at.Sub(g.Origin).Mul(1 / g.Cell)
	x, y := int(math.Floor(p.X)), int(math.Floor(p.Y))
	if x < 2 || y < 2 || x+3 > g.NX || y+3 > g.NY {
		return
	}
	across, along := kernel(p.X-float64(x)-0.5), kernel(p.Y-float64(y)-0.5)
	all := 0.0
	for j, v := range along {
		for i, u := range across {
			if g.ways[(y+j-2)*g.NX+x+i-2] >= 0 {
				all += float64(u * v)
			}
		}
	}
	if all <= 0 {
		return
	}
	perArea := watts / (g.Cell * g.Cell / plane.SquareMetre) / all
	for j, v := range along {
		for i, u := range across {
			if c := (y+j-2)*g.NX + x + i - 2; g.ways[c] >= 0 {
				g.power[c] += float64(perArea * u * v)
			}
		}
	}
}

// kernel shares out what lies d cells off the middle one of five: a quadratic spline, less
// 1/24 of its second difference. It takes as much from a wave in the floor,
// (wave cell)²/12, as cells add to it on its way.
func kernel(d float64) (out [5]float64) {
	spline := [7]float64{2: (0.5 - d) * (0.5 - d) / 2, 3: 0.75 - float64(d*d), 4: (0.5 + d) * (0.5 + d) / 2}
	for i := range out {
		out[i] = spline[i+1] - (spline[i]-2*spline[i+1]+spline[i+2])/24
	}
	return out
}

// worstWithin of what spreads is settled at least.
const worstWithin = 0.1

// surface returns the surface's rise over the air cell by cell, K to the tenth of a
// millikelvin, so that all machines agree.
func (g *ground) surface(s heat.Spreading) []float64 {
	out, whole := make([]float64, len(g.power)), 0.0
	for _, m := range s.Modes {
		whole += m.Gain
	}
	for _, m := range s.Modes {
		part := g.spread(m.Reach, min(worstWithin, settledShare*math.Abs(whole/m.Gain)))
		g.each(g.rows, func(c int) { out[c] += float64(m.Gain * part[c]) })
	}
	g.each(g.rows, func(c int) { out[c] = math.Round((s.Base+out[c])*1e4) / 1e4 })
	return out
}

// depositBlur is the mean square, in cells, by which deposit spreads heat before it begins to
// spread in the floor.
const depositBlur = 1.0 / 12

// How exactly the surface is worked out, as a share of its rise; in how many rounds at
// most; and how many cells a reach has at least where cells twice as wide will do.
const (
	settledShare = 2e-4
	mostRounds   = 400
	fineReach    = 16.0
)

// spread solves a - reach² (d²a/dx² + d²a/dy²) = power with no slope at the floor's edge to
// a share of its largest value, by successive over-relaxation, cells of either colour of a
// chessboard by turns (Young 1954: its factor and its rounds follow from the reach alone).
func (g *ground) spread(reach, within float64) []float64 {
	if reach >= fineReach*g.Cell {
		wide := g.coarser()
		return g.finer(wide, wide.spread(reach, within))
	}
	ratio := math.Max(0, float64(reach/g.Cell*reach/g.Cell)-depositBlur)
	jacobi := 4 * ratio / (1 + 4*ratio)
	over := 2 / (1 + math.Sqrt(1-float64(jacobi*jacobi)))
	rounds := 1
	if over > 1 {
		rounds = min(mostRounds, 2+int(math.Ceil(1.3*math.Log(within)/math.Log(over-1))))
	}
	a, by := make([]float64, len(g.power)), make([]float64, len(g.power))
	g.each(g.rows, func(c int) { by[c] = over / (g.share(c) + float64(ratio*float64(g.ways[c]))) })
	for range rounds {
		for colour := range 2 {
			g.relax(a, by, ratio, over, colour)
		}
	}
	return a
}

// share is how much of a cell is floor.
func (g *ground) share(c int) float64 {
	if g.shares == nil {
		return 1
	}
	return g.shares[c]
}

// relax goes over the cells of one colour once; by is what a cell's heat is multiplied by. A
// neighbour that is no floor stays 0 and adds nothing.
func (g *ground) relax(a, by []float64, ratio, over float64, colour int) {
	nx := g.NX
	for y, row := range g.rows {
		for _, s := range row {
			from := y * nx
			for c := from + s.From + (s.From+y+colour)&1; c <= from+s.To; c += 2 {
				in := g.power[c] + float64(ratio*(a[c-1]+a[c+1]+a[c-nx]+a[c+nx]))
				a[c] = float64((1-over)*a[c]) + float64(by[c]*in)
			}
		}
	}
}

// over returns the mean and the standard deviation of the surface over a region.
func (g *ground) over(r plane.Region, surface []float64) (mean, spread float64) {
	rows, n := g.Rows(r), 0.0
	g.each(rows, func(c int) { mean, n = mean+surface[c], n+1 })
	if n == 0 {
		return 0, 0
	}
	mean /= n
	g.each(rows, func(c int) { spread += float64((surface[c] - mean) * (surface[c] - mean)) })
	return mean, math.Sqrt(spread / n)
}
