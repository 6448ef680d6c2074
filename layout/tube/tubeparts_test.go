package tube

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Two runs have a midway line where they face each other over 150 mm, as far as
// that goes, unless a third run is between them.
func TestMidwayBetweenTwoRuns(t *testing.T) {
	a := hand.Segment(0, 0, 1000, 0)
	for _, c := range []struct {
		name string
		legs []plane.Segment
		want *midway
	}{
		{"side by side", []plane.Segment{a, hand.Segment(1000, 90, 0, 90)}, &midway{line: hand.Segment(0, 45, 1000, 45),
			gap: 90}},
		{"to the right", []plane.Segment{a, hand.Segment(0, -90, 1000, -90)},
			&midway{line: hand.Segment(0, -45, 1000, -45), gap: 90}},
		{"as far as both go", []plane.Segment{a, hand.Segment(-300, 90, 400, 90)},
			&midway{line: hand.Segment(0, 45, 400, 45), gap: 90}},
		{"over 150 mm", []plane.Segment{a, hand.Segment(850, 90, 2000, 90)},
			&midway{line: hand.Segment(850, 45, 1000, 45), gap: 90}},
		{"over less", []plane.Segment{a, hand.Segment(851, 90, 2000, 90)}, nil},
		{"one beyond the other", []plane.Segment{a, hand.Segment(1100, 90, 2000, 90)}, nil},
		{"square to each other", []plane.Segment{a, hand.Segment(500, 90, 500, 900)}, nil},
		{"as wide as may be", []plane.Segment{a, hand.Segment(0, 240, 1000, 240)},
			&midway{line: hand.Segment(0, 120, 1000, 120), gap: 240}},
		{"too wide", []plane.Segment{a, hand.Segment(0, 241, 1000, 241)}, nil},
		{"in one line", []plane.Segment{a, hand.Segment(0, 0.5, 1000, 0.5)}, nil},
		{"a run between", []plane.Segment{a, hand.Segment(0, 180, 1000, 180), hand.Segment(400, 90, 600, 90)}, nil},
		{"a run between elsewhere", []plane.Segment{a, hand.Segment(0, 180, 1000, 180), hand.Segment(0, 90, 300, 90)},
			&midway{line: hand.Segment(0, 90, 1000, 90), gap: 180}},
		{"a third beside them", []plane.Segment{a, hand.Segment(0, 90, 1000, 90), hand.Segment(0, 180, 1000, 180)},
			&midway{line: hand.Segment(0, 45, 1000, 45), gap: 90}},
		{"one across", []plane.Segment{a, hand.Segment(0, 90, 1000, 90), hand.Segment(500, 0, 500, 90)}, nil},
		{"one that ends at the first", []plane.Segment{a, hand.Segment(0, 90, 1000, 90), hand.Segment(500, -300, 500,
			0.5)}, &midway{line: hand.Segment(0, 45, 1000, 45), gap: 90}},
	} {
		got := between(c.legs, 0, 1, 240)
		if (got == nil) != (c.want == nil) || got != nil && *got != *c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
	r := &layout.Room{Cables: []layout.Cable{{ID: "A", Path: hand.Points(0, 0, 1000, 0, 1000, 90, 0, 90, 0, 180, 299,
		180)}, {ID: "B", Path: hand.Points(0, 300, 1000, 300)}}}
	if ms := midways(r, 30); len(ms) != 1 || ms[0].cable.ID != "A" || ms[0].line != hand.Segment(0, 45, 1000, 45) {
		t.Errorf("%+v", ms)
	}
	if legs := longLegs(hand.Points(0, 0, 300, 0, 300, 299, 0, 299), 300); len(legs) != 2 {
		t.Errorf("%v", legs)
	}
}

// A place asks for its way, for a gap unlike the rest and for lying near the rim or
// another sensor; by hand, in steps of 15 mm.
func TestWhatAPlaceAsks(t *testing.T) {
	zone := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(2000, 2000)))
	heat := job.Fixture{Heat: true}
	heat.Outline = plane.Rectangle(plane.Pt(1000, 0), plane.Pt(1200, 100))
	cold := job.Fixture{}
	cold.Outline = plane.Rectangle(plane.Pt(300, 900), plane.Pt(400, 1000))
	r := &layout.Room{Zones: []plane.Region{zone}, Job: &job.Room{Fixtures: []job.Fixture{heat, cold}}}
	w := &walk{step: 15}
	c := &layout.Cable{Spacing: 90}
	at := func(x, y, gap float64) sensorPlace {
		return sensorPlace{midway: &midway{line: hand.Segment(x, 0, x, 2000), gap: gap, cable: c}, tip: plane.Pt(x, y)}
	}
	for _, k := range []struct {
		name string
		p    sensorPlace
		want float64 // NaN: no place
	}{
		{"far inside", at(500, 1000, 90), 100},
		{"in a wider gap", at(500, 1000, 120), 100 + 4*2},
		{"in a closer gap", at(500, 1000, 75), 100 + 4*1},
		{"250 mm inside", at(250, 1000, 90), 100 + 2*50/15.0},
		{"150 mm inside", at(150, 1000, 90), 100 + 2*150/15.0},
		{"149 mm inside", at(149, 1000, 90), math.NaN()},
		{"300 mm from a register", at(1100, 400, 90), 100},
		{"299 mm from it", at(1100, 399, 90), math.NaN()},
	} {
		p, ok := sensorAt(r, w, k.p, 100, 1000)
		if ok != !math.IsNaN(k.want) || ok && math.Abs(p.cost-k.want) > 1e-9 {
			t.Errorf("%s: %g (%v), want %g", k.name, p.cost, ok, k.want)
		}
	}
	for limit, want := range map[float64]bool{100: false, 100.1: true, 99: false} {
		if _, ok := sensorAt(r, w, at(500, 1000, 90), 100, limit); ok != want {
			t.Errorf("limit %g: %v", limit, ok)
		}
	}
	if p, ok := sensorAt(r, w, at(250, 1000, 90), 100, 106); ok {
		t.Errorf("%g is below 106", p.cost)
	}
	r.Sensors = []layout.Sensor{{Tip: plane.Pt(500, 1000)}}
	for _, k := range []struct {
		p    sensorPlace
		want float64 // mm
	}{
		{at(500+600, 1000, 90), 0}, {at(500+500, 1000, 90), 6 * 100}, {at(500+180, 1000, 90), 6 * 420},
		{at(500+179, 1000, 90), math.Inf(1)},
		{at(500, 1600, 90), 6 * 600}, {at(500, 1500, 90), 6*100 + 6*600}, {at(501, 1700, 90), 0},
	} {
		if got := besideSensors(r, &k.p); math.Abs(got-k.want) > 0.5 && got != k.want {
			t.Errorf("at %v: %g, want %g", k.p.tip, got, k.want)
		}
	}
	if p, ok := sensorAt(r, w, at(1000, 1000, 90), 100, 1000); !ok || p.cost != 100+6*100/15.0 {
		t.Errorf("500 mm from another: %g, %v", p.cost, ok)
	}
	if d := nearHeat(r, plane.Pt(1100, 500)); d != 400 {
		t.Errorf("%g mm from heat", d)
	}
}

func TestPlacesAlongMidways(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(600, 600)))
	w := newWalk(floor, plane.Pt(0, 0), 0, 15)
	ms := []midway{{line: hand.Segment(45, 30, 45, 270), gap: 90}, {line: hand.Segment(60, 30, 540, 30), gap: 60},
		{line: hand.Segment(45, 330, 45, 30), gap: 30}}
	ps := placesAlong((&layout.Room{}), w, ms)
	want := 0
	for i := range ms {
		for d := 0.0; d <= ms[i].line.Length(); d += 30 {
			want++
			tip, found := ms[i].line.At(d), 0
			for k := ps.first[w.nodeAt(tip)]; k >= 0; k = ps.all[k].next {
				if ps.all[k].midway == &ms[i] && ps.all[k].tip == tip {
					found++
				}
			}
			if found != 1 {
				t.Errorf("%v is listed %d times", tip, found)
			}
		}
	}
	if len(ps.all) != want {
		t.Errorf("%d places, want %d", len(ps.all), want)
	}
	left := ps.without(sensorPlace{midway: &ms[0]})
	count := 0
	for _, k := range left.first {
		for ; k >= 0; k = left.all[k].next {
			count++
			if left.all[k].midway == &ms[0] {
				t.Error("a place of the line that was left out")
			}
		}
	}
	if count != want-9 || len(left.all) != count {
		t.Errorf("%d places left of %d", count, want)
	}
	first := ps.without(sensorPlace{midway: &ms[1]}) // the first of all places is not of that line
	if k := first.first[w.nodeAt(ps.all[0].tip)]; k < 0 || first.all[k].tip != ps.all[0].tip {
		t.Error("the first place is left out with another line")
	}
}

func TestJointRoom(t *testing.T) {
	for _, c := range []struct {
		pitch   float64
		closest int
		want    float64
	}{{30, 2, 18}, {30, 1, 14}, {60, 1, 18}, {20, 1, 9}} {
		if got := jointRoom(&job.Job{Membrane: job.Membrane{Pitch: c.pitch},
			Spacing: job.Spacing{Closest: c.closest}}); got != c.want {
			t.Errorf("%d pegs of %g mm: %g, want %g", c.closest, c.pitch, got, c.want)
		}
	}
	ring := ringRound(plane.Pt(40, 70), 18)
	least, most := math.Inf(1), 0.0
	for _, s := range plane.Segments(ring) {
		least, most = min(least, s.Distance(plane.Pt(40, 70))), max(most, s.A.Dist(plane.Pt(40, 70)))
		if math.Abs(s.Length()-2*18*math.Tan(math.Pi/8)) > 1e-9 {
			t.Errorf("a side of %g mm", s.Length())
		}
	}
	if math.Abs(least-18) > 1e-9 || math.Abs(most-18/math.Cos(math.Pi/8)) > 1e-9 || ring[0] != ring[8] ||
		len(ring) != 9 {
		t.Errorf("from %g to %g mm off: %v", least, most, ring)
	}
}

func TestTubesTouchAndLie(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000)))
	r := &layout.Room{Cables: []layout.Cable{{Path: hand.Points(300, 300, 300, 900)},
		{Path: hand.Points(700, 300, 700, 900), Return: hand.Points(0, 0, 700, 900)}}}
	for _, c := range []struct {
		name string
		tube []plane.Point
		want bool
	}{
		{"8 mm off cable", hand.Points(308, 400, 308, 800), true},
		{"less", hand.Points(307.9, 400, 307.9, 800), false},
		{"18 mm off a joint", hand.Points(200, 282, 400, 282), true},
		{"less", hand.Points(200, 282.1, 400, 282.1), false},
		{"at the second joint of a cable", hand.Points(600, 917, 800, 917), false},
		{"off it", hand.Points(600, 918, 800, 918), true},
		{"at an end cap", hand.Points(200, 917, 400, 917), true},
		{"on the wall", hand.Points(0, 0, 0, 500), true},
		{"a millimetre outside", hand.Points(-1, 100, -1, 500), true},
		{"two outside", hand.Points(-2, 100, -2, 500), false},
		{"only its end outside", hand.Points(100, 100, -3, 100), false},
		{"out and in again", hand.Points(100, 100, -20, 200, 100, 300), false},
		{"a short way outside", hand.Points(-3, 100, -3, 102), false},
		{"a point", hand.Points(100, 100), false},
		{"nothing", nil, false},
	} {
		if got := tubeLies(r, floor, c.tube, 18); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
	kept := auditTubes(r, floor, []layout.Sensor{{Lead: hand.Points(100, 0, 100, 100)},
		{Lead: hand.Points(-9, 0, 100, 100)}, {Lead: hand.Points(120, 0, 120, 100)}}, 18)
	if len(kept) != 2 || kept[0].Name != "S1" || kept[0].Spare || kept[1].Name != "S2" || !kept[1].Spare {
		t.Errorf("%+v", kept)
	}
	if js := leadJoints(r); !slices.Equal(js, hand.Points(300, 300, 700, 300, 700, 900)) {
		t.Errorf("lead joints at %v", js)
	}
}

func TestPastFoot(t *testing.T) {
	line := hand.Points(0, 0, 40, 0, 40, 100)
	for d, want := range map[float64][]plane.Point{0: line, 30: hand.Points(30, 0, 40, 0, 40, 100),
		40: hand.Points(40, 0, 40, 100), 60: hand.Points(40, 20, 40, 100), 139: hand.Points(40, 99, 40, 100), 140: nil,
		200: nil} {
		if got := pastFoot(line, d); !slices.Equal(got, want) {
			t.Errorf("past %g mm: %v, want %v", d, got, want)
		}
	}
	plan := tubePlan{sensors: []layout.Sensor{{Lead: hand.Points(0, 0, 0, 500)}}, costs: []float64{3, 4}}
	for x, want := range map[float64]bool{13: true, 14: false, 15: false} {
		if got := plan.meet([][]plane.Point{hand.Points(x, 0, x, 500)}); got != want {
			t.Errorf("a lead %g mm beside it: %v", x, got)
		}
	}
	if plan.meet([][]plane.Point{hand.Points(0, 100, 40, 100, 60, 900)}) {
		t.Error("the lead's first 60 mm count")
	}
	if plan.cost() != 7 {
		t.Error(plan.cost())
	}
	p := sensorPlace{midway: &midway{line: hand.Segment(0, 45, 1000, 45), gap: 90}, tip: plane.Pt(200, 45)}
	if got := p.across(); !slices.Equal(got, hand.Points(200, 0, 200, 90)) {
		t.Errorf("%v", got)
	}
}

// Pieces near the foot of the box may come near to walls and leads there.
func TestBeyondFoot(t *testing.T) {
	f := &tubeFloor{foot: plane.Pt(0, 0)}
	for _, c := range []struct {
		s    plane.Segment
		d    float64
		want plane.Segment
	}{
		{hand.Segment(0, 0, 100, 0), 60, hand.Segment(60, 0, 100, 0)}, {hand.Segment(100, 0, 0, 0), 60,
			hand.Segment(100, 0, 60, 0)}, {hand.Segment(40, 0, 100, 0), 60, hand.Segment(60, 0, 100, 0)},
		{hand.Segment(80, 0, 200, 0), 60, hand.Segment(80, 0, 200, 0)}, {hand.Segment(0, 0, 60, 0), 60,
			plane.Segment{}}, {hand.Segment(0, 0, 61, 0), 60, hand.Segment(60, 0, 61, 0)}, {hand.Segment(10, 0, 50, 0),
			60, plane.Segment{}},
	} {
		if got := f.beyondFoot(c.s, c.d); got != c.want {
			t.Errorf("%v: %v, want %v", c.s, got, c.want)
		}
	}
}

func TestClearOfEverything(t *testing.T) {
	f := &tubeFloor{foot: plane.Pt(0, 0), off: margins{nearCable: 30, nearLeadJoint: 0, nearWall: 10, nearLead: 15,
		nearJoint: 50}}
	f.add(nearCable, hand.Points(200, 100, 200, 900))
	f.add(nearWall, hand.Points(0, -500, 0, 2000))
	f.add(nearLead, hand.Points(0, 0, 300, -300))
	f.add(nearJoint, hand.Points(500, -500, 500, 2000))
	for _, c := range []struct {
		name string
		s    plane.Segment
		want bool
	}{
		{"30 mm off cable", hand.Segment(230, 200, 230, 800), true}, {"less", hand.Segment(229.9, 200, 229.9, 800),
			false}, {"over it", hand.Segment(150, 500, 250, 500), false},
		{"10 mm off the wall", hand.Segment(10, 200, 10, 800), true}, {"less", hand.Segment(9, 200, 9, 800), false},
		{"along it at the foot", hand.Segment(2, 0, 2, 55), true},
		{"50 mm off the joint", hand.Segment(450, 200, 450, 800), true}, {"less", hand.Segment(451, 200, 451, 800),
			false}, {"over it", hand.Segment(400, 200, 600, 200), false},
		{"from the foot beside a lead", hand.Segment(0, 0, 100, 0), true},
		{"along the lead", hand.Segment(0, 0, 200, -199), false},
	} {
		if got := f.clear(c.s, &f.off); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
	// what a way keeps, a straightened one keeps too, less a bit
	for _, c := range []struct {
		p    plane.Point
		want margins
	}{
		{plane.Pt(300, 500), margins{nearCable: 30, nearLeadJoint: 0, nearWall: 10, nearLead: 15, nearJoint: 50}},
		{plane.Pt(220, 500), margins{nearCable: 17, nearLeadJoint: 0, nearWall: 10, nearLead: 15, nearJoint: 50}},
		{plane.Pt(460, 500), margins{nearCable: 30, nearLeadJoint: 0, nearWall: 10, nearLead: 15, nearJoint: 34}},
		{plane.Pt(8, 500), margins{nearCable: 30, nearLeadJoint: 0, nearWall: 6.8, nearLead: 15, nearJoint: 50}},
		{plane.Pt(8, 50), margins{nearCable: 30, nearLeadJoint: 0, nearWall: 10, nearLead: 15, nearJoint: 50}},
	} {
		got := f.marginsAt(c.p)
		for k := range got {
			if math.Abs(got[k]-c.want[k]) > 1e-9 {
				t.Errorf("at %v: %v, want %v", c.p, got, c.want)
			}
		}
	}
	// two of sixteen pieces have their middle within 49 mm
	if n := f.costOf(hand.Segment(100, 1000, 500-1, 1000)); math.Abs(n-399-399*2/16.0) > 1e-9 {
		t.Errorf("asks %g", n)
	}
	for over, want := range map[obstacleKind]bool{nearJoint: true, nearCable: false} {
		if got := f.passable(hand.Segment(400, 1500, 600, 1500), over); got != want {
			t.Errorf("over %d: %v", over, got)
		}
	}
	if !f.passable(hand.Segment(5, 1000, 5, 1500)) || f.passable(hand.Segment(4.9, 1000, 4.9, 1500)) {
		t.Error("5 mm off a wall is passable, less is not")
	}
}

func TestBendsAsk(t *testing.T) {
	a, b := plane.Pt(0, 0), plane.Pt(100, 0)
	for _, c := range []struct {
		to   plane.Point
		want float64
	}{{plane.Pt(200, 0), 0}, {plane.Pt(200, 100), 60}, {plane.Pt(100, 100), 60}, {plane.Pt(0, 100),
		60 + 400*math.Sqrt2/2}, {plane.Pt(0, 0), 460}} {
		if got := bend(a, b, c.to); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("to %v: %g, want %g", c.to, got, c.want)
		}
	}
	prev, next := plane.Pt(0, 100), plane.Pt(200, 100)
	s := plane.Segment{A: a, B: b}
	if bends(nil, s, nil) != 0 || bends(&prev, s, nil) != 60 || bends(nil, s, &next) != 60 ||
		bends(&prev, s, &next) != 120 {
		t.Error("bends at both ends")
	}
}

// A straightened way keeps its ends, is no longer, and crosses nothing.
func TestStraightenedWays(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	f := &tubeFloor{foot: plane.Pt(-1000, 0), off: margins{nearCable: 20, nearWall: 10, nearLead: 15, nearJoint: 30}}
	f.add(nearCable, hand.Points(0, 100, 300, 100, 300, 160, 0, 160))
	f.add(nearWall, hand.Points(-200, -200, 900, -200, 900, 900))
	for range 60 {
		way := []plane.Point{plane.Pt(-100, 60)}
		for at := way[0]; at.X < 400; {
			step := plane.Pt(15, 0)
			if r.IntN(3) == 0 && at.Y > -100 {
				step = plane.Pt(0, -15)
			}
			at = at.Add(step)
			way = append(way, at)
		}
		out := f.straighten(slices.Clone(way), nil, nil)
		if out[0] != way[0] || out[len(out)-1] != way[len(way)-1] || plane.PathLength(out) > plane.PathLength(way)+
			1e-6 || len(out) > len(plane.Corners(way)) {
			t.Fatalf("%v from %v", out, way)
		}
		for _, s := range plane.Segments(out) {
			for _, l := range f.lines {
				if s.Crosses(l.Segment) {
					t.Fatalf("%v crosses %v", s, l.Segment)
				}
			}
		}
	}
	if got := plane.Corners(f.straighten(hand.Points(-100, 0, 0, 0, 100, 0, 200, 0), nil, nil)); len(got) != 2 {
		t.Errorf("%v", got)
	}
	long := make([]plane.Point, 201)
	for i := range long {
		long[i] = plane.Pt(float64(i), 0)
	}
	if at := knots(long); at[0] != 0 || at[len(at)-1] != 200 || len(at) != 41 {
		t.Errorf("%d knots: %v", len(at), at)
	}
	if at := knots(hand.Points(0, 0, 1, 0, 2, 0, 2, 1, 2, 2)); !slices.Equal(at, []int{0, 1, 2, 3, 4}) {
		t.Errorf("%v", at)
	}
}

func TestInGap(t *testing.T) {
	m := &midway{line: hand.Segment(0, 45, 1000, 45), gap: 90}
	for p, want := range map[plane.Point]bool{{X: 0, Y: 45}: true, {X: 1000, Y: 89}: true, {X: 500, Y: 1}: true,
		{X: -1, Y: 45}: false, {X: 1001, Y: 45}: false, {X: 500, Y: 90}: false, {X: 500, Y: 0}: false} {
		if m.inGap(p) != want {
			t.Errorf("%v: %v", p, !want)
		}
	}
}

// A joint is crossed square, its clearance kept on both sides where there is room.
func TestSquareOverAJoint(t *testing.T) {
	f := &tubeFloor{foot: plane.Pt(-1000, 0), off: margins{nearWall: 10, nearLead: 15, nearJoint: 50}}
	f.add(nearJoint, hand.Points(500, -500, 500, 500))
	from, to, ok := f.square(plane.Pt(490, 0), plane.Pt(510, 20))
	if !ok || from.Dist(plane.Pt(450, 10)) > 1e-9 || to.Dist(plane.Pt(550, 10)) > 1e-9 {
		t.Errorf("%v to %v, %v", from, to, ok)
	}
	if from, to, ok := f.square(plane.Pt(510, 20), plane.Pt(490, 0)); !ok || from.Dist(plane.Pt(550, 10)) > 1e-9 ||
		to.Dist(plane.Pt(450, 10)) > 1e-9 {
		t.Errorf("back: %v to %v, %v", from, to, ok)
	}
	if _, _, ok := f.square(plane.Pt(400, 0), plane.Pt(490, 0)); ok {
		t.Error("nothing is crossed")
	}
	f.add(nearWall, hand.Points(540, -500, 540, 500)) // room for 0.7 of it on that side
	if from, to, ok := f.square(plane.Pt(490, 0), plane.Pt(510, 20)); !ok || from.Dist(plane.Pt(465, 10)) > 1e-9 ||
		to.Dist(plane.Pt(535, 10)) > 1e-9 {
		t.Errorf("%v to %v, %v", from, to, ok)
	}
	f.add(nearWall, hand.Points(505, -500, 505, 500))
	a, b := plane.Pt(490, 0), plane.Pt(510, 20)
	if from, to, ok := f.square(a, b); !ok || from != a || to != b {
		t.Errorf("no room: %v to %v, %v", from, to, ok)
	}
}
