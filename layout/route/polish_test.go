package route

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
	"oxturn/layout/skip"
)

// TestPolishBetters lays random rooms and holds every polished route against
// the one it came from: no worse, as long, and sound.
func TestPolishBetters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawRoom(t)
		p.Cables = p.Cables[:1]
		p.Cables[0].Length = lengthFor(p, p.Zones[0], 3.3)
		r := &room{p: p, lattice: chooseLattice(p), zones: []int{0}, steps: p.steps()}
		r.strip = newStrip(p.Floor, p.Zones, p.Entry)
		l, err := r.lay(share{region: p.Zones[0]}, stepsACable)
		if err != nil {
			skip.Test(t, skip.OtherCase, err)
		}
		was := l.found[0]
		now := was.polish(l, l.field, nil)
		if now == nil {
			skip.Test(t, skip.OtherCase, "not polished")
		}
		if n := Length(now.path, p.Bend); math.Abs(n-p.Cables[0].Length) > lengthSlop {
			t.Fatalf("%.1f mm long, the cable is %.0f mm", n, p.Cables[0].Length)
		}
		sc := l.field.judge(now.path, math.Inf(1))
		if old := l.field.judge(was.path, math.Inf(1)); sc.Covered < old.Covered-0.02 || sc.Total > old.Total+1 {
			t.Fatalf("polished to %+v from %+v", sc, old)
		}
		if !near1(sc.Evenness, now.score.Evenness) || !near1(sc.Covered, now.score.Covered) ||
			sc.Turns != now.score.Turns {
			t.Fatalf("the polisher counts %+v, the field %+v", now.score, sc)
		}
	})
}

// TestPolishFillsCutCorner has a wall at 45 degrees where runs in pairs leave
// bare steps.
func TestPolishFillsCutCorner(t *testing.T) {
	walls := plane.Ring{plane.Pt(0, 0), plane.Pt(2600, 0), plane.Pt(2600, 1300), plane.Pt(1900, 2000),
		plane.Pt(0, 2000)}
	p := roomOf(t, walls, nil, 75, nil)
	p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.4)}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if s := routes[0].Score; s.Bare > 2 {
		t.Errorf("widest bare spot %.2f half spacings", s.Bare)
	}
}

func TestStop(t *testing.T) {
	p := roomOf(t, outline(2, 3000, 2600), nil, 75, nil)
	p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.3)}}
	p.Stop = func() bool { return true }
	if _, err := Solve(p); !errors.Is(err, ErrStopped) {
		t.Errorf("%v, want %v", err, ErrStopped)
	}
}

func TestRowsAreKept(t *testing.T) {
	for _, want := range []float64{0, math.Pi / 2, math.Pi} {
		p := roomOf(t, outline(0, 3000, 1800), nil, 75, nil)
		p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.3)}}
		p.Asks = []Ask{{Rows: &want}}
		routes, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		if off := math.Abs(math.Sin(routes[0].Rows - want)); off > 1e-6 {
			t.Errorf("rows at %v, asked for %v", routes[0].Rows, want)
		}
	}
}

// TestGoesOnAlongPegs goes on from every place of a laid route: what follows
// the laid part joins it along the lattice or is refused.
func TestGoesOnAlongPegs(t *testing.T) {
	p := roomOf(t, outline(1, 2400, 2200), nil, 75, nil)
	p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.3)}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	path := routes[0].Path
	p.Lattice = &routes[0].Lattice
	p.Cables[0].Length *= 0.97
	gone := 0
	for n := len(path) / 2; n < len(path)-1; n++ {
		p.Frozen = [][]plane.Point{path[:n]}
		rest, err := Solve(p)
		if err != nil {
			continue
		}
		gone++
		got := rest[0].Path
		if !slices.Equal(got[:n-1], path[:n-1]) {
			t.Fatalf("the laid part moved: %v", got[:n])
		}
		for i := n; i < len(got); i++ {
			d := got[i].Sub(got[i-1]).Rotate(-p.Lattice.Angle)
			if min(math.Abs(d.X), math.Abs(d.Y)) > 0.1 {
				t.Fatalf("after %d points a leg leaves the lattice: %v to %v", n, got[i-1], got[i])
			}
		}
	}
	if gone == 0 {
		t.Error("every part was refused")
	}
}

// TestBeginsAtTheBetterEnd turns routes the wrong way round and holds the leads
// of both ends against each other: either can be the start where nothing else
// asks for one.
func TestBeginsAtTheBetterEnd(t *testing.T) {
	turned := 0
	for kind := range 6 {
		for side := range 4 {
			p := roomOf(t, outline(kind, 3000, 2400), nil, 75, nil)
			p.Entry = p.Walls[side].At(p.Walls[side].Length() * 0.9)
			r := &room{p: p, lattice: chooseLattice(p), zones: []int{0}, steps: p.steps()}
			r.p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.3)}}
			r.strip = newStrip(p.Floor, p.Zones, p.Entry)
			l, err := r.lay(share{region: p.Zones[0]}, stepsACable)
			if err != nil {
				t.Fatal(err)
			}
			nodes := slices.Clone(l.found[0].plan.nodes[:len(l.found[0].path)])
			slices.Reverse(nodes)
			p2, ok := newPolisher(l.found[0].plan.g, l, l.field, nil, nodes)
			if !ok {
				continue // no room to trim what was its start
			}
			wrong := p2.nodes[0]
			p2.turnRound()
			ends := p2.ends(p2.nodes, p2.end)
			start, end := r.strip.leadTo(ends[0]), r.strip.leadTo(ends[1])
			back := slices.Clone(p2.nodes)
			slices.Reverse(back)
			if back, _, ok := p2.fitEnd(back); ok && p2.startable(back[0]) && (start-end)/1000*weighLead > 0.1 {
				t.Errorf("shape %d, side %d: starts %.1f m from the entry, ends %.1f m from it", kind, side, start/1000,
					end/1000)
			}
			if p2.nodes[0] != wrong {
				turned++
			}
		}
	}
	if turned == 0 {
		t.Error("no path was turned round: the test shows nothing")
	}
}
