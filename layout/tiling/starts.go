package tiling

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// How a job asks for its tile to begin.
const (
	Balanced  = "balanced" // the best of all that are compared
	FromTile  = "tile"     // the middle of a tile on the middle of the floor
	FromJoint = "joint"    // a joint there
	FromDoor  = "door"     // whole tiles at the doorway
)

// A start is one way to begin along an axis.
type start struct {
	at    float64 // where a tile begins, mm
	words language.Message
	how   string
}

// mostStarts is how many ways to begin are tried along one axis.
const mostStarts = 10

// longSide is how long a side of the floor is at least that tile is set out by, mm.
const longSide = 300.0

// mainAngle is the direction, within a quarter turn, in which most of a floor's edge runs;
// 0 where that is within what a tape leaves of it.
func mainAngle(floor plane.Region) float64 {
	const same, taped = 0.5 * math.Pi / 180, 0.3 * math.Pi / 180
	var dirs []direction
	for _, ring := range floor.Rings() {
		for i := range ring {
			e := ring.Edge(i)
			way := e.B.Sub(e.A)
			a := math.Mod(plane.Atan2(way.Y, way.X)+2*math.Pi, math.Pi/2)
			if a > math.Pi/2-same/2 {
				a -= math.Pi / 2
			}
			k := slices.IndexFunc(dirs, func(d direction) bool { return math.Abs(d.angle-a) < same })
			if k < 0 {
				k, dirs = len(dirs), append(dirs, direction{angle: a})
			}
			dirs[k].edge += e.Length()
		}
	}
	if len(dirs) == 0 {
		return 0
	}
	main := slices.MaxFunc(dirs, func(a, b direction) int { return cmp.Compare(a.edge, b.edge+plane.Whit) })
	if math.Abs(main.angle) < taped {
		return 0
	}
	return main.angle
}

// A direction, with how much edge runs in it.
type direction struct{ angle, edge float64 }

// starts are the ways to begin along the rows of a grid and across them.
func (room Room) starts(g Grid, floor plane.Region, t job.Tile) (along, across []start) {
	box, how := plane.FaceOf(floor, plane.Point{}, g.Angle).Bounds(), t.Start
	slant := g.Woven || t.Pattern == Diagonal
	along = room.axisStarts(axis{g, floor, plane.AxisX, g.Length, slant}, box.Min.X, box.Max.X, how)
	across = room.axisStarts(axis{g, floor, plane.AxisY, g.Width, slant}, box.Min.Y, box.Max.Y, how)
	return along, across
}

// levelSine is by how much two directions may differ, as a sine, and be the same: half a degree.
const levelSine = 0.009

// An axis is one of a grid over a floor.
type axis struct {
	Grid
	floor plane.Region
	along plane.Axis
	tile  float64 // its tile along the axis
	slant bool    // the floor's sides slant across it
}

// axisStarts lists the ways to begin along one axis: from the middle of the floor, from its
// doorways and other sides, from movement joints and from the middle between two sides.
func (room Room) axisStarts(a axis, low, high float64, how string) []start {
	mid := (low + high) / 2
	out := []start{{mid - a.tile/2, language.Say("a tile on the middle"), FromTile}, {mid + a.Joint/2,
		language.Say("a joint on the middle"),
		FromJoint}}
	if a.Shift == 0.5 || a.slant && !a.Woven { // by quarters: common practice
		quarter := (a.tile + a.Joint) / 4
		out = append(out, start{mid + a.Joint/2 - quarter, language.Say("a quarter tile off the middle"), Balanced},
			start{mid + a.Joint/2 + quarter, language.Say("a quarter tile off the middle"), Balanced})
	}
	if !a.slant {
		out = append(out, room.fromJoints(a)...)
		out = append(out, room.fromSides(a)...)
	}
	if some := ofKind(out, how); len(some) > 0 {
		out = some
	}
	return unlike(out, a.tile+a.Joint)
}

// ofKind are the starts that a job asks for; all, where it leaves the choice open.
func ofKind(all []start, how string) (out []start) {
	for _, s := range all {
		if how == "" || how == Balanced || s.how == how {
			out = append(out, s)
		}
	}
	return out
}

// unlike leaves out starts that come to the same as one before.
func unlike(all []start, module float64) (out []start) {
	for _, s := range all {
		same := func(o start) bool {
			d := math.Abs(math.Mod(s.at-o.at, module))
			return min(d, module-d) < narrowestCut
		}
		if len(out) < mostStarts && !slices.ContainsFunc(out, same) {
			out = append(out, s)
		}
	}
	return out
}

// A station is a side of the floor across an axis.
type station struct {
	Side
	at   float64 // along the axis
	high bool    // the floor lies before it, not beyond
}

// pastEdge mm past the joints at the edges a tile lies inside.
const pastEdge = 5.0

// stations are the sides across an axis, those seen most first.
func (room Room) stations(a axis) (out []station) {
	for _, s := range room.Sides {
		p, q := s.A.Rotate(-a.Angle), s.B.Rotate(-a.Angle)
		at := (*a.along.Of(&p) + *a.along.Of(&q)) / 2
		if way := q.Sub(p).Unit(); math.Abs(*a.along.Of(&way)) > levelSine || s.Length() < longSide && !s.Entry {
			continue
		}
		in := plane.Pt(2*room.Edge+pastEdge, 0)
		if beyond := plane.Pt(0, 1); *a.along.Of(&beyond) == 1 {
			in = plane.Pt(0, 2*room.Edge+pastEdge)
		}
		mid := p.Lerp(q, 0.5)
		high := a.floor.Contains(mid.Sub(in).Rotate(a.Angle))
		if high == a.floor.Contains(mid.Add(in).Rotate(a.Angle)) {
			continue // no edge there, or one between two floors
		}
		out = append(out, station{s, at, high})
	}
	slices.SortStableFunc(out, func(a, b station) int { return cmp.Compare(b.Seen, a.Seen) })
	return out
}

// fromSides begins with whole tiles at the sides seen most, and midway between the longest
// sides that face each other.
func (room Room) fromSides(a axis) (out []start) {
	all := room.stations(a)
	for _, s := range all {
		how := Balanced
		if s.Entry {
			how = FromDoor
		}
		at := s.at + room.Edge
		if s.high {
			at = s.at - room.Edge - a.tile
		}
		out = append(out, start{at, language.Say("whole tiles at %s", s.Name), how})
	}
	slices.SortStableFunc(all, func(a, b station) int { return cmp.Compare(b.Length(), a.Length()) })
	for i, s := range all {
		for _, o := range all[:i] {
			if s.high == o.high || math.Abs(s.at-o.at) < a.tile {
				continue
			}
			mid := (s.at + o.at) / 2
			out = append(out, start{mid - a.tile/2, language.Say("a tile midway between %s and %s", o.Name, s.Name),
				Balanced},
				start{mid + a.Joint/2, language.Say("a joint midway between %s and %s", o.Name, s.Name), Balanced})
		}
	}
	return out
}

// fromJoints begins with a joint of the tile on a movement joint.
func (room Room) fromJoints(a axis) (out []start) {
	for _, j := range room.Joints {
		p, q := j.A.Rotate(-a.Angle), j.B.Rotate(-a.Angle)
		if way := q.Sub(p).Unit(); math.Abs(*a.along.Of(&way)) <= levelSine {
			at := (*a.along.Of(&p) + *a.along.Of(&q)) / 2
			out = append(out, start{at + a.Joint/2, language.Say("a joint on %s", j.Name), Balanced})
		}
	}
	return out
}
