package refit

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

func near(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s: %g, want %g", what, got, want)
	}
}

// Along the rounded line the bend at (900, 0) has its middle half of what it saves before
// 900 mm, the next two where 960 and 1860 mm are less one and a half and two and a half.
func TestWhereAMarkLies(t *testing.T) {
	two := []float64{0, 0, 900, 0, 900, 60, 0, 60}
	for _, k := range []struct {
		laid []float64
		run  int
		pegs float64
		want float64 // mm of way
		runs int     // laid by then
	}{
		{two, 1, 10, 300, 2}, {two, 1, 30, 900 - saved/2, 2}, {two, 1, 31, 900 - saved/2, 2},
		{two, 2, 10, 1260 - 1.5*saved, 2}, {two, 2, 30, 1860 - 2.5*saved, 2}, {two, 2, 0, 960 - 1.5*saved, 2},
		{two, 3, 10, 2220 - 4*saved, 3}, {two, 3, 0, 1920 - 3*saved, 3}, {two, 3, 30, 2820 - 4*saved, 3}, {two, 3, 1,
			1950 - 4*saved, 3},
		{two[:4], 2, 5, 1110 - 2*saved, 2},
	} {
		f := threeRuns(k.laid...)
		rs := layout.Runs(f.Laid, 15, pegs30)
		f.Runs = len(rs)
		got, err := f.place(job.LaidMark{Run: k.run, Pegs: k.pegs}, rs, f.plan)
		if err != nil || math.Abs(got-k.want) > 1e-6 || f.Runs != k.runs {
			t.Errorf("%g pegs into run %d: %g with %d runs laid, %v; want %g with %d", k.pegs, k.run, got, f.Runs,
				err, k.want,
				k.runs)
		}
		if k.run > len(rs) && f.into != k.pegs {
			t.Errorf("run %d is laid %g pegs far", k.run, f.into)
		}
	}
	f := threeRuns(two...) // where no plan goes on, the line ends with what is laid: two bends before it
	f.plan = nil
	if got, err := f.place(job.LaidMark{Run: 2, Pegs: 30}, layout.Runs(f.Laid, 15, pegs30), nil); err != nil ||
		math.Abs(got-(1860-2*saved)) > 1e-6 {
		t.Errorf("at the end of what is laid: %g, %v", got, err)
	}
}

func TestWhereNoMarkCanLie(t *testing.T) {
	two := []float64{0, 0, 900, 0, 900, 60, 0, 60}
	for _, k := range []struct {
		run  int
		pegs float64
		plan bool
		want string
	}{
		{1, 31.1, true, "a mark is said to lie 31.1 pegs into run 1, which has 30"},
		{3, 31, true, "a mark is said to lie 31 pegs into run 3, which has 30"},
		{3, 31, false, "a mark is said to lie on run 3, but 2 runs of cable H1 are laid"},
		{3, 0, false, "a mark is said to lie on run 3, but 2 runs of cable H1 are laid"},
		{4, 1, true, "a mark is said to lie on run 4, but 2 runs of cable H1 are laid"},
	} {
		f := threeRuns(two...)
		way := f.plan
		if !k.plan {
			way, f.plan = nil, nil
		}
		_, err := f.place(job.LaidMark{Run: k.run, Pegs: k.pegs}, layout.Runs(f.Laid, 15, pegs30), way)
		if err == nil || err.Error() != k.want {
			t.Errorf("%g pegs into run %d: %v, want %q", k.pegs, k.run, err, k.want)
		}
	}
}

// Of several marks the one farthest along tells the rate; up to 15 % off is read.
func TestTheRateIsReadOffTheFarthestMark(t *testing.T) {
	mark := func(length float64, pegs float64) job.LaidMark {
		return job.LaidMark{Length: length, Run: 1, Pegs: pegs}
	}
	for _, k := range []struct {
		marks       []job.LaidMark
		rate, early float64
		says        string
	}{
		{nil, 1, 0, ""}, {[]job.LaidMark{mark(310, 10)}, 31. / 30, 10, ""}, {[]job.LaidMark{mark(290, 10)}, 29. / 30,
			-10, ""},
		{[]job.LaidMark{mark(310, 10), mark(606, 20)}, 1.01, 6, ""}, {[]job.LaidMark{mark(606, 20), mark(310, 10)},
			1.01, 6, ""},
		{[]job.LaidMark{mark(344, 10)}, 344. / 300, 44, ""}, {[]job.LaidMark{mark(256, 10)}, 256. / 300, -44, ""},
		{[]job.LaidMark{mark(360, 10)}, 1.2, 60, "used up 20 % faster than drawn"},
		{[]job.LaidMark{mark(210, 10)}, 0.7, -90, "used up 30 % slower than drawn"},
		{[]job.LaidMark{{Run: 1, Pegs: 29}}, 1400. / 870, 530, "used up 61 % faster than drawn"}, // half of 2800 mm
		{[]job.LaidMark{mark(310, 10), mark(300, 99)}, 31. / 30, 10, "99 pegs into run 1"},
	} {
		f := threeRuns(0, 0, 900, 0)
		err := f.Read(k.marks)
		if (err == nil) != (k.says == "") || err != nil && !strings.Contains(err.Error(), k.says) {
			t.Errorf("%+v: %v, want %q", k.marks, err, k.says)
		}
		near(t, "rate", f.Rate, k.rate, 1e-9)
		near(t, "early", f.Early, k.early, 1e-9)
		if f.Runs != 1 {
			t.Errorf("%d runs laid", f.Runs)
		}
	}
}

// standingOf is what a record of a path laid of threeRuns, with marks, is read as.
func standingOf(once bool, length float64, laid []float64, marks ...job.LaidMark) (*Refit, error) {
	f := threeRuns(laid...)
	c := f.Planned
	c.Label.Length, c.Laid.Path, c.Laid.Job.Marks = length, f.Laid, marks
	f.Room.Cables = []layout.Cable{*c}
	return standing(&layout.Plan{Job: f.Job, Code: "NOW"}, f.Room, &f.Room.Cables[0], once)
}

// Two runs laid are 1860 mm less two bends of way, the plan 2820 less four. With 310 mm of
// cable over 300 of way, a drift takes a thirtieth more of all, one slip 10 mm.
func TestWhereLayingStands(t *testing.T) {
	two, way, all := []float64{0, 0, 900, 0, 900, 60, 0, 60}, 1860-2*saved, 2820-4*saved
	mark := job.LaidMark{Length: 310, Run: 1, Pegs: 10}
	for _, k := range []struct {
		name                         string
		once                         bool
		marks                        []job.LaidMark
		rate, slip, used, miss, late float64
	}{
		{"no mark", false, nil, 1, 0, way, all - 2800, 0},
		{"a drift", false, []job.LaidMark{mark}, 31. / 30, 0, way * 31 / 30, all*31/30 - 2800, 1. / 30},
		{"one slip", true, []job.LaidMark{mark}, 1, 10, way + 10, all + 10 - 2800, 1. / 30},
	} {
		f, err := standingOf(k.once, 2800, two, k.marks...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, k.name+": rate", f.Rate, k.rate, 1e-9)
		near(t, k.name+": slip", f.Slip, k.slip, 1e-9)
		near(t, k.name+": way", f.Way, way, 1e-6)
		near(t, k.name+": used", f.Used, k.used, 1e-6)
		near(t, k.name+": left", f.Left, 2800-k.used, 1e-6)
		near(t, k.name+": miss", f.Miss, k.miss, 1e-6)
		near(t, k.name+": drift", f.Drift, k.late, 1e-9)
		near(t, k.name+": the whole cable's way", f.whole(), (2800-k.slip)/k.rate, 1e-6)
	}
	f, err := standingOf(false, 2800, []float64{0, 0, 900, 0, 900, 200, 0, 200}) // off the plan
	if err != nil || f.Miss != 0 || f.plan != nil {
		t.Errorf("misses by %g, %v", f.Miss, err)
	}
	if _, err := standingOf(false, way-1, two); err == nil || !strings.Contains(err.Error(),
		"ends before its 2 laid runs do") {
		t.Errorf("a cable shorter than what is laid: %v", err)
	}
	if _, err := standingOf(false, way+1, two); err != nil {
		t.Errorf("a cable longer than what is laid: %v", err)
	}
	if f, err := standingOf(false, 2800, two[:4]); err != nil || f.Runs != 1 {
		t.Errorf("one run laid: %v", err)
	}
	at := plane.Pt(0, 0)
	f = threeRuns()
	f.Planned.Laid.Job.FirstPeg = &at
	if got, err := standing(&layout.Plan{Job: f.Job}, f.Room, f.Planned, false); err != nil || got.Left != 2800 ||
		got.Laid != nil {
		t.Errorf("nothing laid, the pegs known: %+v, %v", got, err)
	}
	f.Planned.Laid.Job.FirstPeg = nil
	if _, err := standing(&layout.Plan{Job: f.Job}, f.Room, f.Planned, false); err == nil || !strings.Contains(
		err.Error(), "neither what is laid nor where the pegs lie") {
		t.Errorf("nothing known: %v", err)
	}
	f.Planned.Laid.Whole = true
	if _, err := standing(&layout.Plan{Job: f.Job}, f.Room, f.Planned, false); err == nil || !strings.Contains(
		err.Error(), "nothing is left to plan") {
		t.Errorf("laid to its end: %v", err)
	}
}

// Run 1 laid two pegs short, and run 2 with its own: all that follows is counted on 60 mm
// farther west.
func TestCountingOnAfterAMiscount(t *testing.T) {
	f := threeRuns(0, 0, 840, 0, 840, 60, -60, 60)
	f.drawn, f.plan = f.plan, nil
	if f.miscounted() {
		t.Error("no run is said to be miscounted")
	}
	if f.counted() != nil {
		t.Error("no plan goes on")
	}
	f.Planned.Laid.Job.Miscounts = []job.Miscount{{Run: 1, Pegs: 28}}
	want := hand.Points(0, 0, 840, 0, 840, 60, -60, 60, -60, 120, 840, 120)
	if got := f.counted(); !f.miscounted() || !samePath(got, want) {
		t.Errorf("counted on along %v, want %v", got, want)
	}
	if at, err := f.place(job.LaidMark{Run: 3, Pegs: 10}, layout.Runs(f.Laid, 15, pegs30), f.counted()); err != nil ||
		f.Laid[len(f.Laid)-1].Dist(plane.Pt(240, 120)) > 0.01 || math.Abs(at-(840+60+900+60+300-4*saved)) > 1e-6 {
		t.Errorf("10 pegs into run 3 is %g along, %v", at, f.Laid)
	}
	for runs, want := range map[int]bool{0: false, 1: true, 3: true, 4: false} {
		if f.Runs = runs; f.miscounted() != want {
			t.Errorf("%d runs laid: miscounted %v", runs, !want)
		}
	}
	if f.Runs, f.Laid = 1, nil; f.miscounted() {
		t.Error("nothing is laid")
	}
}

// Laid runs can be taken up again, the last first: of two, of 900 mm, the second with its
// turn of 60 mm; a slip goes with all of them.
func TestTakingUpRuns(t *testing.T) {
	two := []float64{0, 0, 900, 0, 900, 60, 0, 60}
	for _, k := range []struct {
		lift, runs int
		lifted     float64
		corners    int
		slip       float64
	}{{0, 2, 0, 4, 10}, {1, 1, 960 - 2*saved, 2, 10}, {2, 0, 1860 - 2*saved + 10, 0, 0}} {
		f := threeRuns(two...)
		f.Slip = 10
		f.reckon()
		if err := f.take(Way{Lift: k.lift}); err != nil {
			t.Fatal(err)
		}
		near(t, "lifted", f.Lifted, k.lifted, 1e-6)
		if f.Runs != k.runs || len(f.Laid) != k.corners || f.Slip != k.slip || f.WayOut.Lift != k.lift {
			t.Errorf("%d lifted: %d runs, %v, slip %g", k.lift, f.Runs, f.Laid, f.Slip)
		}
		near(t, "left", f.Left, 2800-f.Used, 1e-9)
		if k.runs == 0 && (f.Way != 0 || f.Used != 0) {
			t.Errorf("all lifted: %g mm of way, %g used", f.Way, f.Used)
		}
	}
	for way, want := range map[Way]string{{Lift: -1}: "-1 runs can't be lifted",
		{Lift: 3}:    "3 runs can't be lifted: 2 runs",
		{GiveUp: -1}: "no low-value area -1", {GiveUp: 2}: `no low-value area 2 to give up: room "Bath" has 1`,
		{GiveUp: 1}: "low-value area 1 is no part of the floor"} {
		f := threeRuns(two...)
		f.Room.Job.Low = []plane.Ring{plane.Rectangle(plane.Pt(5000, 0), plane.Pt(6000, 10))}
		f.floor = plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000)))
		if err := f.take(way); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", way, err, want)
		}
	}
}

// A low-value area at an end of the floor is given up, 0.2 of 1 m²; one across leaves the
// larger part.
func TestGivingUpFloor(t *testing.T) {
	for _, k := range []struct {
		x0, x1 float64
		spared float64 // mm²; 0: refused
	}{{800, 1200, 200_000}, {600, 700, 400_000}, {300, 400, 400_000}, {0, 1000, 0}, {1000, 1200, 0}, {450, 550, 0}} {
		f := threeRuns()
		f.Room.Job.Low = []plane.Ring{plane.Rectangle(plane.Pt(k.x0, -10), plane.Pt(k.x1, 1010))}
		f.floor = plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000)))
		err := f.take(Way{GiveUp: 1})
		if (err == nil) != (k.spared > 0) || math.Abs(f.Spared-k.spared) > 1 {
			t.Errorf("from %g to %g: %g mm² given up, %v", k.x0, k.x1, f.Spared, err)
		}
		if err == nil && math.Abs(f.floor.Area()-(1e6-k.spared)) > 1 {
			t.Errorf("%g mm² are left", f.floor.Area())
		}
	}
}

// Over and lacking are lengths of cable: at 1.1 mm of it to one of way, 100 mm of way are
// 110 of cable.
func TestWhatLengthWouldBeOver(t *testing.T) {
	for _, k := range []struct {
		short, long float64
		want        Choice
		ok          bool
		says        string
	}{
		{1000, 2900, Choice{Remains: 110}, true,
			"cable H1 is too long: with the closest gaps allowed, what is laid and the " +
				"floor that is left take 3.2 m at most"},
		{3100, 4000, Choice{Lacks: 110}, true,
			"cable H1 is too short: with the widest gaps allowed, what is laid and the " +
				"floor that is left take 3.5 m at least"},
		{2990, 3010, Choice{}, false,
			"no way was found to lay just what is left of cable H1, though what is laid and the " +
				"floor that is left take 3.3 m to 3.4 m"},
		{0, 3010, Choice{}, false, "take up to 3.4 m"}, {0, 0, Choice{}, false, "why"},
	} {
		f := threeRuns()
		f.Rate, f.Slip, f.Planned.Label.Length = 1.1, 50, 3350
		why := &route.Refusal{Reason: "why", Shortest: k.short, Longest: k.long}
		got, ok := f.over(why)
		near(t, "over", got.Remains, k.want.Remains, 1e-6)
		near(t, "lacking", got.Lacks, k.want.Lacks, 1e-6)
		if ok != k.ok || f.lengthRules(why) != ok {
			t.Errorf("%g to %g mm: %+v", k.short, k.long, got)
		}
		if says := f.why(why, plane.Millimetres); !strings.Contains(says, k.says) {
			t.Errorf("%g to %g mm: %s, want %s", k.short, k.long, says, k.says)
		}
	}
	f := threeRuns() // just the longest and just the shortest lie
	f.Planned.Label.Length = 3000
	for _, why := range []*route.Refusal{{Longest: 3000, Shortest: 10}, {Longest: 4000, Shortest: 3000}} {
		if _, ok := f.over(why); ok || strings.Contains(f.why(why, plane.Millimetres), "too") {
			t.Errorf("%+v: %s", why, f.why(why, plane.Millimetres))
		}
	}
	f = threeRuns() // 10 W/m under 100 W/m²: 200 mm over two gaps as drawn, 7 pegs; 212 at the rate, 8
	f.Planned.Label.Watts, f.Job.Supply.MaxDensity, f.Rate = 28, 100, 1.06
	if says := f.why(&route.Refusal{Reason: "why"}, plane.Millimetres); !strings.HasPrefix(says,
		"at this rate the power limit asks for 8 pegs over the two gaps beside a run, 7 as drawn, and so: why") {
		t.Error(says)
	}
}

// pegs30 is a lattice of 30 mm.
var pegs30 = route.Lattice{Pitch: 30}
