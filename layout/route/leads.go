package route

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// leads draws the cold leads once all paths are known, in the order that
// makes them shortest: a lead drawn first may shut others in.
func (r *room) leads(routes []Route) *fault {
	least := math.Inf(1)
	var best []Route
	var first *fault
	for _, order := range orders(len(routes)) {
		tried := slices.Clone(routes)
		length, f := r.leadsInOrder(tried, order)
		if f == nil && length < least-1 {
			least, best = length, tried
		}
		if f != nil && first == nil {
			first = f
		}
	}
	if best == nil {
		return first
	}
	copy(routes, best)
	return nil
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

// leadsInOrder draws the leads of one cable after the other and returns their
// length.
func (r *room) leadsInOrder(routes []Route, order []int) (float64, *fault) {
	var cables, leads [][]plane.Point
	for _, rt := range routes {
		cables = append(cables, rt.Path)
	}
	total := 0.0
	draw := func(rt *Route, to plane.Point) []plane.Point {
		lead := r.lead(rt, to, cables, leads)
		if lead != nil {
			leads = append(leads, lead)
			total += pathLength(lead)
		}
		return lead
	}
	for _, i := range order {
		rt := &routes[i]
		if rt.ColdLead = draw(rt, rt.Path[0]); rt.ColdLead == nil {
			return 0, &fault{cable: rt.Cable, what: "the cold lead finds no way to the start of heat without crossing a heating cable", shut: true}
		}
		if r.p.Cables[rt.Cable].Ends != BothEnds {
			continue
		}
		if rt.Return = draw(rt, rt.Path[len(rt.Path)-1]); rt.Return == nil {
			return 0, &fault{cable: rt.Cable, what: "the second cold lead finds no way back without crossing a heating cable", shut: true}
		}
	}
	return total, nil
}

// lead draws one cold lead, within the cable's reach; nil for none. Better
// over another lead than not at all.
func (r *room) lead(rt *Route, to plane.Point, cables, leads [][]plane.Point) []plane.Point {
	reach := r.p.Cables[rt.Cable].LeadReach
	for _, others := range [][][]plane.Point{leads, nil} {
		lead := r.strip.leadRoute(r.p.Floor, to, cables, slices.Concat(r.lying, others))
		if lead != nil && (reach <= 0 || pathLength(lead) <= reach) {
			return lead
		}
	}
	return nil
}

// LeadBack draws the second cold lead of the problem's first cable, from its path's end
// to the entry, off other cables and off leads where it can; nil where it finds no way.
func LeadBack(p Problem, path []plane.Point, cables, leads [][]plane.Point) []plane.Point {
	r := &room{p: p, strip: rasterOf(p.Floor, p.Entry, stripCell)}
	return r.lead(&Route{}, path[len(path)-1], append(cables[:len(cables):len(cables)], path), leads)
}

// LeadsPast draws the cold leads of routes anew, off what lies in their way
// from the entry on; false where they find no way past it.
func LeadsPast(p Problem, routes []Route, lying [][]plane.Point) bool {
	r := &room{p: p, strip: rasterOf(p.Floor, p.Entry, stripCell), lying: lying}
	return r.leads(routes) == nil
}
