package route

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// serpentine is the corner points of n runs of length l, gap apart.
func serpentine(n int, l, gap float64) []plane.Point {
	var path []plane.Point
	for i := range n {
		a, b := plane.Pt(0, float64(i)*gap), plane.Pt(l, float64(i)*gap)
		if i%2 == 1 {
			a, b = b, a
		}
		path = append(path, a, b)
	}
	return path
}

// Ten runs of 2.0 m, 75 mm apart: N l + (N-1) s with square turns, and
// N (l-s) + s + (N-1) pi s/2 with half circles inside the same envelope.
func TestLengthOfSerpentine(t *testing.T) {
	path := serpentine(10, 2000, 75)
	for _, c := range []struct{ bend, want float64 }{
		{0, 20675},
		{37.5, 10*(2000-75) + 75 + 9*math.Pi*75/2},
		{37.5, 20385.29},
	} {
		if got := Length(path, c.bend); math.Abs(got-c.want) > 0.01 {
			t.Errorf("bend %.1f: %.2f mm, want %.2f", c.bend, got, c.want)
		}
	}
}

func TestLengthOfDegeneratePaths(t *testing.T) {
	if n := Length(nil, 15); n != 0 {
		t.Error(n)
	}
	if n := Length([]plane.Point{{X: 1, Y: 2}}, 15); n != 0 {
		t.Error(n)
	}
	if p := Along(nil, 15, 3); p != (plane.Point{}) {
		t.Error(p)
	}
}

// A point d further along the line is never more than d away, both ends are
// the path's, and the stations are in order and end with the length.
func TestAlongAgreesWithLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		path := serpentine(rapid.IntRange(1, 6).Draw(t, "runs"), rapid.Float64Range(100, 900).Draw(t, "l"),
			rapid.Float64Range(60, 120).Draw(t, "gap"))
		bend := rapid.Float64Range(1, 30).Draw(t, "bend")
		n := Length(path, bend)
		if Along(path, bend, 0).Dist(path[0]) > 1e-9 || Along(path, bend, n+1).Dist(path[len(path)-1]) > 1e-6 {
			t.Fatal("ends")
		}
		s, d := rapid.Float64Range(0, n).Draw(t, "s"), rapid.Float64Range(0, 50).Draw(t, "d")
		if far := Along(path, bend, s).Dist(Along(path, bend, s+d)); far > d+1e-6 {
			t.Fatalf("%.3f mm apart, %.3f along", far, d)
		}
		st := Stations(path, bend)
		for i := 1; i < len(st); i++ {
			if st[i] < st[i-1] {
				t.Fatal("stations out of order", st)
			}
		}
		if math.Abs(st[len(st)-1]-n) > 1e-6 {
			t.Fatalf("last station %.3f, length %.3f", st[len(st)-1], n)
		}
	})
}

// The checker of these tests and Length measure by different arithmetic.
func TestLengthAgreesWithWalk(t *testing.T) {
	path := []plane.Point{{X: 0, Y: 0}, {X: 300, Y: 0}, {X: 420, Y: 160}, {X: 420, Y: 500}, {X: 100, Y: 500}}
	_, n, err := walkLine(path, 15)
	if err != nil || math.Abs(n-Length(path, 15)) > 1e-6 {
		t.Errorf("%.4f walked, %.4f computed, %v", n, Length(path, 15), err)
	}
}
