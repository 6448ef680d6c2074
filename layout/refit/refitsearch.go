package refit

import (
	"fmt"
	"math"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A Changed is what a new plan of the rest takes, against the old one. The
// least Score is chosen: a point for every run that changes, coldPoints for
// every per cent of the cable's floor that warmth no longer reaches, and
// doorPoints for an end cap where none should lie.
type Changed struct {
	From    int     // the first run that is not as planned; 0: none
	Runs    int     // how many are not as planned
	Cold    float64 // mm² of floor out of the cable's reach that was in it
	Doorway bool    // the end cap has come into a doorway, a door's swing or a flange
	Score   float64
}

const (
	coldPoints = 4.0
	doorPoints = 10.0
)

// A rest is one way to lay what is left.
type rest struct {
	route  route.Route
	change Changed
}

// leastChange finds the rest that changes least. Of the plan as many runs are
// kept as can be, and what is left is laid anew behind them; the fewer are
// kept, the more the rest must gain by it. The error is the router's for the
// laid part alone.
func (f *Refit) leastChange() (*rest, error) {
	t := &tries{planned: len(f.Old), laid: f.Runs, keeps: f.keeps(), best: f.bent(), forLength: f.lengthRules,
		lay: func(n int, briefly bool) (*rest, error) {
			rt, err := f.solve(f.head(n), f.floor, briefly)
			if err != nil {
				return nil, err
			}
			return f.weigh(rt), nil
		}}
	return t.search()
}

// nearTried bounds the tries between steps: each takes about as long as laying
// what is left of the floor.
const nearTried = 3

// tries are those made of how much of the plan can be kept.
type tries struct {
	planned, laid int                                         // runs
	keeps         []int                                       // numbers of runs to try, most first; the laid ones last
	lay           func(keep int, briefly bool) (*rest, error) // lays the rest behind so many runs
	forLength     func(error) bool                            // a refusal for length alone: no other way helps

	best    *rest
	why     error // why the laid part alone has no rest
	refused int   // fewest runs kept in vain before one was found
	found   int   // most kept with success; -1: none yet
	tried   map[int]bool
	widely  bool // look as far as for the laid part alone
}

// search tries the steps, then between them, and where that gives nothing looks farther.
func (t *tries) search() (*rest, error) {
	t.refused, t.found, t.tried = t.keeps[0]+1, -1, map[int]bool{}
	for i, n := range t.keeps {
		t.keep(n)
		if i == 1 && t.best == nil { // with the laid part alone there is most floor: what it can't take, no other can
			if t.keep(t.laid); t.forLength(t.why) {
				return nil, t.why
			}
		}
	}
	for range nearTried { // between the last refused and the first found
		if t.found >= 0 {
			t.keep((t.refused + t.found) / 2)
		}
	}
	if t.forLength(t.why) {
		return t.best, t.why
	}
	for n := t.keeps[0]; t.best == nil && n > t.laid && len(t.tried) < len(t.keeps)+2*nearTried; n-- {
		t.keep(n) // those between the steps
	}
	t.widely, t.tried = true, map[int]bool{}
	for _, n := range t.keeps[max(0, len(t.keeps)-1-nearTried):] { // where least is kept there is most floor
		if t.best == nil {
			t.keep(n)
		}
	}
	return t.best, t.why
}

// keep tries to lay the rest behind run n of the plan, where that can still be
// less of a change than the best.
func (t *tries) keep(n int) {
	if t.tried[n] || t.best != nil && float64(t.planned-n) >= t.best.change.Score {
		return
	}
	t.tried[n] = true
	r, err := t.lay(n, !t.widely && n > t.laid || t.best != nil)
	switch {
	case err != nil && n == t.laid:
		t.why = err
	case err != nil && n > t.found:
		t.refused = min(t.refused, n)
	case err == nil:
		t.found = max(t.found, n)
		if t.best == nil || r.change.Score < t.best.change.Score {
			t.best = r
		}
	}
}

// keeps are the numbers of runs of the plan that are tried to be kept, most
// first: steps grow, so that few tries reach back to the laid part.
func (f *Refit) keeps() []int {
	var out []int
	if f.plan != nil {
		most := min(f.sound(f.plan), len(f.Old))
		step, more := 1, 1
		for n := most; n > f.Runs; n -= step {
			if route.Length(f.head(n), f.Planned.BendRadius) < f.whole() {
				out = append(out, n)
				if len(out) > 1 {
					step, more = more, step+more
				}
			}
		}
	}
	return append(out, f.Runs)
}

// head is the plan's path to the end of run n; the laid part for those that
// are laid.
func (f *Refit) head(n int) []plane.Point {
	if n <= f.Runs {
		return f.Laid
	}
	rs := layout.Runs(f.plan, f.Planned.BendRadius, f.Planned.Lattice)
	return f.plan[:rs[n-1].Leg+1]
}

// hotter reports whether at the rate found the power limit forbids gaps that
// it allowed when the plan was made.
func (f *Refit) hotter() bool { return f.twoGaps(f.Rate) > f.twoGaps(1) }

// twoGaps is how many pegs the two gaps beside a run take together at the least,
// by the power limit at a rate.
func (f *Refit) twoGaps(rate float64) int {
	least := rate*f.bothGaps()/f.Rate - layout.SamePeg/2
	pitch := f.Planned.Lattice.Pegs(plane.Pt(0, 1).Rotate(f.along()))
	return max(int(math.Ceil(2*f.Job.Near()/pitch-plane.Whit)), int(math.Ceil(least/pitch)))
}

// bothGaps is how much the two gaps beside a run take together at the least, by the
// power limit at the rate found, mm; 0 without a limit.
func (f *Refit) bothGaps() float64 {
	if f.Job.Supply.MaxDensity <= 0 {
		return 0
	}
	return 2 * f.Rate * f.wattsPerMetre() / f.Job.Supply.MaxDensity * 1000
}

func (f *Refit) wattsPerMetre() float64 {
	return f.Planned.Label.Watts / (f.Planned.Label.Length / 1000)
}

func (r *rest) coldShare(f *Refit) float64 { return r.change.Cold / f.Planned.Share.Area() }

// weigh says what a rest changes.
func (f *Refit) weigh(rt route.Route) *rest {
	r := &rest{route: rt}
	r.change.From, r.change.Runs = f.changed(rt.Path)
	cold, err := f.cold(rt.Path)
	was, err2 := f.cold(f.Planned.Laid.Planned)
	if err == nil && err2 == nil {
		r.change.Cold = max(0, cold-was)
	}
	end := rt.Path[len(rt.Path)-1]
	for _, a := range f.Room.Avoid() {
		r.change.Doorway = r.change.Doorway || rt.Return == nil && a.Contains(end) && !a.Contains(f.oldEnd())
	}
	r.change.Score = float64(r.change.Runs) + float64(coldPoints*100*r.coldShare(f))
	if r.change.Doorway {
		r.change.Score += doorPoints
	}
	return r
}

func (f *Refit) oldEnd() plane.Point {
	return f.Planned.Laid.Planned[len(f.Planned.Laid.Planned)-1]
}

// changed compares a path with the plan, run by run: the first that differs,
// and how many do.
func (f *Refit) changed(path []plane.Point) (from, n int) {
	old := f.Old
	if f.plan != nil {
		old = layout.Runs(f.plan, f.Planned.BendRadius, f.Planned.Lattice)
	}
	now := layout.Runs(path, f.Planned.BendRadius, f.Planned.Lattice)
	for i := range max(len(old), len(now)) {
		if i >= len(old) || i >= len(now) || old[i].From.Dist(now[i].From) > layout.SamePeg ||
			old[i].To.Dist(now[i].To) > layout.SamePeg {
			if from == 0 {
				from = i + 1
			}
			n++
		}
	}
	return from, n
}

// cold is the part of the cable's floor farther from it than half the mean
// spacing and half a peg, mm².
func (f *Refit) cold(path []plane.Point) (float64, error) {
	warm, err := plane.Band(path, f.Planned.Spacing+f.pitch())
	if err != nil {
		return 0, err
	}
	cold, err := f.Planned.Share.Less(warm)
	if err != nil {
		return 0, fmt.Errorf("floor out of reach: %w", err)
	}
	return cold.Area(), nil
}
