package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"oxturn/layout/golden"
)

// TestGolden: the examples' layouts and take-offs stay as they are. Their sheets
// are held where they are drawn, in drawing/sheets.
func TestGolden(t *testing.T) {
	out := t.TempDir()
	args := []string{"draw", "-o", out, "--only", "layout,takeoff"}
	for _, n := range []string{"bath", "kitchen", "entry"} {
		args = append(args, "../../testdata/jobs/"+n+".toml")
	}
	var said bytes.Buffer
	if code := Run(context.Background(), args, strings.NewReader(""), io.Discard, &said); code != exitOK {
		t.Fatalf("exit code %d:\n%s", code, said.String())
	}
	entries, err := os.ReadDir(out)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	for _, e := range entries {
		if files[e.Name()], err = os.ReadFile(filepath.Join(out, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
	golden.Files(t, "../../testdata/golden", files)
}
