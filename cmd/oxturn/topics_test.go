package main

import (
	"context"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"oxturn/drawing/sheets"
	"oxturn/layout/plane"
)

// TestSheetsTopic finds every sheet of an example in the topic on sheets.
func TestSheetsTopic(t *testing.T) {
	s, err := readSource(context.Background(), os.Stdin, "../../testdata/jobs/bath.toml", "")
	if err != nil {
		t.Fatal(err)
	}
	w, err := do(context.Background(), s, workOptions{timeLimit: time.Minute})
	if err != nil || len(w.sheets) == 0 {
		t.Fatal(err, w.report.Diagnostics())
	}
	var named []string
	for _, m := range regexp.MustCompile(`(?m)^  ([a-z-]+)  `).FindAllStringSubmatch(topicText("sheets"), -1) {
		named = append(named, m[1])
	}
	for _, sheet := range w.sheets {
		found := false
		for _, n := range named {
			found = found || strings.HasPrefix(sheet.ID, n)
		}
		if !found {
			t.Errorf("sheet %s is not in the topic; it has %v", sheet.ID, named)
		}
	}
}

// TestUnitsTopic reads each length that the topic on units shows.
func TestUnitsTopic(t *testing.T) {
	n := 0
	for _, line := range strings.Split(topicText("units"), "\n") {
		if !strings.HasPrefix(line, `  "`) {
			continue
		}
		for _, m := range regexp.MustCompile(`"((?:[^"\\]|\\.)*)"`).FindAllStringSubmatch(line, -1) {
			n++
			if _, err := plane.ParseLength(strings.ReplaceAll(m[1], `\"`, `"`), plane.NoUnits); err != nil {
				t.Error(err)
			}
		}
	}
	if n < 8 {
		t.Errorf("only %d lengths found in the topic", n)
	}
}

// TestTopicsFitAScreen keeps topics to what is read at once, and their lines to
// the width of a terminal.
func TestTopicsFitAScreen(t *testing.T) {
	for _, name := range topicNames() {
		lines := strings.Split(topicText(name), "\n")
		most := 30
		if name == "sheets" {
			most = len(sheets.Kinds()) + 12 // a line a kind, and whom they are for
		}
		if name != "job-file" && len(lines) > most {
			t.Errorf("%s has %d lines", name, len(lines))
		}
		for _, l := range lines {
			if name != "job-file" && len([]rune(l)) > 82 {
				t.Errorf("%s has a line of %d characters: %s", name, len([]rune(l)), l)
			}
		}
	}
}
