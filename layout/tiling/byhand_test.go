package tiling

import (
	"math"
	"slices"
	"testing"

	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// Pieces of a 300 mm tile with a joint of 4 mm, at a place seen twice as much as a plain
// wall. A quarter of a tile bought, and as much again the nearer the piece comes to nothing;
// under half of what the joint leaves (148 mm less the 1 mm that a joint takes up) four times
// as much more, and 2 for what is narrower than 2 in.
func TestWhatCutsCost(t *testing.T) {
	for _, k := range []struct {
		wide, cost         float64
		underHalf, slivers int
	}{
		{300, 2 * 0.25, 0, 0}, {150, 2 * 0.25 * 1.5, 0, 0}, {147, 2 * 0.25 * (2 - 0.49), 0, 0},
		{146, 2 * 1.25 * (2 - 146/300.0), 1, 0}, {51, 2 * 1.25 * 1.83, 1, 0}, {50.8, 2 * 1.25 * (2 - 50.8/300), 1, 0},
		{50, 2 * (1.25*(2-1/6.0) + 2), 1, 1},
	} {
		l := &Layout{cost: 7}
		l.cut(k.wide, 300, 4, 2)
		if math.Abs(l.cost-7-k.cost) > 1e-9 || l.UnderHalf != k.underHalf || l.Slivers != k.slivers || l.Narrowest !=
			k.wide {
			t.Errorf("%g mm wide: %g, %+v; want %g", k.wide, l.cost-7, l, k.cost)
		}
	}
	l := &Layout{}
	for _, wide := range []float64{200, 90, 150} {
		l.cut(wide, 300, 4, 1)
	}
	if l.Narrowest != 90 || l.UnderHalf != 1 {
		t.Errorf("%+v", l)
	}
	for tile, want := range map[float64]float64{100: 25, 203.2: 50.8, 600: 50.8} {
		if got := sliver(tile); math.Abs(got-want) > 1e-9 {
			t.Errorf("slivers of a tile of %g mm are under %g, want %g", tile, got, want)
		}
	}
}

// Six whole tiles cost a fifth of one each; one with a notch that leaves it as wide as it is
// costs a quarter for the cut; two half tiles are one bought, and two cuts.
func TestWhatALayoutCosts(t *testing.T) {
	g := Grid{Length: 300, Width: 300}
	notched := plane.FromRing(hand.Points(0, 0, 300, 0, 300, 200, 200, 200, 200, 300, 0, 300))
	wall := Side{Segment: hand.Segment(0, 0, 300, 0), Seen: 3}
	for _, k := range []struct {
		name  string
		floor plane.Region
		sides []Side
		cost  float64
	}{
		{"whole", rect(900, 600), nil, 6 * 0.2}, {"notched", notched, nil, 0.2 + 0.25},
		{"notched, far from any side", notched, []Side{wall}, 0.2 + 0.25},
		{"notched, its middle at a side", notched, []Side{{Segment: hand.Segment(0, 150, 300, 150), Seen: 3}},
			0.2 + 0.75},
		{"half", rect(300, 146), []Side{wall}, 0.2 + 1.25*(2-146/300.0)},
		{"half, at a side seen thrice", rect(300, 146), []Side{{Segment: hand.Segment(0, 146, 300, 146), Seen: 3}},
			0.2 + 3*1.25*(2-146/300.0)},
		{"cut both ways", rect(200, 250), nil, 0.2 + 0.25*(2-200/300.0) + 0.25*(2-250/300.0)},
	} {
		l, err := Room{Sides: k.sides}.survey(g, k.floor)
		if err != nil || math.Abs(l.cost-k.cost) > 1e-9 {
			t.Errorf("%s: %g, want %g; %+v, %v", k.name, l.cost, k.cost, l, err)
		}
	}
	two := Grid{Origin: plane.Pt(145, 0), Length: 300, Width: 300}
	want := 0.2 + 2*1.25*(2-145/300.0)
	if l, err := (Room{}).survey(two, rect(290, 300)); err != nil || math.Abs(l.cost-want) > 1e-9 {
		t.Errorf("two halves: %+v, %v", l, err)
	}
}

// How much a cut is seen is how much the nearest side is that lies within 50 mm and the edge.
func TestHowMuchACutIsSeen(t *testing.T) {
	room := Room{Edge: 6, Sides: []Side{{Segment: hand.Segment(0, 0, 300, 0), Seen: 3},
		{Segment: hand.Segment(0, 80, 300, 80), Seen: 0.1}}}
	for y, want := range map[float64]float64{0: 3, 39: 3, 41: 0.1, 135: 0.1, 136: 1, 137: 1, -55: 3, -57: 1} {
		if got := room.seen(plane.Pt(100, y)); got != want {
			t.Errorf("at %g: %g, want %g", y, got, want)
		}
	}
}

// A movement joint 10 mm wide in a bed of 4 mm joints takes 5 + 2 + 2 mm of the tile beside it;
// farther in it cuts the tile in two, of which the narrower counts.
func TestTilesAtAJoint(t *testing.T) {
	g := Grid{Length: 300, Width: 200, Joint: 4}
	for _, k := range []struct {
		joint     plane.Segment
		at        int
		narrowest float64
	}{
		{hand.Segment(8.9, -50, 8.9, 250), 0, 0}, {hand.Segment(9.1, -50, 9.1, 250), 1, 9.1},
		{hand.Segment(100, -50, 100, 250), 1, 100}, {hand.Segment(220, -50, 220, 250), 1, 80},
		{hand.Segment(290.9, -50, 290.9, 250), 1, 9.1}, {hand.Segment(291.1, -50, 291.1, 250), 0, 0},
		{hand.Segment(-50, 60, 350, 60), 1, 60}, {hand.Segment(-50, 150, 350, 150), 1, 50},
		{hand.Segment(-50, 8.9, 350, 8.9), 0, 0}, {hand.Segment(-50, 191.1, 350, 191.1), 0, 0},
		{hand.Segment(100, 100, 100, 400), 1, 100}, {hand.Segment(400, 0, 400, 200), 0, 0},
		{hand.Segment(0, 0, 300, 200), 1, 0},
	} {
		room := Room{Joints: []Joint{{Segment: k.joint, Width: 10}}}
		l, err := room.survey(g, rect(300, 200))
		want := 0.2
		if k.at > 0 {
			want += jointCosts
			if k.narrowest > 0 {
				var c Layout
				tile := 300.0
				if k.joint.A.Y == k.joint.B.Y {
					tile = 200
				}
				c.cut(k.narrowest, tile, 4, 1)
				want += c.cost
			}
		}
		if err != nil || l.AtJoints != k.at || math.Abs(l.Narrowest-k.narrowest) > 1e-9 || l.Cut != k.at ||
			math.Abs(l.cost-want) > 1e-9 {
			t.Errorf("%v: %d cut, narrowest %g, cost %g; want %d, %g, %g; %v", k.joint, l.AtJoints, l.Narrowest, l.cost,
				k.at, k.narrowest, want, err)
		}
	}
}

// What is compared: no tile at a joint before any, no cut under half before any, then by cost;
// no two with the same figures, and four at most.
func TestBestByHand(t *testing.T) {
	of := func(at, half int, cost float64) Layout {
		return Layout{AtJoints: at, UnderHalf: half, cost: cost, Narrowest: 100 * cost}
	}
	for _, k := range []struct{ all, want []Layout }{
		{[]Layout{of(1, 0, 1), of(0, 2, 9)}, []Layout{of(0, 2, 9), of(1, 0, 1)}},
		{[]Layout{of(0, 1, 1), of(0, 0, 9)}, []Layout{of(0, 0, 9), of(0, 1, 1)}},
		{[]Layout{of(0, 0, 9), of(0, 1, 1)}, []Layout{of(0, 0, 9), of(0, 1, 1)}},
		{[]Layout{of(0, 2, 9), of(1, 0, 1)}, []Layout{of(0, 2, 9), of(1, 0, 1)}},
		{[]Layout{of(0, 1, 9), of(0, 3, 1)}, []Layout{of(0, 3, 1), of(0, 1, 9)}},
		{[]Layout{of(1, 0, 9), of(4, 0, 1)}, []Layout{of(4, 0, 1), of(1, 0, 9)}},
		{[]Layout{of(0, 0, 2), of(0, 0, 1)}, []Layout{of(0, 0, 1), of(0, 0, 2)}},
		{[]Layout{of(0, 0, 1), of(0, 0, 1.005), of(0, 0, 1.02)}, []Layout{of(0, 0, 1), of(0, 0, 1.02)}},
		{[]Layout{of(0, 0, 5), of(0, 0, 4), of(0, 0, 3), of(0, 0, 2), of(0, 0, 1)}, []Layout{of(0, 0, 1), of(0, 0, 2),
			of(0, 0, 3), of(0, 0, 4)}},
	} {
		got := best(slices.Clone(k.all))
		same := func(a, b Layout) bool {
			return a.cost == b.cost && a.AtJoints == b.AtJoints && a.UnderHalf == b.UnderHalf
		}
		if !slices.EqualFunc(got, k.want, same) {
			t.Errorf("%+v", got)
		}
	}
	for i, other := range []Layout{{Count: Count{Cut: 1}}, {UnderHalf: 1}, {Count: Count{Whole: 1}}, {AtJoints: 1},
		{Narrowest: 1}} {
		if got := best([]Layout{{}, other}); len(got) != 2 {
			t.Errorf("%d: with another figure it is another layout: %+v", i, got)
		}
	}
}

// Of 101 by 101 places 20,000 are looked at once, so that one layout is tried.
func TestWorkIsBounded(t *testing.T) {
	all, err := Room{}.weighed(Grid{Length: 10, Width: 10}, rect(1000, 1000), job.Tile{})
	if err != nil || len(all) != 1 {
		t.Errorf("%d layouts tried, %v", len(all), err)
	}
	all, err = Room{}.weighed(Grid{Length: 300, Width: 200}, rect(1000, 700), job.Tile{})
	if err != nil || len(all) != 4 {
		t.Errorf("%d layouts tried, %v", len(all), err)
	}
}

// From where rows begin on a floor of 1000 mm with tile of 300 and a joint of 4.
func TestWaysToBegin(t *testing.T) {
	g := Grid{Length: 300, Width: 200, Joint: 4}
	for _, k := range []struct {
		name  string
		shift float64
		slant bool
		woven bool
		how   string
		want  []float64
	}{
		{"straight", 0, false, false, "", []float64{350, 502}},
		{"by halves", 0.5, false, false, "", []float64{350, 502, 426, 578}},
		{"by thirds", 1.0 / 3, false, false, "", []float64{350, 502}},
		{"diagonal", 0, true, false, "", []float64{350, 502, 426, 578}},
		{"woven", 0, true, true, "", []float64{350, 502}},
		{"a tile", 0.5, false, false, FromTile, []float64{350}},
		{"a joint", 0.5, false, false, FromJoint, []float64{502}},
		{"a door that is not there", 0, false, false, FromDoor, []float64{350, 502}},
		{"balanced", 0, false, false, Balanced, []float64{350, 502}},
	} {
		g := g
		g.Shift, g.Woven = k.shift, k.woven
		var got []float64
		for _, s := range (Room{}).axisStarts(axis{g, rect(1000, 600), plane.AxisX, 300, k.slant}, 0, 1000, k.how) {
			got = append(got, s.at)
		}
		if !slices.Equal(got, k.want) {
			t.Errorf("%s: %v, want %v", k.name, got, k.want)
		}
	}
	var many []start
	for i := range 30 {
		many = append(many, start{at: float64(10 * (i % 15))})
	}
	if got := unlike(many, 304); len(got) != 10 || got[9].at != 90 {
		t.Errorf("%v", got)
	}
	got := unlike([]start{{at: 1}, {at: 304.5}, {at: -302.5}, {at: 2.5}, {at: 303.5}}, 304)
	if len(got) != 3 || got[1].at != 2.5 || got[2].at != 303.5 {
		t.Errorf("%v", got)
	}
}

// A begun is a start in words.
type begun struct {
	at         float64
	words, how string
}

func inWords(starts []start) (out []begun) {
	for _, s := range starts {
		out = append(out, begun{s.at, s.words.String(), s.how})
	}
	return out
}

// Sides of a floor of 1200 by 900 mm in a room that keeps 10 mm free at its edge. Those across
// the rows are taken: long ones, and a short doorway; none that slants, runs along the rows,
// or has floor on both sides or none.
func TestBeginningsAtSides(t *testing.T) {
	side := func(name string, seen float64, entry bool, xy ...float64) Side {
		return Side{Segment: hand.Segment(xy[0], xy[1], xy[2], xy[3]), Name: language.Say(name), Seen: seen,
			Entry: entry}
	}
	floor := plane.FromRing(plane.Rectangle(plane.Pt(10, 10), plane.Pt(1190, 890)))
	room := Room{Edge: 10, Sides: []Side{
		side("west", 1, false, 0, 900, 0, 0), side("door", 3, true, 1200, 300, 1200, 500),
		side("short", 9, false, 0, 100, 0, 399), side("south", 1, false, 0, 0, 1200, 0),
		side("north", 2, false, 1200, 900, 0, 900), side("slant", 9, false, 1200, 0, 1180, 900),
		side("inside", 9, false, 600, 0, 600, 900), side("outside", 9, false, 1500, 0, 1500, 900),
	}}
	g := Grid{Length: 300, Width: 200, Joint: 4}
	along := axis{g, floor, plane.AxisX, 300, false}
	var names []string
	for _, s := range room.stations(along) {
		names = append(names, s.Name.String())
		if s.high != (s.Name.String() == "door") || s.at != map[string]float64{"west": 0,
			"door": 1200}[s.Name.String()] {
			t.Errorf("%+v", s)
		}
	}
	if !slices.Equal(names, []string{"door", "west"}) {
		t.Errorf("along the rows: %v", names)
	}
	want := []begun{{1200 - 10 - 300, "whole tiles at door", FromDoor}, {10, "whole tiles at west", Balanced},
		{600 - 150, "a tile midway between west and door", Balanced}, {602, "a joint midway between west and door",
			Balanced}}
	if got := inWords(room.fromSides(along)); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	across := axis{g, floor, plane.AxisY, 200, false}
	want = []begun{{900 - 10 - 200, "whole tiles at north", Balanced}, {10, "whole tiles at south", Balanced},
		{450 - 100, "a tile midway between north and south", Balanced}, {452, "a joint midway between north and south",
			Balanced}}
	if got := inWords(room.fromSides(across)); !slices.Equal(got, want) {
		t.Errorf("across: %v, want %v", got, want)
	}
	room.Joints = []Joint{{Segment: hand.Segment(500, 0, 500, 900), Name: "J1"},
		{Segment: hand.Segment(0, 300, 1200, 302), Name: "J2"}, {Segment: hand.Segment(0, 0, 900, 900), Name: "J3"}}
	if got := inWords(room.fromJoints(along)); !slices.Equal(got, []begun{{502, "a joint on J1", Balanced}}) {
		t.Errorf("%v", got)
	}
	if got := inWords(room.fromJoints(across)); !slices.Equal(got, []begun{{303, "a joint on J2", Balanced}}) {
		t.Errorf("%v", got)
	}
	// sides nearer to each other than a tile have no middle to begin from
	near := Room{Sides: []Side{side("a", 1, false, 0, 900, 0, 0), side("b", 1, false, 299, 0, 299, 900)}}
	if got := near.fromSides(axis{g, rect(299, 900), plane.AxisX, 300, false}); len(got) != 2 {
		t.Errorf("%v", got)
	}
	for i := range near.Sides { // as much so far from the origin
		s := &near.Sides[i].Segment
		s.A, s.B = s.A.Add(plane.Pt(1000, 0)), s.B.Add(plane.Pt(1000, 0))
	}
	far := plane.FromRing(plane.Rectangle(plane.Pt(1000, 0), plane.Pt(1299, 900)))
	if got := near.fromSides(axis{g, far, plane.AxisX, 300, false}); len(got) != 2 {
		t.Errorf("%v", got)
	}
	turned := g // rows at 30 degrees, a movement joint square to them 500 mm along
	turned.Angle = math.Pi / 6
	a, b := plane.Pt(500, -50).Rotate(math.Pi/6), plane.Pt(500, 300).Rotate(math.Pi/6)
	room.Joints = []Joint{{Segment: plane.Segment{A: a, B: b}, Name: "J"}}
	askew := room.fromJoints(axis{turned, floor, plane.AxisX, 300, false})
	if len(askew) != 1 || math.Abs(askew[0].at-502) > 1e-6 {
		t.Errorf("%v", askew)
	}
}

// A line through an L, a U and beside a corner that touches it.
func TestInsideByHand(t *testing.T) {
	u := plane.FromRing(hand.Points(0, 0, 90, 0, 90, 60, 60, 60, 60, 30, 30, 30, 30, 60, 0, 60))
	touched := plane.FromRing(hand.Points(0, 0, 90, 0, 90, 60, 45, 40, 0, 60))
	for _, k := range []struct {
		name string
		r    plane.Region
		s    plane.Segment
		want []plane.Segment
	}{
		{"through both arms", u, hand.Segment(-10, 45, 100, 45), []plane.Segment{hand.Segment(0, 45, 30, 45),
			hand.Segment(60, 45, 90, 45)}},
		{"back", u, hand.Segment(100, 45, -10, 45), []plane.Segment{hand.Segment(90, 45, 60, 45),
			hand.Segment(30, 45, 0, 45)}},
		{"from inside one arm", u, hand.Segment(10, 45, 70, 45), []plane.Segment{hand.Segment(10, 45, 30, 45),
			hand.Segment(60, 45, 70, 45)}},
		{"below", u, hand.Segment(-10, 15, 100, 15), []plane.Segment{hand.Segment(0, 15, 90, 15)}},
		{"inside one arm", u, hand.Segment(5, 45, 25, 45), []plane.Segment{hand.Segment(5, 45, 25, 45)}},
		{"beyond", u, hand.Segment(-10, 70, 100, 70), nil},
		{"upright", u, hand.Segment(15, -10, 15, 100), []plane.Segment{hand.Segment(15, 0, 15, 60)}},
		{"a corner of it", u, hand.Segment(-5, 59.7, 5, 60.5), nil},
		{"touched by a corner", touched, hand.Segment(10, 40, 80, 40), []plane.Segment{hand.Segment(10, 40, 80, 40)}},
	} {
		same := func(a, b plane.Segment) bool { return a.A.Dist(b.A) < 1e-9 && a.B.Dist(b.B) < 1e-9 }
		if got := inside(k.r, k.s); !slices.EqualFunc(got, k.want, same) {
			t.Errorf("%s: %v, want %v", k.name, got, k.want)
		}
	}
}

// Tiles of 300 mm on 900 by 900 mm, their joints crossing at thirds: the tiler begins at one
// of the four and has the next along the row for a second point. Of rows moved by half a tile
// only every second has its corners on the line.
func TestStartByHand(t *testing.T) {
	l := Layout{Grid: Grid{Length: 300, Width: 300}, Floor: rect(900, 900)}
	if got := l.crossings(); !slices.Equal(got, hand.Points(300, 300, 600, 300, 300, 600, 600, 600)) {
		t.Errorf("crossings %v", got)
	}
	s, ok := l.Start()
	want := Start{hand.Segment(0, 300, 900, 300), hand.Segment(300, 0, 300, 900), plane.Pt(300, 300),
		plane.Pt(600, 300)}
	if !ok || s != want {
		t.Errorf("%+v, %v; want %+v", s, ok, want)
	}
	l.Shift = 0.5
	if got := l.crossings(); !slices.Equal(got, hand.Points(300, 600, 600, 600)) {
		t.Errorf("crossings of moved rows %v", got)
	}
	// one that lies farther off is taken, nearer the middle first
	l = Layout{Grid: Grid{Length: 300, Width: 300, Joint: 4, Origin: plane.Pt(-100, -298)}, Floor: rect(1500, 500)}
	s, ok = l.Start()
	if !ok || s.At != plane.Pt(810, 4) && s.At != plane.Pt(810, 308) || s.At.Y != s.Second.Y || math.Abs(
		s.Second.X-s.At.X) < 600 {
		t.Errorf("%+v, %v", s, ok)
	}
	if s, ok := (Layout{Grid: Grid{Length: 900, Width: 900}, Floor: rect(900, 900)}).Start(); ok {
		t.Errorf("one tile begins at %+v", s)
	}
	// herringbone is begun along its zigzag, at 45 degrees to its tiles
	l = Layout{Grid: Grid{Length: 200, Width: 100, Woven: true}, Floor: rect(1000, 1000)}
	if s, ok = l.Start(); !ok || math.Abs(s.Along.B.Sub(s.Along.A).Unit().Dot(plane.Pt(1, 1).Unit())) < 1-1e-9 {
		t.Errorf("%+v, %v", s, ok)
	}
}

// What cannot be a tile has no numbers, and a strip too narrow for its tile no rows.
func TestNoNumbers(t *testing.T) {
	good := Grid{Length: 300, Width: 200, Joint: 4}
	if _, ok := good.numbered(rect(900, 600), plane.Point{}); !ok {
		t.Error("rows are not numbered")
	}
	for _, set := range []func(*Grid){func(g *Grid) { g.Length = math.NaN() }, func(g *Grid) { g.Width = math.Inf(1) },
		func(g *Grid) { g.Length = 0.9 }, func(g *Grid) { g.Width = 0.9 }, func(g *Grid) { g.Length = -5 },
		func(g *Grid) { g.Length = math.Inf(1) }, func(g *Grid) { g.Length, g.Width, g.Joint = 2, 2, 0 }} {
		g := good
		set(&g)
		if n, ok := g.numbered(rect(1200, 1200), plane.Point{}); ok {
			t.Errorf("%+v: %d rows", g, len(n.Rows))
		}
		if _, err := g.Count(rect(1200, 1200)); err == nil {
			t.Errorf("%+v is counted", g)
		}
	}
	if n, ok := good.numbered(rect(900, 9), plane.Pt(10, 10)); ok {
		t.Errorf("%+v", n)
	}
	if c, err := (Grid{Length: 10, Width: 1}).Count(rect(10, 10)); err != nil || c.Whole != 10 || c.Cut != 0 {
		t.Errorf("strips of 1 mm: %+v, %v", c, err)
	}
	if c, err := (Grid{Length: 10, Width: 1}).Count(rect(14, 1)); err != nil || c.Whole != 1 || c.Cut != 1 {
		t.Errorf("a strip of 1 mm and less than half of one: %+v, %v", c, err)
	}
}

// A cell touched only by its own edge has no floor; too many tiles of a weave are not counted.
func TestWeaveAtItsBounds(t *testing.T) {
	f := plane.FaceOf(rect(100, 100), plane.Point{}, 0)
	for p, want := range map[plane.Point]int{{X: 100, Y: 0}: 0, {X: 0, Y: 100}: 0, {X: -50, Y: 0}: 0, {X: 0, Y: -50}: 0,
		{X: 0, Y: 0}: 1, {X: 99, Y: 99}: 1, {X: -49, Y: -49}: 1} {
		n := 0
		place(f, f.Bounds(), cell{at: p, size: plane.Pt(50, 50)}, func(cell) { n++ })
		if n != want {
			t.Errorf("at %v: visited %d times", p, n)
		}
	}
	if _, err := (Grid{Length: 5, Width: 5, Woven: true}).Count(rect(4000, 4000)); err == nil {
		t.Error("640,000 tiles of a weave are counted")
	}
}

// Which pieces share a tile: 48.5 mm of 100 and the saw's 3 mm do, more does not, whichever
// way the tile lies; a piece of 1 mm is one.
func TestPiecesThatPair(t *testing.T) {
	for _, k := range []struct {
		crosswise     bool
		size          plane.Point
		w, h          float64
		short, narrow int
	}{
		{false, plane.Pt(200, 100), 98.5, 100, 1, 0}, {false, plane.Pt(200, 100), 99, 100, 0, 0},
		{false, plane.Pt(200, 100), 200, 48.5, 0, 1}, {false, plane.Pt(200, 100), 200, 50, 0, 0},
		{true, plane.Pt(100, 200), 100, 98.5, 1, 0}, {true, plane.Pt(100, 200), 100, 99.5, 0, 0},
		{true, plane.Pt(100, 200), 48.5, 200, 0, 1}, {true, plane.Pt(100, 200), 50, 200, 0, 0},
	} {
		var y tally
		// a piece in the middle of its place, where no side of it is clipped
		at := plane.Pt((k.w-k.size.X)/2, (k.h-k.size.Y)/2)
		y.pair(cell{at: at, size: k.size, crosswise: k.crosswise,
			floor: plane.FaceOf(rect(k.w, k.h), plane.Point{}, 0)})
		if y.short != k.short || y.narrow != k.narrow {
			t.Errorf("%g x %g mm of %v: %d short, %d narrow", k.w, k.h, k.size, y.short, y.narrow)
		}
	}
	for w, want := range map[float64]filling{1: cutCell, 0.9: emptyCell, 300: wholeCell} {
		c := cell{size: plane.Pt(300, 300), floor: plane.FaceOf(rect(w, 300), plane.Point{}, 0)}
		if got := c.filling(); got != want {
			t.Errorf("%g mm of a tile: %d, want %d", w, got, want)
		}
	}
}

// 40 tiles with a tenth for breakage are 44, 41 are 46; 10 are 11 though 1.1 is no exact
// number. Boxes are begun, and none where it is not known what one holds.
func TestTilesBought(t *testing.T) {
	for tiles, want := range map[int]int{40: 44, 41: 46, 10: 11, 0: 0} {
		if got := Bought(tiles, 0.1); got != want {
			t.Errorf("%d tiles: %d bought, want %d", tiles, got, want)
		}
	}
	l := Layout{Count: Count{Whole: 30, Cut: 14, Pairs: 4}}
	for perBox, want := range map[int]int{0: 0, 1: 44, 11: 4, 10: 5, 44: 1, 45: 1} {
		if tiles, boxes := l.Bought(job.Tile{Breakage: 0.1, PerBox: perBox}); tiles != 44 || boxes != want {
			t.Errorf("%d tiles in %d boxes of %d, want %d", tiles, boxes, perBox, want)
		}
	}
}

// Of a floor 450 mm wide a tile of 300 is whole and one cut, each by its row.
func TestPiecesByHand(t *testing.T) {
	l := Layout{Grid: Grid{Length: 300, Width: 300}, Floor: rect(450, 600)}
	var whole, cut int
	for _, p := range l.Pieces() {
		if p.Cut {
			cut++
		} else {
			whole++
		}
		wide := plane.Pt(300, 300)
		if p.Cut {
			wide.X = 150
		}
		if p.Wide.Dist(wide) > 1e-6 || p.Row != int(p.Tile.Bounds().Min.Y/300) || p.Tile.Area() != 9e4 {
			t.Errorf("%+v", p)
		}
	}
	if whole != 2 || cut != 2 {
		t.Errorf("%d whole, %d cut", whole, cut)
	}
}

// A floor narrower than the sealant at both its edges is tiled as it is; one joint crossing
// gives no line to begin from; a start that is a whole tile and joint off another is the same.
func TestTilingAtItsLeast(t *testing.T) {
	all, err := Layouts(Room{Tiled: rect(1000, 10), Edge: 6}, job.Tile{Length: 300, Width: 300})
	if err != nil || len(all) == 0 {
		t.Errorf("%v, %v", all, err)
	}
	if s, ok := (Layout{Grid: Grid{Length: 300, Width: 300}, Floor: rect(600, 600)}).Start(); ok {
		t.Errorf("begun at the only crossing: %+v", s)
	}
	g := Grid{Length: 300, Width: 200, Joint: 4}
	room := Room{Joints: []Joint{{Segment: hand.Segment(804, 0, 804, 600), Name: "J"}}}
	if got := room.axisStarts(axis{g, rect(1000, 600), plane.AxisX, 300, false}, 0, 1000, ""); len(got) != 2 {
		t.Errorf("%v", got)
	}
	for v, want := range map[float64]bool{0.9: false, 1: true, 1.5: true, 2: true, 2.1: false} {
		if got := (span{1, 2}).holds(v); got != want {
			t.Errorf("%g lies in it: %v", v, got)
		}
	}
	// far from its origin a weave has no more tiles than near
	far := rect(900, 900)[0].Outer.Translate(plane.Pt(1e8, 1e8))
	if c, err := (Grid{Length: 200, Width: 100, Woven: true}).Count(plane.FromRing(far)); err != nil || c.Tiles() < 40 {
		t.Errorf("%+v, %v", c, err)
	}
	// a place in the notch of an L has no floor, and is not visited
	l := plane.FaceOf(plane.FromRing(hand.Points(0, 0, 100, 0, 100, 50, 50, 50, 50, 100, 0, 100)), plane.Point{}, 0)
	place(l, l.Bounds(), cell{at: plane.Pt(60, 60), size: plane.Pt(30, 30)}, func(c cell) { t.Errorf("%+v", c.floor) })
}

// Rows of a floor that narrows to the north: each reaches as far as the floor does within it
// and half a joint round it.
func TestRowsOfASlantingFloor(t *testing.T) {
	floor := plane.FromRing(hand.Points(0, 0, 1200, 0, 0, 1200)) // x + y = 1200
	n, ok := (Grid{Length: 100, Width: 300, Joint: 10}).numbered(floor, plane.Point{})
	if !ok || len(n.Rows) != 4 {
		t.Fatalf("%+v", n)
	}
	for i, r := range n.Rows {
		low := math.Max(0, float64(i)*310-5)
		if want := 1200 - low; math.Abs(r.reach.high-want) > 1e-6 || r.reach.low != 0 {
			t.Errorf("row %d reaches from %g to %g, want %g", i, r.reach.low, r.reach.high, want)
		}
	}
	widening := plane.FromRing(hand.Points(0, 0, 1200, 1200, 0, 1200)) // x = y
	n, ok = (Grid{Length: 100, Width: 300, Joint: 10}).numbered(widening, plane.Point{})
	if !ok || len(n.Rows) != 4 {
		t.Fatalf("%+v", n)
	}
	for i, r := range n.Rows {
		if want := math.Min(1200, float64(i)*310+305); math.Abs(r.reach.high-want) > 1e-6 {
			t.Errorf("row %d reaches to %g, want %g", i, r.reach.high, want)
		}
	}
}

// Most of the edge tells the way of the rows, all of a direction together: 1000 and 900 mm
// square to each other against 1345 of the slanting side between them.
func TestTheMainDirection(t *testing.T) {
	if got := mainAngle(plane.FromRing(hand.Points(0, 0, 1000, 0, 1000, 900))); got != 0 {
		t.Errorf("%g", got)
	}
	if got := mainAngle(nil); got != 0 {
		t.Errorf("of no floor: %g", got)
	}
	slant := mainAngle(plane.FromRing(hand.Points(0, 0, 2000, 400, 1950, 650, -50, 250)))
	if want := math.Atan2(400, 2000); math.Abs(slant-want) > 1e-6 {
		t.Errorf("%g, want %g", slant, want)
	}
}

// A tile so narrow that the joint takes all of it beside itself is cut by none.
func TestNarrowTilesAtAJoint(t *testing.T) {
	room := Room{Joints: []Joint{{Segment: hand.Segment(150, -50, 150, 300), Width: 10}}}
	for width, want := range map[float64]int{10: 0, 17: 0, 19: 1, 200: 1} {
		l, err := room.survey(Grid{Length: 300, Width: width, Joint: 4}, rect(300, width))
		if err != nil || l.AtJoints != want {
			t.Errorf("%g mm wide: %d cut, %v", width, l.AtJoints, err)
		}
	}
}

// A joint of 10 mm is half of either tile's beside it, along the rows and across.
func TestTheTileAtAJoint(t *testing.T) {
	n, ok := (Grid{Length: 300, Width: 200, Joint: 10}).numbered(rect(900, 800), plane.Point{})
	if !ok {
		t.Fatal("no rows")
	}
	for _, k := range []struct {
		x, y        float64
		row, column int
	}{{150, 100, 1, 1}, {304, 100, 1, 1}, {306, 100, 1, 2}, {150, 204, 1, 1}, {150, 206, 2, 1}, {306, 416, 3, 2}} {
		if got, ok := n.At(plane.Pt(k.x, k.y)); !ok || got != (Place{k.row, k.column}) {
			t.Errorf("at %g, %g: %+v, want row %d, column %d", k.x, k.y, got, k.row, k.column)
		}
	}
}
