package route

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// leads draws the cold leads once all paths are known, in the order that has
// them least on one another, of such the shortest: a lead drawn first may shut
// others in.
func (r *room) leads(routes []Route) *fault {
	var best *drawn
	var first *fault
	on := []*leadGround{r.ground(routes, stripCell)}
	defer func() { r.steps.left -= on[0].looks }()
	for _, order := range orders(len(routes)) {
		if (best != nil || first != nil) && r.steps.spent("other orders of the cold leads") {
			break
		}
		d, f := r.leadsInOrder(routes, order, on)
		if f == nil && (best == nil || d.better(best)) {
			best = d
		}
		if f != nil && first == nil {
			first = f
		}
	}
	if best == nil {
		return first
	}
	if best.stacked > 0 && r.fine < mostFine && !r.steps.spent("cold leads closer side by side") {
		best = r.unstack(best)
	}
	copy(routes, best.routes)
	return nil
}

// A drawn is one try of all leads.
type drawn struct {
	routes  []Route
	length  float64
	stacked float64 // mm that they lie on one another, with jointCost for each lead joint they lie on
}

// crossCost makes a crossing, which may be at the foot of the box where lead on lead does
// not count, as bad as some length of it.
const crossCost = 50.0

// jointCost makes a lead over a lead joint worse than any lead over a lead.
const jointCost = 1e5

func (d *drawn) better(than *drawn) bool {
	if math.Abs(d.stacked-than.stacked) > 1 {
		return d.stacked < than.stacked
	}
	return d.length < than.length-1
}

// orders returns all orders of n things when they are few, else the given one.
func orders(n int) [][]int {
	if n > 3 {
		return [][]int{counting(n)}
	}
	out := [][]int{{}}
	for i := range n {
		var longer [][]int
		for _, o := range out {
			for at := len(o); at >= 0; at-- {
				longer = append(longer, slices.Insert(slices.Clone(o), at, i))
			}
		}
		out = longer
	}
	return out
}

// counting returns 0 to n-1.
func counting(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// ground is the floor between the cables for leads, in cells of so many mm.
func (r *room) ground(routes []Route, cell float64) *leadGround {
	shares := r.p.Zones
	if r.regions != nil {
		shares = r.regions
	}
	g := newLeadGround(r.p.Floor, shares, r.p.Entry, cell)
	for _, rt := range routes {
		g.add(byCable, plane.Point{}, rt.Path)
	}
	for _, at := range r.joints(routes) {
		g.add(byJoint, at, around(at, jointOff))
	}
	for _, l := range r.lying {
		g.addLead(byLying, l)
	}
	g.fixed = len(g.lines)
	return g
}

// leadsInOrder draws the leads of one cable after the other, on the first of the
// grounds where it can.
func (r *room) leadsInOrder(routes []Route, order []int, on []*leadGround) (*drawn, *fault) {
	out := &drawn{routes: slices.Clone(routes)}
	for _, g := range on {
		g.clearLeads()
	}
	var leads [][]plane.Point
	joints := r.joints(routes)
	draw := func(i int, to plane.Point) []plane.Point {
		lead := r.lead(&out.routes[i], to, on)
		if lead == nil {
			return nil
		}
		out.stacked += stackedOn(lead, leads, joints, r.p.Entry)
		leads = append(leads, lead)
		for _, g := range on {
			g.addLead(byLead, lead)
		}
		out.length += pathLength(lead)
		return lead
	}
	for _, i := range order {
		rt := &out.routes[i]
		if rt.ColdLead = draw(i, rt.Path[0]); rt.ColdLead == nil {
			return nil, &fault{cable: rt.Cable,
				what: "the cold lead finds no way to the start of heat without crossing a heating cable", shut: true}
		}
		if !r.p.Cables[rt.Cable].Ends.Return() {
			continue
		}
		if rt.Return = draw(i, rt.Path[len(rt.Path)-1]); rt.Return == nil {
			return nil, &fault{cable: rt.Cable,
				what: "the second cold lead finds no way back without crossing a heating cable", shut: true}
		}
	}
	return out, nil
}

// joints are the places where heating cable and cold lead are joined.
func (r *room) joints(routes []Route) (out []plane.Point) {
	for _, rt := range routes {
		out = append(out, rt.Path[0])
		if r.p.Cables[rt.Cable].Ends.Return() {
			out = append(out, rt.Path[len(rt.Path)-1])
		}
	}
	return out
}

// stackedOn is for how many mm a lead lies on others, with crossCost where it crosses
// one and jointCost for each lead joint but its own.
func stackedOn(lead []plane.Point, others [][]plane.Point, joints []plane.Point, entry plane.Point) float64 {
	n := 0.0
	for _, o := range others {
		n += Stacked(lead, o, entry).Length
		if crossing(plane.Segments(lead), plane.Segments(o), entry) {
			n += crossCost
		}
	}
	for _, at := range joints {
		if OverJoint(lead, at) {
			n += jointCost
		}
	}
	return n
}

// A Stack is where a lead lies on another.
type Stack struct {
	At     plane.Point // the middle of it
	Length float64     // mm, 0 for none
}

// Stacked says where lead a lies on lead b, beyond the foot of the box where all
// come together.
func Stacked(a, b []plane.Point, entry plane.Point) Stack {
	const step, apart = 3.0, leadThick - 0.5
	legs := plane.Segments(b)
	boxes := make([]plane.Rect, len(legs))
	for i, l := range legs {
		boxes[i] = l.Bounds()
	}
	var on []plane.Point
	for _, s := range Samples(a, 0, step) {
		at := plane.Rect{Min: s.At, Max: s.At}
		if s.At.Dist(entry) <= nearEntry {
			continue
		}
		for i, l := range legs {
			if !boxes[i].Apart(at, apart) && l.Distance(s.At) < apart {
				on = append(on, s.At)
				break
			}
		}
	}
	if on == nil {
		return Stack{}
	}
	return Stack{on[len(on)/2], step * float64(len(on))}
}

// OverJoint reports whether a lead lies on the lead joint of another.
func OverJoint(lead []plane.Point, at plane.Point) bool {
	return lead[len(lead)-1].Dist(at) > plane.Hair && plane.PathDistance(lead, at) < jointOff-0.5
}

// lead draws one cold lead, within the cable's reach; nil for none. Better over
// another lead than over a lead joint, and over either than not at all.
func (r *room) lead(rt *Route, to plane.Point, on []*leadGround) []plane.Point {
	reach := r.p.Cables[rt.Cable].LeadReach
	// along the edges of the shares there is nearly always a way, and on a vast floor it is found far sooner
	for _, everywhere := range []bool{false, true} {
		for _, off := range [...]taken{byLead | byJoint, byJoint, byLead, 0} {
			if off&byLead == 0 && len(on[0].withLeads) == 0 {
				continue // as with leads, of which there are none
			}
			for _, g := range on {
				if g.vast() && !everywhere {
					off |= inShare
				} else if everywhere && (!g.vast() || g.cell == fineCell) {
					continue
				}
				if lead := g.leadRoute(to, off, 0); lead != nil && (reach <= 0 || pathLength(lead) <= reach) {
					return lead
				}
			}
		}
	}
	return nil
}

// LeadBack draws the second cold lead of the problem's first cable, from its path's end
// to the entry, off other cables and off leads where it can; nil where it finds no way.
func LeadBack(p Problem, path []plane.Point, cables, leads [][]plane.Point) []plane.Point {
	r := &room{p: p, steps: p.steps()}
	g := newLeadGround(p.Floor, p.Zones, p.Entry, stripCell)
	for _, c := range append(cables[:len(cables):len(cables)], path) {
		g.add(byCable, plane.Point{}, c)
	}
	g.fixed = len(g.lines)
	for _, l := range leads {
		g.addLead(byLead, l)
	}
	return r.lead(&Route{}, path[len(path)-1], []*leadGround{g})
}

// LeadsPast draws the cold leads of routes anew, off what lies in their way
// from the entry on; false where they find no way past it.
func LeadsPast(p Problem, routes []Route, lying [][]plane.Point) bool {
	r := &room{p: p, lying: lying, steps: p.steps()}
	if r.steps.spent("cold leads drawn past the sensors' tubes") {
		return false
	}
	return r.leads(routes) == nil
}
