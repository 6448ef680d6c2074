package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const goldenFolder = "../../testdata/golden"

// The examples are drawn whole. Layouts, take-offs, cable plans and all sheets
// of the bath are kept as they are, to be read and looked at; of the other
// sheets a sum shows that one has changed. -update takes the new ones for good.
// Either way what has changed is put on a page, kept and new side by side.
func TestGolden(t *testing.T) {
	out := t.TempDir()
	args := []string{"draw", "-o", out, "--only", "layout,svg,takeoff"}
	for _, n := range []string{"bath", "kitchen", "entry"} {
		args = append(args, "../../testdata/jobs/"+n+".toml")
	}
	var said bytes.Buffer
	if code := Run(context.Background(), args, strings.NewReader(""), io.Discard, &said); code != exitOK {
		t.Fatalf("exit code %d:\n%s", code, said.String())
	}
	entries, err := os.ReadDir(out)
	if err != nil {
		t.Fatal(err)
	}
	var sums bytes.Buffer
	var names []string
	var page changes
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(out, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, e.Name())
		if keptWhole(e.Name()) {
			page = golden(t, page, e.Name(), data)
			continue
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(data), e.Name())
	}
	page = golden(t, page, "sums.txt", sums.Bytes())
	if path := page.write(t); path != "" {
		t.Logf("before and after: %s", path)
	}
	noneLeftOver(t, append(names, "sums.txt"))
}

func keptWhole(name string) bool {
	return strings.HasSuffix(name, ".layout.json") || strings.HasSuffix(name, "-takeoff.csv") ||
		strings.HasSuffix(name, ".svg") && strings.HasPrefix(name, "bath-") ||
		strings.Contains(name, "-cable-plan-") && !strings.Contains(name, "-notes")
}

// golden compares one output with what was taken for good, and adds it to the
// page when it has changed.
func golden(t *testing.T, page changes, name string, data []byte) changes {
	t.Helper()
	path := filepath.Join(goldenFolder, name)
	want, err := os.ReadFile(path)
	if err != nil && !*update {
		t.Fatal(err)
	}
	if bytes.Equal(data, want) {
		return page
	}
	if !*update {
		t.Errorf("%s has changed, first at %s\nlook at the new one, and run: go test ./cmd/oxturn -run Golden -update", name, firstDifference(data, want))
	} else if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return append(page, change{name, want, data})
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

// noneLeftOver checks that every kept file is still drawn.
func noneLeftOver(t *testing.T, names []string) {
	t.Helper()
	kept, err := os.ReadDir(goldenFolder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range kept {
		if !slices.Contains(names, e.Name()) {
			t.Errorf("%s is kept but no longer drawn", e.Name())
		}
	}
}
