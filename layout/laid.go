package layout

import (
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// An Accuracy is what a class of evidence is good for, in mm: how far a place
// may be off either way, and how much floor to leave free beyond that.
type Accuracy struct {
	Evidence          job.Evidence
	Error, FingerRoom float64
}

// Accuracies returns the classes of evidence that a verdict can be given from:
// a photo with a tape in it taken square-on is good to 1/2 in, a hand with a
// tape to 1 in; nothing is drilled within 2 in of the one or 4 in of the other
// (common practice).
func Accuracies() []Accuracy {
	return []Accuracy{
		{job.PhotoWithTape, 0.5 * plane.Inch, 1.5 * plane.Inch},
		{job.ByHand, 1 * plane.Inch, 3 * plane.Inch},
	}
}

// UnrecordedError is how far a thing may lie from where the plan has it when
// nobody recorded where it was laid, in mm: 12 in, as has been found on a
// floor drilled by its plan (common practice).
const UnrecordedError = 12 * plane.Inch

// A Laid is one cable as it really lies, as far as that is known.
type Laid struct {
	Job        *job.Laid
	Path       []plane.Point // corner points, start of heat first; empty: nothing is known of it
	Whole      bool          // Path is the whole cable
	Planned    []plane.Point // the path it was laid from
	Error      float64       // mm either way; 0 from a plan only
	FingerRoom float64       // mm
	PhotoError float64       // mm: how far off what was read from photos may be; 0: nothing was
	Joint      *plane.Point
	EndCap     *plane.Point
	ColdLead   []plane.Point
	Return     []plane.Point
	Differ     []Difference
}

// A Difference is one thing that does not lie where the plan had it.
type Difference struct {
	What language.Message
	Plan plane.Point // where the plan has it
	Laid plane.Point // where it lies
	Off  float64     // mm
}

// Recorded reports whether it is known from the floor itself, not from a plan,
// where the whole cable lies.
func (l *Laid) Recorded() bool { return l != nil && l.Whole && l.Job.Evidence != job.PlanOnly }

// MarkRead is the running length that a mark stands for.
func MarkRead(m job.LaidMark, c *Cable) float64 {
	if m.Length == 0 {
		return c.Label.Length / 2
	}
	return m.Length
}
