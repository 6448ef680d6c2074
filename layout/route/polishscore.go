package route

import (
	"slices"

	"oxturn/layout/plane"
)

// judge scores a path whose legs are counted in; not to the end when it can't
// be as good as limit.
func (p *polisher) judge(t *tried, limit float64) {
	s, penalty := p.alongScore(t.nodes, t.end)
	leads, places := p.wish.judge(p.ends(t.nodes, t.end))
	s.Covered, s.Evenness = p.tally.covered(), p.tally.uneven()
	s.Total = penalty + leads + places + float64(100*(1-s.Covered)) + float64(weighUneven*s.Evenness)
	if s.Total < limit {
		t.cold = p.tally.coldFloor(append(t.legs[:len(t.legs):len(t.legs)], p.others...), limit-s.Total)
		s.Bare = t.cold.ratio
		s.Total += t.cold.penalty(1)
	}
	t.score, t.leads = s, leads
}

// alongScore is the penalty of the path alone.
func (p *polisher) alongScore(nodes []node, end float64) (s Score, penalty float64) {
	total, long, jogs := 0.0, 0.0, 0
	for i := 1; i < len(nodes); i++ {
		n := p.rule.leg(nodes[i-1], nodes[i])
		if i+1 == len(nodes) {
			n = end
		}
		total += n
		if n*p.rule.y.pitch >= longRun {
			long += n
		}
		short := n*p.rule.y.pitch < shortRun*p.field.pitch
		if 1 < i && i+1 < len(nodes) && short && turnOf(nodes, i-2)*turnOf(nodes, i-1) < 0 {
			jogs++
		}
	}
	return alongScore(len(nodes)-2, jogs, total*p.rule.y.pitch, long*p.rule.y.pitch)
}

// ends returns the start of heat and the end cap on the floor.
func (p *polisher) ends(nodes []node, end float64) []plane.Point {
	n := len(nodes)
	return []plane.Point{p.world(nodes[:2], 0)[0], p.world(nodes[n-2:], end)[1]}
}

// world returns the path on the floor.
func (p *polisher) world(nodes []node, end float64) []plane.Point {
	n := len(nodes)
	out := make([]plane.Point, n)
	for i, q := range nodes[:n-1] {
		out[i] = p.g.world(float64(q.x), float64(q.y))
	}
	a, b := nodes[n-2], nodes[n-1]
	end = p.rule.along(a, b, end)
	out[n-1] = p.g.world(float64(a.x)+float64(sign(b.x-a.x))*end, float64(a.y)+float64(sign(b.y-a.y))*end)
	return out
}

// legsOf returns the legs in raster coordinates, in room where they fit there, worked out
// from whole pegs so that equal legs are equal to the last bit.
func (p *polisher) legsOf(room []leg, nodes []node, end float64) []leg {
	out := slices.Grow(room[:0], len(nodes)-1)[:len(nodes)-1]
	ax, ay := p.raster(nodes[0], node{}, 0)
	for i := range out {
		a, b := nodes[i], nodes[i+1]
		d := float64(pegs(a, b))
		if i+1 == len(out) {
			d = p.rule.along(a, b, end)
		}
		bx, by := p.raster(a, node{sign(b.x - a.x), sign(b.y - a.y)}, d)
		out[i] = legBetween(ax, ay, bx, by)
		ax, ay = bx, by
	}
	return out
}

// raster returns the raster coordinates of the place d pegs from n along u.
func (p *polisher) raster(n, u node, d float64) (x, y float64) {
	x, y = float64(n.x+p.g.ox)+d*float64(u.x), float64(n.y+p.g.oy)+d*float64(u.y)
	x, y = p.g.turns.back(x, y)
	return float64(x*p.field.u) - float64(p.field.ox) - 0.5, float64(y*p.field.v) - float64(p.field.oy) - 0.5
}
