package tube

import (
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A floor of 60 x 60 mm has 4 x 4 nodes 15 mm apart: those on its west and south walls
// are on it, those on the other two are not.
func smallFloor() *walk {
	return newWalk(plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(60, 60))), plane.Pt(0, 0), 0, 15)
}

func TestNodesOfAFloor(t *testing.T) {
	w := smallFloor()
	for n, free := range w.free {
		if i, j := n%w.nx, n/w.nx; free != (i < 4 && j < 4) {
			t.Errorf("node %d, %d: free %v", i, j, free)
		}
		if p := plane.Pt(15*float64(n%w.nx), 15*float64(n/w.nx)); w.point(n) != p || w.nodeAt(p) != n {
			t.Errorf("node %d at %v, which is node %d", n, w.point(n), w.nodeAt(p))
		}
	}
	for _, p := range hand.Points(-15, 0, 0, -15, 15*float64(w.nx), 0, 0, 15*float64(w.ny), 22, 22, -8, 0) {
		if n := w.nodeAt(p); n != -1 {
			t.Errorf("%v is at node %d", p, n)
		}
	}
	if w.nodeAt(plane.Pt(22, 15)) != w.nx+1 {
		t.Error("a point beside a node is not found at it")
	}
}

// Ways by hand: a step asks 1, a turn 3 more; the first direction is free.
func TestWaysByHand(t *testing.T) {
	w := smallFloor()
	corner := 3*w.nx + 3
	for _, k := range []struct {
		from, to int
		cost     int32
	}{{0, 3, 3}, {3, 0, 3}, {0, 3 * w.nx, 3}, {3 * w.nx, 0, 3}, {0, corner, 6 + turnCost}, {corner, 0, 6 + turnCost},
		{w.nx + 1, 2*w.nx + 1, 1}} {
		best, at := int32(unreachable), -1
		w.run([]int{k.from}, func(state int, cost int32) bool {
			if state/4 == k.to && cost < best {
				best, at = cost, state
			}
			return false
		})
		if best != k.cost {
			t.Errorf("from %d to %d: %d, want %d", k.from, k.to, best, k.cost)
			continue
		}
		way := w.way(at)
		if way[0] != w.point(k.from) || way[len(way)-1] != w.point(k.to) || plane.PathLength(way) != 15*float64(
			len(way)-1) || len(plane.Corners(way)) != 2+int(k.cost-int32(len(way)-1))/turnCost {
			t.Errorf("from %d to %d: %v", k.from, k.to, way)
		}
	}
	none := func(plane.Point) bool { return false }
	for p, want := range map[plane.Point]int{{X: -5, Y: -5}: 0, {X: 44, Y: 2}: 3} {
		if got := w.around(p, 12, none); !slices.Equal(got, []int{want}) {
			t.Errorf("nearest to %v: %v, want %d", p, got, want)
		}
	}
	all := func(plane.Point) bool { return true }
	if got := w.around(plane.Pt(15, 15), 15, all); len(got) != 5 {
		t.Errorf("within a step: %v", got)
	}
	if got := w.around(plane.Pt(-40, 0), 15, all); got != nil {
		t.Errorf("too far off: %v", got)
	}
}

// A millimetre less than its clearance off a joint asks nothing.
func TestWhatAJointAsks(t *testing.T) {
	f := &tubeFloor{off: margins{nearJoint: 50}}
	f.add(nearJoint, hand.Points(500, -500, 500, 2000))
	for x, want := range map[float64]float64{400: 300, 450: 300, 451: 300, 451.5: 600, 500: 600, 549: 300} {
		if got := f.costOf(hand.Segment(x, 0, x, 300)); math.Abs(got-want) > 1e-9 {
			t.Errorf("at %g: %g, want %g", x, got, want)
		}
	}
}

// gapPlace is a place midway in a gap of 60 mm between two runs north of the box.
func gapPlace(way ...float64) sensorPlace {
	return sensorPlace{midway: &midway{line: hand.Segment(100, 100, 100, 500), gap: 60}, tip: plane.Pt(100, 300),
		way: hand.Points(way...)}
}

// same compares points but for rounding.
func same(a, b plane.Point) bool { return a.Dist(b) < 1e-6 }

// A way enters its gap by the end that it comes from, in the very middle of it.
func TestToTheMouth(t *testing.T) {
	for _, k := range []struct {
		name  string
		foot  plane.Point
		place sensorPlace
		cable []plane.Point
		want  []plane.Point
	}{
		{"from the south", plane.Pt(0, 0), gapPlace(0, 15, 0, 90, 90, 90, 105, 105, 105, 300), nil,
			hand.Points(0, 15, 0, 90, 100, 90, 100, 100)},
		{"from the north", plane.Pt(0, 0), gapPlace(0, 15, 0, 510, 95, 510, 100, 480, 100, 300), nil,
			hand.Points(0, 15, 0, 510, 100, 510, 100, 500)},
		{"a quarter of the gap aside", plane.Pt(0, 0), gapPlace(0, 90, 85, 90, 100, 105), nil,
			hand.Points(0, 90, 100, 90, 100, 100)},
		{"more aside", plane.Pt(0, 0), gapPlace(0, 90, 84, 90, 100, 105), nil, hand.Points(0, 90, 84, 90, 100, 100)},
		{"one step outside", plane.Pt(0, 600), gapPlace(90, 90, 105, 105), nil, hand.Points(100, 90, 100, 100)},
		{"none outside", plane.Pt(0, 0), gapPlace(100, 105, 100, 300), nil, hand.Points(100, 100)},
		{"none outside, from the north", plane.Pt(0, 600), gapPlace(100, 495, 100, 300), nil, hand.Points(100, 500)},
		// 23 mm off the middle, where 0.8 of half the gap, 24 mm, is kept
		{"past an end at the mouth", plane.Pt(200, 0), gapPlace(200, 90, 110, 90, 105, 105), hand.Points(60, 100, 77,
			100), hand.Points(200, 90, 110, 90, 100, 115)},
		{"past one farther off", plane.Pt(200, 0), gapPlace(200, 90, 110, 90, 105, 105), hand.Points(60, 100, 75, 100),
			hand.Points(200, 90, 100, 90, 100, 100)},
		{"closed", plane.Pt(0, 0), gapPlace(0, 90, 90, 90, 105, 105, 105, 300), hand.Points(0, 200, 200, 200),
			hand.Points(0, 90, 90, 90, 105, 105)},
	} {
		f := &tubeFloor{foot: k.foot, off: margins{nearCable: 40}}
		f.add(nearCable, k.cable)
		if got := f.toMouth(k.place); !slices.EqualFunc(got, k.want, same) {
			t.Errorf("%s: %v, want %v", k.name, got, k.want)
		}
	}
}

// A point of a way is not moved to the middle where the piece before it would then come
// too near to cable.
func TestToTheMiddle(t *testing.T) {
	p := gapPlace()
	way := hand.Points(0, 0, 110, 40, 110, 80)
	for _, k := range []struct {
		cable, want []plane.Point
	}{
		{nil, hand.Points(0, 0, 100, 40, 100, 80)},
		{hand.Points(85, 60, 86, 60), way},                                     // beside the piece to the mouth
		{hand.Points(60, 0, 60, 10), hand.Points(0, 0, 110, 40, 100, 80)},      // beside the piece to the second
		{hand.Points(500, 60, 510, 60), hand.Points(0, 0, 100, 40, 100, 80)},   // far off
		{hand.Points(100, -900, 100, 0), hand.Points(0, 0, 100, 40, 100, 80)},  // beyond
		{hand.Points(104, 110, 104, 700), hand.Points(0, 0, 110, 40, 110, 80)}, // at the mouth
	} {
		f := &tubeFloor{foot: plane.Pt(-500, 0), off: margins{nearCable: 20}}
		f.add(nearCable, k.cable)
		if got := f.toMiddle(p, way, plane.Pt(100, 100), &f.off); !slices.Equal(got, k.want) {
			t.Errorf("cable %v: %v, want %v", k.cable, got, k.want)
		}
	}
}

// A tube goes square over a lead that it comes to aslant, 15 mm of it on either side.
func TestTubeSquareOverALead(t *testing.T) {
	f := &tubeFloor{foot: plane.Pt(-200, 0), off: margins{nearLead: 15}}
	f.add(nearLead, hand.Points(20, -80, 180, 80)) // y = x - 100
	p := sensorPlace{midway: &midway{line: hand.Segment(200, 0, 600, 0), gap: 60}, tip: plane.Pt(400, 0)}
	for x := -185.0; x <= 400; x += 15 {
		p.way = append(p.way, plane.Pt(x, 0))
	}
	h := 15 / math.Sqrt2
	want := hand.Points(-200, 0, 100-h, h, 100+h, -h, 200, 0, 400, 0)
	if got := f.tube(p); !slices.EqualFunc(got, want, same) {
		t.Errorf("%v, want %v", got, want)
	}
	// two leads side by side are crossed one after the other
	f.add(nearLead, hand.Points(60, -100, 240, 80)) // y = x - 160
	got := f.tube(p)
	for i := range f.lines {
		crossed := 0
		for _, s := range plane.Segments(got) {
			if f.lines[i].Crosses(s) {
				crossed++
				if u := s.B.Sub(s.A).Unit(); math.Abs(u.Dot(plane.Pt(1, 1).Unit())) > 1e-6 {
					t.Errorf("%v crosses %v aslant", s, f.lines[i].Segment)
				}
			}
		}
		if crossed != 1 {
			t.Errorf("lead %d is crossed %d times by %v", i, crossed, got)
		}
	}
}

func TestWarningNamesWhatIsMissing(t *testing.T) {
	r := &layout.Room{Job: &job.Room{Name: "Bath"}}
	for _, k := range []struct {
		missing              []string
		units                plane.Units
		says, far, mustNotBe string
	}{
		{sensorNames[:], plane.Millimetres, "neither the sensor nor its spare could be placed: no gap",
			"150 mm inside", "second"},
		{sensorNames[1:], plane.Inches, "the spare sensor could not be placed: no second gap",
			"0'-5 7/8\" inside", "neither"},
	} {
		d := SensorWarning(r, k.missing, k.units)
		if !strings.Contains(d.Message, k.says) || strings.Contains(d.Message, k.mustNotBe) ||
			!strings.Contains(d.Message, `room "Bath"`) || !strings.Contains(d.Message, k.far) {
			t.Errorf("%v: %s", k.missing, d.Message)
		}
	}
}

// The ground of a floor by hand, pegs 30 mm apart: where no step may go, what crossing a
// movement joint asks in steps of 15 mm, and what is shunned.
func TestGroundByHand(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900)))
	r := &layout.Room{Job: hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900)))}
	r.Job.Thermostat.At = plane.Pt(0, 450)
	r.Job.Joints = []job.Joint{{Segment: hand.Segment(607, 0, 607, 900), Clear: 20}}
	r.Cables = []layout.Cable{{Path: hand.Points(300, 300, 300, 600)}}
	r.Cables[0].Lattice.Pitch = 30
	j := &job.Job{Membrane: job.Membrane{Pitch: 30}, Spacing: job.Spacing{Closest: 2}}
	g := groundOf(r, floor, j)
	if g.off != (margins{nearCable: 30, nearWall: 10, nearLead: 15, nearJoint: 20}) || g.offJoints != 18 ||
		g.foot != plane.Pt(0, 450) {
		t.Errorf("kept off: %v and %g mm", g.off, g.offJoints)
	}
	at := func(x, y float64) int { return g.walk.nodeAt(plane.Pt(x, y)) }
	for p, free := range map[plane.Point]bool{{X: 300, Y: 450}: false, {X: 300, Y: 615}: true, {X: 315, Y: 450}: true,
		{X: 285, Y: 450}: true, {X: 600, Y: 450}: true} {
		if g.walk.free[at(p.X, p.Y)] != free {
			t.Errorf("%v: free %v", p, !free)
		}
	}
	for _, k := range []struct {
		x, y  float64
		north int
		want  int32
	}{{600, 450, 0, 100}, {585, 450, 0, 0}, {615, 450, 0, 0}, {600, 450, 1, 0}} {
		if got := g.walk.toll[k.north][at(k.x, k.y)]; got != k.want {
			t.Errorf("a step from %g, %g: %d, want %d", k.x, k.y, got, k.want)
		}
	}
	// within 30 mm of cable 1, within 10 mm of it 6 more, on a wall 2, within a joint's clearance 1
	for p, want := range map[plane.Point]int32{{X: 315, Y: 450}: 1, {X: 330, Y: 450}: 0, {X: 450, Y: 0}: 2,
		{X: 450, Y: 15}: 0, {X: 600, Y: 450}: 1, {X: 615, Y: 450}: 1, {X: 630, Y: 450}: 0, {X: 600, Y: 0}: 3} {
		if got := g.walk.dear[at(p.X, p.Y)]; got != want {
			t.Errorf("onto %v: %d, want %d", p, got, want)
		}
	}
	fresh := g.fresh()
	fresh.addLead(hand.Points(0, 457, 900, 457))
	if fresh.walk.toll[1][at(450, 450)] != 2500/15 || g.walk.toll[1][at(450, 450)] != 0 || len(g.lines) != len(
		fresh.lines)-1 || fresh.walk.dear[at(450, 450)] != 1 || g.walk.dear[at(450, 450)] != 0 {
		t.Error("a lead is not tolled, or on the ground that it was not added to")
	}
	fresh.walk.toll[0][0]++
	if g.walk.toll[0][0] == fresh.walk.toll[0][0] {
		t.Error("fresh ground shares its tolls")
	}
}

// A straight piece may come as near to cable as the way that it replaces does anywhere
// between, corners or not; else it keeps 30 mm.
func TestStraightPiecesKeepWhatTheWayKeeps(t *testing.T) {
	way := hand.Points(0, 0, 0, 60, 100, 60, 200, 60, 200, 0)
	for _, k := range []struct {
		cables [][]plane.Point
		want   []plane.Point
	}{
		{nil, hand.Points(0, 0, 200, 0)},
		// 15 mm from the straight piece: by way of its middle 233 mm and a bend of 60 are less than 320 by
		// the corners
		{[][]plane.Point{hand.Points(100, -20, 100, -15)}, hand.Points(0, 0, 100, 60, 200, 0)},
		// the way itself comes to within 12 mm of cable, half-way
		{[][]plane.Point{hand.Points(100, -20, 100, -15), hand.Points(100, 72, 100, 90)}, hand.Points(0, 0, 200, 0)},
		// or at its end
		{[][]plane.Point{hand.Points(100, -20, 100, -15), hand.Points(212, 0, 230, 0)}, hand.Points(0, 0, 200, 0)},
	} {
		f := &tubeFloor{foot: plane.Pt(-1000, 0), off: margins{nearCable: 30}}
		for _, c := range k.cables {
			f.add(nearCable, c)
		}
		if got := plane.Corners(f.straighten(slices.Clone(way), nil, nil)); !slices.Equal(got, k.want) {
			t.Errorf("past %v: %v, want %v", k.cables, got, k.want)
		}
	}
}

// Where a tube comes from and goes on to counts: straight on to (200, 60) it would turn nearly
// back from the east, which asks 443 mm; by the way's corners it turns twice by a quarter.
func TestStraightPiecesFollowTheirNeighbours(t *testing.T) {
	f := &tubeFloor{foot: plane.Pt(-1000, 0)}
	way := hand.Points(0, 0, 0, 60, 200, 60)
	for _, k := range []struct {
		before, after []plane.Point
		want          []plane.Point
	}{
		{nil, nil, hand.Points(0, 0, 200, 60)}, {hand.Points(100, 0), nil, way},
		{hand.Points(-100, 0), nil, hand.Points(0, 0, 200, 60)},
		{nil, hand.Points(100, 60), hand.Points(0, 0, 200, 60)},
		// 209 mm and a bend of 175 are more than 260 mm with two of 60
		{nil, hand.Points(200, -100), way},
	} {
		got := plane.Corners(f.straighten(slices.Clone(way), lastOf(k.before), lastOf(k.after)))
		if !slices.Equal(got, k.want) {
			t.Errorf("from %v on to %v: %v, want %v", k.before, k.after, got, k.want)
		}
	}
}

// Of a long way some points are left out, but no corner.
func TestKnotsAtCorners(t *testing.T) {
	var way []plane.Point
	for i := range 121 {
		way = append(way, plane.Pt(float64(min(i, 50)), float64(max(0, i-50))))
	}
	at := knots(way)
	if !slices.Contains(at, 50) || len(at) != 42 || at[0] != 0 || at[len(at)-1] != 120 {
		t.Errorf("%d knots: %v", len(at), at)
	}
}

// Two leads that a way comes over in two steps one after the other are crossed in one piece,
// from square before the first to square behind the second; where something stands in its way,
// by the steps themselves.
func TestTubeOverTwoLeadsAtOnce(t *testing.T) {
	f := &tubeFloor{foot: plane.Pt(-200, 0), off: margins{nearLead: 15}}
	f.add(nearLead, hand.Points(12, -80, 172, 80)) // y = x - 92
	f.add(nearLead, hand.Points(72, -80, 232, 80)) // y = x - 152
	p := sensorPlace{midway: &midway{line: hand.Segment(240, 0, 600, 0), gap: 60}, tip: plane.Pt(400, 0),
		way: hand.Points(-140, 0, -80, 0, -20, 0, 60, 0, 120, 4, 180, 0, 240, 0, 400, 0)}
	h := 15 / math.Sqrt2
	first := f.lines[0].Segment
	at, _ := (plane.Segment{A: plane.Pt(60, 0), B: plane.Pt(120, 4)}).Intersection(first)
	other, _ := (plane.Segment{A: plane.Pt(120, 4), B: plane.Pt(180, 0)}).Intersection(f.lines[1].Segment)
	want := []plane.Point{plane.Pt(-200, 0), at.Add(plane.Pt(-h, h)), other.Add(plane.Pt(h, -h)), plane.Pt(240, 0),
		plane.Pt(400, 0)}
	if got := f.tube(p); !slices.EqualFunc(got, want, same) {
		t.Errorf("%v, want %v", got, want)
	}
	f.add(nearCable, hand.Points(105, 8, 105, 8.1)) // 3.4 mm beside that piece
	want = hand.Points(-200, 0, 60, 0, 120, 4, 180, 0, 400, 0)
	if got := f.tube(p); !slices.EqualFunc(got, want, same) {
		t.Errorf("past cable: %v, want %v", got, want)
	}
}

// Only nodes near a line are visited, however it lies on the grid.
func TestOnlyNearNodesAreVisited(t *testing.T) {
	w := newWalk(plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900))), plane.Pt(0, 0), 0, 15)
	for _, s := range []plane.Segment{hand.Segment(0, 0, 900, 900), hand.Segment(900, 100, 0, 800), hand.Segment(450, 0,
		450, 900), hand.Segment(0, 450, 900, 450), hand.Segment(100, 100, 160, 800), hand.Segment(300, 300, 310, 305)} {
		for _, d := range []float64{0, 40} {
			w.near(s, d, func(n int, _ plane.Point, _ plane.Segment) {
				if off := s.Distance(w.point(n)); off > 1.5*(d+2*15) {
					t.Errorf("%v within %g: a node %g mm off", s, d, off)
				}
			})
		}
	}
}

// The best place by hand: of two gaps as wide as the rest the one that opens to the box's side
// and lies deep enough; none where nothing does.
func TestTheBestPlace(t *testing.T) {
	room := plane.Rectangle(plane.Pt(0, 0), plane.Pt(1500, 1200))
	r := &layout.Room{Job: hand.Room(room), Floor: plane.FromRing(room), Zones: []plane.Region{plane.FromRing(
		plane.Rectangle(plane.Pt(90, 90), plane.Pt(1410, 1110)))}}
	r.Job.Thermostat.At = plane.Pt(200, 0)
	r.Cables = []layout.Cable{{Spacing: 120, Path: hand.Points(150, 180, 150, 1050, 270, 1050, 270, 180, 1200, 180,
		1200, 1050, 1320, 1050, 1320, 180)}}
	r.Cables[0].Lattice.Pitch = 30
	j := &job.Job{Membrane: job.Membrane{Pitch: 30}, Spacing: job.Spacing{Closest: 2}}
	g := groundOf(r, r.Floor, j)
	// from 225, 45 on, within 60 mm of the foot, 69 steps of 15 mm to the east, a turn of 3 and 13 steps to
	// the north are 85; 150 mm inside, where 300 are wanted, 20 more
	p, ok := bestPlace(r, g)
	if !ok || p.gap != 120 || p.tip != plane.Pt(1260, 240) || p.deep != 150 || p.cost != 105 ||
		p.way[len(p.way)-1] != p.tip {
		t.Errorf("%+v, %v", p, ok)
	}
	// the same where it is the only one, and left with those of another line
	node := g.walk.nodeAt(p.tip)
	only := &places{all: []sensorPlace{{midway: p.midway, tip: p.tip, next: -1}}, first: slices.Repeat([]int32{-1},
		len(g.first))}
	only.first[node], g.places = 0, only
	if q, ok := bestPlace(r, g); !ok || q.tip != p.tip || q.cost != p.cost {
		t.Errorf("%+v, %v", q, ok)
	}
	if rest := only.without(sensorPlace{midway: &midway{}}); len(rest.all) != 1 || rest.first[node] != 0 {
		t.Errorf("%+v", rest.all)
	}
	if rest := only.without(p); len(rest.all) != 0 || rest.first[node] != -1 {
		t.Errorf("%+v", rest.all)
	}
	r.Zones[0] = plane.FromRing(plane.Rectangle(plane.Pt(90, 90), plane.Pt(350, 350)))
	if p, ok := bestPlace(r, g); ok {
		t.Errorf("nowhere 150 mm inside: %+v", p.tip)
	}
}

// A lead that lies just before the mouth is crossed by the last step of the way.
func TestTubeOverALeadAtTheMouth(t *testing.T) {
	f := &tubeFloor{foot: plane.Pt(-200, 0), off: margins{nearLead: 15}}
	f.add(nearLead, hand.Points(190, -80, 190, 80))
	p := sensorPlace{midway: &midway{line: hand.Segment(200, 0, 600, 0), gap: 60}, tip: plane.Pt(400, 0)}
	for x := -185.0; x <= 400; x += 15 {
		p.way = append(p.way, plane.Pt(x, 0))
	}
	if got := f.tube(p); !slices.EqualFunc(got, hand.Points(-200, 0, 400, 0), same) {
		t.Errorf("%v", got)
	}
}

// At the foot of the box tubes come near to walls, leads and joints, never to cable or where it
// begins.
func TestWhatYieldsAtTheFoot(t *testing.T) {
	for what, want := range map[obstacleKind]bool{nearCable: false, nearLeadJoint: false, nearWall: true,
		nearLead: true, nearJoint: true} {
		if what.yields() != want {
			t.Errorf("%d yields: %v", what, !want)
		}
	}
}

// A way 150 mm off a joint, outside its clearance of 100 mm, is not drawn straight through
// that: 1000 mm within it ask as much again, more than two bends and 200 mm.
func TestStraightPiecesKeepOffAJoint(t *testing.T) {
	f := &tubeFloor{foot: plane.Pt(-5000, 0), off: margins{nearJoint: 100}}
	way := hand.Points(0, 50, 0, 150, 500, 150, 1000, 150, 1000, 50)
	if got := plane.Corners(f.straighten(slices.Clone(way), nil, nil)); !slices.Equal(got,
		hand.Points(0, 50, 1000, 50)) {
		t.Errorf("without a joint: %v", got)
	}
	f.add(nearJoint, hand.Points(-100, 0, 1100, 0))
	got := f.straighten(slices.Clone(way), nil, nil)
	for _, s := range plane.Segments(got) {
		if mid := s.A.Lerp(s.B, 0.5); s.Length() > 500 && mid.Y < 100 {
			t.Errorf("%v", got)
		}
	}
}

// A piece of 3 mm lies on the floor or it does not.
func TestShortPiecesOnTheFloor(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 900)))
	for x, want := range map[float64]bool{450: true, 1000: false, -100: false} {
		if got := onFloor(floor, hand.Segment(x, 450, x+3, 450)); got != want {
			t.Errorf("at %g: %v", x, got)
		}
	}
}
