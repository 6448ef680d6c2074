package build

import (
	"fmt"
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
)

// leadsOnOneAnother warns of a room's leads that lie on one another or on lead joints, each
// with its place.
func leadsOnOneAnother(r *layout.Room, j *job.Job) []job.Diagnostic {
	stacks := r.LeadStacks()
	if len(stacks) == 0 {
		return nil
	}
	d := job.Diagnostic{Severity: job.Warning, ID: "W107", Span: r.Job.Spans.At("cables")}
	tape := layout.NewTape(r.Job, j.Units)
	var places []string
	for _, s := range stacks {
		places = append(places, fmt.Sprintf("the %s lies on the %s, %s", s.Lead, s.On, tape.Place(s.At)))
	}
	d.Message = fmt.Sprintf("room %q: %s", r.Job.Name, strings.Join(places, "; "))
	d.Hint = "lay each lead there in a tube or recess of its own, clear of lead joints and heating cable; or move " +
		"the box, or allow W107"
	return []job.Diagnostic{d}
}
