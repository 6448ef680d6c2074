package layout

import (
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A LeadStack is a place where a cold lead lies on another, or on the lead joint of
// another cable, for want of floor to lie beside it.
type LeadStack struct {
	Lead, On language.Message // "cold lead of H1", "lead joint of H2"
	At       plane.Point      // the middle of it
	Length   float64          // mm, 0 at a joint
	Joint    bool
}

// A namedLead is a cold lead with its name and the cable's end that it leads to.
type namedLead struct {
	lead, joint language.Message
	pts         []plane.Point
}

func (r *Room) namedLeads() (out []namedLead) {
	for _, c := range r.Cables {
		for _, end := range c.Joined() {
			if len(end.Lead) > 1 {
				out = append(out, namedLead{end.leadOf(c), language.Say("%s of %s", language.Say(end.Name), c.ID),
					end.Lead})
			}
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
