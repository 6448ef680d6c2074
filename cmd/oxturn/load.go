package main

import "context"

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
	line := waiting(c.console, s.name+": laying the cable")
	w, err := do(ctx, s, o)
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

// loadPlan is load without drawing; amend, where not nil, is what flags add to the
// job.
func (c *commandLine) loadPlan(ctx context.Context, name string, amend amendment) (*work, int) {
	return c.load(ctx, name, "", workOptions{undrawn: true, amend: amend})
}
