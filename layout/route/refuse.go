package route

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// leastCovered is the share of the floor that can be reached below which a cable is
// refused as too short: its widest gaps would leave the rest cold.
const leastCovered = 0.85

// longestAsked of the ways that a sweep found are bent out: their bends may turn the order round.
const longestAsked = 20

// refuse says why a share has no route, with the lengths that would do; nil where
// one of the plans that tell them is a route after all.
func (r *room) refuse(l *laying, best *candidate) error {
	c := r.p.Cables[l.cable]
	out := &Refusal{Cable: l.cable, Zone: l.share.zone}
	if r.p.Brief {
		out.Reason = fmt.Sprintf("no route was found for cable %s at first sight", c.ID)
		return out
	}
	anywhere := *l.wish
	anywhere.near = nil
	out.Start = l.wish.near != nil
	if !r.startable(l.region, l.wish) && r.startable(l.region, &anywhere) {
		out.Lead = r.nearestStart(l.region, l.wish)
		out.Reason = fmt.Sprintf("cable %s can't start where it is asked to: no run ends there that a cold lead "+
			"comes to", c.ID)
		return out
	}
	if !r.startable(l.region, l.wish) {
		if l.wish.from != nil {
			out.Reason = fmt.Sprintf("cable %s can't go on from where its laid part ends: no run can be joined to it",
				c.ID)
			return out
		}
		out.Lead = r.nearestStart(l.region, l.wish)
		out.Reason = fmt.Sprintf("the cold lead of cable %s reaches no place where its heating part can start", c.ID)
		return out
	}
	if l.short {
		out.Reason, out.Early = inNoSteps(c.ID), true
		return out
	}
	n := r.reachable(l)
	out.Shortest, out.Longest = n.shortest, n.longest
	if l.keep(n.found); len(l.found) > 0 {
		return nil
	}
	rule := l.rule
	switch {
	case l.short:
		out.Shortest, out.Longest = 0, 0
		out.Reason, out.Early = inNoSteps(c.ID), true
	case out.Longest == 0 && narrow(l.region, rule):
		out.Reason = fmt.Sprintf("no run of cable %s fits on its floor: it is too narrow for a turn of %s", c.ID,
			r.p.gap(rule.x.turnBack, rule.turn()))
	case out.Longest == 0:
		out.Reason = fmt.Sprintf("no route was found for cable %s, nor for any other length on its floor", c.ID)
	case c.Length > out.Longest:
		out.Reason = fmt.Sprintf("cable %s of %s is too long: with the closest gaps allowed its floor takes %s "+
			"at most, and %s at least", c.ID, metres(c.Length), metres(out.Longest), metres(out.Shortest))
	case best != nil:
		out.Cold = 1 - best.score.Covered
		out.Reason = fmt.Sprintf("cable %s of %s is too short: with gaps of %s at most it would leave %s "+
			"of its floor cold; %s to %s would do", c.ID, metres(c.Length), r.p.gap(rule.x.widest, rule.far),
			say.Percent(out.Cold), metres(out.Shortest), metres(out.Longest))
	default:
		out.Reason = fmt.Sprintf("no route of just %s was found for cable %s; plans of %s to %s were, not "+
			"all lengths between can be laid", metres(c.Length), c.ID, metres(out.Shortest), metres(out.Longest))
	}
	return out
}

// gap words a gap of so many pegs, or of so many mm where pegs are no distance.
func (p Problem) gap(pegs int, mm float64) string {
	if p.Uneven != nil {
		return say.Apart(mm, plane.Millimetres)
	}
	return fmt.Sprintf("%d pegs", pegs)
}

// turn is the least distance between two runs that a turn joins, mm.
func (r rules) turn() float64 {
	return min(float64(r.x.turnBack)*r.x.pitch, float64(r.y.turnBack)*r.y.pitch)
}

func metres(mm float64) string { return say.About(mm, plane.Millimetres) }

// inNoSteps says that the search was ended with no route, not that there is none.
func inNoSteps(cable string) string {
	return fmt.Sprintf("no route was found for cable %s in the steps that the search has for its floor; there may be "+
		"one", cable)
}

// startable reports whether the path can start anywhere in the region.
func (r *room) startable(region plane.Region, wish *wishes) bool {
	ok := false
	r.starts(region, func(g *grid, x, y int) { ok = ok || wish.startCost(g, x, y) < inf32 })
	return ok
}

// nearestStart is how much lead in mm the nearest place to start asks for, of those where
// it is asked to, infinite where no lead comes to one.
func (r *room) nearestStart(region plane.Region, wish *wishes) float64 {
	least := math.Inf(1)
	r.starts(region, func(g *grid, x, y int) {
		if at := g.world(float64(x), float64(y)); wish.near == nil || wish.near.at.Dist(at) <= wish.near.within {
			least = min(least, wish.strip.leadTo(at))
		}
	})
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
	inner, err := region.Grow(-rule.turn() / 2)
	return err == nil && inner.Empty()
}

// lengths are those of the shortest and the longest cable that a share takes, mm,
// and the plans that tell it, as far as they do for the cable itself, the best first.
type lengths struct {
	shortest, longest float64
	found             []*candidate
}

// sides are the ways in which a zone's floor may be gone over: its directions, each from
// either side.
func (r *room) sides(zone int) (out []turns) {
	for _, from := range []turns{0, 2} {
		for _, t := range r.directions(zone) {
			out = append(out, t+from)
		}
	}
	return out
}

// reachable returns the lengths of the share, with what is laid already; 0 for none.
func (r *room) reachable(l *laying) lengths {
	n, ok := r.reached[l.cable]
	if !ok {
		n = r.reach(l)
		r.reached[l.cable] = n
	}
	return n
}

// reach lays the share with the widest and with the closest gaps, and with as much
// cable as it can. A length near an end of that range is easily missed by the
// search, which looks for even gaps, so that the plans are fitted to the cable too.
func (r *room) reach(l *laying) lengths {
	var found []*candidate
	longest := 0.0
	shortest := math.Inf(1)
	for _, t := range r.sides(l.share.zone) {
		g := newGrid(l.region, r.lattice, t)
		w, rule := r.newWay(l, newSweep(g, l.rule, l.wish, narrowLook)), l.rule.on(g)
		tight := rule // nothing but the closest gaps
		tight.y.widest = max(rule.y.closest, int(math.Ceil(rule.meanGap-plane.Whit)))
		for _, s := range []float64{float64(rule.y.widest), math.Max(float64(rule.y.closest), rule.meanGap)} {
			if w.sweep.plan(s) {
				if path := w.whole(w.sweep.trace(w.sweep.finals[0])); path != nil && r.covers(l, path) {
					shortest = math.Min(shortest, Length(path, l.rule.bend))
				}
				longest = math.Max(longest, w.longest())
			}
		}
		most := r.newWay(l, newSweep(g, tight, l.wish, wideLook))
		most.sweep.perPeg, most.annexes = -1, l.niches() > raggedNiches
		if most.sweep.plan(float64(tight.y.widest)) {
			longest = math.Max(longest, most.longest())
		}
		found = append(append(found, w.found...), most.found...)
		l.short = !r.spend(l, w, most) || l.short
	}
	sortByScore(found)
	return lengths{math.Min(shortest, longest), longest, found}
}

// covers reports whether a path leaves no more of its share cold than a route may.
func (r *room) covers(l *laying, path []plane.Point) bool {
	f := newField(l.region, r.lattice, l.rule.near,
		r.spacing(l.region, Length(path, l.rule.bend)))
	return f.judge(path, math.Inf(1)).Covered >= leastCovered*f.hangs
}

// longest returns the length in mm of the longest whole plan that keeps the
// rules, and fits those that are longer than the cable to it.
func (w *way) longest() float64 {
	ids := slices.Clone(w.sweep.finals)
	slices.SortStableFunc(ids, func(a, b int32) int {
		return cmp.Compare(w.sweep.arena[b].length,
			w.sweep.arena[a].length)
	})
	most := 0.0
	for _, id := range ids[:min(len(ids), longestAsked)] {
		p := w.sweep.trace(id)
		if w.annexes {
			p = w.annex(p, w.sweep.s)
		}
		if path := w.whole(p); path != nil {
			most = math.Max(most, Length(path, w.sweep.rule.bend))
		}
		w.consider(p)
	}
	return most
}

// whole returns a plan's path with what is laid already, as long as it comes;
// nil where it breaks a rule.
func (w *way) whole(p *runPlan) []plane.Point {
	rule, from := w.sweep.rule, w.sweep.wish.from
	q := &runPlan{g: p.g, nodes: slices.Clone(p.nodes)}
	q.mendBends(rule, w.zone)
	path := from.join(q.world())
	if !sound(path, rule, w.zone, Length(path, rule.bend), from.kept()) {
		return nil
	}
	return path
}
