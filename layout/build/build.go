// Package build works a job out: one step after the other fills the plan that package
// layout has as data. It knows nothing of paper.
package build

import (
	"slices"

	"github.com/sourcegraph/conc"

	"oxturn/layout"
	"oxturn/layout/aslaid"
	"oxturn/layout/job"
	"oxturn/layout/load"
	"oxturn/layout/refit"
	"oxturn/layout/route"
	"oxturn/layout/say"
	"oxturn/layout/tube"
	"oxturn/layout/warmth"
)

// Plan works out a whole job. What does not fit or cannot be placed is in
// the diagnostics; a room whose cable does not fit has no Cables, and the
// plan must then not be drawn.
func Plan(j *job.Job) (*layout.Plan, []job.Diagnostic) {
	p, out := Lay(j, Search{})
	Complete(p)
	return p, out
}

// A Search is how routes are looked for. The zero value looks for each, for as long as it takes.
type Search struct {
	// once it returns true the search ends and what comes back is of no use; it is asked from
	// several goroutines. nil: never
	Stop  func() bool
	Known *route.Memory // what was found for the same floors before; nil: nothing
}

// Lay is Plan without what Complete adds, and all that there is to be said: what a
// layout file and answers about a floor need.
func Lay(j *job.Job, search Search) (*layout.Plan, []job.Diagnostic) {
	p := &layout.Plan{Job: j}
	var out []job.Diagnostic
	first, steps, cut := 1, &route.Steps{}, &cutting{}
	for i := range j.Rooms {
		d := draft{&layout.Room{Job: &j.Rooms[i]}, j, steps, search}
		out = withNew(out, build(d, first, func() {
			if i+1 == len(j.Rooms) { // the membrane is cut while the last room's sensors find their places
				cut.start(j, append(p.Rooms[:i:i], *d.Room))
			}
		}))
		first += len(d.Cables)
		p.Rooms = append(p.Rooms, *d.Room)
	}
	p.Code = p.CodeNow() // before any cable is moved to where it was laid
	if j.LaidBy != nil {
		p.Code = j.LaidBy.Code
	}
	out = append(out, aslaid.Join(p)...)
	out = append(out, load.Loads(p)...)
	for i := range p.Rooms {
		out = append(out, wideGap(&p.Rooms[i], j)...)
		out = append(out, tooDense(&p.Rooms[i], j)...)
	}
	out = append(out, load.Feeds(p)...)
	fullUse(p)
	out = append(out, load.JudgeReadings(p)...)
	out = append(out, cut.done(p)...)
	out = append(out, warm(p)...)
	out = append(out, load.Region(p)...)
	losses(p)
	return p, out
}

// Complete adds to a plan without errors what is worked out of it at some length and
// only sheets, figures and quantities ask for: what Quantify adds and what Foresee does.
func Complete(p *layout.Plan) {
	warmed := warming(p) // what is quantities reads none of it, and it none of them
	Quantify(p)
	p.Shifts = shifts(p, false, nil)
	warmed()
}

// Quantify adds the first part of that, which drawings of the floor ask for: reserves, the tile,
// take-off and offer.
func Quantify(p *layout.Plan) {
	refit.Reserves(p)
	layTiles(p)
	takeOff(p)
	offer(p)
}

// Foresee adds the rest, which takes longer and few sheets ask for: the warmth of floors place by
// place, and shifts. Once stop returns true the shifts end and what comes back is of no use.
func Foresee(p *layout.Plan, stop func() bool) {
	warmed := warming(p)
	p.Shifts = shifts(p, false, stop)
	warmed()
}

// warming works out the warmth of floors meanwhile; what comes back waits for it.
func warming(p *layout.Plan) func() {
	var wait conc.WaitGroup
	var warm []*layout.WarmFloor
	wait.Go(func() { warm = warmth.Floors(p) })
	return func() {
		wait.Wait()
		for i := range p.Rooms {
			p.Rooms[i].Warm = warm[i]
		}
	}
}

// withNew adds what a room has to say but for errors of a place outside it that
// an earlier room has reported: a cable of the catalogue is wrong once.
func withNew(out, more []job.Diagnostic) []job.Diagnostic {
	for _, d := range more {
		said := func(o job.Diagnostic) bool { return o.Severity == job.Error && o.Span == d.Span && o.Hint == d.Hint }
		if d.Severity != job.Error || !slices.ContainsFunc(out, said) {
			out = append(out, d)
		}
	}
	return out
}

// A draft is a room that is being worked out.
type draft struct {
	*layout.Room
	job    *job.Job
	steps  *route.Steps // what is left of the work that the job's routes may cost; nil: each problem has its own
	search Search
}

// build works out one room; its cables are numbered from first on, and lying is called once they lie.
func build(d draft, first int, lying func()) []job.Diagnostic {
	r, j := d.Room, d.job
	if wrong := prepare(r, j); wrong != nil {
		return []job.Diagnostic{*wrong}
	}
	d.giveSteps()
	routes, labels, out := layCables(d)
	for i, rt := range routes {
		r.Cables = append(r.Cables, r.Cable(j, labels[rt.Cable], rt, first+i))
		r.Cables[i].Several = len(routes) > 1
		r.CalledAsIssued(j, i)
	}
	out = append(out, farFromJoint(r, j)...)
	if len(r.Cables) == 0 {
		return out
	}
	lying()
	out = append(out, leaveBare(r, j)...)
	out = append(out, stayCool(d)...)
	if j.LaidBy != nil {
		r.IssuedSensors(j)
	} else if missing := tube.Place(r, j, false, d.steps); len(missing) > 0 {
		out = append(out, tube.SensorWarning(r, missing, j.Units))
	}
	out = append(out, stepsSpent(d)...)
	out = append(out, leadsOnOneAnother(r, j)...)
	if err := leadRise(r, j); err != nil {
		out = append(out, r.Problem("the lead rise of room %q cannot be worked out: %v", r.Job.Name, err))
	}
	return out
}

// prepare works out the room's areas; nil when there is floor for cable.
func prepare(r *layout.Room, j *job.Job) *job.Diagnostic {
	if err := areas(r, j.Clearance.Wall); err != nil {
		d := r.Problem("the floor of room %q cannot be worked out: %v", r.Job.Name, err)
		return &d
	}
	if d := askZones(r, j); d != nil {
		return d
	}
	if d := tooManyPegs(r, j); d != nil {
		return d
	}
	if len(r.Zones) == 0 {
		d := r.Problem("room %q has no floor left for cable: %s inside the walls, all of it within the clearances%s",
			r.Job.Name, say.AreaBoth(r.Floor.Area(), j.Units), orCold(r))
		d.Hint = "check the room's size and the clearances"
		return &d
	}
	return nil
}
