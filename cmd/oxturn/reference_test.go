package main

import (
	"strings"
	"testing"

	"oxturn/layout/job"
)

// TestHelpOnEveryKey asks for each key by its path: what it is, an example and
// where it belongs are said, within a terminal's width.
func TestHelpOnEveryKey(t *testing.T) {
	for _, k := range job.Keys() {
		text := keyHelp(k.Path)
		for _, want := range []string{strings.Fields(k.Doc)[0], lastLine(k.Example)} {
			if !isTable(k) && !strings.Contains(text, want) {
				t.Errorf("%s: %q is not in\n%s", k.Path, want, text)
			}
		}
		if isTable(k) && !strings.HasPrefix(text, k.Header()) || !isTable(k) &&
			(!strings.Contains(text, "  belongs  ") || !strings.Contains(text, "  takes  ")) {
			t.Errorf("%s:\n%s", k.Path, text)
		}
		if keyHelp(k.Name()) == "" {
			t.Errorf("%s is not found by its name", k.Path)
		}
	}
}

// TestHelpFlagsOfManyLines: a flag whose text takes several lines hides none of
// those after it.
func TestHelpFlagsOfManyLines(t *testing.T) {
	v, _ := verbNamed("probe")
	var names []string
	for _, f := range helpFlags(v) {
		names = append(names, f.name)
	}
	if got := strings.Join(names, " "); !strings.HasPrefix(got, "--from --at --tile --wall --up --room --plan") ||
		!strings.HasSuffix(got, "--time-limit") {
		t.Error(got)
	}
}
