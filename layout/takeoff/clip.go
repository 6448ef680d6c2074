package takeoff

import "oxturn/layout/plane"

// A shape is a region's rings while they are clipped: outer rings
// counter-clockwise, holes clockwise, so that signed areas add up.
type shape []plane.Ring

// band returns the part of s between low and high along one axis. Clipping a
// ring that is not convex may leave edges that run back on themselves along
// the cut. They enclose nothing, so areas stay right; bounds may be too wide,
// never too narrow, until a clip a little further in takes such edges off.
func (s shape) band(axis func(*plane.Point) *float64, low, high float64) shape {
	var out shape
	for _, r := range s {
		r = clip(r, axis, low, 1)
		r = clip(r, axis, high, -1)
		if len(r) > 2 {
			out = append(out, r)
		}
	}
	return out
}

func axisX(p *plane.Point) *float64 { return &p.X }
func axisY(p *plane.Point) *float64 { return &p.Y }

// clip keeps the part of r on one side of a line across an axis: above it for
// side 1, below it for side -1. What lies on the line lies there exactly.
func clip(r plane.Ring, axis func(*plane.Point) *float64, line, side float64) plane.Ring {
	off := func(p plane.Point) float64 { return side * (*axis(&p) - line) }
	out := r.Clip(off)
	for i := range out {
		if off(out[i]) < plane.Hair {
			*axis(&out[i]) = line
		}
	}
	return out
}

// area returns the area in mm²; holes count negative.
func (s shape) area() float64 {
	sum := 0.0
	for _, r := range s {
		sum += r.SignedArea()
	}
	return sum
}

// bounds returns the box round s.
func (s shape) bounds() plane.Rect {
	var all []plane.Point
	for _, r := range s {
		all = append(all, r...)
	}
	return plane.Bounds(all)
}

// outline returns a region's rings moved by -origin and then turned by -angle.
func outline(r plane.Region, origin plane.Point, angle float64) shape {
	var out shape
	for _, ring := range r.Rings() {
		moved := make(plane.Ring, len(ring))
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
