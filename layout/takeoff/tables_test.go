package takeoff

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"oxturn/layout/plane"
)

// table reads the figures of a file of testdata/tables. Its sources stand in
// the file's own head.
func table(t *testing.T, name string) [][]float64 {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "tables", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(rows), err)
	}
	var out [][]float64
	for _, row := range rows[1:] {
		var figures []float64
		for _, cell := range row {
			v, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			figures = append(figures, v)
		}
		out = append(out, figures)
	}
	return out
}

// near fails unless got is within tolerance of want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6g, want %.6g within %.2g", what, got, want, tolerance)
	}
}

// rect is a floor of w x h mm with a corner at the origin.
func rect(w, h float64) plane.Region {
	return plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(w, h)))
}
