package main

import (
	"context"
	"flag"
	"io"
	"slices"

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
` + mannerHelp + `
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
	*manner
	format    string // empty: by the number of jobs and the style of messages
	offByInch bool
}

func check(ctx context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("check", flag.ContinueOnError)
	o := checkOrder{manner: mannerFlags(fs)}
	fs.StringVar(&o.format, "format", "", "")
	fs.BoolVar(&o.offByInch, "off-by-inch", false, "")
	names, code, ok := parse(c, "check", fs, args)
	if !ok {
		return code
	}
	if !o.settle(c, "check") {
		return exitUsage
	}
	if o.format != "" && !slices.Contains(figureFormats, o.format) {
		c.say("oxturn check: --format %q is not known%s; use text, json or none", o.format, didYouMean(o.format, figureFormats))
		return exitUsage
	}
	names, ok = jobNames(c, "check", names)
	if !ok {
		return exitUsage
	}
	aside := o.aside()
	if o.format == "" {
		o.format = o.usual(len(names))
	}
	b := batch{done: "checked", style: o.style, aside: aside, names: names, one: func(ctx context.Context, c *console, name string) int {
		return o.one(ctx, c, name, aside, len(names) == 1)
	}}
	return b.run(ctx, c)
}

// aside reports whether messages of every style go to the error stream, the
// output being asked for by name.
func (o checkOrder) aside() bool { return o.format == "text" || o.format == "json" }

// usual is the format where none is asked for.
func (o checkOrder) usual(jobs int) string {
	if jobs > 1 || o.style == "json" || o.style == "github" {
		return "none"
	}
	return "text"
}

func (o checkOrder) one(ctx context.Context, c *console, name string, aside, alone bool) int {
	messages := *c
	if aside {
		messages.Out = c.Err
	}
	w, code := load(ctx, &messages, name, "", o.manner)
	if w == nil || w.plan == nil {
		return code
	}
	if alone && w.report.Errors() == 0 && w.report.Warnings() == 0 {
		c.say("%s: no errors", w.source.name)
	}
	var r *figures.Report
	if o.format != "none" {
		if err := within(ctx, o.timeLimit, func(func() bool) { r = figures.Of(w.plan, o.offByInch) }); err != nil {
			c.say("oxturn: %s: its figures were given up: %v\nhint: leave --off-by-inch out, or give it more with --time-limit", w.source.name, err)
			return exitUsage
		}
	}
	if err := writeFigures(c.Out, r, o.format); err != nil {
		c.say("oxturn check: %v", err)
		return exitUsage
	}
	return code
}

// writeFigures writes one job's figures, after those of the jobs before it.
func writeFigures(w io.Writer, r *figures.Report, format string) error {
	switch format {
	case "json":
		return r.WriteJSON(w)
	case "text":
		return r.WriteText(w)
	}
	return nil
}

// load takes a job as far as it goes and prints every diagnostic. The work has
// a plan and sheets when the code is exitOK.
func load(ctx context.Context, c *console, name, base string, m *manner) (*work, int) {
	s, err := readSource(ctx, c.In, name, base)
	if ctx.Err() != nil {
		return nil, exitInterrupted
	}
	if err != nil {
		c.say("oxturn: %v", err)
		return nil, exitUsage
	}
	w, err := do(ctx, s, m)
	if ctx.Err() != nil {
		return nil, exitInterrupted
	}
	if err != nil {
		c.say("oxturn: %s: %v", s.name, err)
		return nil, exitUsage
	}
	printReport(c, w.report, m.style)
	return w, m.verdict(w.report)
}
