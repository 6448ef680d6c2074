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
		best, at := int32(far), -1
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
	f := &tubeFloor{off: margins{joint: 50}}
	f.add(joint, hand.Points(500, -500, 500, 2000))
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
		f := &tubeFloor{foot: k.foot, off: margins{cable: 40}}
		f.add(cable, k.cable)
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
		f := &tubeFloor{foot: plane.Pt(-500, 0), off: margins{cable: 20}}
		f.add(cable, k.cable)
		if got := f.toMiddle(p, way, plane.Pt(100, 100), &f.off); !slices.Equal(got, k.want) {
			t.Errorf("cable %v: %v, want %v", k.cable, got, k.want)
		}
	}
}

// A tube goes square over a lead that it comes to aslant, 15 mm of it on either side.
func TestTubeSquareOverALead(t *testing.T) {
	f := &tubeFloor{foot: plane.Pt(-200, 0), off: margins{lead: 15}}
	f.add(lead, hand.Points(20, -80, 180, 80)) // y = x - 100
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
	f.add(lead, hand.Points(60, -100, 240, 80)) // y = x - 160
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
		missing   []string
		says, not string
	}{
		{sensorNames[:], "neither the sensor nor its spare could be placed: no gap", "second"},
		{sensorNames[1:], "the spare sensor could not be placed: no second gap", "neither"},
	} {
		d := SensorWarning(r, k.missing)
		if !strings.Contains(d.Message, k.says) || strings.Contains(d.Message, k.not) ||
			!strings.Contains(d.Message, `room "Bath"`) || !strings.Contains(d.Message, "150 mm") {
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
	if g.off != (margins{cable: 30, wall: 10, lead: 15, joint: 20}) || g.offJoints != 18 || g.foot != plane.Pt(0, 450) {
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
