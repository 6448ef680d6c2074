package route

import (
	"cmp"
	"iter"
	"slices"
)

// Floor that a plan leaves cold gets a ring of its own, a closed line made by the same
// sweep. Where the ring and the path lie side by side both are opened and joined by two
// links: a pair of runs then leads from the path into the pocket and back. A ring in a
// pocket leaves pockets itself, which are dealt with likewise.

const (
	mostAnnexed = 3   // plans of one sweep that get rings
	mostAnnexes = 12  // times that a plan is looked through for pockets
	mostJoins   = 200 // places where a ring may be joined that are looked at
	leastAnnex  = 2.0 // pegs in a pocket, over the square of the wanted gap, from which it is worth a ring
)

// considerAnnexed gives the cheapest plans their rings, considers them and returns the
// length of the longest, mm.
func (w *way) considerAnnexed(s float64) float64 {
	longest := 0.0
	for _, id := range w.sweep.finals[:min(len(w.sweep.finals), mostAnnexed)] {
		p := w.annex(w.sweep.trace(id), s)
		longest = max(longest, p.length(w.sweep.rule))
		w.consider(p)
	}
	return longest
}

// annex returns the plan with rings in the pockets it leaves, the plan itself where
// there are none. Rings lie a lane from the path if they can, else as close as is allowed.
func (w *way) annex(p *runPlan, s float64) *runPlan {
	q := &runPlan{g: p.g, nodes: p.nodes, cost: p.cost}
	lane := w.sweep.laneFor(s)
	inVain := map[ringKey]bool{}
	for range mostAnnexes {
		if !w.annexAt(q, s, lane, inVain) && !w.annexAt(q, s, w.sweep.rule.y.closest, inVain) {
			break
		}
	}
	return q
}

// annexAt gives the plan rings in pockets gap pegs from it and reports whether there
// were any. Pockets that were tried in vain are left alone.
func (w *way) annexAt(p *runPlan, s float64, gap int, inVain map[ringKey]bool) bool {
	least, joined := float64(int(leastAnnex*s*s)), false
	for _, pocket := range p.g.pockets(p.nodes, gap, &w.sweep.rule) {
		key := pocket.keyFor(s)
		if float64(pocket.free)*w.sweep.rule.flat < least || inVain[key] {
			continue
		}
		if nodes, ok := w.withRing(p.nodes, pocket, s); ok {
			p.nodes, joined = nodes, true
		} else {
			inVain[key] = true
		}
	}
	return joined
}

// withRing returns the path with a ring in a pocket joined to it, the best that can be of
// those along the rows and across.
func (w *way) withRing(path []node, pocket *grid, s float64) ([]node, bool) {
	var rings [][]node
	rule := &w.sweep.rule
	rings = append(rings, w.rings(pocket, s)...)
	if !rule.held {
		rings = append(rings, w.rings(pocket.across(), s/rule.flat)...)
	}
	slices.SortStableFunc(rings, func(a, b []node) int { return cmp.Compare(rule.worth(b), rule.worth(a)) })
	for _, ring := range rings {
		if out, ok := w.sweep.rule.joinRing(w.sweep.g, path, ring, w.sweep.laneFor(s)); ok {
			return out, true
		}
	}
	return nil, false
}

// worth is how long a ring is in pegs across the rows, less one for each of its turns.
func (r *rules) worth(ring []node) float64 {
	n := -float64(len(ring))
	for i := range ring {
		n += r.leg(ring[i], ring[(i+1)%len(ring)])
	}
	return n
}

// rings returns the cheapest rings in a pocket along its rows, worked out once for a
// wanted gap.
func (w *way) rings(pocket *grid, s float64) [][]node {
	key := pocket.keyFor(s)
	if found, ok := w.ringsOf[key]; ok {
		return found
	}
	sw := newRingSweep(pocket, w.sweep)
	var out [][]node
	if sw.plan(s) {
		for _, id := range sw.finals[:min(len(sw.finals), 2)] {
			ring := sw.trace(id).nodes
			for i := range ring {
				ring[i] = w.sweep.g.from(pocket, ring[i])
			}
			out = append(out, ring)
		}
	}
	w.sweep.work += sw.work
	w.ringsOf[key] = out
	return out
}

// A ringKey tells a pocket and the gap wanted in it.
type ringKey struct {
	ox, oy int
	turns
	s    float64
	pegs uint64
}

// hashBegin is what an FNV-1a hash of 64 bits begins with (from memory).
const hashBegin = 14695981039346656037

// hashPrime is what it is multiplied by.
const hashPrime = 1099511628211

// keyFor tells most different pockets apart (FNV-1a over their rows).
func (g *grid) keyFor(s float64) ringKey {
	h := uint64(hashBegin)
	for _, row := range g.rows {
		for _, s := range row {
			h = (h ^ uint64(s.a)) * hashPrime
			h = (h ^ uint64(s.b)) * hashPrime
		}
		h = (h ^ uint64(len(row)+1<<20)) * hashPrime
	}
	return ringKey{g.ox, g.oy, g.turns, s, h}
}

// An abreast is a place where a ring lies beside a path: on leg i of the path and leg j
// of the ring, between two places along them. Off is how far from one another they are there, and how
// far from a lane long the place is.
type abreast struct{ i, j, from, to, off int }

// joinRing opens path and ring where they lie side by side and joins them; false where
// that is nowhere possible.
func (r rules) joinRing(g *grid, path, ring []node, lane int) ([]node, bool) {
	at := r.nearestAbreast(path, ring, lane)
	for _, m := range at[:min(len(at), mostJoins)] {
		if out, ok := m.join(path, ring); ok && r.allows(g, path, out) {
			return out, true
		}
	}
	return nil, false
}

// nearestAbreast lists the places where a ring can be joined to a path, those first that
// lie nearest over nearly a lane: as many as are looked at, and perhaps others.
func (r rules) nearestAbreast(path, ring []node, lane int) []abreast {
	var count []int // by how far off they are
	for m := range r.allAbreast(path, ring, lane) {
		for len(count) <= m.off {
			count = append(count, 0)
		}
		count[m.off]++
	}
	off := 0
	for n := 0; off < len(count) && n < mostJoins; off++ {
		n += count[off]
	}
	var at []abreast
	for m := range r.allAbreast(path, ring, lane) {
		if m.off < off {
			at = append(at, m)
		}
	}
	slices.SortStableFunc(at, func(a, b abreast) int { return cmp.Compare(a.off, b.off) })
	return at
}

// allAbreast goes through the places where a ring can be joined to a path: those a lane long, or
// nearly, at the ends of what lies side by side.
func (r rules) allAbreast(path, ring []node, lane int) iter.Seq[abreast] {
	return func(yield func(abreast) bool) {
		for i := range len(path) - 1 {
			for j := range ring {
				a, b := path[i], path[i+1]
				c, d := ring[j], ring[(j+1)%len(ring)]
				if (a.y == b.y) != (c.y == d.y) {
					continue
				}
				back, long := r.of(a, b).turnBack, lane
				if a.y == b.y {
					long = r.lanes(lane)
				}
				if a.x == b.x {
					a, b, c, d = node{a.y, a.x}, node{b.y, b.x}, node{c.y, c.x}, node{d.y, d.x}
				}
				lo, hi := max(min(a.x, b.x), min(c.x, d.x)), min(max(a.x, b.x), max(c.x, d.x))
				for n := back; n <= min(hi-lo, long+2); n++ {
					off := abs(a.y-c.y) + abs(n-long)
					if !yield(abreast{i, j, lo, lo + n, off}) || !yield(abreast{i, j, hi - n, hi, off}) {
						return
					}
				}
			}
		}
	}
}

// join returns path and ring as one line that goes over from one to the other at the
// abreast's ends; false where a leg would double back.
func (m abreast) join(path, ring []node) ([]node, bool) {
	a, b := path[m.i], path[m.i+1]
	on := func(n node, at int) node {
		if a.x == b.x {
			return node{n.x, at}
		}
		return node{at, n.y}
	}
	from, to := m.from, m.to
	if a.x > b.x || a.y > b.y {
		from, to = to, from
	}
	c, d := ring[m.j], ring[(m.j+1)%len(ring)]
	out := append(make([]node, 0, len(path)+len(ring)+4), path[:m.i+1]...)
	out = append(out, on(a, from), on(c, from))
	if alike := sign(d.x-c.x) == sign(b.x-a.x) && sign(d.y-c.y) == sign(b.y-a.y); alike {
		for k := range ring { // against the ring's sense, the long way round
			out = append(out, ring[(m.j-k+len(ring))%len(ring)])
		}
	} else {
		for k := range ring {
			out = append(out, ring[(m.j+1+k)%len(ring)])
		}
	}
	out = append(out, on(c, to), on(a, to))
	return straighten(append(out, path[m.i+1:]...))
}
