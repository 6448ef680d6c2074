package build

import (
	"fmt"

	"oxturn/layout"
	"oxturn/layout/job"
)

// leadsOnOneAnother warns of the room's first such place, and says how many there are.
func leadsOnOneAnother(r *layout.Room, j *job.Job) []job.Diagnostic {
	stacks := r.LeadStacks()
	if len(stacks) == 0 {
		return nil
	}
	d := job.Diagnostic{Severity: job.Warning, ID: "W107", Span: r.Job.Spans.At("cables")}
	tape := layout.NewTape(r.Job, j.Units)
	s := stacks[0]
	d.Message = fmt.Sprintf("room %q: the %s lies on the %s, %s", r.Job.Name, s.Lead, s.On, tape.Place(s.At))
	if n := len(stacks) - 1; n > 0 {
		d.Message += fmt.Sprintf("; %d more such places are noted on the cable plan", n)
	}
	d.Hint = "lay each lead there in a tube or recess of its own, clear of lead joints and heating cable; or move " +
		"the box, or allow W107"
	return []job.Diagnostic{d}
}
