package drawing

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// inked returns the hatch's lines, and how far their ink may reach.
func inked(items []Item) (lines [][]Pt, dots []Pt) {
	for _, it := range items {
		p := it.(*Path)
		for _, line := range Flatten(p.Segs, 0.01) {
			if p.Stroke.Width == 2*dotRadius {
				dots = append(dots, line[0])
				for k := 1; len(p.Stroke.Dash) > 0 && float64(k)*unheatedStep < line[0].Dist(line[1]); k++ {
					dots = append(dots, line[0].Add(Pt{X: float64(k) * unheatedStep}))
				}
			} else {
				lines = append(lines, line)
			}
		}
	}
	return lines, dots
}

func total(lines [][]Pt) float64 {
	sum := 0.0
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			sum += l[i].Dist(l[i-1])
		}
	}
	return sum
}

// edgeDistance returns how far p is from the nearest side.
func edgeDistance(rings [][]Pt, p Pt) float64 {
	d := math.Inf(1)
	for _, r := range rings {
		for i, a := range r {
			d = math.Min(d, (Straight{A: a, B: r[(i+1)%len(r)]}).Distance(p))
		}
	}
	return d
}

// isInside is the even-odd rule by the turning of a ray at an odd angle, to be
// independent of the code under test.
func isInside(rings [][]Pt, p Pt) bool {
	far := p.Add(Pt{X: 1e4, Y: 3.137e3})
	in := false
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			s := func(p, q, r Pt) bool { return q.Sub(p).Cross(r.Sub(p)) > 0 }
			if s(p, far, a) != s(p, far, b) && s(a, b, p) != s(a, b, far) {
				in = !in
			}
		}
	}
	return in
}

// ringsGen draws rings whose corners lie on a coarse grid, so that corners
// touch, sides lie on hatch lines and on each other.
func ringsGen(t *rapid.T) [][]Pt {
	grid := rapid.IntRange(0, 20)
	var rings [][]Pt
	for range rapid.IntRange(1, 3).Draw(t, "rings") {
		var r []Pt
		for range rapid.IntRange(3, 8).Draw(t, "corners") {
			r = append(r, Pt{X: 1.5 * float64(grid.Draw(t, "x")), Y: 1.5 * float64(grid.Draw(t, "y"))})
		}
		rings = append(rings, r)
	}
	return rings
}

func everyPattern() (all []Pattern) {
	for p := HatchFixture; p <= HatchBoard; p++ {
		all = append(all, p)
	}
	return all
}

func TestHatchStaysInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rings := ringsGen(t)
		p := rapid.SampledFrom(everyPattern()).Draw(t, "pattern")
		lines, dots := inked(Hatch(rings, p))
		for _, l := range lines {
			for i := 1; i < len(l); i++ {
				for _, share := range []float64{0, 0.25, 0.5, 0.75, 1} {
					at := l[i-1].Lerp(l[i], share)
					if !isInside(rings, at) && edgeDistance(rings, at) > 1e-6 {
						t.Fatalf("%v: %v is outside %v", p, at, rings)
					}
				}
			}
		}
		for _, d := range dots {
			if !isInside(rings, d) || edgeDistance(rings, d) < dotRadius {
				t.Fatalf("%v: dot at %v leaves %v", p, d, rings)
			}
		}
	})
}

// Parallel lines so far apart make length x distance = area, whatever the shape.
func TestHatchCoversTheArea(t *testing.T) {
	ring := func(dx float64) []Pt {
		return []Pt{{X: dx, Y: 0}, {X: dx + 90, Y: 0}, {X: dx + 90, Y: 40}, {X: dx + 50, Y: 40}, {X: dx + 50,
			Y: 120}, {X: dx, Y: 120}}
	}
	const area = 90*40 + 50*80
	hole := []Pt{{X: 10, Y: 10}, {X: 40, Y: 10}, {X: 40, Y: 30}, {X: 10, Y: 30}}
	for _, c := range []struct {
		p     Pattern
		rings [][]Pt
		want  float64
	}{
		{HatchFixture, [][]Pt{ring(0)}, area / 3.0},
		{HatchFixture, [][]Pt{ring(0), hole}, (area - 600) / 3.0},
		{HatchUndecided, [][]Pt{ring(0.7)}, area / 3.0},
		{HatchFixing, [][]Pt{ring(0)}, 2 * area / 1.5},
		{HatchRise, [][]Pt{ring(0.2)}, area / 1.5},
		{HatchTile, [][]Pt{ring(0)}, 2 * area / 2.5},
	} {
		lines, _ := inked(Hatch(c.rings, c.p))
		if got := total(lines); math.Abs(got-c.want) > 0.02*c.want {
			t.Errorf("%v: %v mm of line, want %v", c.p, got, c.want)
		}
	}
	_, dots := inked(Hatch([][]Pt{ring(0)}, HatchUnheated))
	if got, want := float64(len(dots)), area/9.0; math.Abs(got-want) > 0.1*want {
		t.Errorf("%v dots, want about %v", got, want)
	}
}

// Two neighbours must look like one area: their lines continue each other.
func TestHatchesOfNeighboursAgree(t *testing.T) {
	left, right := []Pt{{X: 3, Y: 7}, {X: 31, Y: 7}, {X: 31, Y: 44}, {X: 3, Y: 44}}, []Pt{{X: 31, Y: 7}, {X: 70,
		Y: 7}, {X: 70, Y: 44}, {X: 31, Y: 44}}
	whole := []Pt{{X: 3, Y: 7}, {X: 70, Y: 7}, {X: 70, Y: 44}, {X: 3, Y: 44}}
	for _, p := range everyPattern() {
		one, _ := inked(Hatch([][]Pt{whole}, p))
		a, _ := inked(Hatch([][]Pt{left}, p))
		b, _ := inked(Hatch([][]Pt{right}, p))
		if got, want := total(a)+total(b), total(one); math.Abs(got-want) > 0.05 {
			t.Errorf("%v: halves have %v mm, the whole %v", p, got, want)
		}
	}
}

func TestHatchOfNothing(t *testing.T) {
	for _, p := range append(everyPattern(), -1, 99) {
		for _, rings := range [][][]Pt{nil, {nil}, {{{X: 1, Y: 1}}}, {{{X: 0, Y: 0}, {X: 9, Y: 9}}}, {{{X: 5, Y: 5},
			{X: 5, Y: 5}, {X: 5, Y: 5}}}} {
			if items := Hatch(rings, p); len(items) != 0 {
				t.Errorf("%v of %v gave %v", p, rings, items)
			}
		}
	}
}

func TestHatchHandsOnBadPlaces(t *testing.T) {
	s := &Sheet{Paper: Paper{W: 10, H: 10}, Items: Hatch([][]Pt{{{X: 0, Y: 0}, {X: math.NaN(), Y: 5}, {X: 3, Y: 3}}},
		HatchFixture)}
	if err := s.Check(); err == nil {
		t.Error("a ring that is no place was dropped without a word")
	}
}

// Every two patterns must differ in ink or in kind, for one who sees no colour.
func TestPatternsAreNamedApart(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range everyPattern() {
		if seen[p.String()] || p.String() == "unknown" {
			t.Errorf("pattern %d is called %q", p, p)
		}
		seen[p.String()] = true
	}
}

func BenchmarkHatch(b *testing.B) {
	room := [][]Pt{{{X: 10, Y: 10}, {X: 250, Y: 10}, {X: 250, Y: 120}, {X: 180, Y: 120}, {X: 180, Y: 200}, {X: 10,
		Y: 200}}}
	for _, p := range []Pattern{HatchFixture, HatchFixing, HatchUnheated} {
		b.Run(p.String(), func(b *testing.B) {
			for b.Loop() {
				Hatch(room, p)
			}
		})
	}
}

func ExampleHatch() {
	square := []Pt{{X: 0, Y: 0}, {X: 5, Y: 0}, {X: 5, Y: 6}, {X: 0, Y: 6}}
	for _, it := range Hatch([][]Pt{square}, HatchRise) {
		for _, s := range it.(*Path).Segs {
			fmt.Printf("%d %.1f,%.1f\n", s.Op, s.To.X, s.To.Y)
		}
	}
	// Output:
	// 0 1.5,6.0
	// 1 1.5,0.0
	// 0 3.0,6.0
	// 1 3.0,0.0
	// 0 4.5,6.0
	// 1 4.5,0.0
}

// A strip that lies between two lines of a hatch has one all the same: 1 mm wide, the lines 1.5 mm apart.
func TestHatchOfANarrowArea(t *testing.T) {
	strip := [][]Pt{{{X: 15.2, Y: 10}, {X: 16.2, Y: 10}, {X: 16.2, Y: 30}, {X: 15.2, Y: 30}}}
	lines, _ := inked(Hatch(strip, HatchRise))
	if len(lines) != 1 || math.Abs(lines[0][0].X-15.7) > 1e-9 || math.Abs(total(lines)-20) > 1e-6 {
		t.Errorf("%v", lines)
	}
}
