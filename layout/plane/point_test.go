package plane

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"
)

func anyPoint(t *rapid.T) Point {
	return Pt(rapid.Float64Range(-5000, 5000).Draw(t, "x"), rapid.Float64Range(-5000, 5000).Draw(t, "y"))
}

func near(a, b Point) bool { return a.Dist(b) < 1e-6 }

func number(p Point) complex128 { return complex(p.X, p.Y) }

// Points as complex numbers: the standard library turns and scales them apart from us.
func TestPointsAsComplexNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := anyPoint(t), anyPoint(t)
		turn, share := rapid.Float64Range(-7, 7).Draw(t, "turn"), rapid.Float64Range(-1, 2).Draw(t, "share")
		for name, c := range map[string]struct {
			got  Point
			want complex128
		}{
			"rotate": {p.Rotate(turn), number(p) * cmplx.Rect(1, turn)},
			"left":   {p.Left(), number(p) * 1i},
			"lerp":   {p.Lerp(q, share), number(p)*complex(1-share, 0) + number(q)*complex(share, 0)},
			"unit":   {p.Unit(), cmplx.Rect(1, cmplx.Phase(number(p)))},
		} {
			if name == "unit" && p.Norm() < 1e-100 {
				continue // its square is no longer a number with all its digits
			}
			if cmplx.Abs(number(c.got)-c.want) > 1e-6 {
				t.Fatalf("%s of %v and %v by %v, %v: %v, want %v", name, p, q, turn, share, c.got, c.want)
			}
		}
	})
	if (Point{}).Unit() != (Point{}) {
		t.Error("the zero point is given a direction")
	}
}

func TestFinite(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if Pt(bad, 1).Finite() || Pt(1, bad).Finite() {
			t.Errorf("%v counts as finite", bad)
		}
	}
	if !Pt(-1, 1e300).Finite() {
		t.Error("ordinary numbers do not count as finite")
	}
}

// The nearest point is no farther than any other of the segment, and as far
// along it as is said.
func TestNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, p := Segment{anyPoint(t), anyPoint(t)}, anyPoint(t)
		q, along := s.Nearest(p)
		if math.Abs(along-s.A.Dist(q)) > 1e-6 || !near(s.At(along), q) {
			t.Fatalf("%v lies %v along, said %v", q, s.A.Dist(q), along)
		}
		for i := range 101 {
			if r := s.A.Lerp(s.B, float64(i)/100); p.Dist(r) < p.Dist(q)-1e-9 {
				t.Fatalf("%v is nearer to %v than %v", r, p, q)
			}
		}
		line := []Point{s.A, s.B, anyPoint(t)}
		want := min(p.Dist(q), Segment{line[1], line[2]}.Distance(p))
		if PathDistance(line, p) != want || Segments(line)[0] != s || Segments(line)[1] != (Segment{line[1], line[2]}) {
			t.Fatalf("distance from the line %v, want %v", PathDistance(line, p), want)
		}
	})
	point := Segment{Pt(3, 4), Pt(3, 4)}
	if q, along := point.Nearest(Pt(0, 0)); q != point.A || along != 0 || point.Distance(Pt(0, 0)) != 5 {
		t.Errorf("nearest to a segment without length: %v, %v", q, along)
	}
	short := Segment{Pt(0, 0), Pt(0.5, 0)} // under 1 mm², as the code compares with zero
	if q, _ := short.Nearest(Pt(0.5, 1)); !near(q, Pt(0.5, 0)) {
		t.Errorf("nearest on a short segment: %v", q)
	}
	if !math.IsInf(PathDistance([]Point{{1, 1}}, Pt(0, 0)), 1) || len(Segments([]Point{{1, 1}})) != 0 {
		t.Error("one point counts as a line")
	}
}

// Two lines that cross are made from the place where they do; the same pieces
// moved along themselves until they miss it no longer cross.
func TestCrossesAndIntersection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := anyPoint(t)
		turn := rapid.Float64Range(0, 7).Draw(t, "turn")
		angle := rapid.Float64Range(0.05, math.Pi-0.05).Draw(t, "angle")
		u, v := Pt(1, 0).Rotate(turn), Pt(1, 0).Rotate(turn+angle)
		length := func(name string) float64 { return rapid.Float64Range(0.1, 500).Draw(t, name) }
		s := Segment{at.Sub(u.Mul(length("a"))), at.Add(u.Mul(length("b")))}
		o := Segment{at.Sub(v.Mul(length("c"))), at.Add(v.Mul(length("d")))}
		for _, pair := range [][2]Segment{{s, o}, {s, {o.B, o.A}}, {{s.B, s.A}, o}, {o, s}} {
			if !pair[0].Crosses(pair[1]) || !pair[0].Meets(pair[1]) || pair[0].Gap(pair[1]) != 0 {
				t.Fatalf("%v do not cross at %v", pair, at)
			}
			if p, ok := pair[0].Intersection(pair[1]); !ok || !near(p, at) {
				t.Fatalf("%v meet at %v, want %v", pair, p, at)
			}
		}
		for _, beyond := range []Segment{{at.Add(v.Mul(0.01)), o.B}, {o.A, at.Sub(v.Mul(0.01))}} {
			for _, pair := range [][2]Segment{{s, beyond}, {beyond, s}, {{s.B, s.A}, beyond}, {beyond, {s.B, s.A}}} {
				if pair[0].Crosses(pair[1]) {
					t.Fatalf("%v cross", pair)
				}
			}
			if p, ok := s.Intersection(beyond); !ok || p.Dist(at) > 1e-5 {
				t.Fatalf("the lines through %v and %v meet at %v, want %v", s, beyond, p, at)
			}
		}
		if _, ok := s.Intersection(Segment{s.A.Add(v), s.B.Add(v)}); ok {
			t.Fatal("parallel lines meet")
		}
	})
	// touching ends do not cross, from any side
	s := Segment{Pt(-5, 0), Pt(5, 0)}
	for _, o := range []Segment{{Pt(0, 0), Pt(1, 7)}, {Pt(1, 7), Pt(0, 0)}, {Pt(0, 0), Pt(1, -7)},
		{Pt(1, -7), Pt(0, 0)}} {
		if s.Crosses(o) || o.Crosses(s) || (Segment{s.B, s.A}).Crosses(o) || o.Crosses(Segment{s.B, s.A}) {
			t.Errorf("%v touches and counts as crossing", o)
		}
	}
	if _, ok := s.Intersection(Segment{Pt(1, 1), Pt(1, 1)}); ok {
		t.Error("a point has a direction")
	}
}
