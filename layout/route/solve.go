package route

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"oxturn/layout/plane"
)

// Solve lays out all cables of a room. The error is a *Refusal when no
// route meets the rules.
func Solve(p Problem) ([]Route, error) {
	if err := sane(p); err != nil {
		return nil, err
	}
	r := &room{p: p, lattice: chooseLattice(p)}
	r.strip = newStrip(p.Floor, p.Zones, p.Entry)
	shares, err := r.assign()
	if err != nil {
		return nil, err
	}
	regions := make([]plane.Region, len(shares))
	for i, sh := range shares {
		regions[i] = sh.region
	}
	if len(shares) > len(p.Zones) {
		r.strip = newStrip(p.Floor, regions, p.Entry) // leads may go between the shares too
	}
	options := make([][]Route, len(p.Cables))
	for _, sh := range shares {
		if options[sh.cable], err = r.lay(sh); err != nil {
			return nil, err
		}
	}
	return r.answer(options)
}

// A room is a problem being solved.
type room struct {
	p       Problem
	lattice Lattice
	strip   *strip
}

// sane refuses problems that make no sense.
func sane(p Problem) error {
	switch {
	case !(p.Pitch > 0) || p.Closest < 1 || p.Widest < p.Closest || !(p.Bend >= 0):
		return &Refusal{Cable: -1, Zone: -1, Reason: "the pitch, the gaps and the bend radius must be positive, the widest gap not below the closest"}
	case len(p.Zones) == 0:
		return &Refusal{Cable: -1, Zone: -1, Reason: "no floor is left for cable once the clearances are taken off"}
	case len(p.Cables) == 0:
		return &Refusal{Cable: -1, Zone: -1, Reason: "no cable is given"}
	}
	for i, c := range p.Cables {
		if !(c.Length > 0) || math.IsInf(c.Length, 1) {
			return &Refusal{Cable: i, Zone: -1, Reason: fmt.Sprintf("the length of cable %s is not a positive number", c.ID)}
		}
		if i < len(p.Frozen) && Length(p.Frozen[i], p.Bend) >= c.Length {
			return &Refusal{Cable: i, Zone: -1, Reason: fmt.Sprintf("nothing of cable %s is left to lay", c.ID)}
		}
	}
	return nil
}

// ideal is the spacing in mm at which length mm of cable fills region when
// the line runs along the region's edge.
func ideal(region plane.Region, length float64) float64 {
	n := length - region.Perimeter()/2
	if n <= 0 {
		return math.Inf(1)
	}
	return region.Area() / n
}

// lay finds routes for one cable in its share, the best first.
func (r *room) lay(sh share) ([]Route, error) {
	c := r.p.Cables[sh.cable]
	rule := rulesFor(r.p, c)
	spacing := ideal(sh.region, r.left(sh.cable))
	if spacing > 3*float64(r.p.Widest)*r.p.Pitch {
		spacing = 3 * float64(r.p.Widest) * r.p.Pitch
	}
	f := newField(sh.region, r.lattice, float64(rule.closest)*rule.pitch, spacing)
	wish := &wishes{strip: r.strip, reach: c.LeadReach, low: r.p.Low, avoid: r.p.Avoid, both: c.Ends == BothEnds, from: r.jointOf(sh.cable, sh.zone)}
	found := r.search(sh, rule, wish, f)
	var out []Route
	for _, c := range found {
		if c.score.Covered < leastCovered {
			continue
		}
		rt := Route{Cable: sh.cable, Zone: sh.zone, Path: c.path, Lattice: r.lattice, Share: sh.region, Spacing: spacing, Score: c.score, Rows: r.lattice.Angle}
		if c.plan.g.across {
			rt.Rows += math.Pi / 2
		}
		out = append(out, rt)
	}
	if len(out) == 0 {
		return nil, r.refuse(sh, rule, wish, bestOf(found))
	}
	return out, nil
}

// bestOf returns the first candidate, nil for none.
func bestOf(found []*candidate) *candidate {
	if len(found) == 0 {
		return nil
	}
	return found[0]
}

// search tries directions and efforts until a good route is found, and
// returns the candidates, the best first.
func (r *room) search(sh share, rule rules, wish *wishes, f *field) []*candidate {
	var found []*candidate
	for i, e := range efforts {
		if i == len(efforts)-1 && len(found) > 0 {
			break // the last effort is for floors that found no route at all
		}
		ways := make([]*way, 2)
		together(2, func(i int) {
			g := newGrid(sh.region, r.lattice, i == 1)
			ways[i] = &way{sweep: newSweep(g, rule, wish, e), field: f, zone: r.p.Zones[sh.zone], length: r.p.Cables[sh.cable].Length, laid: Length(r.frozen(sh.cable), rule.bend)}
			ways[i].begin(f.spacing / rule.pitch)
		})
		bracketBoth(ways)
		together(2, func(i int) {
			if ways[i].worthMore(ways[1-i]) {
				ways[i].refine()
			}
		})
		for _, w := range ways {
			found = append(found, w.found...)
		}
		slices.SortStableFunc(found, func(a, b *candidate) int { return cmp.Compare(a.score.Total, b.score.Total) })
		if len(found) > 0 && (found[0].laying() < poor || ways[0].spent() || ways[1].spent()) {
			break
		}
	}
	return found
}

// bracketBoth brackets in both directions, round by round, until one has a
// good route. They look at each other only between rounds, so that both may go
// on at once.
func bracketBoth(ways []*way) {
	for range rounds {
		if ways[0].laying() < good || ways[1].laying() < good {
			break
		}
		together(2, func(i int) { ways[i].bracket() })
	}
	for _, w := range ways {
		w.first = w.laying()
	}
}

// leads draws the cold leads once all paths are known.
func (r *room) leads(routes []Route) *fault {
	var cables, leads [][]plane.Point
	for _, rt := range routes {
		cables = append(cables, rt.Path)
	}
	draw := func(rt *Route, to plane.Point) []plane.Point {
		reach := r.p.Cables[rt.Cable].LeadReach
		lead := r.strip.leadRoute(r.p.Floor, to, cables, leads)
		if lead == nil || reach > 0 && pathLength(lead) > reach {
			// better over another lead than not at all
			lead = r.strip.leadRoute(r.p.Floor, to, cables, nil)
		}
		if lead == nil || reach > 0 && pathLength(lead) > reach {
			return nil
		}
		leads = append(leads, lead)
		return lead
	}
	for i := range routes {
		rt := &routes[i]
		if rt.ColdLead = draw(rt, rt.Path[0]); rt.ColdLead == nil {
			return &fault{cable: rt.Cable, what: "the cold lead finds no way to the start of heat without crossing a heating cable"}
		}
		if r.p.Cables[rt.Cable].Ends != BothEnds {
			continue
		}
		if rt.Return = draw(rt, rt.Path[len(rt.Path)-1]); rt.Return == nil {
			return &fault{cable: rt.Cable, what: "the second cold lead finds no way back without crossing a heating cable"}
		}
	}
	return nil
}
