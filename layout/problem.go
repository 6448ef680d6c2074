package layout

import (
	"fmt"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Problem is an error of the room as a whole.
func (r *Room) Problem(format string, args ...any) job.Diagnostic {
	return job.Diagnostic{Severity: job.Error, Span: r.Job.Span, Message: fmt.Sprintf(format, args...)}
}

// Length writes a cable length in metres or feet.
func Length(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.1f ft", mm/plane.Foot)
	}
	return fmt.Sprintf("%.1f m", mm/1000)
}
