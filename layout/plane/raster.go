package plane

import (
	"math"
	"slices"
)

// A Raster lays square cells over a floor, NX by NY of them, Cell mm wide, from the lower
// left corner Origin on.
type Raster struct {
	Origin Point
	Cell   float64
	NX, NY int
}

// RasterOver returns the raster that covers a box.
func RasterOver(b Rect, cell float64) Raster {
	return Raster{b.Min, cell, int(b.W()/cell) + 1, int(b.H()/cell) + 1}
}

// Rows returns, by row, which cells have their centre in a region.
func (r Raster) Rows(region Region) [][]Span {
	var rings []Ring
	for _, ring := range region.Rings() {
		t := make(Ring, len(ring))
		for i, p := range ring {
			t[i] = p.Sub(r.Origin).Mul(1 / r.Cell).Sub(Pt(0.5, 0.5))
		}
		rings = append(rings, t)
	}
	return Scan(rings, r.NX, r.NY)
}

// A Span is a stretch of whole places in a row, both ends included.
type Span struct{ From, To int }

// Scan returns, by row, which whole places (x, y), x below nx and y below ny, lie inside
// rings by the even-odd rule.
func Scan(rings []Ring, nx, ny int) [][]Span {
	out := make([][]Span, ny)
	for y, row := range Across(rings, ny, 0) {
		for _, in := range row {
			s := Span{max(0, int(math.Ceil(in[0]))), min(nx-1, int(math.Floor(in[1])))}
			if s.From <= s.To {
				out[y] = append(out[y], s)
			}
		}
	}
	return out
}

// Transposed returns rings with their axes exchanged, to look along columns as along rows.
func Transposed(rings []Ring) []Ring {
	out := make([]Ring, len(rings))
	for i, r := range rings {
		for _, p := range r {
			out[i] = append(out[i], Pt(p.Y, p.X))
		}
	}
	return out
}

// Across returns, for each of n rows y = 0, 1, 2... moved up by a shift, from where to
// where along it the inside of rings lies by the even-odd rule. A row through a corner
// counts as passing just above it.
func Across(rings []Ring, n int, shift float64) [][][2]float64 {
	out := make([][][2]float64, n)
	for k, xs := range crossings(rings, n, shift) {
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			out[k] = append(out[k], [2]float64{xs[i], xs[i+1]})
		}
	}
	return out
}

// crossings returns, for each row, where rings cross it.
func crossings(rings []Ring, n int, shift float64) [][]float64 {
	out := make([][]float64, n)
	for _, r := range rings {
		for i := range r {
			e := r.Edge(i)
			if e.A.Y > e.B.Y {
				e.A, e.B = e.B, e.A
			}
			for k := max(0, int(math.Ceil(e.A.Y-shift))); k < n && float64(k)+shift < e.B.Y; k++ {
				t := (float64(k) + shift - e.A.Y) / (e.B.Y - e.A.Y)
				out[k] = append(out[k], e.A.X+float64(t*(e.B.X-e.A.X)))
			}
		}
	}
	return out
}
