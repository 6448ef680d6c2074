package warmth

import "oxturn/layout/plane"

// coarser returns the ground in cells twice as wide, each floor where any of its four is.
func (g *ground) coarser() *ground {
	wide := 2 * g.Cell
	out := &ground{Raster: plane.Raster{Origin: g.Origin.Sub(plane.Pt(wide, wide)), Cell: wide,
		NX: (g.NX+1)/2 + 2, NY: (g.NY+1)/2 + 2}}
	n := out.NX * out.NY
	out.ways, out.power, out.rows = make([]int8, n), make([]float64, n), make([][]plane.Span, out.NY)
	for c := range out.ways {
		out.ways[c] = -1
	}
	out.shares = make([]float64, n)
	g.each(g.rows, func(c int) {
		to := out.holding(g, c)
		out.shares[to] += g.share(c) / 4
		out.power[to] += g.power[c] / 4
		out.ways[to] = 0
	})
	for y := range out.NY {
		for x := range out.NX {
			if out.ways[y*out.NX+x] < 0 {
				continue
			}
			if row := out.rows[y]; len(row) > 0 && row[len(row)-1].To == x-1 {
				row[len(row)-1].To = x
			} else {
				out.rows[y] = append(row, plane.Span{From: x, To: x})
			}
		}
	}
	out.joined()
	return out
}

// holding returns the cell of a coarser ground that a cell of the finer one lies in: a row of none has
// come before it.
func (g *ground) holding(fine *ground, c int) int {
	return (c/fine.NX/2+1)*g.NX + c%fine.NX/2 + 1
}

// finer returns in g's cells what its coarser ground has, between the four nearest of its
// cells that are floor.
func (g *ground) finer(from *ground, a []float64) []float64 {
	out := make([]float64, len(g.power))
	g.each(g.rows, func(c int) {
		x, y := c%g.NX, c/g.NX
		at := from.holding(g, c)
		dx, dy := 2*(x&1)-1, (2*(y&1)-1)*from.NX
		sum, weight := 9*a[at], 9.0
		for _, o := range [3]struct {
			cell  int
			share float64
		}{{at + dx, 3}, {at + dy, 3}, {at + dx + dy, 1}} {
			if from.ways[o.cell] >= 0 {
				sum, weight = sum+float64(o.share*a[o.cell]), weight+o.share
			}
		}
		out[c] = sum / weight
	})
	return out
}
