package photo

import (
	"math"
	"testing"
)

// TestLensIsTakenOut: r + k r³ = d is a cubic without a square, whose root by Cardano and
// Viète is known; where k is below zero the lens folds at r = 1/sqrt(-3k), which shows as
// 2/3 of that and nothing beyond.
func TestLensIsTakenOut(t *testing.T) {
	cubic := func(k, d float64) float64 {
		p, q := 1/k, -d/k // r³ + p r + q = 0
		if k > 0 {
			root := math.Sqrt(q*q/4 + p*p*p/27)
			return math.Cbrt(-q/2+root) + math.Cbrt(-q/2-root)
		}
		size := 2 * math.Sqrt(-p/3)
		return size * math.Cos((math.Acos(3*q/(p*size))-2*math.Pi)/3)
	}
	for _, k := range []float64{-0.2, -0.05, 0.03, 0.2} {
		m := model{h: [8]float64{1, 0, 0, 0, 1, 0}, k: k}
		for _, d := range []float64{0.1, 0.5, 0.8} {
			for _, way := range [][2]float64{{1, 0}, {0, -1}, {0.6, 0.8}} {
				want := cubic(k, d)
				a, b, ok := m.straight(d*way[0], d*way[1])
				if !ok || math.Hypot(a-want*way[0], b-want*way[1]) > 1e-9 {
					t.Errorf("lens %g: %g along %v is %g, %g, want %g along it", k, d, way, a, b, want)
				}
				if s := m.at(a, b); math.Hypot(s.u-d*way[0], s.v-d*way[1]) > 1e-9 {
					t.Errorf("lens %g: and shows at %g, %g", k, s.u, s.v)
				}
			}
		}
		if a, b, ok := m.straight(0, 0); !ok || a != 0 || b != 0 {
			t.Errorf("lens %g: the middle is at %g, %g", k, a, b)
		}
	}
	m := model{h: [8]float64{1, 0, 0, 0, 1, 0}, k: -1.0 / 12} // folds at 2, which shows at 4/3
	for _, c := range []struct {
		d    float64
		want bool
	}{{1.33, true}, {1.334, false}, {1.9, false}, {2.1, false}, {5, false}} {
		if _, _, ok := m.straight(c.d, 0); ok != c.want {
			t.Errorf("%g: %v", c.d, ok)
		}
		if _, _, ok := m.straight(0, -c.d); ok != c.want {
			t.Errorf("%g up: %v", c.d, ok)
		}
	}
	for _, c := range []struct {
		r    float64
		want bool
	}{{1.99, true}, {2.01, false}} {
		if got := m.at(c.r, 0).front(); got != c.want {
			t.Errorf("a place %g out is before the lens: %v", c.r, got)
		}
	}
	plain := model{h: [8]float64{1, 0, 0, 0, 1, 0}}
	if x, y, ok := plain.back(0.3, -0.4); !ok || x != 0.3 || y != -0.4 {
		t.Errorf("where picture and floor are one: %g, %g", x, y)
	}
	if x, y, ok := (&model{}).back(0.3, -0.4); ok {
		t.Errorf("of no map: %g, %g", x, y)
	}
	if a, b, ok := (&model{}).straight(3, 4); !ok || a != 3 || b != 4 {
		t.Errorf("without a lens: %g, %g", a, b)
	}
}

// TestHorizon: the camera sees what is before it alone. By w = y + 1 the horizon is where the
// picture of what is far goes, and what is behind comes out on its other side.
func TestHorizon(t *testing.T) {
	m := model{h: [8]float64{1, 0, 0, 0, 0, 1, 0, 1}} // u = x/(y+1), v = 1/(y+1)
	for _, c := range []struct {
		v, y float64
		ok   bool
	}{{0.5, 1, true}, {2, -0.5, true}, {0.01, 99, true}, {-1, -2, false}, {-0.01, 0, false}, {0, 0, false}} {
		x, y, ok := m.back(0.25, c.v)
		if ok != c.ok || ok && (math.Abs(y-c.y) > 1e-9 || math.Abs(x-0.25/c.v) > 1e-9) {
			t.Errorf("v %g: %g, %g, %v", c.v, x, y, ok)
		}
	}
	for y, want := range map[float64]bool{0: true, -0.9: true, -0.9985: true, -0.9995: false, -1.5: false} {
		if got := m.at(0, y).front(); got != want {
			t.Errorf("y %g is in front: %v", y, got)
		}
	}
}
