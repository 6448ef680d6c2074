package route

import (
	"math"

	"oxturn/layout/plane"
)

// A strip is the floor outside all zones: the border between wall and
// clearance line, joints, and the rims of fixtures. A cold lead may run
// there and meet no heating cable. It is a raster of small cells with the
// length of the shortest lead to each.
type strip struct {
	origin plane.Point
	cell   float64 // mm
	nx, ny int
	lead   []float64 // mm from the entry, infinite where a lead can't go
	back   []int32   // the cell before on the shortest lead
	entry  plane.Point
}

const (
	stripCell = 15.0 // mm
	fineCell  = 5.0  // where leads are to lie close side by side
)

// newStrip measures the leads from entry over floor outside zones.
func newStrip(floor plane.Region, zones []plane.Region, entry plane.Point) *strip {
	cells := plane.RasterOver(floor.Bounds(), stripCell)
	s := &strip{origin: cells.Origin, cell: stripCell, nx: cells.NX, ny: cells.NY, entry: entry}
	open := marked(cells.Rows(floor), s.nx)
	for _, z := range zones {
		for i, in := range marked(cells.Rows(z), s.nx) {
			open[i] = open[i] && !in
		}
	}
	s.spread(open)
	return s
}

// stride is the way in mm from a cell to a neighbour.
func (s *strip) stride(dx, dy int) float64 {
	if dx != 0 && dy != 0 {
		return s.cell * math.Sqrt2
	}
	return s.cell
}

func (s *strip) centre(i int) plane.Point {
	return s.origin.Add(plane.Pt((float64(i%s.nx)+0.5)*s.cell, (float64(i/s.nx)+0.5)*s.cell))
}

// marked reports for each cell, a row of nx after the other, whether it is in rows.
func marked(rows [][]plane.Span, nx int) []bool {
	out := make([]bool, len(rows)*nx)
	for y, row := range rows {
		for _, s := range row {
			for x := s.From; x <= s.To; x++ {
				out[y*nx+x] = true
			}
		}
	}
	return out
}

// spread fills in the shortest leads (Dijkstra, eight neighbours).
func (s *strip) spread(open []bool) {
	s.lead = make([]float64, len(open))
	s.back = make([]int32, len(open))
	for i := range s.lead {
		s.lead[i], s.back[i] = math.Inf(1), -1
	}
	q := &heap[stripCellAt]{}
	for i, ok := range open {
		if d := s.centre(i).Dist(s.entry); ok && d < nearEntry {
			s.lead[i] = d
			q.push(stripCellAt{d, int32(i)})
		}
	}
	for len(*q) > 0 {
		c := q.pop()
		if c.d > s.lead[c.i] {
			continue
		}
		s.relax(open, c, q)
	}
}

func (s *strip) relax(open []bool, c stripCellAt, q *heap[stripCellAt]) {
	x, y := int(c.i)%s.nx, int(c.i)/s.nx
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			a, b := x+dx, y+dy
			if a < 0 || b < 0 || a >= s.nx || b >= s.ny || !open[b*s.nx+a] || !open[y*s.nx+a] || !open[b*s.nx+x] {
				continue // outside, or over a corner
			}
			d := c.d + s.stride(dx, dy)
			if j := b*s.nx + a; d < s.lead[j]-plane.Whit {
				s.lead[j], s.back[j] = d, c.i
				q.push(stripCellAt{d, int32(j)})
			}
		}
	}
}

// leadTo is the length in mm of the shortest lead to p on the rim of a zone,
// infinite when the strip doesn't come near p.
func (s *strip) leadTo(p plane.Point) float64 {
	d, _ := s.nearest(p)
	return d
}

// besideCells cells from a strip a lead lies beside it.
const besideCells = 2.5

// nearest returns the lead's length to p and the strip cell it comes by, -1
// for none within a hand's breadth.
func (s *strip) nearest(p plane.Point) (float64, int) {
	best, cell := math.Inf(1), -1
	cx, cy := int((p.X-s.origin.X)/s.cell), int((p.Y-s.origin.Y)/s.cell)
	const k = 3
	for y := max(0, cy-k); y <= min(s.ny-1, cy+k); y++ {
		for x := max(0, cx-k); x <= min(s.nx-1, cx+k); x++ {
			i := y*s.nx + x
			if math.IsInf(s.lead[i], 1) {
				continue
			}
			off := s.centre(i).Dist(p)
			if d := s.lead[i] + off; off < besideCells*s.cell && d < best {
				best, cell = d, i
			}
		}
	}
	return best, cell
}

// A stripCellAt is a cell of a strip with the length of the lead to it.
type stripCellAt struct {
	d float64
	i int32
}

// before puts the nearest cell first, of equals that of the lower number.
func (a stripCellAt) before(b stripCellAt) bool { return a.d < b.d || a.d == b.d && a.i < b.i }
