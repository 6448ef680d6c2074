package layout

import (
	"math"
	"slices"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A Wall is one side of a room, to measure from.
type Wall struct {
	Letter string
	plane.Segment
	In     plane.Point // unit vector square to it, into the room
	Curved bool        // a side of a curve: nothing is measured from it
}

// FromWall returns how far a spot lies from the face of a wall, square to it;
// negative where the room reaches back behind that face's line.
func (w Wall) FromWall(p plane.Point) float64 { return w.In.Dot(p.Sub(w.A)) }

// hookLeast is the least stretch of standing wall that a tape can be held to and
// a line be sighted along, mm.
const hookLeast = 300.0

// DatumWalls returns the two walls that everything on a floor is measured from: the
// longest, and the longest that is about square to it; -1 where there is none.
// Walls outlive fixtures, tile and doors. One that is all doorway or cased
// opening has no face to hold a tape to, and is no datum where another is.
func DatumWalls(r *job.Room) (d1, d2 int) {
	walls := make([]plane.Segment, len(r.Walls))
	for i, w := range r.Walls {
		walls[i] = w.Segment
	}
	stands := func(i int) bool {
		return r.Walls[i].Arc == nil && longest(Standing(r, i)) >= min(hookLeast, walls[i].Length())
	}
	if d1, d2 = datumsOf(walls, stands); d2 < 0 {
		d1, d2 = datumsOf(walls, func(int) bool { return true })
	}
	return d1, d2
}

// Standing returns the stretches of a wall that stand, from its start to its end,
// mm along it: what doors and cased openings leave. A window leaves its wall.
func Standing(r *job.Room, wall int) [][2]float64 {
	const least = 1.0 // mm; less is no wall
	var taken [][2]float64
	for _, o := range r.Openings {
		if o.Wall == wall && o.Kind != "window" {
			taken = append(taken, [2]float64{o.From, o.To})
		}
	}
	return slices.DeleteFunc(plane.Free(r.Walls[wall].Length(), taken),
		func(s [2]float64) bool { return s[1]-s[0] <= least })
}

func longest(stretches [][2]float64) float64 {
	most := 0.0
	for _, s := range stretches {
		most = max(most, s[1]-s[0])
	}
	return most
}

func datumsOf(walls []plane.Segment, stands func(int) bool) (d1, d2 int) {
	if d1 = longestWall(walls, stands); d1 < 0 {
		return -1, -1
	}
	u := walls[d1].B.Sub(walls[d1].A).Unit()
	for _, most := range []float64{0.35, 0.95} { // sine of 20 degrees off square; of what still fixes a point
		d2 = longestWall(walls, func(i int) bool {
			return i != d1 && stands(i) && math.Abs(u.Dot(walls[i].B.Sub(walls[i].A).Unit())) < most
		})
		if d2 >= 0 {
			break
		}
	}
	return d1, d2
}

// longestWall is the first of the longest walls that will do; -1 for none.
func longestWall(walls []plane.Segment, willDo func(int) bool) int {
	at := -1
	for i, w := range walls {
		if willDo(i) && (at < 0 || w.Length() > walls[at].Length()+plane.Hair) {
			at = i
		}
	}
	return at
}

// A Tape says where places of a room lie in the words of those who measure
// them there: how far from the faces of its two datum walls.
type Tape struct {
	Walls []Wall
	Units plane.Units

	D1, D2 int // indices into Walls
}

// wallsOf are the walls of a room, to measure from.
func wallsOf(r *job.Room) (out []Wall) {
	side := math.Copysign(1, r.Outline.SignedArea())
	for _, w := range r.Walls {
		out = append(out, Wall{w.Letter, w.Segment, w.B.Sub(w.A).Unit().Left().Mul(side), w.Arc != nil})
	}
	return out
}

// NewTape returns the tape of a room.
func NewTape(r *job.Room, u plane.Units) Tape {
	t := Tape{Walls: wallsOf(r), Units: u}
	t.D1, t.D2 = DatumWalls(r)
	t.D1, t.D2 = max(t.D1, 0), max(t.D2, 0)
	return t
}

// Units are those in which a job's drawings and words read.
func (p *Plan) Units() plane.Units { return p.Job.Printed() }

// Datums returns the indices of the two datum walls.
func (t Tape) Datums() (d1, d2 int) { return t.D1, t.D2 }

// Length writes a length in the tape's units, and in millimetres too where
// those are inches.
func (t Tape) Length(mm float64) string {
	if t.Units == plane.Inches {
		return strings.TrimPrefix(say.Whole(mm, t.Units), "0'-0 ") + " (" + say.Whole(mm, plane.Millimetres) + ")"
	}
	return say.Whole(mm, t.Units)
}

// Place says where a spot lies from the two datum walls, in English.
func (t Tape) Place(p plane.Point) string { return t.PlaceIn(p, language.English) }

// PlaceIn is Place in a language.
func (t Tape) PlaceIn(p plane.Point, l language.Language) string {
	return t.offWall(t.D1, p, l) + ", " + t.offWall(t.D2, p, l)
}

func (t Tape) offWall(i int, p plane.Point, l language.Language) string {
	w := t.Walls[i]
	if d := w.FromWall(p); d < -0.5 {
		return l.Textf("%s behind the line of wall %s", t.Length(-d), w.Letter)
	}
	return l.Textf("%s from wall %s", t.Length(math.Abs(w.FromWall(p))), w.Letter)
}

// Off says how far a spot lies from the face of wall i, square to it, for a
// table: with a minus where the room reaches back behind that face's line.
func (t Tape) Off(i int, p plane.Point) string {
	if d := t.Walls[i].FromWall(p); d < 0 {
		return "-" + t.Length(-d)
	}
	return t.Length(t.Walls[i].FromWall(p))
}
