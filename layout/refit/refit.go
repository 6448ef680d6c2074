// Package refit plans the rest of a partly laid cable anew from where the installer
// stands, and says how much drift a plan takes before that is needed.
package refit

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// A Refit is a cable planned again from where the installer stands: what is
// laid stays, the rest is laid anew with the length that is left.
//
// Cable and floor never agree quite: over the same way more or less of it is
// used than drawn. The mark found on it tells the rate, and the rest is planned
// at that rate, so that the end comes out if laying goes on as it went.
type Refit struct {
	Room    *layout.Room
	Planned *layout.Cable
	Code    string        // of the job's plan as it is now
	Old     []layout.Run  // the runs of the plan it is laid from
	Laid    []plane.Point // the laid part, never moved; nil: nothing is laid yet
	Runs    int           // how many runs of it are laid, the last perhaps in part
	Way     float64       // mm of floor the laid part covers along its path
	Drift   float64       // share by which more cable was used than way covered, where the mark was found
	Rate    float64       // cable used per length of way from there on: 1 as drawn
	Slip    float64       // mm of cable used by one slip before the mark, where it is read so
	Used    float64       // mm of cable in the laid part
	Left    float64       // mm of cable left
	Early   float64       // mm: by how much less way than cable was covered where the mark was found
	Miss    float64       // mm by which the cable would end short of its planned end if nothing changed; negative: over
	// mm by which the end cap comes farther along its run than planned, where nothing else changes; negative: less far
	Farther float64
	New     *layout.Cable // the cable as planned anew; nil: Reason says why not
	Change  Changed       // what New takes
	Reason  string
	Choices []Choice
	WayOut  Way     // that was taken
	Lifted  float64 // mm of cable taken up by it
	Spared  float64 // mm² of floor given up by it

	Job   *job.Job
	found float64       // mm of way before the mark
	into  float64       // pegs of the last run that are laid, where a mark says so
	drawn []plane.Point // the path of the plan it is laid from, on the real pegs
	plan  []plane.Point // the same with the laid part at its head; nil: the laid part left it
	floor plane.Region  // where the rest may lie
	bare  route.Problem // the room without cables
}

// A Way is how a late or early mark is read, and a way out of a rest that finds
// no route otherwise. The zero value reads it as a drift that goes on, and takes none.
type Way struct {
	Once   bool // the mark came of one slip, a run miscounted: the rest is used as drawn
	Lift   int  // laid runs to take up first, from the last
	GiveUp int  // low-value area to leave without cable, from 1; 0: none
}

// New plans the rest of a cable that is partly laid, with as little change to
// the plan as can be. The error says what the record lacks, or the way out.
func New(p *layout.Plan, r *layout.Room, c *layout.Cable, way Way) (*Refit, error) {
	f, err := standing(p, r, c, way.Once)
	if err != nil {
		return nil, err
	}
	if f.floor, err = f.ownFloor(); err != nil {
		return nil, err
	}
	if f.bare, err = f.Room.ProblemFor(f.Job); err != nil {
		return nil, err
	}
	if err := f.take(way); err != nil {
		return nil, err
	}
	if way.Lift == 0 && way.GiveUp == 0 && f.tolerated() {
		if rt := f.asPlanned(); rt != nil {
			f.New, f.Farther = f.cable(*rt), -f.Miss/f.Rate
			return f, nil
		}
	}
	best, err := f.leastChange()
	if best != nil {
		f.New, f.Change = f.cable(best.route), best.change
		return f, nil
	}
	f.Reason = f.why(err, p.Units())
	f.choices(err)
	return f, nil
}

// standing works out where the installer stands; with once, a mark is read as one slip.
func standing(p *layout.Plan, r *layout.Room, c *layout.Cable, once bool) (*Refit, error) {
	l := c.Laid
	f := &Refit{Room: r, Planned: c, Code: p.Code, Rate: 1, Job: p.Job}
	switch {
	case l == nil:
		return nil, fmt.Errorf("nothing is recorded of cable %s: add [[as_laid]] with runs = 9, the runs laid so "+
			"far, and [[as_laid.mark]] for what was read off the cable", c.ID)
	case l.Whole:
		return nil, fmt.Errorf("cable %s is recorded as laid to its end: nothing is left to plan", c.ID)
	case len(l.Path) < 2 && l.Job.FirstPeg == nil:
		return nil, fmt.Errorf("the record of cable %s says neither what is laid nor where the pegs lie: add runs = "+
			"9, or corners, or start and legs, or first_peg", c.ID)
	}
	f.Old = layout.Runs(l.Planned, c.BendRadius, f.Planned.Lattice)
	f.OnPegs(l)
	if f.Laid == nil {
		f.Left = c.Label.Length
		return f, nil
	}
	if err := f.Read(l.Job.Marks); err != nil {
		return nil, err
	}
	if f.Drift = f.Rate - 1; once {
		f.Slip, f.Rate = f.Early, 1
	}
	f.reckon()
	if f.Left <= 0 {
		return nil, fmt.Errorf("by its marks cable %s ends before its %d laid runs do: a mark or a run was misread",
			c.ID, f.Runs)
	}
	if f.plan != nil {
		f.Miss = f.Used + f.Rate*(route.Length(f.plan, c.BendRadius)-f.Way) - c.Label.Length
	}
	return f, nil
}

// reckon works out how much of the cable the laid part takes.
func (f *Refit) reckon() {
	f.Way, f.Used = 0, 0
	if f.Laid == nil {
		f.Slip = 0 // it was taken up too
	} else {
		f.Way = route.Length(f.Laid, f.Planned.BendRadius)
		f.Used = float64(f.Rate*f.Way) + f.Slip
	}
	f.Left = f.Planned.Label.Length - f.Used
}

func (f *Refit) pitch() float64 { return f.Job.Peg() }

// pegs are so many pegs along a run, mm.
func (f *Refit) pegs(n float64, r layout.Run) float64 {
	return n * f.Planned.Lattice.Pegs(r.To.Sub(r.From))
}

// RateOff is how far the rate may be from 1 before a mark must be misread.
const RateOff = 0.15

// Read finds the rate at which cable is used, from the mark farthest along. A
// Mark on the run after the last whole one says how far that run is laid. The
// error holds a *misread for every mark that cannot be.
func (f *Refit) Read(marks []job.LaidMark) error {
	rs := layout.Runs(f.Laid, f.Planned.BendRadius, f.Planned.Lattice)
	f.Runs = len(rs)
	way, far := f.counted(), 0.0
	var last job.LaidMark
	var bad []error
	for _, m := range marks {
		at, err := f.place(m, rs, way)
		if err != nil {
			bad = append(bad, &Misread{m, err.Error()})
			continue
		}
		if length := layout.MarkRead(m, f.Planned); at > far {
			far, last, f.found, f.Rate, f.Early = at, m, at, length/at, length-at
		}
	}
	if math.Abs(f.Rate-1) > RateOff {
		bad = append(bad, &Misread{last,
			fmt.Sprintf("the mark says that cable %s was used up %s %s than drawn: look whether its run and "+
				"pegs, or the length, were misread", f.Planned.ID, say.Percent(math.Abs(f.Rate-1)),
				map[bool]string{true: "faster", false: "slower"}[f.Rate > 1])})
	}
	return errors.Join(bad...)
}

// A Misread is what is wrong with a mark.
type Misread struct {
	Mark  job.LaidMark
	Words string
}

// Error is the sentence that is printed.
func (m *Misread) Error() string { return m.Words }

// place returns how much way of the laid part, or of the way that goes on from it,
// lies before a mark, mm.
func (f *Refit) place(m job.LaidMark, rs []layout.Run, way []plane.Point) (float64, error) {
	if m.Run == len(rs)+1 && f.layOn(m, way) {
		return route.Length(f.Laid, f.Planned.BendRadius), nil
	}
	if m.Run == len(rs)+1 && way != nil && m.Run <= len(f.Old) && m.Pegs > 0 {
		return 0, fmt.Errorf("a mark is said to lie %g %s into run %d, which has %d", m.Pegs, f.Job.RunUnit(), m.Run,
			f.Old[m.Run-1].Pegs)
	}
	if m.Run > len(rs) {
		return 0, fmt.Errorf("a mark is said to lie on run %d, but %s of cable %s %s laid", m.Run,
			say.Counted(len(rs), "run"), f.Planned.ID, say.Are(len(rs)))
	}
	run := rs[m.Run-1]
	if f.pegs(m.Pegs, run) > run.Length()+f.pitch() {
		return 0, fmt.Errorf("a mark is said to lie %g %s into run %d, which has %d", m.Pegs, f.Job.RunUnit(),
			m.Run, run.Pegs)
	}
	line := f.Laid
	if f.plan != nil {
		line = f.plan // the bend at the laid part's end counts too
	}
	cum := route.Stations(line, f.Planned.BendRadius)
	return min(cum[run.Leg-1]+f.pegs(m.Pegs, run), cum[run.Leg]), nil
}

// layOn lengthens the laid part, along the way that goes on from it, to a mark on the
// run after the last whole one; false where that has no such place.
func (f *Refit) layOn(m job.LaidMark, way []plane.Point) bool {
	rs := layout.Runs(way, f.Planned.BendRadius, f.Planned.Lattice)
	if m.Run > len(rs) || f.pegs(m.Pegs, rs[m.Run-1]) > rs[m.Run-1].Length() {
		return false
	}
	next := rs[m.Run-1]
	f.Laid = way[:next.Leg:next.Leg]
	if m.Pegs > 0 {
		f.Laid = append(f.Laid, next.From.Add(next.To.Sub(next.From).Unit().Mul(f.pegs(m.Pegs, next))))
	}
	f.Runs, f.into = m.Run, m.Pegs
	if f.miscounted() {
		f.plan = f.onward(f.drawn)
	}
	return true
}

// counted is the way of one who counts on by the run list from where the laid part
// ends: the plan, or with a run miscounted what follows moved with it.
func (f *Refit) counted() []plane.Point {
	if !f.miscounted() || f.drawn == nil {
		return f.plan
	}
	last := f.Old[f.Runs-1].Leg // where the last laid run ends
	off := f.Laid[len(f.Laid)-1].Sub(f.drawn[last])
	return append(slices.Clone(f.Laid), plane.Moved(f.drawn[last+1:], off)...)
}

// miscounted reports whether laid runs are known to have other pegs than the plan's.
func (f *Refit) miscounted() bool {
	return len(f.Planned.Laid.Job.Miscounts) > 0 && f.Laid != nil && f.Runs > 0 && f.Runs <= len(f.Old)
}
