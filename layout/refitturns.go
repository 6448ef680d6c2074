package layout

import (
	"math"
	"slices"

	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// lengthened is the plan with turns that are still to be laid pushed outwards,
// a peg at a time, where there is floor for it: two pegs of cable each. It is
// for cable that is over; nil where that finds no place so. The other end of a
// cable with two cold ends has to come back to the box, and a power limit is
// the router's to judge.
func (f *Refit) lengthened() *rest {
	if f.plan == nil || f.Laid == nil || f.Planned.Return != nil || f.job.Supply.MaxDensity > 0 || f.sound(f.plan) < len(f.Old) {
		return nil
	}
	path := slices.Clone(f.plan)
	over := f.whole() - pathLength(path, f.Planned.BendRadius)
	if over <= 0 {
		return nil
	}
	for i := len(path) - 3; i >= len(f.Laid) && over > 0; i-- {
		for over > 0 && f.pushOut(path, i) {
			over -= 2 * f.pitch()
		}
	}
	if last := len(path) - 1; over > 0 {
		path[last] = path[last].Add(path[last].Sub(path[last-1]).Unit().Mul(over))
		if !f.free(path, last) {
			return nil
		}
	}
	if path = endAt(path, f.Planned.BendRadius, f.whole()); path == nil {
		return nil
	}
	return f.weigh(route.Route{Path: path, ColdLead: f.Planned.ColdLead, Lattice: f.lattice(), Zone: f.Planned.Zone, Score: f.Planned.Score})
}

// pushOut moves the link that begins at corner i one peg outwards; false, and
// nothing is moved, where it is no link of a turn or has no room.
func (f *Refit) pushOut(path []plane.Point, i int) bool {
	u, v := path[i].Sub(path[i-1]).Unit(), path[i+2].Sub(path[i+1]).Unit()
	if u.Dot(v) > -0.999 || path[i+1].Dist(path[i]) > 2*float64(f.job.Spacing.Widest)*f.pitch() {
		return false
	}
	a, b := path[i], path[i+1]
	path[i], path[i+1] = a.Add(u.Mul(f.pitch())), b.Add(u.Mul(f.pitch()))
	if f.free(path, i) && f.free(path, i+1) && f.free(path, i+2) {
		return true
	}
	path[i], path[i+1] = a, b
	return false
}

// free reports whether the leg that ends at corner i lies on the cable's own
// floor and keeps the closest gap from all legs but those it joins.
func (f *Refit) free(path []plane.Point, i int) bool {
	leg := plane.Segment{A: path[i-1], B: path[i]}
	if !inside(leg, f.floor) {
		return false
	}
	least := float64(f.job.Spacing.Closest)*f.pitch() - samePeg/2
	for k := 1; k < len(path); k++ {
		if math.Abs(float64(k-i)) > 1 && leg.Gap(plane.Segment{A: path[k-1], B: path[k]}) < least {
			return false
		}
	}
	return true
}
