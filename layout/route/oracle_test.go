package route

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// tiny is a room of few pegs with some left out, small enough to try every
// path.
func tiny(nx, ny int, out map[[2]int]bool) Problem {
	const pitch = 50.0
	p := Problem{Pitch: pitch, Closest: 1, Widest: 2, Bend: 20, Entry: plane.Pt(-60, -60)}
	p.Lattice = &Lattice{Pitch: pitch}
	p.Floor = plane.FromRing(plane.Rectangle(plane.Pt(-100, -100), plane.Pt(pitch*float64(nx)+50,
		pitch*float64(ny)+50)))
	zone := plane.FromRing(plane.Rectangle(plane.Pt(-1, -1), plane.Pt(pitch*float64(nx-1)+1, pitch*float64(ny-1)+1)))
	for y := range ny {
		for x := range nx {
			if out[[2]int{x, y}] {
				c := plane.Pt(pitch*float64(x), pitch*float64(y))
				zone, _ = zone.Less(plane.FromRing(plane.Rectangle(c.Sub(plane.Pt(24, 24)), c.Add(plane.Pt(24, 24)))))
			}
		}
	}
	p.Zones = []plane.Region{zone}
	return p
}

// longestPath tries every path over the pegs and returns the greatest number
// of steps.
func longestPath(nx, ny int, out map[[2]int]bool) int {
	best := 0
	seen := map[[2]int]bool{}
	var go_ func(x, y, n int)
	go_ = func(x, y, n int) {
		at := [2]int{x, y}
		if x < 0 || y < 0 || x >= nx || y >= ny || out[at] || seen[at] {
			return
		}
		best = max(best, n)
		seen[at] = true
		go_(x+1, y, n+1)
		go_(x-1, y, n+1)
		go_(x, y+1, n+1)
		go_(x, y-1, n+1)
		delete(seen, at)
	}
	for y := range ny {
		for x := range nx {
			go_(x, y, 0)
		}
	}
	return best
}

// TestOracle holds the router against exhaustive search on tiny lattices: it
// never lays more than the longest path there is, refuses what is longer, and
// in a full rectangle it uses all rows but one at least.
func TestOracle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nx, ny := rapid.IntRange(3, 5).Draw(t, "nx"), rapid.IntRange(3, 4).Draw(t, "ny")
		out := map[[2]int]bool{}
		for range rapid.IntRange(0, 3).Draw(t, "out") {
			out[[2]int{rapid.IntRange(0, nx-1).Draw(t, "x"), rapid.IntRange(0, ny-1).Draw(t, "y")}] = true
		}
		p := tiny(nx, ny, out)
		most := float64(longestPath(nx, ny, out)) * p.Pitch
		p.Cables = []Cable{{ID: "H1", Length: most + 1}}
		_, err := Solve(p)
		var r *Refusal
		if !errors.As(err, &r) {
			t.Fatalf("%.0f mm laid where no path is longer than %.0f", most+1, most)
		}
		if r.Longest > most {
			t.Fatalf("%.1f mm said to fit, %.1f mm is the longest path", r.Longest, most)
		}
		if len(out) == 0 {
			// the serpentine visits every peg; two bends a turn save 0.43 bend each
			full := float64(nx*ny-1)*p.Pitch - float64(2*(min(nx, ny)-1))*(2-math.Pi/2)*p.Bend
			// on so small a floor a row's turns may cost more than its floor is
			// worth, but no more than one row is given up
			if r.Longest < full-float64(max(nx, ny))*p.Pitch {
				t.Fatalf("longest %.1f mm, a serpentine has %.1f mm", r.Longest, full)
			}
		}
	})
}

// TestCoveredBound: a line of length L with t right-angle bends covers at most
// 2 r L + pi r² - (1 - pi/4) r² t within r, and a room that needs k strips is
// not covered with fewer than k-1 turns.
func TestCoveredBound(t *testing.T) {
	for kind := range 5 {
		t.Run(fmt.Sprint(kind), func(t *testing.T) {
			p := roomOf(t, outline(kind, 2600, 2200), nil, 75, nil)
			p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.4)}}
			routes, err := Solve(p)
			if err != nil {
				t.Fatal(err)
			}
			rt := routes[0]
			r := 1.0 * p.Pitch // half the closest gap, so that no two runs cover the same floor
			f := newField(p.Zones[0], rt.Lattice, 60, rt.Spacing)
			cells := 0
			for _, w := range f.cover(f.legs(rt.Path), r) {
				for ; w != 0; w &= w - 1 {
					cells++
				}
			}
			turns := float64(len(rt.Path) - 2)
			sharp := pathLength(rt.Path)
			most := 2*r*sharp + math.Pi*r*r - (1-math.Pi/4)*r*r*turns
			if got := float64(cells) * f.cell * f.cell; got > most*1.01 {
				t.Errorf("%.0f mm² covered, bound %.0f", got, most)
			}
			if strips := p.Zones[0].Bounds().H() / (float64(p.Widest) * p.Pitch); kind == 0 && turns < strips-1 {
				t.Errorf("%.0f turns, at least %.0f strips", turns, strips)
			}
		})
	}
}
