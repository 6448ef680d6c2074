package job

import (
	"os"
	"path/filepath"
	"testing"
)

// readGood reads a file that must have nothing wrong.
func readGood(t *testing.T, path string) *Job {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	j, report := Read(path, data, func(name string) ([]byte, error) {
		return os.ReadFile(filepath.Join(filepath.Dir(path), name))
	})
	if report.Errors()+report.Warnings() > 0 {
		report.Human(os.Stderr, false)
		t.Fatalf("%s: %s", path, report.Summary())
	}
	return j
}

func TestGoodFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/good/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no good files", err)
	}
	examples, _ := filepath.Glob("../../testdata/jobs/*.toml")
	for _, f := range append(files, examples...) {
		if filepath.Base(f) == "cables.toml" {
			continue
		}
		if j := readGood(t, f); len(j.Rooms) == 0 || len(j.Rooms[0].Walls) < 3 {
			t.Errorf("%s: no room read", f)
		}
	}
}
