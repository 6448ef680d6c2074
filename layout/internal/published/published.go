// Package published reads the figures of testdata/tables for tests: check
// values that were computed or published outside the project.
package published

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"testing"
)

// Table returns the rows of a file of testdata/tables, its heads left out. Its
// sources stand in the file's own comments.
func Table(t testing.TB, name string) [][]float64 {
	t.Helper()
	_, here, _, _ := runtime.Caller(0)
	f, err := os.Open(filepath.Join(filepath.Dir(here), "..", "..", "..", "testdata", "tables", name))
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

// Near fails the test unless got is within tolerance of want.
func Near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6g, want %.6g within %.2g", what, got, want, tolerance)
	}
}
