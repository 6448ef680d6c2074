package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
)

// A file is one output, whole in memory before anything is written.
type file struct {
	name string // within the output folder
	data []byte
}

// A folder is where outputs go. Every job's files are staged in a folder of
// their own inside it and moved into place only when all are safe on the disk,
// so that whoever looks, at any moment, sees whole files.
type folder struct {
	dir   string
	swept sync.Once

	mu     sync.RWMutex // held for reading while writing
	closed bool
}

// checkFolder refuses what can hardly be meant as a folder to write to: the
// output, or a name with the ending of a drawing. Empty is none.
func checkFolder(dir string) error {
	ending := strings.ToLower(filepath.Ext(dir))
	drawing := slices.Contains([]string{".pdf", ".svg", ".csv", ".json", ".html"}, ending)
	if dir != "-" && (!drawing || isFolder(dir)) {
		return nil
	}
	return fmt.Errorf("-o %s: it takes a folder; one file alone comes with oxturn draw JOB.toml --only pdf -o - > "+
		"plan.pdf", dir)
}

// stagePrefix begins the names of staging folders.
const stagePrefix = ".oxturn-"

// close waits for writing under way and forbids more. Called when a run is
// interrupted.
func (o *folder) close() {
	o.mu.Lock()
	o.closed = true
	o.mu.Unlock()
}

// write puts every file in the folder, all or none. Files that are there
// already with the same bytes are left alone.
func (o *folder) write(files []file) error {
	o.mu.RLock()
	defer o.mu.RUnlock()
	if o.closed {
		return errors.New("interrupted")
	}
	if err := checkNames(files); err != nil {
		return err
	}
	if err := os.MkdirAll(o.dir, 0o777); err != nil {
		return writeError(o.dir, err)
	}
	o.swept.Do(func() { sweep(o.dir) })
	s, err := newStage(o.dir)
	if err != nil {
		return writeError(o.dir, err)
	}
	defer s.remove()
	if err := s.fill(files); err != nil {
		return err
	}
	return s.publish(files)
}

// checkNames refuses names that would lie outside the folder or hide in it.
func checkNames(files []file) error {
	for _, f := range files {
		if err := checkName(f.name); err != nil || f.name != filepath.Base(f.name) || !filepath.IsLocal(f.name) {
			return fmt.Errorf("%q is no name for an output", f.name)
		}
	}
	return nil
}

// writeError words what went wrong with writing the way a person would.
func writeError(name string, err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		err = pe.Err
	}
	return fmt.Errorf("cannot write to %s: %w", name, err)
}

// A stage is a locked folder in which files wait until all are safe. The lock
// tells one that is in use from one whose run was killed.
type stage struct {
	dir, path string
	unlock    func()
}

func newStage(dir string) (*stage, error) {
	for {
		path, err := os.MkdirTemp(dir, stagePrefix)
		if err != nil {
			return nil, err
		}
		unlock, err := lock(path, true)
		if err == nil {
			if _, err = os.Stat(path); err == nil {
				return &stage{dir, path, unlock}, nil
			}
			unlock()
		}
		// another run took it for litter before it was locked: again
		if !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, errLocked) {
			os.Remove(path)
			return nil, err
		}
	}
}

func (s *stage) remove() {
	os.RemoveAll(s.path)
	s.unlock()
}

// fill writes every file into the stage and makes it safe.
func (s *stage) fill(files []file) error {
	for _, f := range files {
		if err := writeSafe(filepath.Join(s.path, f.name), f.data); err != nil {
			return writeError(filepath.Join(s.dir, f.name), err)
		}
	}
	return nil
}

// fileMode is of every file that is written; the system's own mask takes off from it.
const fileMode = 0o666

// writeSafe writes a new file and waits until the disk has it.
func writeSafe(name string, data []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, fileMode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	return err
}

// publish moves the files into place, one run at a time, so that two runs of
// different jobs of the same name leave one job's files and not a mixture.
func (s *stage) publish(files []file) error {
	unlock, err := lock(s.dir, false)
	if err != nil {
		return writeError(s.dir, err)
	}
	defer unlock()
	for _, f := range files {
		place := filepath.Join(s.dir, f.name)
		if info, err := os.Lstat(place); err == nil && info.IsDir() {
			return fmt.Errorf("cannot write %s: a folder of that name is there", place)
		}
	}
	for _, f := range files {
		place := filepath.Join(s.dir, f.name)
		if same(place, f.data) {
			continue
		}
		if err := os.Rename(filepath.Join(s.path, f.name), place); err != nil {
			return writeError(place, err)
		}
	}
	return syncFolder(s.dir)
}

// same reports whether a plain file holds these bytes.
func same(name string, data []byte) bool {
	info, err := os.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(data)) {
		return false
	}
	old, err := os.ReadFile(name)
	return err == nil && bytes.Equal(old, data)
}

// exists reports whether something is there, whatever it is.
func exists(name string) bool {
	_, err := os.Lstat(name)
	return err == nil
}

// sweep removes what runs that were killed left in a folder.
func sweep(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		path := filepath.Join(dir, e.Name())
		if !e.IsDir() || !strings.HasPrefix(e.Name(), stagePrefix) {
			continue
		}
		if unlock, err := lock(path, true); err == nil {
			os.RemoveAll(path)
			unlock()
		}
	}
}
