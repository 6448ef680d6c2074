package layout

import (
	"fmt"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// layCables routes the cables the job names for the room, or chooses some; those of
// a job that is laid by a layout file lie as that has them.
func (r *Room) layCables(j *job.Job) ([]route.Route, []job.Cable, []job.Diagnostic) {
	if j.LaidBy != nil {
		return r.issued(j)
	}
	if len(r.Job.Cables) == 0 {
		return r.choose(j)
	}
	labels := named(j, r.Job.Cables)
	if d := r.leadsTooShort(labels, j.Units); len(d) > 0 {
		return nil, nil, d
	}
	if d := r.cannotBeMeant(j, labels); d != nil {
		return nil, nil, []job.Diagnostic{*d}
	}
	routes, err := r.route(j, labels)
	if err != nil {
		return nil, nil, []job.Diagnostic{r.refusal(j, labels, err)}
	}
	return routes, labels, nil
}

// cannotBeMeant refuses cables that give a floor so much or so little heat that
// one of the two was misread, before a route is looked for; nil for others.
func (r *Room) cannotBeMeant(j *job.Job, labels []job.Cable) *job.Diagnostic {
	watts := 0.0
	for _, c := range labels {
		watts += c.Watts
	}
	why := job.HeatCannotBe(watts, r.Heated.Area(), len(r.Zones) == 1, j.Units)
	if why == "" {
		return nil
	}
	lo, hi := lengths(j, r.Heated)
	d := r.problem("room %q: %s; at %d to %d pegs that floor takes about %s to %s of cable", r.Job.Name, why, j.Spacing.Closest, j.Spacing.Widest, length(lo, j.Units), length(hi, j.Units))
	d.Span = r.Job.Spans.At("cables")
	d.Hint = "look whether the measures of the room and their unit are right, and whether these cables were meant for it"
	if fit := within(j.Cables, labels, lo, hi, j.Units); fit != "" {
		d.Hint += "; of that length there is: " + fit
	}
	return &d
}

// leadsTooShort refuses cables whose cold lead ends before the floor.
func (r *Room) leadsTooShort(labels []job.Cable, u plane.Units) []job.Diagnostic {
	var out []job.Diagnostic
	for _, c := range labels {
		if reach := r.leadReach(c); c.Lead > 0 && reach <= 0 {
			t := r.Job.Thermostat
			d := r.problem("cable %q: its cold lead of %s does not reach the floor: %s rise to the box, %s tail and %s slack leave %s", c.ID,
				plane.FormatLength(c.Lead, u), plane.FormatLength(t.Height, u), plane.FormatLength(t.Tail, u), plane.FormatLength(t.Slack, u), plane.FormatLength(reach, u))
			d.Span, d.Notes = c.Spans.At("lead"), []job.Note{{Span: r.Job.Span, Message: fmt.Sprintf("for room %q", r.Job.Name)}}
			d.Hint = "lower the box or take a cable with a longer lead; the lead joint never goes into a wall"
			if c.Lead < shortLead {
				d.Hint = "is the unit of the lead missing? else " + d.Hint
			}
			out = append(out, d)
		}
	}
	return out
}

// route lays the given cables in the room.
func (r *Room) route(j *job.Job, labels []job.Cable) ([]route.Route, error) {
	p, err := r.problemWith(j, labels)
	if err != nil {
		return nil, err
	}
	return route.Solve(p)
}
