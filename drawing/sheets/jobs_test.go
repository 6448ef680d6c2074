package sheets

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
)

// readPlan reads and plans a job file, which must be sound.
func readPlan(t *testing.T, path string) *layout.Plan {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	open := func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(filepath.Dir(path), name)) }
	j, report := job.Read(filepath.Base(path), data, open)
	if j == nil || report.Errors() > 0 {
		t.Fatalf("%s: not a sound job", path)
	}
	p, ds := build.Plan(j)
	for _, d := range ds {
		if d.Severity == job.Error {
			t.Fatalf("%s: %s", path, d.Message)
		}
	}
	return p
}

func TestSetOfJobs(t *testing.T) {
	dir := os.Getenv("OXTURN_JOBS")
	if dir == "" {
		dir = "../../testdata/jobs"
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		name := strings.TrimSuffix(filepath.Base(f), ".toml")
		if name == "cables" {
			continue // a catalogue
		}
		t.Run(name, func(t *testing.T) {
			p := readPlan(t, f)
			set := checkedSet(t, p)
			write(t, name, set)
			checkScales(t, p, set)
		})
	}
}

// checkScales: where the job leaves paper and scale open, a room's membrane is drawn
// no smaller than its cable, on larger paper where that takes it.
func checkScales(t *testing.T, p *layout.Plan, set []*drawing.Sheet) {
	t.Helper()
	if p.Job.Sheet.Size != "" {
		return
	}
	for _, r := range p.Rooms {
		plan, membrane := sheet(t, set, floorplan.IdOf("cable-plan", &r)), sheet(t, set, floorplan.IdOf("membrane", &r))
		if membrane.Ratio > plan.Ratio {
			t.Errorf("%s: the membrane is drawn at 1:%g, the cable at 1:%g", r.Job.Name, membrane.Ratio, plan.Ratio)
		}
	}
}
