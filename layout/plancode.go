package layout

import (
	"fmt"

	"oxturn/layout/job"
	"oxturn/layout/plancode"
	"oxturn/layout/plane"
)

// CodeNow works out the plan's name from what was routed.
func (p *Plan) CodeNow() string {
	var rooms []plancode.Room
	for i := range p.Rooms {
		rooms = append(rooms, p.Rooms[i].named())
	}
	return plancode.Of(rooms)
}

func (r *Room) named() plancode.Room {
	out := plancode.Room{Name: r.Job.Name}
	for _, c := range r.Cables {
		out.Origin, out.Angle, out.Pitch = c.Lattice.Origin, plane.Degrees(c.Lattice.Angle), c.Lattice.Pitch
		out.Across = c.Lattice.Across
		out.Cables = append(out.Cables, plancode.Cable{ID: c.ID, Label: c.Label.ID, Length: c.Label.Length,
			Path: c.Path, ColdLead: c.ColdLead, Return: c.Return})
	}
	for _, s := range r.Sensors {
		out.Sensors = append(out.Sensors, plancode.Sensor{Name: s.Name, Tip: s.Tip, Lead: s.Lead})
	}
	return out
}

// CodeOf returns the code of the plan that what is known of a cable rests on: the
// one its record names, else that of this plan.
func (p *Plan) CodeOf(c *Cable) string {
	if c.Laid != nil && c.Laid.Job.PlanCode != "" {
		return c.Laid.Job.PlanCode
	}
	return p.Code
}

// Rests reports in words what is wrong with a cable's record where it rests on
// another plan than this one and brings no layout file of it: an error where
// what is laid was counted on the plan, else a warning.
func (p *Plan) Rests(a *job.Laid, c *Cable) *job.Diagnostic {
	if a.PlanCode == "" || a.PlanCode == p.Code || a.Issued != nil {
		return nil
	}
	words := fmt.Sprintf("cable %s was laid by plan %s, but this job now gives plan %s", c.ID, a.PlanCode, p.Code)
	if a.Runs > 0 || a.AsPlanned || len(a.Marks) > 0 {
		return &job.Diagnostic{Span: a.Spans.At("plan"), Message: words + ": its runs may lie elsewhere in that",
			Hint: "name the layout file, NAME.layout.json, of the plan that was laid; if the job was changed since, " +
				"set it back"}
	}
	return &job.Diagnostic{Severity: job.Warning, ID: "W113", Span: a.Spans.At("plan"),
		Message: words + ": what is said of the cable against its plan is said against another",
		Hint:    "name the layout file, NAME.layout.json, of the plan that was laid"}
}

// IssuedNow is this plan as one that was issued, for a record that rests on it: its
// own figures are truer than those read back from a file.
func (r *Room) IssuedNow(c *Cable, code string) *job.Issued {
	is := &job.Issued{Code: code, Path: c.Path, ColdLead: c.ColdLead, Return: c.Return,
		Pegs: &job.IssuedPegs{Origin: c.Lattice.Origin, Angle: c.Lattice.Angle}}
	for i := range r.Sensors {
		s := &r.Sensors[i]
		tip := s.Tip
		if s.Spare {
			is.Spare = job.LaidSensor{Tip: &tip, Lead: s.Lead}
		} else {
			is.Sensor = job.LaidSensor{Tip: &tip, Lead: s.Lead}
		}
	}
	return is
}
