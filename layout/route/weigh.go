package route

// The sweep's costs, in square pegs of floor gone cold. They stand in for the
// score while a plan is being built; the score itself is in score.go.
const (
	turnCost    = 0.7  // a corner
	cutCost     = 5.0  // a row broken into two runs where the row above was not
	loneEnd     = 2.0  // a path end at the end of a link, with no run of its own
	bareEdge    = 0.7  // share of a bare stretch of a row that its neighbours don't reach
	unevenDrift = 0.03 // rows that lie a peg from where an even spacing has them, per peg of row
	driftKept   = 0.9  // share of that carried on to the next row
	unevenOne   = 0.02 // a gap that is a peg off, per peg of row
	unevenTwo   = 0.02 // two neighbouring gaps that are a peg off together, per peg of row
	unevenThree = 0.05 // three gaps
	tooShort    = 0.08 // a run too short to be worth its turns, per peg of it
)

// bareEnd is the cost of a row's end left bare for d pegs.
func (w *sweep) bareEnd(d int) float64 {
	if wide := float64(d) * w.rule.flat; wide > 1 {
		return (wide - 1) * float64(w.lane) * bareEdge
	}
	return 0
}

// bareCut is the cost of d pegs between two runs in one row.
func (w *sweep) bareCut(d int) float64 {
	wide := float64(float64(d)*w.rule.flat) - float64(w.lane)
	if wide <= 0 {
		return -wide * 0.5
	}
	return wide * float64(w.lane) * bareEdge
}

// bareSpan is the cost of a span of a row that no run uses.
func (w *sweep) bareSpan(s span) float64 {
	return float64(s.width()+1) * w.rule.flat * float64(w.lane) * bareEdge
}

// shortRun is the cost of a run too short to be worth its turns.
func (w *sweep) shortRun(d int) float64 {
	if float64(d)*w.rule.x.pitch >= longRun {
		return 0
	}
	return float64(d) * w.rule.flat * tooShort
}

// gapCost is the cost of going from row y to row y+gap after a gap of prev.
// and one of prev2 before that.
func (w *sweep) gapCost(y, gap, prev, prev2 int) float64 {
	width := float64(w.g.wide[y]) * w.rule.flat
	d := float64(gap) - w.s
	c := float64(unevenOne*d*d) + float64(unevenDrift*float64(w.drift)*float64(w.drift))
	if prev > 0 {
		d += float64(prev) - w.s
		c += float64(unevenTwo * d * d)
	}
	if prev2 > 0 {
		d += float64(prev2) - w.s
		c += float64(unevenThree * d * d)
	}
	return float64(c*width) + w.known(y, gap, w.bareBetween)
}

// known looks a bare count up in the table, or computes it once.
func (w *sweep) known(y, gap int, count func(y, gap int) float64) float64 {
	r := min(int(w.reach()), w.rule.y.widest+1)
	t := w.t.bare[r]
	if t == nil {
		t = make([]float64, w.g.ny*(w.rule.y.widest+1))
		for i := range t {
			t[i] = -1
		}
		w.t.bare[r] = t
	}
	key := y*(w.rule.y.widest+1) + gap
	if t[key] < 0 {
		t[key] = count(y, gap)
	}
	return t[key]
}

// reach is how far from a run floor counts as covered, in pegs.
func (w *sweep) reach() float64 { return w.s/2 + 0.5 }

// bareBetween counts the pegs between two rows that neither reaches.
func (w *sweep) bareBetween(y, gap int) float64 {
	n := 0
	for k := 1; k < gap; k++ {
		var near [2][]span
		if float64(k) <= w.reach() {
			near[0] = w.g.rows[y]
		}
		if float64(gap-k) <= w.reach() {
			near[1] = w.g.rows[y+gap]
		}
		n += uncovered(w.g.rows[y+k], near[0], near[1])
	}
	return float64(n) * w.rule.flat
}

func (w *sweep) bareAbove(y int) float64 {
	n := 0
	for k := range y {
		var near []span
		if float64(y-k) <= w.reach() {
			near = w.g.rows[y]
		}
		n += uncovered(w.g.rows[k], near, nil)
	}
	return float64(n) * w.rule.flat
}

// bareBelow counts the pegs past row y that it does not reach.
func (w *sweep) bareBelow(y int) float64 { return w.known(y, 0, w.countBelow) }

func (w *sweep) countBelow(y, _ int) float64 {
	n, k := 0, y+1
	for ; k < w.g.ny && float64(k-y) <= w.reach(); k++ {
		n += uncovered(w.g.rows[k], w.g.rows[y], nil)
	}
	return float64(n+w.g.below[min(k, w.g.ny)]) * w.rule.flat
}

// uncovered counts the pegs of row that lie in no span of a or b.
func uncovered(row, a, b []span) int {
	n := 0
	for _, s := range row {
		for x := s.a; x <= s.b; x++ {
			if e := max(spanEnd(a, x), spanEnd(b, x)); e >= x {
				x = e
				continue
			}
			n++
		}
	}
	return n
}

// spanEnd returns the end of the span that holds x, or -1.
func spanEnd(spans []span, x int) int {
	for _, s := range spans {
		if x >= s.a && x <= s.b {
			return s.b
		}
	}
	return -1
}
