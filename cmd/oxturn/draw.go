package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"path/filepath"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/pdf"
	"oxturn/drawing/sheets"
	"oxturn/drawing/svg"
	"oxturn/layout"
	"oxturn/layout/takeoff"
)

const drawHelp = `
Reads each job, lays the cable and writes, NAME being the job file's:

  NAME.pdf            all sheets, with bookmarks
  NAME-SHEET.svg      one a sheet
  NAME-takeoff.csv    quantities, and NAME-takeoff.json
  NAME.layout.json    the cable's path, for other programs

  oxturn draw bath.toml -o out
  oxturn draw jobs/*.toml -o out
  oxturn draw bath.toml --only pdf

Flags:
  -o DIR                           where to write (default: the current folder)
  --only LIST                      some of layout,pdf,svg,takeoff
  --diagnostics human|short|json   how messages are written (default human)

Nothing is written for a job that has errors or whose cable does not fit.
Exit codes: 0 done, 1 errors in a job, 2 usage or file trouble, 130 interrupted.
`

// kinds are the words --only takes.
var kinds = []string{"layout", "pdf", "svg", "takeoff"}

// A drawOrder is what the flags of draw ask for.
type drawOrder struct {
	dir   string
	only  map[string]bool
	style string
}

func draw(ctx context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("draw", flag.ContinueOnError)
	dir := fs.String("o", ".", "")
	only := fs.String("only", strings.Join(kinds, ","), "")
	style := fs.String("diagnostics", "human", "")
	names, code, ok := parse(c, "draw", fs, args)
	if !ok {
		return code
	}
	if code := needJobs(c, "draw", names, *style); code != exitOK {
		return code
	}
	wanted, err := parseOnly(*only)
	if err != nil {
		c.say("oxturn draw: %v", err)
		return exitUsage
	}
	o := drawOrder{dir: *dir, only: wanted, style: *style}
	worst := exitOK
	for _, name := range names {
		if ctx.Err() != nil {
			return exitInterrupted
		}
		worst = max(worst, drawOne(c, name, o))
	}
	return worst
}

// parseOnly reads the list given to --only.
func parseOnly(list string) (map[string]bool, error) {
	out := map[string]bool{}
	for _, k := range strings.Split(list, ",") {
		k = strings.TrimSpace(k)
		known := false
		for _, x := range kinds {
			known = known || x == k
		}
		if !known {
			return nil, fmt.Errorf("--only %q is not an output%s; use some of %s", k, didYouMean(k, kinds), strings.Join(kinds, ","))
		}
		out[k] = true
	}
	return out, nil
}

// drawOne draws one job and writes its files, all or none.
func drawOne(c *console, name string, o drawOrder) int {
	plan, code := load(c, name, o.style)
	if code != exitOK {
		return code
	}
	files, err := outputs(plan, baseName(name), o.only)
	if err != nil {
		c.say("oxturn: %s: %v", name, err)
		return exitJob
	}
	if err := writeAll(o.dir, files); err != nil {
		c.say("oxturn: nothing was written: %v", err)
		return exitUsage
	}
	summary(c, plan, o.dir, files)
	return exitOK
}

// outputs makes every file that is wanted, in memory.
func outputs(p *layout.Plan, name string, only map[string]bool) ([]file, error) {
	var out []file
	add := func(suffix string, write func(*bytes.Buffer) error) error {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return err
		}
		out = append(out, file{name + suffix, b.Bytes()})
		return nil
	}
	var set []*drawing.Sheet
	var err error
	if only["pdf"] || only["svg"] {
		if set, err = sheets.Set(p); err != nil {
			return nil, err
		}
	}
	if only["pdf"] {
		info := pdf.Info{Title: p.Job.Info.Title, Author: p.Job.Info.Contractor}
		if err := add(".pdf", func(b *bytes.Buffer) error { return pdf.Write(b, set, info) }); err != nil {
			return nil, err
		}
	}
	if only["svg"] {
		for _, s := range set {
			if err := add("-"+s.ID+".svg", func(b *bytes.Buffer) error { return svg.Write(b, s) }); err != nil {
				return nil, err
			}
		}
	}
	if only["takeoff"] {
		if err := add("-takeoff.csv", func(b *bytes.Buffer) error { return takeoff.WriteCSV(b, p.TakeOff) }); err != nil {
			return nil, err
		}
		if err := add("-takeoff.json", func(b *bytes.Buffer) error { return takeoff.WriteJSON(b, p.TakeOff) }); err != nil {
			return nil, err
		}
	}
	if only["layout"] {
		err = add(".layout.json", func(b *bytes.Buffer) error { return p.WriteFile(b) })
	}
	return out, err
}

// summary says in five lines what was drawn.
func summary(c *console, p *layout.Plan, dir string, files []file) {
	for _, line := range summaryLines(p) {
		c.say("%s", line)
	}
	var names []string
	for _, f := range files {
		names = append(names, f.name)
	}
	c.say("files    %s: %s", filepath.Clean(dir), strings.Join(names, ", "))
}
