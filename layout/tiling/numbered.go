package tiling

import (
	"math"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A Place names one tile of a room: rows are counted across the grid, to the
// left of its rows' direction, columns along them, both from 1. A tile that is
// cut off by something on the floor counts as well.
type Place struct {
	Row    int `json:"row"`
	Column int `json:"column"`
}

// A Numbered is a grid over one room with its tiles numbered.
type Numbered struct {
	Grid  Grid
	First int // the grid's own number of row 1
	Rows  []TileRow

	reach span // of the floor across the rows
}

// A TileRow is one row of tiles: the grid's own number of its column 1,
// and how many columns there are.
type TileRow struct {
	First, Count int

	reach span // of the floor along the row
}

// A span is from where to where a floor reaches in a grid's frame, mm.
type span struct{ low, high float64 }

func (s span) holds(v float64) bool { return v >= s.low && v <= s.high }

// leastCut is the width under which no piece is cut from a tile, mm: what is narrower at a
// wall is left to its joint and the skirting (common practice).
func leastCut(tile float64) float64 { return min(10, tile/4) }

// Number numbers the tiles of a room as they were set out: first runs from a
// corner of a whole tile along its row, the tile to the left of it. A strip at a wall too
// narrow for a tile is no row: whoever counts from the wall does not see it. ok is false
// when they are not laid in rows, or are too many to number.
func Number(room plane.Region, t job.Tile, first plane.Segment) (out Numbered, ok bool) {
	g, _ := gridFor(t, 0)
	run := first.B.Sub(first.A)
	g.Origin, g.Angle = first.A, plane.Atan2(run.Y, run.X)
	if !InRows(t) || first.Length() == 0 {
		return out, false
	}
	return g.numbered(room, plane.Pt(leastCut(g.Length), leastCut(g.Width)))
}

// numbered numbers the tiles of a grid in rows, but for pieces narrower than cut, along the
// rows and across.
func (g Grid) numbered(room plane.Region, cut plane.Point) (out Numbered, ok bool) {
	return g.numberedOn(withoutSlivers(room), cut)
}

// numberedOn is numbered on a floor without slivers.
func (g Grid) numberedOn(floor plane.Region, cut plane.Point) (out Numbered, ok bool) {
	if !usable(g.Length) || !usable(g.Width) || g.Length < narrowestCut || g.Width < narrowestCut {
		return out, false
	}
	s := plane.FaceOf(floor, g.Origin, g.Angle)
	box := s.Bounds()
	across, along := g.Width+g.Joint, g.Length+g.Joint
	if cells := (box.W()/along + 2) * (box.H()/across + 2); !(cells < maxCells) {
		return out, false
	}
	half := g.Joint / 2 // a tile's place reaches to the middle of the joints round it, as in At
	narrow := plane.Pt(max(narrowestCut, cut.X+half-plane.Hair), max(narrowestCut, cut.Y+half-plane.Hair))
	out = Numbered{Grid: g, First: int(math.Floor((box.Min.Y + half + narrow.Y) / across)),
		reach: span{box.Min.Y, box.Max.Y}}
	for row := out.First; float64(float64(row)*across)-half < box.Max.Y-narrow.Y; row++ {
		y := float64(row) * across
		b := s.Between(plane.AxisY, y-half, y+g.Width+half).Bounds()
		first := int(math.Floor((b.Min.X - g.shiftOf(row) + half + narrow.X) / along))
		last := int(math.Floor((b.Max.X - g.shiftOf(row) + half - narrow.X) / along))
		out.Rows = append(out.Rows, TileRow{first, max(1, last-first+1), span{b.Min.X, b.Max.X}})
	}
	return out, len(out.Rows) > 0
}

// At returns the tile at a point; on a joint, the tile nearer to it, and between a wall and
// the tiles the one beside it. ok is false beyond the room's tiles.
func (t Numbered) At(p plane.Point) (at Place, ok bool) {
	g := t.Grid
	q := p.Sub(g.Origin).Rotate(-g.Angle)
	row := int(math.Floor((q.Y + g.Joint/2) / (g.Width + g.Joint)))
	if last := t.First + len(t.Rows) - 1; t.reach.holds(q.Y) {
		row = max(t.First, min(row, last))
	}
	if row < t.First || row >= t.First+len(t.Rows) {
		return at, false
	}
	r := t.Rows[row-t.First]
	i := int(math.Floor((q.X - g.shiftOf(row) + g.Joint/2) / (g.Length + g.Joint)))
	if r.reach.holds(q.X) {
		i = max(r.First, min(i, r.First+r.Count-1))
	}
	at = Place{row - t.First + 1, i - r.First + 1}
	return at, at.Column >= 1 && at.Column <= r.Count
}

// Outline returns a tile's four corners as if it were not cut.
func (t Numbered) Outline(p Place) (ring plane.Ring, ok bool) {
	if p.Row < 1 || p.Row > len(t.Rows) || p.Column < 1 || p.Column > t.Rows[p.Row-1].Count {
		return nil, false
	}
	g, row := t.Grid, t.First+p.Row-1
	x := float64(float64(t.Rows[p.Row-1].First+p.Column-1)*(g.Length+g.Joint)) + g.shiftOf(row)
	y := float64(row) * (g.Width + g.Joint)
	return g.tile(plane.Pt(x, y), plane.Pt(g.Length, g.Width)), true
}

// Piece returns what of a tile lies inside a room's walls: of a cut tile, the
// piece of it that was laid; nil where nothing of it does. Edges that a room in
// two arms leaves between them run along the tile's own edge.
func (t Numbered) Piece(p Place, walls plane.Ring) plane.Ring {
	tile, ok := t.Outline(p)
	if !ok {
		return nil
	}
	piece := walls
	for i := range tile {
		piece = piece.Clip(tile.Edge(i).Left)
	}
	if piece.Area() < narrowestCut {
		return nil
	}
	return piece
}

// Near returns the tiles that come within a distance of a line, by row and
// column, each as far as it lies inside the walls.
func (t Numbered) Near(line []plane.Point, within float64, walls plane.Ring) []Place {
	var out []Place
	for row := range t.Rows {
		for col := range t.Rows[row].Count {
			p := Place{row + 1, col + 1}
			if piece := t.Piece(p, walls); piece != nil && Gap(piece, line) <= within {
				out = append(out, p)
			}
		}
	}
	return out
}

// Gap returns the distance between the inside of a ring and a line, 0 where
// they meet.
func Gap(ring plane.Ring, line []plane.Point) float64 {
	d := math.Inf(1)
	for i, p := range line {
		if ring.Contains(p) {
			return 0
		}
		for k := range ring {
			if i > 0 {
				d = math.Min(d, ring.Edge(k).Gap(plane.Segment{A: line[i-1], B: p}))
			} else {
				d = math.Min(d, ring.Edge(k).Distance(p))
			}
		}
	}
	return d
}

// tile returns the corners of a tile by its place in the grid's frame.
func (g Grid) tile(at, size plane.Point) plane.Ring {
	ring := plane.Rectangle(at, at.Add(size))
	for i, c := range ring {
		ring[i] = g.onFloor(c)
	}
	return ring
}
