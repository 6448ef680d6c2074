package main

import (
	"context"
	"errors"
	"fmt"
	"runtime/debug"
	"sync"
	"sync/atomic"
	"time"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/drawing/sheets"
	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/route"
)

// A work is a job as far as it could be taken: read, planned and drawn. Later
// parts are nil when the report has errors.
type work struct {
	source source
	job    *job.Job
	plan   *layout.Plan
	sheets []*drawing.Sheet
	number sheets.Numbering // of the sheets
	report *job.Report
	copied bool // for others than those who bid: their PDF carries no prices
}

// unpriced is the same work for those whom prices are no business of.
func (w *work) unpriced() *work {
	copied := *w
	copied.copied = true
	return &copied
}

// errTime ends work that takes longer than its limit.
var errTime = errors.New("time limit")

// An amendment is what flags add to a job as read.
type amendment func(*job.Job) error

// workOptions say how far a job is taken.
type workOptions struct {
	timeLimit time.Duration
	undrawn   bool      // no sheets are wanted
	mapped    bool      // but a map is
	laid      bool      // nor quantities: what the layout file has will do
	laidBy    bool      // amend says by what plan the floor is laid
	amend     amendment // nil: nothing
	before    *job.Job  // the same job as it was drawn last, whose photos are unpacked; nil: none is

	breathe func()             // called now and then: lets others have a turn; nil: they have their own
	early   func(*layout.Plan) // given the plan as soon as its floor can be drawn; nil: nobody waits for it
}

// do reads, plans and draws a job, or leaves the drawing out; everything there
// is to say about it is in the report. An error is trouble that is not the
// job's: ctx ended, or a fault of ours.
func do(ctx context.Context, s source, o workOptions) (*work, error) {
	w := &work{source: s}
	err := within(ctx, o.timeLimit, func(stop func() bool) { w.take(o, o.breathing(stop)) })
	if errors.Is(err, errTime) {
		return givenUp(s, o.timeLimit), nil // w still belongs to its goroutine
	}
	return w, err
}

// breathing is stop that lets others have a turn where it is asked.
func (o workOptions) breathing(stop func() bool) func() bool {
	if o.breathe == nil {
		return stop
	}
	return func() bool { o.breathe(); return stop() }
}

func givenUp(s source, limit time.Duration) *work {
	w := &work{source: s, report: &job.Report{}}
	w.report.Add(job.Diagnostic{Span: job.Span{File: s.name}, Message: fmt.Sprintf("this job was given up after %v",
		limit),
		Hint: "check its size and its pitch, split it into several jobs, or give it more with --time-limit"})
	return w
}

// take does the work's phases up to the first that finds errors. Once stop
// says so nobody waits for it any more.
func (w *work) take(o workOptions, stop func() bool) {
	w.job, w.report = job.Read(w.source.name, w.source.data, w.source.open)
	if w.job == nil || w.report.Errors() > 0 || !w.amended(o.amend) {
		return
	}
	w.job.UnpackedBefore(o.before)
	w.restOnPDF()
	plan, found := build.Lay(w.job, search(stop))
	for _, d := range found {
		w.report.Add(d)
	}
	if w.report.Errors() == 0 && !o.laid {
		o.complete(plan, stop)
	}
	if w.report.Errors() == 0 && !o.undrawn {
		w.draw(plan, stop)
	}
	if w.report.Errors() == 0 && o.mapped {
		w.lettersOfMap(plan)
	}
	if w.report.Errors() > 0 {
		return
	}
	w.plan = plan
	if !o.undrawn { // else a warning of drawing that the job allows would seem needless
		w.report.Finish()
	}
}

// mostFloors is how many floors a process remembers: the rooms of a few jobs, or the tries of one.
const mostFloors = 200

// known are the floors that this process has laid. A page, a preview or a folder of like rooms asks
// for the same again and again.
var known = sync.OnceValue(func() *route.Memory { return route.NewMemory(mostFloors) })

// search looks for routes until stop says so.
func search(stop func() bool) build.Search { return build.Search{Stop: stop, Known: known()} }

// complete adds what drawings ask for, and shows the plan early where that is asked for.
func (o workOptions) complete(plan *layout.Plan, stop func() bool) {
	if o.early == nil {
		build.Complete(plan)
		return
	}
	if build.Quantify(plan); !stop() {
		o.early(plan)
		build.Foresee(plan, stop)
	}
}

// amended reports whether the flags could be added to the job.
func (w *work) amended(amend amendment) bool {
	if amend == nil {
		return true
	}
	err := amend(w.job)
	if err != nil {
		w.report.Add(job.Diagnostic{Span: job.Span{File: w.source.name}, Message: err.Error(),
			Hint: "look at the flags given"})
	}
	return err == nil
}

// restOnPDF has records that name no plan rest on the one of the PDF they come out of.
func (w *work) restOnPDF() {
	if w.source.drawn == nil {
		return
	}
	for i := range w.job.Laid {
		if a := &w.job.Laid[i]; a.PlanCode == "" {
			a.PlanCode = w.source.drawn.Plan
		}
	}
}

func (w *work) draw(plan *layout.Plan, stop func() bool) {
	if !w.unpackPhotos() {
		return
	}
	set, number, err := sheets.NumberedSet(plan, stop)
	if errors.Is(err, sheets.ErrStopped) {
		return // nobody waits any more
	}
	if err != nil {
		w.report.Add(job.Diagnostic{Span: w.asked(err), Message: err.Error()})
		return
	}
	w.letters(drawing.Unsettable(set...))
	w.sheets, w.number = set, number
}

// letters warns of those that no face has.
func (w *work) letters(gone []drawing.Unset) {
	for _, d := range unlettered(w.source, gone) {
		w.report.Add(d)
	}
}

// lettersOfMap warns of those of a map that is made without sheets.
func (w *work) lettersOfMap(plan *layout.Plan) {
	gone, err := mapUnset(plan)
	if err != nil {
		return // whoever writes the map says so
	}
	w.letters(gone)
}

// unpackPhotos reports whether the pixels of all photos could be read.
func (w *work) unpackPhotos() bool {
	ok := true
	for _, a := range w.job.Laid {
		for i := range a.Photos {
			if _, err := a.Photos[i].Flat(); err != nil {
				ok = false
				w.report.Add(job.Diagnostic{Span: a.Photos[i].Span, Hint: "save it anew from the camera or a viewer",
					Message: err.Error()})
			}
		}
	}
	return ok
}

// asked returns where the job asks for what a sheet cannot be drawn as.
func (w *work) asked(err error) job.Span {
	if r := (*setting.Refusal)(nil); errors.As(err, &r) {
		if at := w.job.Spans.At(r.Key); at.File != "" {
			return at
		}
	}
	return job.Span{File: w.source.name}
}

// within runs f and waits for it, for ctx or for the limit, whichever comes
// first; in the latter two cases f is told to stop. A panic in f comes back as
// an error.
func within(ctx context.Context, limit time.Duration, f func(stop func() bool)) error {
	done := make(chan error, 1)
	var gone atomic.Bool
	go func() {
		defer func() {
			if p := recover(); p != nil {
				done <- &faultError{p, debug.Stack()}
			}
		}()
		f(gone.Load)
		done <- nil
	}()
	clock := time.NewTimer(limit)
	defer clock.Stop()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
		gone.Store(true)
		return ctx.Err()
	case <-clock.C:
		gone.Store(true)
		return errTime
	}
}

// A faultError is a panic of ours while a job was worked on.
type faultError struct {
	what  any
	stack []byte
}

// Error asks for a report, with where it happened.
func (e *faultError) Error() string {
	return fmt.Sprintf("this is a fault in oxturn, not in your job: %v\nplease report it with the job file and these "+
		"lines\n%s", e.what, e.stack)
}
