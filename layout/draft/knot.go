package draft

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A knot is a corner of an outline and how the wall after it is bent: how far its middle
// stands off the straight way, to the right of that; 0 where it is straight.
type knot struct {
	at   plane.Point
	rise float64
}

// An Arc is a wall that is bent: how far the middle of it stands off the straight way
// between its ends, into the room where it bulges in.
type Arc struct {
	Wall int
	Rise float64
	Into bool
}

// leastRise is how far, mm, a bent wall stands off the straight way at least; less is
// straight.
const leastRise = 5

// knotsOf are the corners of a polyline. What is more than a half circle is two walls.
func knotsOf(corners []vertex, closed bool) (out []knot) {
	for i, v := range corners {
		next := corners[(i+1)%len(corners)].at
		if i == len(corners)-1 && !closed {
			return append(out, knot{at: v.at})
		}
		rise := v.bulge * v.at.Dist(next) / 2 // by the bulge's definition
		if math.Abs(v.bulge) <= 1 {
			out = append(out, knot{v.at, rise})
			continue
		}
		right := next.Sub(v.at).Unit().Left().Mul(-rise)
		middle, half := v.at.Lerp(next, 0.5).Add(right), plane.Tan(plane.Atan2(v.bulge, 1)/2)
		each := half * v.at.Dist(middle) / 2
		out = append(out, knot{v.at, each}, knot{middle, each})
	}
	return out
}

// reversed are knots the other way round, of a line or of a ring.
func reversed(knots []knot) []knot {
	n := len(knots)
	out := make([]knot, n)
	for j := range knots {
		out[j] = knot{knots[n-1-j].at, -knots[(2*n-2-j)%n].rise}
	}
	return out
}

// bentRoom is an outline with its bent walls as arcs, in the frame given; ok is false where
// nothing is bent, or the corners alone are no outline.
func bentRoom(s *shape, own frame) (ring plane.Ring, arcs []Arc, ok bool) {
	knots := tidied(s.knots)
	ring = own.ring(ringOf(knots))
	for i, k := range knots {
		if math.Abs(k.rise) >= leastRise {
			arcs = append(arcs, Arc{Wall: i, Rise: math.Abs(k.rise), Into: k.rise < 0})
		}
	}
	return ring, arcs, len(arcs) > 0 && check(ring, s.at) == nil
}

// tidied are the knots of an outline counter-clockwise, without those that are no corner.
func tidied(all []knot) []knot {
	knots := slices.Clone(all)
	if turned(knots) < 0 {
		knots = reversed(knots)
	}
	for i := 0; i < len(knots) && len(knots) > 3; {
		n := len(knots)
		next, before := knots[(i+1)%n], knots[(i+n-1)%n]
		off := plane.Segment{A: before.at, B: next.at}.Distance(knots[i].at)
		straight := math.Abs(before.rise) < leastRise && math.Abs(knots[i].rise) < leastRise
		if knots[i].at.Dist(next.at) <= sameCorner || straight && off <= inLine {
			knots = slices.Delete(knots, i, i+1)
			continue
		}
		i++
	}
	return knots
}

// turned is the area within knots, about, below 0 where they run clockwise: a segment of a
// circle has some two thirds of the rectangle round it.
func turned(knots []knot) float64 {
	area := ringOf(knots).SignedArea()
	for i, k := range knots {
		area += float64(k.at.Dist(knots[(i+1)%len(knots)].at) * k.rise * 2 / 3)
	}
	return area
}

// bentKeepOut is what an outline in a room comes to: a circle where all of it is one, else
// its corners with the rises of its sides.
func bentKeepOut(s *shape, own frame) KeepOut {
	knots := tidied(s.knots)
	if centre, radius, ok := circleOf(knots); ok {
		return KeepOut{At: own.point(centre), Diameter: 2 * radius}
	}
	if len(knots) < 4 {
		knots = halved(knots)
	}
	var rises []float64
	bent := false
	for _, k := range knots {
		rise := k.rise
		if math.Abs(rise) < leastRise {
			rise = 0
		}
		bent = bent || rise != 0
		rises = append(rises, rise)
	}
	ring := ringOf(knots)
	if _, clash := ring.SelfClash(); !bent || clash || len(ring) < 3 {
		return KeepOut{Outline: own.ring(s.line)}
	}
	return KeepOut{Outline: own.ring(ring), Rises: rises}
}

// halved parts every side that is bent in its middle.
func halved(knots []knot) (out []knot) {
	for i, k := range knots {
		next := knots[(i+1)%len(knots)].at
		if chord := k.at.Dist(next); k.rise != 0 && chord > 0 {
			middle := k.at.Lerp(next, 0.5).Add(next.Sub(k.at).Unit().Left().Mul(-k.rise))
			each := plane.Tan(plane.Atan2(2*k.rise, chord)/2) * k.at.Dist(middle) / 2
			out = append(out, knot{k.at, each}, knot{middle, each})
			continue
		}
		out = append(out, k)
	}
	return out
}

// sameCircle is within how many mm bent sides are of one circle.
const sameCircle = 1.0

// circleOf is the circle that all sides lie on.
func circleOf(knots []knot) (centre plane.Point, radius float64, ok bool) {
	for i, k := range knots {
		chord := knots[(i+1)%len(knots)].at.Sub(k.at)
		half := chord.Norm() / 2
		if k.rise < leastRise || half == 0 {
			return centre, 0, false
		}
		r := (float64(half*half) + float64(k.rise*k.rise)) / (2 * k.rise)
		c := k.at.Add(chord.Mul(0.5)).Add(chord.Unit().Left().Mul(r - k.rise))
		if i > 0 && (c.Dist(centre) > sameCircle || math.Abs(r-radius) > sameCircle) {
			return centre, 0, false
		}
		if i == 0 {
			centre, radius = c, r
		}
	}
	return centre, radius, len(knots) > 1
}

func ringOf(knots []knot) plane.Ring {
	out := make(plane.Ring, len(knots))
	for i, k := range knots {
		out[i] = k.at
	}
	return out
}
