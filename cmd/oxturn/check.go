package main

import (
	"context"
	"flag"
)

const checkHelp = `
Reads each job, lays the cable, draws the sheets and reports all that is wrong
or worth a look, with file, line and column. Writes nothing. A folder stands
for the jobs in it, and - for the standard input.

  oxturn check bath.toml
  oxturn check jobs
  oxturn check bath.toml --diagnostics json

Flags:
` + mannerHelp + `
Exit codes: 0 no errors, 1 errors, 2 usage or a file that cannot be read.
`

func check(ctx context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("check", flag.ContinueOnError)
	m := mannerFlags(fs)
	names, code, ok := parse(c, "check", fs, args)
	if !ok {
		return code
	}
	if !m.settle(c, "check") {
		return exitUsage
	}
	names, ok = jobNames(c, "check", names)
	if !ok {
		return exitUsage
	}
	b := batch{done: "checked", style: m.style, names: names, one: func(ctx context.Context, c *console, name string) int {
		w, code := load(ctx, c, name, "", m)
		if code == exitOK && len(names) == 1 && w.report.Warnings() == 0 {
			c.say("%s: no errors", w.source.name)
		}
		return code
	}}
	return b.run(ctx, c)
}

// load takes a job as far as it goes and prints every diagnostic. The work has
// a plan and sheets when the code is exitOK.
func load(ctx context.Context, c *console, name, base string, m *manner) (*work, int) {
	s, err := readSource(c.In, name, base)
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
