package route

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"oxturn/layout/plane"
)

// leastCovered is the share of the floor below which a cable is refused as
// too short: its widest gaps would leave the rest cold.
const leastCovered = 0.85

// refuse says why a share has no route, with the lengths that would do, found
// by laying the floor with the closest and with the widest gaps.
func (r *room) refuse(sh share, rule rules, wish *wishes, best *candidate) error {
	c := r.p.Cables[sh.cable]
	out := &Refusal{Cable: sh.cable, Zone: sh.zone}
	if r.p.Brief {
		out.Reason = fmt.Sprintf("no route was found for cable %s at first sight", c.ID)
		return out
	}
	if !r.startable(sh.region, wish) {
		if wish.from != nil {
			out.Reason = fmt.Sprintf("cable %s can't go on from where its laid part ends: no run can be joined to it", c.ID)
			return out
		}
		out.Lead = r.nearestStart(sh.region, wish)
		out.Reason = fmt.Sprintf("the cold lead of cable %s reaches no place where its heating part can start", c.ID)
		return out
	}
	out.Shortest, out.Longest = r.reachable(sh, rule, wish)
	switch {
	case out.Longest == 0 && narrow(sh.region, rule):
		out.Reason = fmt.Sprintf("no run of cable %s fits on its floor: it is too narrow for a turn of %d pegs", c.ID, rule.turnBack)
	case out.Longest == 0:
		out.Reason = fmt.Sprintf("no route was found for cable %s, nor for any other length on its floor", c.ID)
	case c.Length > out.Longest:
		out.Reason = fmt.Sprintf("cable %s of %.1f m is too long: with the closest gaps allowed its floor takes %.1f m at most, and %.1f m at least", c.ID, c.Length/1000, out.Longest/1000, out.Shortest/1000)
	case best != nil:
		out.Cold = 1 - best.score.Covered
		out.Reason = fmt.Sprintf("cable %s of %.1f m is too short: with gaps of %d pegs at most it would leave %.0f %% of its floor cold; %.1f to %.1f m would do", c.ID, c.Length/1000, rule.widest, 100*out.Cold, out.Shortest/1000, out.Longest/1000)
	default:
		out.Reason = fmt.Sprintf("no route of %.1f m was found for cable %s; its floor takes %.1f to %.1f m", c.Length/1000, c.ID, out.Shortest/1000, out.Longest/1000)
	}
	return out
}

// startable reports whether the path can start anywhere in the region.
func (r *room) startable(region plane.Region, wish *wishes) bool {
	ok := false
	r.starts(region, func(g *grid, x, y int) { ok = ok || wish.startCost(g, x, y) < inf32 })
	return ok
}

// nearestStart is how much lead in mm the nearest place to start asks for,
// infinite where no lead comes to one.
func (r *room) nearestStart(region plane.Region, wish *wishes) float64 {
	least := math.Inf(1)
	r.starts(region, func(g *grid, x, y int) { least = min(least, wish.strip.leadTo(g.world(float64(x), float64(y)))) })
	return least
}

// starts goes through the places where a path may start, along the lattice
// and across.
func (r *room) starts(region plane.Region, at func(g *grid, x, y int)) {
	for t := range turns(2) {
		g := newGrid(region, r.lattice, t)
		for y, row := range g.rows {
			for _, s := range row {
				at(g, s.a, y)
				at(g, s.b, y)
			}
		}
	}
}

// narrow reports whether no turn has room anywhere.
func narrow(region plane.Region, rule rules) bool {
	inner, err := region.Grow(-float64(rule.turnBack) * rule.pitch / 2)
	return err == nil && inner.Empty()
}

// lengths are those of the shortest and the longest cable that a share takes, mm.
type lengths struct{ shortest, longest float64 }

// reachable returns the shortest and the longest cable that was laid in the
// share, in mm with what is laid already; 0 for none.
func (r *room) reachable(sh share, rule rules, wish *wishes) (shortest, longest float64) {
	n, ok := r.reached[sh.cable]
	if !ok {
		n.shortest, n.longest = r.reach(sh, rule, wish)
		r.reached[sh.cable] = n
	}
	return n.shortest, n.longest
}

// reach works out what reachable returns.
func (r *room) reach(sh share, rule rules, wish *wishes) (shortest, longest float64) {
	laid := Length(r.frozen(sh.cable), rule.bend)
	shortest = math.Inf(1)
	tight := rule // nothing but the closest gaps
	tight.widest = max(rule.closest, int(math.Ceil(rule.meanGap-1e-9)))
	for t := range turns(4) {
		g := newGrid(sh.region, r.lattice, t)
		w := newSweep(g, rule, wish, narrowly)
		w.stop = r.stopped
		for _, s := range []float64{float64(rule.widest), math.Max(float64(rule.closest), rule.meanGap)} {
			if w.plan(s) {
				if plan := w.trace(w.finals[0]); r.covers(sh, rule, wish.from.join(plan.world())) {
					shortest = math.Min(shortest, laid+plan.length(rule))
				}
				longest = math.Max(longest, laid+w.longest())
			}
		}
		w = newSweep(g, tight, wish, wide)
		w.stop = r.stopped
		w.perPeg = -1
		if w.plan(float64(tight.widest)) {
			longest = math.Max(longest, laid+w.longest())
		}
	}
	if math.IsInf(shortest, 1) {
		shortest = longest
	}
	return math.Min(shortest, longest), longest
}

// covers reports whether a path leaves no more of its share cold than a route may.
func (r *room) covers(sh share, rule rules, path []plane.Point) bool {
	f := newField(sh.region, r.lattice, float64(rule.closest)*rule.pitch, r.spacing(sh.region, Length(path, rule.bend)))
	return f.judge(path, math.Inf(1)).Covered >= leastCovered
}

// longest returns the length in mm of the longest whole plan.
func (w *sweep) longest() float64 {
	ids := slices.Clone(w.finals)
	slices.SortStableFunc(ids, func(a, b int32) int { return cmp.Compare(w.arena[b].length, w.arena[a].length) })
	most := 0.0
	for _, id := range ids[:min(len(ids), 20)] { // their bends may turn the order round
		most = math.Max(most, w.trace(id).length(w.rule))
	}
	return most
}
