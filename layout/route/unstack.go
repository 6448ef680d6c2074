package route

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout/plane"
)

// Leads that lie on one another are drawn anew, one after the other, each between all the
// others: over them where it must, at a price that rises from round to round, so that
// those that have another way leave the only ways to those that have none (rip up and
// re-route by negotiation, as wires on a board are laid).

const (
	unstackRounds = 5
	firstOver     = 4 * straightStep // what a step over another lead costs at first, beside its own
	overGrowth    = 4                // and by how many times more from round to round
	mostFine      = 3_000_000        // cells that are looked at for one room
)

// A leadLine is one of the leads of a room: of which route, which of its two, and where to.
type leadLine struct {
	route int
	cable int
	back  bool
	to    plane.Point
	pts   []plane.Point
}

// set draws the lead in a set of routes.
func (l *leadLine) set(routes []Route) {
	if l.back {
		routes[l.route].Return = l.pts
	} else {
		routes[l.route].ColdLead = l.pts
	}
}

// leadLines lists the leads, those to the nearest starts of heat first.
func (r *room) leadLines(routes []Route) []leadLine {
	var out []leadLine
	for i, rt := range routes {
		out = append(out, leadLine{i, rt.Cable, false, rt.Path[0], rt.ColdLead})
		if r.p.Cables[rt.Cable].Ends.Return() {
			out = append(out, leadLine{i, rt.Cable, true, rt.Path[len(rt.Path)-1], rt.Return})
		}
	}
	slices.SortStableFunc(out, func(a, b leadLine) int { return cmp.Compare(pathLength(a.pts), pathLength(b.pts)) })
	return out
}

// unstack draws leads that lie on one another anew, on a fine raster, and returns the
// best of the rounds.
func (r *room) unstack(best *drawn) *drawn {
	g, left := r.ground(best.routes, fineCell), min(mostFine-r.fine, r.steps.left)
	defer func() { r.steps.left, r.fine = r.steps.left-g.looks, r.fine+g.looks }()
	g.work = &left
	leads, joints := r.leadLines(best.routes), r.joints(best.routes)
	over := int32(firstOver)
	for round := range unstackRounds {
		for i := range leads {
			others := without(leads, i)
			lies := func(pts []plane.Point) float64 { return stackedOn(pts, others, joints, r.p.Entry) }
			if round < 2 && lies(leads[i].pts) == 0 {
				continue // later rounds move those too that shut others in
			}
			g.clearLeads()
			for _, o := range others {
				g.addLead(byLead, o)
			}
			if round < 2 {
				lies = func([]plane.Point) float64 { return 0 } // the first way will do
			}
			if pts := r.leadBetween(g, &leads[i], over, lies); pts != nil {
				leads[i].pts = pts
			}
		}
		slices.Reverse(leads)
		if d := r.drawnAs(best.routes, leads, joints); d.better(best) {
			best = d
		}
		if best.stacked == 0 || left < 0 {
			break
		}
		over *= overGrowth
	}
	return best
}

// leadBetween draws one lead between all others, nil where none is within the cable's
// reach: along the edges of the shares, or where it lies on others there anywhere; off
// lead joints, else over them.
func (r *room) leadBetween(g *leadGround, l *leadLine, over int32, lies func([]plane.Point) float64) []plane.Point {
	reach := r.p.Cables[l.cable].LeadReach
	var best []plane.Point
	least := math.Inf(1)
	for _, off := range [...]taken{byLead | byJoint | inShare, byLead | byJoint, byLead} {
		if off&inShare == 0 && g.vast() {
			continue
		}
		pts := g.leadRoute(l.to, off, over)
		if pts == nil || reach > 0 && pathLength(pts) > reach {
			continue
		}
		if on := lies(pts); on < least {
			best, least = pts, on
		}
		if least == 0 {
			break
		}
	}
	return best
}

// drawnAs is what routes with other leads come to.
func (r *room) drawnAs(routes []Route, leads []leadLine, joints []plane.Point) *drawn {
	d := &drawn{routes: slices.Clone(routes)}
	for i := range leads {
		leads[i].set(d.routes)
		d.length += pathLength(leads[i].pts)
		d.stacked += stackedOn(leads[i].pts, without(leads[:i], i), joints, r.p.Entry)
	}
	return d
}

// without lists the courses of all leads but one.
func without(leads []leadLine, but int) (out [][]plane.Point) {
	for i, l := range leads {
		if i != but {
			out = append(out, l.pts)
		}
	}
	return out
}
