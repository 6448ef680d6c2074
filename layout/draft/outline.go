package draft

import (
	"math"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// What an outline is cleaned of, mm: corners of drawings and scans that no tape would find.
const (
	sameCorner    = 8.0 // two corners this near are one
	inLine        = 3.0 // a corner this little off the line of its neighbours is none
	widestOutline = 1e5 // mm across; more is a wrong unit
	leastRoom     = 1e5 // mm² of the smallest room, a cupboard of 0.1 m²
	mostSides     = 400 // corners of one room
	mostRooms     = 40  // rooms of one file
)

// cleaned is an outline without corners that are none, counter-clockwise, and how many
// were left out.
func cleaned(ring plane.Ring) (out plane.Ring, left int) {
	for _, p := range ring {
		if n := len(out); n == 0 || p.Dist(out[n-1]) > sameCorner {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[0].Dist(out[len(out)-1]) <= sameCorner {
		out = out[:len(out)-1]
	}
	for i := 0; i < len(out) && len(out) > 3; {
		before, next := out[(i+len(out)-1)%len(out)], out[(i+1)%len(out)]
		if (plane.Segment{A: before, B: next}).Distance(out[i]) <= inLine {
			out = append(out[:i:i], out[i+1:]...)
			continue
		}
		i++
	}
	return out.CCW(), len(ring) - len(out)
}

// noPlace mm from nothing is no place of a room.
const noPlace = 1e12

// check says why an outline is no room; line is where it stands in its file, 0 unknown.
func check(ring plane.Ring, line int) *Error {
	for _, p := range ring {
		if !p.Finite() || math.Abs(p.X) > noPlace || math.Abs(p.Y) > noPlace {
			return at(line, "a corner of the outline has no place that can be drawn")
		}
	}
	size := ring.Bounds()
	switch clash, bad := ring.SelfClash(); {
	case len(ring) < 3:
		return at(line, "an outline of %d corners is no room", len(ring))
	case len(ring) > mostSides:
		return at(line, "an outline has %d corners; %d are taken at most", len(ring), mostSides).
			hint("draw curves with fewer sides")
	case size.W() > widestOutline || size.H() > widestOutline:
		return at(line, "the room would be %s", say.RoomSize(size.W(), size.H())).
			hint("look at the unit: --units says what numbers mean")
	case bad:
		return at(line, "its walls %d and %d cross or touch at %s, %s", clash.I+1, clash.J+1,
			say.WholeUnits(clash.At.X, plane.Millimetres), say.WholeUnits(clash.At.Y, plane.Millimetres))
	case ring.Area() < leastRoom:
		return at(line, "the room would be %s by %s", say.WholeUnits(size.W(), plane.Millimetres),
			say.WholeUnits(size.H(), plane.Millimetres)).
			hint("look at the unit: --units says what numbers mean")
	}
	return nil
}

// A frame is where a room's own x and y lie in its file: turned first, then moved.
type frame struct {
	turn float64 // radians counter-clockwise
	by   plane.Point
}

func (f frame) point(p plane.Point) plane.Point { return p.Rotate(f.turn).Add(f.by) }

func (f frame) ring(r plane.Ring) plane.Ring {
	out := make(plane.Ring, len(r))
	for i, p := range r {
		out[i] = f.point(p)
	}
	return out
}

// standing is the frame that has a ring's least x and y at 0.
func standing(ring plane.Ring, turn float64) frame {
	f := frame{turn: turn}
	f.by = f.ring(ring).Bounds().Min.Mul(-1)
	return f
}

// squared is the turn that brings the longest side east, or north where that is the
// shorter way.
func squared(ring plane.Ring) float64 {
	var longest plane.Segment
	for i := range ring {
		if e := ring.Edge(i); e.Length() > longest.Length() {
			longest = e
		}
	}
	way := longest.B.Sub(longest.A)
	angle := plane.Atan2(way.Y, way.X)
	return math.Round(angle/(math.Pi/2))*math.Pi/2 - angle
}

// beside is the side of a ring that a stretch lies along, within tolerances: how far off
// in mm, and at what slope between the two.
func beside(ring plane.Ring, s plane.Segment, off, slope float64) (wall int, from float64, ok bool) {
	best, middle := off, s.A.Lerp(s.B, 0.5)
	way := s.B.Sub(s.A).Unit()
	for i := range ring {
		e := ring.Edge(i)
		along := e.B.Sub(e.A).Unit()
		d := e.Distance(middle)
		if d > best || math.Abs(along.Cross(way)) > slope {
			continue
		}
		best, wall, ok = d, i, true
		from = middle.Sub(e.A).Dot(along) - s.Length()/2
	}
	return wall, from, ok
}

// within cuts a stretch of a wall to the wall's ends.
func within(ring plane.Ring, wall int, from, width float64) (float64, float64) {
	length := ring.Edge(wall).Length()
	to := math.Min(from+width, length)
	from = math.Max(from, 0)
	return from, to - from
}
