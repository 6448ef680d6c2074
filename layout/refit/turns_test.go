package refit

import (
	"math"
	"slices"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// onFloor is threeRuns with links up to 240 mm, on a floor given by two corners.
func onFloor(x0, y0, x1, y1 float64, laid ...float64) *Refit {
	f := threeRuns(laid...)
	f.Job.Spacing.Widest, f.Job.Membrane.BendRadius = 4, 15
	f.floor = plane.FromRing(plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1)))
	f.Room.Zones = []plane.Region{f.floor}
	f.bare = route.Problem{Pitch: 30, Closest: 2, Widest: 4, Bend: 15}
	return f
}

// A bend of a quarter turn saves (2 - pi/2) of its radius of 15 mm.
var saved = (2 - math.Pi/2) * 15

func samePath(got, want []plane.Point) bool {
	return slices.EqualFunc(got, want, func(a, b plane.Point) bool { return a.Dist(b) < 0.01 })
}

// The turn at x = 900 goes out by 30 mm and its other turn, at x = 0, the other way, each
// where the floor takes it (half a millimetre is forgiven).
func TestATurnIsPushedWhereThereIsFloor(t *testing.T) {
	for _, k := range []struct {
		name     string
		at       int
		by       float64
		from, to float64 // the floor, along the runs
		want     []plane.Point
	}{
		{"to the floor's edge", 1, 30, -20, 929.6, hand.Points(0, 0, 930, 0, 930, 60, 0, 60, 0, 120, 900, 120)},
		{"beyond it", 1, 30, -20, 929.4, nil},
		{"the other turn", 3, 30, -29.6, 920, hand.Points(0, 0, 900, 0, 900, 60, -30, 60, -30, 120, 900, 120)},
		{"it beyond the edge", 3, 30, -29.4, 920, nil},
		{"inwards", 1, -30, -20, 920, hand.Points(0, 0, 870, 0, 870, 60, 0, 60, 0, 120, 900, 120)},
		{"a run is no link", 2, 30, -200, 2000, nil},
	} {
		f := onFloor(k.from, -20, k.to, 140)
		path := slices.Clone(f.plan)
		if moved := f.pushLink(path, k.at, k.by); moved != (k.want != nil) {
			t.Errorf("%s: moved %v", k.name, moved)
		}
		if k.want == nil {
			k.want = f.plan
		}
		if !samePath(path, k.want) {
			t.Errorf("%s: %v, want %v", k.name, path, k.want)
		}
	}
}

// A link is no longer than four gaps of 60 mm; legs that go on the same way are no turn.
func TestWhatIsALinkOfATurn(t *testing.T) {
	for _, k := range []struct {
		name string
		path []plane.Point
		want bool
	}{
		{"240 mm", hand.Points(0, 0, 900, 0, 900, 240, 0, 240), true},
		{"more", hand.Points(0, 0, 900, 0, 900, 241, 0, 241), false},
		{"a step aside", hand.Points(0, 0, 450, 0, 450, 60, 900, 60), false},
		{"a corner", hand.Points(0, 0, 450, 0, 450, 60, 510, 120), false},
	} {
		if got := onFloor(-100, -100, 1200, 400).pushLink(k.path, 1, 30); got != k.want {
			t.Errorf("%s: moved %v", k.name, got)
		}
	}
}

// Drawn in, a leg keeps two pegs to the next bend, 60 mm, of which half a millimetre is
// forgiven; with bends of 40 mm it keeps both bends, 80 mm.
func TestATurnIsDrawnInNoFartherThanItsLegs(t *testing.T) {
	for _, k := range []struct {
		first, last, bend float64
		want              bool
	}{
		{90, 900, 15, true}, {89.6, 900, 15, true}, {89.4, 900, 15, false}, {900, 90, 15, true}, {900, 89, 15, false},
		{109.6, 900, 40, true}, {109, 900, 40, false},
	} {
		f := onFloor(-100, -100, 1200, 400)
		f.Planned.BendRadius = k.bend
		path := hand.Points(0, 0, k.first, 0, k.first, 200, k.first-k.last, 200)
		f.floor = plane.FromRing(plane.Rectangle(plane.Pt(-2000, -100), plane.Pt(2000, 400)))
		if got := f.pushLink(path, 1, -30); got != k.want {
			t.Errorf("legs of %g and %g mm, bends of %g: %v", k.first, k.last, k.bend, got)
		}
	}
}

// A run across, x mm from the start, stands in the way of the turn at x = 900: two pegs are
// kept of it, to half a millimetre. A run between the two ends of the pieces that grow
// stands in their way too.
func TestATurnKeepsTheClosestGap(t *testing.T) {
	for x, want := range map[float64]bool{989.6: true, 989.4: false, 959: false, 1100: true} {
		f := onFloor(-100, -200, 1200, 400)
		path := hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 180, x, 180, x, -100)
		if got := f.pushLink(path, 1, 30); got != want {
			t.Errorf("a run across at %g: moved %v", x, got)
		}
	}
	// of the piece that grows alone: the link at x = 930 has 61 mm to what lies beyond
	f := onFloor(-100, -200, 1200, 400)
	path := hand.Points(0, 0, 900, 0, 900, 100, 0, 100, 0, 160, 925, 160, 925, 159)
	if f.pushLink(path, 1, 30) {
		t.Error("the second run grows to within 59 mm of another")
	}
}

// A leg that ends 55 mm before the middle of a wide link, far from the runs, stands in the
// link's way alone.
func TestALinkKeepsTheClosestGap(t *testing.T) {
	for x, want := range map[float64]bool{989.6: true, 985: false} {
		f := onFloor(-100, -200, 1300, 600)
		path := hand.Points(0, 0, 900, 0, 900, 240, 0, 240, 0, 400, 1100, 400, 1100, 120, x, 120)
		if got := f.pushLink(path, 1, 30); got != want {
			t.Errorf("a leg that ends at %g: moved %v", x, got)
		}
	}
}

// A leg that ends 59 mm off one of the two pieces that grow with a turn, and farther from its
// link, stands in that piece's way.
func TestPiecesThatGrowKeepTheClosestGap(t *testing.T) {
	for _, path := range [][]plane.Point{
		hand.Points(0, 0, 900, 0, 900, 240, 0, 240, 0, 700, 915, 700, 915, 299),
		hand.Points(0, 0, 900, 0, 900, 240, 0, 240, -100, 240, -100, -300, 915, -300, 915, -59),
	} {
		if onFloor(-200, -400, 1300, 800).pushLink(path, 1, 30) {
			t.Errorf("moved: %v", path)
		}
		last := len(path) - 1
		path[last].Y += math.Copysign(2, path[last-1].Y) // farther off by 2 mm
		if !onFloor(-200, -400, 1300, 800).pushLink(path, 1, 30) {
			t.Errorf("not moved: %v", path)
		}
	}
}

// Runs 60 and 60 mm apart give 120 mm together: with 10 W/m twice, the limit that asks for
// so much is 20 W/m over 0.12 m; half a millimetre is forgiven.
func TestALegKeepsThePowerLimit(t *testing.T) {
	for both, want := range map[float64]bool{0: true, 119: true, 120.4: true, 120.6: false, 150: false} {
		f := onFloor(-100, -100, 1200, 400)
		f.Planned.Label.Watts, f.Planned.Label.Length = 28, 2800
		if both > 0 {
			f.Job.Supply.MaxDensity = 20 / both * 1000
		}
		if got := f.bothGaps(); math.Abs(got-both) > 1e-9 {
			t.Errorf("%g mm over two gaps, want %g", got, both)
		}
		for i := range f.plan[1:] {
			if got := f.cool(f.plan, i+1); got != want {
				t.Errorf("%g mm asked for, leg %d: cool %v", both, i+1, got)
			}
		}
	}
	g := onFloor(-100, -100, 1200, 400)
	if g.Planned.Label.Watts, g.Job.Supply.MaxDensity = 28, 1; g.bothGaps() != 20_000 {
		t.Errorf("under 1 W/m² %g mm are asked for", g.bothGaps())
	}
	// what lies farther off than the two gaps together is not looked at
	f := onFloor(-100, -100, 1200, 900)
	f.Planned.Label.Watts, f.Planned.Label.Length = 28, 2800
	f.Job.Supply.MaxDensity = 20 / 0.15
	path := append(slices.Clone(f.plan), hand.Points(900, 420, 0, 420)...)
	if !f.cool(path, 7) {
		t.Error("runs 300 mm apart do not warm one another")
	}
}

// fourRuns are runs of 900 mm with turns at x = 900, 0 and 900, of which the first lies.
func fourRuns() []plane.Point {
	return hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 900, 120, 900, 180, 0, 180)
}

// Each turn pushed takes two pegs of cable, 60 mm; the last turn goes first, as far as its
// floor goes, and none of what is laid.
func TestTurnsArePushedUntilTheCableHasItsPlace(t *testing.T) {
	for _, k := range []struct {
		over           float64
		laid           int // corners
		left           float64
		first, mid, x1 float64 // where the turns come to lie
	}{
		{60, 2, 0, 900, 0, 930}, {61, 2, -59, 900, 0, 960}, {100, 2, -20, 900, 0, 960}, {0, 2, 0, 900, 0, 900},
		{121, 2, -59, 900, -30, 960}, {500, 2, 260, 900, -60, 960}, {500, 3, 260, 900, -60, 960},
		{500, 4, 380, 900, 0, 960}, {500, 6, 500, 900, 0, 900}, {500, 1, 140, 960, -60, 960}, {500, 0, 140, 960, -60,
			960},
	} {
		f := onFloor(-70, -20, 970, 240)
		path := fourRuns()
		f.Laid = path[:k.laid:k.laid]
		left := f.pushTurns(path, k.over)
		if math.Abs(left-k.left) > 1e-9 || path[1].X != k.first || path[3].X != k.mid || path[5].X != k.x1 {
			t.Errorf("%g mm over, %d corners laid: %g left, turns at %g, %g and %g", k.over, k.laid, left, path[1].X,
				path[3].X,
				path[5].X)
		}
	}
}

// Drawing in takes one peg of each turn before it takes a second of any.
func TestTurnsAreDrawnInByTurns(t *testing.T) {
	for _, k := range []struct {
		over           float64
		laid           int
		left           float64
		first, mid, x1 float64
	}{
		{-59, 2, -59, 900, 0, 900}, {-60, 2, 0, 900, 0, 870}, {-119, 2, -59, 900, 0, 870}, {-120, 2, 0, 900, 30, 870},
		{-190, 2, -10, 900, 30, 840}, {-240, 2, 0, 900, 60, 840}, {-120, 4, 0, 900, 0, 840}, {-120, 6, -120, 900, 0,
			900},
		{0, 2, 0, 900, 0, 900}, {-180, 1, 0, 870, 30, 870}, {-180, 0, 0, 870, 30, 870},
	} {
		f := onFloor(-70, -20, 970, 240)
		path := fourRuns()
		f.Laid = path[:k.laid:k.laid]
		left := f.drawTurns(path, k.over)
		if math.Abs(left-k.left) > 1e-9 || path[1].X != k.first || path[3].X != k.mid || path[5].X != k.x1 {
			t.Errorf("%g mm over, %d corners laid: %g left, turns at %g, %g and %g", k.over, k.laid, left, path[1].X,
				path[3].X,
				path[5].X)
		}
	}
	// Both turns draw the third run in, of 900 mm, to the 60 mm that a turn back takes: 28
	// pegs of 60 mm in all are drawn, whatever is asked for.
	f := onFloor(-70, -20, 970, 240)
	path := fourRuns()
	f.Laid = path[:2:2]
	if left := f.drawTurns(path, -1e5); left != -1e5+28*60 {
		t.Errorf("%g mm drawn in", left+1e5)
	}
}

// The three runs are 2820 mm long less four bends. An end lies on a leg, a millimetre and
// more behind its bend of 15 mm, else on the leg before.
func TestWhereAPathEndsByItsLength(t *testing.T) {
	path := threeRuns().plan
	all := 2820 - 4*saved
	for _, k := range []struct {
		length float64
		want   []plane.Point
	}{
		{all, path}, {all + 0.0005, path}, {all + 0.01, nil}, {all - 100, hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0,
			120, 800, 120)},
		{all - 900 + 16.1, hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 16.1, 120)},
		{all - 900 + 15.9, nil}, // in the bend
		{1860 - 2*saved, hand.Points(0, 0, 900, 0, 900, 60, 0, 60)},
		{1860 - 2*saved - 500, hand.Points(0, 0, 900, 0, 900, 60, 500, 60)},
		{500, hand.Points(0, 0, 500, 0)}, {16.1, hand.Points(0, 0, 16.1, 0)}, {15.9, nil},
	} {
		got := endAt(slices.Clone(path), 15, k.length)
		if k.want == nil && got != nil || !samePath(got, k.want) {
			t.Errorf("%g mm: %v, want %v", k.length, got, k.want)
		}
		if got != nil && math.Abs(route.Length(got, 15)-k.length) > 1e-3 {
			t.Errorf("%g mm: ends at %g", k.length, route.Length(got, 15))
		}
	}
}

// An end that would fall into a bend, where no leg ends, has one turn more moved by a peg:
// the cable then ends 60 mm of it sooner or later.
func TestAnEndInABendMovesATurn(t *testing.T) {
	f := onFloor(-40, -20, 940, 140)
	f.Laid = f.plan[:2]
	at := 2820 - 4*saved - 900 + 10 // 10 mm into the last leg, where its bend is 15
	path := slices.Clone(f.plan)
	got := f.endBent(path, at)
	if got == nil || math.Abs(route.Length(got, 15)-at) > 1e-3 || path[3].X != -30 || len(got) != 5 {
		t.Errorf("pushed out: %v, turn at %g", got, path[3].X)
	}
	f = onFloor(-20, -20, 920, 140) // no room outwards
	f.Laid = f.plan[:2]
	path = slices.Clone(f.plan)
	want := hand.Points(0, 0, 900, 0, 900, 60, 30, 60, 30, 120, 70, 120)
	if got = f.endBent(path, at); !samePath(got, want) {
		t.Errorf("drawn in: %v, want %v", got, want)
	}
	if f.Laid = f.plan[:5]; f.endBent(slices.Clone(f.plan), at) != nil {
		t.Error("what is laid has no turn to move")
	}
	f.Laid = f.plan[:5]
	if got := f.endBent(slices.Clone(f.plan), 2820-4*saved-100); len(got) != 6 {
		t.Errorf("on the last leg, with no turn to move: %v", got)
	}
	f.Laid = f.plan[:0:0]
	if path := f.plan[:3:3]; f.pushOne(path, 30) {
		t.Error("a path of two legs has no turn")
	}
	f.Laid, f.Planned.Return = f.plan[:2], f.plan
	if got := f.endBent(slices.Clone(f.plan), 1500); got != nil {
		t.Errorf("a cable with two cold ends ends on its last leg: %v", got)
	}
	if got := f.endBent(slices.Clone(f.plan), 2500); len(got) != 6 {
		t.Errorf("%v", got)
	}
	f.Planned.Return, f.Laid = nil, f.plan[:5]
	if got := f.endBent(slices.Clone(f.plan), 1500); got != nil {
		t.Errorf("ends before what is laid: %v", got)
	}
}

// What is over goes into turns by 60 mm, and the rest is taken off the end: 30 mm over
// push one turn, and the end comes 30 mm sooner.
func TestThePlanIsBentToTheCable(t *testing.T) {
	all := 2820 - 4*saved
	for _, k := range []struct {
		name   string
		floor  [2]float64
		length float64
		want   []plane.Point
	}{
		{"30 mm more", [2]float64{-40, 940}, all + 30, hand.Points(0, 0, 900, 0, 900, 60, -30, 60, -30, 120, 870, 120)},
		{"60 mm more", [2]float64{-40, 940}, all + 60, hand.Points(0, 0, 900, 0, 900, 60, -30, 60, -30, 120, 900, 120)},
		{"30 mm less", [2]float64{-40, 940}, all - 30, hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 870, 120)},
		{"no turn can go out", [2]float64{-20, 920}, all + 15, hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 915,
			120)},
		{"nor the end", [2]float64{-20, 920}, all + 25, nil},
	} {
		f := onFloor(k.floor[0], -20, k.floor[1], 140)
		f.Laid = f.plan[:2]
		if got := f.bentTo(k.length); !samePath(got, k.want) {
			t.Errorf("%s: %v, want %v", k.name, got, k.want)
		}
	}
	f := onFloor(-40, -20, 940, 140)
	f.Laid, f.Planned.Return = f.plan[:2], f.plan[:2]
	// with a second cold end the last leg stays as long as it can: turns are drawn in first
	want := hand.Points(0, 0, 900, 0, 900, 60, 30, 60, 30, 120, 890, 120)
	if got := f.bentTo(all - 70); !samePath(got, want) {
		t.Errorf("two cold ends: %v, want %v", got, want)
	}
	f = onFloor(-20, -20, 920, 140)
	f.Laid = f.plan[:2]
	f.Planned.Label.Watts, f.Planned.Label.Length, f.Job.Supply.MaxDensity = 28, 2800, 20/0.150
	if got := f.bentTo(all + 15); got != nil {
		t.Errorf("the last leg goes on against the power limit: %v", got)
	}
}

// bentRoute holds what it bends against the rules: here with the cable 30 mm longer than
// the plan, whose turn at x = 0 then goes out by a peg.
func TestABentRouteKeepsTheRules(t *testing.T) {
	f := onFloor(-40, -20, 940, 140)
	f.Laid, f.Runs, f.Planned.Label.Length = f.plan[:2], 1, 2820-4*saved+30
	want := hand.Points(0, 0, 900, 0, 900, 60, -30, 60, -30, 120, 870, 120)
	rt := f.bentRoute()
	if rt == nil || !samePath(rt.Path, want) || rt.Return != nil {
		t.Fatalf("%+v", rt)
	}
	f.Planned.Spacing = 60
	if r := f.bent(); r == nil || r.change.From != 2 || r.change.Runs != 2 {
		t.Errorf("%+v", r)
	}
	// of a floor of 600 by 1000 mm, 15 % and more lie out of its reach that did not
	f.Planned.Laid.Planned = hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 900, 120, 900, 500, 0, 500)
	f.Planned.Share = plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 520)))
	if r := f.bent(); r != nil {
		t.Errorf("a seventh of the floor and more goes cold: %+v", r.change)
	}
	f.Planned.Laid.Planned = f.plan
	if f.bent() == nil {
		t.Error("nothing goes cold that was warm")
	}
	f.Room.Zones = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(-40, -20), plane.Pt(940, 100)))}
	if f.bent() != nil {
		t.Error("the plan's last run lies off its zone")
	}
	f.bare.Closest = 3
	if f.bentRoute() != nil {
		t.Error("runs two pegs apart where three are asked for")
	}
	if f.plan = nil; f.bent() != nil {
		t.Error("without a plan that goes on there is nothing to bend")
	}
}

func TestALegLiesOnItsFloor(t *testing.T) {
	f := onFloor(-20, -20, 920, 140)
	path := slices.Clone(f.plan)
	for end, want := range map[float64]bool{900: true, 920: true, 920.4: true, 920.6: false} {
		if path[5].X = end; f.free(path, 5) != want {
			t.Errorf("the last leg to %g: free %v", end, !want)
		}
	}
	for y, want := range map[float64]bool{120: true, 119.6: true, 119.4: false} {
		path := hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, y, 900, y)
		if f.free(path, 5) != want {
			t.Errorf("the last run at %g, the one before at 60: free %v", y, !want)
		}
	}
	if got := f.turnBack(); got != 60-layout.SamePeg/2 {
		t.Errorf("turns back in %g mm", got)
	}
	if f.links() != 240 {
		t.Errorf("links of %g mm", f.links())
	}
	f.Room.Cables = append(f.Room.Cables, layout.Cable{ID: "H2", Path: f.plan[:3], ColdLead: f.plan[:2],
		Return: f.plan[:4]})
	f.Planned = &f.Room.Cables[0]
	f.Planned.ColdLead = f.plan[:5]
	cables, leads := f.lying()
	if len(cables) != 1 || len(cables[0]) != 3 || len(leads) != 3 || len(leads[0]) != 5 || len(leads[1]) != 2 ||
		len(leads[2]) != 4 {
		t.Errorf("cables %v, leads %v", cables, leads)
	}
}

// The router is told of a cable that is used up a tenth faster than drawn: it gives a tenth more
// heat a metre of way, and as much less of it is left.
func TestTheProblemOfARest(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.Planned.Label.Watts, f.Planned.LeadReach = 28, -5 // 10 W/m of 2.8 m
	f.Rate, f.Job.Supply.MaxDensity = 1.1, 150
	c := f.problem().Cables[0]
	if math.Abs(c.WattsPerMetre-11) > 1e-9 || math.Abs(c.Length-2800/1.1) > 1e-9 || c.MaxDensity != 150 ||
		c.LeadReach != 0 || c.ID != "H1" {
		t.Errorf("%+v", c)
	}
}

// Most of the plan's cable tells the way its runs lie, whichever way the first does.
func TestTheWayThatRunsLie(t *testing.T) {
	for _, k := range []struct {
		path []float64
		want float64 // degrees, either way
	}{
		{[]float64{0, 0, 900, 0, 900, 60, 0, 60}, 0}, {[]float64{0, 0, 0, 900, 60, 900, 60, 0}, 90},
		{[]float64{0, 0, 300, 0, 300, 900, 360, 900, 360, 0}, 90},
		{[]float64{0, 0, 0, 300, 900, 300, 900, 360, 0, 360}, 0},
	} {
		f := threeRuns()
		f.Old = layout.Runs(hand.Points(k.path...), 15, route.Lattice{Pitch: 30})
		if got := f.along(); math.Abs(math.Sin(got-k.want*math.Pi/180)) > 1e-9 {
			t.Errorf("%v: %g degrees", k.path, got*180/math.Pi)
		}
	}
	f := threeRuns()
	if f.Old = nil; f.along() != 0 {
		t.Errorf("of no runs: %g", f.along())
	}
}

// Legs follow the rows of pegs to within a millimetre, however the rows lie.
func TestLegsThatFollowTheRows(t *testing.T) {
	grid := route.Lattice{Pitch: 30}
	for _, k := range []struct {
		path []float64
		want bool
	}{{[]float64{0, 0, 900, 0, 900, 60}, true}, {[]float64{0, 0, 900, 0.9}, true}, {[]float64{0, 0, 900, 1.1}, false},
		{[]float64{0, 0, 30, 30}, false}, {[]float64{0, 0}, true}} {
		if got := alongPegs(hand.Points(k.path...), grid); got != k.want {
			t.Errorf("%v: %v", k.path, got)
		}
	}
	grid.Angle = math.Pi / 4
	if !alongPegs(hand.Points(0, 0, 30, 30, 60, 0), grid) || alongPegs(hand.Points(0, 0, 30, 0), grid) {
		t.Error("rows at 45 degrees")
	}
}
