package route

import (
	"math"

	"oxturn/layout/plane"
)

// rules are the hard rules and habits of one cable, in pegs.
type rules struct {
	closest, widest int     // gaps
	minLeg          int     // shortest leg between two bends that turn opposite ways
	turnBack        int     // shortest leg between two bends that turn the same way
	long            int     // a run worth its turns
	meanGap         float64 // smallest mean of two neighbouring gaps that the power cap allows
	pitch, bend     float64 // mm
}

// longRun is the length in mm from which a leg counts as straight and long.
const longRun = 500.0

func rulesFor(p Problem, c Cable) rules {
	r := rules{closest: p.Closest, widest: p.Widest, pitch: p.Pitch, bend: p.Bend}
	r.minLeg = max(1, int(math.Ceil(2*p.Bend/p.Pitch-plane.Whit)))
	r.turnBack = max(r.closest, r.minLeg)
	r.long = int(math.Ceil(longRun / p.Pitch))
	if c.MaxDensity > 0 {
		// W/m over W/m² is a width in m
		r.meanGap = c.WattsPerMetre / c.MaxDensity * 1000 / p.Pitch
	}
	return r
}

// wishes say what it costs a plan to begin or end in a place.
type wishes struct {
	strip *strip
	reach float64 // mm of lead for the floor, 0 for any
	low   []plane.Region
	avoid []plane.Region
	both  bool   // the end must return to the entry too
	from  *joint // where the path goes on from, nil when nothing is laid
	near  *nearStart
}

// A nearStart is where the heat is asked to start.
type nearStart struct {
	at     plane.Point // in the share, or on its edge
	within float64     // mm from there
}

// How far from the place asked for the heat may start: the first run of a path lies up to
// a gap off the edge of its floor, and ends up to one off the other.
const (
	startWithin = 300.0 // mm
	startGaps   = 1.5   // widest gaps
	offStart    = 0.05  // the cost of a peg away from it
)

// width is the widest gap in mm.
func (r rules) width() float64 { return float64(r.widest) * r.pitch }

// nearestIn is the point of a region that is nearest to a place.
func nearestIn(region plane.Region, at plane.Point) plane.Point {
	if region.Contains(at) {
		return at
	}
	best, near := at, math.Inf(1)
	for _, ring := range region.Rings() {
		for i := range ring {
			if p, _ := ring.Edge(i).Nearest(at); p.Dist(at) < near {
				best, near = p, p.Dist(at)
			}
		}
	}
	return best
}

const (
	leadWeight = 0.10 // a peg of cold lead
	avoidCost  = 25   // an end where none should lie
	highCost   = 4    // an end in good floor although there is low-value floor
)

// startCost is the cost of the start of heat at peg (x, y), infinite where
// the cold lead cannot reach.
func (w *wishes) startCost(g *grid, x, y int) float32 {
	if w.from != nil {
		return w.from.cost(g, g.world(float64(x), float64(y)))
	}
	c := w.leadCost(g, x, y)
	if w.near == nil {
		return c
	}
	off := w.near.at.Dist(g.world(float64(x), float64(y)))
	if off > w.near.within {
		return inf32
	}
	return c + float32(offStart*off/g.lattice.Pitch)
}

// leadCost is the cost of a cold lead to peg (x, y).
func (w *wishes) leadCost(g *grid, x, y int) float32 {
	at := g.world(float64(x), float64(y))
	lead := w.strip.leadTo(at)
	if math.IsInf(lead, 1) || w.reach > 0 && lead > w.reach {
		return inf32
	}
	c := leadWeight * lead / g.lattice.Pitch
	if anyHolds(w.avoid, at) {
		c += avoidCost
	}
	return float32(c)
}

// endCost is the cost of the end cap at peg (x, y).
func (w *wishes) endCost(g *grid, x, y int) float32 {
	if w.both {
		return w.leadCost(g, x, y)
	}
	at := g.world(float64(x), float64(y))
	if anyHolds(w.avoid, at) {
		return avoidCost
	}
	if len(w.low) > 0 && !anyHolds(w.low, at) {
		return highCost
	}
	return 0
}

// judge is what the score asks for a path's ends: for their leads, and for the
// places they lie in: neither where none should lie, and the end cap in
// low-value floor if there is any.
func (w *wishes) judge(path []plane.Point) (leads, places float64) {
	var cold []plane.Point
	if w.from == nil {
		cold = append(cold, path[0])
	}
	end := path[len(path)-1]
	switch {
	case w.both:
		cold = append(cold, end)
	case anyHolds(w.avoid, end):
		places += weighEndAvoid
	case len(w.low) > 0 && !anyHolds(w.low, end):
		places += weighEndHigh
	}
	for _, at := range cold {
		if lead := w.strip.leadTo(at); !math.IsInf(lead, 1) {
			leads += weighLead * lead / 1000
		}
		if anyHolds(w.avoid, at) {
			places += weighEndAvoid
		}
	}
	return leads, places
}

func anyHolds(rs []plane.Region, p plane.Point) bool {
	for _, r := range rs {
		if r.Contains(p) {
			return true
		}
	}
	return false
}
