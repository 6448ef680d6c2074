package takeoff

import (
	"errors"
	"fmt"
	"math"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A Grid is a bed of equal tiles in rows over the whole plane. The lower left
// corner of one tile is at Origin; rows run along Angle.
type Grid struct {
	Origin        plane.Point
	Angle         float64 // radians, counter-clockwise from east
	Length, Width float64 // of a tile, along and across the rows, mm
	Joint         float64 // mm
	Shift         float64 // of every second row, as a share of a tile with its joint
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

// Patterns that are counted on a grid; any other is taken by area.
const (
	Straight = "straight"
	Offset   = "offset" // every second row moved by half a tile
	Diagonal = "diagonal"
)

// TileGrid lays a room's tile as a tiler would set it out: rows along the
// longer side of the room's box, at 45 degrees for diagonal, the middle of a
// tile or of a joint on the centre line, whichever leaves the wider pieces at
// the edges. ok is false when the pattern is not one laid on a grid.
func TileGrid(room plane.Region, t job.Tile) (g Grid, ok bool) {
	g = Grid{Length: max(t.Length, t.Width), Width: min(t.Length, t.Width), Joint: t.Joint}
	room = withoutSlivers(room)
	box := room.Bounds()
	if box.H() > box.W() {
		g.Angle = math.Pi / 2
	}
	switch t.Pattern {
	case Straight, "":
	case Offset:
		g.Shift = 0.5
	case Diagonal:
		g.Angle = math.Pi / 4
	default:
		return g, false
	}
	return g.centred(room), true
}

// centred moves the grid's origin to suit a room.
func (g Grid) centred(room plane.Region) Grid {
	box := outline(room, plane.Point{}, g.Angle).bounds()
	at := box.Centre().Add(plane.Pt(
		setOut(box.W(), g.Length, g.Joint),
		setOut(box.H(), g.Width, g.Joint)))
	g.Origin = at.Rotate(g.Angle)
	return g
}

// slim is the width of floor below which no tile is cut for it, mm: what a tub
// leaves of its niche is filled with sealant, as wide as any joint there.
const slim = 2.0

// withoutSlivers takes stretches narrower than slim off a floor, so that they do
// not move the rows of all others. A floor that has none comes back as it is.
func withoutSlivers(room plane.Region) plane.Region {
	wide, err := room.Opened(slim)
	if err != nil || room.Area()-wide.Area() < least {
		return room
	}
	core, err := room.Grow(-slim / 2)
	if err != nil {
		return room
	}
	// grown back no farther than it was shrunk, or a stump of each sliver would stay
	if wide, err = core.Grow(slim / 2); err != nil || wide.Empty() {
		return room
	}
	return wide
}

// setOut returns where a tile starts, from the centre line of an extent, so
// that the pieces at its ends are as wide as may be.
func setOut(extent, tile, joint float64) float64 {
	edge := func(start float64) float64 { // width of the last piece
		left := math.Mod(extent/2-start, tile+joint)
		if left < least || left > tile {
			return tile
		}
		return left
	}
	// a tile centred starts half a tile before the line; its neighbours repeat
	onJoint, onTile := joint/2, -tile/2
	if edge(onTile) > edge(onJoint) {
		return onTile
	}
	return onJoint
}

// Bounds on counting, lengths in mm.
const (
	least    = 1.0    // narrower pieces are taken up by the joint
	kerf     = 3.0    // lost to the saw between two pieces of one tile
	maxCells = 250000 // more tiles than this are not counted one by one
	maxReach = 1e9    // no floor lies farther from its grid's origin
)

var errTooMany = errors.New("too many tiles to count one by one")

// Count places the grid on a region and counts the tiles.
func (g Grid) Count(room plane.Region) (Count, error) {
	if !usable(g.Length) || !usable(g.Width) || g.Length < least || g.Width < least || !usable(g.Joint) {
		return Count{}, fmt.Errorf("a tile of %g x %g mm with a joint of %g mm cannot be counted", g.Length, g.Width,
			g.Joint)
	}
	s := outline(room, g.Origin, g.Angle)
	box := s.bounds()
	across, along := g.Width+g.Joint, g.Length+g.Joint
	if !(box.Min.Norm() < maxReach) {
		return Count{}, errors.New("the floor lies too far from its tile grid")
	}
	if cells := (box.W()/along + 2) * (box.H()/across + 2); !(cells < maxCells) {
		return Count{}, errTooMany
	}
	var t tally
	for row := int(math.Floor(box.Min.Y / across)); float64(row)*across < box.Max.Y; row++ {
		y := float64(row) * across
		g.countRow(s.band(axisY, y, y+g.Width), row, &t)
	}
	t.Pairs = t.shortPieces/2 + t.narrowPieces/2
	return t.Count, nil
}

// tally is a count with what is still to be paired: pieces under half a tile
// long, and other pieces under half a tile wide.
type tally struct {
	Count
	shortPieces, narrowPieces int
}

func (g Grid) countRow(row shape, number int, t *tally) {
	if len(row) == 0 {
		return
	}
	along := g.Length + g.Joint
	shift := 0.0
	if number%2 != 0 {
		shift = g.Shift * along
	}
	box := row.bounds()
	for i := math.Floor((box.Min.X - shift) / along); float64(i*along)+shift < box.Max.X; i++ {
		x := float64(i*along) + shift
		t.add(row.band(axisX, x, x+g.Length), g, plane.Pt(x, float64(number)*(g.Width+g.Joint)))
	}
}

// add counts one place, whose lower left corner is at, by the piece of floor
// inside it.
func (t *tally) add(piece shape, g Grid, at plane.Point) {
	area, box := piece.area(), piece.bounds()
	if box.W() < least || box.H() < least || area < least {
		return
	}
	t.Area += area
	if piece.fills(at, g) {
		t.Whole++
		return
	}
	t.Cut++
	// clipped a little further in: see shape.band
	box = piece.band(axisX, at.X+least/2, at.X+g.Length-least/2).
		band(axisY, at.Y+least/2, at.Y+g.Width-least/2).bounds()
	switch {
	case box.W() <= (g.Length-kerf)/2:
		t.shortPieces++
	case box.H() <= (g.Width-kerf)/2:
		t.narrowPieces++
	}
}

// fills reports whether a piece is all of a tile but for what the joint round it takes
// up: a corner that is notched by more is cut.
func (s shape) fills(at plane.Point, g Grid) bool {
	long, wide := g.Length-2*least, g.Width-2*least
	if long <= 0 || wide <= 0 {
		return s.area() > g.Length*g.Width/2
	}
	core := s.band(axisX, at.X+least, at.X+least+long).band(axisY, at.Y+least, at.Y+least+wide)
	return core.area() > float64(long*wide)-least*least
}

// TilesByArea returns how many tiles an area in mm² holds, each with its
// share of the joint: area / [(L+J)(W+J)]. Not rounded.
func TilesByArea(area float64, t job.Tile) float64 {
	return area / ((t.Length + t.Joint) * (t.Width + t.Joint))
}
