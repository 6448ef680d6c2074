package layout_test

import (
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
)

// TestExplanations tries the bad and the good example of every warning.
func TestExplanations(t *testing.T) {
	for _, e := range layout.Explanations() {
		for text, want := range map[string]bool{e.Bad: true, e.Good: false} {
			head := "units = \"mm\"\n"
			if !strings.HasPrefix(text, "[membrane]") {
				head += "[membrane]\npitch = 30\n"
			}
			j, report := job.Read("job.toml", []byte(head+text), nil)
			if report.Errors() > 0 {
				t.Fatalf("%s: %v", e.ID, report.Diagnostics())
			}
			_, found := build.Plan(j)
			got := false
			for _, d := range found {
				got = got || d.ID == e.ID
			}
			if got != want || len(found) > 1 {
				t.Errorf("%s: given %v, want %v: %v", e.ID, got, want, found)
			}
		}
	}
}
