package drawing

import (
	"math"

	"oxturn/layout/plane"
)

// Turned returns p turned by degrees about the origin, counter-clockwise as
// the reader sees it.
func Turned(p Pt, degrees float64) Pt {
	s, c := sincos(degrees)
	return Pt{X: c*p.X + s*p.Y, Y: c*p.Y - s*p.X}
}

// sincos is exact at the quarter turns, so that a box turned by 90 degrees
// has no sliver of rounding.
func sincos(degrees float64) (sin, cos float64) {
	switch math.Mod(degrees, 360) {
	case 0:
		return 0, 1
	case 90, -270:
		return 1, 0
	case 180, -180:
		return 0, -1
	case 270, -90:
		return -1, 0
	}
	return math.Sincos(plane.Radians(degrees))
}

// BoxOf returns the smallest box that holds all points; the zero Box for none.
func BoxOf(pts ...Pt) Box {
	e := plane.Bounds(pts)
	return Box{e.Min.X, e.Min.Y, e.Max.X, e.Max.Y}
}

// W returns the width of b.
func (b Box) W() float64 { return b.X1 - b.X0 }

// H returns the height of b.
func (b Box) H() float64 { return b.Y1 - b.Y0 }

// Centre returns the middle of b.
func (b Box) Centre() Pt { return Pt{X: (b.X0 + b.X1) / 2, Y: (b.Y0 + b.Y1) / 2} }

// Corners returns the corners of b, clockwise from the upper left.
func (b Box) Corners() []Pt {
	return []Pt{{X: b.X0, Y: b.Y0}, {X: b.X1, Y: b.Y0}, {X: b.X1, Y: b.Y1}, {X: b.X0, Y: b.Y1}}
}

// Grow returns b with d added on every side; a negative d shrinks it.
func (b Box) Grow(d float64) Box { return Box{b.X0 - d, b.Y0 - d, b.X1 + d, b.Y1 + d} }

// Moved returns b moved by d.
func (b Box) Moved(d Pt) Box { return Box{b.X0 + d.X, b.Y0 + d.Y, b.X1 + d.X, b.Y1 + d.Y} }

// Union returns the smallest box that holds both.
func (b Box) Union(c Box) Box {
	return Box{math.Min(b.X0, c.X0), math.Min(b.Y0, c.Y0), math.Max(b.X1, c.X1), math.Max(b.Y1, c.Y1)}
}

// Meets reports whether b and c overlap. Boxes that only touch do not meet.
func (b Box) Meets(c Box) bool {
	return b.X0 < c.X1 && c.X0 < b.X1 && b.Y0 < c.Y1 && c.Y0 < b.Y1
}

// Holds reports whether p is in b or on its edge.
func (b Box) Holds(p Pt) bool {
	return p.X >= b.X0 && p.X <= b.X1 && p.Y >= b.Y0 && p.Y <= b.Y1
}

// Contains reports whether all of c is in b; it may touch the edge.
func (b Box) Contains(c Box) bool {
	return c.X0 >= b.X0 && c.X1 <= b.X1 && c.Y0 >= b.Y0 && c.Y1 <= b.Y1
}
