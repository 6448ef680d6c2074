package photo

import (
	"math"
	"testing"
)

// TestCholeskyByHand: the example that stands in many textbooks, whose factor is whole
// numbers; its inverse by cofactors over a determinant of (2*1*3)² = 36.
func TestCholeskyByHand(t *testing.T) {
	m := [][]float64{{4, 12, -16}, {12, 37, -43}, {-16, -43, 98}}
	l, ok := factored(m, 0)
	if !ok {
		t.Fatal("no factor")
	}
	for i, row := range [][]float64{{2, 0, 0}, {6, 1, 0}, {-8, 5, 3}} {
		for k, want := range row {
			if math.Abs(l[i][k]-want) > 1e-12 {
				t.Errorf("factor %d %d: %g, want %g", i, k, l[i][k], want)
			}
		}
	}
	for i, row := range [][]float64{{1777, -488, 76}, {-488, 136, -20}, {76, -20, 4}} {
		for k, want := range row {
			if got := inverse(l)[i][k]; math.Abs(got-want/36) > 1e-10 {
				t.Errorf("inverse %d %d: %g, want %g", i, k, got, want/36)
			}
		}
	}
	for i, want := range []float64{1, -2, 3} { // of m times that
		if got := solved(l, []float64{4 - 24 - 48, 12 - 74 - 129, -16 + 86 + 294})[i]; math.Abs(got-want) > 1e-10 {
			t.Errorf("unknown %d: %g, want %g", i, got, want)
		}
	}
	// half as much again on the diagonal: 4 is 6, whose root is that of 1.5 times 4
	if l, ok = factored(m, 0.5); !ok || math.Abs(l[0][0]-math.Sqrt(6)) > 1e-12 ||
		math.Abs(l[1][1]-math.Sqrt(1.5*37-24)) > 1e-12 {
		t.Errorf("damped: %v", l)
	}
	for _, bad := range [][][]float64{{{1, 2}, {2, 4}}, {{1, 2}, {2, 3}}, {{0, 0}, {0, 1}}, {{-1, 0}, {0, 1}},
		{{math.NaN(), 0}, {0, 1}}, {{1, 0}, {0, math.NaN()}}, {{1, 1}, {1, 1 + 5e-14}}} {
		if _, ok := factored(bad, 0); ok {
			t.Errorf("%v has a factor", bad)
		}
	}
	if _, ok := factored([][]float64{{1, 1}, {1, 1 + 1e-12}}, 0); !ok {
		t.Error("what is nearly singular is taken for it")
	}
}

// TestLineByLeastSquares: a line through (0, 6), (1, 0) and (2, 0) is 5 - 3 t (G. Strang,
// Introduction to linear algebra, 4.3; from memory).
func TestLineByLeastSquares(t *testing.T) {
	s := newNormals(2)
	for i, value := range []float64{6, 0, 0} {
		s.add([]float64{1, float64(i)}, value)
	}
	l, ok := factored(s.squares, 0)
	if x := solved(l, s.right); !ok || math.Abs(x[0]-5) > 1e-12 || math.Abs(x[1]+3) > 1e-12 {
		t.Errorf("%v", x)
	}
}

// TestEigenByHand: sum and product of the two are the trace and the determinant.
func TestEigenByHand(t *testing.T) {
	for _, c := range [][5]float64{{2, 1, 2, 3, 1}, {4, 2, 1, 5, 0}, {3, 0, 7, 7, 3}, {7, 0, 3, 7, 3}, {5, 2, 2, 6, 1},
		{1, -3, 9, 10, 0}} {
		large, small := eigen(c[0], c[1], c[2])
		if math.Abs(large-c[3]) > 1e-12 || math.Abs(small-c[4]) > 1e-12 {
			t.Errorf("%v: %g and %g", c, large, small)
		}
	}
}
