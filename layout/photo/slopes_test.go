package photo

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestSlopesAreDifferences: the slopes by which the fit steps and by which the band is told are
// those of small differences, by place and by every parameter.
func TestSlopesAreDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, most float64) float64 { return rapid.Float64Range(-most, most).Draw(t, name) }
		m := model{h: [8]float64{1 + draw("h0", 0.3), draw("h1", 0.3), draw("h2", 0.5), draw("h3", 0.3),
			1 + draw("h4", 0.3), draw("h5", 0.5), draw("h6", 0.2), draw("h7", 0.2)}, k: draw("k", 0.05)}
		x, y := draw("x", 1), draw("y", 1)
		const step, near = 1e-6, 1e-6
		slope := func(change func(m *model, x, y *float64, by float64)) (du, dv float64) {
			var at [2]spot
			for i, by := range []float64{-step, step} {
				moved, px, py := m, x, y
				change(&moved, &px, &py, by)
				at[i] = moved.at(px, py)
			}
			return (at[1].u - at[0].u) / (2 * step), (at[1].v - at[0].v) / (2 * step)
		}
		same := func(what string, u, v, du, dv float64) {
			if math.Abs(u-du) > near*(1+math.Abs(du)) || math.Abs(v-dv) > near*(1+math.Abs(dv)) {
				t.Fatalf("%s: %g, %g, by differences %g, %g", what, u, v, du, dv)
			}
		}
		s := m.at(x, y)
		floor := s.floorSlopes(&m)
		du, dv := slope(func(_ *model, x, _ *float64, by float64) { *x += by })
		same("along", floor[0][0], floor[1][0], du, dv)
		du, dv = slope(func(_ *model, _, y *float64, by float64) { *y += by })
		same("across", floor[0][1], floor[1][1], du, dv)
		ownU, ownV := s.ownSlopes(&m, 9)
		for i := range m.h {
			du, dv = slope(func(m *model, _, _ *float64, by float64) { m.h[i] += by })
			same("by the map", ownU[i], ownV[i], du, dv)
		}
		du, dv = slope(func(m *model, _, _ *float64, by float64) { m.k += by })
		same("by the lens", ownU[8], ownV[8], du, dv)
		if a, b := m.k, s.stretch; math.Abs(b-(1+3*a*(s.a*s.a+s.b*s.b))) > 1e-12 {
			t.Fatalf("stretched %g", b)
		}
	})
}
