package job

import (
	"regexp"
	"strings"
	"testing"
)

// TestExplanations tries the bad and the good example of every warning.
func TestExplanations(t *testing.T) {
	for _, e := range Explanations() {
		if !warns(t, e.Bad, e.ID) {
			t.Errorf("%s: its bad example does not give it", e.ID)
		}
		if warns(t, e.Good, e.ID) {
			t.Errorf("%s: its good example gives it", e.ID)
		}
		if len(e.Text) < 80 || e.Title == "" {
			t.Errorf("%s is not explained", e.ID)
		}
	}
}

// warns reports whether a piece of a job gives a warning in an otherwise whole
// job, and fails when it gives anything else.
func warns(t *testing.T, piece, id string) bool {
	t.Helper()
	text := "units = \"mm\"\n[membrane]\npitch = 30\n"
	if !strings.Contains(piece, "[[cable]]") {
		text = head
	}
	room := "\n[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n"
	if strings.Contains(piece, "[[room]]") {
		room = ""
	}
	text += piece + room + strings.Replace(tail, "100", "1200", 1)
	if at := strings.Index(piece, "[[as_laid]]"); at >= 0 { // after its room
		text = head + room + strings.Replace(tail, "100", "1200", 1) + piece
	}
	_, report := Read("job.toml", []byte(text), opener("testdata/good"))
	report.Finish()
	found := false
	for _, d := range report.Diagnostics() {
		if d.ID == id {
			found = true
		} else {
			t.Errorf("%s: its example gives %q", id, d.Message)
		}
	}
	return found
}

// TestEveryWarningIsExplained compares the names in the code with the table.
func TestEveryWarningIsExplained(t *testing.T) {
	known := map[string]bool{}
	for _, e := range Explanations() {
		known[e.ID] = true
	}
	used := map[string]bool{}
	for _, file := range goFiles(t) {
		for _, m := range regexp.MustCompile(`Warnf\("(W\d{3})"|ID: "(W\d{3})"`).FindAllStringSubmatch(file, -1) {
			used[m[1]+m[2]] = true
		}
	}
	for id := range used {
		if !known[id] {
			t.Errorf("%s is not explained", id)
		}
	}
	for id := range known {
		if !used[id] {
			t.Errorf("%s is explained but never given", id)
		}
	}
}

func TestAllowedWarnings(t *testing.T) {
	room := "[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\nmeasured_to = \"stud\"\n" +
		tail
	allow := "[[allow]]\nid = \"W003\"\nreason = \"lined already\"\n"
	_, report := readText(head + allow + room)
	if report.Finish(); report.Warnings() != 0 {
		t.Errorf("an allowed warning is given:\n%s", human(report))
	}
	_, report = readText(head + strings.Replace(allow, "W003", "W007", 1) + strings.Replace(room, "\"stud\"",
		"\"\\x66inish\"", 1))
	if report.Finish(); report.Warnings() != 0 {
		t.Errorf("an allowed warning of the file's form is given:\n%s", human(report))
	}
	_, report = readText(head + strings.Replace(allow, "W003", "E1", 1) + room)
	if report.Errors() != 1 || report.Warnings() != 1 {
		t.Errorf("allowing what is no warning:\n%s", human(report))
	}
	_, report = readText(head + "[[allow]]\nid = \"W003\"\n" + room)
	if report.Errors() != 1 {
		t.Errorf("allowing without a reason:\n%s", human(report))
	}
}
