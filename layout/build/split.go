package build

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A Split is a line by which cables part a floor: some of them lie on one side of it, the
// others on the other.
type Split struct {
	Line  plane.Segment
	Sides [2]SplitSide
}

// A SplitSide is the floor on one side of a line.
type SplitSide struct {
	IDs  []string
	Area float64 // mm²
	Side string  // of the line, as the compass has it
}

// splits are the lines by which the cables of each zone part it, first the one that parts
// all of them, then those that part the cables on each of its sides.
func splits(routes []route.Route, labels []job.Cable) (out []Split) {
	zones := map[int][]route.Route{}
	for _, r := range routes {
		zones[r.Zone] = append(zones[r.Zone], r)
	}
	for zone := range len(routes) {
		out = append(out, parted(zones[zone], labels)...)
	}
	return out
}

// parted are the lines between cables of one zone. How the floor was cut is not kept, so
// that the line with the widest gap beside it is looked for anew.
func parted(routes []route.Route, labels []job.Cable) []Split {
	if len(routes) < 2 {
		return nil
	}
	var best lineBetween
	best.gap = math.Inf(-1)
	u := plane.Pt(1, 0).Rotate(routes[0].Lattice.Angle)
	for _, way := range []plane.Point{u, u.Mul(-1), u.Left(), u.Left().Mul(-1)} {
		if p := partAlong(routes, way); p.gap > best.gap {
			best = p
		}
	}
	s := Split{Line: best.line()}
	for i, group := range best.groups {
		side := &s.Sides[i]
		side.Side = job.WindOf(best.way.Mul(float64(2*i - 1)))
		for _, r := range group {
			side.IDs, side.Area = append(side.IDs, labels[r.Cable].ID), side.Area+r.Share.Area()
		}
	}
	out := []Split{s}
	for _, group := range best.groups {
		out = append(out, parted(group, labels)...)
	}
	return out
}

// A lineBetween is two groups of cables beside each other: the gap lies square to the way from
// the first to the second, so far along that.
type lineBetween struct {
	way     plane.Point
	at, gap float64
	groups  [2][]route.Route
}

// partAlong is the lineBetween with the widest gap along a way.
func partAlong(routes []route.Route, way plane.Point) lineBetween {
	sorted := slices.Clone(routes)
	from := func(r route.Route) float64 { low, _ := reach(r.Share, way); return low }
	slices.SortStableFunc(sorted, func(a, b route.Route) int { return cmp.Compare(from(a), from(b)) })
	best := lineBetween{way: way, gap: math.Inf(-1)}
	end := math.Inf(-1)
	for i, r := range sorted[:len(sorted)-1] {
		_, high := reach(r.Share, way)
		end = math.Max(end, high)
		next := from(sorted[i+1])
		if gap := next - end; gap > best.gap+plane.Whit {
			best.at, best.gap = (next+end)/2, gap
			best.groups = [2][]route.Route{sorted[:i+1], sorted[i+1:]}
		}
	}
	return best
}

// line is the line midway, as long as the floor of both groups reaches along it.
func (p lineBetween) line() plane.Segment {
	along := p.way.Left()
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range slices.Concat(p.groups[0], p.groups[1]) {
		a, b := reach(r.Share, along)
		low, high = min(low, a), max(high, b)
	}
	at := p.way.Mul(p.at)
	return plane.Segment{A: at.Add(along.Mul(low)), B: at.Add(along.Mul(high))}
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
