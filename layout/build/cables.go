package build

import (
	"fmt"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// layCables routes the cables the job names for the room, or chooses some; those of
// a job that is laid by a layout file lie as that has them.
func layCables(d draft) ([]route.Route, []job.Cable, []job.Diagnostic) {
	r, j := d.Room, d.job
	if j.LaidBy != nil {
		return r.Issued(j)
	}
	if parts := d.choiceAreas(); len(parts) > 1 || parts[0].zone != nil {
		return chooseByArea(d, parts)
	}
	if len(r.Job.Cables) == 0 {
		return choose(d)
	}
	labels := layout.Named(j, r.Job.Cables)
	if wrong := leadsTooShort(r, labels, j.Units); len(wrong) > 0 {
		return nil, nil, wrong
	}
	if wrong := cannotBeMeant(r, j, labels); wrong != nil {
		return nil, nil, []job.Diagnostic{*wrong}
	}
	routes, err := d.routed(labels)
	if err != nil {
		return nil, nil, []job.Diagnostic{refusal(d, labels, err)}
	}
	return routes, labels, nil
}

// cannotBeMeant refuses cables that give a floor so much or so little heat that
// one of the two was misread, before a route is looked for; nil for others.
func cannotBeMeant(r *layout.Room, j *job.Job, labels []job.Cable) *job.Diagnostic {
	watts := 0.0
	for _, c := range labels {
		watts += c.Watts
	}
	why := job.HeatCannotBe(watts, r.Heated.Area(), len(r.Zones) == 1, j.Units)
	if why == "" {
		return nil
	}
	lo, hi := lengths(j, r.Heated)
	d := r.Problem("room %q: %s; at %s that floor takes about %s to %s of cable", r.Job.Name, why,
		j.Gaps(), say.About(lo, j.Units), say.About(hi, j.Units))
	d.Span = r.Job.Spans.At("cables")
	d.Hint = "look whether the measures of the room and their unit are right, and whether these cables were meant " +
		"for it"
	if fit := within(j.Cables, labels, lo, hi, j.Units); fit != "" {
		d.Hint += "; of that length there is: " + fit
	}
	return &d
}

// leadsTooShort refuses cables whose cold lead ends before the floor.
func leadsTooShort(r *layout.Room, labels []job.Cable, u plane.Units) []job.Diagnostic {
	var out []job.Diagnostic
	for _, c := range labels {
		if reach := r.LeadReach(c); c.Lead > 0 && reach <= 0 {
			t := r.Job.Thermostat
			d := r.Problem("cable %q: its cold lead of %s does not reach the floor: %s rise to the box, %s tail and "+
				"%s slack leave %s", c.ID,
				plane.FormatLength(c.Lead, u), plane.FormatLength(t.Height, u), plane.FormatLength(t.Tail,
					u), plane.FormatLength(t.Slack, u), plane.FormatLength(reach, u))
			d.Span, d.Notes = c.Spans.At("lead"), []job.Note{{Span: r.Job.Span, Message: fmt.Sprintf("for room %q",
				r.Job.Name)}}
			d.Hint = "lower the box or take a cable with a longer lead; the lead joint never goes into a wall"
			if c.Lead < layout.ShortLead {
				d.Hint = "is the unit of the lead missing? else " + d.Hint
			}
			out = append(out, d)
		}
	}
	return out
}

// routed lays the given cables in the room.
func (d draft) routed(labels []job.Cable) ([]route.Route, error) {
	p, err := d.toSolve(labels)
	if err != nil {
		return nil, err
	}
	return route.Solve(p)
}

// toSolve states the room for the router, for as long as somebody wants an answer.
func (d draft) toSolve(labels []job.Cable) (route.Problem, error) {
	p, err := d.ProblemWith(d.job, labels)
	p.Steps, p.Stop, p.Known = d.steps, d.search.Stop, d.search.Known
	return p, err
}
