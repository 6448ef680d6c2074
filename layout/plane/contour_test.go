package plane

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// field gives a raster the values of a function of the place.
func field(r Raster, f func(p Point) float64) []float64 {
	var out []float64
	for y := range r.NY {
		for x := range r.NX {
			out = append(out, f(r.Origin.Add(Pt(float64(x)+0.5, float64(y)+0.5).Mul(r.Cell))))
		}
	}
	return out
}

// A cone's contour is a circle: pi r² inside, every corner r from its foot but for what a
// chord of a cell cuts off.
func TestContourOfACone(t *testing.T) {
	r := Raster{Pt(-105, -55), 2, 100, 100}
	top := Pt(0, 40)
	rings := r.Contours(field(r, func(p Point) float64 { return 100 - p.Dist(top) }), 70)
	if len(rings) != 1 {
		t.Fatalf("%d rings", len(rings))
	}
	if a := rings[0].SignedArea(); math.Abs(a-math.Pi*900) > 0.01*math.Pi*900 {
		t.Errorf("%.0f mm² inside, want %.0f, counter-clockwise", a, math.Pi*900)
	}
	for _, p := range rings[0] {
		if d := p.Dist(top); math.Abs(d-30) > 0.05 {
			t.Errorf("%v lies %.2f from the top", p, d)
		}
	}
}

// A ring of high floor has two contours, the inner one clockwise; what reaches the raster's
// edge is closed there.
func TestContoursOfARidgeAndAnEdge(t *testing.T) {
	r := Raster{Pt(0, 0), 1, 80, 80}
	rings := r.Contours(field(r, func(p Point) float64 { return -math.Abs(p.Dist(Pt(40, 40)) - 20) }), -5)
	if len(rings) != 2 {
		t.Fatalf("%d rings", len(rings))
	}
	sum := rings[0].SignedArea() + rings[1].SignedArea()
	if want := math.Pi * (25*25 - 15*15); math.Abs(sum-want) > 0.01*want {
		t.Errorf("%.0f mm² between them, want %.0f", sum, want)
	}
	rings = r.Contours(field(r, func(p Point) float64 { return p.X }), 30)
	if len(rings) != 1 || math.Abs(rings[0].Area()-50*80) > 80 {
		t.Errorf("%v", rings)
	}
	if none := r.Contours(field(r, func(Point) float64 { return 3 }), 4); none != nil {
		t.Errorf("%v", none)
	}
}

// Two peaks that touch at a corner: joined across it where the mean of the four is at the
// level, else apart.
func TestContourAtASaddle(t *testing.T) {
	r := Raster{Pt(0, 0), 1, 4, 4}
	values := func(low float64) []float64 {
		v := make([]float64, 16)
		for i := range v {
			v[i] = low
		}
		v[5], v[10] = 10, 10
		return v
	}
	if n := len(r.Contours(values(0), 6)); n != 2 {
		t.Errorf("%d rings, want two peaks apart", n)
	}
	if n := len(r.Contours(values(4), 6)); n != 1 {
		t.Errorf("%d rings, want two peaks joined", n)
	}
}

// Whatever the field: a centre is at the level or above it where, and only where, the
// contours' even-odd rule has it inside; and no contour crosses itself or another.
func TestContoursPartHighFromLow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nx, ny := rapid.IntRange(1, 8).Draw(t, "nx"), rapid.IntRange(1, 8).Draw(t, "ny")
		r := Raster{Pt(3, -2), 5, nx, ny}
		v := rapid.SliceOfN(rapid.Float64Range(-10, 10), nx*ny, nx*ny).Draw(t, "values")
		for i := range v {
			if v[i] == 0 {
				v[i] = 1 // on the line it may go either way
			}
		}
		rings := r.Contours(v, 0)
		for i := range v {
			p := r.Origin.Add(Pt(float64(i%nx)+0.5, float64(i/nx)+0.5).Mul(5))
			in := false
			for _, ring := range rings {
				in = in != Inside(ring, p)
			}
			near := false
			for _, ring := range rings {
				near = near || ring.Distance(p) < 1e-6
			}
			if in != (v[i] > 0) && !near {
				t.Fatalf("centre %d, at %.2f, inside is %v of %v", i, v[i], in, rings)
			}
		}
	})
}

func TestSimplifiedRing(t *testing.T) {
	var circle Ring
	for k := range 400 {
		s, c := Sincos(2 * math.Pi * float64(k) / 400)
		circle = append(circle, Pt(100*c, 100*s))
	}
	few := circle.Simplified(0.5)
	// a chord d off its arc spans sqrt(8 r d): 31 of them or more go round
	if len(few) < 31 || len(few) > 70 {
		t.Errorf("%d corners", len(few))
	}
	for _, p := range circle {
		if few.Distance(p) > 0.5+1e-9 {
			t.Errorf("%v is %.2f off", p, few.Distance(p))
		}
	}
	if Ring(circle[:3]).Simplified(5) != nil || Ring(circle[:2]).Simplified(1) != nil {
		t.Error("something is left of nothing")
	}
}

// A triangle keeps its corners, a square loses the middles of its sides, whichever corner it
// begins with; of what is as slim as the tolerance nothing is left.
func TestSimplifiedByHand(t *testing.T) {
	triangle := Ring{Pt(0, 0), Pt(90, 0), Pt(0, 90)}
	if got := triangle.Simplified(1); !sameRing(got, triangle) {
		t.Errorf("%v", got)
	}
	square := Ring{Pt(0, 0), Pt(50, 0.5), Pt(100, 0), Pt(100, 50), Pt(100, 100), Pt(50, 99.5), Pt(0, 100), Pt(0.5, 50)}
	for k := range square {
		turned := append(append(Ring{}, square[k:]...), square[:k]...)
		got := turned.Simplified(1)
		if len(got) > 5 || math.Abs(got.SignedArea()-100*100) > 100 {
			t.Errorf("from %v: %v", turned[0], got)
		}
		if k%2 == 0 && len(got) != 4 && turned[0].X != 0.5 {
			t.Errorf("from corner %v: %v", turned[0], got)
		}
		for _, p := range got {
			if !slices.Contains(square, p) {
				t.Errorf("from %v: %v is no corner of it", turned[0], p)
			}
		}
	}
	if got := (Ring{Pt(0, 0), Pt(2, 0), Pt(2, 0.4), Pt(0, 0.4)}).Simplified(1); got != nil {
		t.Errorf("of 0.8 mm²: %v", got)
	}
}

// sameRing tells whether two rings are the same from one corner or another.
func sameRing(a, b Ring) bool {
	for k := range a {
		if slices.Equal(append(append(Ring{}, a[k:]...), a[:k]...), b) {
			return true
		}
	}
	return false
}
