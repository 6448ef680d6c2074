package photo

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"oxturn/layout/plane"
)

// TestRadiusOfTables: the circle that holds 95 of 100 is, of one variance all round, the root
// of chi-square by two degrees of freedom, 5.991, or of twice Fisher's F by 2 and n; of a place
// that is unsure one way alone, the normal's 1.960 or Student's t by n (tables of 95 %, in any
// handbook of statistics, as in NIST/SEMATECH e-Handbook 1.3.6.7).
func TestRadiusOfTables(t *testing.T) {
	for _, c := range []struct {
		large, small float64
		free         int
		want         float64
	}{
		{1, 1, 0, math.Sqrt(5.991)}, {4, 4, 0, 2 * math.Sqrt(5.991)}, {0.01, 0.01, 0, 0.1 * math.Sqrt(5.991)},
		{1, 0, 0, 1.960}, {9, 0, 0, 3 * 1.960}, {1, -1e-9, 0, 1.960},
		{1, 1, 1, math.Sqrt(2 * 199.5)}, {1, 1, 2, math.Sqrt(2 * 19.00)}, {1, 1, 4, math.Sqrt(2 * 6.944)},
		{1, 1, 11, math.Sqrt(2 * 3.982)}, {1, 0, 1, 12.706}, {1, 0, 2, 4.303}, {1, 0, 4, 2.776}, {4, 0, 11, 2 * 2.201},
	} {
		if got := radius(c.large, c.small, c.free); math.Abs(got-c.want) > 2e-3*c.want {
			t.Errorf("variances %g and %g, %d left over: %.4f, want %.4f", c.large, c.small, c.free, got, c.want)
		}
	}
}

// TestRadiusBetween: of two variances the share within is the integral, over the one, of the
// error function of the other, summed here by small steps.
func TestRadiusBetween(t *testing.T) {
	for _, small := range []float64{0.05, 0.3, 0.7} {
		r := radius(1, small, 0)
		const steps = 4000
		within := 0.0
		for i := range steps {
			x := r * (2*(float64(i)+0.5)/steps - 1)
			density := math.Exp(-x*x/2) / math.Sqrt(2*math.Pi)
			within += density * math.Erf(math.Sqrt((r*r-x*x)/(2*small))) * 2 * r / steps
		}
		if math.Abs(within-0.95) > 2e-5 {
			t.Errorf("variances 1 and %g: %.6f lie within %.4f", small, within, r)
		}
	}
}

// TestSpreadIsPropagated: a place's spread is G S Gᵀ, G the slopes of the place by the reading
// and by each parameter, here by differences of the way back from picture to floor.
func TestSpreadIsPropagated(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	for trial := range 40 {
		n := 8 + trial%2
		draw := func(most float64) float64 { return most * (2*r.Float64() - 1) }
		f := &Fit{model: model{h: [8]float64{1 + draw(0.3), draw(0.3), draw(0.5), draw(0.3), 1 + draw(0.3), draw(0.5),
			draw(0.2), draw(0.2)}}}
		if n == 9 {
			f.model.k = draw(0.05)
		}
		// any spread: the square of a matrix
		root := make([][]float64, n)
		for i := range root {
			root[i] = make([]float64, n)
			for k := range root {
				root[i][k] = draw(0.6)
			}
		}
		f.spread = make([][]float64, n)
		for i := range root {
			f.spread[i] = make([]float64, n)
			for k := range root {
				for j := range n {
					f.spread[i][k] += root[i][j] * root[k][j]
				}
			}
		}
		s := f.model.at(draw(0.8), draw(0.8))
		const step = 1e-6
		slope := func(du, dv float64, by int) plane.Point {
			var at [2]plane.Point
			for i, sign := range []float64{-step, step} {
				m := f.model
				switch {
				case by == 8:
					m.k += sign
				case by >= 0:
					m.h[by] += sign
				}
				x, y, ok := m.back(s.u+sign*du, s.v+sign*dv)
				if !ok {
					t.Fatal("nothing is seen there")
				}
				at[i] = plane.Pt(x, y)
			}
			return at[1].Sub(at[0]).Mul(1 / (2 * step))
		}
		a, b := slope(1, 0, -1), slope(0, 1, -1)
		xx, xy, yy := a.X*a.X+b.X*b.X, a.X*a.Y+b.X*b.Y, a.Y*a.Y+b.Y*b.Y
		for i := range n {
			for k := range n {
				p, q := slope(0, 0, i), slope(0, 0, k)
				xx += p.X * f.spread[i][k] * q.X
				xy += p.X * f.spread[i][k] * q.Y
				yy += p.Y * f.spread[i][k] * q.Y
			}
		}
		large, small := f.spreadAt(s)
		near := func(got, want float64) bool { return math.Abs(got-want) < 1e-5*(1+math.Abs(want)) }
		if !near(large+small, xx+yy) || !near(large*small, xx*yy-xy*xy) || large < small {
			t.Errorf("trial %d: %g and %g, by differences a sum of %g and a product of %g", trial, large, small, xx+yy,
				xx*yy-xy*xy)
		}
	}
}

// above is a fit to a photo taken straight from above, 2 mm of floor a pixel, by the corners of
// a square of 400 mm and whatever comes after them.
func above(t *testing.T, more ...Pair) *Fit {
	t.Helper()
	size := image.Pt(400, 300)
	var pairs []Pair
	for _, p := range []Pixel{{X: 100, Y: 50}, {X: 300, Y: 50}, {X: 300, Y: 250}, {X: 100, Y: 250}} {
		pairs = append(pairs, Pair{Image: p, Floor: floorAbove(p)})
	}
	f, err := FitTo(size, append(pairs, more...))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func floorAbove(p Pixel) plane.Point { return plane.Pt(2*p.X+1000, 5000-2*p.Y) }

// TestErrorOfASquareByHand: where a square's diagonals meet moves with either diagonal's
// ends, by half of each and square to it: so its variance is 1/2 of a corner's, and with the
// reading of the place itself 3/2. Four points are taken to be good to 3 mm.
func TestErrorOfASquareByHand(t *testing.T) {
	f := above(t)
	want := math.Sqrt(5.991) * math.Sqrt(1.5) * 3
	if got, ok := f.Error(Pixel{X: 200, Y: 150}); !ok || math.Abs(got-want) > 0.002*want {
		t.Errorf("in the middle %.3f mm, want %.3f", got, want)
	}
	corner, _ := f.Error(Pixel{X: 100, Y: 50}) // its own error and that of the reading
	if want := math.Sqrt(5.991) * math.Sqrt(2) * 3; math.Abs(corner-want) > 0.002*want {
		t.Errorf("in a corner %.3f mm, want %.3f", corner, want)
	}
}

// TestFivePointsByHand: the middle of a square, known too, is seen where its diagonals meet:
// one equation each way, of weights 1, -1/2 and -1/2, whose squares add up to 3/2. A middle that
// is d off keeps 2/3 of that as its residual, the corners 1/3; all squares are 2/3 d², and by
// two coordinates left over sigma is d by the root of three. Its map's variance there is 1/3.
func TestFivePointsByHand(t *testing.T) {
	const d = 3.0
	at := Pixel{X: 200, Y: 150}
	for _, way := range []Pixel{{X: d}, {Y: -d}, {X: 0.6 * d, Y: 0.8 * d}} {
		f := above(t, Pair{Image: at.Add(way), Floor: floorAbove(at)})
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > 0.01*want {
				t.Errorf("middle off by %v: %s %.4f, want %.4f", way, what, got, want)
			}
		}
		near("sigma", f.Sigma, d/math.Sqrt(3))
		near("residual of the middle", f.Off[4].Norm(), 2*d/3)
		near("residual of the middle on the floor", f.OffFloor[4], 2*2*d/3)
		near("root mean square", f.RMS(), 2*math.Sqrt(2.0/3/5)*d)
		got, _ := f.Error(at)
		near("error", got, math.Sqrt(2*19.00)*math.Sqrt(4.0/3)*2*d/math.Sqrt(3))
		if off := f.Off[4].Sub(way.Mul(2.0 / 3)).Norm(); off > 0.03*d || f.Free != 2 || f.LensKnown {
			t.Errorf("middle off by %v: its residual is %v, %d left over", way, f.Off[4], f.Free)
		}
	}
	// where all agree a reading is still no better than half a pixel
	got, _ := above(t, Pair{Image: at, Floor: floorAbove(at)}).Error(at)
	if want := math.Sqrt(2*19.00) * math.Sqrt(4.0/3) * 2 * 0.5; math.Abs(got-want) > 0.002*want {
		t.Errorf("five that agree: %.4f, want %.4f", got, want)
	}
}

// TestLevelCameraByHand: in a photo from straight above a place of 6 mm is three pixels, seen
// wherever the picture is, to its very edge.
func TestLevelCameraByHand(t *testing.T) {
	f := above(t)
	for _, c := range []struct {
		at   Pixel
		want bool
	}{{Pixel{X: 200, Y: 150}, true}, {Pixel{X: 1e-6, Y: 150}, true}, {Pixel{X: 400 - 1e-6, Y: 300 - 1e-6}, true},
		{Pixel{X: 200, Y: 1e-6}, true}, {Pixel{X: -0.01, Y: 150}, false}, {Pixel{X: 400.01, Y: 150}, false},
		{Pixel{X: 200, Y: -0.01}, false}, {Pixel{X: 200, Y: 300.01}, false}} {
		p := floorAbove(c.at)
		if got, ok := f.Image(p); !ok || got.Dist(c.at) > 1e-7 {
			t.Errorf("%v is at %v, want %v", p, got, c.at)
		}
		if back, ok := f.Floor(c.at); !ok || back.Dist(p) > 1e-7 {
			t.Errorf("%v shows %v, want %v", c.at, back, p)
		}
		if f.Holds(c.at) != c.want || f.Sees(p, plane.Pt(1, 0)) != c.want {
			t.Errorf("%v: held %v, seen %v", c.at, f.Holds(c.at), f.Sees(p, plane.Pt(1, 0)))
		}
	}
	for _, p := range []Pixel{{}, {X: 400, Y: 300}, {X: 400}, {Y: 300}} {
		if !f.Holds(p) {
			t.Errorf("the corner %v is not in the picture", p)
		}
	}
}
