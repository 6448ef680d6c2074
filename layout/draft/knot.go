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
	knots := slices.Clone(s.knots)
	if corners := ringOf(knots); corners.SignedArea() < 0 {
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
	ring = own.ring(ringOf(knots))
	for i, k := range knots {
		if math.Abs(k.rise) >= leastRise {
			arcs = append(arcs, Arc{Wall: i, Rise: math.Abs(k.rise), Into: k.rise < 0})
		}
	}
	return ring, arcs, len(arcs) > 0 && check(ring, s.at) == nil
}

func ringOf(knots []knot) plane.Ring {
	out := make(plane.Ring, len(knots))
	for i, k := range knots {
		out[i] = k.at
	}
	return out
}
