package plane

import (
	"math"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"
)

var ell = Ring{{0, 0}, {3600, 0}, {3600, 1500}, {2400, 1500}, {2400, 3000}, {0, 3000}}

func TestAreas(t *testing.T) {
	for _, c := range []struct {
		name            string
		r               Ring
		area, perimeter float64
	}{
		{"rectangle", Rectangle(Pt(0, 0), Pt(2850, 2400)), 2850 * 2400, 10500},
		{"ell", ell, 3600*3000 - 1200*1500, 13200},
		{"triangle", Ring{{0, 0}, {3, 0}, {0, 4}}, 6, 12},
	} {
		if got := c.r.Area(); math.Abs(got-c.area) > 1e-6 {
			t.Errorf("%s: area %v, want %v", c.name, got, c.area)
		}
		if got := c.r.Perimeter(); math.Abs(got-c.perimeter) > 1e-6 {
			t.Errorf("%s: perimeter %v, want %v", c.name, got, c.perimeter)
		}
	}
}

// star draws a random simple ring round a centre, any number of corners.
func star(t *rapid.T) Ring {
	n := rapid.IntRange(3, 24).Draw(t, "corners")
	turn := rapid.Float64Range(0, 6).Draw(t, "turn")
	r := make(Ring, n)
	for i := range r {
		a := turn + 2*math.Pi*float64(i)/float64(n)
		d := rapid.Float64Range(400, 3000).Draw(t, "radius")
		r[i] = Pt(d*math.Cos(a), d*math.Sin(a))
	}
	return r
}

// Our shoelace area and even-odd test against the geometry library's own.
func TestRingAgainstSimplefeatures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := star(t)
		poly := geom.NewPolygonXY(closed(r))
		if a := poly.Area(); math.Abs(a-r.Area()) > 1e-6*a {
			t.Fatalf("area %v, library %v", r.Area(), a)
		}
		p := Pt(rapid.Float64Range(-3000, 3000).Draw(t, "x"), rapid.Float64Range(-3000, 3000).Draw(t, "y"))
		in, err := geom.Contains(poly.AsGeometry(), geom.XY{X: p.X, Y: p.Y}.AsPoint().AsGeometry())
		if err != nil {
			t.Fatal(err)
		}
		if r.Distance(p) > 1e-6 && in != r.Contains(p) {
			t.Fatalf("%v inside: %v, library %v", p, r.Contains(p), in)
		}
	})
}

// A region shrunk by d keeps exactly the points at least d deep.
func TestGrowMovesTheEdgeByItsDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := FromRing(star(t))
		d := rapid.Float64Range(20, 150).Draw(t, "d")
		small, err := r.Grow(-d)
		if err != nil {
			t.Fatal(err)
		}
		p := Pt(rapid.Float64Range(-2000, 2000).Draw(t, "x"), rapid.Float64Range(-2000, 2000).Draw(t, "y"))
		deep := r.Depth(p)
		if deep > d*1.003+0.1 && !small.Contains(p) || deep < d-0.1 && small.Contains(p) {
			t.Fatalf("%v is %.3f deep; shrunk by %.3f it is inside: %v", p, deep, d, small.Contains(p))
		}
	})
}

func TestLessAndMeetShareTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := FromRing(star(t))
		b := FromRing(star(t).Translate(Pt(500, 300)))
		less, err := a.Less(b)
		if err != nil {
			t.Fatal(err)
		}
		meet, err := a.Meet(b)
		if err != nil {
			t.Fatal(err)
		}
		union, err := Union(a, b)
		if err != nil {
			t.Fatal(err)
		}
		if e := less.Area() + meet.Area() - a.Area(); math.Abs(e) > 10 {
			t.Fatalf("parts miss the whole by %v mm²", e)
		}
		if e := less.Area() + b.Area() - union.Area(); math.Abs(e) > 10 {
			t.Fatalf("union misses its parts by %v mm²", e)
		}
	})
}

func TestRegionWithHole(t *testing.T) {
	r, err := FromRing(Rectangle(Pt(0, 0), Pt(4000, 3000))).Less(FromRing(Rectangle(Pt(1600, 1200), Pt(2400, 1800))))
	if err != nil {
		t.Fatal(err)
	}
	if len(r) != 1 || len(r[0].Holes) != 1 || r.Contains(Pt(2000, 1500)) || !r.Contains(Pt(1000, 1500)) {
		t.Fatalf("region %v", r)
	}
	if got, want := r.Area(), 12e6-0.48e6; math.Abs(got-want) > 1 {
		t.Errorf("area %v, want %v", got, want)
	}
	if got := r.Depth(Pt(1500, 1500)); math.Abs(got-100) > 1e-9 {
		t.Errorf("100 mm from the hole, depth %v", got)
	}
	if got := r.Depth(Pt(2000, 1500)); got >= 0 {
		t.Errorf("in the hole, depth %v", got)
	}
}

func TestSelfClash(t *testing.T) {
	for _, c := range []struct {
		name string
		r    Ring
		want bool
		i, j int
	}{
		{"ell", ell, false, 0, 0},
		{"bow tie", Ring{{0, 0}, {10, 10}, {10, 0}, {0, 10}}, true, 0, 2},
		{"spike", Ring{{0, 0}, {10, 0}, {5, 0}, {5, 5}}, true, 0, 1},
		{"repeated corner", Ring{{0, 0}, {0, 0}, {10, 0}, {10, 10}}, true, 0, 0},
		{"touches itself", Ring{{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}, true, 0, 2},
	} {
		got, bad := c.r.SelfClash()
		if bad != c.want || bad && (got.I != c.i || got.J != c.j) {
			t.Errorf("%s: %+v %v; want %v sides %d and %d", c.name, got, bad, c.want, c.i, c.j)
		}
	}
}

func TestBandIsAsWideAsAsked(t *testing.T) {
	b, err := Band([]Point{{0, 0}, {1000, 0}}, 100)
	if err != nil {
		t.Fatal(err)
	}
	want := 100*1000 + math.Pi*50*50
	if math.Abs(b.Area()-want) > 0.003*want {
		t.Errorf("area %v, want %v", b.Area(), want)
	}
}

func TestCircleHoldsItsCircle(t *testing.T) {
	c := Circle(Pt(100, 200), 50, 48)
	for a := range 360 {
		p := Pt(100, 200).Add(Pt(49.999, 0).Rotate(float64(a) * math.Pi / 180))
		if !c.Contains(p) {
			t.Fatalf("%v is on the circle but outside its polygon", p)
		}
	}
	if c.Area() > 1.003*math.Pi*2500 {
		t.Errorf("area %v is more than 0.3 %% above the circle's", c.Area())
	}
}

func TestSegments(t *testing.T) {
	a := Segment{Pt(0, 0), Pt(10, 0)}
	for _, c := range []struct {
		name           string
		b              Segment
		crosses, meets bool
		gap            float64
	}{
		{"cross", Segment{Pt(5, -5), Pt(5, 5)}, true, true, 0},
		{"touch", Segment{Pt(5, 0), Pt(5, 5)}, false, true, 0},
		{"overlap", Segment{Pt(5, 0), Pt(15, 0)}, false, true, 0},
		{"parallel", Segment{Pt(0, 3), Pt(10, 3)}, false, false, 3},
		{"apart", Segment{Pt(13, 4), Pt(13, 8)}, false, false, 5},
	} {
		if a.Crosses(c.b) != c.crosses || a.Meets(c.b) != c.meets || math.Abs(a.Gap(c.b)-c.gap) > 1e-9 {
			t.Errorf("%s: crosses %v, meets %v, gap %v", c.name, a.Crosses(c.b), a.Meets(c.b), a.Gap(c.b))
		}
	}
}
