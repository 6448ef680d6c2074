package layout

import (
	"fmt"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A LeadStack is a place where a cold lead lies on another, or on the lead joint of
// another cable, for want of floor to lie beside it.
type LeadStack struct {
	Lead, On string      // "cold lead of H1", "lead joint of H2"
	At       plane.Point // the middle of it
	Length   float64     // mm, 0 at a joint
	Joint    bool
}

// A namedLead is a cold lead with its name and the cable's end that it leads to.
type namedLead struct {
	lead, joint string
	pts         []plane.Point
}

func (r *Room) namedLeads() (out []namedLead) {
	for _, c := range r.Cables {
		if len(c.ColdLead) > 1 {
			out = append(out, namedLead{"cold lead of " + c.ID, "lead joint of " + c.ID, c.ColdLead})
		}
		if len(c.Return) > 1 {
			out = append(out, namedLead{"second cold lead of " + c.ID, "second lead joint of " + c.ID, c.Return})
		}
	}
	return out
}

// LeadStacks lists where cold leads lie on one another beyond the foot of the box,
// and where one lies on a lead joint.
func (r *Room) LeadStacks() (out []LeadStack) {
	foot, leads := r.Job.Thermostat.At, r.namedLeads()
	for i, a := range leads {
		for _, b := range leads[i+1:] {
			if s := route.Stacked(a.pts, b.pts, foot); s.Length > 0 {
				out = append(out, LeadStack{Lead: a.lead, On: b.lead, At: s.At, Length: s.Length})
			}
		}
		for k, b := range leads {
			if at := b.pts[len(b.pts)-1]; k != i && route.OverJoint(a.pts, at) {
				out = append(out, LeadStack{Lead: a.lead, On: b.joint, At: at, Joint: true})
			}
		}
	}
	return out
}

// leadsOnOneAnother warns of the room's first such place, and says how many there are.
func (r *Room) leadsOnOneAnother(j *job.Job) []job.Diagnostic {
	stacks := r.LeadStacks()
	if len(stacks) == 0 {
		return nil
	}
	d := job.Diagnostic{Severity: job.Warning, ID: "W107", Span: r.Job.Spans.At("cables")}
	tape := NewTape(r.Job, j.Units)
	s := stacks[0]
	d.Message = fmt.Sprintf("room %q: the %s lies on the %s, %s", r.Job.Name, s.Lead, s.On, tape.Place(s.At))
	if n := len(stacks) - 1; n > 0 {
		d.Message += fmt.Sprintf("; %d more such places are noted on the cable plan", n)
	}
	d.Hint = "lay each lead there in a tube or recess of its own, clear of lead joints and heating cable; or move the box, or allow W107"
	return []job.Diagnostic{d}
}
