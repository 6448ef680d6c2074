package build

import (
	"math"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A Split is how two cables share a floor: a line between them, and what each serves.
type Split struct {
	Line  plane.Segment
	Parts [2]SplitPart
}

// A SplitPart is the floor that one of two cables serves.
type SplitPart struct {
	ID   string
	Area float64 // mm²
	Side string  // of the line, as the compass has it
}

// splits are those of the zones that two of the routes share.
func splits(routes []route.Route, labels []job.Cable) (out []Split) {
	for i, a := range routes {
		for k, b := range routes[i+1:] {
			if a.Zone != b.Zone || countIn(routes, a.Zone) != 2 {
				continue
			}
			line, side := parting(a.Share, b.Share, a.Lattice.Angle)
			parts := [2]SplitPart{{labels[a.Cable].ID, a.Share.Area(), job.WindOf(side.Mul(-1))},
				{labels[routes[i+1+k].Cable].ID, b.Share.Area(), job.WindOf(side)}}
			out = append(out, Split{line, parts})
		}
	}
	return out
}

func countIn(routes []route.Route, zone int) (n int) {
	for _, r := range routes {
		if r.Zone == zone {
			n++
		}
	}
	return n
}

// parting is the line midway between two regions that lie on either side of it, along an
// axis at an angle or square to it, and the way from the first to the second.
func parting(a, b plane.Region, angle float64) (line plane.Segment, way plane.Point) {
	widest := math.Inf(-1)
	for _, u := range []plane.Point{plane.Pt(1, 0).Rotate(angle), plane.Pt(0, 1).Rotate(angle)} {
		for _, u := range []plane.Point{u, u.Mul(-1)} {
			_, near := reach(a, u)
			far, _ := reach(b, u)
			if far-near <= widest {
				continue
			}
			widest, way = far-near, u
			v, at := u.Left(), (near+far)/2
			lowA, highA := reach(a, v)
			lowB, highB := reach(b, v)
			low, high := min(lowA, lowB), max(highA, highB)
			line = plane.Segment{A: u.Mul(at).Add(v.Mul(low)), B: u.Mul(at).Add(v.Mul(high))}
		}
	}
	return line, way
}

// reach is from where to where a region lies along a way.
func reach(r plane.Region, u plane.Point) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, ring := range r.Rings() {
		for _, p := range ring {
			low, high = min(low, p.Dot(u)), max(high, p.Dot(u))
		}
	}
	return low, high
}
