package route

import (
	"math"
	"slices"
)

// A table holds what does not change from plan to plan with the same lane.
type table struct {
	events   []int
	strips   [][]span  // by row and gap, see strip
	places   [][]place // by row and gap
	ways     map[waysKey]wayList
	listed   int // outcomes in ways
	outcomes store[outcome]
	plugs    store[plug]
	kinds    map[string]int32
	kindOf   []int32     // kind of row by row and gap, negative for not yet known
	bare     [][]float64 // by how many whole pegs a run reaches; by row and gap, negative for not yet known
}

func newTable(g *grid, rule rules, lanes int) *table {
	t := &table{events: g.events(lanes, rule.x.step), ways: map[waysKey]wayList{}, kinds: map[string]int32{}}
	n := g.ny * (rule.y.widest + 1)
	t.strips = make([][]span, n)
	t.places = make([][]place, n)
	t.bare = make([][]float64, rule.y.widest+2)
	t.kindOf = make([]int32, n)
	for i := range t.kindOf {
		t.kindOf[i] = -1
	}
	return t
}

// A store hands out many small pieces of memory, taken a large one at a time.
type store[T any] struct{ left []T }

// storeTaken things are taken at a time.
const storeTaken = 2048

// room returns a piece for n things.
func (s *store[T]) room(n int) []T {
	if n > len(s.left) {
		if n > storeTaken/4 {
			return make([]T, n)
		}
		s.left = make([]T, storeTaken)
	}
	out := s.left[:n:n]
	s.left = s.left[n:]
	return out
}

// A wayList holds the outcomes of a kind of row, cheapest first: all those up to a
// cost, infinite where no dearer ones are ever looked at.
type wayList struct {
	outcomes []outcome
	plugs    []plug
	upTo     float32
}

// An outcome is one way of laying a row: its plugs, from the left, two a run.
type outcome struct {
	cost   float32 // without the ends' and the gap's
	length float32 // of its runs, pegs
	first  int32   // index of its plugs in the list
	start  int16   // columns where the path starts and ends, -1 for neither
	end    int16
	n      int8
	downs  int8
}

// A waysKey is all that the ways of laying a row depend on.
type waysKey struct {
	kind  int32
	level int8
	flags uint8
	n     int8
	pos   [maxLinks]int16
}

// Ways no dearer than this many times the sweep's slack are listed, the next
// level only when the one before it leads nowhere.
var levelBound = [costLevels]float32{1, 3, 30}

const costLevels = 3

// mostListed is how many outcomes a table keeps: where hardly two rows are equal it
// would grow to hundreds of megabytes.
const mostListed = 500_000

// ways lists the outcomes of the row being worked on that cost no more than most,
// and perhaps others, cheapest first.
func (w *sweep) ways(base []place, level int, most float32) wayList {
	key := waysKey{kind: w.kind(base), level: int8(level), flags: w.st.flags, n: w.st.n, pos: w.st.pos}
	l, ok := w.t.ways[key]
	if ok && l.upTo >= most {
		return l
	}
	if ok { // asked for again, and for more: it will be again
		most = inf32
	}
	r := &w.walker
	r.sweep, r.list, r.used = w, r.list[:0], r.used[:0]
	r.arrive(base)
	upTo := inf32
	for l := level; l < costLevels && len(r.list) == 0; l++ {
		bound := w.slack * levelBound[l]
		if most < bound {
			bound, upTo = most, most
		}
		r.steps, r.bound, r.plugs, r.has = 0, bound, r.plugs[:0], w.st.flags
		r.walk(0, false, -1, -1000, 0)
		w.work += r.steps
		if w.gap == 0 || upTo < inf32 {
			break
		}
	}
	if w.t.listed += len(r.list); w.t.listed > mostListed {
		w.t.ways, w.t.listed = map[waysKey]wayList{}, len(r.list)
	}
	out := wayList{w.t.outcomes.room(len(r.list)), w.t.plugs.room(len(r.used)), upTo}
	copy(out.plugs, r.used)
	r.inOrder(out.outcomes)
	w.t.ways[key] = out
	return out
}

// inOrder writes the outcomes found to out, cheapest first, of equals the one found first: no
// cost is negative, so that its bits are in order as it is.
func (w *rowWalk) inOrder(out []outcome) {
	w.order = w.order[:0]
	for i := range w.list {
		w.order = append(w.order, uint64(math.Float32bits(w.list[i].cost))<<32|uint64(i))
	}
	slices.Sort(w.order)
	for i, k := range w.order {
		out[i] = w.list[uint32(k)]
	}
}

// kind numbers rows: equal rows with equal strips below have the same number.
func (w *sweep) kind(base []place) int32 {
	y := int(w.st.y)
	key := y*(w.rule.y.widest+1) + w.gap
	if k := w.t.kindOf[key]; k >= 0 {
		return k
	}
	b := []byte{byte(min(w.gap, 1))}
	for _, p := range base {
		f := byte(p.span) << 2
		if p.down {
			f |= 1
		}
		if p.rim {
			f |= 2
		}
		b = append(b, byte(p.x), byte(p.x>>8), f)
	}
	for _, s := range w.t.strips[key] {
		b = append(b, byte(s.a), byte(s.a>>8), byte(s.b), byte(s.b>>8))
	}
	k, ok := w.t.kinds[string(b)]
	if !ok {
		k = int32(len(w.t.kinds))
		w.t.kinds[string(b)] = k
	}
	w.t.kindOf[key] = k
	return k
}

// A rowWalk lists the ways of laying one row.
type rowWalk struct {
	*sweep
	at    []place
	plugs []plug
	has   uint8 // which of the path's ends are laid
	bound float32
	steps int
	list  []outcome // found so far
	used  []plug    // by them
	order []uint64  // see inOrder
}

// mostSteps bounds the work on one row.
const mostSteps = 5000

// arrive merges the arriving links into the row's places.
func (w *rowWalk) arrive(base []place) {
	w.at = append(w.at[:0], base...)
	y := int(w.st.y)
	for i := range int(w.st.n) {
		x := w.st.pos[i]
		k, found := slices.BinarySearchFunc(w.at, x, func(p place, x int16) int { return int(p.x) - int(x) })
		if !found {
			down := w.gap > 0 && spanEnd(w.t.strips[y*(w.rule.y.widest+1)+w.gap], int(x)) >= 0
			w.at = slices.Insert(w.at, k, place{x: x, span: int8(w.g.spanAt(int(x), y)), down: down})
		}
		w.at[k].link = int8(i)
	}
}

// keep notes an outcome.
func (w *rowWalk) keep(cost float32) {
	o := outcome{cost: cost, first: int32(len(w.used)), n: int8(len(w.plugs)), start: -1, end: -1}
	for i := range w.plugs {
		p := &w.plugs[i]
		switch p.kind {
		case plugDown:
			o.downs++
		case plugStart:
			o.start = p.x
		case plugEnd:
			o.end = p.x
		}
		if i&1 == 1 {
			o.length += float32(float32(p.x-w.plugs[i-1].x) * float32(w.rule.flat))
		}
	}
	if len(w.plugs) == 0 || o.downs > maxLinks || (o.downs == 0) != (w.gap == 0) {
		return
	}
	w.list = append(w.list, o)
	w.used = append(w.used, w.plugs...)
}

// walk decides, place by place from the left, where runs begin and end.
// open: a run has begun. last: column where the last run of this span ended,
// -1 for none yet. prev: the same over all spans.
func (w *rowWalk) walk(i int, open bool, last, prev int, cost float32) {
	if w.steps++; cost > w.bound || w.steps > mostSteps {
		return
	}
	if i == len(w.at) {
		w.keep(cost)
		return
	}
	p := &w.at[i]
	if p.first {
		last = -1
	}
	if open {
		w.closeAt(i, p, last, prev, cost)
	} else {
		w.openAt(i, p, last, prev, cost)
	}
}

// next goes on to place i+1, closing the account of the span if i was its last.
func (w *rowWalk) next(i int, open bool, last, prev int, cost float32) {
	p := &w.at[i]
	if !p.last {
		w.walk(i+1, open, last, prev, cost)
		return
	}
	if open {
		return
	}
	sp := w.g.rows[w.st.y][p.span]
	if last >= 0 {
		w.walk(i+1, open, last, prev, cost+float32(w.bareEnd(sp.b-last)))
		return
	}
	// a span that is left out must not keep the others from their choice
	c := float32(w.bareSpan(sp))
	w.bound += c
	w.walk(i+1, open, last, prev, cost+c)
	w.bound -= c
}

func (w *rowWalk) push(x int16, k plugKind, link int8) { w.plugs = append(w.plugs, plug{x, k, link}) }

func (w *rowWalk) pop(n int) { w.plugs = w.plugs[:n] }

// openAt tries to begin a run at place i, a link that goes straight on, and
// nothing.
func (w *rowWalk) openAt(i int, p *place, last, prev int, cost float32) {
	x, n := int(p.x), len(w.plugs)
	if p.link < 0 {
		w.next(i, false, last, prev, cost)
	}
	if x-prev < w.rule.x.closest {
		return
	}
	if last < 0 {
		cost += float32(w.bareEnd(x - w.g.rows[w.st.y][p.span].a))
	} else {
		cost += float32(w.bareCut(x - last))
	}
	turn := float32(turnCost)
	if last >= 0 && w.fresh(last, x) {
		cost += cutCost
	}
	if p.link >= 0 {
		w.push(p.x, plugUp, p.link)
		w.next(i, true, last, prev, cost+turn)
		if p.down && !w.rule.held {
			w.push(p.x, plugDown, 0)
			w.next(i, false, x, x, cost)
			w.pop(n + 1)
		}
		if !w.rule.held {
			w.pathEnds(i, p, false, x, x, cost+loneEnd)
		}
		w.pop(n)
		return
	}
	if p.down {
		w.push(p.x, plugDown, 0)
		w.next(i, true, last, prev, cost+turn)
		if !w.rule.held {
			w.pathEnds(i, p, false, x, x, cost+loneEnd)
		}
		w.pop(n)
	}
	w.pathEnds(i, p, true, last, prev, cost)
}

// fresh reports whether no link arrives at the cut from a to b: the row above
// had no need of it.
func (w *rowWalk) fresh(a, b int) bool {
	for _, u := range w.st.pos[:w.st.n] {
		if int(u) >= a-w.rule.x.step && int(u) <= b+w.rule.x.step {
			return false
		}
	}
	return true
}

// pathEnds goes on with the start of heat plugged in at place i, and with the end.
func (w *rowWalk) pathEnds(i int, p *place, open bool, last, prev int, cost float32) {
	if !p.rim || w.ring {
		return
	}
	n, has := len(w.plugs), w.has
	if has&hasStart == 0 {
		w.has = has | hasStart
		w.push(p.x, plugStart, 0)
		w.next(i, open, last, prev, cost)
		w.pop(n)
	}
	if has&hasEnd == 0 {
		w.has = has | hasEnd
		w.push(p.x, plugEnd, 0)
		w.next(i, open, last, prev, cost)
		w.pop(n)
	}
	w.has = has
}

// closeAt tries to end the open run at place i, and to run on past it.
func (w *rowWalk) closeAt(i int, p *place, last, prev int, cost float32) {
	x, n := int(p.x), len(w.plugs)
	if p.link < 0 && !p.last {
		w.next(i, true, last, prev, cost)
	}
	from := w.plugs[n-1]
	length := x - int(from.x)
	cost += float32(w.shortRun(length))
	turn := float32(turnCost)
	if p.link >= 0 {
		if w.runFits(from.kind, plugUp, length) {
			w.push(p.x, plugUp, p.link)
			w.next(i, false, x, x, cost+turn)
			w.pop(n)
		}
		return
	}
	if p.down && w.runFits(from.kind, plugDown, length) {
		w.push(p.x, plugDown, 0)
		w.next(i, false, x, x, cost+turn)
		w.pop(n)
	}
	if w.runFits(from.kind, plugEnd, length) {
		w.pathEnds(i, p, false, x, x, cost)
	}
}

// runFits reports whether a run of length pegs has room for its bends.
func (w *rowWalk) runFits(a, b plugKind, length int) bool {
	switch {
	case a >= plugStart && b >= plugStart:
		return false // the whole path would be one run
	case a >= plugStart || b >= plugStart:
		return length >= w.rule.x.minLeg
	case a == b:
		return length >= w.rule.x.turnBack
	}
	return length >= w.rule.x.minLeg
}
