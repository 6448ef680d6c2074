package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// dense returns the whole matrix, for elimination.
func (a *matrix) dense() [][]float64 {
	n := len(a.diag)
	out := make([][]float64, n)
	for c := range n {
		out[c] = make([]float64, n)
		unit, column := make([]float64, n), make([]float64, n)
		unit[c] = 1
		a.mul(column, unit)
		copy(out[c], column) // symmetric: a column is a row
	}
	return out
}

// eliminate solves a x = b by Gaussian elimination with pivoting.
func eliminate(a [][]float64, b []float64) []float64 {
	n := len(b)
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		a[c], a[p], b[c], b[p] = a[p], a[c], b[p], b[c]
		for r := c + 1; r < n; r++ {
			w := a[r][c] / a[c][c]
			for k := c; k < n; k++ {
				a[r][k] -= w * a[c][k]
			}
			b[r] -= w * b[c]
		}
	}
	x := make([]float64, n)
	for r := n - 1; r >= 0; r-- {
		x[r] = b[r]
		for k := r + 1; k < n; k++ {
			x[r] -= a[r][k] * x[k]
		}
		x[r] /= a[r][r]
	}
	return x
}

func TestConjugateGradientsAgainstElimination(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nx, nz := rapid.IntRange(2, 6).Draw(t, "nx"), rapid.IntRange(2, 6).Draw(t, "nz")
		conductance := rapid.Float64Range(0.01, 100)
		east := rapid.SliceOfN(conductance, nz, nz).Draw(t, "east")
		south := rapid.SliceOfN(conductance, nz, nz).Draw(t, "south")
		south[nz-1] = 0
		outside := make([]float64, nz)
		outside[0] = conductance.Draw(t, "outside")
		b := rapid.SliceOfN(rapid.Float64Range(-10, 10), nx*nz, nx*nz).Draw(t, "b")
		a := newMatrix(nx, east, south, outside)
		got, err := a.solve(b)
		if err != nil {
			t.Fatal(err)
		}
		want := eliminate(a.dense(), append([]float64(nil), b...))
		largest := 0.0
		for _, w := range want {
			largest = math.Max(largest, math.Abs(w))
		}
		for i := range want {
			if math.Abs(got[i]-want[i]) > 1e-6*largest {
				t.Fatalf("cell %d: %g, want %g", i, got[i], want[i])
			}
		}
	})
}

func TestNothingInGivesNothingOut(t *testing.T) {
	a := newMatrix(2, []float64{1, 1}, []float64{1, 0}, []float64{1, 0})
	x, err := a.solve(make([]float64, 4))
	if err != nil || x[0] != 0 || x[3] != 0 {
		t.Errorf("got %v, %v", x, err)
	}
}
