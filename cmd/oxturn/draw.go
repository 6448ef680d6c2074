package main

import (
	"context"
	"flag"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"oxturn/drawing/sheets"
)

const drawHelp = `
Reads each job, lays the cable and writes, NAME being the job file's:

  NAME.pdf            all sheets, with bookmarks
  NAME-SHEET.svg      one a sheet
  NAME-takeoff.csv    quantities, and NAME-takeoff.json
  NAME.layout.json    the cable's path, for other programs
  NAME-map.html       the owner's map: touch a spot for what lies there

  oxturn draw bath.toml -o out
  oxturn draw jobs -o out                  every job of a folder, on all cores
  oxturn draw - --name bath < bath.toml
  oxturn draw bath.toml --only pdf -o - > bath.pdf

Flags:
  -o DIR                 where to write (default: the current folder)
  --only LIST            some of layout,pdf,svg,takeoff,map
  --for READER           sheets for installer, estimator, electrician or owner
  --name NAME            NAME of the outputs, for a single job
` + mannerHelp + `
Nothing is written for a job that has errors or whose cable does not fit.
Exit codes: 0 done, 1 errors in a job, 2 usage or file trouble, 130 interrupted.
`

// A drawOrder is what the flags of draw ask for.
type drawOrder struct {
	*manner
	dir    string
	only   []string
	name   string
	reader string // whose sheets are wanted; empty: all
	folder *folder
	brief  bool // one line a job
}

func draw(ctx context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("draw", flag.ContinueOnError)
	o := drawOrder{manner: mannerFlags(fs)}
	fs.StringVar(&o.dir, "o", ".", "")
	only := fs.String("only", strings.Join(kinds(), ","), "")
	fs.StringVar(&o.name, "name", "", "")
	fs.StringVar(&o.reader, "for", "", "")
	names, code, ok := parse(c, "draw", fs, args)
	if !ok {
		return code
	}
	if !o.settle(c, "draw") {
		return exitUsage
	}
	if names, ok = jobNames(c, "draw", names); !ok {
		return exitUsage
	}
	var err error
	if o.only, err = parseOnly(*only); err == nil {
		err = o.check(names)
	}
	if err != nil {
		c.say("oxturn draw: %v\nhint: oxturn help draw", err)
		return exitUsage
	}
	o.undrawn = !slices.Contains(o.only, "pdf") && !slices.Contains(o.only, "svg")
	return o.run(ctx, c, names)
}

// parseOnly reads the list given to --only.
func parseOnly(list string) ([]string, error) {
	var out []string
	for _, k := range strings.Split(list, ",") {
		k = strings.TrimSpace(k)
		if !slices.Contains(kinds(), k) {
			return nil, fmt.Errorf("--only %q is not an output%s; use some of %s", k, didYouMean(k, kinds()), strings.Join(kinds(), ","))
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
		return fmt.Errorf("--for %q is not a reader%s; use one of %s", o.reader, didYouMean(o.reader, sheets.Readers()), strings.Join(sheets.Readers(), ", "))
	}
	if o.name != "" {
		if err := checkName(o.name); err != nil {
			return fmt.Errorf("--name: %w", err)
		}
		if len(names) > 1 {
			return fmt.Errorf("--name goes with one job, not with %d", len(names))
		}
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
		return fmt.Errorf("-o - takes one file: add --only pdf or --only layout")
	}
	return nil
}

// run draws the jobs.
func (o *drawOrder) run(ctx context.Context, c *console, names []string) int {
	o.folder = &folder{dir: o.dir}
	o.brief = len(names) > 1
	if o.dir == "-" {
		// the output is taken: what else would go there goes with the messages
		return o.pour(ctx, c, names[0])
	}
	b := batch{names: names, style: o.style, done: "drawn", one: o.one}
	code := b.run(ctx, c)
	if code == exitInterrupted {
		o.folder.close()
		c.say("oxturn: interrupted; files are whole, new or as they were")
	}
	return code
}

// one draws one job and writes its files, all or none.
func (o *drawOrder) one(ctx context.Context, c *console, name string) int {
	w, code := load(ctx, c, name, o.name, o.manner)
	if code != exitOK {
		return code
	}
	files, err := o.outputs(w)
	if err != nil {
		c.say("oxturn: %s: %v", name, err)
		return exitUsage
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

// outputs makes the files, of the reader's sheets where one is named.
func (o *drawOrder) outputs(w *work) ([]file, error) {
	if o.reader != "" {
		w.sheets, _ = sheets.For(w.sheets, o.reader)
	}
	return outputs(w, o.only)
}

// pour draws one job and writes its only file to the output.
func (o *drawOrder) pour(ctx context.Context, c *console, name string) int {
	w, code := load(ctx, &console{In: c.In, Out: c.Err, Err: c.Err, Colour: c.Colour}, name, o.name, o.manner)
	if code != exitOK {
		return code
	}
	files, err := o.outputs(w)
	if err == nil {
		_, err = c.Out.Write(files[0].data)
	}
	if err != nil {
		c.say("oxturn: %s: %v", name, err)
		return exitUsage
	}
	return exitOK
}

// summary says what was drawn: one line of many jobs, else six.
func (o *drawOrder) summary(c *console, w *work, files []file) {
	if o.brief {
		c.say("%s: %s; files: %d", w.source.name, briefLine(w.plan), len(files))
		return
	}
	for _, line := range summaryLines(w.plan) {
		c.say("%s", line)
	}
	if len(w.sheets) > 0 {
		c.say("%s", paperLine(w.sheets))
	}
	var names []string
	for _, f := range files {
		names = append(names, f.name)
	}
	c.say("files    %s: %s", filepath.Clean(o.dir), strings.Join(names, ", "))
}
