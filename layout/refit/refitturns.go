package refit

import (
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// bent is the plan with its turns still to be laid pushed outwards or drawn in, a peg
// at a time, and its end where the cable ends; nil where that finds no place so. The
// fewer of its runs differ by that, the better: the last turns go first.
func (f *Refit) bent() *rest {
	if f.plan == nil || f.Laid == nil ||
		f.sound(f.plan) < len(layout.Runs(f.plan, f.Planned.BendRadius, f.Planned.Lattice)) {
		return nil
	}
	rt := f.bentRoute()
	if rt == nil {
		return nil
	}
	r := f.weigh(*rt)
	if r.coldShare(f) > 1-leastWarm {
		return nil
	}
	return r
}

// leastWarm is the share of its floor that a cable must reach at least.
const leastWarm = 0.85

// bentRoute is bent's route, of which only the rules have been looked at.
func (f *Refit) bentRoute() *route.Route {
	path := f.bentTo(f.whole())
	if len(path) < len(f.Laid) || !route.Sound(f.problem(), path, f.Room.Zones[f.Planned.Zone], len(f.Laid)) {
		return nil
	}
	rt := route.Route{Path: path, ColdLead: f.Planned.ColdLead, Lattice: f.lattice(), Zone: f.Planned.Zone,
		Score: f.Planned.Score}
	if f.Planned.Return != nil {
		if rt.Return = f.leadBack(path); rt.Return == nil {
			return nil
		}
	}
	return &rt
}

// bentTo is the plan's path made so long; nil where it finds no place.
func (f *Refit) bentTo(length float64) []plane.Point {
	path := slices.Clone(f.plan)
	over := length - route.Length(path, f.Planned.BendRadius)
	switch {
	case over > 0:
		over = f.pushTurns(path, over)
	case f.Planned.Return != nil:
		over = f.drawTurns(path, over)
	}
	if over <= 0 {
		return f.endBent(path, length)
	}
	last := len(path) - 1
	path[last] = path[last].Add(path[last].Sub(path[last-1]).Unit().Mul(over))
	if !f.free(path, last) || !f.cool(path, last) {
		return nil
	}
	return path
}

// endBent ends a path where it is so long. Where that is in a bend, one turn more
// is pushed outwards or drawn in, and it ends on another leg. The end of a cable with
// two cold ends stays on its last leg.
func (f *Refit) endBent(path []plane.Point, length float64) []plane.Point {
	least := len(f.Laid)
	if f.Planned.Return != nil {
		least = len(path)
	}
	for _, by := range []float64{0, 1, -1} {
		if by != 0 && !f.pushOne(path, by) {
			continue
		}
		if out := endAt(path, f.Planned.BendRadius, length); out != nil && len(out) >= least {
			return out
		}
	}
	return nil
}

// pushOne moves the last link that can be moved.
func (f *Refit) pushOne(path []plane.Point, pegs float64) bool {
	for i := len(path) - 3; i >= max(1, len(f.Laid)); i-- {
		if f.pushLink(path, i, pegs*f.pegAt(path, i)) {
			return true
		}
	}
	return false
}

// pushTurns moves links of turns that are still to be laid outwards until so much
// cable over has its place, the last first, and returns what has none.
func (f *Refit) pushTurns(path []plane.Point, over float64) float64 {
	for i := len(path) - 3; i >= max(1, len(f.Laid)) && over > 0; i-- {
		for by := f.pegAt(path, i); over > 0 && f.pushLink(path, i, by); {
			over -= 2 * by
		}
	}
	return over
}

// drawTurns moves links inwards while more than two pegs are lacking, each by one peg
// at first, and returns what is lacking still, as less than nothing.
func (f *Refit) drawTurns(path []plane.Point, over float64) float64 {
	for drawn := true; drawn; {
		drawn = false
		for i := len(path) - 3; i >= max(1, len(f.Laid)) && over <= -2*f.pitch(); i-- {
			if by := f.pegAt(path, i); f.pushLink(path, i, -by) {
				over, drawn = over+2*by, true
			}
		}
	}
	return over
}

// pegAt is a peg along the leg that ends at corner i, mm.
func (f *Refit) pegAt(path []plane.Point, i int) float64 {
	return f.Planned.Lattice.Pegs(path[i].Sub(path[i-1]))
}

// pushLink moves the link that begins at corner i outwards; false, and nothing is
// moved, where it is no link of a turn or has no room.
func (f *Refit) pushLink(path []plane.Point, i int, by float64) bool {
	u, v := path[i].Sub(path[i-1]).Unit(), path[i+2].Sub(path[i+1]).Unit()
	if u.Dot(v) > -straightOn || path[i+1].Dist(path[i]) > f.links() {
		return false
	}
	if shortest := min(path[i].Dist(path[i-1]), path[i+2].Dist(path[i+1])); shortest+by < f.turnBack() {
		return false
	}
	a, b := path[i], path[i+1]
	c, d := a.Add(u.Mul(by)), b.Add(u.Mul(by))
	path[i], path[i+1] = c, d
	if f.clear(plane.Segment{A: c, B: d}, path, i+1) && f.cool(path, i) && f.cool(path, i+2) &&
		(by < 0 || f.clear(plane.Segment{A: a, B: c}, path, i) && f.clear(plane.Segment{A: b, B: d}, path, i+2)) {
		return true
	}
	path[i], path[i+1] = a, b
	return false
}

// turnBack is the least length of a leg between two bends, mm.
func (f *Refit) turnBack() float64 {
	return max(f.Job.Near(), 2*f.Planned.BendRadius) - layout.SamePeg/2
}

// free reports whether the leg that ends at corner i lies on the cable's own
// floor and keeps the closest gap from all legs but those it joins.
func (f *Refit) free(path []plane.Point, i int) bool {
	return f.clear(plane.Segment{A: path[i-1], B: path[i]}, path, i)
}

// clear reports the same of a piece of that leg.
func (f *Refit) clear(leg plane.Segment, path []plane.Point, i int) bool {
	if !inside(leg, f.floor) {
		return false
	}
	least := f.Job.Near() - layout.SamePeg/2
	for k := 1; k < len(path); k++ {
		if math.Abs(float64(k-i)) > 1 && leg.Gap(plane.Segment{A: path[k-1], B: path[k]}) < least {
			return false
		}
	}
	return true
}

// cool reports whether the leg that ends at corner i, and those beside it, keep the
// power limit.
func (f *Refit) cool(path []plane.Point, i int) bool {
	both := f.bothGaps()
	if both <= 0 {
		return true
	}
	all := plane.Segments(path)
	var own []plane.Segment
	for _, l := range all {
		if l.Gap(all[i-1]) <= both {
			own = append(own, l)
		}
	}
	return route.Cool(own, all, both, f.links())
}

// links is the length up to which a leg is a link between runs, mm.
func (f *Refit) links() float64 { return 2 * f.Job.Far() }

// leadBack draws the second cold lead anew; nil where it finds no way.
func (f *Refit) leadBack(path []plane.Point) []plane.Point {
	cables, leads := f.lying()
	return route.LeadBack(f.problem(), path, cables, leads)
}

// lying are the other cables and the leads that a second cold lead is to pass.
func (f *Refit) lying() (cables, leads [][]plane.Point) {
	leads = append(leads, f.Planned.ColdLead)
	for i := range f.Room.Cables {
		if c := &f.Room.Cables[i]; c != f.Planned {
			cables, leads = append(cables, c.Path), append(leads, c.ColdLead, c.Return)
		}
	}
	return cables, leads
}

// lacking mm short is a cable that does not reach.
const lacking = 1e-3

// endAt cuts a path where its rounded line is so long; nil where it is shorter
// or ends in a bend there.
func endAt(path []plane.Point, bend, length float64) []plane.Point {
	for i := len(path) - 1; i > 0; i-- {
		before := route.Length(path[:i+1], bend)
		short := before - length
		leg := plane.Segment{A: path[i-1], B: path[i]}
		if short < -lacking {
			return nil
		}
		if left := leg.Length() - short; left > bend+1 {
			return append(path[:i:i], leg.At(left))
		}
	}
	return nil
}
