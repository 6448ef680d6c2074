package route

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"oxturn/layout/plane"
)

// Of two plans the legs that differ, by hand: from the first that is not the other's to the
// last.
func TestChangedLegs(t *testing.T) {
	a := []node{{0, 0}, {9, 0}, {9, 3}, {0, 3}, {0, 6}, {9, 6}}
	for _, c := range []struct {
		b      []node
		lo, hi int
	}{
		{a, 5, 5},
		{[]node{{0, 0}, {9, 0}, {9, 3}, {0, 3}, {0, 6}, {8, 6}}, 4, 5},
		{[]node{{1, 0}, {9, 0}, {9, 3}, {0, 3}, {0, 6}, {9, 6}}, 0, 1},
		{[]node{{0, 0}, {9, 0}, {9, 3}, {1, 3}, {1, 6}, {9, 6}}, 2, 5},
		{[]node{{0, 0}, {5, 0}, {5, 1}, {9, 1}, {9, 3}, {0, 3}, {0, 6}, {9, 6}}, 0, 4},
	} {
		if lo, hi := changed(a, c.b); lo != c.lo || hi != c.hi {
			t.Errorf("%v: legs %d to %d, want %d to %d", c.b, lo, hi, c.lo, c.hi)
		}
	}
}

// A spiral turned by an eighth has two directions still, each at a right angle to the other.
func TestDirectionsOfATurnedSpiral(t *testing.T) {
	for _, by := range []float64{0.3, math.Pi / 4, 1.2, 2.5} {
		path := points(0, 0, 30, 0, 30, 30, 2, 30, 2, 4, 26, 4)
		for i := range path {
			path[i] = path[i].Rotate(by)
		}
		if e := EaseOf(path, 1, 2); e.Directions != 2 {
			t.Errorf("turned by %g: %d directions", by, e.Directions)
		}
	}
}

// A pocket of 16 pegs gets no ring where a gap of 3 is wanted, which takes 18; one of 25 is looked at.
func TestLeastPocketForARing(t *testing.T) {
	for side, looked := range map[int]bool{10: false, 11: true} {
		g := openGrid(side, side)
		w := &way{sweep: newSweep(g, rulesFor(Problem{Pitch: 50, Closest: 2, Widest: 5, Bend: 20}, Cable{}),
			&wishes{strip: &strip{cell: 15}}, narrowLook), ringsOf: map[ringKey][][]node{}}
		p := &runPlan{g: g, nodes: []node{{0, 0}, {side - 1, 0}, {side - 1, side - 1}, {0, side - 1}, {0, 2}}}
		w.annexAt(p, 3, 3, map[ringKey]bool{})
		if got := len(w.ringsOf) > 0; got != looked {
			t.Errorf("a pocket of %d by %d pegs: looked at %v", side-6, side-6, got)
		}
	}
}

// Where there are too many ways to hand out cables, each of the longest goes where there is
// least for the floor.
func TestDealtByFloor(t *testing.T) {
	box := func(x, w float64) plane.Region {
		return plane.FromRing(plane.Rectangle(plane.Pt(x, 0), plane.Pt(x+w, 1000)))
	}
	r := &room{p: Problem{Zones: []plane.Region{box(0, 1000), box(2000, 3000)}, Pitch: 30, Closest: 2}}
	for range 16 {
		r.p.Cables = append(r.p.Cables, Cable{Length: 5000})
	}
	at := plane.Pt(500, 500)
	r.p.Cables[15] = Cable{Length: 1000, Within: &at}
	got := r.deal()
	if n := len(slices.DeleteFunc(slices.Clone(got[:15]), func(z int) bool { return z == 1 })); n != 4 && n != 3 {
		t.Errorf("%d of 15 cables in a quarter of the floor: %v", n, got)
	}
	if got[15] != 0 {
		t.Error("a cable is not in the zone of its place")
	}
	if !slices.Equal(r.zoneOf(), got) {
		t.Error("dealt otherwise")
	}
}

// The lead to a place is by the cell that makes it shortest, of all within two cells and a
// half, those at the floor's edges among them.
func TestLeadToIsTheLeastOfTheCellsAbout(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(300, 240)))
	s := newStrip(floor, nil, plane.Pt(0, 0))
	for x := 2.0; x < 300; x += 7 {
		for y := 2.0; y < 240; y += 7 {
			p, want := plane.Pt(x, y), math.Inf(1)
			for i, d := range s.lead {
				if off := s.centre(i).Dist(p); off < 2.5*stripCell {
					want = math.Min(want, d+off)
				}
			}
			if got := s.leadTo(p); math.Abs(got-want) > 1e-9 {
				t.Fatalf("to %v: %g, want %g", p, got, want)
			}
		}
	}
	far := plane.Pt(700, 500) // of cells beyond reach none
	if d := s.leadTo(far); !math.IsInf(d, 1) {
		t.Errorf("%g to a place off the floor", d)
	}
	for _, c := range []struct {
		a, b stripCellAt
		want bool
	}{{stripCellAt{1, 5}, stripCellAt{2, 3}, true}, {stripCellAt{2, 3}, stripCellAt{1, 5}, false},
		{stripCellAt{1, 3}, stripCellAt{1, 5}, true}, {stripCellAt{1, 5}, stripCellAt{1, 3}, false},
		{stripCellAt{1, 3}, stripCellAt{1, 3}, false}} {
		if c.a.before(c.b) != c.want {
			t.Errorf("%v before %v: %v", c.a, c.b, !c.want)
		}
	}
}

// A floor thinner than the pegs are apart holds none; the topmost row of another has no link
// up, and no peg outside has one.
func TestGridsOfLittleFloor(t *testing.T) {
	box := func(x0, y0, x1, y1 float64) plane.Region {
		return plane.FromRing(plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1)))
	}
	for _, thin := range []plane.Region{box(5, 0, 25, 300), box(0, 5, 300, 25), nil} {
		if g := newGrid(thin, Lattice{Pitch: 30}, 0); g.nx != 0 || g.ny != 0 {
			t.Errorf("%d by %d pegs", g.nx, g.ny)
		}
	}
	g := newGrid(box(0, 0, 90, 60), Lattice{Pitch: 30}, 0)
	for y := range 3 {
		for x := range 4 {
			if got := int(g.up[y][x]); got != 2-y {
				t.Errorf("from (%d, %d) a link of %d pegs", x, y, got)
			}
		}
	}
}

// A pocket's grid is as large as the pocket, and lies where it does.
func TestAPocketsGrid(t *testing.T) {
	g := openGrid(30, 20)
	fence := []node{{12, 0}, {12, 12}, {29, 12}}
	rule := plainRule()
	pockets := g.pockets(fence, 2, &rule)
	if len(pockets) != 2 {
		t.Fatalf("%d pockets", len(pockets))
	}
	for _, p := range pockets {
		if p.ox == 0 && (p.nx != 30 || p.ny != 20) || p.ox == 14 && (p.nx != 16 || p.ny != 11 || p.free != 16*11) {
			t.Errorf("%d by %d pegs from %d, %d: %d", p.nx, p.ny, p.ox, p.oy, p.free)
		}
	}
}

// Of a long straight way so many points are kept that no more than 200 or so lie on it, its
// ends and corners among them.
func TestKnots(t *testing.T) {
	var way []plane.Point
	for i := range 500 {
		way = append(way, plane.Pt(float64(i), 0))
	}
	for i := range 100 {
		way = append(way, plane.Pt(499, float64(i+1)))
	}
	got := knots(way)
	for _, at := range []plane.Point{way[0], way[499], way[599]} {
		if !slices.Contains(got, at) {
			t.Errorf("%v is not kept", at)
		}
	}
	if len(got) < 140 || len(got) > mostKnots+5 {
		t.Errorf("%d of %d kept", len(got), len(way))
	}
	for i := 1; i < len(got); i++ {
		if d := got[i].Dist(got[i-1]); d > 4.01 {
			t.Fatalf("%g from one to the next", d)
		}
	}
	if few := knots(way[:7]); len(few) != 7 {
		t.Errorf("%d of 7 kept", len(few))
	}
}

// A cell is taken by a line where it lies nearer than just over half a diagonal to its
// middle, by cable and lead also where they would touch; by lines in any direction, over the
// edges of tiles.
func TestCellsTakenByLines(t *testing.T) {
	corner := plane.Pt(-2400, 1300)
	floor := plane.FromRing(plane.Rectangle(corner, corner.Add(plane.Pt(960, 960))))
	rnd := rand.New(rand.NewPCG(3, 9))
	for _, cell := range []float64{stripCell, fineCell} {
		for range 12 {
			g := newLeadGround(floor, nil, corner, cell)
			at := func() plane.Point { return corner.Add(plane.Pt(rnd.Float64()*1000-20, rnd.Float64()*1000-20)) }
			a := at()
			b := a.Add(plane.Pt(rnd.Float64()*300-150, rnd.Float64()*300-150))
			what := []taken{byCable, byLead, byLying}[rnd.IntN(3)]
			if rnd.IntN(2) == 0 { // the tiles are worked out before
				for y := 0; y < g.ny; y += 8 {
					for x := 0; x < g.nx; x += 8 {
						g.tileAt(x, y)
					}
				}
			}
			g.add(what, plane.Point{}, []plane.Point{a, b})
			near := 0.72 * cell
			if what != byLying {
				near = max(near, leadThick+1)
			}
			line := plane.Segment{A: a, B: b}
			for y := range g.ny {
				for x := range g.nx {
					tile, i := g.tileAt(x, y)
					if got, d := tile.taken[i]&what != 0, line.Distance(g.centre(x, y)); got != (d < near) {
						t.Fatalf("cells of %g: (%d, %d), %g from the line: taken %v", cell, x, y, d, got)
					}
				}
			}
		}
	}
}

// The first cells of a lead are the open ones within three cells of its start.
func TestFirstCellsOfALead(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(600, 600)))
	g := newLeadGround(floor, nil, plane.Pt(10, 10), stripCell)
	for _, start := range []plane.Point{plane.Pt(301, 301), plane.Pt(309, 296), plane.Pt(300, 314)} {
		var want []node
		for y := range g.ny {
			for x := range g.nx {
				if g.centre(x, y).Dist(start) < 3*stripCell {
					want = append(want, node{x, y})
				}
			}
		}
		if got := g.firstCells(&leadWish{start: start, shut: byCable}); !slices.Equal(got, want) {
			t.Errorf("from %v: %d cells, want %d", start, len(got), len(want))
		}
	}
}

// Steps given to a purse are there; a cable of which all is laid is refused.
func TestStepsAndNothingLeft(t *testing.T) {
	s := &Steps{left: 5}
	if s.Add(&Steps{left: 7}); s.left != 12 {
		t.Errorf("%d steps of 5 and 7", s.left)
	}
	p := roomOf(t, outline(0, 1500, 1200), nil, 75, nil)
	p.Frozen = [][]plane.Point{points(75, 75, 1075, 75)}
	for length, nothing := range map[float64]bool{1000: true, 999: true, 1001: false} {
		p.Cables = []Cable{{ID: "A", Length: length}}
		if err := sane(p); (err != nil) != nothing {
			t.Errorf("%g mm of which 1000 are laid: %v", length, err)
		}
	}
}

// Parts of a floor come together through the fragments whose ends lie in them.
func TestPartsMeet(t *testing.T) {
	for _, c := range []struct {
		mate, of []int8
		want     bool
	}{
		{[]int8{1, 0}, []int8{0, 1}, true}, {[]int8{mateStart, mateEnd}, []int8{0, 1}, false},
		{[]int8{mateStart, mateEnd}, []int8{0, 0}, true}, {[]int8{2, mateStart, 0}, []int8{0, 1, 2}, false},
		{[]int8{2, mateStart, 0}, []int8{0, 0, 2}, true}, {[]int8{1, 0, 3, 2}, []int8{0, 1, 1, 3}, true},
		{[]int8{1, 0, 3, 2}, []int8{0, 0, 2, 2}, false}, {[]int8{3, 2, 1, 0}, []int8{0, 1, 2, 2}, true},
	} {
		ns, of := state{n: int8(len(c.mate))}, [maxLinks]int8{}
		copy(ns.mate[:], c.mate)
		copy(of[:], c.of)
		if got := meeting(&ns, of); got != c.want {
			t.Errorf("mates %v in parts %v meet: %v", c.mate, c.of, got)
		}
	}
}
