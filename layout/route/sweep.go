package route

import (
	"cmp"
	"math"
	"slices"
)

// The sweep builds the run plan of one zone. It goes over the zone row by
// row and decides for each which rows hold runs (the gaps), where runs end,
// and where links go down to the next row. What lies above a row matters to
// what lies below only through the links that arrive there and which of them
// are joined to each other, so equal states can be merged and the cheapest
// kept: dynamic programming over the frontier. Serpentines, return lanes
// along a wall, loops into a dead end and round a column, and lanes along a
// narrow neck all come out of the one rule.

const maxLinks = 8

// Fragment ends that are not links.
const (
	mateStart int8 = -1 // the fragment's other end is the start of heat
	mateEnd   int8 = -2 // ... the end of the cable
)

// A state is the frontier above row y: the links that arrive there.
type state struct {
	cost   float32
	parent int32
	key    uint32
	y      int16
	gap    int8    // pegs from the row before
	gap2   int8    // and the gap before that, 0 for none
	drift  float32 // how far the last rows lie from where the wanted gap would have them
	flags  uint8
	n      int8
	pos    [maxLinks]int16
	mate   [maxLinks]int8
	sx, ex int16 // column where the path starts and ends on the row before, -1 for neither
}

const (
	hasStart uint8 = 1
	hasEnd   uint8 = 2
	closed   uint8 = 4 // the path is whole, nothing more to come
)

type plugKind int8

// A plug is an end of a run: a link up or down, or an end of the path.
const (
	plugUp plugKind = iota
	plugDown
	plugStart
	plugEnd
)

type plug struct {
	x    int16
	kind plugKind
	link int8 // index of the arriving link
}

// A place is a column where a run of the row may end.
type place struct {
	x           int16
	link        int8 // arriving link, -1 for none
	down        bool // a link may leave here
	first, last bool // of its span
	span        int8
	start, end  float32 // cost of starting or ending the path here, infinite for never
}

// A sweep plans one zone for one cable; its tables serve one plan after the
// other.
type sweep struct {
	g      *grid
	rule   rules
	wish   *wishes
	tables map[int]*table

	// of the plan being made
	s       float64 // wanted gap in pegs
	lane    int     // the same in whole pegs, the width of a return lane
	t       *table
	arena   []state
	buckets [][]int32
	best    []float32
	worst   []float32 // of the states kept, once there are enough
	done    int32

	// of the row being worked on
	st      *state
	stIndex int32
	gap     int
	at      []place
	plugs   []plug
	drift   float32
	fixed   float32
	bound   float32
}

// A table holds what does not change from plan to plan with the same lane.
type table struct {
	events []int
	places [][]place   // by row and gap
	bare   [][]float64 // by how many whole pegs a run reaches; by row and gap, negative for not yet known
}

const (
	beam    = 24 // states kept a row
	ofAKind = 8  // and with the same number of links and ends
	slack   = 10 // how much dearer than the best of its row a state may be
)

func newSweep(g *grid, rule rules, wish *wishes) *sweep {
	return &sweep{
		g: g, rule: rule, wish: wish, tables: map[int]*table{},
		buckets: make([][]int32, g.ny+1), best: make([]float32, g.ny+1), worst: make([]float32, g.ny+1),
	}
}

// aim gets ready for a plan with wanted gap s.
func (w *sweep) aim(s float64) {
	w.s, w.done, w.arena = s, -1, w.arena[:0]
	w.lane = max(w.rule.closest, min(w.rule.widest, int(math.Round(s))))
	if w.t = w.tables[w.lane]; w.t == nil {
		w.t = &table{events: w.g.events(w.lane)}
		w.t.places = make([][]place, w.g.ny*(w.rule.widest+1))
		w.t.bare = make([][]float64, w.rule.widest+2)
		w.tables[w.lane] = w.t
	}
	for y := range w.best {
		w.best[y], w.worst[y] = inf32, inf32
		w.buckets[y] = w.buckets[y][:0]
	}
}

// plan returns the cheapest run plan for wanted gap s, or nil when there is
// none.
func (w *sweep) plan(s float64) *runPlan {
	w.aim(s)
	for y := range min(w.g.ny, 4*w.rule.widest) {
		w.add(state{y: int16(y), parent: -1, cost: float32(w.bareAbove(y)), sx: -1, ex: -1}, y)
	}
	for y := range w.g.ny {
		w.row(y)
	}
	if w.done < 0 {
		return nil
	}
	return w.trace(w.done)
}

// row expands the kept states of row y.
func (w *sweep) row(y int) {
	for _, id := range w.choose(y) {
		w.expand(id)
	}
}

// choose returns the states of row y that are worth going on with: the
// cheapest, but not all of one kind, since a dearer kind may pay later.
func (w *sweep) choose(y int) []int32 {
	ids := w.buckets[y]
	slices.SortFunc(ids, w.cheaper)
	var kinds [8 * maxLinks]int8
	kept := ids[:0]
	for _, id := range ids {
		st := &w.arena[id]
		if len(kept) == beam || st.cost > w.best[y]+slack {
			break
		}
		k := int(st.flags)*maxLinks + int(st.n)
		if kinds[k]++; kinds[k] <= ofAKind {
			kept = append(kept, id)
		}
	}
	return kept
}

// expand tries every next row and the end of the plan from one state.
func (w *sweep) expand(id int32) {
	st := w.arena[id]
	w.st, w.stIndex = &st, id
	y := int(st.y)
	for gap := w.rule.closest; gap <= w.rule.widest && y+gap < w.g.ny; gap++ {
		if math.Abs(float64(gap)-w.s) > 1.3 {
			continue
		}
		if st.gap > 0 && float64(int(st.gap)+gap)/2 < w.rule.meanGap-1e-9 {
			continue
		}
		w.gap = gap
		w.drift = st.drift*driftKept + float32(float64(gap)-w.s)
		w.fixed = st.cost + float32(w.gapCost(y, gap, int(st.gap), int(st.gap2)))
		w.start(w.placesFor(y, gap))
	}
	w.gap = 0
	w.fixed = st.cost + float32(w.bareBelow(y))
	w.start(w.placesFor(y, 0))
}

// start merges the arriving links into the row's places and walks them.
func (w *sweep) start(base []place) {
	w.at = append(w.at[:0], base...)
	y := int(w.st.y)
	for i := range int(w.st.n) {
		x := w.st.pos[i]
		k, found := slices.BinarySearchFunc(w.at, x, func(p place, x int16) int { return int(p.x) - int(x) })
		if !found {
			sp := int8(w.g.spanAt(int(x), y))
			w.at = slices.Insert(w.at, k, place{x: x, span: sp, link: -1, down: w.gap > 0 && int(w.g.up[y][x]) >= w.gap,
				start: inf32, end: inf32})
		}
		w.at[k].link = int8(i)
	}
	// most rows go on cheaply; dear ways are looked at only when there are no others
	for _, more := range [...]float32{slack, 5 * slack, inf32} {
		w.bound = w.fixed + more
		w.plugs = w.plugs[:0]
		w.walk(0, false, -1, -1000, w.fixed)
		if w.gap == 0 || w.best[y+w.gap] < inf32 {
			return
		}
	}
}

var inf32 = float32(math.Inf(1))

// limit is the cost above which the row's outcome is not worth having.
func (w *sweep) limit() float32 {
	if w.gap == 0 {
		if w.done < 0 {
			return inf32
		}
		return w.arena[w.done].cost
	}
	return min(w.bound, w.cap(int(w.st.y)+w.gap))
}

// walk decides, place by place from the left, where runs begin and end.
// open: a run has begun. last: column where the last run of this span ended,
// -1 for none yet. prev: the same over all spans.
func (w *sweep) walk(i int, open bool, last, prev int, cost float32) {
	if cost > w.limit() {
		return
	}
	if i == len(w.at) {
		w.settle(cost)
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
func (w *sweep) next(i int, open bool, last, prev int, cost float32) {
	if p := &w.at[i]; p.last {
		if open {
			return
		}
		sp := w.g.rows[w.st.y][p.span]
		if last < 0 {
			cost += float32(w.bareSpan(sp))
		} else {
			cost += float32(w.bareEnd(sp.b - last))
		}
	}
	w.walk(i+1, open, last, prev, cost)
}

func (w *sweep) push(x int16, k plugKind, link int8) { w.plugs = append(w.plugs, plug{x, k, link}) }

func (w *sweep) pop(n int) { w.plugs = w.plugs[:n] }

// openAt tries to begin a run at place i, a link that goes straight on, and
// nothing.
func (w *sweep) openAt(i int, p *place, last, prev int, cost float32) {
	x, n := int(p.x), len(w.plugs)
	if p.link < 0 {
		w.next(i, false, last, prev, cost)
	}
	if x-prev < w.rule.closest {
		return
	}
	if last < 0 {
		cost += float32(w.bareEnd(x - w.g.rows[w.st.y][p.span].a))
	} else {
		cost += float32(w.bareCut(x - last))
	}
	turn := float32(turnCost)
	if last >= 0 && len(w.plugs) > 0 {
		k := len(w.plugs)
		if w.plugs[k-1].x != w.plugs[k-2].x {
			turn += cutCost
		}
	}
	if p.link >= 0 {
		w.push(p.x, plugUp, p.link)
		w.next(i, true, last, prev, cost+turn)
		if p.down {
			w.push(p.x, plugDown, 0)
			w.next(i, false, x, x, cost)
			w.pop(n + 1)
		}
		w.ends(i, p, func(c float32) { w.next(i, false, x, x, cost+c+loneEnd) })
		w.pop(n)
		return
	}
	if p.down {
		w.push(p.x, plugDown, 0)
		w.next(i, true, last, prev, cost+turn)
		w.ends(i, p, func(c float32) { w.next(i, false, x, x, cost+c+loneEnd) })
		w.pop(n)
	}
	w.ends(i, p, func(c float32) { w.next(i, true, last, prev, cost+c) })
}

// ends calls then with the start of heat plugged in at p, and with the end.
func (w *sweep) ends(_ int, p *place, then func(float32)) {
	n := len(w.plugs)
	flags := w.st.flags
	for _, q := range w.plugs {
		switch q.kind {
		case plugStart:
			flags |= hasStart
		case plugEnd:
			flags |= hasEnd
		}
	}
	if flags&hasStart == 0 && p.start < inf32 {
		w.push(p.x, plugStart, 0)
		then(p.start)
		w.pop(n)
	}
	if flags&hasEnd == 0 && p.end < inf32 {
		w.push(p.x, plugEnd, 0)
		then(p.end)
		w.pop(n)
	}
}

// closeAt tries to end the open run at place i, and to run on past it.
func (w *sweep) closeAt(i int, p *place, last, prev int, cost float32) {
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
		w.ends(i, p, func(c float32) { w.next(i, false, x, x, cost+c) })
	}
}

// runFits reports whether a run of length pegs has room for its bends.
func (w *sweep) runFits(a, b plugKind, length int) bool {
	switch {
	case a >= plugStart && b >= plugStart:
		return false // the whole path would be one run
	case a >= plugStart || b >= plugStart:
		return length >= w.rule.minLeg
	case a == b:
		return length >= w.rule.turnBack
	}
	return length >= w.rule.minLeg
}

// settle joins the links through the row's runs and keeps the new state.
func (w *sweep) settle(cost float32) {
	if len(w.plugs) == 0 {
		return
	}
	ns := state{cost: cost, parent: w.stIndex, y: w.st.y + int16(w.gap), gap: int8(w.gap), gap2: w.st.gap, drift: w.drift, flags: w.st.flags, sx: -1, ex: -1}
	for _, p := range w.plugs {
		switch p.kind {
		case plugStart:
			ns.flags |= hasStart
			ns.sx = p.x
		case plugEnd:
			ns.flags |= hasEnd
			ns.ex = p.x
		case plugDown:
			if ns.n == maxLinks {
				return
			}
			ns.pos[ns.n] = p.x
			ns.n++
		}
	}
	if !w.connect(&ns) {
		return
	}
	if (w.gap == 0) != (ns.flags&closed != 0) {
		return
	}
	if w.gap == 0 {
		w.keepDone(ns)
		return
	}
	w.add(ns, int(ns.y))
}

func (w *sweep) keepDone(ns state) {
	if w.done >= 0 && w.arena[w.done].cost <= ns.cost {
		return
	}
	w.arena = append(w.arena, ns)
	w.done = int32(len(w.arena) - 1)
}

func (w *sweep) add(ns state, y int) {
	if ns.cost > w.cap(y) {
		return
	}
	w.best[y] = min(w.best[y], ns.cost)
	ns.key = ns.hash()
	for _, id := range w.buckets[y] {
		if old := &w.arena[id]; old.key == ns.key && old.same(&ns) {
			if ns.cost < old.cost {
				*old = ns
			}
			return
		}
	}
	w.arena = append(w.arena, ns)
	w.buckets[y] = append(w.buckets[y], int32(len(w.arena)-1))
	if len(w.buckets[y]) > 4*beam {
		w.thin(y)
	}
}

// same reports whether two states of a row can go on in the same ways.
func (s *state) same(t *state) bool {
	return s.n == t.n && s.flags == t.flags && s.pos == t.pos && s.mate == t.mate
}

// hash tells most different states apart (FNV-1a).
func (s *state) hash() uint32 {
	h := uint32(2166136261)
	mix := func(v uint32) { h = (h ^ v) * 16777619 }
	mix(uint32(s.flags))
	for i := range s.n {
		mix(uint32(uint16(s.pos[i])) | uint32(uint8(s.mate[i]))<<16)
	}
	return h
}

// cap is the cost above which a state at row y is not worth having.
func (w *sweep) cap(y int) float32 { return min(w.best[y]+slack, w.worst[y]) }

// thin keeps the beam's cheapest states of row y.
func (w *sweep) thin(y int) {
	ids := w.buckets[y]
	slices.SortFunc(ids, w.cheaper)
	w.worst[y] = w.arena[ids[beam]].cost
	w.buckets[y] = ids[:beam]
}

// cheaper orders states by cost, earlier ones first among equals.
func (w *sweep) cheaper(a, b int32) int {
	if c := cmp.Compare(w.arena[a].cost, w.arena[b].cost); c != 0 {
		return c
	}
	return cmp.Compare(a, b)
}
