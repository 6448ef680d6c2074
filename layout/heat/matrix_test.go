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

// Of a single row or column nothing is dropped from the factor: it solves them at once.
func TestFactorOfALineIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "n")
		conductance := rapid.Float64Range(0.1, 10)
		for _, column := range []bool{false, true} {
			nx, nz := n, 1
			if column {
				nx, nz = 1, n
			}
			south := rapid.SliceOfN(conductance, nz, nz).Draw(t, "south")
			south[nz-1] = 0
			a := newMatrix(nx, rapid.SliceOfN(conductance, nz, nz).Draw(t, "east"), south,
				rapid.SliceOfN(conductance, nz, nz).Draw(t, "outside"))
			b := rapid.SliceOfN(rapid.Float64Range(-10, 10), n, n).Draw(t, "b")
			got := make([]float64, n)
			a.factorize().solve(got, b)
			for i, want := range eliminate(a.dense(), append([]float64(nil), b...)) {
				if math.Abs(got[i]-want) > 1e-9*(1+math.Abs(want)) {
					t.Fatalf("column %v, cell %d: %g, want %g", column, i, got[i], want)
				}
			}
		}
	})
}

// The factor stands for the matrix itself but for the fill-in that it drops, of which it keeps a
// share on the diagonal (Gustafsson 1978): what it stands for has the matrix' own couplings, and its rows add
// up to theirs and the share of the fill-in that was not kept.
func TestFactorKeepsRowSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nx, nz := rapid.IntRange(2, 4).Draw(t, "nx"), rapid.IntRange(2, 4).Draw(t, "nz")
		conductance := rapid.Float64Range(0.1, 10)
		south := rapid.SliceOfN(conductance, nz, nz).Draw(t, "south")
		south[nz-1] = 0
		a := newMatrix(nx, rapid.SliceOfN(conductance, nz, nz).Draw(t, "east"), south, rapid.SliceOfN(conductance, nz,
			nz).Draw(t, "outside"))
		f, n := a.factorize(), nx*nz
		inverse := make([][]float64, n) // of what the factor stands for; symmetric
		for c := range n {
			unit := make([]float64, n)
			unit[c] = 1
			inverse[c] = make([]float64, n)
			f.solve(inverse[c], unit)
		}
		exact := a.dense()
		for r := range n {
			unit := make([]float64, n)
			unit[r] = 1
			var copied [][]float64
			for _, row := range inverse {
				copied = append(copied, append([]float64(nil), row...))
			}
			row := eliminate(copied, unit)
			fill, sum := 0.0, 0.0
			for c := range n {
				over := row[c] - exact[r][c]
				sum += over
				switch {
				case c == r:
				case c == r+nx-1 && r%nx > 0, c == r-nx+1 && c%nx > 0:
					fill += over
				case math.Abs(over) > 1e-7:
					t.Fatalf("cells %d and %d are coupled by %g, not %g", r, c, row[c], exact[r][c])
				}
			}
			if math.Abs(sum-(1-keptFillIn)*fill) > 1e-7 || fill < -1e-7 {
				t.Fatalf("row %d adds up to %g more, %g of fill-in are dropped", r, sum, fill)
			}
		}
	})
}

// A grid of two by two by hand: each diagonal is what its cell is coupled by.
func TestMatrixByHand(t *testing.T) {
	a := newMatrix(3, []float64{2, 5}, []float64{3, 0}, []float64{7, 11})
	want := []float64{2 + 3 + 7, 2 + 2 + 3 + 7, 2 + 3 + 7, 5 + 3 + 11, 5 + 5 + 3 + 11, 5 + 3 + 11}
	for i, d := range a.diag {
		if d != want[i] {
			t.Errorf("cell %d: %g, want %g", i, d, want[i])
		}
	}
	dense := a.dense()
	for _, c := range []struct {
		r, c int
		want float64
	}{{0, 1, -2}, {1, 2, -2}, {0, 3, -3}, {2, 5, -3}, {3, 4, -5}, {2, 3, 0}, {0, 2, 0}, {0, 4, 0}} {
		if dense[c.r][c.c] != c.want || dense[c.c][c.r] != c.want {
			t.Errorf("cells %d and %d: %g and %g, want %g", c.r, c.c, dense[c.r][c.c], dense[c.c][c.r], c.want)
		}
	}
}
