package refit

import (
	"math"
	"slices"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// The pegs of the two gaps: 10 W/m twice under 100 W/m² are 200 mm, in pegs of 30 mm 7; a
// half millimetre is forgiven; the closest gap asks for 4.
func TestPegsOverTwoGaps(t *testing.T) {
	for _, k := range []struct {
		limit, rate float64
		pegs        int
		hotter      bool
	}{{0, 1.1, 4, false}, {100, 1, 7, false}, {100, 1.05, 7, false}, {100, 1.052, 7, false}, {100, 1.053, 8, true},
		{100, 0.9, 6, false}, {1000, 1, 4, false}, {1000, 1.1, 4, false}} {
		f := threeRuns()
		f.Planned.Label.Watts, f.Job.Supply.MaxDensity, f.Rate = 28, k.limit, k.rate
		if got := f.twoGaps(f.Rate); got != k.pegs || f.hotter() != k.hotter {
			t.Errorf("limit %g, rate %g: %d pegs, hotter %v", k.limit, k.rate, got, f.hotter())
		}
	}
}

// serpentine is a plan of n runs of 900 mm, 60 mm apart.
func serpentine(n int) (path []plane.Point) {
	for i := range n {
		x, y := 900*float64(i%2), 60*float64(i)
		path = append(path, plane.Pt(x, y), plane.Pt(900-x, y))
	}
	return path
}

// planOf lays threeRuns by another plan, of which the first run lies.
func planOf(path []plane.Point) *Refit {
	f := threeRuns(0, 0, 900, 0)
	f.plan, f.Old = path, layout.Runs(path, 15, route.Lattice{Pitch: 30})
	f.Planned.Laid.Planned = path
	f.Planned.Label.Length = route.Length(path, 15) + 6
	f.Room.Zones = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(-20, -20), plane.Pt(920, 2000)))}
	return f
}

// Steps back from the last run grow as 1, 1, 2, 3, 5. Runs beyond the cable's length, or
// off the floor, can't be kept.
func TestHowManyRunsAreTriedToBeKept(t *testing.T) {
	f := planOf(serpentine(10))
	check := func(what string, want ...int) {
		t.Helper()
		if got := f.keeps(); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	check("ten runs", 10, 9, 8, 6, 3, 1)
	f.Runs = 4
	check("four laid", 10, 9, 8, 6, 4)
	f.Runs = 1
	f.Planned.Label.Length = 8*900 + 7*60 - 14*saved + 1 // eight runs and a millimetre
	check("cable for eight", 8, 7, 6, 4, 1)
	f.Planned.Label.Length = route.Length(f.plan[:16], 15)
	check("cable for just eight", 7, 6, 5, 3, 1)
	f.Planned.Label.Length -= 2
	check("cable for less", 7, 6, 5, 3, 1)
	f.Planned.Label.Length = 1e5
	f.Room.Zones = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(-20, -20), plane.Pt(920, 330)))}
	check("floor for six", 6, 5, 4, 2, 1)
	f.plan = nil
	check("no plan goes on", 1)
	f.plan = serpentine(10)
	for n, corners := range map[int]int{0: 2, 1: 2, 2: 4, 3: 6, 10: 20} {
		if got := len(f.head(n)); got != corners {
			t.Errorf("run %d ends at corner %d, want %d", n, got, corners)
		}
	}
}

// How many runs lie well: those that are laid are there.
func TestHowManyRunsLieWell(t *testing.T) {
	for _, k := range []struct {
		top  float64 // of the zone
		laid int
		want int
	}{{140, 0, 3}, {119.6, 0, 3}, {119.4, 0, 2}, {100, 0, 2}, {100, 1, 2}, {100, 2, 2}, {100, 3, 3}, {59, 0, 1}, {59,
		2, 2},
		{-1, 0, 0}} {
		f := threeRuns()
		f.Room.Zones = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(-20, -20), plane.Pt(920, k.top)))}
		f.Runs = k.laid
		if got := f.sound(f.plan); got != k.want {
			t.Errorf("floor up to %g, %d laid: %d runs, want %d", k.top, k.laid, got, k.want)
		}
	}
	f := threeRuns() // run 1 lies off the floor, and is laid
	f.Room.Zones = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(-20, 30), plane.Pt(920, 140)))}
	if f.Runs = 1; f.sound(f.plan) != 1 {
		t.Errorf("the turn behind run 1 begins off the floor: %d runs", f.sound(f.plan))
	}
	f.Room.Zones = []plane.Region{plane.FromRing(plane.Ring(hand.Points(-20, 30, 850, 30, 850, -10, 920, -10, 920,
		140, -20, 140)))}
	if f.sound(f.plan) != 3 {
		t.Errorf("behind the laid run all lies on the floor: %d runs", f.sound(f.plan))
	}
	f = threeRuns() // a turn that swings out of the floor, between two runs in it
	path := hand.Points(0, 0, 910, 0, 910, 30, 930, 30, 930, 60, 0, 60, 0, 120, 900, 120)
	if got := f.sound(path); got != 1 {
		t.Errorf("%d runs, of which the second begins behind a turn off the floor", got)
	}
	for both, want := range map[float64]int{120: 3, 121: 1} { // run 2 has 60 mm to either side
		f := threeRuns()
		f.Job.Spacing.Widest = 4
		f.Planned.Label.Watts, f.Job.Supply.MaxDensity = 28, 20/both*1000
		if got := f.sound(f.plan); got != want {
			t.Errorf("%g mm asked for: %d runs, want %d", both, got, want)
		}
		if f.Runs = 2; f.sound(f.plan) != 3 {
			t.Error("runs 1 and 2 are laid, and run 3 has a neighbour on one side only")
		}
	}
}

func TestWhichRunsDiffer(t *testing.T) {
	for _, k := range []struct {
		path    []plane.Point
		from, n int
	}{
		{serpentine(3), 0, 0}, {serpentine(2), 3, 1}, {serpentine(5), 4, 2}, {serpentine(1), 2, 2},
		{hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 898.9, 120), 3, 1},
		{hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 899.1, 120), 0, 0},
		{hand.Points(0, 0, 930, 0, 930, 60, 0, 60, 0, 120, 900, 120), 1, 2},
		{hand.Points(0, 0, 900, 0, 900, 60, -30, 60, -30, 120, 900, 120), 2, 2},
		{hand.Points(-2, 0, 900, 0, 900, 60, 0, 60, 0, 120, 900, 120), 1, 1},
	} {
		if from, n := threeRuns().changed(k.path); from != k.from || n != k.n {
			t.Errorf("%v: from %d, %d differ; want %d, %d", k.path, from, n, k.from, k.n)
		}
	}
	f := threeRuns()
	f.plan = nil
	f.Old = f.Old[:2]
	if from, n := f.changed(serpentine(3)); from != 3 || n != 1 {
		t.Errorf("against the old plan: from %d, %d differ", from, n)
	}
}

// Cable 60 mm apart on pegs of 30 warms 45 mm to either side. Without the third run, at 120,
// floor from 105 to 165 mm goes cold: 900 x 60 mm of 900 x 210, and with one run that
// changes the score is 1 + 4 a per cent.
func TestWhatARestChanges(t *testing.T) {
	f := threeRuns()
	f.Planned.Spacing = 60
	f.Planned.Share = plane.FromRing(plane.Rectangle(plane.Pt(0, -45), plane.Pt(900, 165)))
	f.Room.Floor = plane.FromRing(plane.Rectangle(plane.Pt(-100, -100), plane.Pt(1000, 300)))
	whole := f.weigh(route.Route{Path: f.plan}).change
	if whole.From != 0 || whole.Runs != 0 || whole.Cold != 0 || whole.Score != 0 || whole.Doorway {
		t.Errorf("as planned: %+v", whole)
	}
	less := f.weigh(route.Route{Path: f.plan[:4]})
	near(t, "cold, mm²", less.change.Cold, 900*60, 1)
	near(t, "cold share", less.coldShare(f), 60./210, 1e-5)
	near(t, "score", less.change.Score, 1+400*60./210, 0.01)
	if less.change.From != 3 || less.change.Runs != 1 {
		t.Errorf("%+v", less.change)
	}
	was := f.Planned.Laid.Planned
	f.Planned.Laid.Planned = f.plan[:2] // more is warmed than was
	if got := f.weigh(route.Route{Path: f.plan[:4]}).change.Cold; got != 0 {
		t.Errorf("%g mm² have gone cold", got)
	}
	f.Planned.Laid.Planned = was
	// a shower that is warmed lies about (0, 60), where the path of two runs ends
	f.Room.Job.Fixtures = []job.Fixture{{Heated: true, Outline: plane.Rectangle(plane.Pt(-50, 40), plane.Pt(50, 80))}}
	less = f.weigh(route.Route{Path: f.plan[:4]})
	near(t, "score with the end cap in it", less.change.Score, 1+400*60./210+10, 0.01)
	if !less.change.Doorway {
		t.Error("the end cap lies in a shower")
	}
	if f.weigh(route.Route{Path: f.plan[:4], Return: f.plan}).change.Doorway {
		t.Error("a cable with two cold ends has no end cap")
	}
	if f.Planned.Laid.Planned = f.plan[:4]; f.weigh(route.Route{Path: f.plan[:4]}).change.Doorway {
		t.Error("the end cap was there before")
	}
}

// What counts as read as drawn: a peg of 30 mm, or half a per cent.
func TestWhatAMarkMayBeOff(t *testing.T) {
	for _, k := range []struct {
		early, drift float64
		want         bool
	}{{0, 0, true}, {30, 1, true}, {-30, 1, true}, {30.1, 0.0051, false}, {-30.1, -0.0051, false}, {100, 0.005, true},
		{100, -0.005, true}} {
		f := threeRuns(0, 0, 900, 0)
		if f.Early, f.Drift = k.early, k.drift; f.tolerated() != k.want {
			t.Errorf("%g mm, %g: tolerated %v", k.early, k.drift, !k.want)
		}
	}
	if threeRuns().tolerated() {
		t.Error("nothing is laid")
	}
	f := threeRuns(0, 0, 900, 0)
	if f.plan = nil; f.tolerated() {
		t.Error("no plan goes on")
	}
	f = threeRuns(0, 0, 900, 0)
	if f.Planned.Return = f.plan; f.tolerated() {
		t.Error("two cold ends")
	}
}

// The last leg alone takes what is over: half a peg anywhere, more on its floor only.
func TestThePlanEndsWhereTheCableDoes(t *testing.T) {
	all := 2820 - 4*saved
	for _, k := range []struct {
		over, top float64
		end       float64 // of the last leg; 0: it finds no place
	}{{0, 920, 900}, {-100, 920, 800}, {14, 890, 914}, {15, 890, 915}, {15.1, 890, 0}, {20, 920, 920}, {21, 920, 0},
		{-890, 920, 0}} {
		f := onFloor(-20, -20, k.top, 140)
		f.Room.Zones = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(-20, -20), plane.Pt(920, 140)))}
		f.Laid, f.Runs = f.plan[:2], 1
		f.Planned.Label.Length = all + k.over
		rt := f.asPlanned()
		if (rt == nil) != (k.end == 0) || rt != nil && math.Abs(rt.Path[len(rt.Path)-1].X-k.end) > 1e-6 {
			t.Errorf("%g mm over: %+v, want its end at %g", k.over, rt, k.end)
		}
	}
	f := onFloor(-20, -20, 920, 140)
	f.Planned.Label.Length = all - 1500
	if f.Laid = f.plan[:5]; f.asPlanned() != nil {
		t.Error("the cable ends before what is laid")
	}
	f.Planned.Label.Length = all
	f.Room.Zones = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(-20, -20), plane.Pt(920, 100)))}
	if f.asPlanned() != nil {
		t.Error("run 3 lies off its floor")
	}
}

// Cable used over a way: a tenth more, and the slip of 50 mm from its mark on, where 1000
// mm of way were covered.
func TestCableUsedOverAWay(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.Rate, f.Slip, f.found = 1.1, 50, 1000
	for way, want := range map[float64]float64{0: 0, 998: 1097.8, 999: 1098.9, 999.5: 1149.45, 1000: 1150, 2000: 2250} {
		near(t, "used", f.usedAt(way), want, 1e-9)
	}
	f.Laid = nil
	near(t, "used with nothing laid", f.usedAt(2000), 2200, 1e-9)
}

// Marks stand at quarters of the cable's length, 700 mm each; behind the slip of 30 mm each
// comes 30 mm of way sooner. The second run begins where 960 mm are less one and a half
// bends; its tangent point is at 15 mm from its corner.
func TestMarksOfARest(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.Slip, f.found = 30, 1000
	c := &layout.Cable{Path: f.plan, BendRadius: 15, Runs: f.Old, Marks: make([]layout.Mark, 3)}
	f.placeMarks(c)
	for i, want := range []struct{ along, way float64 }{{700, 700}, {1400, 1370}, {2100, 2070}} {
		near(t, "a mark's cable", c.Marks[i].Along, want.along, 1e-9)
		at := map[int]plane.Point{0: plane.Pt(700, 0), 1: plane.Pt(900-(1370-960+2*saved), 60),
			2: plane.Pt(2070-1920+4*saved, 120)}[i]
		if c.Marks[i].At.Dist(at) > 1e-6 {
			t.Errorf("mark %d at %v, want %v", i, c.Marks[i].At, at)
		}
		start := []float64{0, 960 - 1.5*saved, 1920 - 3.5*saved}[i]
		near(t, "into its run", c.Marks[i].Into, want.way-start, 1e-6)
		if c.Marks[i].Run != i+1 {
			t.Errorf("mark %d on run %d", i, c.Marks[i].Run)
		}
	}
	f.Slip, f.Rate = 0, 0.5 // the cable reaches farther than the path
	f.placeMarks(c)
	if c.Marks[2].At.Dist(plane.Pt(900, 120)) > 1e-6 {
		t.Errorf("a mark beyond the end at %v", c.Marks[2].At)
	}
	f.Rate, f.found = 1, 0
	f.New = c
	for run, want := range map[int]float64{0: 0, 1: 0, 2: 900 - saved/2, 3: 1860 - 2.5*saved} {
		near(t, "way before a run", f.WayBefore(run), want, 1e-6)
	}
}

// Most of the cable lies along: of a plan that begins with a run across, the others count.
func TestTheDirectionOfAPlan(t *testing.T) {
	for _, k := range []struct {
		path []plane.Point
		want float64 // degrees, to a half turn
	}{{serpentine(3), 0}, {hand.Points(0, -300, 0, 0, 900, 0, 900, 60, 0, 60), 0},
		{hand.Points(0, 0, 300, 0, 300, 900, 360, 900, 360, 0), 90}, {hand.Points(0, 0, 300, 300, 240, 360), 45}} {
		f := threeRuns()
		f.Old = layout.Runs(k.path, 15, route.Lattice{Pitch: 30})
		if off := math.Abs(math.Sin(f.along() - k.want*math.Pi/180)); off > 1e-9 {
			t.Errorf("%v lies along %g degrees", k.path, f.along()*180/math.Pi)
		}
	}
	grid := route.Lattice{Pitch: 30, Angle: math.Pi / 6}
	for _, k := range []struct {
		to   plane.Point
		want bool
	}{{plane.Pt(300, 0), true}, {plane.Pt(0, 300), true}, {plane.Pt(300, 0.9), true}, {plane.Pt(300, 1.1), false},
		{plane.Pt(100, 100), false}, {plane.Pt(-1.1, 300), false}} {
		if got := alongPegs([]plane.Point{{}, k.to.Rotate(grid.Angle)}, grid); got != k.want {
			t.Errorf("%v along the rows: %v", k.to, got)
		}
	}
}

// A floor of 1 m² loses 20 mm along a lead across it and 120 mm along another cable at the
// closest gap of two pegs.
func TestTheFloorThatIsLeft(t *testing.T) {
	across := func(y float64) []plane.Point { return []plane.Point{plane.Pt(-100, y), plane.Pt(1100, y)} }
	for _, k := range []struct {
		name string
		set  func(f *Refit)
		want float64
	}{
		{"nothing", func(f *Refit) {}, 1e6},
		{"its lead, not laid", func(f *Refit) { f.Planned.ColdLead = across(500) }, 1e6},
		{"its lead", func(f *Refit) { f.Planned.ColdLead, f.Laid = across(500), f.plan[:2] }, 1e6 - 20_000},
		{"another cable", func(f *Refit) { f.add(layout.Cable{Path: across(500)}) }, 1e6 - 120_000},
		{"with its leads", func(f *Refit) {
			f.add(layout.Cable{Path: across(500), ColdLead: across(200), Return: across(800)})
		}, 1e6 - 160_000},
		{"laid in part", func(f *Refit) {
			f.add(layout.Cable{Path: across(500), Laid: &layout.Laid{Path: across(990)}})
		}, 1e6 - 120_000},
		{"laid elsewhere", func(f *Refit) {
			f.add(layout.Cable{Path: across(500), Laid: &layout.Laid{Path: across(990), Whole: true}})
		}, 1e6 - 70_000},
		{"far off", func(f *Refit) { f.add(layout.Cable{Path: across(5000)}) }, 1e6},
		{"beside it", func(f *Refit) { f.add(layout.Cable{Path: across(1050)}) }, 1e6 - 10_000},
		{"its zone", func(f *Refit) { f.Planned.Share = nil }, 940 * 160},
	} {
		f := threeRuns()
		f.Planned = &f.Room.Cables[0]
		f.Planned.Share = plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000)))
		k.set(f)
		floor, err := f.ownFloor()
		if err != nil {
			t.Fatal(err)
		}
		near(t, k.name, floor.Area(), k.want, 1)
	}
}

// add adds a cable to the room of the one that is planned.
func (f *Refit) add(c layout.Cable) {
	f.Room.Cables = append(f.Room.Cables, c)
	f.Planned = &f.Room.Cables[0]
}

// The cable as it is drawn: 10 W/m at 80 mm are 125 W/m², and its laid lead goes with its
// start where the pegs have.
func TestTheCableOfARest(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.Job.Membrane.BendRadius = 15
	f.Planned.ID, f.Planned.Zone, f.Planned.Label.Watts, f.Rate = "H7", 0, 28, 1.02
	f.Planned.ColdLead = hand.Points(-100, 0, 0, 0)
	all := 2820 - 4*saved
	f.Planned.Share = plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 600)))
	c := f.cable(route.Route{Path: f.plan, ColdLead: hand.Points(5, 5, 0, 0)})
	spacing := 900 * 600 / (all - 1500)
	near(t, "spacing", c.Spacing, spacing, 1e-6)
	near(t, "density", c.Density, 1.02*10/spacing*1000, 1e-6)
	near(t, "the first run's end", c.Runs[0].RunningEnd, 1.02*(900-saved/2), 1e-6)
	near(t, "the second run's end", c.Runs[1].RunningEnd, 1.02*(1860-2.5*saved), 1e-6)
	if c.ID != "H7" || c.Number != 7 || !samePath(c.ColdLead, f.Planned.ColdLead) {
		t.Errorf("%s, %d, its lead %v", c.ID, c.Number, c.ColdLead)
	}
	moved := plane.Moved(f.plan, plane.Pt(3, 4))
	if c = f.cable(route.Route{Path: moved}); !samePath(c.ColdLead, hand.Points(-100, 0, 3, 4)) {
		t.Errorf("the lead ends at %v", c.ColdLead)
	}
	if !samePath(f.Planned.ColdLead, hand.Points(-100, 0, 0, 0)) {
		t.Error("the plan's lead was changed")
	}
	f.Laid = nil
	if c = f.cable(route.Route{Path: f.plan, ColdLead: hand.Points(5, 5, 0, 0)}); len(c.ColdLead) != 2 ||
		c.ColdLead[0].X != 5 {
		t.Errorf("with nothing laid the lead is the route's: %v", c.ColdLead)
	}
}
