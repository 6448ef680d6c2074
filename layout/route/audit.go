package route

import (
	"fmt"
	"math"

	"oxturn/layout/plane"
)

// leadSlop is how near, in mm, a cold lead may come to heating cable or leave
// the floor, and how far it may begin from the entry.
const leadSlop = 1.0

// A fault is a rule that a whole answer breaks, and by which cable.
type fault struct {
	cable    int
	what     string
	bearable bool // a wish, not a rule
	shut     bool // no way for a cold lead
}

// mostAnswers bounds how many whole answers are audited, mostWishes how many of them
// once there is one that breaks a wish only.
const (
	mostAnswers = 16
	mostWishes  = 3
)

// answer puts the best routes of all cables together, draws the leads and
// audits the whole. A cable at fault gives way to its next best route; when
// none is left the answer is a refusal.
func (r *room) answer(options [][]Route) ([]Route, error) {
	var spare []Route
	var worst *fault
	at, wished := make([]int, len(options)), 0
	for range mostAnswers {
		routes := make([]Route, len(options))
		for i, o := range options {
			routes[i] = o[at[i]]
		}
		if r.stopped() {
			return nil, ErrStopped
		}
		if (spare != nil || worst != nil) && r.steps.spent("other routes, for cold leads that keep apart") {
			break
		}
		f := r.leads(routes)
		if f == nil {
			f = r.audit(routes)
		}
		switch {
		case f == nil:
			return routes, nil
		case f.bearable && spare == nil:
			spare = routes
		case worst == nil:
			worst = f
		}
		if spare != nil {
			wished++
		}
		if at[f.cable]++; at[f.cable] == len(options[f.cable]) || wished == mostWishes {
			break
		}
	}
	if spare != nil {
		return spare, nil
	}
	out := &Refusal{Cable: worst.cable, Zone: options[worst.cable][0].Zone, Reason: worst.what}
	if worst.shut {
		out.Lead = math.Inf(1)
	}
	return nil, out
}

// audit checks a whole answer against the rules, with nothing taken on trust
// from how it was made. What was laid before is not judged again. It returns
// the first fault, rules before wishes.
func (r *room) audit(routes []Route) *fault {
	for i := range routes {
		if what := r.auditPath(routes, i); what != "" {
			return &fault{cable: i, what: fmt.Sprintf("the best route found for cable %s %s", r.p.Cables[i].ID, what)}
		}
		if what := r.auditLeads(routes, i); what != "" {
			return &fault{cable: i, what: fmt.Sprintf("the cold lead of cable %s %s", r.p.Cables[i].ID, what)}
		}
	}
	return crossedLeads(routes)
}

// auditPath says what rule the path of cable i breaks, "" for none.
func (r *room) auditPath(routes []Route, i int) string {
	rt, c := routes[i], r.p.Cables[i]
	rule, laid := rulesFor(r.p, c), max(1, len(r.frozen(i)))
	if len(rt.Path) < 2 || !(math.Abs(Length(rt.Path, r.p.Bend)-c.Length) <= lengthSlop) {
		return "is not of the cable's length"
	}
	if !bendsFit(rt.Path, rule) {
		return "has no room for a bend"
	}
	zone := r.rim(rt.Zone)
	if !legsInside(plane.Segments(rt.Path)[laid-1:], zone, edgeSlop) || !bendsInside(rt.Path, rule, zone) {
		return "leaves its zone"
	}
	if rule.held && !r.heldByStrips(rt, laid) {
		return "has a piece that no strip holds"
	}
	if !apart(rt.Path, rule) {
		return "comes closer to itself than the closest gap"
	}
	all := plane.Segments(rt.Path)
	for j, other := range routes {
		if j == i {
			continue
		}
		legs := plane.Segments(other.Path)
		if !clearOf(plane.Segments(rt.Path)[laid-1:], legs, r.p.near()-gapSlop) {
			return fmt.Sprintf("comes closer to cable %s than the closest gap", r.p.Cables[j].ID)
		}
		all = append(all, legs...)
	}
	if !cool(plane.Segments(rt.Path)[laid-1:], all, rule.mean, rule.links()) {
		return "puts more power on three neighbouring runs than the cap"
	}
	return ""
}

// heldByStrips reports whether each leg that is laid now, but for the last, crosses a strip or links two that do.
func (r *room) heldByStrips(rt Route, laid int) bool {
	legs, u := plane.Segments(rt.Path), r.p.Uneven
	for _, l := range legs[laid-1 : max(laid-1, len(legs)-1)] {
		d, most := l.B.Sub(l.A).Rotate(-r.lattice.Angle), u.Widest+gapSlop
		if math.Abs(d.Y) > most || math.Abs(d.Y) < gapSlop && math.Abs(d.X) < u.Held-gapSlop {
			return false
		}
	}
	return true
}

// legsInside reports whether straight legs stay in the zone.
func legsInside(legs []plane.Segment, zone *rim, slack float64) bool {
	var edges []plane.Segment
	for _, r := range zone.Rings() {
		for i := range r {
			edges = append(edges, r.Edge(i))
		}
	}
	for _, l := range legs {
		box, along := l.Bounds(), []float64{0.5}
		for _, e := range edges {
			if !box.Apart(e.Bounds(), 1) && l.Gap(e) < 1 {
				along = append(along, stationsBy(l, e)...)
			}
		}
		for _, t := range along {
			if zone.leaves(l.A.Lerp(l.B, t), slack) {
				return false
			}
		}
	}
	return true
}

// besideEnds is how far beside an edge's ends a leg is looked at, mm.
const besideEnds = 20

// stationsBy returns the places along leg l, as shares of it, where it may be
// farthest outside an edge that it meets: its ends, beside the edge's ends,
// and every 10 mm between.
func stationsBy(l, e plane.Segment) []float64 {
	n := l.Length()
	if n == 0 {
		return []float64{0}
	}
	u := l.B.Sub(l.A).Unit()
	a, b := e.A.Sub(l.A).Dot(u), e.B.Sub(l.A).Dot(u)
	from, to := math.Max(0, math.Min(a, b)-besideEnds), math.Min(n, math.Max(a, b)+besideEnds)
	out := []float64{0, 1, math.Max(0, math.Min(n, a)) / n, math.Max(0, math.Min(n, b)) / n}
	for d := from; d < to; d += 10 {
		out = append(out, d/n)
	}
	return out
}

// clearOf reports whether two sets of legs are at least d mm apart.
func clearOf(a, b []plane.Segment, d float64) bool {
	boxes := make([]plane.Rect, len(b))
	for i, m := range b {
		boxes[i] = m.Bounds()
	}
	for _, l := range a {
		box := l.Bounds()
		for i, m := range b {
			if !box.Apart(boxes[i], d) && l.Gap(m) < d {
				return false
			}
		}
	}
	return true
}

// auditLeads says what rule the cold leads of cable i break, "" for none.
func (r *room) auditLeads(routes []Route, i int) string {
	rt := routes[i]
	what := r.auditLead(routes, i, rt.ColdLead, rt.Path[0])
	if what == "" && r.p.Cables[i].Ends.Return() {
		what = r.auditLead(routes, i, rt.Return, rt.Path[len(rt.Path)-1])
	}
	return what
}

func (r *room) auditLead(routes []Route, i int, lead []plane.Point, end plane.Point) string {
	if len(lead) < 2 || lead[0].Dist(r.p.Entry) > leadSlop || lead[len(lead)-1].Dist(end) > leadSlop {
		return "does not join the entry to the heating part"
	}
	if reach := r.p.Cables[i].LeadReach; reach > 0 && pathLength(lead) > reach+lengthSlop {
		return "is too short for the way to the heating part"
	}
	if !legsInside(plane.Segments(lead), r.floorRim(), leadSlop) {
		return "leaves the floor"
	}
	for _, other := range routes {
		for _, m := range plane.Segments(other.Path) {
			if !leadPasses(lead, m, end) {
				return fmt.Sprintf("meets the heating part of cable %s", r.p.Cables[other.Cable].ID)
			}
		}
	}
	return ""
}

// leadPasses reports whether a lead that ends at end keeps off heating leg m.
// At its end it joins the cable, so there only a crossing counts.
func leadPasses(lead []plane.Point, m plane.Segment, end plane.Point) bool {
	joins := m.A.Dist(end) < leadSlop || m.B.Dist(end) < leadSlop
	for _, l := range plane.Segments(lead) {
		if l.Crosses(m) || !joins && l.Gap(m) < leadSlop/2 {
			return false
		}
	}
	return true
}

// crossedLeads finds two cold leads that cross. They may share a fan at the
// entry.
func crossedLeads(routes []Route) *fault {
	type lead struct {
		cable int
		legs  []plane.Segment
	}
	var leads []lead
	for _, rt := range routes {
		for _, l := range [][]plane.Point{rt.ColdLead, rt.Return} {
			if len(l) < 2 {
				continue
			}
			legs := plane.Segments(l)
			for _, other := range leads {
				if crossing(legs, other.legs, l[0]) {
					return &fault{cable: rt.Cable, what: "two cold leads cross", bearable: true}
				}
			}
			leads = append(leads, lead{rt.Cable, legs})
		}
	}
	return nil
}

func crossing(a, b []plane.Segment, entry plane.Point) bool {
	for _, l := range a {
		for _, m := range b {
			if at, ok := l.Intersection(m); ok && l.Crosses(m) && at.Dist(entry) > leadFan {
				return true
			}
		}
	}
	return false
}
