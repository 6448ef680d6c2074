package warmth

import (
	"math"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// Spreads returns the standard deviation of a room's surface over its heated floor, K, in
// the cold case: as its cables lie, and over ideal rows of as many W in all, straight and
// even from edge to edge, one way or square to it, at the best of some places.
func Spreads(p *layout.Plan, r *layout.Room) (laid, even float64) {
	h := heatOf(p.Warmth, r)
	s, err := h.cold.Spreading()
	if err != nil {
		panic(err)
	}
	g := groundOf(r, h.widest)
	g.deposit(h.lines)
	_, laid = g.over(r.Heated, g.surface(s))
	even = math.Inf(1)
	for _, turn := range []float64{0, math.Pi / 2} {
		for k := range 8 {
			g := groundOf(r, h.widest)
			g.deposit(rowsOver(r, turn+r.Cables[0].Lattice.Angle, float64(k)/8))
			_, spread := g.over(r.Heated, g.surface(s))
			even = math.Min(even, spread)
		}
	}
	return laid, even
}

// rowsOver lays straight rows over the share of every cable of a room, a share of their
// spacing from its edge.
func rowsOver(r *layout.Room, angle, from float64) (out []line) {
	for i := range r.Cables {
		c := &r.Cables[i]
		floor, err := c.Share.Meet(r.Heated)
		if err != nil {
			panic(err)
		}
		var rings []plane.Ring
		for _, ring := range floor.Rings() {
			var t plane.Ring
			for _, p := range ring {
				t = append(t, p.Rotate(-angle).Mul(1/c.Spacing))
			}
			rings = append(rings, t)
		}
		var all []plane.Point
		for _, ring := range rings {
			all = append(all, ring...)
		}
		low := plane.Bounds(all).Min.Y
		for k := range rings {
			for n := range rings[k] {
				rings[k][n].Y -= low
			}
		}
		length, first := 0.0, len(out)
		rows := int(plane.Bounds(all).H()) + 2
		for k, row := range plane.Across(rings, rows, from) {
			y := (float64(k) + from + low) * c.Spacing
			for _, in := range row {
				a, b := plane.Pt(in[0]*c.Spacing, y).Rotate(angle), plane.Pt(in[1]*c.Spacing, y).Rotate(angle)
				out = append(out, line{path: []plane.Point{a, b}})
				length += a.Dist(b)
			}
		}
		for k := first; k < len(out); k++ {
			out[k].perMM = c.Label.Watts / length
		}
	}
	return out
}
