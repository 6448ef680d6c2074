package route

import (
	"math"

	"oxturn/layout/plane"
)

// taken tells what lies in a cell of a leadGround.
type taken uint8

const (
	onFloor taken = 1 << iota // where a lead may go at all
	inShare                   // where heating cable may lie
	byRim                     // a wall, or the rim of what stands on the floor
	byCable
	byLying // what lay there before the leads
	byLead
	byJoint
)

// A leadGround is the floor that cold leads cross, in cells with what lies in
// each. Large floors have millions of cells and a lead comes to few of them, so
// they are worked out a tile at a time, once a search comes there.
type leadGround struct {
	floor          plane.Region
	entry          plane.Point
	origin         plane.Point
	cell           float64 // mm
	nx, ny         int
	inside, shares [][]plane.Span // by row of cells
	lines          []groundLine
	fixed          int // how many of the lines are no leads
	across         int // tiles in a row of them
	tiles          []*tile
	near           [][]int32 // by tile, the lines in it or close by
	withLeads      []int     // tiles that leads come to
	stamp          uint32    // of the search that is under way
	work           *int      // looks at cells that are left, nil for any number
	looks          int       // so far
}

// A groundLine is a line that a lead keeps off.
type groundLine struct {
	plane.Segment
	box  plane.Rect
	what taken
	at   plane.Point // the lead joint that it goes round
}

// tileSide is how many cells go along a tile.
const tileSide = 64

// A tile is a square of cells with what the last searches noted there.
type tile struct {
	taken [tileSide * tileSide]taken
	notes *[tileSide * tileSide]note
	flood *flood
}

// A note is what a search knows of a cell.
type note struct {
	cost  int32
	stamp uint32 // of the search that wrote it
	back  int8   // the step by which it was reached, -1 for none
}

// A flood is which cells of a tile hang together with either end, by row.
type flood struct {
	stamp uint32 // of the search that wrote it
	by    [2][tileSide]uint64
}

// floodOf returns the tile's flood of a search.
func (t *tile) floodOf(stamp uint32) *flood {
	switch {
	case t.flood == nil:
		t.flood = &flood{stamp: stamp}
	case t.flood.stamp != stamp:
		*t.flood = flood{stamp: stamp}
	}
	return t.flood
}

// closeBy is how far, in mm, a line matters beside itself.
const closeBy = 12.0

// newLeadGround lays cells over a floor; leads go to entry.
func newLeadGround(floor plane.Region, shares []plane.Region, entry plane.Point, cell float64) *leadGround {
	cells := plane.RasterOver(floor.Bounds(), cell)
	g := &leadGround{floor: floor, entry: entry, origin: cells.Origin, cell: cell, nx: cells.NX, ny: cells.NY}
	g.inside = cells.Rows(floor)
	g.shares = make([][]plane.Span, g.ny)
	for _, s := range shares {
		for y, row := range cells.Rows(s) {
			g.shares[y] = append(g.shares[y], row...)
		}
	}
	g.across = (g.nx + tileSide - 1) / tileSide
	g.tiles = make([]*tile, g.across*((g.ny+tileSide-1)/tileSide))
	g.near = make([][]int32, len(g.tiles))
	for _, r := range floor.Rings() {
		g.add(byRim, plane.Point{}, append(r[:len(r):len(r)], r[0]))
	}
	return g
}

// add takes a line in that leads keep off.
func (g *leadGround) add(what taken, at plane.Point, pts []plane.Point) {
	for _, s := range plane.Segments(pts) {
		g.lines = append(g.lines, groundLine{s, s.Bounds(), what, at})
		k := int32(len(g.lines) - 1)
		g.tilesBy(s, closeBy, func(t int) {
			g.near[t] = append(g.near[t], k)
			if what == byLead {
				g.withLeads = append(g.withLeads, t)
			}
			if g.tiles[t] != nil {
				g.mark(t, &g.lines[k])
			}
		})
	}
}

// addLead takes a lead in; leads share the entry.
func (g *leadGround) addLead(what taken, pts []plane.Point) {
	if len(pts) > 1 {
		from := plane.Segment{A: pts[0], B: pts[1]}.At(leadFan)
		g.add(what, plane.Point{}, append([]plane.Point{from}, pts[1:]...))
	}
}

// clearLeads takes the leads out again.
func (g *leadGround) clearLeads() {
	for _, t := range g.withLeads {
		k := len(g.near[t])
		for k > 0 && int(g.near[t][k-1]) >= g.fixed {
			k--
		}
		g.near[t] = g.near[t][:k]
		if g.tiles[t] != nil {
			for i := range g.tiles[t].taken {
				g.tiles[t].taken[i] &^= byLead
			}
		}
	}
	g.lines, g.withLeads = g.lines[:g.fixed], g.withLeads[:0]
}

// tilesBy goes through the tiles that come within d mm of a line.
func (g *leadGround) tilesBy(s plane.Segment, d float64, do func(t int)) {
	side := g.cell * tileSide
	down := len(g.tiles) / g.across
	box := s.Bounds()
	y0 := max(0, int(math.Floor((box.Min.Y-d-g.origin.Y)/side)))
	y1 := min(down-1, int(math.Floor((box.Max.Y+d-g.origin.Y)/side)))
	for y := y0; y <= y1; y++ {
		from, to := withinRow(s, g.origin.Y+(float64(y)+0.5)*side, side/2+d)
		x0 := max(0, int(math.Floor((from-d-g.origin.X)/side)))
		x1 := min(g.across-1, int(math.Floor((to+d-g.origin.X)/side)))
		for x := x0; x <= x1; x++ {
			do(y*g.across + x)
		}
	}
}

// withinRow returns from where to where along x a line lies within d mm of y.
func withinRow(l plane.Segment, y, d float64) (from, to float64) {
	s, t := 0.0, 1.0
	if h := l.B.Y - l.A.Y; math.Abs(h) > plane.Whit {
		a, b := (y-d-l.A.Y)/h, (y+d-l.A.Y)/h
		s, t = max(0, min(1, min(a, b))), max(0, min(1, max(a, b)))
	}
	a, b := l.A.Lerp(l.B, s).X, l.A.Lerp(l.B, t).X
	return min(a, b), max(a, b)
}

// tileAt returns the tile of cell (x, y), worked out now if it was not before,
// and the cell's place in it.
func (g *leadGround) tileAt(x, y int) (*tile, int) {
	k := int(uint(y)/tileSide)*g.across + int(uint(x)/tileSide)
	if g.tiles[k] == nil {
		g.tiles[k] = &tile{}
		g.fill(k)
	}
	return g.tiles[k], int(uint(y)%tileSide*tileSide + uint(x)%tileSide)
}

// fill works a tile out.
func (g *leadGround) fill(k int) {
	x0, y0 := k%g.across*tileSide, k/g.across*tileSide
	t := g.tiles[k]
	for y := y0; y < min(y0+tileSide, g.ny); y++ {
		for what, rows := range [2][][]plane.Span{g.inside, g.shares} {
			for _, s := range rows[y] {
				for x := max(x0, s.From); x <= min(x0+tileSide-1, s.To); x++ {
					t.taken[(y-y0)*tileSide+x-x0] |= onFloor << what
				}
			}
		}
	}
	for _, l := range g.near[k] {
		g.mark(k, &g.lines[l])
	}
}

// halfDiagonal of a cell is just over half its diagonal.
const halfDiagonal = 0.72

// mark notes a line in all cells of a tile so near to it that two open
// neighbours can't have it between them.
func (g *leadGround) mark(k int, l *groundLine) {
	near := halfDiagonal * g.cell
	if l.what&(byLead|byCable) != 0 {
		near = max(near, leadThick+1)
	}
	x0, y0 := k%g.across*tileSide, k/g.across*tileSide
	t := g.tiles[k]
	low, high := int((l.box.Min.Y-g.origin.Y)/g.cell)-1, int((l.box.Max.Y-g.origin.Y)/g.cell)+1
	for y := max(y0, low); y <= min(y0+tileSide-1, high); y++ {
		from, to := withinRow(l.Segment, g.centre(0, y).Y, near)
		a, b := int((from-g.origin.X)/g.cell)-1, int((to-g.origin.X)/g.cell)+1
		for x := max(x0, a); x <= min(x0+tileSide-1, b); x++ {
			if i := (y-y0)*tileSide + x - x0; t.taken[i]&l.what == 0 && l.Distance(g.centre(x, y)) < near {
				t.taken[i] |= l.what
			}
		}
	}
}

func (g *leadGround) centre(x, y int) plane.Point {
	return g.origin.Add(plane.Pt((float64(x)+0.5)*g.cell, (float64(y)+0.5)*g.cell))
}

// eachNear goes through the lines close by a straight piece until one is not
// passed; it may come to a line more than once.
func (g *leadGround) eachNear(s plane.Segment, passes func(l *groundLine) bool) bool {
	ok := true
	g.tilesBy(s, 0, func(t int) {
		for _, k := range g.near[t] {
			if !ok {
				return
			}
			ok = passes(&g.lines[k])
		}
	})
	return ok
}
