package main

import (
	"context"
	"fmt"
	"io"

	"oxturn/drawing/sheets"
	"oxturn/layout"
	"oxturn/layout/probe"
	"oxturn/layout/refit"
)

const refitHelp = `
Plans the rest of a cable that is partly laid, from the runs laid and where the
half-way mark or another length printed on the cable was found, as flags or in
the job's [[as_laid]], or from where the pegs really lie. What is laid is never
moved, and as many of the plan's other runs are kept as can be.

  oxturn refit bath.toml -o out
  oxturn refit bath.toml --plan 7KF-4RP --runs 11 --mark 11,26
  oxturn refit bath.toml --plan 7KF-4RP --mark 11,26 --run 8=13

Without --runs what is laid ends at the mark farthest along. Runs and marks are
counted on the plan that lies on site. Its code stands in every title block and
on the map; give it, here or as plan = in [[as_laid]], and refit refuses where
the job gives another plan now. Give NAME.layout.json, drawn with it, instead,
and the rest is planned from that plan.

A mark off its place has two readings, and both are said: every metre drifts, so
that the end misses by about twice as much at the half-way mark; or one run was
miscounted, so that it misses once. The rest is planned for the first unless
--once is given. Where the run is known, give it as --run 8=13.

Where the rest fits nowhere the choices are listed, with what each takes; lift
and give-up plan by one of them.

Flags:
  --cable ID             the cable, where the job has several
  --plan CODE            the plan on site: its plan code, or its layout file
  --runs N               runs laid so far, in place of what the job says
  --mark RUN,PEGS        where the half-way mark was found; RUN,PEGS=LENGTH for
                         another length read off the cable; on strips, cm or in
  --run N=PEGS           laid run N really has so many pegs, on strips cm or
                         inches; runs not named have those of the run list, and
                         what follows lies with it
  --once                 read a mark off its place as one slip, not as a drift
  --lift N               take up so many of the laid runs first, the last ones
  --give-up N            lay no cable in the room's N-th low-value area
  -o DIR                 also write NAME-refit.pdf, .svg and .layout.json
  --format FORMAT        text or json
` + jobFlagsHelp + `
Exit codes: 0 planned, 1 errors in the job or nothing fits, 2 usage.
`

func (o *refitOrder) run(ctx context.Context, c *commandLine) int {
	w, code := c.loadPlan(ctx, c.args[0], o.amend)
	if code != exitOK {
		return code
	}
	f, code := o.find(ctx, c, w.plan)
	if code != exitOK {
		return code
	}
	plan, moves := w.plan, []refit.SensorMove(nil)
	if f.New != nil {
		plan, moves = f.Plan(w.plan)
	}
	lines := func() []string {
		tape := layout.NewTape(f.Room.Job, w.plan.Units())
		return c.facts(append(f.Lines(w.plan.Units()), moveLines(moves, tape)...))
	}
	inJSON := func(to io.Writer) error {
		told := *f
		told.Reason = c.told(f.Reason)
		return told.WriteJSON(to)
	}
	if err := c.answer(o.format, inJSON, lines); err != nil {
		return c.fail(err)
	}
	if f.New == nil {
		return exitJob
	}
	if o.dir == "" {
		return exitOK
	}
	after := *w
	after.plan = plan
	return drawRefit(c, w, &after, f, moves, o.dir)
}

// find plans one cable anew, within the time limit.
func (o *refitOrder) find(ctx context.Context, c *commandLine, p *layout.Plan) (*refit.Refit, int) {
	cable := o.cable
	if cable == "" {
		cable = onlyLaid(p)
	}
	room, planned, err := probe.CableNamed(p, cable)
	if err != nil {
		return nil, c.fail(err)
	}
	var f *refit.Refit
	var lacks error
	line := waiting(c.console, "planning the rest of "+planned.ID)
	err = within(ctx, c.timeLimit, func(func() bool) { f, lacks = refit.New(p, room, planned, o.way) })
	line.end()
	switch {
	case ctx.Err() != nil:
		return nil, exitInterrupted
	case err == errTime:
		return nil, c.stop(exitJob, fmt.Errorf("given up after %v; give it more with --time-limit", c.timeLimit))
	case err != nil:
		return nil, c.fail(err)
	case lacks != nil:
		return nil, c.stop(exitJob, fmt.Errorf("%w\nhint: oxturn help refit", lacks))
	}
	return f, exitOK
}

// onlyLaid names the only cable that something is recorded of; empty where
// there are several or none.
func onlyLaid(p *layout.Plan) string {
	name := ""
	for _, r := range p.Rooms {
		for _, c := range r.Cables {
			if c.Laid == nil {
				continue
			}
			if name != "" {
				return ""
			}
			name = c.ID
		}
	}
	return name
}

// moveLines say which sensors have to lie elsewhere.
func moveLines(moves []refit.SensorMove, tape layout.Tape) (out []string) {
	for _, m := range moves {
		out = append(out, "sensor   "+m.Words(tape))
	}
	return out
}

// drawRefit draws the cable as planned anew, and writes the layout it makes. The PDF
// carries the job with the plan that was laid by, which a further refit goes on from.
func drawRefit(c *commandLine, was, w *work, f *refit.Refit, moves []refit.SensorMove, dir string) int {
	set, err := sheets.RefitPlans(w.plan, f, moves)
	if err != nil {
		return c.stop(exitJob, notDrawn(err))
	}
	files := &fileSet{base: w.source.base + "-refit"}
	files.drawn(set, was.unpriced())
	files.add(".layout.json", w.plan.WriteFile)
	return c.writeSet(files, dir)
}
