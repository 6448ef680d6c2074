package route

import (
	"fmt"
	"math"

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
	routes := make([]Route, len(p.Cables))
	for _, sh := range shares {
		rt, err := r.lay(sh)
		if err != nil {
			return nil, err
		}
		routes[sh.cable] = rt
	}
	if err := r.leads(routes); err != nil {
		return nil, err
	}
	return routes, nil
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

// lay finds the best route for one cable in its share.
func (r *room) lay(sh share) (Route, error) {
	c := r.p.Cables[sh.cable]
	rule := rulesFor(r.p, c)
	spacing := ideal(sh.region, r.left(sh.cable))
	if spacing > 3*float64(r.p.Widest)*r.p.Pitch {
		spacing = 3 * float64(r.p.Widest) * r.p.Pitch
	}
	f := newField(sh.region, r.lattice, float64(rule.closest)*rule.pitch, spacing)
	wish := &wishes{strip: r.strip, reach: c.LeadReach, low: r.p.Low, avoid: r.p.Avoid, both: c.Ends == BothEnds, from: r.jointOf(sh.cable, sh.zone)}
	best := r.search(sh, rule, wish, f)
	if best == nil || best.score.Covered < leastCovered {
		return Route{}, r.refuse(sh, rule, wish, best)
	}
	rt := Route{Cable: sh.cable, Zone: sh.zone, Path: best.path, Lattice: r.lattice, Share: sh.region, Spacing: spacing, Score: best.score}
	rt.Rows = r.lattice.Angle
	if best.plan.g.across {
		rt.Rows += math.Pi / 2
	}
	return rt, nil
}

// search tries directions and efforts until a good route is found.
func (r *room) search(sh share, rule rules, wish *wishes, f *field) *candidate {
	var best *candidate
	for i, e := range efforts {
		if i == len(efforts)-1 && best != nil {
			break // the last effort is for floors that found no route at all
		}
		ways := make([]*way, 2)
		together(2, func(i int) {
			g := newGrid(sh.region, r.lattice, i == 1)
			ways[i] = &way{sweep: newSweep(g, rule, wish, e), field: f, zone: r.p.Zones[sh.zone], length: r.p.Cables[sh.cable].Length, laid: Length(r.frozen(sh.cable), rule.bend)}
			ways[i].bracket(f.spacing / rule.pitch)
		})
		together(2, func(i int) {
			if ways[i].worthMore(ways[1-i]) {
				ways[i].refine()
			}
		})
		for _, w := range ways {
			if w.best != nil && (best == nil || w.best.score.Total < best.score.Total) {
				best = w.best
			}
		}
		if best != nil && (best.score.Total < poor || ways[0].spent() || ways[1].spent()) {
			break
		}
	}
	return best
}

// leads draws the cold leads once all paths are known.
func (r *room) leads(routes []Route) error {
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
			return &Refusal{Cable: rt.Cable, Zone: rt.Zone, Reason: "the cold lead finds no way to the start of heat without crossing a heating cable"}
		}
		if r.p.Cables[rt.Cable].Ends != BothEnds {
			continue
		}
		if rt.Return = draw(rt, rt.Path[len(rt.Path)-1]); rt.Return == nil {
			return &Refusal{Cable: rt.Cable, Zone: rt.Zone, Reason: "the second cold lead finds no way back without crossing a heating cable"}
		}
	}
	return nil
}
