package layout

import (
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// An End is where the heat of a cable starts or stops: at the joint with a cold lead, or
// at a cap.
type End struct {
	Tag      string // START or END, as on the drawings
	Name     string // "lead joint", "second lead joint", "end cap"
	Short    string // "joint", "cap"
	At       plane.Point
	Lead     []plane.Point // over the floor: to the START from the box's foot, from the END to it; nil at a cap
	LeadName string        // "cold lead", "second cold lead"; empty at a cap
}

// Capped reports whether the cable ends there without a lead.
func (e End) Capped() bool { return e.LeadName == "" }

// Ends are where the cable starts and where it ends.
func (c *Cable) Ends() [2]End {
	out := [2]End{{Tag: "START", Name: "lead joint", Short: "joint", Lead: c.ColdLead, LeadName: "cold lead"},
		{Tag: "END", Name: "end cap", Short: "cap"}}
	if c.Return != nil {
		out[1] = End{Tag: "END", Name: "second lead joint", Short: "joint", Lead: c.Return,
			LeadName: "second cold lead"}
	}
	if n := len(c.Path); n > 0 {
		out[0].At, out[1].At = c.Path[0], c.Path[n-1]
	}
	return out
}

// Joined are the ends that a cold lead comes to, the start first.
func (c *Cable) Joined() (out []End) {
	for _, e := range c.Ends() {
		if !e.Capped() {
			out = append(out, e)
		}
	}
	return out
}

// EndName is what a cable ends in: the second cold lead of one with two cold
// ends begins there.
func (c *Cable) EndName() string {
	if c.Label.Ends.Return() {
		return "joint 2"
	}
	return "end cap"
}

// leadOf names the end's lead with its cable.
func (e End) leadOf(c Cable) language.Message {
	return language.Say("%s of %s", language.Say(e.LeadName), c.ID)
}

// LeadAsCut is how long each of the cable's cold leads is, mm: as recorded where it was trimmed, else
// by the label.
func (c *Cable) LeadAsCut() float64 {
	if c.Laid != nil && c.Laid.Job.Lead > 0 {
		return c.Laid.Job.Lead
	}
	return c.Label.Lead
}
