package plane

import "math"

// A Face is a region's rings while they are clipped: outer rings
// counter-clockwise, holes clockwise, so that signed areas add up.
type Face []Ring

// FaceOf returns a region's rings moved by -origin and then turned by -angle.
func FaceOf(r Region, origin Point, angle float64) Face {
	var out Face
	for _, ring := range r.Rings() {
		moved := make(Ring, len(ring))
		for i, p := range ring {
			moved[i] = p.Sub(origin)
			if angle != 0 {
				moved[i] = moved[i].Rotate(-angle)
			}
		}
		out = append(out, moved)
	}
	return out
}

// Between returns the part of f between low and high along one axis. Clipping a
// ring that is not convex may leave edges that run back on themselves along
// the cut. They enclose nothing, so areas stay right; bounds may be too wide,
// never too narrow, until a clip a little further in takes such edges off.
func (f Face) Between(axis Axis, low, high float64) Face {
	var out Face
	for _, r := range f {
		r = clip(r, axis, low, 1)
		r = clip(r, axis, high, -1)
		if len(r) > 2 {
			out = append(out, r)
		}
	}
	return out
}

// An Axis is what Between clips along.
type Axis int

// The two axes.
const (
	AxisX Axis = iota
	AxisY
)

// Of is a point's coordinate along the axis.
func (a Axis) Of(p *Point) *float64 {
	if a == AxisY {
		return &p.Y
	}
	return &p.X
}

// clip keeps the part of r on one side of a line across an axis: above it for
// side 1, below it for side -1. What lies on the line lies there exactly. A ring
// that lies well on that side is returned as it is, since most of those asked for do.
func clip(r Ring, axis Axis, line, side float64) Ring {
	nearest := math.Inf(1)
	for i := range r {
		if off := side * (*axis.Of(&r[i]) - line); off < nearest {
			nearest = off
		}
	}
	if nearest >= Hair {
		return r
	}
	out := make(Ring, 0, len(r)+2)
	for i := range r {
		next := &r[(i+1)%len(r)]
		a, b := side*(*axis.Of(&r[i])-line), side*(*axis.Of(next)-line)
		if a >= 0 {
			out = append(out, r[i])
		}
		if a >= 0 != (b >= 0) {
			out = append(out, r[i].Lerp(*next, a/(a-b)))
		}
	}
	for i := range out {
		if at := axis.Of(&out[i]); side*(*at-line) < Hair {
			*at = line
		}
	}
	return out
}

// Area returns the area in mm²; holes count negative.
func (f Face) Area() float64 {
	sum := 0.0
	for _, r := range f {
		sum += r.SignedArea()
	}
	return sum
}

// Bounds returns the box round f.
func (f Face) Bounds() Rect {
	var all Rect
	first := true
	for _, r := range f {
		switch {
		case len(r) == 0:
		case first:
			all, first = r.Bounds(), false
		default:
			all = all.Union(r.Bounds())
		}
	}
	return all
}
