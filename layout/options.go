package layout

import (
	"math"
	"runtime"
	"slices"
	"sync"

	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// An Option is a cable or a pair for a room, with all that a choice is weighed
// by. Where it does not fit, Candidate.Why says why, and the spacing and
// density are estimates by area.
type Option struct {
	Candidate
	Taken           bool    // the job names it; or it is what is taken where the job names none
	Length          float64 // of all its cables, mm
	Watts, Amps     float64 // of all its cables at their own voltage
	Volts           float64
	LeadReach       float64 // mm of cold lead for the floor, the least of its cables'
	Smaller, Larger OffByInch
	WarmUp          *heat.Offer // nil where the job's layers do not allow it, or it does not fit
}

// An OffByInch is what a room that is an inch smaller or larger both ways does to
// an option: the even spacing in mm, judged by area as Sensitivity does, and
// whether it is within the limits.
type OffByInch struct {
	Spacing float64
	Within  bool
}

// RoomOptions are the options of one room, the best first; those that cannot
// be laid come last.
type RoomOptions struct {
	Room    *job.Room
	Heated  float64 // mm²
	Asked   float64 // W/m² wanted
	Options []Option
}

// Options weighs every cable of the job, and every pair of equal voltage, for
// every room. It lays each that may fit, so it takes as many times as long as
// a plan. A room that no cable can be laid in at all is in the diagnostics.
func Options(j *job.Job) ([]RoomOptions, []job.Diagnostic) {
	var out []RoomOptions
	var wrong []job.Diagnostic
	for i := range j.Rooms {
		r := Room{Job: &j.Rooms[i], wallClear: j.Clearance.Wall}
		if d := r.prepare(j); d != nil {
			wrong = append(wrong, *d)
			continue
		}
		o := RoomOptions{Room: r.Job, Heated: r.Heated.Area(), Asked: r.asked(), Options: r.options(j)}
		if !slices.ContainsFunc(o.Options, func(o Option) bool { return o.Fits }) {
			d := r.problem("room %q: none of the catalogue's %d cables, alone or in pairs, can be laid", r.Job.Name, len(j.Cables))
			d.Hint = "the table says of each why not"
			wrong = append(wrong, d)
		}
		out = append(out, o)
	}
	return out, wrong
}

// options weighs the candidates of a room.
func (r *Room) options(j *job.Job) []Option {
	cands := r.candidates(j)
	if len(r.Job.Cables) > 0 && r.namedAmong(cands) < 0 {
		cands = append(cands, r.estimate(j, named(j, r.Job.Cables)))
	}
	taken := r.namedAmong(cands)
	if taken >= 0 {
		cands[taken].Why = "" // it is tried whatever the estimate says, as draw does
	}
	r.layAll(j, cands)
	if taken < 0 {
		taken = slices.IndexFunc(cands, func(c Candidate) bool { return c.Fits })
	}
	shifted := r.shifted()
	var out []Option
	for i, c := range cands {
		o := r.option(j, c, shifted)
		o.Taken = i == taken
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(a, b Option) int { return unfit(a) - unfit(b) })
	return out
}

func unfit(o Option) int {
	if o.Fits {
		return 0
	}
	return 1
}

// namedAmong finds the cables that the job names for the room, whatever their
// order; -1 when it names none or they are not there.
func (r *Room) namedAmong(cands []Candidate) int {
	if len(r.Job.Cables) == 0 {
		return -1
	}
	want := slices.Sorted(slices.Values(r.Job.Cables))
	return slices.IndexFunc(cands, func(c Candidate) bool {
		return slices.Equal(slices.Sorted(slices.Values(c.IDs)), want)
	})
}

// layAll lays each candidate that may fit, on all cores.
func (r *Room) layAll(j *job.Job, cands []Candidate) {
	var wg sync.WaitGroup
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i := range cands {
		c := &cands[i]
		if c.Why != "" {
			continue
		}
		free <- struct{}{}
		wg.Go(func() {
			defer func() { <-free }()
			r.layOne(j, c)
		})
	}
	wg.Wait()
}

func (r *Room) layOne(j *job.Job, c *Candidate) {
	labels := named(j, c.IDs)
	routes, err := r.route(j, labels)
	if err != nil {
		c.Why = r.reason(labels, err, j.Units)
		return
	}
	c.settle(labels, routes)
}

// option puts together what there is to say of a candidate.
func (r *Room) option(j *job.Job, c Candidate, shifted [2]plane.Region) Option {
	o := Option{Candidate: c, LeadReach: math.Inf(1)}
	for _, l := range named(j, c.IDs) {
		o.Length += l.Length
		o.Watts += l.Watts
		o.Volts = l.Volts
		o.LeadReach = min(o.LeadReach, r.leadReach(l))
	}
	o.Amps = o.Watts / o.Volts
	o.Smaller, o.Larger = r.offByInch(j, c, shifted[0]), r.offByInch(j, c, shifted[1])
	if c.Fits {
		o.WarmUp = warmUp(j, c)
	}
	return o
}

// shifted returns the heated floor of the room 1 in smaller and 1 in larger
// both ways; nil where it cannot be said.
func (r *Room) shifted() (out [2]plane.Region) {
	for i, by := range []float64{-shiftBy, shiftBy} {
		changed, ok := stretched(*r.Job, true, by)
		if ok {
			changed, ok = stretched(changed, false, by)
		}
		other := Room{Job: &changed, wallClear: r.wallClear}
		if ok && other.areas() == nil {
			other.serveAs(r)
			out[i] = other.Heated
		}
	}
	return out
}

func (r *Room) offByInch(j *job.Job, c Candidate, heated plane.Region) OffByInch {
	labels := named(j, c.IDs)
	if len(heated) == 0 {
		return OffByInch{}
	}
	s := shiftedSpacing(r.Heated, heated, total(labels), c.Spacing)
	laid := 0.0
	if c.Fits {
		laid = c.Spacing
	}
	return OffByInch{s, suits(j, s, laid, labels)}
}

// warmUp computes how soon a floor laid with the candidate is warm, from its
// first cable.
func warmUp(j *job.Job, c Candidate) *heat.Offer {
	if len(j.BuildUp) == 0 {
		return nil
	}
	w := &Warmth{Room: j.Warmth.Room, Holds: -1}
	w.layers(j)
	if w.place() != nil {
		return nil
	}
	section := w.section(&Plan{Job: j}, &Cable{Label: named(j, c.IDs)[0], Spacing: c.Spacing})
	offers, err := section.Offers([]float64{c.Spacing}, nil, j.Warmth.Rise, j.Warmth.Hours)
	if err != nil || len(offers) == 0 {
		return nil
	}
	return &offers[0]
}
