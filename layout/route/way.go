package route

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A candidate is a fitted plan with its score.
type candidate struct {
	plan  *runPlan
	path  []plane.Point
	score Score
	leads float64 // share of the score's total for the leads
}

// laying is the score's total but for the leads: how long they are says
// nothing of whether a wider search would help.
func (c *candidate) laying() float64 { return c.score.Total - c.leads }

// A way is the search in one direction of the rows.
type way struct {
	sweep   *sweep
	field   *field
	zone    *rim                 // the whole zone, of which this may be a share
	length  float64              // of the cable, mm
	laid    float64              // mm of it that are laid already
	enough  float64              // widest wanted gap known to give a long enough plan
	tooWide float64              // smallest known to give too short a one
	best    *candidate           // of all tries
	found   []*candidate         // each the best of its time
	gap     float64              // to try next
	seen    [][]node             // plans considered
	tries   int                  // gaps tried
	closest bool                 // the last of them was the closest
	nudges  int                  // of those, how many because the one before gave up
	lost    int                  // of those, the last ones in a row that lost themselves
	annexes bool                 // plans get rings in the pockets they leave
	ringsOf map[ringKey][][]node // as far as they were asked for
}

// poorScore is the score above which a wider search is worth its time.
const poorScore = 6.0

// stopScore is the score at which the search stops.
const stopScore = 2.5

// mostWork bounds the steps in one direction once a route is found that will
// do, mostToil those for any route. Counting steps, not time, gives the same
// route on a slow machine.
const (
	mostWork = 5_000_000
	mostToil = 20_000_000
)

// spent reports whether the search has a route and no more work to spend.
func (w *way) spent() bool {
	return w.best != nil && w.sweep.work > mostWork && (w.best.laying() < poorScore || w.sweep.work > mostToil)
}

// mostFitted is how many plans of one sweep are fitted and judged.
const mostFitted = 4

// try makes plans for wanted gap s, fits those that are long enough and keeps
// the best. It returns the length of the cheapest plan, 0 for no plan.
func (w *way) try(s float64) float64 {
	if !w.sweep.plan(s) {
		return 0
	}
	if w.annexes {
		return w.laid + w.considerAnnexed(s)
	}
	plans, n := w.sweep.pick(w.length-w.laid, mostFitted)
	for _, p := range plans {
		w.consider(p)
	}
	return n + w.laid
}

// consider fits a plan and keeps it if it is the best so far.
func (w *way) consider(p *runPlan) {
	from := w.sweep.wish.from
	if slices.ContainsFunc(w.seen, func(q []node) bool { return slices.Equal(q, p.nodes) }) {
		return
	}
	w.seen = append(w.seen, p.nodes)
	q, path, ok := p.fit(w.sweep.rule, w.zone, from, w.length)
	if !ok {
		return
	}
	limit := math.Inf(1)
	if w.best != nil {
		limit = w.best.score.Total
	}
	leads, places := w.sweep.wish.judge(path)
	sc := w.field.judge(path, limit-leads-places)
	sc.Total += leads + places
	if sc.Total < limit && sound(path, w.sweep.rule, w.zone, w.length, from.kept()) {
		w.best = &candidate{q, path, sc, leads}
		w.found = append(w.found, w.best)
	}
}

// gapRounds is how many gaps are tried to bracket the widest that gives a long
// enough plan.
const gapRounds = 5

// annexedRounds is the same for plans with rings that cover the floor well.
const annexedRounds = 3

// raggedGap is the first wanted gap of ragged floors over the ideal one, at which hardly
// any plan of theirs is long enough; plain floors would get more turns by it.
const raggedGap = 0.94

// begin gets ready to bracket, from a first guess of the gap.
func (w *way) begin(s float64) {
	rule := w.sweep.rule
	w.gap, w.enough, w.tooWide = s, float64(rule.y.closest)-0.5, float64(rule.y.widest)+0.5
}

// bracket tries one gap on the way to the widest whose plan is just long
// enough.
func (w *way) bracket() {
	if w.settled() {
		return
	}
	rule := w.sweep.rule
	s := math.Max(float64(rule.y.closest), math.Min(float64(rule.y.widest), w.gap))
	w.tries++
	w.closest = s == float64(rule.y.closest)
	n := w.try(s)
	if w.lost++; n-w.laid >= lostShare*(w.length-w.laid) {
		w.lost = 0
	}
	switch {
	case n == 0:
		w.gap = s * closerFar
		return
	case w.gaveUp(n, s):
		w.nudges++
		w.gap = s * closer
		return
	case w.lost > 0: // its length says nothing of the gap
		w.gap = s * closerFar
		return
	case n < w.length:
		w.tooWide = math.Min(w.tooWide, s)
	default:
		w.enough = math.Max(w.enough, s)
	}
	if n >= w.length && w.best == nil { // long enough, but none of its plans is sound
		w.gap = s * closer
		return
	}
	least := closerMost
	if w.best == nil { // far off yet
		least = closerBlind
	}
	w.gap = s * math.Max(least, math.Min(widerMost, (n-w.laid)/((w.length-w.laid)*overLong)))
	if w.gap <= w.enough || w.gap >= w.tooWide {
		w.gap = math.Max((1-halving)*s, math.Min((1+halving)*s, (w.enough+w.tooWide)/2))
	}
}

// By what a gap is multiplied from try to try, all chosen by trial on the rooms of the tests.
const (
	closer      = 0.985 // where a plan was lost, or none was sound
	closerFar   = 0.95  // where there was none, or one that says nothing
	closerMost  = 0.93  // at least, by the length that a plan came to
	closerBlind = 0.85  // the same while none was long enough
	widerMost   = 1.07  // at most
	overLong    = 1.01  // how much longer than the cable a plan is aimed at
	halving     = 0.05  // how far from the last gap the middle of the bracket is taken
	bracketed   = 0.03  // pegs between a gap that is enough and one that is not: nothing more to gain
	likelyShort = 0.92  // of the likely length, what a plan falls short of that has lost its way
)

// lostShare is the share of the cable below which a plan has lost itself in one corner of the
// floor, and mostLost how often in a row it may where rings make every gap dear.
const (
	lostShare = 0.6
	mostLost  = 2
)

// mostNudges is how often a gap is tried a little closer before its plan is
// believed.
const mostNudges = 2

// gaveUp reports whether the cheapest plan at gap s is so much shorter than the
// gap and the floor make likely that the sweep must have lost its way: the next
// gap may do, and says more about the length.
func (w *way) gaveUp(n, s float64) bool {
	likely := (w.length - w.laid) * w.field.spacing / w.sweep.rule.y.pitch / s
	return w.nudges < mostNudges && n-w.laid < likelyShort*likely && n < w.length
}

// rounds is how many gaps the way is tried with. Rings fill what a gap leaves cold, so
// that a well covered floor has no need of many.
func (w *way) rounds() int {
	if w.annexes && w.best != nil && w.field.well(w.best.score.Covered) {
		return annexedRounds
	}
	return gapRounds
}

// settled reports whether more bracketing would gain nothing.
func (w *way) settled() bool {
	if w.closest && w.gap <= float64(w.sweep.rule.y.closest) { // the same again
		return true
	}
	return w.tries >= w.rounds()+w.nudges || w.annexes && w.lost >= mostLost || w.spent() || w.sweep.out() ||
		w.tooWide-w.enough < bracketed || w.laying() < stopScore
}

// laying is that of the best candidate, infinite for none.
func (w *way) laying() float64 {
	if w.best == nil {
		return math.Inf(1)
	}
	return w.best.laying()
}
