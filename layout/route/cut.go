package route

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A cutFloor is a region parted in two.
type cutFloor struct {
	a, b plane.Region
	cost float64
}

// A parting is what two shares of a region are for: so much cable each, and how far its cold leads come.
type parting struct {
	la, lb         float64 // mm
	reachA, reachB float64 // mm over the floor, infinite for no limit
}

// waysToCut is how many ways there are to part a region: along either axis of the
// lattice, the first cable on either side, strays left or joined, or across one passage.
const waysToCut = 12

// cut parts region into shares for a cable and the rest of them, a gap apart.
func (r *room) cut(region plane.Region, first int, rest []int) (a, b plane.Region, err error) {
	out := r.cuts(region, first, rest)
	if r.nthCut >= len(out) {
		if math.IsInf(r.leadTo(region), 1) {
			return nil, nil, &Refusal{Cable: -1, Zone: -1,
				Reason: "no cold lead comes to the floor that its cables are to share", Lead: math.Inf(1)}
		}
		return nil, nil, &Refusal{Cable: -1, Zone: -1,
			Reason: "the floor cannot be shared between its cables so that a cold lead comes to the part of each"}
	}
	if r.nthCut > 0 && out[r.nthCut].cost >= shortLeadCost { // only the first is for saying what is wrong with it
		return nil, nil, &Refusal{Cable: -1, Zone: -1,
			Reason: "no cold lead is long enough for the floor shared otherwise"}
	}
	return out[r.nthCut].a, out[r.nthCut].b, nil
}

// A cutting is a region that is parted, by where it is kept, between a cable and so many more.
type cutting struct {
	region      *plane.Polygon
	first, rest int
}

// cuts are the ways to part region into shares for a cable and the rest of them, the best first. They are
// worked out once: a floor is shared in one of them after the other.
func (r *room) cuts(region plane.Region, first int, rest []int) []cutFloor {
	if len(region) == 0 {
		return r.workOutCuts(region, first, rest)
	}
	of := cutting{&region[0], first, len(rest)}
	out, known := r.cutsOf[of]
	if !known {
		if out = r.workOutCuts(region, first, rest); r.cutsOf == nil {
			r.cutsOf = map[cutting][]cutFloor{}
		}
		r.cutsOf[of] = out
	}
	return out
}

func (r *room) workOutCuts(region plane.Region, first int, rest []int) []cutFloor {
	p := parting{r.left(first), r.lengthOf(rest), r.leadReach(first), r.leadReach(rest...)}
	var out []cutFloor
	for t := range turns(2) {
		g := newGrid(region, r.lattice, t)
		for _, low := range []bool{true, false} {
			out = append(out, r.tryCut(g, region, p, low)...)
		}
	}
	out = slices.DeleteFunc(out, func(c cutFloor) bool { return math.IsInf(c.cost, 1) })
	for i := range out {
		out[i].cost += r.beyondReach(out[i], p)
	}
	slices.SortStableFunc(out, func(a, b cutFloor) int { return cmp.Compare(a.cost, b.cost) })
	return out
}

// leadReach is the longest reach of the cables' cold leads, infinite for no limit.
func (r *room) leadReach(cables ...int) float64 {
	most := 0.0
	for _, c := range cables {
		reach := r.p.Cables[c].LeadReach
		if reach <= 0 {
			return math.Inf(1)
		}
		most = max(most, reach)
	}
	return most
}

// beyondReach is what a cut costs whose leads are too short: more than any that are not.
func (r *room) beyondReach(c cutFloor, p parting) (cost float64) {
	if r.leadTo(c.a) <= p.reachA && r.leadTo(c.b) <= p.reachB {
		return 0
	}
	with := *r // leads may go between the parts too
	with.strip = newStrip(r.p.Floor, append(otherZones(r.p.Zones, c.a), c.a, c.b), r.p.Entry)
	if with.leadTo(plane.Region{largest(c.a)}) > p.reachA {
		cost += shortLeadCost
	}
	if with.leadTo(plane.Region{largest(c.b)}) > p.reachB {
		cost += shortLeadCost
	}
	return cost
}

// otherZones returns the zones but the one that part is of.
func otherZones(zones []plane.Region, part plane.Region) []plane.Region {
	at := part[0].Outer[0]
	of := nearestZone(zones, at)
	return slices.Delete(slices.Clone(zones), of, of+1)
}

// tryCut finds the row of g at which the two shares have the most equal
// spacing; low: the first share has the low rows. Where strays lie apart from
// the rest of a share there are two other cuts: at one they go to the other share, one is across a single passage.
func (r *room) tryCut(g *grid, region plane.Region, p parting, low bool) []cutFloor {
	best := cutFloor{cost: math.Inf(1)}
	ways := rulesFor(r.p, Cable{}).on(g).y
	gap := int(math.Max(float64(ways.closest), math.Min(float64(ways.widest), ideal(region, p.la+p.lb)/ways.pitch)))
	part := p.la / (p.la + p.lb)
	if !low {
		part = 1 - part
	}
	y, n := 0, 0
	for ; y < g.ny && float64(n) < part*float64(g.free); y++ {
		for _, s := range g.rows[y] {
			n += s.width() + 1
		}
	}
	for d := -3; d <= 1; d++ {
		a, b := r.halves(g, region, y+d, gap)
		if !low {
			a, b = b, a
		}
		if c := r.cutCost(a, b, p); c < best.cost {
			best = cutFloor{a, b, c}
		}
	}
	if !math.IsInf(best.cost, 1) && strays(best.a) < mostStrays && strays(best.b) < mostStrays {
		return []cutFloor{best}
	}
	return []cutFloor{best, r.joinedCut(g, region, p, low, gap), r.doorCut(g, region, p, low, gap)}
}

// mostStrays is the share of a part's floor that may lie apart from its largest piece.
const mostStrays = 0.03

// strays is the share of a region that lies apart from its largest piece.
func strays(r plane.Region) float64 {
	if r.Empty() {
		return 0
	}
	return 1 - plane.Region{largest(r)}.Area()/r.Area()
}

// joinedCut is a cut at a row of g whose strays go to the other share, which they hang on: chambers between
// partitions, of which a straight cut parts some from the rest. Each row tried says on which side of it the
// shares come nearer to what they are to have.
func (r *room) joinedCut(g *grid, region plane.Region, p parting, low bool, gap int) cutFloor {
	best := cutFloor{cost: math.Inf(1)}
	for from, to := 1, g.ny-gap; from < to; {
		y := (from + to) / 2
		under, over := r.halves(g, region, y, gap)
		whole := under.Area() + over.Area()
		if a, b := r.joined(region, under, over, float64(gap)*g.pitchY()); a != nil && b != nil {
			under, over = a, b
		}
		lost := 1 - (under.Area()+over.Area())/whole // floor that hangs on neither
		if !low {
			under, over = over, under
		}
		if c := r.cutCost(under, over, p) + float64(piecesCost*max(0, lost)); c < best.cost {
			best = cutFloor{under, over, c}
		}
		if (under.Area()*p.lb < over.Area()*p.la) == low {
			from = y + 1
		} else {
			to = y
		}
	}
	return best
}

// joined returns the largest pieces of the parts of a region, each with the floor that hangs on it gap
// mm away from the other, nil for none.
func (r *room) joined(region, under, over plane.Region, gap float64) (a, b plane.Region) {
	if under.Empty() || over.Empty() {
		return nil, nil
	}
	a, b = plane.Region{largest(under)}, plane.Region{largest(over)}
	b = r.beside(region, a, b, gap)
	return r.beside(region, b, a, gap), b
}

// beside returns the piece of region gap mm away from other in which most of part lies, nil for none.
func (r *room) beside(region, other, part plane.Region, gap float64) plane.Region {
	other, err := other.Grow(gap)
	if err != nil {
		return nil
	}
	free, err := region.Less(other)
	if err != nil {
		return nil
	}
	var best plane.Region
	most := 0.0
	for _, p := range free {
		piece := plane.Region{p}
		if m, err := piece.Meet(part); err == nil && m.Area() > most {
			best, most = piece, m.Area()
		}
	}
	return best
}

// halves returns the parts of region up to row y and from row y+gap.
func (r *room) halves(g *grid, region plane.Region, y, gap int) (under, over plane.Region) {
	box := func(y0, y1 float64) plane.Region {
		x0, x1 := -2.0, float64(g.nx)+2
		return plane.FromRing(plane.Ring{g.world(x0, y0), g.world(x1, y0), g.world(x1, y1), g.world(x0, y1)})
	}
	under, err := region.Meet(box(-2, float64(y)))
	if err != nil {
		return nil, nil
	}
	over, err = region.Meet(box(float64(y+gap), float64(g.ny)+2))
	if err != nil {
		return nil, nil
	}
	return under, over
}

// What a cut costs beside a metre of its edge: for each e-fold that spacings differ by, and for the share of
// a part that lies apart from its largest piece (by trial); for each part that its cables' leads do not reach.
const (
	unlikeCost    = 40
	piecesCost    = 200
	shortLeadCost = 1000
)

// cutCost judges a cut: unequal spacing, floor in pieces, long leads.
func (r *room) cutCost(a, b plane.Region, p parting) float64 {
	if a.Empty() || b.Empty() {
		return math.Inf(1)
	}
	sa, sb := ideal(a, p.la), ideal(b, p.lb)
	if math.IsInf(sa, 1) || math.IsInf(sb, 1) {
		return math.Inf(1)
	}
	cost := unlikeCost * math.Abs(math.Log(sa/sb))
	for _, reg := range []plane.Region{a, b} {
		cost += float64(piecesCost * strays(reg))
		cost += reg.Perimeter() / 1000
		lead := r.leadTo(reg)
		if math.IsInf(lead, 1) {
			return lead
		}
		cost += lead / 1000
	}
	return cost
}

// largest returns the largest piece of a region that is not empty.
func largest(r plane.Region) plane.Polygon {
	return slices.MaxFunc(r, func(a, b plane.Polygon) int {
		return cmp.Compare(plane.Region{a}.Area(), plane.Region{b}.Area())
	})
}

// mostIn is more than the longest cable that lies in one piece of a region with its runs gap mm apart: their bands
// do not overlap, and reach half a gap over the edge.
func mostIn(region plane.Region, gap float64) float64 {
	most := 0.0
	for _, p := range region {
		piece := plane.Region{p}
		most = max(most, (piece.Area()+float64(piece.Perimeter()*gap/2))/gap+gap)
	}
	return overBands * most
}

// overBands allows for bands that do overlap a little, at jogs.
const overBands = 1.05

// leadTo is the shortest lead to a corner or side of the region's rim.
func (r *room) leadTo(reg plane.Region) float64 {
	best := math.Inf(1)
	for _, ring := range reg.Rings() {
		for i := range ring {
			e := ring.Edge(i)
			for d := 0.0; d <= e.Length(); d += 100 {
				best = math.Min(best, r.strip.leadTo(e.At(d)))
			}
		}
	}
	return best
}
