package photo

import "math"

// normals are the sums of least squares: of the slopes' products, and of slopes times
// residuals.
type normals struct {
	squares [][]float64
	right   []float64
}

func newNormals(n int) normals {
	s := normals{make([][]float64, n), make([]float64, n)}
	for i := range s.squares {
		s.squares[i] = make([]float64, n)
	}
	return s
}

// add takes one equation: slopes times the unknowns is value.
func (s normals) add(slopes []float64, value float64) {
	for i, a := range slopes {
		for k, b := range slopes {
			s.squares[i][k] += float64(a * b)
		}
		s.right[i] += float64(a * value)
	}
}

// factored returns the Cholesky factor of a symmetric matrix with so much added to the
// diagonal, as a share of it; ok is false where it is not positive definite.
func factored(m [][]float64, more float64) (l [][]float64, ok bool) {
	l = make([][]float64, len(m))
	for i := range m {
		l[i] = make([]float64, len(m))
		for k := 0; k <= i; k++ {
			sum := m[i][k]
			if i == k {
				sum += float64(more * sum)
			}
			for j := range k {
				sum -= float64(l[i][j] * l[k][j])
			}
			switch {
			case i != k:
				l[i][k] = sum / l[k][k]
			case sum <= singular*math.Abs(m[i][i]) || math.IsNaN(sum):
				return nil, false
			default:
				l[i][i] = math.Sqrt(sum)
			}
		}
	}
	return l, true
}

// singular is the share of a diagonal that has to be left of it.
const singular = 1e-13

// solved returns the x of L Lᵀ x = b.
func solved(l [][]float64, b []float64) []float64 {
	n := len(l)
	x := make([]float64, n)
	for i := range n {
		sum := b[i]
		for k := range i {
			sum -= float64(l[i][k] * x[k])
		}
		x[i] = sum / l[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		sum := x[i]
		for k := i + 1; k < n; k++ {
			sum -= float64(l[k][i] * x[k])
		}
		x[i] = sum / l[i][i]
	}
	return x
}

// inverse returns the inverse of what was factored.
func inverse(l [][]float64) [][]float64 {
	out := make([][]float64, len(l))
	for i := range l {
		unit := make([]float64, len(l))
		unit[i] = 1
		out[i] = solved(l, unit)
	}
	return out
}

// eigen returns the larger and the smaller eigenvalue of the matrix p q, q r.
func eigen(p, q, r float64) (large, small float64) {
	half := math.Sqrt(dot((p-r)/2, (p-r)/2, q, q))
	return (p+r)/2 + half, (p+r)/2 - half
}
