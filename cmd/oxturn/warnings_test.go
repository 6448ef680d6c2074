package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var warningID = regexp.MustCompile(`Warnf\("(W\d{3})"|ID:\s*"(W\d{3})"`)

// TestEveryWarningIsExplained finds the names of warnings in all the code and
// compares them with what explain knows.
func TestEveryWarningIsExplained(t *testing.T) {
	known := map[string]bool{}
	for _, e := range explanations() {
		if known[e.ID] {
			t.Errorf("%s is explained twice", e.ID)
		}
		known[e.ID] = true
		if len(e.Text) < 80 || e.Title == "" || e.Bad == "" {
			t.Errorf("%s is not explained at length", e.ID)
		}
	}
	used := usedIDs(t)
	for id := range used {
		if !known[id] {
			t.Errorf("%s is given in %s but not explained", id, used[id])
		}
	}
	for id := range known {
		if used[id] == "" {
			t.Errorf("%s is explained but never given", id)
		}
	}
}

// usedIDs are the names in the code outside of explanations, with a file each.
func usedIDs(t *testing.T) map[string]string {
	t.Helper()
	used := map[string]string{}
	err := filepath.WalkDir("../..", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		data, err := os.ReadFile(path)
		for _, line := range strings.Split(string(data), "\n") {
			if strings.Contains(line, "Title:") {
				continue
			}
			for _, m := range warningID.FindAllStringSubmatch(line, -1) {
				used[m[1]+m[2]] = path
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(used) < 6 {
		t.Fatalf("only %d warnings found in the code", len(used))
	}
	return used
}

// TestOwnExamples tries the examples of the warnings that need the whole job.
func TestOwnExamples(t *testing.T) {
	for _, e := range ownExplanations() {
		for _, x := range []struct {
			piece string
			gives bool
		}{{e.Bad, true}, {e.Good, false}} {
			_, said, code := call(t, "check", jobFile(t, strings.Replace(tinyJob, "[membrane]", x.piece+"\n[membrane]",
				1)))
			if code != exitOK || strings.Contains(said, e.ID) != x.gives {
				t.Errorf("%s: exit code %d, want the warning: %v\n%s", e.ID, code, x.gives, said)
			}
		}
	}
}
