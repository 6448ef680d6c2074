package build

import (
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// An Option is a cable or a pair for a room, with all that a choice is weighed
// by. Where it does not fit, Candidate.Why says why, and the spacing and
// density are estimates by area.
type Option struct {
	layout.Candidate
	Taken           bool    // the job names it; or it is what is taken where the job names none
	Length          float64 // of all its cables, mm
	Watts, Amps     float64 // of all its cables at their own voltage
	Volts           float64
	LeadReach       float64 // mm of cold lead for the floor, the least of its cables'
	Smaller, Larger OffByInch
	Splits          []Split       // by what lines its cables share each zone that has several of them
	Warmth          *OptionWarmth // nil where the job's layers do not allow it, or it does not fit
}

// An OffByInch is what a room that is an inch smaller or larger both ways does to
// an option: the even spacing in mm, judged by area as Plan.Shifts is, and
// whether it is within the limits.
type OffByInch struct {
	Spacing float64
	Within  bool
}

// RoomOptions are the options of one room, the best first; those that cannot
// be laid come last.
type RoomOptions struct {
	Room    *job.Room
	Zone    string  // the zone of it that asks for a density of its own, empty: the room, or the rest of it
	Heated  float64 // mm²
	Asked   float64 // W/m² wanted
	Options []Option
}

// Options weighs every cable of the job, and every pair of equal voltage, for
// every room. By their lengths first; of those that may fit it lays the best
// few. A room that no cable can be laid in at all is in the diagnostics.
func Options(j *job.Job) ([]RoomOptions, []job.Diagnostic) { return OptionsWith(j, Search{}, nil) }

// OptionsWith is Options for a caller who may lose interest, as with
// Lay, and is told before anything is laid which cables of which room
// they are. The function may be nil.
func OptionsWith(j *job.Job, search Search, laying func(room string, cables []string)) ([]RoomOptions,
	[]job.Diagnostic) {
	var out []RoomOptions
	var wrong []job.Diagnostic
	for i := range j.Rooms {
		d := draft{&layout.Room{Job: &j.Rooms[i]}, j, nil, search}
		r := d.Room
		if unfit := prepare(r, j); unfit != nil {
			wrong = append(wrong, *unfit)
			continue
		}
		for _, p := range d.choiceAreas() {
			o := optionsOf(p, func(c layout.Candidate) {
				if laying != nil {
					laying(r.Job.Name, c.IDs)
				}
			})
			if o.Room = r.Job; !slices.ContainsFunc(o.Options, func(o Option) bool { return o.Fits }) {
				d := r.Problem("room %q: none of the catalogue's %d cables, alone or in pairs, can be laid", r.Job.Name,
					len(j.Cables))
				d.Hint = "the table says of each why not"
				wrong = append(wrong, inZone([]job.Diagnostic{d}, p.zone)...)
			}
			out = append(out, o)
		}
	}
	return out, wrong
}

// optionsOf are the options of a part of a room.
func optionsOf(p choiceArea, laying func(layout.Candidate)) RoomOptions {
	o := RoomOptions{Heated: p.Heated.Area(), Asked: asked(p.Room), Options: options(p.draft, laying)}
	if p.zone != nil {
		o.Zone = p.zone.Name
	}
	return o
}

// options weighs the candidates of a room.
func options(d draft, laying func(layout.Candidate)) []Option {
	r, j := d.Room, d.job
	cands := candidates(r, j)
	if len(r.Job.Cables) > 0 && namedAmong(r, cands) < 0 {
		cands = append(cands, estimate(r, j, layout.Named(j, r.Job.Cables), served(r, j)))
	}
	taken := namedAmong(r, cands)
	if taken >= 0 {
		cands[taken].Why = "" // it is tried whatever the estimate says, as draw does
	}
	enough := enough(r, j)
	laid := layPromising(d, cands, taken, enough, laying)
	first := -1 // the one to stand first: the best, where the job names none
	if taken < 0 {
		taken, _ = best(cands, enough)
		first = taken
	}
	shifted := shifted(r, j)
	var out []Option
	for i, c := range cands {
		o := option(r, j, c, shifted)
		if c.Fits {
			o.Splits = splits(laid[i], layout.Named(j, c.IDs))
			o.Warmth = optionWarmth(r, j, c, laid[i])
		}
		o.Taken = i == taken
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(a, b Option) int {
		return a.place(first >= 0, enough) - b.place(first >= 0, enough)
	})
	return out
}

// place is where an option stands among others: the one taken where the job names none, those that cover enough, others
// that fit, what was not laid, what does not fit.
func (o Option) place(chosen bool, enough float64) int {
	switch {
	case chosen && o.Taken:
		return 0
	case o.Fits && o.Covered >= enough:
		return 1
	case o.Fits:
		return 2
	case o.Unlaid:
		return 3
	}
	return 4
}

// namedAmong finds the cables that the job names for the room, whatever their
// order; -1 when it names none or they are not there.
func namedAmong(r *layout.Room, cands []layout.Candidate) int {
	if len(r.Job.Cables) == 0 {
		return -1
	}
	want := slices.Sorted(slices.Values(r.Job.Cables))
	return slices.IndexFunc(cands, func(c layout.Candidate) bool {
		return slices.Equal(slices.Sorted(slices.Values(c.IDs)), want)
	})
}

// worthShowing is how many options that fit are laid for a room.
const worthShowing = 3

// layPromising lays the candidate at taken and then, in their order, those that
// may fit, until the one to take is known and there are a few beside it. More
// cables than a floor needs are tried only where fewer do not do; once the one to
// take is known the others get a first look, as a floor that refuses a cable costs
// more than all that take one. The routes found are in the order of cands.
func layPromising(d draft, cands []layout.Candidate, taken int, enough float64,
	laying func(layout.Candidate)) [][]route.Route {
	r, j := d.Room, d.job
	laid := make([][]route.Route, len(cands))
	if taken >= 0 {
		c := &cands[taken]
		laying(*c)
		if len(leadsTooShort(r, layout.Named(j, c.IDs), j.Units)) > 0 {
			c.Why = "its cold lead does not reach the floor"
		} else if laid[taken], _ = d.layOne(c); laid[taken] != nil {
			c.Fits, c.Why = true, "" // as draw lays it, with a warning where it is short
		}
	}
	fit := 0
	for i := range cands {
		c := &cands[i]
		at, sure := best(cands[:i], enough)
		switch {
		case c.Why != "":
			continue
		case i == taken:
		case sure && c.Spare > cands[at].Spare:
			c.Unlaid, c.Why = true, "not laid: one cable fewer does"
		case sure && fit >= worthShowing:
			c.Unlaid, c.Why = true, "not laid: others that fit are nearer to the power wanted"
		case sure:
			laying(*c)
			laid[i] = d.glance(c)
		default:
			laying(*c)
			laid[i], _ = d.layOne(c)
		}
		if c.Fits {
			fit++
		}
	}
	return laid
}

// glance lays a candidate if that is easily done; if not, it is not said to be
// impossible.
func (d draft) glance(c *layout.Candidate) []route.Route {
	labels := layout.Named(d.job, c.IDs)
	p, err := d.toSolve(labels)
	if err != nil {
		c.Why = reason(d.Room, labels, err, d.job.Units)
		return nil
	}
	p.Brief = true
	routes, err := route.Solve(p)
	if err != nil {
		c.Unlaid, c.Why = true, "not laid: no route was found at a first look, and another fits; name it under "+
			"cables to have all of them tried"
		return nil
	}
	settle(d.Room, d.job, c, labels, routes)
	return routes
}

// option puts together what there is to say of a candidate.
func option(r *layout.Room, j *job.Job, c layout.Candidate, shifted [2]plane.Region) Option {
	o := Option{Candidate: c, LeadReach: math.Inf(1)}
	for _, l := range layout.Named(j, c.IDs) {
		o.Length += l.Length
		o.Watts += l.Watts
		o.Volts = l.Volts
		o.LeadReach = min(o.LeadReach, r.LeadReach(l))
	}
	o.Amps = o.Watts / o.Volts
	o.Smaller, o.Larger = offByInch(r, j, c, shifted[0]), offByInch(r, j, c, shifted[1])
	return o
}

// shifted returns the heated floor of the room 1 in smaller and 1 in larger
// both ways; nil where it cannot be said.
func shifted(r *layout.Room, j *job.Job) (out [2]plane.Region) {
	for i, by := range []float64{-shiftBy(j), shiftBy(j)} {
		changed, ok := stretched(*r.Job, true, by)
		if ok {
			changed, ok = stretched(changed, false, by)
		}
		other := layout.Room{Job: &changed}
		if ok && areas(&other, j.Clearance.Wall) == nil {
			serveAs(&other, r)
			out[i] = other.Heated
		}
	}
	return out
}

func offByInch(r *layout.Room, j *job.Job, c layout.Candidate, heated plane.Region) OffByInch {
	labels := layout.Named(j, c.IDs)
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
