package main

import (
	"os"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/job"
)

// TestRunsAreCountedInWhatIsThere: where strips hold the cable there are no pegs to count.
func TestRunsAreCountedInWhatIsThere(t *testing.T) {
	for file, want := range map[string][2]string{
		"../../testdata/jobs/entry.toml":            {"pegs", "pegs to the next"},
		"../../drawing/sheets/testdata/strips.toml": {"in", "clips to the next"},
	} {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		j, report := job.Read(file, data, func(name string) ([]byte, error) {
			return os.ReadFile("../../testdata/jobs/" + name)
		})
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		p, _ := build.Lay(j, build.Search{})
		table := runTable(p)
		if got := [2]string{table.Columns[4], table.Columns[5]}; got != want || len(table.Rows) == 0 {
			t.Errorf("%s: runs in %v, %d rows, not in %v", file, got, len(table.Rows), want)
		}
	}
}
