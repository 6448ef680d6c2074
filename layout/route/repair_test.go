package route

import (
	"math"
	"slices"
	"testing"

	"oxturn/layout/plane"
)

// The cold floor is told from all cells and all legs: its worst spots first,
// and how much lies beyond the mild.
func TestColdFloorIsCountedCells(t *testing.T) {
	f, _ := smallField(t)
	for _, path := range [][]plane.Point{
		points(20, 33, 671, 33, 671, 120, 30, 120, 30, 371, 90, 371, 90, 600), points(640, 20, 640, 290, 560, 290, 560,
			20), points(20, 30, 680, 30),
	} {
		legs, segs := f.legs(path), plane.Segments(path)
		count := newTally(f)
		count.swap(nil, legs)
		half, mild := 42/f.cell, max(57/f.cell, 1.6*42/f.cell)
		sum, worst, cold := 0.0, mild/half, 0
		var spots []coldSpot
		for y := range f.ny {
			for x := range f.nx {
				if !f.bit(f.open, x, y) {
					continue
				}
				d := math.Inf(1)
				for _, s := range segs {
					d = math.Min(d, s.Distance(f.middle(x, y))/f.cell)
				}
				if d > 57/f.cell {
					cold++
				}
				if d > mild {
					sum += (d - mild) / half
					worst = math.Max(worst, d/half)
					spots = append(spots, coldSpot{plane.Pt(float64(x), float64(y)), d})
				}
			}
		}
		every := 1 + cold/400
		got := count.coldFloor(legs, math.Inf(1))
		if count.bare != cold {
			t.Errorf("%d cells cold, counted %d", count.bare, cold)
		}
		slack := 1e-6
		if every > 1 {
			slack = 0.3 * sum / 9
		}
		if math.Abs(got.sum-sum/9) > slack || every == 1 && math.Abs(got.ratio-worst) > 1e-6 {
			t.Errorf("sum %g and ratio %g, counted %g and %g", got.sum, got.ratio, sum/9, worst)
		}
		for i, s := range got.spots {
			if !slices.ContainsFunc(spots, func(o coldSpot) bool { return o.at == s.at && math.Abs(o.d-s.d) < 1e-6 }) {
				t.Errorf("no cell is as cold as %+v", s)
			}
			if i > 0 && s.d > got.spots[i-1].d {
				t.Error("not the worst first")
			}
		}
		if len(spots) > 0 && (len(got.spots) == 0 || every == 1 && math.Abs(got.spots[0].d/half-worst) > 1e-6) ||
			len(got.spots) > mostSpots {
			t.Errorf("spots %+v, the worst %g", got.spots, worst*half)
		}
		if penalty := got.penalty(1); math.Abs(penalty-(2.5*max(0, got.ratio-1.5)+0.5*got.sum)) > 1e-9 {
			t.Errorf("penalty %g of %+v", penalty, got)
		}
		if got.penalty(1) > 1 {
			if early := count.coldFloor(legs, 0.5); early.penalty(1) <= 0.5 || early.sum >= got.sum {
				t.Errorf("told to the end past the limit: %g of %g", early.sum, got.sum)
			}
		}
	}
}

func TestNearestLeg(t *testing.T) {
	legs := []leg{{0, 0, 10, 0}, {10, 0, 10, 8}, {0, 20, 10, 20}}
	for _, c := range []struct {
		p    plane.Point
		want float64
		at   int
	}{{plane.Pt(4, 3), 3, 0}, {plane.Pt(13, 4), 3, 1}, {plane.Pt(13, 12), 5, 1}, {plane.Pt(-3, -4), 5,
		0}, {plane.Pt(5, 22), 2, 2}, {plane.Pt(14, 23), 5, 2}} {
		for hint := range legs {
			if d, at := nearestFrom(legs, c.p, hint, 0); math.Abs(d-c.want) > 1e-9 || at != c.at {
				t.Errorf("%v from leg %d: %g, leg %d", c.p, hint, d, at)
			}
		}
		if d := nearest(legs, c.p); math.Abs(d-c.want) > 1e-9 {
			t.Errorf("%v: %g", c.p, d)
		}
	}
	if d, at := nearestFrom(legs, plane.Pt(5, 11), 2, 10); at != 2 || d != 9 {
		t.Errorf("%g by leg %d: what is near enough will do", d, at)
	}
}

// Legs that lie close by their boxes but not by themselves are clear.
func TestClearOf(t *testing.T) {
	slant := []plane.Segment{{A: plane.Pt(0, 0), B: plane.Pt(300, 300)}}
	for _, c := range []struct {
		b    plane.Segment
		want bool
	}{
		{plane.Segment{A: plane.Pt(200, 0), B: plane.Pt(300, 50)}, true},
		{plane.Segment{A: plane.Pt(160, 60), B: plane.Pt(300, 60)}, true},
		{plane.Segment{A: plane.Pt(140, 60), B: plane.Pt(300, 60)}, false},
		{plane.Segment{A: plane.Pt(0, 300), B: plane.Pt(300, 0)}, false},
		{plane.Segment{A: plane.Pt(1000, 0), B: plane.Pt(1300, 0)}, true},
	} {
		if got := clearOf(slant, []plane.Segment{c.b}, 60); got != c.want {
			t.Errorf("%v: %v", c.b, got)
		}
	}
}

// The places looked at along a leg are on it: its ends, an edge's ends as far as
// they lie beside it, and every 10 mm between and 20 mm beyond.
func TestStationsBy(t *testing.T) {
	leg := plane.Segment{A: plane.Pt(100, 0), B: plane.Pt(300, 0)}
	for _, c := range []struct {
		edge     plane.Segment
		from, to float64 // mm along the leg that must be covered
		ends     []float64
	}{
		{plane.Segment{A: plane.Pt(150, 5), B: plane.Pt(190, -5)}, 30, 110, []float64{50, 90}},
		{plane.Segment{A: plane.Pt(190, 5), B: plane.Pt(150, -5)}, 30, 110, []float64{50, 90}},
		{plane.Segment{A: plane.Pt(0, 5), B: plane.Pt(130, -5)}, 0, 50, []float64{30}},
		{plane.Segment{A: plane.Pt(280, 5), B: plane.Pt(900, -5)}, 160, 200, []float64{180}},
	} {
		got := stationsBy(leg, c.edge)
		for _, s := range got {
			if s < 0 || s > 1 {
				t.Errorf("%v: a place at %g of the leg", c.edge, s)
			}
		}
		has := func(mm, within float64) bool {
			return slices.ContainsFunc(got, func(s float64) bool { return math.Abs(s*200-mm) <= within })
		}
		for d := c.from; d < c.to; d++ {
			if !has(d, 10) {
				t.Errorf("%v: nothing is looked at near %g mm", c.edge, d)
			}
		}
		for _, d := range append(c.ends, 0, 200) {
			if !has(d, 1e-9) {
				t.Errorf("%v: %g mm is not looked at", c.edge, d)
			}
		}
		if n := int(c.to-c.from)/10 + 6; len(got) > n {
			t.Errorf("%v: %d places, %d will do", c.edge, len(got), n)
		}
	}
	if got := stationsBy(plane.Segment{A: leg.A, B: leg.A}, leg); !slices.Equal(got, []float64{0}) {
		t.Errorf("of a point %v", got)
	}
}

// A plan of three runs on a floor of 41 by 21 pegs.
func threeRuns() *runPlan {
	g := newGrid(plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1200, 600))), Lattice{Pitch: 30}, 0)
	return &runPlan{g: g, nodes: []node{{0, 0}, {40, 0}, {40, 3}, {10, 3}, {10, 6}, {30, 6}}}
}

func TestTurnsOfAPlan(t *testing.T) {
	zone := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1200, 600)))
	p := threeRuns()
	walls, inner := p.turns(tightRule(), newRim(zone))
	if !slices.Equal(walls, []int{1}) || !slices.Equal(inner, []int{3}) {
		t.Errorf("turns at walls %v, within %v", walls, inner)
	}
	for name, nodes := range map[string][]node{
		"a turn wider than the widest gap": {{0, 0}, {40, 0}, {40, 6}, {0, 6}}, "a jog": {{0, 0}, {20, 0}, {20, 3},
			{40, 3}},
		"a finger's side": {{0, 0}, {20, 0}, {20, 3}, {20, 5}}, "aside": {{0, 5}, {0, 0}, {20, 0}, {20, 5}},
	} {
		q := &runPlan{g: p.g, nodes: nodes}
		if walls, inner := q.turns(tightRule(), newRim(zone)); len(walls)+len(inner) > 0 {
			t.Errorf("%s is taken for a half turn: %v, %v", name, walls, inner)
		}
	}
	down := &runPlan{g: p.g, nodes: []node{{0, 20}, {40, 20}, {40, 15}, {0, 15}}}
	if walls, _ := down.turns(tightRule(), newRim(zone)); !slices.Equal(walls, []int{1}) {
		t.Errorf("a turn of the widest gap downwards: %v", walls)
	}
}

func TestDrawIn(t *testing.T) {
	rule := tightRule()
	for _, c := range []struct {
		over float64
		want float64
		at   int // x of the first turn
	}{{0, 0, 40}, {59, 0, 40}, {60, 60, 39}, {119, 60, 39}, {500, 60, 39}} {
		p := threeRuns()
		was := p.length(rule)
		if got := p.drawIn(rule, []int{1}, c.over); got != c.want || p.nodes[1].x != c.at || p.nodes[2].x != c.at ||
			math.Abs(was-p.length(rule)-got) > 1e-6 {
			t.Errorf("over %g: %g taken, turn at %d", c.over, got, p.nodes[1].x)
		}
	}
	p := threeRuns()
	if p.drawIn(rule, []int{1, 3}, 120) != 120 || p.nodes[1].x != 39 || p.nodes[3].x != 11 || p.nodes[4].x != 11 {
		t.Errorf("%v", p.nodes)
	}
	// runs that would be left too short for their bends stay, and so does a turn at a hole
	for _, nodes := range [][]node{{{0, 0}, {3, 0}, {3, 3}, {0, 3}}, {{0, 0}, {40, 0}, {40, 3}, {37, 3}},
		{{37, 0}, {40, 0}, {40, 3}, {0, 3}}} {
		q := &runPlan{g: p.g, nodes: slices.Clone(nodes)}
		if q.drawOne(rule, 1) || !slices.Equal(q.nodes, nodes) {
			t.Errorf("%v became %v", nodes, q.nodes)
		}
	}
	for _, nodes := range [][]node{{{0, 0}, {4, 0}, {4, 3}, {0, 3}}, {{0, 3}, {4, 3}, {4, 0}, {0, 0}}} {
		q := &runPlan{g: p.g, nodes: slices.Clone(nodes)}
		if !q.drawOne(rule, 1) || q.nodes[1].x != 3 || q.nodes[2].x != 3 {
			t.Errorf("%v became %v", nodes, q.nodes)
		}
	}
	hole, err := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1200, 600))).Less(
		plane.FromRing(plane.Rectangle(plane.Pt(1165, 40), plane.Pt(1175, 50))))
	if err != nil {
		t.Fatal(err)
	}
	q := &runPlan{g: newGrid(hole, Lattice{Pitch: 30}, 0), nodes: []node{{0, 0}, {40, 0}, {40, 3}, {0, 3}}}
	if q.drawOne(rule, 1) {
		t.Error("a turn drawn into a hole")
	}
}

func TestCutBack(t *testing.T) {
	path := points(0, 0, 300, 0, 300, 90, 0, 90)
	whole := Length(path, 15)
	for _, c := range []struct {
		length float64
		end    plane.Point
		ok     bool
	}{
		{whole, plane.Pt(0, 90), true}, {whole + 1, plane.Point{}, false}, {whole - 100, plane.Pt(100, 90), true},
		{whole - 284, plane.Pt(284, 90), true},
		{whole - 284.5, plane.Point{}, false}, {whole - 300, plane.Pt(300, 0), true}, {200, plane.Pt(200, 0), true},
		{1, plane.Pt(1, 0), true}, {0.5, plane.Point{}, false},
	} {
		got, ok := cutBack(path, 15, c.length)
		if ok != c.ok {
			t.Errorf("%g mm: %v", c.length, ok)
			continue
		}
		if !ok {
			continue
		}
		if n := Length(got, 15); math.Abs(n-c.length) > 1e-6 {
			t.Errorf("%g mm asked, %g", c.length, n)
		}
		if end := got[len(got)-1]; end.X == 300 && c.end.X == 300 { // on the link: one bend before it
			if want := c.length - 300 + 2*15 - 15*math.Pi/2; math.Abs(end.Y-want) > 1e-6 {
				t.Errorf("%g mm: ends %g mm up the link, want %g", c.length, end.Y, want)
			}
		} else if end.Dist(c.end) > 1e-6 {
			t.Errorf("%g mm: ends at %v, want %v", c.length, end, c.end)
		}
	}
}

// What is laid goes on by a straight piece along the lattice, not back and not out.
func TestJointGoesOn(t *testing.T) {
	zone := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900)))
	g := newGrid(zone, Lattice{Pitch: 30}, 0)
	j := &joint{laid: points(300, 30, 300, 300), zone: zone, most: 300}
	for _, c := range []struct {
		to   plane.Point
		want float32 // below 0: never
	}{
		{plane.Pt(300, 390), 0.9}, {plane.Pt(390, 300), 0.9}, {plane.Pt(210, 300), 0.9}, {plane.Pt(300, 600), 3},
		{plane.Pt(300, 600.5), -1},
		{plane.Pt(300, 210), -1}, {plane.Pt(390, 390), -1}, {plane.Pt(390, 300.5), 0.9}, {plane.Pt(390, 301), -1},
		{plane.Pt(300, 300), 0},
	} {
		got := j.cost(g, c.to)
		if c.want < 0 && got < inf32 || c.want >= 0 && math.Abs(float64(got-c.want)) > 1e-3 {
			t.Errorf("to %v: %g, want %g", c.to, got, c.want)
		}
	}
	out := &joint{laid: points(300, 30, 300, 800), zone: zone, most: 300}
	if out.cost(g, plane.Pt(300, 1000)) < inf32 {
		t.Error("out of the zone")
	}
	hole, _ := zone.Less(plane.FromRing(plane.Rectangle(plane.Pt(290, 350), plane.Pt(310, 380))))
	if (&joint{laid: j.laid, zone: hole, most: 300}).cost(g, plane.Pt(300, 480)) < inf32 {
		t.Error("over a hole")
	}
	for _, c := range []struct{ path, want []plane.Point }{
		{points(300, 300, 300, 390, 390, 390), points(300, 30, 300, 300, 300, 390, 390, 390)},
		{points(300, 300, 300, 390, 300, 450, 390, 450), points(300, 30, 300, 300, 300, 450, 390, 450)},
		{points(390, 300, 390, 390), points(300, 30, 300, 300, 390, 300, 390, 390)},
	} {
		if got := j.join(c.path); !slices.Equal(got, c.want) {
			t.Errorf("%v, want %v", got, c.want)
		}
	}
	var none *joint
	if none.kept() != 0 || j.kept() != 2 || !slices.Equal(none.join(j.laid), j.laid) {
		t.Error("nothing laid")
	}
}

// A bend over a hole's corner is mended by moving a leg beside it by a peg.
func TestMendBends(t *testing.T) {
	zone, err := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900))).Less(
		plane.FromRing(plane.Rectangle(plane.Pt(302, 302), plane.Pt(598, 598))))
	if err != nil {
		t.Fatal(err)
	}
	rule := tightRule()
	p := &runPlan{g: newGrid(zone, Lattice{Pitch: 30}, 0), nodes: []node{{0, 0}, {20, 0}, {20, 20}, {3, 20}, {3, 25}}}
	if !bendInside(p.world()[1:4], rule.bend, newRim(zone)) {
		p.mendBends(rule, newRim(zone))
		if !bendsInside(p.world(), rule, newRim(zone)) {
			t.Errorf("%v", p.nodes)
		}
		if p.nodes[0] != (node{0, 0}) || p.nodes[4] != (node{3, 25}) && p.nodes[4].y != 25 {
			t.Errorf("the ends moved: %v", p.nodes)
		}
		return
	}
	t.Error("the bend is inside: the test shows nothing")
}
