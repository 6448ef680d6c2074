package takeoff

import (
	"errors"
	"fmt"
	"math"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Herringbone lays tiles lengthwise and crosswise by turns, each end against
// the side of the next.
const Herringbone = "herringbone"

// A weave is herringbone over the whole plane: with l and w for a tile's length
// and width with their joint, a tile lies along the axes at (0, 0) and one
// across them at (0, w), and both again at every i (w, w) + j (l, -l). Axes are
// turned by Angle about Origin.
type weave struct {
	Origin               plane.Point
	Angle                float64 // radians, counter-clockwise from east
	Length, Width, Joint float64 // mm
}

// herringbone sets out a room's tile with its zigzag along the longer side of
// the room's box, begun at its middle: every tile is at 45 degrees to the
// walls.
func herringbone(room plane.Region, t job.Tile) weave {
	box := room.Bounds()
	w := weave{Origin: box.Centre(), Angle: -math.Pi / 4, Length: max(t.Length, t.Width), Width: min(t.Length, t.Width),
		Joint: t.Joint}
	if box.H() > box.W() {
		w.Angle = math.Pi / 4
	}
	return w
}

// count places the weave on a region and counts the tiles.
func (v weave) count(room plane.Region) (Count, error) {
	if !usable(v.Length) || !usable(v.Width) || v.Length < least || v.Width < least || !usable(v.Joint) {
		return Count{}, fmt.Errorf("a tile of %g x %g mm with a joint of %g mm cannot be counted", v.Length, v.Width,
			v.Joint)
	}
	s := outline(room, v.Origin, v.Angle)
	box := s.bounds()
	if !(box.Min.Norm() < maxReach) {
		return Count{}, errors.New("the floor lies too far from its tiles' origin")
	}
	l, w := v.Length+v.Joint, v.Width+v.Joint
	// a pair of tiles has its corner at (i w + j l, i w - j l), so that i and j follow from sum and
	// difference; it reaches l to the right of it and l + w above it
	firstI, lastI := math.Ceil((box.Min.X+box.Min.Y-l-2*w)/(2*w)), math.Floor((box.Max.X+box.Max.Y)/(2*w))
	firstJ, lastJ := math.Ceil((box.Min.X-box.Max.Y-l)/(2*l)), math.Floor((box.Max.X-box.Min.Y+l+w)/(2*l))
	if !((lastI-firstI+1)*(lastJ-firstJ+1)*2 < maxCells) {
		return Count{}, errTooMany
	}
	var along, across tally
	for i := firstI; i <= lastI; i++ {
		for j := firstJ; j <= lastJ; j++ {
			at := plane.Pt(float64(i*w)+float64(j*l), float64(i*w)-float64(j*l))
			along.place(s, box, at, Grid{Length: v.Length, Width: v.Width})
			across.place(s, box, at.Add(plane.Pt(0, w)), Grid{Length: v.Width, Width: v.Length})
		}
	}
	// what is short of a tile that lies across is narrow of the grid it was counted on
	short, narrow := along.shortPieces+across.narrowPieces, along.narrowPieces+across.shortPieces
	return Count{
		Whole: along.Whole + across.Whole, Cut: along.Cut + across.Cut,
		Pairs: short/2 + narrow/2, Area: along.Area + across.Area,
	}, nil
}

// place counts one tile with its lower left corner at a point, by the piece of
// the floor inside it.
func (t *tally) place(floor shape, box plane.Rect, at plane.Point, tile Grid) {
	far := at.Add(plane.Pt(tile.Length, tile.Width))
	if at.X >= box.Max.X || at.Y >= box.Max.Y || far.X <= box.Min.X || far.Y <= box.Min.Y {
		return
	}
	piece := floor.band(axisX, at.X, far.X).band(axisY, at.Y, far.Y)
	if len(piece) > 0 {
		t.add(piece, tile, at)
	}
}
