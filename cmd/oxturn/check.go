package main

import (
	"context"
	"io"

	"oxturn/layout/build"
	"oxturn/layout/figures"
)

const checkHelp = `
Reads each job, lays the cable, draws the sheets and reports all that is wrong
or worth a look, with file, line and column; then the floor's figures, each
limit with its origin: load, ohms, gaps, leads, sensor, warmth, quantities,
readings, what an inch more or less of room does. Writes nothing to disk.

  oxturn check bath.toml
  oxturn check bath.toml --format json > figures.json
  oxturn check jobs
  oxturn check bath.toml --diagnostics json

Flags:
  --format FORMAT        figures as text or json, or none
  --off-by-inch          lay every room anew an inch larger and smaller each way
` + jobFlagsHelp + `
Figures go to the output, messages aside to the error stream. The styles json
and github put messages on the output and leave the figures out; with --format
they go aside. Several jobs have figures only with --format. With errors there
are none.
Exit codes: 0 no errors, 1 errors, 2 usage or a file that cannot be read.
`

// figureFormats are the words --format of check takes.
var figureFormats = []string{"text", "json", "none"}

// A checkOrder is what the flags of check ask for.
type checkOrder struct {
	format    string // empty: by the number of jobs and the style of messages
	offByInch bool
	alone     bool // one job is checked
}

func (o *checkOrder) flags(f *verbFlags) {
	f.word(&o.format, "format", "", figureFormats...)
	f.BoolVar(&o.offByInch, "off-by-inch", false, "")
}

func (o *checkOrder) run(ctx context.Context, c *commandLine) int {
	aside := o.format == "text" || o.format == "json" // the output is asked for by name
	o.alone = len(c.args) == 1
	if o.format == "" {
		o.format = o.usual(c.style)
	}
	one := func(ctx context.Context, at *console, name string) int { return o.one(ctx, c.on(at), name, aside) }
	b := batch{done: "checked", style: c.style, aside: aside, names: c.args, one: one}
	return b.run(ctx, c.console)
}

// usual is the format where none is asked for.
func (o *checkOrder) usual(style string) string {
	if !o.alone || style == "json" || style == "github" {
		return "none"
	}
	return "text"
}

// one checks one job; aside says that its messages leave the output to the figures.
func (o *checkOrder) one(ctx context.Context, c *commandLine, name string, aside bool) int {
	messages := c
	if aside {
		messages = c.aside()
	}
	w, code := messages.load(ctx, name, "", workOptions{})
	if w == nil || w.plan == nil {
		return code
	}
	if o.alone && w.report.Errors() == 0 && w.report.Warnings() == 0 {
		c.say("%s: no errors", w.source.name)
	}
	if o.format == "none" {
		return code
	}
	return max(code, o.writeFigures(ctx, c, w))
}

// writeFigures writes one job's figures, after those of the jobs before it.
func (o *checkOrder) writeFigures(ctx context.Context, c *commandLine, w *work) int {
	var r *figures.Report
	line := waiting(c.console, w.source.name+": working out its figures")
	err := within(ctx, c.timeLimit, func(func() bool) {
		p := *w.plan
		if o.offByInch {
			p.Shifts = build.ShiftsLaid(&p)
		}
		r = figures.Of(&p)
	})
	line.end()
	if err != nil {
		c.say("oxturn: %s: its figures were given up: %v\n"+
			"hint: leave --off-by-inch out, or give it more with --time-limit", w.source.name, err)
		return exitUsage
	}
	told := w.report.Teller()
	write := func(w io.Writer) error { return r.WriteTextIn(w, told) }
	if o.format == "json" {
		write = r.WriteJSON
	}
	if err := write(c.Out); err != nil {
		return c.fail(err)
	}
	return exitOK
}
