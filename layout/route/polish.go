package route

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A polisher betters one finished path by pushes, one after the other, each
// taken only if the score falls. The cable's length stays: what a push adds,
// the end cap gives way.
type polisher struct {
	g      *grid
	rule   rules
	wish   *wishes
	field  *field
	tally  *tally
	others []leg    // of other cables
	total  float64  // the cable's length, pegs across the rows
	tries  int      // left
	tried           // the path as it is now
	spare  struct { // room for the next path to be tried
		nodes []node
		legs  []leg
	}
}

// A tried path is a path with its score.
type tried struct {
	nodes []node  // corner points; the last is where the end cap's leg leads to
	end   float64 // from the last corner to the end cap, pegs across the rows
	legs  []leg
	score Score
	leads float64
	cold  coldFloor
}

const (
	mostTries   = 500  // bounds the work on one path
	worthIt     = 0.01 // how much a push must better the score
	fingerReach = 4    // pegs to either side of a bare spot that a finger may begin
)

// newPolisher starts from a fitted plan: its corner points on pegs, the last
// at or after the end cap.
func newPolisher(g *grid, l *laying, f *field, others []leg, nodes []node) (*polisher, bool) {
	p := &polisher{g: g, rule: l.rule.on(g), wish: l.wish, field: f, tally: newTally(f), others: others,
		total: l.length / l.rule.on(g).y.pitch, tries: mostTries}
	var ok bool
	if p.nodes, p.end, ok = p.fitEnd(nodes); !ok {
		return nil, false
	}
	p.legs = p.legsOf(nil, p.nodes, p.end)
	p.tally.swap(nil, others)
	p.tally.swap(nil, p.legs)
	p.judge(&p.tried, math.Inf(1))
	return p, true
}

// fitEnd puts the last node where the end cap comes to lie, in whole pegs, and
// returns the end cap's distance from the last corner in pegs across the rows.
func (p *polisher) fitEnd(nodes []node) ([]node, float64, bool) {
	n := len(nodes)
	a, b := nodes[n-2], nodes[n-1]
	end := p.rule.leg(a, b) + p.total - p.rule.pegs(nodes)
	if end < (p.rule.bend+1)/p.rule.y.pitch {
		return nil, 0, false
	}
	k := int(math.Ceil(p.rule.along(a, b, end) - plane.Whit))
	nodes[n-1] = node{a.x + sign(b.x-a.x)*k, a.y + sign(b.y-a.y)*k}
	return nodes, end, true
}

// run betters the path until nothing helps or the tries are spent: bare spots
// first, since they cost length that the nudges then make up for.
func (p *polisher) run() {
	p.warmAll()
	for i := 0; i+1 < len(p.nodes) && p.tries > 0; i++ {
		if p.nudge(i) {
			i = max(-1, i-3) // what lies beside it may do better now
		}
	}
	p.warmAll()
}

// turnRound begins the path at its other end where that is better, mostly for
// a shorter lead.
func (p *polisher) turnRound() {
	if p.wish.both || p.wish.from != nil {
		return
	}
	t := tried{nodes: slices.Clone(p.nodes)}
	slices.Reverse(t.nodes)
	var ok bool
	if t.nodes, t.end, ok = p.fitEnd(t.nodes); !ok || !p.startable(t.nodes[0]) {
		return
	}
	t.legs = p.legsOf(nil, t.nodes, t.end)
	slices.Reverse(t.legs) // as they were counted, so that few change
	p.tally.swap(p.legs, t.legs)
	p.judge(&t, p.score.Total-worthIt)
	p.settle(t)
}

// settle keeps a path that is counted in if it betters the score, and reports
// whether it did.
func (p *polisher) settle(t tried) bool {
	if t.score.Total >= p.score.Total-worthIt || !p.coolEnough(&t) {
		p.tally.swap(t.legs, p.legs)
		return false
	}
	p.spare.nodes, p.spare.legs = p.nodes, p.legs
	p.tried = t
	return true
}

// after works out the path after a push, in the spare room, and counts its legs in instead
// of the current ones; false where the push is not allowed.
func (p *polisher) after(m push) (t tried, ok bool) {
	if t.nodes, ok = m.by(p.nodes, p.spare.nodes); !ok {
		return t, false
	}
	p.spare.nodes = t.nodes
	if t.nodes, t.end, ok = p.fitEnd(t.nodes); !ok || !p.rule.allows(p.g, p.nodes, t.nodes) ||
		!p.startable(t.nodes[0]) {
		return t, false
	}
	p.tries--
	t.legs = p.legsOf(p.spare.legs, t.nodes, t.end)
	p.spare.legs = t.legs
	p.tally.swap(p.legs, t.legs)
	p.judge(&t, p.score.Total-worthIt)
	return t, true
}

// startable reports whether the path may start at n, where it does not yet.
func (p *polisher) startable(n node) bool {
	return n == p.nodes[0] || p.wish.startCost(p.g, n.x, n.y) < inf32
}

// try makes a push if it betters the score.
func (p *polisher) try(m push) bool {
	t, ok := p.after(m)
	return ok && p.settle(t)
}

// cost is the score's total after a push, infinite where it is not allowed.
func (p *polisher) cost(m push) float64 {
	t, ok := p.after(m)
	if !ok {
		return math.Inf(1)
	}
	p.tally.swap(t.legs, p.legs)
	return t.score.Total
}

// coolEnough reports whether a path keeps the power cap.
func (p *polisher) coolEnough(t *tried) bool {
	if p.rule.mean <= p.rule.near {
		return true // gaps that are allowed can't break it
	}
	legs := plane.Segments(p.world(t.nodes, t.end))
	return cool(legs, legs, p.rule.mean, p.rule.links())
}

// nudge tries to move leg i by a peg, or to draw out one of the runs beside it
// where it is a turn.
func (p *polisher) nudge(i int) bool {
	a, b := p.nodes[i], p.nodes[i+1]
	n, on, aside := pegs(a, b), p.rule.of(a, b), p.rule.aside(a, b).step
	if p.try(push{i, 0, n, aside}) || p.try(push{i, 0, n, -aside}) {
		return true
	}
	if n > 2*on.widest || p.outer(i) {
		return false
	}
	before, after := -turnOf(p.nodes, i-1), -turnOf(p.nodes, i)
	for t := on.step; t < n; t += on.step {
		for h := 2 * aside; h <= 4*aside; h += aside {
			if p.try(push{i, 0, t, h * before}) || p.try(push{i, t, n, h * after}) {
				return true
			}
		}
	}
	return false
}

// outer reports whether leg i begins or ends the path: it moves as a whole or
// not at all.
func (p *polisher) outer(i int) bool { return i == 0 || i+2 == len(p.nodes) }

// warmAll warms the bare spots as long as that helps.
func (p *polisher) warmAll() {
	var left []plane.Point // spots that nothing helps
	for again := true; again; {
		again = slices.ContainsFunc(p.cold.spots, func(s coldSpot) bool {
			if p.tries <= 0 || slices.Contains(left, s.at) {
				return false
			}
			if p.warm(s.at) {
				return true
			}
			left = append(left, s.at)
			return false
		})
	}
}

// warm takes the best push towards a bare spot and reports whether there was
// one.
func (p *polisher) warm(at plane.Point) bool {
	u, v := (at.X+float64(p.field.ox)+0.5)/p.field.u, (at.Y+float64(p.field.oy)+0.5)/p.field.v
	x, y := p.g.place(p.field.lattice.ToWorld(u, v))
	best, found := push{}, math.Inf(1)
	for i := 0; i+1 < len(p.nodes); i++ {
		for _, m := range p.towards(i, x, y) {
			if c := p.cost(m); c < found {
				best, found = m, c
			}
		}
	}
	return found < p.score.Total-worthIt && p.try(best)
}

// towards lists the pushes of leg i that bring it nearer to (x, y).
func (p *polisher) towards(i int, x, y float64) []push {
	a, b := p.nodes[i], p.nodes[i+1]
	dx, dy, n := sign(b.x-a.x), sign(b.y-a.y), pegs(a, b)
	ex, ey := x-float64(a.x), y-float64(a.y)
	along, left := ex*float64(dx)+ey*float64(dy), ey*float64(dx)-ex*float64(dy)
	on, aside := p.rule.of(a, b), p.rule.aside(a, b)
	near, far := 2*p.field.spacing/on.pitch, 2*p.field.spacing/aside.pitch
	if along < -near || along > float64(n)+near || math.Abs(left) > far ||
		math.Abs(left) < 0.5*float64(aside.step) {
		return nil
	}
	c := max(0, min(n, int(math.Round(along))))
	var out []push
	for h := aside.step; h < int(math.Ceil(math.Abs(left)))+aside.step; h += aside.step {
		for _, s := range stops(0, c-fingerReach*on.step, c, on.step) {
			for _, t := range stops(n, c, c+fingerReach*on.step, on.step) {
				if 0 <= s && t <= n && t-s >= on.turnBack && (!p.outer(i) || s == 0 && t == n) {
					out = append(out, push{i, s, t, int(math.Copysign(float64(h), left))})
				}
			}
		}
	}
	return out
}

// stops lists end and the places from lo to hi, a step apart.
func stops(end, lo, hi, step int) []int {
	out := []int{end}
	for k := lo; k <= hi; k += step {
		if k != end {
			out = append(out, k)
		}
	}
	return out
}

// polish betters a candidate by pushes, beside the legs of other cables; nil
// where nothing comes of it.
func (c *candidate) polish(l *laying, f *field, others []leg) *candidate {
	p, ok := newPolisher(c.plan.g, l, f, others, slices.Clone(c.plan.nodes[:len(c.path)]))
	if !ok {
		return nil
	}
	if c.laying() >= fineScore {
		p.run()
	}
	p.turnRound()
	path := p.world(p.nodes, p.end)
	if !sound(path, p.rule, l.zone, l.length, 0) {
		return nil
	}
	return &candidate{plan: &runPlan{g: c.plan.g, nodes: p.nodes}, path: path, score: p.score, leads: p.leads}
}
