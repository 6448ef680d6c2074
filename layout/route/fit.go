package route

import (
	"oxturn/layout/plane"
)

// world returns the plan's corner points on the floor.
func (p *runPlan) world() []plane.Point {
	out := make([]plane.Point, len(p.nodes))
	for i, n := range p.nodes {
		out[i] = p.g.world(float64(n.x), float64(n.y))
	}
	return out
}

// length is the plan's true length in mm.
func (p *runPlan) length(rule rules) float64 { return Length(p.world(), rule.bend) }

// fit shortens a copy of the plan to exactly length mm: first bends that would
// leave the zone are moved off its corners and the turns at the ends of the
// runs are drawn in, a peg at a time and spread over the floor, then the end
// is cut back along the last run. ok is false when the plan is too short.
func (p *runPlan) fit(rule rules, zone *rim, from *joint, length float64) (q *runPlan, path []plane.Point,
	ok bool) {
	q = &runPlan{g: p.g, nodes: append([]node(nil), p.nodes...), cost: p.cost}
	q.mendBends(rule, zone)
	over := Length(from.join(q.world()), rule.bend) - length
	walls, inner := q.turns(rule, zone)
	for _, turns := range [][]int{walls, inner, walls} {
		over -= q.drawIn(rule, turns, over)
	}
	path, ok = cutBack(from.join(q.world()), rule.bend, length)
	return q, path, ok
}

// mendBends moves a leg beside every bend that would leave the zone by a peg,
// where that helps.
func (p *runPlan) mendBends(rule rules, zone *rim) {
	path := p.world()
	for i := 1; i+1 < len(p.nodes); i++ {
		if !bendInside(path[i-1:i+2], rule.bend, zone) && p.mendBend(i, rule, zone) {
			path = p.world()
		}
	}
}

// mendBend tries the two legs at corner i, either way.
func (p *runPlan) mendBend(i int, rule rules, zone *rim) bool {
	for _, leg := range [...]int{i - 1, i} {
		if leg == 0 || leg+2 == len(p.nodes) {
			continue // the path's ends stay
		}
		for _, h := range [...]int{1, -1} {
			h *= rule.aside(p.nodes[leg], p.nodes[leg+1]).step
			nodes, ok := push{leg, 0, pegs(p.nodes[leg], p.nodes[leg+1]), h}.by(p.nodes, nil)
			if !ok || len(nodes) != len(p.nodes) || !rule.allows(p.g, p.nodes, nodes) {
				continue
			}
			q := &runPlan{g: p.g, nodes: nodes}
			if path := q.world(); bendInside(path[i-1:i+2], rule.bend, zone) {
				p.nodes = nodes
				return true
			}
		}
	}
	return false
}

// cutBack ends the path where it has exactly the given length.
func cutBack(path []plane.Point, bend, length float64) ([]plane.Point, bool) {
	for m := len(path); m >= 2; m-- {
		over := Length(path[:m], bend) - length
		if over < -plane.Hair {
			return nil, false
		}
		a, b := path[m-2], path[m-1]
		keep := a.Dist(b) - over
		if cut := corners(path[:m], bend)[m-2].cut; keep < cut+1 {
			continue
		}
		out := append([]plane.Point(nil), path[:m-1]...)
		return append(out, a.Lerp(b, keep/a.Dist(b))), true
	}
	return nil, false
}

// drawIn takes up to over mm out of the plan by moving turns inwards by a
// peg, and returns how much.
func (p *runPlan) drawIn(rule rules, turns []int, over float64) float64 {
	each := 2 * float64(rule.x.step) * rule.x.pitch
	n := min(int(over/each), len(turns))
	taken := 0.0
	for k := range n {
		if p.drawOne(rule, turns[k*len(turns)/n]) {
			taken += each
		}
	}
	return taken
}

// endClear pegs from the edge the end of a path is moved freely.
const endClear = 1.5

// turns lists the plan's half turns, those at the zone's edge and those in
// its midst, by the first corner of their link.
func (p *runPlan) turns(rule rules, zone *rim) (walls, inner []int) {
	for i := 1; i+2 < len(p.nodes); i++ {
		a, b, c, d := p.nodes[i-1], p.nodes[i], p.nodes[i+1], p.nodes[i+2]
		if b.x != c.x || abs(c.y-b.y) > rule.y.widest || a.y != b.y || c.y != d.y || (a.x < b.x) != (d.x < c.x) {
			continue
		}
		mid := p.g.world(float64(b.x), float64(b.y+c.y)/2)
		if zone.within(mid, endClear*rule.y.pitch) {
			walls = append(walls, i)
		} else {
			inner = append(inner, i)
		}
	}
	return walls, inner
}

// drawOne moves the half turn at corner i one peg inwards.
func (p *runPlan) drawOne(rule rules, i int) bool {
	a, b, c, d := p.nodes[i-1], p.nodes[i], p.nodes[i+1], p.nodes[i+2]
	step := rule.x.step
	if least := rule.x.turnBack + 2*step; abs(a.x-b.x) < least || abs(d.x-c.x) < least {
		return false
	}
	if a.x < b.x {
		step = -step
	}
	x, lo := b.x+step, min(b.y, c.y)
	if int(p.g.up[lo][x]) < abs(c.y-b.y) {
		return false
	}
	p.nodes[i].x, p.nodes[i+1].x = x, x
	return true
}

func abs(x int) int {
	if x < 0 {
		return -x
	}
	return x
}
