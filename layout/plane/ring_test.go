package plane

import (
	"math"
	"slices"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"
)

func TestBoxes(t *testing.T) {
	r := Rect{Pt(2, 3), Pt(10, 7)}
	if r.W() != 8 || r.H() != 4 || r.Centre() != Pt(6, 5) {
		t.Errorf("%v by %v round %v", r.W(), r.H(), r.Centre())
	}
	// four boxes 5 away from r, one on each side, the other axis shared
	for _, s := range []Rect{{Pt(15, 3), Pt(20, 7)}, {Pt(-9, 3), Pt(-3, 7)}, {Pt(2, 12), Pt(10, 13)},
		{Pt(2, -4), Pt(10, -2)}} {
		if !r.Apart(s, 4.5) || r.Apart(s, 5) || r.Apart(s, 5.5) || !r.Apart(s, 0) {
			t.Errorf("%v lies 5 from %v", s, r)
		}
	}
	if r.Apart(Rect{Pt(9, 6), Pt(11, 8)}, 0) {
		t.Error("boxes that overlap are apart")
	}
}

// Bounds against the least and greatest coordinates, by the library's sort.
func TestBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := make([]Point, rapid.IntRange(1, 6).Draw(t, "n"))
		var xs, ys []float64
		for i := range pts {
			pts[i] = anyPoint(t)
			xs, ys = append(xs, pts[i].X), append(ys, pts[i].Y)
		}
		slices.Sort(xs)
		slices.Sort(ys)
		last := len(pts) - 1
		if got := Bounds(pts); got != (Rect{Pt(xs[0], ys[0]), Pt(xs[last], ys[last])}) {
			t.Fatalf("bounds of %v: %v", pts, got)
		}
	})
	if Bounds(Ring(nil)) != (Rect{}) {
		t.Error("nothing has a size")
	}
}

func TestDirectionOfRings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := star(t) // made counter-clockwise
		back := slices.Clone(r)
		slices.Reverse(back)
		if r.SignedArea() <= 0 || math.Abs(r.SignedArea()+back.SignedArea()) > 1e-3 {
			t.Fatalf("areas %v and %v", r.SignedArea(), back.SignedArea())
		}
		if !slices.Equal(r.CCW(), r) || !slices.Equal(back.CCW(), r) {
			t.Fatal("not turned round")
		}
	})
	small := Ring{{0, 0}, {1, 0}, {0, 1}} // half a square millimetre
	flat := Ring{{0, 0}, {4, 0}, {2, 0}}
	if !slices.Equal(small.CCW(), small) || !slices.Equal(flat.CCW(), flat) {
		t.Error("a ring is turned round without need")
	}
}

// The library is asked about places beside the sloping sides, where an error of
// the crossing shows.
func TestContainsBesideEachSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := star(t)
		poly := geom.NewPolygonXY(closed(r)).AsGeometry()
		for i := range r {
			e := r.Edge(i)
			for _, off := range []float64{-1, 1} {
				p := e.A.Lerp(e.B, 0.37).Add(e.B.Sub(e.A).Unit().Left().Mul(off))
				want, err := geom.Contains(poly, geom.XY{X: p.X, Y: p.Y}.AsPoint().AsGeometry())
				if err != nil {
					t.Fatal(err)
				}
				if r.Contains(p) != want {
					t.Fatalf("%v inside: %v, library %v", p, !want, want)
				}
			}
		}
	})
	// a level with corners: counted once, on either side of the ring
	diamond := Ring{{0, -5}, {5, 0}, {0, 5}, {-5, 0}}
	if !diamond.Contains(Pt(1, 0)) || diamond.Contains(Pt(-7, 0)) || diamond.Contains(Pt(7, 0)) ||
		diamond.Contains(Pt(-1, 5)) || diamond.Contains(Pt(-1, -5)) {
		t.Error("a place level with a corner is on the wrong side")
	}
}

// Neighbours that go on straight, or turn back sharply without lying on each
// other, do not clash; long sides and short ones are judged alike.
func TestNeighboursThatFoldBack(t *testing.T) {
	for _, size := range []float64{0.01, 1, 5000} {
		for _, c := range []struct {
			name string
			r    Ring
			want bool
		}{
			{"straight on", Ring{{0, 0}, {1, 0}, {2, 0}, {2, 2}, {0, 2}}, false},
			{"sharp", Ring{{0, 0}, {2, 0}, {0, 0.001}}, false},
			{"sharp at the seam", Ring{{2, 0}, {0, 0.001}, {0, 0}}, false},
			{"folded", Ring{{0, 0}, {3, 0}, {1, 0}, {1, 2}}, true},
			{"folded at the seam", Ring{{3, 0}, {1, 0}, {1, 2}, {0, 2}, {0, 0}}, true},
		} {
			r := make(Ring, len(c.r))
			for i, p := range c.r {
				r[i] = p.Mul(size)
			}
			if _, bad := r.SelfClash(); bad != c.want {
				t.Errorf("%s, %g large: clash %v", c.name, size, bad)
			}
		}
	}
}

// A regular polygon has its side's middle, not a corner, on the axes of the
// circle: n even, half a step on.
func TestCircleLiesOnItsSides(t *testing.T) {
	c := Circle(Pt(10, 20), 5, 8)
	if b := c.Bounds(); math.Abs(b.W()-10) > 1e-9 || math.Abs(b.H()-10) > 1e-9 {
		t.Errorf("an octagon round a circle of 10 measures %v by %v", b.W(), b.H())
	}
	for i := range c {
		if d := c.Edge(i).Distance(Pt(10, 20)); math.Abs(d-5) > 1e-9 {
			t.Errorf("side %d is %v from the centre", i, d)
		}
	}
	if a := math.Mod(Atan2(c[0].Y-20, c[0].X-10)+2*math.Pi, 2*math.Pi); math.Abs(a-math.Pi/8) > 1e-9 {
		t.Errorf("the first corner is at %v", a)
	}
}
