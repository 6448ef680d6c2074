package route

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// openGrid is a floor of nx by ny pegs.
func openGrid(nx, ny int) *grid {
	zone := plane.FromRing(plane.Rectangle(plane.Pt(-5, -5), plane.Pt(float64(nx-1)*50+5, float64(ny-1)*50+5)))
	return newGrid(zone, Lattice{Pitch: 50}, 0)
}

// A path 20 pegs to the east, and a ring of 10 by 5 pegs three pegs above it. Side by side
// they lie over the ring's two level legs, from 5 to 15: places 2 to 6 pegs long, of a lane of 4
// two more, at either end, on each of the two.
func TestWhereARingLiesBesideAPath(t *testing.T) {
	r := plainRule()
	path := []node{{0, 0}, {20, 0}}
	ring := []node{{5, 3}, {15, 3}, {15, 8}, {5, 8}}
	got := slices.Collect(r.allAbreast(path, ring, 4))
	var want []abreast
	for _, leg := range [][2]int{{0, 3}, {2, 8}} {
		for n := 2; n <= 6; n++ {
			want = append(want, abreast{0, leg[0], 5, 5 + n, leg[1] + abs(n-4)},
				abreast{0, leg[0], 15 - n, 15, leg[1] + abs(n-4)})
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	// as short as the overlap
	short := []abreast{{0, 0, 5, 7, 5}, {0, 0, 6, 8, 5}, {0, 0, 5, 8, 4}, {0, 0, 5, 8, 4}, {0, 2, 5, 7, 10},
		{0, 2, 6, 8, 10}, {0, 2, 5, 8, 9}, {0, 2, 5, 8, 9}}
	if got := slices.Collect(r.allAbreast([]node{{0, 0}, {8, 0}}, ring, 4)); !slices.Equal(got, short) {
		t.Errorf("%v, want %v", got, short)
	}
	// on the upright legs of both, by their heights
	up := slices.Collect(r.allAbreast([]node{{0, 0}, {0, 20}}, ring, 4))
	if len(up) != 2*2*4 || up[0] != (abreast{0, 1, 3, 5, 17}) || up[1] != (abreast{0, 1, 6, 8, 17}) {
		t.Errorf("%v", up)
	}
	if n := r.worth(ring); n != 30-4 {
		t.Errorf("a ring of 30 pegs and 4 turns is worth %g", n)
	}
}

// turned turns nodes by quarter turns.
func turnedNodes(nodes []node, by int) []node {
	out := slices.Clone(nodes)
	for range by {
		for i, n := range out {
			out[i] = node{-n.y, n.x}
		}
	}
	return out
}

// Wherever a ring lies beside a path, whichever way round either goes, joined they are one
// line from the path's start to its end, through all corners of both, as long as both less
// what is opened twice, and two links.
func TestJoinedRingsAreOneLine(t *testing.T) {
	path := []node{{-4, 6}, {-4, 0}, {20, 0}, {20, 9}}
	ring := []node{{5, 3}, {15, 3}, {15, 6}, {12, 6}, {12, 9}, {5, 9}}
	length := func(nodes []node) (n int) {
		for i := 1; i < len(nodes); i++ {
			n += pegs(nodes[i-1], nodes[i])
		}
		return n
	}
	joined := 0
	for turn := range 4 {
		for way := range 4 {
			p, q := turnedNodes(path, turn), turnedNodes(ring, turn)
			if way&1 > 0 {
				slices.Reverse(p)
			}
			if way&2 > 0 {
				slices.Reverse(q)
			}
			for m := range plainRule().allAbreast(p, q, 4) {
				out, ok := m.join(slices.Clone(p), slices.Clone(q))
				if !ok {
					continue
				}
				joined++
				n := m.to - m.from
				want := length(p) + length(append(slices.Clone(q), q[0])) - 2*n + 2*(m.off-abs(n-4))
				if out[0] != p[0] || out[len(out)-1] != p[len(p)-1] || length(out) != want {
					t.Fatalf("turned %d, way %d, at %+v: %v is %d pegs, want %d", turn, way, m, out, length(out), want)
				}
				for i := 1; i < len(out); i++ {
					if out[i].x != out[i-1].x && out[i].y != out[i-1].y {
						t.Fatalf("%v has a slanting leg", out)
					}
				}
				for _, n := range q {
					if on := slices.IndexFunc(out, func(o node) bool { return o == n }); on < 0 && n != q[m.j] && n !=
						q[(m.j+1)%len(q)] {
						t.Fatalf("turned %d, way %d, at %+v: %v is no corner of %v", turn, way, m, n, out)
					}
				}
			}
		}
	}
	if joined < 16*10 {
		t.Errorf("only %d joined", joined)
	}
}

// A ring is joined where it lies nearest, over a lane; where no place keeps the rules it is not.
func TestRingsAreJoinedByTheRules(t *testing.T) {
	r := rulesFor(Problem{Pitch: 50, Closest: 3, Widest: 9, Bend: 20}, Cable{})
	g := openGrid(30, 20)
	path := []node{{0, 0}, {25, 0}}
	ring := []node{{5, 3}, {15, 3}, {15, 9}, {5, 9}}
	got, ok := r.joinRing(g, path, ring, 4)
	// 4 pegs from the ring's corner at 5 on: up there, round by 5, 9 and back down at 9
	want := []node{{0, 0}, {5, 0}, {5, 9}, {15, 9}, {15, 3}, {9, 3}, {9, 0}, {25, 0}}
	if !ok || !slices.Equal(got, want) {
		t.Errorf("%v, %v; want %v", got, ok, want)
	}
	near := []node{{5, 2}, {15, 2}, {15, 9}, {5, 9}} // nearer than is allowed
	if got, ok := r.joinRing(g, path, near, 4); ok {
		t.Errorf("%v", got)
	}
	if got, ok := r.joinRing(g, path[:1], ring, 4); ok {
		t.Errorf("joined to nothing: %v", got)
	}
}

// Two pockets that differ in one peg, in their places or in the gap wanted are told apart.
func TestPocketsAreToldApart(t *testing.T) {
	g := openGrid(6, 4)
	keys := map[ringKey]string{}
	put := func(name string, g *grid, s float64) {
		k := g.keyFor(s)
		if was, ok := keys[k]; ok {
			t.Errorf("%s is taken for %s", name, was)
		}
		keys[k] = name
	}
	put("as it is", g, 3)
	put("wider", g, 3.5)
	for y := range g.rows {
		for x := range 6 {
			h := *g
			h.rows = cutOut(g.rows, func(line, at int) bool { return line == y && at == x })
			put("without a peg", &h, 3)
		}
	}
	h := *g
	h.ox++
	put("elsewhere", &h, 3)
	h.oy++
	put("elsewhere still", &h, 3)
	h.turns++
	put("turned", &h, 3)
}

// The floor beside a path, peg by peg from its distance, and the parts of what is left, by
// going from peg to peg, are what pockets has.
func TestPocketsByHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := newGrid(drawZone(t), Lattice{Origin: plane.Pt(3, 41), Pitch: 50},
			turns(rapid.IntRange(0, 3).Draw(t, "turns")))
		gap, back := rapid.IntRange(1, 3).Draw(t, "gap"), rapid.IntRange(0, 2).Draw(t, "back")
		path := []node{{rapid.IntRange(0, g.nx-1).Draw(t, "x"), rapid.IntRange(0, g.ny-1).Draw(t, "y")}}
		for range rapid.IntRange(0, 3).Draw(t, "legs") {
			last := path[len(path)-1]
			next := node{rapid.IntRange(0, g.nx-1).Draw(t, "x"), last.y}
			if rapid.Bool().Draw(t, "up") {
				next = node{last.x, rapid.IntRange(0, g.ny-1).Draw(t, "y")}
			}
			path = append(path, next)
		}
		free := func(n node) bool {
			if !g.inside(n.x, n.y) {
				return false
			}
			for i := 1; i < len(path); i++ {
				s := plane.Segment{A: plane.Pt(float64(path[i-1].x), float64(path[i-1].y)),
					B: plane.Pt(float64(path[i].x), float64(path[i].y))}
				if s.Distance(plane.Pt(float64(n.x), float64(n.y))) < float64(gap)-1e-9 {
					return false
				}
			}
			return true
		}
		part := map[node]int{}
		var want []int // pegs of each part with room for a turn
		for y := range g.ny {
			for x := range g.nx {
				if n := (node{x, y}); free(n) && part[n] == 0 {
					all := spreadFrom(g, n, free)
					lo, hi := n, n
					for _, m := range all {
						part[m] = len(part) + 1
						lo, hi = node{min(lo.x, m.x), min(lo.y, m.y)}, node{max(hi.x, m.x), max(hi.y, m.y)}
					}
					if hi.x-lo.x >= back && hi.y-lo.y >= back {
						want = append(want, len(all))
					}
				}
			}
		}
		slices.Sort(want)
		slices.Reverse(want)
		var got []int
		for _, p := range g.pockets(path, gap, &rules{flat: 1, x: axis{turnBack: back}, y: axis{turnBack: back}}) {
			n := 0
			for y := range p.ny {
				for x := range p.nx {
					if !p.inside(x, y) {
						continue
					}
					n++
					if at := g.from(p, node{x, y}); !free(at) || g.world(float64(at.x), float64(at.y)).Dist(p.world(
						float64(x), float64(y))) > 1e-6 {
						t.Fatalf("%d, %d of a pocket is %v", x, y, at)
					}
				}
			}
			if n != p.free {
				t.Fatalf("%d pegs of %d", n, p.free)
			}
			got = append(got, n)
		}
		if !slices.Equal(got, want) {
			t.Fatalf("pockets of %v pegs, want %v, beside %v", got, want, path)
		}
	})
}

// spreadFrom are the pegs that can be gone to from one, a peg at a time.
func spreadFrom(g *grid, from node, free func(node) bool) []node {
	seen, out := map[node]bool{from: true}, []node{from}
	for i := 0; i < len(out); i++ {
		for _, d := range []node{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			to := node{out[i].x + d.x, out[i].y + d.y}
			if free(to) && !seen[to] && g.holds(out[i], to) {
				seen[to] = true
				out = append(out, to)
			}
		}
	}
	return out
}

// A grid looked at across its rows is the same floor: the same pegs, and legs along its rows
// where those across were.
func TestGridsAcross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := newGrid(drawZone(t), Lattice{Origin: plane.Pt(3, 41), Angle: 0.3, Pitch: 50},
			turns(rapid.IntRange(0, 3).Draw(t, "turns")))
		g.ox, g.oy = g.ox+rapid.IntRange(-3, 3).Draw(t, "ox"), g.oy-rapid.IntRange(-3, 3).Draw(t, "oy")
		h := g.across()
		if h.nx != g.ny || h.ny != g.nx || h.free != g.free {
			t.Fatalf("%d by %d, %d free of %d by %d, %d", h.nx, h.ny, h.free, g.nx, g.ny, g.free)
		}
		for y := range h.ny {
			for x := range h.nx {
				at := g.from(h, node{x, y})
				if g.world(float64(at.x), float64(at.y)).Dist(h.world(float64(x), float64(y))) > 1e-6 ||
					g.inside(at.x, at.y) != h.inside(x, y) {
					t.Fatalf("%d, %d is %v", x, y, at)
				}
				if !h.inside(x, y) {
					continue
				}
				for _, d := range []node{{1, 0}, {0, 1}} {
					to := node{x + d.x, y + d.y}
					if h.holds(node{x, y}, to) != g.holds(at, g.from(h, to)) {
						t.Fatalf("from %d, %d by %v", x, y, d)
					}
				}
			}
		}
	})
}

// Of the pegs 0 to 9 of a line, 3, 4 and 9 taken: three pieces.
func TestCutOutByHand(t *testing.T) {
	got := cutOut([][]span{{{0, 9}}, {{2, 2}, {4, 7}}, nil}, func(line, at int) bool {
		return line == 0 && (at == 3 || at == 4 || at == 9) || line == 1 && at == 2
	})
	want := [][]span{{{0, 2}, {5, 8}}, {{4, 7}}, nil}
	if !slices.EqualFunc(got, want, func(a, b []span) bool { return slices.Equal(a, b) }) {
		t.Errorf("%v", got)
	}
}

// Pegs nearer than three to a point: those within a circle of that radius, by counting.
func TestPegsBesideAPath(t *testing.T) {
	g := openGrid(9, 9)
	taken := g.beside([]node{{4, 4}, {5, 4}}, 3, 1)
	for y := range 9 {
		for x := range 9 {
			dx := math.Max(0, math.Max(float64(4-x), float64(x-5)))
			if want := dx*dx+float64((y-4)*(y-4)) < 9; taken[y*9+x] != want {
				t.Errorf("%d, %d: %v", x, y, !want)
			}
		}
	}
}

// The lead that lies on others less is the better; a millimetre more or less is as good, and
// then the shorter is.
func TestLeadsThatAreAsGood(t *testing.T) {
	for _, k := range []struct {
		a, b drawn
		want bool
	}{
		{drawn{stacked: 100.5, length: 50}, drawn{stacked: 100, length: 60}, true},
		{drawn{stacked: 100, length: 60}, drawn{stacked: 100.5, length: 50}, false},
		{drawn{stacked: 100, length: 60}, drawn{stacked: 102, length: 50}, true},
		{drawn{stacked: 102, length: 50}, drawn{stacked: 100, length: 60}, false},
		{drawn{length: 59.5}, drawn{length: 60}, false}, {drawn{length: 58.5}, drawn{length: 60}, true},
	} {
		if got := k.a.better(&k.b); got != k.want {
			t.Errorf("%+v better than %+v: %v", k.a, k.b, got)
		}
	}
}

// Pegs begin a hair inside the face that leaves least floor: of 100 mm and pegs of 30 from the
// lower side 10 are left at the upper one, and none the other way where that is the longer.
func TestWherePegsBegin(t *testing.T) {
	l := Lattice{Pitch: 30}
	below, above := face{at: 0, length: 1000, up: true}, face{at: 100, length: 500}
	// a third of a peg, its square over the pitch, along 500 mm; 20 mm below along 1000
	third := 500 * 10 * 10 / 30.0
	for at, want := range map[float64]float64{0: third, 10: 2 * third, 30: third} {
		if got := leftOver([]face{below, above}, at, 30); math.Abs(got-want) > 1e-6 {
			t.Errorf("from %g: %g, want %g", at, got, want)
		}
	}
	zone := func(x0, x1 float64) plane.Region { // 100 mm high, its upper edge shorter or longer than the lower
		return plane.FromRing(plane.Ring{plane.Pt(0, 0), plane.Pt(x0, 0), plane.Pt(x1, 100), plane.Pt(0, 100)})
	}
	if got := shift([]plane.Region{zone(1000, 500)}, l, true); math.Abs(got-0.05) > 1e-9 {
		t.Errorf("from the lower edge at %g", got)
	}
	if got := shift([]plane.Region{zone(500, 1000)}, l, true); math.Abs(got-99.95) > 1e-9 {
		t.Errorf("from the upper edge at %g", got)
	}
	if got := shift(nil, l, true); got != 0 {
		t.Errorf("of no floor: %g", got)
	}
	// the longest sixty count
	var many []plane.Region
	for i := range 70 {
		y, w := float64(200*i), 100+10*float64(i)
		many = append(many, plane.FromRing(plane.Rectangle(plane.Pt(0, y), plane.Pt(w, y+100))))
	}
	got := facesOf(many, l, true)
	if len(got) != 60 || got[0].length != 790 || got[59].length != 500 {
		t.Errorf("%d faces from %g to %g mm", len(got), got[0].length, got[len(got)-1].length)
	}
}
