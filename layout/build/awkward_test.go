package build_test

import (
	"os"
	"path/filepath"
	"testing"

	"oxturn/layout/internal/trial"
)

// Rooms as people type them from the reference are planned to the end: what is warmed of
// them is covered, and no cable is refused.
func TestAwkwardRoomsAreLaid(t *testing.T) {
	files, err := filepath.Glob("../job/testdata/awkward/*.toml")
	if err != nil || len(files) < 17 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			p, said := trial.Said(t, string(text))
			for i := range p.Rooms {
				if r := &p.Rooms[i]; len(r.Cables) == 0 {
					t.Errorf("%s has no cable: %v", r.Job.Name, said[""])
				}
			}
		})
	}
}
