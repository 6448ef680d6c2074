package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// A file is one output, whole in memory before anything is written.
type file struct {
	name string // within the output folder
	data []byte
}

// writeAll puts every file in dir, each whole: all are written beside their
// places first, and only when all are safe are they renamed. On an error the
// old files are as they were and nothing is left behind.
func writeAll(dir string, files []file) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	var staged []string
	defer func() {
		for _, t := range staged {
			os.Remove(t)
		}
	}()
	for _, f := range files {
		t, err := stage(dir, f)
		if t != "" {
			staged = append(staged, t)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", filepath.Join(dir, f.name), err)
		}
	}
	for i, f := range files {
		if err := os.Rename(staged[i], filepath.Join(dir, f.name)); err != nil {
			return err
		}
	}
	return nil
}

// stage writes f to a temporary file in dir and syncs it.
func stage(dir string, f file) (name string, err error) {
	t, err := os.CreateTemp(dir, ".oxturn-*")
	if err != nil {
		return "", err
	}
	_, err = t.Write(f.data)
	if err == nil {
		err = t.Sync()
	}
	if cerr := t.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Chmod(t.Name(), 0o644)
	}
	return t.Name(), err
}

// baseName is the NAME of the outputs: the job file's without folder and
// ending, so nothing a job says can lead out of the output folder.
func baseName(path string) string {
	n := filepath.Base(path)
	return strings.TrimSuffix(n, filepath.Ext(n))
}
