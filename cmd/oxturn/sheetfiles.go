package main

import (
	"bytes"
	"fmt"
	"io"

	"oxturn/drawing"
	"oxturn/drawing/svg"
)

// A fileSet gathers the files that are made of one job, in memory, so that all are
// written or none.
type fileSet struct {
	base  string // NAME, what all their names begin with
	files []file
	err   error // the first that could not be made
}

// add makes one file; suffix is what its name has after NAME.
func (s *fileSet) add(suffix string, write func(io.Writer) error) {
	if s.err != nil {
		return
	}
	var b bytes.Buffer
	if s.err = write(&b); s.err == nil {
		s.files = append(s.files, file{s.base + suffix, b.Bytes()})
	}
}

// pdf makes the PDF of some sheets of a work.
func (s *fileSet) pdf(set []*drawing.Sheet, w *work) {
	s.add(".pdf", func(to io.Writer) error { return w.writePDF(to, set) })
}

func (s *fileSet) svg(suffix string, sheet *drawing.Sheet) {
	s.add(suffix+".svg", func(to io.Writer) error { return svg.Write(to, sheet) })
}

// drawn makes the PDF of some sheets and an SVG of each: NAME, NAME-2 and so on.
func (s *fileSet) drawn(set []*drawing.Sheet, w *work) {
	s.pdf(set, w)
	for i, sheet := range set {
		suffix := ""
		if i > 0 {
			suffix = fmt.Sprintf("-%d", i+1)
		}
		s.svg(suffix, sheet)
	}
}

// writeSet writes what a verb has drawn into a folder, and says the names.
func (c *commandLine) writeSet(s *fileSet, dir string) int {
	if s.err != nil {
		return c.stop(exitJob, notDrawn(s.err))
	}
	to := &folder{dir: dir}
	defer to.close()
	if err := to.write(s.files); err != nil {
		return c.fail(fmt.Errorf("nothing was written: %w", err))
	}
	for _, f := range s.files {
		c.say("drawn    %s", f.name)
	}
	return exitOK
}

func notDrawn(err error) error { return fmt.Errorf("nothing was drawn: %w", err) }
