package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"oxturn/drawing/pdf"
	"oxturn/layout/passport"
)

// mebibyte is by how many bits bytes are shifted to be counted in MiB.
const mebibyte = 20

// readLimit keeps a wrong file from filling memory. A job file's own limit is
// far below it and said by the reader of jobs. A PDF with photos may have more.
const (
	readLimit = 16 << 20
	pdfLimit  = 48 << 20
)

// A source is a job file as read, the one that a PDF carries, or what a
// label's code says.
type source struct {
	name string // for messages, as the user wrote it
	base string // NAME of the outputs
	data []byte
	open func(name string) ([]byte, error) // reads the files that the job names

	file  string             // what the job file is called in a PDF
	kept  *kept              // what was read by open
	drawn *packed            // of a job out of a PDF: what else it carries; nil: of a file
	label *passport.Passport // of the text of a label's code; nil: of a file
}

// readSource reads a job file, or the standard input for "-". base, where not
// empty, is what the outputs are called instead. A person or a pipe may keep it
// waiting: it waits no longer than ctx.
func readSource(ctx context.Context, in io.Reader, name, base string) (s source, err error) {
	done := make(chan struct{})
	var read source
	var failed error
	go func() {
		defer close(done)
		read, failed = readWhole(in, name, base)
	}()
	select {
	case <-done:
		return read, failed
	case <-ctx.Done():
		return s, ctx.Err()
	}
}

func readWhole(in io.Reader, name, base string) (source, error) {
	s := source{name: name, base: base}
	if base == "" {
		s.base = baseName(name)
	}
	var err error
	if name == "-" {
		s.name, s.file = "standard input", s.base+".toml"
		s.data, err = readAll(in, s.name)
	} else {
		s.file = filepath.Base(name)
		s.data, err = readFile(name)
	}
	switch {
	case err == nil && pdf.Is(s.data):
		return s, s.unpack()
	case err == nil && passport.Is(s.data):
		return s, s.readLabel()
	}
	s.keepOpened(opener(name))
	return s, err
}

// readLabel puts a job that says what a label's code says in the place of its text.
func (s *source) readLabel() (err error) {
	if s.label, err = passport.Read(s.data); err != nil {
		return fmt.Errorf("%s: %w", s.name, err)
	}
	s.data = s.label.Job()
	s.keepOpened(func(string) ([]byte, error) { return nil, errors.New("a label names no files") })
	return nil
}

// bytes reads what a word of the command line names.
func (c *commandLine) bytes(name string) ([]byte, error) {
	if name == "-" {
		return readAll(c.In, "standard input")
	}
	return readFile(name)
}

func readFile(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, plainError(name, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, fmt.Errorf("%s is a folder, not a job file", name)
	}
	return readAll(f, name)
}

func readAll(r io.Reader, name string) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, pdfLimit+1))
	if err != nil {
		return nil, plainError(name, err)
	}
	limit := readLimit
	if pdf.Is(data) {
		limit = pdfLimit
	}
	if len(data) > limit {
		return nil, fmt.Errorf("%s is larger than %d MiB; that is no job file", name, limit>>mebibyte)
	}
	return data, nil
}

// plainError words what went wrong with a file the way a person would.
func plainError(name string, err error) error {
	var pe *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if near := nearFile(name); near != "" {
			return fmt.Errorf("there is no file %s; did you mean %s?", name, near)
		}
		return fmt.Errorf("there is no file %s", name)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s may not be read: permission denied", name)
	case errors.As(err, &pe):
		return fmt.Errorf("%s: %w", name, pe.Err)
	}
	return fmt.Errorf("%s: %w", name, err)
}

// opener reads the catalogue a job names, from where the job lies. Only plain
// files: a pipe or a device might never end.
func opener(job string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		if !filepath.IsAbs(name) {
			name = filepath.Join(filepath.Dir(job), name)
		}
		info, err := os.Stat(name)
		if near := nearFile(name); err != nil && near != "" {
			return nil, fmt.Errorf("there is no such file; did you mean %q?", filepath.Base(near))
		}
		if err != nil {
			return nil, err
		}
		if !info.Mode().IsRegular() {
			return nil, errors.New("it is not a plain file")
		}
		data, err := readFile(name)
		if err == nil && pdf.Is(data) {
			return layoutIn(name, data) // the only thing of a PDF that a job may name
		}
		return data, err
	}
}

// readPlan reads a layout file, the one that a PDF carries, or what a
// label's code says.
func readPlan(name string) ([]byte, error) {
	data, err := readFile(name)
	if err == nil && pdf.Is(data) {
		return layoutIn(name, data)
	}
	return data, err
}

// stdinName is what the outputs of a job from the standard input are called.
const stdinName = "job"

// baseName is the NAME of the outputs: the job file's without folder and
// ending, so nothing a job says can lead out of the output folder.
func baseName(path string) string {
	if path == "-" {
		return stdinName
	}
	n := filepath.Base(path)
	n = strings.TrimSuffix(n, filepath.Ext(n))
	if checkName(n) != nil {
		return stdinName
	}
	return n
}

// longestName bytes of a file's name leave room for what is added to it.
const longestName = 200

// checkName reports what keeps a name from being part of a file's name.
func checkName(n string) error {
	odd := func(r rune) bool { return r == '/' || r == '\\' || unicode.IsControl(r) }
	switch {
	case strings.Trim(n, ". ") == "":
		return fmt.Errorf("%q is no name for a file", n)
	case strings.ContainsFunc(n, odd):
		return fmt.Errorf("%q has characters that no file's name may have", n)
	case len(n) > longestName:
		return fmt.Errorf("a name of %d bytes is too long for a file", len(n))
	}
	return nil
}
