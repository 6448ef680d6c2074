// Package tiling sets out the tile of a room: where its rows begin, what is cut and how
// narrow, how many tiles that takes, and what each is called.
package tiling

import (
	"errors"
	"fmt"
	"math"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A Grid is a bed of equal tiles over the whole plane. The lower left corner of
// one tile is at Origin; rows run along Angle.
type Grid struct {
	Origin        plane.Point
	Angle         float64 // radians, counter-clockwise from east
	Length, Width float64 // of a tile, along and across the rows, mm
	Joint         float64 // mm
	Shift         float64 // of every second row, as a share of a tile with its joint
	Woven         bool    // herringbone: in no rows, but along Angle and across it by turns
}

// A Count is how many tiles of a grid a region needs.
type Count struct {
	Whole int     // places filled by a tile as it comes
	Cut   int     // places filled by a cut piece
	Pairs int     // pairs of cut pieces that come from one tile
	Area  float64 // mm² of tile face, joints apart
}

// Tiles returns the tiles used up: one for every place, one for every pair.
func (c Count) Tiles() int { return c.Whole + c.Cut - c.Pairs }

// Patterns that are counted tile by tile; any other is taken by area.
const (
	Straight    = "straight"
	Offset      = "offset" // every second row moved along itself
	Diagonal    = "diagonal"
	Herringbone = "herringbone"
)

// InRows reports whether a pattern is one of rows, whose tiles can be numbered.
func InRows(t job.Tile) bool {
	switch t.Pattern {
	case Straight, Offset, Diagonal, "":
		return true
	}
	return false
}

// gridFor is the grid of a tile whose rows run along an angle or, by the pattern, at
// 45 degrees to it; its origin is still to be found. ok is false for a pattern that is
// not known.
func gridFor(t job.Tile, angle float64) (g Grid, ok bool) {
	g = Grid{Length: max(t.Length, t.Width), Width: min(t.Length, t.Width), Joint: t.Joint, Angle: angle}
	switch t.Pattern {
	case Offset:
		if g.Shift = t.Offset; g.Shift == 0 {
			g.Shift = 0.5
		}
	case Diagonal:
		g.Angle += math.Pi / 4
	case Herringbone:
		g.Woven = true
		g.Angle -= math.Pi / 4
	}
	return g, InRows(t) || g.Woven
}

// slimFloor is the width of floor below which no tile is cut for it, mm: what a tub
// leaves of its niche is filled with sealant, as wide as any joint there.
const slimFloor = 2.0

// withoutSlivers takes stretches narrower than slim off a floor, so that they do
// not move the rows of all others. A floor that has none comes back as it is.
func withoutSlivers(room plane.Region) plane.Region {
	wide, err := room.Opened(slimFloor)
	if err != nil || room.Area()-wide.Area() < narrowestCut {
		return room
	}
	core, err := room.Grow(-slimFloor / 2)
	if err != nil {
		return room
	}
	// grown back no farther than it was shrunk, or a stump of each sliver would stay
	if wide, err = core.Grow(slimFloor / 2); err != nil || wide.Empty() {
		return room
	}
	return wide
}

// Bounds on counting, lengths in mm.
const (
	narrowestCut = 1.0    // narrower pieces are taken up by the joint
	sawKerf      = 3.0    // lost to the saw between two pieces of one tile
	maxCells     = 250000 // more tiles than this are not counted one by one
	maxReach     = 1e9    // no floor lies farther from its grid's origin
)

var errTooMany = errors.New("too many tiles to count one by one")

// beyondUse mm is no length of a floor.
const beyondUse = 1e12

// usable reports whether v is an ordinary length, zero or more.
func usable(v float64) bool { return v >= 0 && v < beyondUse }

// A cell is the place of one tile with the floor in it, in its grid's own frame.
type cell struct {
	at, size  plane.Point // lower left corner; of the tile, along x and y
	crosswise bool        // a tile of herringbone that lies across
	row       int         // the grid's own number, where it is in rows
	column    int
	floor     plane.Face // what of the floor lies in it
}

// each visits the cells of a grid that have floor.
func (g Grid) each(room plane.Region, visit func(cell)) error {
	if !usable(g.Length) || !usable(g.Width) || g.Length < narrowestCut || g.Width < narrowestCut || !usable(g.Joint) {
		return fmt.Errorf("a tile of %g x %g mm with a joint of %g mm cannot be counted", g.Length, g.Width, g.Joint)
	}
	f := plane.FaceOf(room, g.Origin, g.Angle)
	box := f.Bounds()
	if !(box.Min.Norm() < maxReach) {
		return errors.New("the floor lies too far from its tile grid")
	}
	if g.Woven {
		return g.eachWoven(f, box, visit)
	}
	across, along := g.Width+g.Joint, g.Length+g.Joint
	if cells := (box.W()/along + 2) * (box.H()/across + 2); !(cells < maxCells) {
		return errTooMany
	}
	for row := int(math.Floor(box.Min.Y / across)); float64(float64(row)*across) < box.Max.Y; row++ {
		y := float64(row) * across
		g.eachInRow(f.Between(plane.AxisY, y, y+g.Width), row, visit)
	}
	return nil
}

func (g Grid) eachInRow(floor plane.Face, row int, visit func(cell)) {
	if len(floor) == 0 {
		return
	}
	along, shift := g.Length+g.Joint, g.shiftOf(row)
	box := floor.Bounds()
	for i := int(math.Floor((box.Min.X - shift) / along)); float64(float64(i)*along)+shift < box.Max.X; i++ {
		x := float64(float64(i)*along) + shift
		if piece := floor.Between(plane.AxisX, x, x+g.Length); len(piece) > 0 {
			visit(cell{at: plane.Pt(x, float64(row)*(g.Width+g.Joint)), size: plane.Pt(g.Length, g.Width), row: row,
				column: i, floor: piece})
		}
	}
}

// shiftOf is how far a row is moved along itself, mm.
func (g Grid) shiftOf(row int) float64 {
	if row%2 != 0 {
		return g.Shift * (g.Length + g.Joint)
	}
	return 0
}

// onFloor turns a point of the grid's frame into one of the floor.
func (g Grid) onFloor(p plane.Point) plane.Point { return p.Rotate(g.Angle).Add(g.Origin) }

// Count places the grid on a region and counts the tiles.
func (g Grid) Count(room plane.Region) (Count, error) {
	var t tally
	err := g.each(room, func(c cell) { t.add(c) })
	if err != nil {
		return Count{}, err
	}
	return t.counted(), nil
}

// tally is a count with what is still to be paired: pieces under half a tile
// long, and other pieces under half a tile wide.
type tally struct {
	Count
	short, narrow int
}

func (t *tally) counted() Count {
	t.Pairs = t.short/2 + t.narrow/2
	return t.Count
}

// Of a cell, how its tile is filled.
type filling int

const (
	emptyCell filling = iota
	wholeCell
	cutCell
)

// add counts one place by the piece of floor inside it.
func (t *tally) add(c cell) filling {
	how := c.filling()
	switch how {
	case emptyCell:
		return how
	case wholeCell:
		t.Whole++
	case cutCell:
		t.Cut++
		t.pair(c)
	}
	t.Area += c.floor.Area()
	return how
}

// pair notes a cut piece that is small enough to share its tile with another.
func (t *tally) pair(c cell) {
	box := c.inner()
	short, narrow := box.W() <= (c.size.X-sawKerf)/2, box.H() <= (c.size.Y-sawKerf)/2
	if c.crosswise {
		short, narrow = box.H() <= (c.size.Y-sawKerf)/2, box.W() <= (c.size.X-sawKerf)/2
	}
	switch {
	case short:
		t.short++
	case narrow:
		t.narrow++
	}
}

func (c cell) filling() filling {
	area, box := c.floor.Area(), c.floor.Bounds()
	switch {
	case box.W() < narrowestCut || box.H() < narrowestCut || area < narrowestCut:
		return emptyCell
	case float64(c.size.X*c.size.Y)-area < narrowestCut*narrowestCut/2, c.fills(): // the first shows it of most
		return wholeCell
	}
	return cutCell
}

// inner is the box of a piece, clipped a little further in: see Face.Between.
func (c cell) inner() plane.Rect {
	return c.floor.Between(plane.AxisX, c.at.X+narrowestCut/2, c.at.X+c.size.X-narrowestCut/2).
		Between(plane.AxisY, c.at.Y+narrowestCut/2, c.at.Y+c.size.Y-narrowestCut/2).Bounds()
}

// reach is the box of a piece, as far as its tile's own sides where it was clipped.
func (c cell) reach() plane.Rect {
	box := c.inner()
	if box.Min.X <= c.at.X+narrowestCut {
		box.Min.X -= narrowestCut / 2
	}
	if box.Max.X >= c.at.X+c.size.X-narrowestCut {
		box.Max.X += narrowestCut / 2
	}
	if box.Min.Y <= c.at.Y+narrowestCut {
		box.Min.Y -= narrowestCut / 2
	}
	if box.Max.Y >= c.at.Y+c.size.Y-narrowestCut {
		box.Max.Y += narrowestCut / 2
	}
	return box
}

// wide is how wide a piece is along x and y.
func (c cell) wide() plane.Point {
	box := c.reach()
	return plane.Pt(box.W(), box.H())
}

// fills reports whether a piece is all of a tile but for what the joint round it takes
// up: a corner that is notched by more is cut.
func (c cell) fills() bool {
	long, wide := c.size.X-2*narrowestCut, c.size.Y-2*narrowestCut
	if long <= 0 || wide <= 0 {
		return c.floor.Area() > c.size.X*c.size.Y/2
	}
	core := c.floor.Between(plane.AxisX, c.at.X+narrowestCut, c.at.X+narrowestCut+long).
		Between(plane.AxisY, c.at.Y+narrowestCut, c.at.Y+narrowestCut+wide)
	return core.Area() > float64(long*wide)-narrowestCut*narrowestCut
}

// ByArea returns how many tiles an area in mm² holds, each with its share of the
// joint: area / [(L+J)(W+J)]. Not rounded.
func ByArea(area float64, t job.Tile) float64 {
	return area / ((t.Length + t.Joint) * (t.Width + t.Joint))
}
