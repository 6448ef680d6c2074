package route

import (
	"math"

	"oxturn/layout/plane"
)

// rules are the hard rules and habits of one cable. Pegs along a grid's rows and across them may be unlike, so that
// each way has its own counts; what has no way of its own is in pegs across the rows.
type rules struct {
	x, y      axis    // along the rows, and across them
	near, far float64 // mm: the closest gap and the widest
	mean      float64 // mm: the smallest mean of two neighbouring gaps that the power cap allows
	meanGap   float64 // the same in pegs
	flat      float64 // a peg along the rows over one across them
	bend      float64 // mm
	held      bool    // see Uneven.Held: no leg across the rows is longer than the widest gap
	turned    bool    // the rows are those of an odd number of turns
}

// An axis is one way of a grid, counted in its pegs.
type axis struct {
	pitch           float64 // mm
	closest, widest int     // gaps
	minLeg          int     // shortest leg between two bends that turn opposite ways
	turnBack        int     // shortest leg between two bends that turn the same way
	step            int     // pegs that come to about one of the other way, where those are farther apart
}

// longRun is the length in mm from which a leg counts as straight and long.
const longRun = 500.0

func rulesFor(p Problem, c Cable) rules {
	r := rules{x: p.axis(p.Pitch), y: p.axis(p.across()), near: p.near(), far: p.far(), bend: p.Bend, flat: 1}
	if p.Uneven != nil {
		r.flat = r.x.pitch / r.y.pitch
		if u := p.Uneven; u.Held > 0 {
			r.held = true
			r.x.minLeg = max(r.x.minLeg, int(math.Ceil(u.Held/r.x.pitch-plane.Whit)))
			r.x.turnBack = max(r.x.turnBack, r.x.minLeg)
		}
		r.x.step, r.y.step = max(1, int(math.Round(1/r.flat))), max(1, int(math.Round(r.flat)))
	}
	if c.MaxDensity > 0 {
		// W/m over W/m² is a width in m
		r.meanGap = c.WattsPerMetre / c.MaxDensity * 1000 / r.y.pitch
	}
	r.mean = r.meanGap * r.y.pitch
	return r
}

// axis counts the rules along one way of the lattice.
func (p Problem) axis(pitch float64) axis {
	a := axis{pitch: pitch, closest: p.Closest, widest: p.Widest, step: 1}
	if u := p.Uneven; u != nil {
		a.closest, a.widest = int(math.Ceil(u.Closest/pitch-plane.Whit)), int(math.Floor(u.Widest/pitch+plane.Whit))
	}
	a.minLeg = max(1, int(math.Ceil(2*p.Bend/pitch-plane.Whit)))
	a.turnBack = max(a.closest, a.minLeg)
	return a
}

// across is peg to peg across the lattice's angle.
func (p Problem) across() float64 {
	if p.Uneven != nil {
		return p.Uneven.Across
	}
	return p.Pitch
}

// near is the closest gap in mm.
func (p Problem) near() float64 {
	if p.Uneven != nil {
		return p.Uneven.Closest
	}
	return float64(p.Closest) * p.Pitch
}

// far is the widest gap in mm.
func (p Problem) far() float64 {
	if p.Uneven != nil {
		return p.Uneven.Widest
	}
	return float64(p.Widest) * p.Pitch
}

// on returns the rules as they are in a grid.
func (r rules) on(g *grid) rules {
	if odd := g.turns%2 != 0; odd != r.turned {
		r.x, r.y, r.turned = r.y, r.x, odd
		r.flat = r.x.pitch / r.y.pitch
		r.meanGap = r.mean / r.y.pitch
	}
	return r
}

// of returns the way that a leg lies.
func (r *rules) of(a, b node) *axis {
	if a.y == b.y {
		return &r.x
	}
	return &r.y
}

// aside returns the way across a leg.
func (r *rules) aside(a, b node) *axis {
	if a.y == b.y {
		return &r.y
	}
	return &r.x
}

// leg is the length of the leg from a to b, in pegs across the rows.
func (r *rules) leg(a, b node) float64 {
	return float64(float64(abs(b.x-a.x))*r.flat) + float64(abs(b.y-a.y))
}

// along turns a length in pegs across the rows into pegs of the leg from a to b.
func (r *rules) along(a, b node, n float64) float64 {
	if a.y == b.y {
		return n / r.flat
	}
	return n
}

// lanes is a number of pegs across the rows in pegs along them.
func (r *rules) lanes(lane int) int { return max(r.x.closest, int(math.Round(float64(lane)/r.flat))) }

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
	return c + float32(offStart*off/g.pitchY())
}

// leadCost is the cost of a cold lead to peg (x, y).
func (w *wishes) leadCost(g *grid, x, y int) float32 {
	at := g.world(float64(x), float64(y))
	lead := w.strip.leadTo(at)
	if math.IsInf(lead, 1) || w.reach > 0 && lead > w.reach {
		return inf32
	}
	c := leadWeight * lead / g.pitchY()
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
