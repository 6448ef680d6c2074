package main

import (
	"context"

	"oxturn/layout/job"
)

// read reads a job file; base, where not empty, is what its outputs are called.
func (c *commandLine) read(ctx context.Context, name, base string) (source, int) {
	s, err := readSource(ctx, c.In, name, base)
	if ctx.Err() != nil {
		return s, exitInterrupted
	}
	if err != nil {
		c.say("oxturn: %v", err)
		return s, exitUsage
	}
	return s, exitOK
}

// load takes a job as far as it goes and prints every diagnostic. The work has a
// plan, and sheets where they are wanted, when the code is exitOK.
func (c *commandLine) load(ctx context.Context, name, base string, o workOptions) (*work, int) {
	s, code := c.read(ctx, name, base)
	if code != exitOK {
		return nil, code
	}
	o.timeLimit = c.timeLimit
	if s.label != nil {
		o.amend, o.laidBy = after(s.label.LayBy, o.amend), true
	}
	line := waiting(c.console, s.name+": laying the cable")
	w, err := do(ctx, s, o)
	if err == nil && w.plan != nil && s.drawn != nil && w.plan.Code != s.drawn.Plan && !o.laidBy {
		w, err = c.asDrawn(ctx, w, o)
	}
	line.end()
	if ctx.Err() != nil {
		return nil, exitInterrupted
	}
	if err != nil {
		c.say("oxturn: %s: %v", s.name, err)
		return nil, exitUsage
	}
	printReport(c.console, w.report, c.style)
	return w, c.verdict(w.report)
}

// asDrawn does a job out of a PDF by the plan that is drawn there, where the job alone
// would give another now.
func (c *commandLine) asDrawn(ctx context.Context, now *work, o workOptions) (*work, error) {
	d := now.source.drawn
	c.say("oxturn %s: %s would be planned otherwise now (plan %s): cable, leads and sensors are those of the PDF "+
		"(plan %s), all else is the job's", c.verb, now.source.name, now.plan.Code, d.Plan)
	o.amend = after(func(j *job.Job) error { return j.LayBy(roleLayout, d.layout) }, o.amend)
	return do(ctx, now.source, o)
}

// after is an amendment that follows another; nil: none does.
func after(first, then amendment) amendment {
	return func(j *job.Job) error {
		if err := first(j); err != nil || then == nil {
			return err
		}
		return then(j)
	}
}

// loadPlan is load of what is laid, without quantities and drawing; amend, where not
// nil, is what flags add to the job.
func (c *commandLine) loadPlan(ctx context.Context, name string, amend amendment) (*work, int) {
	return c.load(ctx, name, "", workOptions{undrawn: true, laid: true, amend: amend})
}
