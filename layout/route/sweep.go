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
	length float32 // of the path so far, pegs, sharp corners
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
	hasAll   uint8 = 4 // the path is whole, nothing more to come
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
	rim         bool // at the end of its span, where the path may start or end
	span        int8
}

// A sweep plans one zone for one cable; its tables serve one plan after the
// other.
type sweep struct {
	effort
	g      *grid
	rule   rules
	wish   *wishes
	tables map[int]*table
	remain [][]int16 // see remains
	work   int       // steps taken so far
	most   int       // steps there are
	stop   func() bool
	perPeg float32 // cost of a peg of cable: negative to look for the longest plan
	ring   bool    // the plan is a closed line, without start and end
	starts pathEnd
	ends   pathEnd

	// of the plan being made
	s       float64 // wanted gap in pegs
	lane    int     // the same in whole pegs, the width of a return lane
	lanes   int     // and in whole pegs along the rows
	t       *table
	arena   []state
	buckets [][]int32
	best    []float32
	worst   []float32 // of the states kept, once there are enough
	finals  []int32   // whole plans
	done    float32   // cost of the cheapest

	// of the row being worked on
	st      state // a copy: the arena it is from grows meanwhile
	stIndex int32
	next    state // what is being made of it
	gap     int
	plugs   []plug
	drift   float32
	fixed   float32
	walker  rowWalk
}

const (
	finalSlack = 25  // how much dearer than the best a whole plan may be
	overCost   = 0.3 // a peg of cable too much
)

// An effort is how widely a sweep looks.
type effort struct {
	beam    int     // states kept a row
	ofAKind int     // and with the same number of links and ends
	slack   float32 // how much dearer than the best of its row a state may be
}

func newSweep(g *grid, rule rules, wish *wishes, e effort) *sweep {
	return &sweep{
		effort: e, g: g, rule: rule.on(g), wish: wish, tables: map[int]*table{}, remain: g.remains(),
		starts: newPathEnd(g, wish.startCost), ends: newPathEnd(g, wish.endCost), most: math.MaxInt,
		stop:    func() bool { return false },
		buckets: make([][]int32, g.ny+1), best: make([]float32, g.ny+1), worst: make([]float32, g.ny+1),
	}
}

// newRingSweep plans closed lines in a grid, by the rules and with the effort of another
// sweep and what it has left of its steps.
func newRingSweep(g *grid, like *sweep) *sweep {
	anywhere := func(*grid, int, int) float32 { return 0 }
	return &sweep{
		effort: like.effort, g: g, rule: like.rule.on(g), tables: map[int]*table{}, remain: g.remains(), ring: true,
		starts: newPathEnd(g, anywhere), ends: newPathEnd(g, anywhere), most: like.most - like.work, stop: like.stop,
		buckets: make([][]int32, g.ny+1), best: make([]float32, g.ny+1), worst: make([]float32, g.ny+1),
	}
}

// laneFor is a wanted gap in whole pegs.
func (w *sweep) laneFor(s float64) int {
	return max(w.rule.y.closest, int(math.Ceil(w.rule.meanGap-1e-9)), min(w.rule.y.widest, int(math.Round(s))))
}

// aim gets ready for a plan with wanted gap s.
func (w *sweep) aim(s float64) {
	w.s, w.done, w.arena, w.finals = s, inf32, w.arena[:0], w.finals[:0]
	w.lane = w.laneFor(s)
	w.lanes = w.rule.lanes(w.lane)
	if w.t = w.tables[w.lane]; w.t == nil {
		w.t = newTable(w.g, w.rule, w.lanes)
		w.tables[w.lane] = w.t
	}
	for y := range w.best {
		w.best[y], w.worst[y] = inf32, inf32
		w.buckets[y] = w.buckets[y][:0]
	}
}

// plan makes run plans for wanted gap s; false when there are none.
func (w *sweep) plan(s float64) bool {
	w.aim(s)
	for y := range min(w.g.ny, 4*w.rule.y.widest) {
		if ends := w.starts.least[y] + w.ends.least[y]; ends < inf32 {
			w.add(&state{y: int16(y), parent: -1, cost: float32(w.bareAbove(y)) + ends, sx: -1, ex: -1}, y)
		}
	}
	for y := range w.g.ny {
		if w.stop() || w.out() {
			return false
		}
		w.row(y)
	}
	w.finish()
	slices.SortFunc(w.finals, w.cheaper)
	return len(w.finals) > 0
}

// out reports whether there are no steps left.
func (w *sweep) out() bool { return w.work >= w.most }

// pick returns the few most promising plans of at least length mm, and the
// length of the cheapest plan of all.
func (w *sweep) pick(length float64, most int) (plans []*runPlan, cheapest float64) {
	type choice struct {
		id   int32
		cost float64
	}
	var cs []choice
	for _, id := range w.finals {
		over := (float64(w.arena[id].length) - length/w.rule.y.pitch)
		if over > -1 && w.arena[id].cost <= w.done+finalSlack {
			cs = append(cs, choice{id, float64(w.arena[id].cost) + float64(overCost*over)})
		}
	}
	slices.SortStableFunc(cs, func(a, b choice) int { return cmp.Compare(a.cost, b.cost) })
	for _, c := range cs[:min(len(cs), most)] {
		plans = append(plans, w.trace(c.id))
	}
	return plans, w.trace(w.finals[0]).length(w.rule)
}

// finish looks for dear ways to end the plan when there was no cheap one.
func (w *sweep) finish() {
	for level := 1; level < costLevels && w.done == inf32; level++ {
		for y := w.g.ny - 1; y >= max(0, w.g.ny-6*w.rule.y.widest); y-- {
			for _, id := range w.choose(y) {
				w.end(id, level)
			}
		}
	}
}

// end tries to end the plan at the state's row.
func (w *sweep) end(id int32, level int) {
	w.st, w.stIndex, w.gap = w.arena[id], id, 0
	y := int(w.st.y)
	w.fixed = w.st.cost + float32(w.bareBelow(y))
	w.lay(y, level)
}

// row expands the kept states of row y.
func (w *sweep) row(y int) {
	ids := w.choose(y)
	// most rows go on cheaply; dear ways are looked at only when all else ends here
	for level := 0; level < costLevels && len(ids) > 0 && (level == 0 || w.stuck(y)); level++ {
		for _, id := range ids {
			w.expand(id, level)
		}
	}
}

// stuck reports whether no plan is whole yet and no state lies past row y.
func (w *sweep) stuck(y int) bool {
	if w.done < inf32 {
		return false
	}
	for _, b := range w.buckets[y+1:] {
		if len(b) > 0 {
			return false
		}
	}
	return true
}

// choose returns the states of row y that are worth going on with: the
// cheapest, but not all of one kind, since a dearer kind may pay later.
func (w *sweep) choose(y int) []int32 {
	ids := w.buckets[y]
	slices.SortFunc(ids, w.cheaper)
	var kinds [8 * (maxLinks + 1)]int
	kept := ids[:0]
	for _, id := range ids {
		st := &w.arena[id]
		if len(kept) == w.beam || st.cost > w.best[y]+w.slack {
			break
		}
		k := int(st.flags)*(maxLinks+1) + int(st.n)
		if kinds[k]++; kinds[k] <= w.ofAKind {
			kept = append(kept, id)
		}
	}
	w.buckets[y] = kept
	return kept
}

// besideWanted pegs from the wanted gap a row may be taken.
const besideWanted = 1.3

// expand tries every next row and the end of the plan from one state.
func (w *sweep) expand(id int32, level int) {
	w.st, w.stIndex = w.arena[id], id
	st := &w.st
	y := int(st.y)
	for gap := w.rule.y.closest; gap <= w.rule.y.widest && y+gap < w.g.ny; gap++ {
		if math.Abs(float64(gap)-w.s) > besideWanted {
			continue
		}
		if st.gap > 0 && float64(int(st.gap)+gap)/2 < w.rule.meanGap-1e-9 {
			continue
		}
		w.gap = gap
		w.drift = float32(st.drift*driftKept) + float32(float64(gap)-w.s)
		w.fixed = st.cost + float32(w.gapCost(y, gap, int(st.gap), int(st.gap2)))
		w.lay(y, level)
	}
	w.end(id, level)
}

// lay goes through the ways of laying row y's runs, cheapest first.
func (w *sweep) lay(y, level int) {
	most := w.limit() - w.fixed
	if most < 0 {
		return
	}
	list := w.ways(w.placesFor(y, w.gap), level, most)
	for i := range list.outcomes {
		o := &list.outcomes[i]
		cost := w.fixed + o.cost
		if cost > w.limit() {
			break
		}
		w.plugs = list.plugs[o.first : o.first+int32(o.n)]
		w.settle(o, cost)
	}
}

var inf32 = float32(math.Inf(1))

// limit is the cost above which the row's outcome is not worth having.
func (w *sweep) limit() float32 {
	if w.gap > 0 {
		return w.cap(int(w.st.y) + w.gap)
	}
	return w.done + finalSlack
}

// settle joins the links through the row's runs and keeps the new state.
func (w *sweep) settle(o *outcome, cost float32) {
	w.work += 4 // it costs about as much as four steps of a rowWalk
	y, below := int(w.st.y), int(w.st.y)+w.gap
	flags := w.st.flags
	if o.start >= 0 {
		flags |= hasStart
		cost += w.starts.at(w.g, int(o.start), y) - w.starts.least[y]
	}
	if o.end >= 0 {
		flags |= hasEnd
		cost += w.ends.at(w.g, int(o.end), y) - w.ends.least[y]
	}
	if flags&hasStart == 0 {
		cost += w.starts.least[below] - w.starts.least[y]
	}
	if flags&hasEnd == 0 {
		cost += w.ends.least[below] - w.ends.least[y]
	}
	length := w.st.length + o.length + float32(int(o.downs)*w.gap)
	cost += float32(w.perPeg * (length - w.st.length))
	if cost == inf32 || cost > w.limit() { // nothing is dearer than no limit
		return
	}
	ns := &w.next
	*ns = state{cost: cost, parent: w.stIndex, length: length, y: int16(below), gap: int8(w.gap), gap2: w.st.gap,
		drift: w.drift, flags: flags, n: o.downs, sx: o.start, ex: o.end}
	if !w.connect(ns) || (w.gap == 0) != (ns.flags&hasAll != 0) {
		return
	}
	if w.gap == 0 {
		w.keepDone(ns)
		return
	}
	if w.hopeless(ns) {
		return
	}
	w.add(ns, below)
}

// keepDone notes a whole plan that is among the cheapest.
func (w *sweep) keepDone(ns *state) {
	w.arena = append(w.arena, *ns)
	w.finals = append(w.finals, int32(len(w.arena)-1))
	w.done = min(w.done, ns.cost)
}

func (w *sweep) add(ns *state, y int) {
	if ns.cost > w.cap(y) {
		return
	}
	w.best[y] = min(w.best[y], ns.cost)
	ns.key = ns.hash()
	for _, id := range w.buckets[y] {
		if old := &w.arena[id]; old.key == ns.key && old.same(ns) {
			if ns.cost < old.cost {
				*old = *ns
			}
			return
		}
	}
	w.arena = append(w.arena, *ns)
	w.buckets[y] = append(w.buckets[y], int32(len(w.arena)-1))
	if len(w.buckets[y]) > 4*w.beam {
		w.thin(y)
	}
}

// same reports whether two states of a row can go on in the same ways.
func (s *state) same(t *state) bool {
	return s.n == t.n && s.flags == t.flags && s.pos == t.pos && s.mate == t.mate
}

// hash tells most different states apart (FNV-1a).
func (s *state) hash() uint32 {
	const offsetBasis, prime = 2166136261, 16777619 // of 32 bits
	h := uint32(offsetBasis)
	mix := func(v uint32) { h = (h ^ v) * prime }
	mix(uint32(s.flags))
	for i := range s.n {
		mix(uint32(uint16(s.pos[i])) | uint32(uint8(s.mate[i]))<<16)
	}
	return h
}

// cap is the cost above which a state at row y is not worth having.
func (w *sweep) cap(y int) float32 { return min(w.best[y]+w.slack, w.worst[y]) }

// thin keeps the beam's cheapest states of row y.
func (w *sweep) thin(y int) {
	ids := w.buckets[y]
	slices.SortFunc(ids, w.cheaper)
	w.worst[y] = w.arena[ids[w.beam]].cost
	w.buckets[y] = ids[:w.beam]
}

// cheaper orders states by cost, earlier ones first among equals.
func (w *sweep) cheaper(a, b int32) int {
	switch c, d := w.arena[a].cost, w.arena[b].cost; {
	case c < d:
		return -1
	case c > d:
		return 1
	}
	return int(a - b)
}
