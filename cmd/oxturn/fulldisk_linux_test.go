package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"oxturn/layout/skip"
)

// TestFullDisk writes to a file system that is too small: the old files stay
// as they were and nothing is left behind.
func TestFullDisk(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("oxturn-test", dir, "tmpfs", 0, "size=2300k"); err != nil {
		skip.Test(t, skip.NoMount, err)
	}
	defer syscall.Unmount(dir, syscall.MNT_DETACH)
	if err := (&folder{dir: dir}).write(set('A')); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "other"), bytes.Repeat([]byte("o"), 200<<10), 0o644); err != nil {
		t.Fatal(err)
	}
	free := bytes.Repeat([]byte("f"), 200<<10)
	for i := 0; os.WriteFile(filepath.Join(dir, fmt.Sprintf("z%d", i)), free, 0o644) == nil; i++ {
		if i > 20 {
			t.Fatal("the file system is not small")
		}
	}
	removeBroken(t, dir)
	err := (&folder{dir: dir}).write(set('B'))
	if !errors.Is(err, syscall.ENOSPC) {
		t.Fatalf("error %v, want no space", err)
	}
	if got, litter := letters(t, dir); !strings.HasPrefix(got, "AAAAA") || litter != 0 {
		t.Errorf("files %s, %d staging folders", got, litter)
	}
}

// removeBroken removes the file that filled the disk.
func removeBroken(t *testing.T, dir string) {
	t.Helper()
	found, _ := filepath.Glob(filepath.Join(dir, "z*"))
	for _, f := range found {
		if info, err := os.Stat(f); err == nil && info.Size() != 200<<10 {
			os.Remove(f)
		}
	}
}
