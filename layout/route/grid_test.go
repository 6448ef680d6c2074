package route

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// drawZone is a polygon with a hole, its corners on no peg.
func drawZone(t *rapid.T) plane.Region {
	at := func(lo, hi int, name string) float64 { return 50*float64(rapid.IntRange(lo, hi).Draw(t, name)) + 17 }
	ring := plane.Ring{
		{X: 17, Y: 17}, {X: at(10, 14, "x1"), Y: 17}, {X: at(10, 14, "x2"), Y: at(3, 5, "y2")},
		{X: at(4, 8, "x3"), Y: at(4, 6, "y3")},
		{X: at(4, 12, "x4"), Y: at(8, 11, "y4")}, {X: 17, Y: at(8, 11, "y5")},
	}
	x, y := at(1, 2, "hole x"), at(1, 5, "hole y")
	zone, err := plane.FromRing(ring).Less(plane.FromRing(plane.Rectangle(plane.Pt(x, y),
		plane.Pt(x+at(0, 2, "w"), y+at(0, 2, "h")))))
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

// goes tells from the zone alone whether cable may lie from a to b; unsure where
// it would touch the edge.
func goes(zone plane.Region, a, b plane.Point) (ok, sure bool) {
	ok, sure = true, true
	for k := range 101 {
		d := zone.Depth(a.Lerp(b, float64(k)/100))
		if d < 0 {
			ok = false
		}
		if math.Abs(d) < 1.5 {
			sure = false
		}
	}
	return ok, sure
}

func TestGridIsTheZoneOnPegs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone := drawZone(t)
		l := Lattice{Origin: plane.Pt(3, 41), Angle: rapid.SampledFrom([]float64{0, 0.3}).Draw(t, "angle"), Pitch: 50}
		g := newGrid(zone, l, turns(rapid.IntRange(0, 3).Draw(t, "turns")))
		free := 0
		for y := -1; y <= g.ny; y++ {
			for x := -1; x <= g.nx; x++ {
				at := g.world(float64(x), float64(y))
				if a, b := g.place(at); !near1(a, float64(x)) || !near1(b, float64(y)) {
					t.Fatalf("%d, %d lies at %v, which is %g, %g", x, y, at, a, b)
				}
				in := g.inside(x, y)
				if in {
					free++
				}
				if d := zone.Depth(at); math.Abs(d) > 1 && in != (d > 0) {
					t.Fatalf("%d, %d lies %.1f mm inside: %v", x, y, d, in)
				}
				for _, to := range []node{{x + 1, y}, {x, y + 1}, {x, y + 3}} {
					if ok, sure := goes(zone, at, g.world(float64(to.x), float64(to.y))); sure && g.holds(node{x, y},
						to) != ok || sure && g.holds(to, node{x, y}) != ok {
						t.Fatalf("cable from %d, %d to %v: want %v", x, y, to, ok)
					}
				}
			}
		}
		if free != g.free {
			t.Fatalf("%d pegs inside, %d counted", g.free, free)
		}
	})
}

func TestStripsAreColumnsWhereLinksGo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := newGrid(drawZone(t), Lattice{Pitch: 50}, 0)
		for y := range g.ny {
			for gap := range 5 {
				var xs []int
				for _, s := range g.strip(y, gap) {
					for x := s.a; x <= s.b; x++ {
						xs = append(xs, x)
					}
					if s.b < s.a {
						t.Fatal("empty strip")
					}
				}
				var want []int
				for x := range g.nx {
					if gap > 0 && g.holds(node{x, y}, node{x, y + gap}) {
						want = append(want, x)
					}
				}
				if !slices.Equal(xs, want) {
					t.Fatalf("row %d, gap %d: %v, want %v", y, gap, xs, want)
				}
			}
		}
	})
}

// remains says which spans hang together below: so says a walk from peg to peg.
func TestRemainsHangTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := newGrid(drawZone(t), Lattice{Pitch: 50}, turns(rapid.IntRange(0, 3).Draw(t, "turns")))
		labels := g.remains()
		for y := range g.ny {
			seen := map[node]int{}
			for i, s := range g.rows[y] {
				walkFrom(g, node{s.a, y}, y, i, seen)
			}
			for i, s := range g.rows[y] {
				for j, o := range g.rows[y] {
					if (labels[y][i] == labels[y][j]) != (seen[node{s.a, y}] == seen[node{o.a, y}]) {
						t.Fatalf("row %d: spans %v and %v", y, s, o)
					}
				}
			}
		}
	})
}

// walkFrom marks the pegs from row on that cable can reach from n.
func walkFrom(g *grid, n node, row, mark int, seen map[node]int) {
	if _, ok := seen[n]; ok || n.y < row {
		return
	}
	seen[n] = mark
	for _, to := range []node{{n.x + 1, n.y}, {n.x - 1, n.y}, {n.x, n.y + 1}, {n.x, n.y - 1}} {
		if g.holds(n, to) {
			walkFrom(g, to, row, mark, seen)
		}
	}
}

func TestMergeAndWhole(t *testing.T) {
	in := merge([][2]float64{{0, 2}, {5, 6}}, [][2]float64{{-1, 1}, {2, 3}, {5.5, 5.7}, {8, 8.2}})
	if want := [][2]float64{{-1, 3}, {5, 6}, {8, 8.2}}; !slices.Equal(in, want) {
		t.Errorf("%v, want %v", in, want)
	}
	// a tenth of a peg to spare at either end
	if got, want := whole([][2]float64{{-1, 3}, {4.05, 4.95}, {6.2, 6.8}, {8, 8.2}}, 0.1), []span{{-1, 3}, {4, 5},
		{8, 8}}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestEndsCostTheLeastFromARowOn(t *testing.T) {
	g := newGrid(plane.FromRing(outline(2, 700, 620)), Lattice{Pitch: 50}, 0)
	cost := func(_ *grid, x, y int) float32 { return float32((x*7+y*13)%17) + 1 }
	e := newPathEnd(g, cost)
	for y := range g.ny + 1 {
		want := inf32
		for b := y; b < g.ny; b++ {
			for _, s := range g.rows[b] {
				want = min(want, cost(g, s.a, b), cost(g, s.b, b))
			}
		}
		if e.least[y] != want {
			t.Errorf("row %d: %g, want %g", y, e.least[y], want)
		}
	}
	if got := e.at(g, 3, 4); got != cost(g, 3, 4) {
		t.Error(got)
	}
	again := 0
	e = newPathEnd(g, func(*grid, int, int) float32 { again++; return 0 })
	was := again
	if e.at(g, g.rows[1][0].a, 1); again != was {
		t.Error("worked out twice")
	}
}

// The pegs lie along the longest walls, and the first line of them on the
// clearance line of as much wall as can be.
func TestLatticeLiesAlongTheWalls(t *testing.T) {
	for _, angle := range []float64{0, 0.2, 1.1, math.Pi/2 - 1e-12} {
		walls := plane.Ring{{X: 40, Y: 30}, {X: 2440, Y: 30}, {X: 2440, Y: 1530}, {X: 1500, Y: 1900}, {X: 40, Y: 1900}}
		for i := range walls {
			walls[i] = walls[i].Rotate(angle)
		}
		p := Problem{Zones: []plane.Region{plane.FromRing(walls)}, Pitch: 70}
		l := chooseLattice(p)
		if off := math.Abs(math.Sin(2 * (l.Angle - angle))); off > 1e-6 || l.Angle < 0 || l.Angle >= math.Pi/2 {
			t.Errorf("walls at %g, pegs at %g", angle, l.Angle)
		}
		for i := range walls {
			e := walls.Edge(i)
			u0, v0 := l.ToPegs(e.A)
			u1, v1 := l.ToPegs(e.B)
			if e.Length() < 1700 { // the slanting wall, and the right one: 2400 is no whole number of pegs
				continue
			}
			on := math.Min(math.Abs(u0-math.Round(u0)), math.Abs(v0-math.Round(v0)))
			if math.Abs(u0-u1) > 1e-6 && math.Abs(v0-v1) > 1e-6 {
				t.Errorf("angle %g: the wall from %v lies askew", angle, e.A)
			}
			if off := on * 70; off > 0.1 && e.Length() > 2000 {
				t.Errorf("angle %g: the first pegs lie %.2f mm off the longest wall", angle, off)
			}
		}
	}
	given := Lattice{Origin: plane.Pt(1, 2), Angle: 0.5, Pitch: 30}
	if l := chooseLattice(Problem{Lattice: &given}); l != given {
		t.Errorf("%v, given %v", l, given)
	}
}

// Where no shift serves all faces, the one that leaves least floor is taken: so
// says a try of every tenth of a millimetre.
func TestShiftLeavesLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone := drawZone(t)
		l := Lattice{Pitch: 50}
		for _, v := range []bool{false, true} {
			faces := facesOf([]plane.Region{zone}, l, v)
			if len(faces) == 0 {
				continue
			}
			got := leftOver(faces, shift([]plane.Region{zone}, l, v), l.Pitch)
			for d := range 500 {
				if c := wasted(faces, float64(d)/10, l.Pitch); c < got-1000 {
					t.Fatalf("%.0f mm² left over, at %.1f mm %.0f", got, float64(d)/10, c)
				}
			}
		}
	})
}

// wasted is the floor between faces and first pegs, weighed by its width in
// pitches, by a walk from the face inwards.
func wasted(faces []face, offset, pitch float64) float64 {
	n := 0.0
	for _, f := range faces {
		d := math.Mod(f.at-offset, pitch)
		if f.up {
			d = math.Mod(offset-f.at, pitch)
		}
		if d < -0.3 {
			d += pitch
		}
		if d > pitch-0.3 {
			d -= pitch
		}
		n += f.length * d * d / pitch
	}
	return n
}

// An edge within three degrees of the rows is a face across them, of its point farthest into
// the zone, which lies to its left; those across are faces the other way.
func TestFacesOfAZone(t *testing.T) {
	for _, angle := range []float64{0, math.Pi / 6} {
		for _, c := range []struct {
			x0, y0, x1, y1 float64
			v              bool
			want           face
			ok             bool
		}{
			{0, 100, 1000, 100, true, face{100, 1000, true}, true}, {1000, 100, 0, 100, true, face{100, 1000, false},
				true},
			{200, 0, 200, 500, false, face{200, 500, false}, true}, {200, 500, 200, 0, false, face{200, 500, true},
				true},
			{200, 0, 200, 500, true, face{}, false}, {0, 100, 1000, 100, false, face{}, false},
			{0, 100, 1000, 149, true, face{149, 1000, true}, true}, {0, 100, 1000, 151, true, face{}, false},
			{1000, 149, 0, 100, true, face{100, 1000, false}, true}, {200, 0, 220, 500, false, face{200, 500, false},
				true},
			{220, 500, 200, 0, false, face{220, 500, true}, true},
		} {
			e := plane.Segment{A: plane.Pt(c.x0, c.y0).Rotate(angle), B: plane.Pt(c.x1, c.y1).Rotate(angle)}
			got, ok := faceOf(e, angle, c.v)
			if ok != c.ok || math.Abs(got.at-c.want.at) > 1e-6 || math.Abs(got.length-c.want.length) > 1e-6 ||
				got.up != c.want.up {
				t.Errorf("at %g: %+v: %+v, %v", angle, c, got, ok)
			}
		}
	}
	// between pegs of 30 mm: 10 mm left of 1 m, and 20 on the other side; 0.3 mm are forgiven
	for _, c := range []struct{ offset, want float64 }{{0, 0}, {10, 1000 * 100 / 30.}, {40, 1000 * 100 / 30.}, {-0.2,
		1000 * 0.04 / 30}} {
		if got := leftOver([]face{{0, 1000, true}}, c.offset, 30); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("pegs at %g: %g mm² left over, want %g", c.offset, got, c.want)
		}
		if got := leftOver([]face{{0, 1000, false}}, -c.offset, 30); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("pegs at %g, the zone below: %g mm² left over, want %g", -c.offset, got, c.want)
		}
	}
}

// A wall counts by the square of its length, less the farther it lies off, down to nothing at
// a twentieth of a radian; the first direction is kept where another has hardly more.
func TestTheDirectionOfMostWall(t *testing.T) {
	wall := func(length, angle float64) plane.Segment { return plane.Segment{B: plane.Pt(length, 0).Rotate(angle)} }
	for _, c := range []struct {
		walls []plane.Segment
		a     float64
		want  float64
	}{
		{[]plane.Segment{wall(2000, 0)}, 0, 4000}, {[]plane.Segment{wall(2000, 0)}, 0.025, 2000},
		{[]plane.Segment{wall(2000, 0)}, 0.06, 0},
		{[]plane.Segment{wall(2000, 0), wall(1000, 0.025)}, 0, 4500}, {[]plane.Segment{wall(2000, math.Pi/2)}, 0, 4000},
		{[]plane.Segment{wall(2000, math.Pi/2-0.01)}, 0, 3200}, {[]plane.Segment{wall(2000, 0.3)},
			0.3 + math.Pi/2 - 0.3, 0},
	} {
		if got := alongside(c.walls, c.a); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%v along %g: %g, want %g", c.walls, c.a, got, c.want)
		}
	}
	for second, want := range map[float64]float64{999: 0, 1000.2: 0, 1001: 0.3} {
		if got := mainAngle([]plane.Segment{wall(1000, 0), wall(second, 0.3)}, nil); math.Abs(got-want) > 1e-9 {
			t.Errorf("walls of 1000 and %g mm: %g, want %g", second, got, want)
		}
	}
	square := plane.FromRing(plane.Ring{{}, {X: 800, Y: 600}, {X: 200, Y: 1400}, {X: -600, Y: 800}}) // 3, 4, 5
	if got, want := mainAngle(nil, []plane.Region{square}), math.Atan2(600, 800); math.Abs(got-want) > 1e-9 {
		t.Errorf("without walls, by the zone: %g, want %g", got, want)
	}
}
