package aslaid

import (
	"fmt"
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// follow moves the runs that photos show elsewhere. What the record says otherwise of the
// cable's place holds for the rest of it; where it says nothing, the photos must show every
// run from the start of heat on.
func follow(l *layout.Laid, c *layout.Cable, j *job.Job) *job.Diagnostic {
	shown := l.Job.PhotoRuns()
	if len(shown) == 0 {
		return nil
	}
	alone := len(l.Path) == 0
	if alone {
		l.Path, l.Whole = l.Planned, true
	}
	runs := layout.Runs(l.Path, c.BendRadius, c.Lattice)
	moved, last := map[int][]plane.Point{}, 0
	for _, s := range shown {
		if s.Run > len(runs) {
			return &job.Diagnostic{Span: s.Span, Hint: "runs are numbered on the cable plan, from the start of heat",
				Message: fmt.Sprintf("run %d is said to be in a photo, but cable %s has %d", s.Run, c.ID, len(runs))}
		}
		leg := runs[s.Run-1].Leg
		if moved[leg] != nil {
			return &job.Diagnostic{Span: s.Span, Hint: "keep the one of the nearer photo",
				Message: fmt.Sprintf("run %d of cable %s is followed in two places", s.Run, c.ID)}
		}
		moved[leg] = along(l, s, runs[s.Run-1])
		last = max(last, s.Run)
	}
	if alone {
		if d := unseen(l, c, runs, moved, last); d != nil {
			return d
		}
	}
	l.Path = replaced(l.Path, moved)
	l.PhotoError = photoError(l, shown)
	if alone && l.Job.Error == 0 {
		l.Error = l.PhotoError
	}
	l.Error = math.Max(l.Error, l.PhotoError)
	return nil
}

// along returns the places that a run follows in its photo, the way it is laid.
func along(l *layout.Laid, s job.PhotoRun, r layout.Run) []plane.Point {
	var out []plane.Point
	for _, px := range s.Image {
		if at, ok := l.Job.Photos[s.Photo].Fit.Floor(px); ok {
			out = append(out, at)
		}
	}
	first, last := out[0], out[len(out)-1]
	if first.Dist(r.From)+last.Dist(r.To) <= first.Dist(r.To)+last.Dist(r.From) {
		return out
	}
	slices.Reverse(out)
	return out
}

// unseen refuses a record that knows of some runs from photos and of others from nothing, and
// ends the path after the last that is known.
func unseen(l *layout.Laid, c *layout.Cable, runs []layout.Run, moved map[int][]plane.Point,
	last int) *job.Diagnostic {
	for _, r := range runs[:last] {
		if moved[r.Leg] == nil {
			return &job.Diagnostic{Span: l.Job.Span,
				Hint: "follow it in a photo too; or add as_planned = true with plan, once every other run has been " +
					"held against it",
				Message: fmt.Sprintf("photos show where run %d of cable %s lies, and nothing says that of run %d", last,
					c.ID, r.Number)}
		}
	}
	if last < len(runs) {
		l.Path, l.Whole = l.Path[:runs[last-1].Leg+1], false
	}
	return nil
}

// replaced puts other places in the stead of legs of a path, by the number of the corner that
// a leg ends in.
func replaced(path []plane.Point, legs map[int][]plane.Point) (out []plane.Point) {
	for i, p := range path {
		switch {
		case legs[i] != nil:
			out = joined(out, legs[i], legs[i-1] != nil)
		case legs[i+1] == nil:
			out = append(out, p)
		}
	}
	return out
}

// oneCorner is how near two runs that meet end, mm, where the corner between them was read
// twice.
const oneCorner = 15.0

// joined goes on along a leg; after another it begins where both have their corner.
func joined(path, leg []plane.Point, after bool) []plane.Point {
	if n := len(path) - 1; after && path[n].Dist(leg[0]) < oneCorner {
		path[n] = path[n].Lerp(leg[0], 0.5)
		leg = leg[1:]
	}
	return append(path, leg...)
}

// photoError is how far off the worst of the places may be that were read from photos.
func photoError(l *layout.Laid, shown []job.PhotoRun) (most float64) {
	for _, s := range shown {
		for _, px := range s.Image {
			if mm, ok := l.Job.Photos[s.Photo].Fit.Error(px); ok {
				most = math.Max(most, mm)
			}
		}
	}
	return most
}
