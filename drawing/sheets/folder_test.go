package sheets

import (
	"flag"
	"path/filepath"
	"testing"

	"oxturn/layout/plane"
)

// jobsIn is a folder of jobs that every rule is held against on five papers, in both systems of
// units, at least that of the floor with photos: go test ./drawing/sheets -run TestSetsOfAFolder -jobs FOLDER.
var jobsIn = flag.String("jobs", "../../testdata/photos", "hold the rules of sheets against all jobs of this folder")

// TestSetsOfAFolder: the rules of sheets hold for jobs that were not drawn up for them.
func TestSetsOfAFolder(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(*jobsIn, "*.toml"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no jobs in %s: %v", *jobsIn, err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			p, err := plannedFile(file)
			if err != nil {
				t.Log(err) // what is refused is not drawn
				return
			}
			for _, units := range []plane.Units{plane.Millimetres, plane.Inches} {
				for _, paper := range []string{"A4", "letter", "A3", "tabloid", "arch D"} {
					p.Job.Sheet.Size, p.Job.Sheet.Units = paper, units
					d, err := draw(p)
					if err != nil {
						t.Errorf("%s, %s: %v", paper, units, err)
						continue
					}
					t.Run(paper+" "+units.String(), d.checked)
				}
			}
		})
	}
}
