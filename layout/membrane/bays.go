package membrane

import (
	"math"

	"oxturn/layout/plane"
)

// thinnestJoint mm wide a joint is at least, to have an area.
const thinnestJoint = 0.1

// bays cuts a room's floor along its movement joints: each bay is covered on
// its own, so that nothing bridges a joint.
func (r Room) bays() ([]plane.Region, error) {
	cuts := make([]plane.Region, 0, len(r.Joints))
	for i, j := range r.Joints {
		line := r.extended(i)
		band, err := plane.Band([]plane.Point{line.A, line.B}, math.Max(j.Width, thinnestJoint))
		if err != nil {
			return nil, err
		}
		cuts = append(cuts, band)
	}
	all, err := plane.Union(cuts...)
	if err != nil {
		return nil, err
	}
	floor, err := r.Tiled.Less(all)
	if err != nil {
		return nil, err
	}
	if floor, err = withoutSlivers(floor); err != nil {
		return nil, err
	}
	var out []plane.Region
	for _, p := range floor {
		if bay := (plane.Region{p}); bay.Area() > 1 {
			out = append(out, bay)
		}
	}
	return out, nil
}

// Slim is the width of floor below which no membrane is cut for it, mm: beside
// a tub that does not quite fill its niche, say. Trimmed at both edges hardly
// anything would be left.
const Slim = 15.0

// leftOfSliver is the width of what withoutSlivers leaves of a sliver where it ends in
// wider floor, mm: cleared in a second step.
const leftOfSliver = 0.5

// withoutSlivers takes stretches narrower than Slim off a floor. One that has none
// comes back as it is.
func withoutSlivers(floor plane.Region) (plane.Region, error) {
	wide, err := floor.Opened(Slim)
	if err != nil || wide.Empty() {
		return nil, err
	}
	if floor.Area()-wide.Area() < 1 {
		return floor, nil
	}
	return wide.Opened(leftOfSliver)
}

// touchingEdge is how near to a wall or to another joint a joint may end and still
// be taken to end on it, mm.
const touchingEdge = 5.0

// extended returns joint i, each end that lies loose on the floor led on to the
// nearest edge or joint before it: a piece that ran round a loose end would
// tear there.
func (r Room) extended(i int) plane.Segment {
	s := r.Joints[i].Segment
	return plane.Segment{A: r.ledOn(i, s.B, s.A), B: r.ledOn(i, s.A, s.B)}
}

// ledOn leads the joint that comes from a beyond its end b.
func (r Room) ledOn(i int, a, b plane.Point) plane.Point {
	if r.Tiled.Depth(b) < touchingEdge || a.Dist(b) < shortestCut {
		return b
	}
	u := b.Sub(a).Unit()
	nearest := math.Inf(1)
	far := plane.Segment{A: b, B: b.Add(u.Mul(1e6))}
	stop := func(e plane.Segment) {
		if !far.Meets(e) {
			return
		}
		if p, ok := far.Intersection(e); ok {
			nearest = math.Min(nearest, p.Dist(b))
		}
	}
	for k, j := range r.Joints {
		if k == i {
			continue
		}
		if j.Distance(b) < touchingEdge {
			return b
		}
		stop(j.Segment)
	}
	for _, ring := range r.Tiled.Rings() {
		for k := range ring {
			stop(ring.Edge(k))
		}
	}
	if math.IsInf(nearest, 1) {
		return b
	}
	return b.Add(u.Mul(nearest + 1))
}

// jointAt reports whether p, in the frame f, lies on a joint's edge.
func (r Room) jointAt(p plane.Point) bool {
	for i, j := range r.Joints {
		if r.extended(i).Distance(p) < j.Width/2+2 {
			return true
		}
	}
	return false
}
