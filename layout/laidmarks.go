package layout

import (
	"fmt"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// checkMarks refuses marks that no cable can bear: a length beyond its own, or
// one that falls where laying goes on.
func (l *Laid) checkMarks(c *Cable, u plane.Units) []job.Diagnostic {
	var out []job.Diagnostic
	marks := l.Job.Marks
	read := func(m job.LaidMark) float64 {
		if m.Length == 0 {
			return c.Label.Length / 2
		}
		return m.Length
	}
	for i, m := range marks {
		if read(m) > c.Label.Length {
			out = append(out, job.Diagnostic{Span: m.Span, Hint: "look whether the figure counts from the other end, or in another unit",
				Message: fmt.Sprintf("a mark is read as %s, but cable %s has %s", length(read(m), u), c.ID, length(c.Label.Length, u))})
		}
		for _, o := range marks[:i] {
			if before := m.Run < o.Run || m.Run == o.Run && m.Pegs < o.Pegs; before == (read(m) < read(o)) {
				continue
			}
			out = append(out, job.Diagnostic{Span: m.Span, Notes: []job.Note{{Span: o.Span, Message: "the other is here"}}, Hint: "one of the two was misread: lengths grow from the start of heat on, as run numbers do",
				Message: fmt.Sprintf("cable %s has %s marked at run %d, peg %g, and %s at run %d, peg %g", c.ID, length(read(m), u), m.Run, m.Pegs, length(read(o), u), o.Run, o.Pegs)})
		}
	}
	return out
}
