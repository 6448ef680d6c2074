package build

import (
	"cmp"
	"math"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/say"
)

// mostPegs is how many pegs a room may have. A hall of 225 m² at a pitch of
// 30 mm has as many; laying it takes half a minute. It keeps a pitch in the
// wrong unit from filling memory.
const mostPegs = 250_000

// pitches are the job's pitches in mm.
func pitches(j *job.Job) string {
	if j.Uneven() {
		return say.Plain(j.Membrane.Pitch) + " by " + say.Plain(j.Membrane.Across)
	}
	return say.Plain(j.Membrane.Pitch)
}

// tooManyPegs refuses a room beyond mostPegs; nil for others.
func tooManyPegs(r *layout.Room, j *job.Job) *job.Diagnostic {
	pegs := r.Floor.Area() / (j.Membrane.Pitch * cmp.Or(j.Membrane.Across, j.Membrane.Pitch))
	if pegs <= mostPegs {
		return nil
	}
	d := r.Problem("room %q of %s at a pitch of %s mm has %s; %d are the most", r.Job.Name,
		say.AreaBoth(r.Floor.Area(), j.Units),
		pitches(j), say.Counted(int(math.Round(pegs)), "peg"), mostPegs)
	d.Notes = []job.Note{{Span: j.Spans.At("membrane.pitch"), Message: "the pitch is here"}}
	d.Hint = "look whether the units of the pitch and of the room are right; draw a large hall as several rooms, cut " +
		"at its movement joints"
	return &d
}
