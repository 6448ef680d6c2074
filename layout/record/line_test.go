package record

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// furrows is a line of n runs of length mm, gap mm apart, running lengths along
// the corners.
func furrows(n int, length, gap float64) Line {
	var l Line
	along, x := 0.0, 0.0
	add := func(x, y float64) {
		p := plane.Pt(x, y)
		if len(l.Points) > 0 {
			along += p.Dist(l.Points[len(l.Points)-1])
		}
		l.Points, l.Along = append(l.Points, p), append(l.Along, along)
	}
	for i := range n {
		y := float64(i) * gap
		add(x, y)
		x = length - x
		add(x, y)
	}
	return l
}

func TestAtAndCut(t *testing.T) {
	l := furrows(3, 1000, 100)
	for _, c := range []struct {
		along float64
		want  plane.Point
	}{{0, plane.Pt(0, 0)}, {400, plane.Pt(400, 0)}, {1050, plane.Pt(1000, 50)}, {1200, plane.Pt(900, 100)}, {-5,
		plane.Pt(0, 0)}, {9999, plane.Pt(1000, 200)}} {
		if got := l.At(c.along); got.Dist(c.want) > 1e-9 {
			t.Errorf("%g mm: %v, want %v", c.along, got, c.want)
		}
	}
	cut := l.Cut(900, 1200)
	if len(cut) != 4 || cut[1] != plane.Pt(1000, 0) || cut[3].Dist(plane.Pt(900, 100)) > 1e-9 {
		t.Errorf("cut %v", cut)
	}
}

// Bends cut running lengths: a corner's own length counts, not the distance.
func TestAlongNeedNotBeTheDistance(t *testing.T) {
	l := Line{[]plane.Point{{}, {X: 1000}}, []float64{0, 990}}
	if got := l.At(495); got.Dist(plane.Pt(500, 0)) > 1e-9 {
		t.Errorf("half-way is %v", got)
	}
}

// A stretch in the middle of run 3 of 5, 90 mm apart, may be confused with runs
// 2 and 4 within 120 mm, and with all others within 200 mm.
func TestNeighboursOfARun(t *testing.T) {
	l := furrows(5, 2000, 90)
	from, to := l.Along[4]+900, l.Along[4]+1100
	for _, c := range []struct {
		reach float64
		want  int
	}{{60, 0}, {120, 2}, {200, 4}} {
		got, err := l.Neighbours(from, to, c.reach)
		if err != nil {
			t.Fatal(err)
		}
		if len(got) != c.want {
			t.Fatalf("within %g mm: %+v", c.reach, got)
		}
	}
	got, _ := l.Neighbours(from, to, 120)
	for i, n := range got {
		near(t, "gap", n.Gap, 90, 1e-9)
		mid := l.At((n.From + n.To) / 2)
		near(t, "middle", mid.X, 1000, 10)
		near(t, "run", mid.Y, []float64{90, 270}[i], 1e-9)
		near(t, "length", n.To-n.From, 200+2*math.Sqrt(120*120-90*90), 20)
	}
}

// Turns are not runs.
func TestTurnsAreNoNeighbours(t *testing.T) {
	l := furrows(3, 2000, 90)
	got, err := l.Neighbours(l.Along[1]-100, l.Along[1]-10, 120)
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 1 || got[0].From < l.Along[2] {
		t.Errorf("%+v", got)
	}
}

func TestLineCheck(t *testing.T) {
	for name, l := range map[string]Line{
		"nothing":         {},
		"a corner short":  {[]plane.Point{{}, {X: 1}}, []float64{0}},
		"no growth":       {[]plane.Point{{}, {X: 1}}, []float64{5, 5}},
		"no place":        {[]plane.Point{{}, {X: math.NaN()}}, []float64{0, 1}},
		"no length":       {[]plane.Point{{}, {X: 1}}, []float64{0, math.Inf(1)}},
		"one corner only": {[]plane.Point{{}}, []float64{0}},
	} {
		if _, err := l.Neighbours(0, 1, 10); err == nil {
			t.Errorf("%s passes", name)
		}
	}
	l := furrows(2, 100, 10)
	for _, c := range [][3]float64{{5, 1, 10}, {1, 5, 0}, {1, 5, math.Inf(1)}, {math.NaN(), 5, 1}} {
		if _, err := l.Neighbours(c[0], c[1], c[2]); err == nil {
			t.Errorf("%v passes", c)
		}
	}
}

// No neighbour lies on the stretch, all lie within reach of it.
func TestNeighboursLieNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gap := rapid.Float64Range(40, 150).Draw(t, "gap")
		l := furrows(rapid.IntRange(1, 12).Draw(t, "runs"), rapid.Float64Range(300, 3000).Draw(t, "length"), gap)
		end := l.Along[len(l.Along)-1]
		from := rapid.Float64Range(0, end).Draw(t, "from")
		to := rapid.Float64Range(from, end).Draw(t, "to")
		reach := rapid.Float64Range(10, 250).Draw(t, "reach")
		ns, err := l.Neighbours(from, to, reach)
		if err != nil {
			t.Fatal(err)
		}
		stretch := l.Cut(from, to)
		for _, n := range ns {
			if n.From > n.To || n.To > from && n.From < to {
				t.Fatalf("%+v lies on %g to %g", n, from, to)
			}
			for _, at := range []float64{n.From, n.To} {
				if d := plane.PathDistance(stretch, l.At(at)); d > reach+1e-6 || d < n.Gap-1e-6 {
					t.Fatalf("%+v: %g mm away at %g, reach %g", n, d, at, reach)
				}
			}
		}
	})
}
