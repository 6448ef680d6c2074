package build

import (
	"fmt"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/route"
)

// cablesTried is for how many cables a room that leaves the choice open gets the
// work: each candidate is a search of its own.
const cablesTried = 24

// giveSteps adds the work that the room's routes may cost to what earlier rooms
// have left over.
func (d draft) giveSteps() {
	n := len(d.Job.Cables)
	if n == 0 {
		n = cablesTried
	}
	share := d.job.Spacing.Search
	if share == 0 { // a job that no file was read for
		share = 1
	}
	// twice, for what is tried beside it where it does not fit
	d.steps.Add(route.StepsFor(d.Zones, d.job.Peg(), 2*n, share))
}

// stepsSpent warns of what was left out when the steps were spent.
func stepsSpent(d draft) []job.Diagnostic {
	given := d.steps.GivenUp()
	if len(given) == 0 {
		return nil
	}
	return []job.Diagnostic{{
		Severity: job.Warning, ID: "W109", Span: d.Job.Span,
		Message: fmt.Sprintf("room %q: the search for its routes was ended early, and the best plan found is taken; "+
			"given up: %s", d.Job.Name, strings.Join(given, ", ")),
		Hint: "look at the plan; if it will not do, look farther with a larger [spacing] search, or draw the floor " +
			"as several rooms; or allow W109",
	}}
}
