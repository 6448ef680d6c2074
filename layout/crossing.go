package layout

import (
	"slices"

	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// A JointCrossing is a movement joint with the leads that pass it: heating
// cable never does, but a lead may have to.
type JointCrossing struct {
	Joint string             // as lettered on the drawings
	Leads []language.Message // "cold lead of H1", "tube of S1"
}

// JointCrossings lists the movement joints of a room that leads pass.
func (r *Room) JointCrossings() (out []JointCrossing) {
	for i, j := range r.Job.Joints {
		x := JointCrossing{Joint: JointName(i, len(r.Job.Joints))}
		note := func(name language.Message, lead []plane.Point) {
			if passes(lead, j.Segment) {
				x.Leads = append(x.Leads, name)
			}
		}
		for _, c := range r.Cables {
			for _, end := range c.Joined() {
				note(end.leadOf(c), end.Lead)
			}
		}
		for _, s := range r.Sensors {
			note(language.Say("tube of %s", s.Name), s.Lead)
		}
		if x.Leads != nil {
			out = append(out, x)
		}
	}
	return out
}

func passes(lead []plane.Point, joint plane.Segment) bool {
	return slices.ContainsFunc(plane.Segments(lead), joint.Meets)
}
