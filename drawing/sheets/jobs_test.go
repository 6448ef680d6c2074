package sheets

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/layout"
)

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
			d := fileDrawn(t, f)
			d.checked(t)
			write(t, name, d.set)
			checkScales(t, d.plan, d.set)
		})
	}
}

// fileDrawn plans and draws a job file, an example once for all tests.
func fileDrawn(t *testing.T, path string) drawnSet {
	t.Helper()
	if name := strings.TrimSuffix(filepath.Base(path), ".toml"); path == exampleFile(name) {
		return example(t, name)
	}
	d, err := draw(readPlan(t, path))
	if err != nil {
		t.Fatal(err)
	}
	return d
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
