// Package golden holds what tests draw against what was taken for good, and
// shows both side by side where they differ.
package golden

import (
	"bytes"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var updateFlag = flag.Bool("update", false,
	"take what is written now for good: golden files, and the schemas beside the "+
		"examples")

// Update reports whether the test is to take what it has now for good.
func Update() bool { return *updateFlag }

// Files compares files, by their names, with those kept in folder, where
// nothing else may be; -update takes the new ones. Either way what has changed
// is put on a page.
func Files(t *testing.T, folder string, files map[string][]byte) {
	t.Helper()
	var page changes
	for _, name := range slices.Sorted(maps.Keys(files)) {
		page = file(t, page, filepath.Join(folder, name), files[name])
	}
	if path := page.write(t); path != "" {
		t.Logf("before and after: %s", path)
	}
	noneLeftOver(t, folder, files)
}

// file compares one file with the kept one, and adds it to the page when it has
// changed.
func file(t *testing.T, page changes, path string, data []byte) changes {
	t.Helper()
	want, err := os.ReadFile(path)
	if err != nil && !*updateFlag {
		t.Errorf("%v; where it is new: -update", err)
	}
	if err == nil && bytes.Equal(data, want) {
		return page
	}
	switch {
	case *updateFlag:
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
	case err == nil:
		t.Errorf("%s has changed, first at %s\nlook at the new one, and run the same test with -update", path,
			firstDifference(data, want))
	}
	return append(page, change{filepath.Base(path), want, data})
}

// firstDifference names the first line in which a and b differ.
func firstDifference(a, b []byte) string {
	la, lb := strings.Split(string(a), "\n"), strings.Split(string(b), "\n")
	for i := range min(len(la), len(lb)) {
		if la[i] != lb[i] {
			return fmt.Sprintf("line %d: %.120q, was %.120q", i+1, la[i], lb[i])
		}
	}
	return fmt.Sprintf("line %d", min(len(la), len(lb))+1)
}

// noneLeftOver checks that every kept file is still drawn; -update removes one
// that is not.
func noneLeftOver(t *testing.T, folder string, files map[string][]byte) {
	t.Helper()
	kept, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range kept {
		if _, drawn := files[e.Name()]; drawn {
			continue
		}
		if !*updateFlag {
			t.Errorf("%s is kept in %s but no longer drawn", e.Name(), folder)
		} else if err := os.Remove(filepath.Join(folder, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
}
