package route

import (
	"math"

	"oxturn/layout/plane"
)

// OffAxis is how far from the pegs' axes, radians, runs may be asked for and still be taken
// to mean the axis: three degrees.
const OffAxis = 0.05

// Angle returns the direction of the peg rows that Solve chooses where a
// Problem gives no lattice: that of most wall, modulo a quarter turn, or that of the runs
// asked for where they are along neither of its axes.
func Angle(p Problem) float64 {
	a := anyWay(p)
	if u := p.Uneven; u != nil && lengthwise(p, a) {
		a += math.Pi / 2
	}
	return a
}

// sameSide is by how much the longer way of a floor is longer than the other, mm.
const sameSide = 1.0

// lengthwise reports whether the first way of an uneven lattice is rather across direction a than along it.
func lengthwise(p Problem, a float64) bool {
	if to := p.Uneven.Along; to != nil {
		return math.Abs(math.Sin(*to-a)) > math.Sqrt2/2
	}
	var corners []plane.Point
	for _, z := range p.Zones {
		for _, r := range z.Rings() {
			for _, q := range r {
				corners = append(corners, q.Rotate(-a))
			}
		}
	}
	box := plane.Bounds(corners)
	return box.H() > box.W()+sameSide
}

// anyWay is the direction of the pegs where they are alike along it and across.
func anyWay(p Problem) float64 {
	main := mainAngle(p.Walls, p.Zones)
	for _, a := range p.Asks {
		if a.Rows == nil {
			continue
		}
		if asked := quarter(*a.Rows); Skew(asked, main) > OffAxis {
			return asked
		}
	}
	return main
}

// Skew is by how much two directions differ, radians, a quarter turn being none.
func Skew(a, b float64) float64 {
	d := quarter(a - b)
	return math.Min(d, math.Pi/2-d)
}

// quarter is a direction, no more than two turns off, modulo a quarter turn.
func quarter(a float64) float64 {
	a = math.Mod(a+4*math.Pi, math.Pi/2)
	if a > math.Pi/2-plane.Whit {
		a = 0
	}
	return a
}

// turnable reports whether the first way of an uneven lattice may lie across the longer way of the floor as well.
func (p Problem) turnable() bool {
	return p.Uneven != nil && p.Uneven.Along == nil && p.Lattice == nil && !p.Brief && len(p.Frozen) == 0
}

// turnedOver is the problem with its pegs a quarter turn round.
func (p Problem) turnedOver() Problem {
	u, across := *p.Uneven, Angle(p)+math.Pi/2
	u.Along = &across
	p.Uneven = &u
	return p
}

// worthTurning is how much better, in units of the score, routes must be that have the pegs' first way, and with it the
// roll or the runs on strips, across the longer way of the floor: that makes more seams, and shorter runs.
const worthTurning = 0.5

// score is the mean of those of routes.
func score(routes []Route) float64 {
	n := 0.0
	for _, rt := range routes {
		n += rt.Score.Total
	}
	return n / float64(len(routes))
}
