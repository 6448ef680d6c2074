package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"oxturn/drawing/sheets"
	"oxturn/layout/job"
)

const drawHelp = `
Reads each job, lays the cable and writes, NAME being the job file's:

  NAME.pdf            all sheets, with bookmarks; it carries the job: help open
  NAME-SHEET.svg      one a sheet
  NAME-takeoff.csv    quantities, and NAME-takeoff.json
  NAME.layout.json    the cable's path, for other programs
  NAME-map.html       the owner's map: touch a spot for what lies there,
                      type readings for where a fault is

  oxturn draw bath.toml -o out
  oxturn draw jobs -o out                  every job of a folder, on all cores
  oxturn draw - --name bath < bath.toml
  oxturn draw bath.toml --only pdf -o - > bath.pdf

Flags:
  -o DIR                 where to write (default: the current folder)
  --only LIST            some of layout,pdf,svg,takeoff,map; or, only so, ics:
                         days of cure and test as a calendar, dxf: rooms and
                         cables at true size for drawing programs, and label:
                         what the codes of the panel labels say
  --for READER           sheets for installer, estimator, electrician or owner;
                         or handover: what goes with a floor recorded as laid
  --name NAME            NAME of the outputs, for a single job
` + jobFlagsHelp + `
Nothing is written for a job that has errors or whose cable does not fit.
Exit codes: 0 done, 1 errors in a job, 2 usage or file trouble, 130 interrupted.
`

// A drawOrder is what the flags of draw ask for.
type drawOrder struct {
	dir    string
	list   string   // --only as given
	only   []string // the outputs it names
	name   string
	reader string // whose sheets are wanted; empty: all
	folder *folder
	brief  bool // one line a job
}

func (o *drawOrder) flags(f *verbFlags) {
	f.StringVar(&o.dir, "o", ".", "")
	f.StringVar(&o.list, "only", strings.Join(usual(), ","), "")
	f.text(&o.name, "name")
	f.text(&o.reader, "for")
}

func (o *drawOrder) run(ctx context.Context, c *commandLine) int {
	var err error
	if o.only, err = parseOnly(o.list); err == nil {
		err = o.check(c.args)
	}
	if err != nil {
		return c.misuse(err)
	}
	if o.dir == "-" {
		return o.pour(ctx, c)
	}
	return o.fill(ctx, c)
}

// parseOnly reads the list given to --only.
func parseOnly(list string) ([]string, error) {
	var out []string
	for _, k := range strings.Split(list, ",") {
		k = strings.TrimSpace(k)
		if !slices.Contains(kinds(), k) {
			return nil, fmt.Errorf("--only %q is not an output%s; use some of %s", k, didYouMean(k, kinds()),
				strings.Join(kinds(), ","))
		}
		if !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	return out, nil
}

// check finds what cannot be done before any work is.
func (o *drawOrder) check(names []string) error {
	if o.reader != "" && !slices.Contains(sheets.Readers(), o.reader) {
		return fmt.Errorf("--for %q is not a reader%s; use one of %s",
			o.reader, didYouMean(o.reader, sheets.Readers()), strings.Join(sheets.Readers(), ", "))
	}
	if err := o.checkName(len(names)); err != nil {
		return err
	}
	if a, b := clash(names); a != "" {
		return fmt.Errorf("%s and %s would write the same files; draw them into two folders", a, b)
	}
	if o.dir != "-" {
		return checkFolder(o.dir)
	}
	if len(names) > 1 {
		return fmt.Errorf("-o - takes one job, not %d", len(names))
	}
	if len(o.only) != 1 || !outputNamed(o.only[0]).single {
		return errors.New("-o - takes one file: add --only pdf or --only layout")
	}
	return nil
}

// checkName holds --name to what a file may be called, and to one job.
func (o *drawOrder) checkName(jobs int) error {
	if o.name == "" {
		return nil
	}
	if err := checkName(o.name); err != nil {
		return fmt.Errorf("--name: %w", err)
	}
	if jobs > 1 {
		return fmt.Errorf("--name goes with one job, not with %d", jobs)
	}
	return nil
}

// fill draws the jobs into a folder.
func (o *drawOrder) fill(ctx context.Context, c *commandLine) int {
	o.folder = &folder{dir: o.dir}
	o.brief = len(c.args) > 1
	one := func(ctx context.Context, at *console, name string) int { return o.one(ctx, c.on(at), name) }
	b := batch{names: c.args, style: c.style, done: "drawn", one: one}
	code := b.run(ctx, c.console)
	if code == exitInterrupted {
		o.folder.close()
		c.say("oxturn: interrupted; files are whole, new or as they were")
	}
	return code
}

// one draws one job and writes its files, all or none.
func (o *drawOrder) one(ctx context.Context, c *commandLine, name string) int {
	w, files, code := o.make(ctx, c, name)
	if code != exitOK {
		return code
	}
	if ctx.Err() != nil {
		return exitInterrupted
	}
	if err := o.folder.write(files); err != nil {
		c.say("oxturn: %s: nothing was written: %v", name, err)
		return exitUsage
	}
	o.summary(c, w, files)
	return exitOK
}

// make makes the files of a job, of the reader's sheets where one is named.
func (o *drawOrder) make(ctx context.Context, c *commandLine, name string) (*work, []file, int) {
	undrawn := !slices.Contains(o.only, "pdf") && !slices.Contains(o.only, "svg")
	w, code := c.load(ctx, name, o.name, workOptions{undrawn: undrawn, laid: areLaid(o.only),
		mapped: undrawn && slices.Contains(o.only, "map")})
	if code != exitOK {
		return w, nil, code
	}
	if o.reader == sheets.HandedOver && w.plan.Job.Info.Status != job.AsLaid {
		c.say("oxturn: %s: only a floor recorded as laid is handed over: write what was found in [[as_laid]] and set "+
			"status = \"as laid\" in [job]", name)
		return w, nil, exitJob
	}
	if o.reader != "" {
		w.sheets, _ = sheets.For(w.sheets, o.reader)
		w.copied = !sheets.Priced(o.reader)
	}
	files, err := outputs(w, o.only)
	if err != nil {
		c.say("oxturn: %s: %v", name, err)
		return w, nil, exitUsage
	}
	return w, files, exitOK
}

// pour draws one job and writes its only file to the output. That is taken by it:
// what else would go there goes with the messages.
func (o *drawOrder) pour(ctx context.Context, c *commandLine) int {
	_, files, code := o.make(ctx, c.aside(), c.args[0])
	if code != exitOK {
		return code
	}
	if _, err := c.Out.Write(files[0].data); err != nil {
		c.say("oxturn: %s: %v", c.args[0], err)
		return exitUsage
	}
	return exitOK
}

// summary says what was drawn: one line of many jobs, else six.
func (o *drawOrder) summary(c *commandLine, w *work, files []file) {
	if o.brief {
		c.say("%s: %s; files: %d", w.source.name, briefLine(w.plan), len(files))
		return
	}
	lines := summaryLines(w.plan)
	if len(w.sheets) > 0 {
		lines = append(lines, paperLine(w.sheets))
	}
	var names []string
	for _, f := range files {
		names = append(names, f.name)
	}
	lines = append(lines, fmt.Sprintf("files    %s: %s", filepath.Clean(o.dir), strings.Join(names, ", ")))
	for _, line := range c.facts(lines) {
		fmt.Fprintln(c.Err, line)
	}
}
