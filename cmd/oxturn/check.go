package main

import (
	"context"
	"flag"
	"os"
	"path/filepath"

	"oxturn/layout"
	"oxturn/layout/job"
)

const checkHelp = `
Reads each job, lays the cable and reports everything that is wrong or worth a
look, with file, line and column. Writes nothing.

  oxturn check bath.toml
  oxturn check jobs/*.toml
  oxturn check bath.toml --diagnostics json

Flags:
  --diagnostics human|short|json   how messages are written (default human)

Exit codes: 0 no errors, 1 errors, 2 usage or a file that cannot be read.
`

func check(ctx context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("check", flag.ContinueOnError)
	style := fs.String("diagnostics", "human", "")
	names, code, ok := parse(c, "check", fs, args)
	if !ok {
		return code
	}
	if code := needJobs(c, "check", names, *style); code != exitOK {
		return code
	}
	worst := exitOK
	for _, name := range names {
		if ctx.Err() != nil {
			return exitInterrupted
		}
		_, code := load(c, name, *style)
		worst = max(worst, code)
	}
	return worst
}

// needJobs checks what draw and check have in common.
func needJobs(c *console, verb string, names []string, style string) int {
	if len(names) == 0 {
		c.say("oxturn %s: no job file given\nhint: oxturn %s JOB.toml", verb, verb)
		return exitUsage
	}
	switch style {
	case "human", "short", "json":
		return exitOK
	}
	c.say("oxturn %s: --diagnostics %q is not a style; use human, short or json", verb, style)
	return exitUsage
}

// load reads a job and works out its plan, printing every diagnostic. The plan
// is nil unless the code is 0.
func load(c *console, name, style string) (*layout.Plan, int) {
	data, err := os.ReadFile(name)
	if err != nil {
		c.say("oxturn: %v", err)
		return nil, exitUsage
	}
	open := func(other string) ([]byte, error) {
		if !filepath.IsAbs(other) {
			other = filepath.Join(filepath.Dir(name), other)
		}
		return os.ReadFile(other)
	}
	j, report := job.Read(name, data, open)
	var plan *layout.Plan
	if j != nil && report.Errors() == 0 {
		var found []job.Diagnostic
		plan, found = layout.Build(j)
		for _, d := range found {
			report.Add(d)
		}
	}
	printReport(c, report, style)
	if report.Errors() > 0 {
		return nil, exitJob
	}
	return plan, exitOK
}
