package layout

import (
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Build works out a whole job. What does not fit or cannot be placed is in
// the diagnostics; a room whose cable does not fit has no Cables, and the
// plan must then not be drawn.
func Build(j *job.Job) (*Plan, []job.Diagnostic) { return BuildUntil(j, nil) }

// BuildUntil is Build for a caller who may lose interest: once stop returns
// true, the search for routes ends and what comes back is of no use. stop is
// asked from several goroutines.
func BuildUntil(j *job.Job, stop func() bool) (*Plan, []job.Diagnostic) {
	p := &Plan{Job: j}
	var out []job.Diagnostic
	first := 1
	for i := range j.Rooms {
		r := Room{Job: &j.Rooms[i], wallClear: j.Clearance.Wall, stop: stop}
		out = withNew(out, r.build(j, first))
		first += len(r.Cables)
		p.Rooms = append(p.Rooms, r)
	}
	p.Code = p.code() // before any cable is moved to where it was laid
	if j.LaidBy != nil {
		p.Code = j.LaidBy.Code
	}
	out = append(out, p.asLaid()...)
	p.reserves()
	out = append(out, p.loads()...)
	for i := range p.Rooms {
		out = append(out, p.Rooms[i].wideGap(j)...)
	}
	out = append(out, p.feeds()...)
	p.fullUse()
	out = append(out, p.judge()...)
	out = append(out, p.cutMembrane()...)
	out = append(out, p.warm()...)
	out = append(out, p.region()...)
	p.losses()
	p.takeOff()
	return p, out
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

// build works out one room; its cables are numbered from first on.
func (r *Room) build(j *job.Job, first int) []job.Diagnostic {
	if d := r.prepare(j); d != nil {
		return []job.Diagnostic{*d}
	}
	routes, labels, out := r.layCables(j)
	for i, rt := range routes {
		r.Cables = append(r.Cables, r.cable(j, labels[rt.Cable], rt, first+i))
		r.Cables[i].Several = len(routes) > 1
	}
	out = append(out, r.farFromJoint(j)...)
	if len(r.Cables) == 0 {
		return out
	}
	out = append(out, r.leaveBare(j)...)
	out = append(out, r.stayCool(j)...)
	if j.LaidBy != nil {
		r.issuedSensors(j)
	} else if missing := r.placeSensors(j, false); len(missing) > 0 {
		out = append(out, r.sensorWarning(missing))
	}
	out = append(out, r.leadsOnOneAnother(j)...)
	if err := r.leadRise(printed(j)); err != nil {
		out = append(out, r.problem("the lead rise of room %q cannot be worked out: %v", r.Job.Name, err))
	}
	return out
}

// prepare works out the room's areas; nil when there is floor for cable.
func (r *Room) prepare(j *job.Job) *job.Diagnostic {
	if err := r.areas(); err != nil {
		d := r.problem("the floor of room %q cannot be worked out: %v", r.Job.Name, err)
		return &d
	}
	if d := r.tooManyPegs(j); d != nil {
		return d
	}
	if len(r.Zones) == 0 {
		d := r.problem("room %q has no floor left for cable: %s inside the walls, all of it within the clearances", r.Job.Name, plane.FormatArea(r.Floor.Area(), j.Units))
		d.Hint = "check the room's size and the clearances"
		return &d
	}
	return nil
}
