package route

import (
	"math"

	"oxturn/layout/plane"
)

// Tolerances of the last check in mm: what drawing and laying can't tell
// apart from the rule.
const (
	lengthSlop = 0.1
	gapSlop    = 0.5
	edgeSlop   = 0.5
)

// apartAlong is how far along the cable, in closest gaps, two points must be from
// each other for the closest gap to be asked between them: a half turn of the
// closest width is shorter than this.
const apartAlong = 1.65

// Sound reports whether the path of the problem's first cable keeps the hard rules, as
// the router's own routes do: its length, room for every bend, its distance to itself,
// every bend inside the zone, and the power cap. Where it was laid before, of its first
// points so many, it is held against all but the cap. That its legs lie in the zone is
// not looked at.
func Sound(p Problem, path []plane.Point, zone plane.Region, laid int) bool {
	return sound(path, rulesFor(p, p.Cables[0]), newRim(zone), p.Cables[0].Length, laid)
}

// sound reports whether a path keeps the hard rules: length, room for every
// bend, distance to itself, every bend inside the zone, and the power cap. The
// legs are inside it by the way they are made. The first laid points are
// there already.
func sound(path []plane.Point, rule rules, zone *rim, length float64, laid int) bool {
	if len(path) < 2 || math.Abs(Length(path, rule.bend)-length) > lengthSlop {
		return false
	}
	legs := plane.Segments(path)
	return bendsFit(path, rule) && apart(path, rule) && bendsInside(path, rule, zone) &&
		cool(legs[max(0, laid-1):], legs, rule.mean, rule.links())
}

// turnsBack rad: two bends that together turn more go back on themselves.
const turnsBack = 2.4

// bendsFit reports whether every leg is long enough for the bends at its ends
// and every turn back wide enough.
func bendsFit(path []plane.Point, rule rules) bool {
	cs := corners(path, rule.bend)
	closest := rule.near
	for i := 1; i < len(path); i++ {
		n := path[i-1].Dist(path[i])
		if math.Abs(cs[i].turn) > 3 { // doubles back, where the tangent of half of it says nothing
			return false
		}
		if cs[i-1].cut+cs[i].cut > n+plane.Hair {
			return false
		}
		back := cs[i-1].turn*cs[i].turn > 0 && math.Abs(cs[i-1].turn+cs[i].turn) > turnsBack
		if back && n < closest-gapSlop {
			return false
		}
	}
	return true
}

// apart reports whether the path keeps the closest gap from itself.
func apart(path []plane.Point, rule rules) bool {
	closest := rule.near - gapSlop
	legs := plane.Segments(path)
	boxes := make([]plane.Rect, len(legs))
	for i, l := range legs {
		boxes[i] = l.Bounds()
	}
	for i := range legs {
		between := 0.0
		for j := i + 2; j < len(legs); j++ {
			between += legs[j-1].Length()
			if boxes[i].Apart(boxes[j], closest) || legs[i].Gap(legs[j]) >= closest {
				continue
			}
			if between >= apartAlong*rule.near || tight(path[i:j+2], rule) {
				return false
			}
		}
	}
	return true
}

// tight reports whether a short stretch of path comes too close to itself.
func tight(path []plane.Point, rule rules) bool {
	closest := rule.near
	pts := Samples(path, rule.bend, 4)
	for i, a := range pts {
		for _, b := range pts[i+1:] {
			if b.Along-a.Along >= apartAlong*closest && b.Along-a.Along < 4*closest &&
				a.At.Dist(b.At) < closest-gapSlop {
				return true
			}
		}
	}
	return false
}

// bendsInside reports whether the bends stay in the zone.
func bendsInside(path []plane.Point, rule rules, zone *rim) bool {
	for i := 1; i+1 < len(path); i++ {
		if !bendInside(path[i-1:i+2], rule.bend, zone) {
			return false
		}
	}
	return true
}

// bendInside reports whether the bend at the second of three points stays in
// the zone: at its concave corners a bend cuts towards the edge.
func bendInside(path []plane.Point, bend float64, zone *rim) bool {
	c := corners(path, bend)[1]
	if c.cut == 0 || !zone.within(path[1], bend) {
		return true
	}
	arc := bendAt(path, 1, c, bend)
	for _, t := range [...]float64{0.25, 0.5, 0.75} {
		if zone.leaves(arc.at(t*arc.length), edgeSlop) {
			return false
		}
	}
	return true
}
