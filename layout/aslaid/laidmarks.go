package aslaid

import (
	"cmp"
	"errors"
	"fmt"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/refit"
	"oxturn/layout/say"
)

// checkMarks refuses marks that no cable can bear: a length beyond its own, or
// one that falls where laying goes on.
func checkMarks(l *layout.Laid, c *layout.Cable, j *job.Job) []job.Diagnostic {
	var out []job.Diagnostic
	marks, u := l.Job.Marks, j.Units
	read := func(m job.LaidMark) float64 { return layout.MarkRead(m, c) }
	for i, m := range marks {
		if read(m) > c.Label.Length {
			out = append(out, job.Diagnostic{Span: m.Span,
				Hint: "look whether the figure counts from the other end, or in another unit",
				Message: fmt.Sprintf("a mark is read as %s, but cable %s has %s", say.About(read(m), u), c.ID,
					say.About(c.Label.Length, u))})
		}
		for _, o := range marks[:i] {
			if cmp.Or(cmp.Compare(m.Run, o.Run), cmp.Compare(m.Pegs, o.Pegs)) == cmp.Compare(read(m), read(o)) {
				continue
			}
			out = append(out, disorder(m, o, c, j))
		}
	}
	return out
}

// disorder says that of two marks the one farther on reads less.
func disorder(m, o job.LaidMark, c *layout.Cable, j *job.Job) job.Diagnostic {
	at := func(m job.LaidMark) string {
		if j.Strips != nil {
			return fmt.Sprintf("at run %s, %g %s into it", c.RunName(m.Run), m.Pegs, j.RunUnit())
		}
		return fmt.Sprintf("at run %s, peg %g", c.RunName(m.Run), m.Pegs)
	}
	return job.Diagnostic{Span: m.Span,
		Notes: []job.Note{{Span: o.Span, Message: "the other is here"}},
		Hint:  "one of the two was misread: lengths grow from the start of heat on, as run numbers do",
		Message: fmt.Sprintf("cable %s has %s marked %s, and %s %s", c.ID, say.About(layout.MarkRead(m, c), j.Units),
			at(m), say.About(layout.MarkRead(o, c), j.Units), at(o))}
}

// misread refuses marks that lie on no run, or far from where the cable can have
// come by then.
func misread(p *layout.Plan, r *layout.Room, c *layout.Cable) []job.Diagnostic {
	l := c.Laid
	if len(l.Job.Marks) == 0 || len(l.Path) < 2 {
		return nil
	}
	f := &refit.Refit{Room: r, Planned: c, Rate: 1, Job: p.Job, Laid: l.Path,
		Old: layout.Runs(l.Planned, c.BendRadius, c.Lattice)}
	if !l.Whole {
		f.OnPegs(l)
	}
	all, _ := f.Read(l.Job.Marks).(interface{ Unwrap() []error })
	if all == nil {
		return nil
	}
	var out []job.Diagnostic
	for _, err := range all.Unwrap() {
		var m *refit.Misread
		if errors.As(err, &m) {
			out = append(out, job.Diagnostic{Span: m.Mark.Span, Message: m.Words,
				Hint: fmt.Sprintf("runs are numbered on the cable plan from the start of heat, %s are counted from "+
					"where a run begins", p.Job.RunUnit())})
		}
	}
	return out
}
