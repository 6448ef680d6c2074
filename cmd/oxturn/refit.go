package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"

	"oxturn/drawing/pdf"
	"oxturn/drawing/sheets"
	"oxturn/drawing/svg"
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

Runs and marks are counted on the plan that lies on site. Its code stands in
every title block and on the map; give it, here or as plan = in [[as_laid]], and
refit refuses where the job gives another plan now. Give NAME.layout.json, drawn
with it, instead, and the rest is planned from that plan.

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
                         another length read off the cable
  --run N=PEGS           laid run N really has so many pegs; runs not named have
                         those of the run list, and what follows lies with it
  --once                 read a mark off its place as one slip, not as a drift
  --lift N               take up so many of the laid runs first, the last ones
  --give-up N            lay no cable in the room's N-th low-value area
  -o DIR                 also write NAME-refit.pdf, .svg and .layout.json
  --format FORMAT        text or json
` + mannerHelp + `
Exit codes: 0 planned, 1 errors in the job or nothing fits, 2 usage.
`

func refitVerb(ctx context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("refit", flag.ContinueOnError)
	o := refitFlags(fs)
	m := mannerFlags(fs)
	names, code, ok := parse(c, "refit", fs, args)
	if !ok {
		return code
	}
	name, ok := oneJob(c, "refit", names)
	if !ok || !m.settle(c, "refit") || !formatKnown(c, "refit", o.format) || !folderKnown(c, "refit", o.dir) {
		return exitUsage
	}
	m.amend = o.amend
	w, code := loadPlan(ctx, c, name, m)
	if code != exitOK {
		return code
	}
	f, code := findRefit(ctx, c, w, o.cable, o.way, m)
	if code != exitOK {
		return code
	}
	if o.format == "json" {
		if err := f.WriteJSON(c.Out); err != nil {
			c.say("oxturn refit: %v", err)
			return exitUsage
		}
	} else {
		for _, line := range f.Lines(w.plan.Units()) {
			fmt.Fprintln(c.Out, line)
		}
	}
	if f.New == nil {
		return exitJob
	}
	plan, moves := f.Plan(w.plan)
	if o.format != "json" {
		sayMoves(c, moves, layout.NewTape(f.Room.Job, w.plan.Units()))
	}
	if o.dir == "" {
		return exitOK
	}
	return drawRefit(c, w, f, plan, moves, o.dir)
}

// findRefit plans one cable anew, within the time limit.
func findRefit(ctx context.Context, c *console, w *work, cable string, way refit.Way, m *manner) (*refit.Refit, int) {
	if cable == "" {
		cable = onlyLaid(w.plan)
	}
	room, planned, err := probe.CableNamed(w.plan, cable)
	if err != nil {
		c.say("oxturn refit: %v", err)
		return nil, exitUsage
	}
	var f *refit.Refit
	var lacks error
	err = within(ctx, m.timeLimit, func(func() bool) { f, lacks = refit.New(w.plan, room, planned, way) })
	switch {
	case ctx.Err() != nil:
		return nil, exitInterrupted
	case err == errTime:
		c.say("oxturn refit: given up after %v; give it more with --time-limit", m.timeLimit)
		return nil, exitJob
	case err != nil:
		c.say("oxturn refit: %v", err)
		return nil, exitUsage
	case lacks != nil:
		c.say("oxturn refit: %v\nhint: oxturn help refit", lacks)
		return nil, exitJob
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

// sayMoves says which sensors have to lie elsewhere.
func sayMoves(c *console, moves []refit.SensorMove, tape layout.Tape) {
	for _, m := range moves {
		fmt.Fprintln(c.Out, "sensor   "+m.Words(tape))
	}
}

// drawRefit draws the cable as planned anew, and writes the layout it makes.
func drawRefit(c *console, w *work, f *refit.Refit, plan *layout.Plan, moves []refit.SensorMove, dir string) int {
	set, err := sheets.RefitPlans(plan, f, moves)
	if err != nil {
		c.say("oxturn refit: nothing was drawn: %v", err)
		return exitJob
	}
	base := w.source.base + "-refit"
	after := *w
	after.plan = plan
	var files []file
	add := func(name string, write func(io.Writer) error) {
		var b bytes.Buffer
		if failed := write(&b); err == nil {
			err = failed
		}
		files = append(files, file{name, b.Bytes()})
	}
	add(base+".pdf", func(to io.Writer) error { return pdf.Write(to, set, after.info()) })
	for i, s := range set {
		name := base
		if i > 0 {
			name += fmt.Sprintf("-%d", i+1)
		}
		add(name+".svg", func(to io.Writer) error { return svg.Write(to, s) })
	}
	add(base+".layout.json", plan.WriteFile)
	if err != nil {
		c.say("oxturn refit: nothing was drawn: %v", err)
		return exitUsage
	}
	to := &folder{dir: dir}
	defer to.close()
	if err := to.write(files); err != nil {
		c.say("oxturn refit: nothing was written: %v", err)
		return exitUsage
	}
	for _, f := range files {
		c.say("drawn    %s", f.name)
	}
	return exitOK
}
