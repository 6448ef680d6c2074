package heat

import (
	"fmt"
	"math"
)

// A matrix holds the conductances of a grid of nx by nz cells, cell (i, j) at
// j*nx+i. It is symmetric and positive definite: each cell's diagonal is the
// sum of its conductances, those to outside included. Neighbours in a row and
// neighbours in a column are coupled alike all along the row.
type matrix struct {
	nx, nz int
	diag   []float64 // per cell
	east   []float64 // per row: between neighbours in the row
	south  []float64 // per row: to the row below, 0 for the last
}

// newMatrix returns the matrix of a grid with the given couplings and, per
// row, the conductance of each of its cells to outside.
func newMatrix(nx int, east, south, outside []float64) *matrix {
	a := &matrix{nx: nx, nz: len(east), east: east, south: south}
	a.diag = make([]float64, nx*a.nz)
	for j := range a.nz {
		row := south[j] + outside[j]
		if j > 0 {
			row += south[j-1]
		}
		for i := range nx {
			d := row
			if i > 0 {
				d += east[j]
			}
			if i < nx-1 {
				d += east[j]
			}
			a.diag[j*nx+i] = d
		}
	}
	return a
}

// mul sets y = A x.
func (a *matrix) mul(y, x []float64) {
	nx := a.nx
	for j := range a.nz {
		e, s := a.east[j], a.south[j]
		for i, c := 0, j*nx; i < nx; i, c = i+1, c+1 {
			v := a.diag[c] * x[c]
			if i > 0 {
				v -= e * x[c-1]
			}
			if i < nx-1 {
				v -= e * x[c+1]
			}
			if j > 0 {
				v -= a.south[j-1] * x[c-nx]
			}
			if j < a.nz-1 {
				v -= s * x[c+nx]
			}
			y[c] = v
		}
	}
}

// A factor is an incomplete Cholesky factor of a matrix without fill-in, with
// most of the dropped fill-in kept on the diagonal (Gustafsson 1978).
type factor struct {
	*matrix
	inv []float64 // inverse pivots
}

// keptFillIn is the share of dropped fill-in that goes to the diagonal; just below 1
// keeps the pivots positive.
const keptFillIn = 0.97

func (a *matrix) factorize() factor {
	f := factor{a, make([]float64, len(a.diag))}
	for j := range a.nz {
		for i := range a.nx {
			c := j*a.nx + i
			d := a.diag[c]
			if i > 0 {
				e := a.east[j]
				d -= e * (e + keptFillIn*a.south[j]) * f.inv[c-1]
			}
			if j > 0 {
				s, fill := a.south[j-1], 0.0
				if i < a.nx-1 {
					fill = keptFillIn * a.east[j-1]
				}
				d -= s * (s + fill) * f.inv[c-a.nx]
			}
			f.inv[c] = 1 / d
		}
	}
	return f
}

// solve sets z to the solution of the factored system with right side r.
func (f factor) solve(z, r []float64) {
	nx := f.nx
	for j := range f.nz {
		for i, c := 0, j*nx; i < nx; i, c = i+1, c+1 {
			v := r[c]
			if i > 0 {
				v += f.east[j] * z[c-1]
			}
			if j > 0 {
				v += f.south[j-1] * z[c-nx]
			}
			z[c] = v * f.inv[c]
		}
	}
	for j := f.nz - 1; j >= 0; j-- {
		for i, c := nx-1, j*nx+nx-1; i >= 0; i, c = i-1, c-1 {
			v := 0.0
			if i < nx-1 {
				v += f.east[j] * z[c+1]
			}
			if j < f.nz-1 {
				v += f.south[j] * z[c+nx]
			}
			z[c] += v * f.inv[c]
		}
	}
}

// solvedTo of the right side is what a solution may leave.
const solvedTo = 1e-11

// roundsASide rounds for every cell of a side are far more than any section took.
const roundsASide = 20

// solve returns x with A x = b by preconditioned conjugate gradients (Hestenes
// and Stiefel 1952), to a residual of 1e-11 of b.
func (a *matrix) solve(b []float64) ([]float64, error) {
	n := len(b)
	x, r, z, p, q := make([]float64, n), append([]float64(nil), b...), make([]float64, n), make([]float64,
		n), make([]float64, n)
	f := a.factorize()
	goal := solvedTo * math.Sqrt(dot(b, b))
	last := 0.0
	for range roundsASide * (a.nx + a.nz) {
		if math.Sqrt(dot(r, r)) <= goal {
			return x, nil
		}
		f.solve(z, r)
		rz := dot(r, z)
		beta := 0.0
		if last != 0 {
			beta = rz / last
		}
		last = rz
		for i := range p {
			p[i] = z[i] + beta*p[i]
		}
		a.mul(q, p)
		alpha := rz / dot(p, q)
		for i := range x {
			x[i] += alpha * p[i]
			r[i] -= alpha * q[i]
		}
	}
	return nil, fmt.Errorf("the heat equations of %d cells did not converge", n)
}

func dot(a, b []float64) float64 {
	s := 0.0
	for i := range a {
		s += a[i] * b[i]
	}
	return s
}
