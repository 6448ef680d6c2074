package layout

import (
	"fmt"

	"oxturn/layout/job"
)

// Problem is an error of the room as a whole.
func (r *Room) Problem(format string, args ...any) job.Diagnostic {
	return job.Diagnostic{Severity: job.Error, Span: r.Job.Span, Message: fmt.Sprintf(format, args...)}
}
