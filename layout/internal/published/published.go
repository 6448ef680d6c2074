// Package published reads the figures of testdata/tables for tests: check
// values that were computed or published outside the project.
package published

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"oxturn/layout/internal/module"
)

// Table returns the rows of a file of testdata/tables, its heads left out. Its
// sources stand in the file's own comments.
func Table(t testing.TB, name string) [][]float64 {
	t.Helper()
	_, rows := read(t, name)
	return rows
}

// read returns a file's heads and its rows.
func read(t testing.TB, name string) (heads []string, rows [][]float64) {
	t.Helper()
	f, err := os.Open(module.Testdata(t, "tables", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	cells, err := r.ReadAll()
	if err != nil || len(cells) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(cells), err)
	}
	for _, row := range cells[1:] {
		figures, err := parse(row)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		rows = append(rows, figures)
	}
	return cells[0], rows
}

func parse(row []string) ([]float64, error) {
	var out []float64
	for _, cell := range row {
		v, err := strconv.ParseFloat(cell, 64)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, nil
}

// Near fails the test unless got is within tolerance of want.
func Near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if err := Off(what, got, want, tolerance); err != nil {
		t.Error(err)
	}
}

// Off is an error unless got is within tolerance of want.
func Off(what string, got, want, tolerance float64) error {
	if math.Abs(got-want) <= tolerance {
		return nil
	}
	return fmt.Errorf("%s: got %.6g, want %.6g within %.2g", what, got, want, tolerance)
}
