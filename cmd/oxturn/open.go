package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
)

const openHelp = `
A PDF that was drawn carries the job it was drawn from, the catalogue and the
prices that job names, and its layout file. This gives them back as files.

  oxturn open bath.pdf                lists what it carries
  oxturn open bath.pdf -o job         writes it there

Verbs that take a job take such a PDF for it too: oxturn probe bath.pdf. The
sheets of installer, electrician and owner carry neither prices nor comments.

Flags:
  -o DIR                 where to write; a file that is there and differs is
                         not written over
  --format FORMAT        text or json

Exit codes: 0 done, 1 no job is in the PDF, or it was changed, 2 usage or file
trouble.
`

// An openOrder is what the flags of open ask for.
type openOrder struct{ dir, format string }

func (o *openOrder) flags(f *verbFlags) {
	f.folder(&o.dir)
	f.format(&o.format)
}

func (o *openOrder) run(_ context.Context, c *commandLine) int {
	if len(c.args) != 1 {
		return c.misuse(fmt.Errorf("it takes one PDF, not %d files", len(c.args)))
	}
	if o.dir == "-" {
		return c.misuse(errors.New("-o takes a folder"))
	}
	data, err := c.bytes(c.args[0])
	if err != nil {
		return c.fail(err)
	}
	d, err := unpacked(data)
	if err != nil {
		return c.stop(exitJob, fmt.Errorf("%s: %w", c.args[0], err))
	}
	if o.dir != "" {
		if err := o.write(d); err != nil {
			return c.fail(fmt.Errorf("nothing was written: %w", err))
		}
	}
	if err := c.answer(o.format, d.WriteJSON, d.lines); err != nil {
		return c.fail(err)
	}
	return exitOK
}

// write writes all files, or none where one of that name is there and differs.
func (o *openOrder) write(d *packed) error {
	var files []file
	for _, f := range d.Files {
		files = append(files, file{f.File, d.data[f.File]})
		if place := filepath.Join(o.dir, f.File); exists(place) && !same(place, d.data[f.File]) {
			return fmt.Errorf("%s is there already and differs; take another folder", place)
		}
	}
	to := &folder{dir: o.dir}
	defer to.close()
	return to.write(files)
}

// lines list what a PDF carries, and where the job looks for it.
func (d *packed) lines() (out []string) {
	for _, f := range d.Files {
		s := fmt.Sprintf("%-24s %s", f.File, aboutRole[f.Role])
		if f.Named != "" && f.Named != f.File {
			s += fmt.Sprintf("; the job looks for it as %q", f.Named)
		}
		out = append(out, s)
	}
	if d.LeftOut != "" {
		out = append(out, "left out: "+d.LeftOut)
	}
	return append(out, "plan "+d.Plan)
}
