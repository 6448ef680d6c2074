package refit

import (
	"math"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// The first peg found 12 mm east and 9 mm south of one of the plan's: before anything is
// laid the plan may go to any of the four round about, afterwards it went to the nearest.
func TestWaysToTheRealPegs(t *testing.T) {
	at := plane.Pt(300+12, 600-9)
	all := hand.Points(12, -9, -18, -9, 12, 21, -18, 21)
	for _, angle := range []float64{0, math.Pi / 2} {
		f := threeRuns()
		f.Planned.Lattice.Angle = angle
		l := f.Planned.Laid
		if got := f.shifts(l); !samePath(got, hand.Points(0, 0)) {
			t.Errorf("the plan's pegs: %v", got)
		}
		l.Job.FirstPeg = &at
		got := f.shifts(l)
		for _, want := range all {
			found := false
			for _, s := range got {
				found = found || s.Dist(want) < 1e-6
			}
			if !found || len(got) != 4 || got[0].Dist(all[0]) > 1e-6 {
				t.Errorf("at %g: %v, want %v", angle, got, all)
			}
		}
		l.Path = f.plan
		if got := f.shifts(l); !samePath(got, all[:1]) {
			t.Errorf("laid already: %v", got)
		}
		l.Job.Corners = hand.Points(0, 0)
		if got := f.shifts(l); !samePath(got, hand.Points(0, 0)) {
			t.Errorf("corners are recorded: %v", got)
		}
		l.Job.Corners, l.Job.Legs = nil, []job.Leg{{Pegs: 3}}
		if got := f.shifts(l); !samePath(got, hand.Points(0, 0)) {
			t.Errorf("legs are recorded: %v", got)
		}
	}
	f := threeRuns()
	l := f.Planned.Laid
	l.Job.FirstPeg, l.Path = &at, f.plan
	l.Job.Issued = &job.Issued{Pegs: &job.IssuedPegs{Origin: plane.Pt(10, -5)}}
	if got := f.shifts(l); !samePath(got, hand.Points(2, -4)) {
		t.Errorf("against the pegs of the plan that was issued: %v", got)
	}
	if g := f.lattice(); g.Origin != at || g.Pitch != 30 {
		t.Errorf("%+v", g)
	}
	if l.Job.FirstPeg = nil; f.lattice().Origin != plane.Pt(10, -5) {
		t.Errorf("%+v", f.lattice())
	}
	grid := route.Lattice{Origin: plane.Pt(10, 20), Pitch: 30}
	if got := snapped(hand.Points(24, 36, 26, 4, -21, 66), grid); !samePath(got, hand.Points(10, 50, 40, 20, -20,
		80)) &&
		!samePath(got, hand.Points(10, 50, 40, -10, -20, 80)) {
		t.Errorf("on the pegs: %v", got)
	}
}

// Before anything is laid, the plan goes to the pegs where most of its runs lie on the
// floor: here 9 mm up, since 21 mm down its first run would leave it by a millimetre.
func TestThePlanGoesWhereItLiesBest(t *testing.T) {
	for y, want := range map[float64]float64{-9: -9, 21: -9, -21: 9, 9: 9} {
		f := threeRuns()
		at := plane.Pt(0, y)
		f.Planned.Laid.Job.FirstPeg = &at
		f.OnPegs(f.Planned.Laid)
		if len(f.plan) != 6 || math.Abs(f.plan[0].Y-want) > 1e-6 || f.Laid != nil {
			t.Errorf("a peg at %g: the plan begins at %v, want %g", y, f.plan, want)
		}
		if off := f.pegsOff(); math.Abs(off.Y-want) > 1e-6 {
			t.Errorf("the pegs are %v off", off)
		}
	}
	f := threeRuns()
	if f.pegsOff() != (plane.Point{}) {
		t.Error("no pegs are recorded")
	}
	at := plane.Pt(12, -9) // laid: its runs have gone with the pegs
	l := f.Planned.Laid
	l.Job.FirstPeg, l.Path = &at, hand.Points(0, 0, 900, 0)
	f.OnPegs(l)
	if !samePath(f.Laid, hand.Points(12, -9, 912, -9)) || !samePath(f.drawn[:2], f.Laid) || len(f.plan) != 6 {
		t.Errorf("laid %v, plan %v", f.Laid, f.plan)
	}
	l.Job.FirstPeg, l.Job.Corners, l.Path = nil, l.Path, hand.Points(3, 4, 890, -10)
	f.OnPegs(l)
	if !samePath(f.Laid, hand.Points(0, 0, 900, 0)) || len(f.plan) != 6 {
		t.Errorf("taped corners are put on pegs: %v, plan %v", f.Laid, f.plan)
	}
}

// What is laid goes on in the plan where it ends on a leg of it, to a millimetre, in its
// direction, and keeps two pegs less a millimetre from what comes.
func TestWhereThePlanGoesOn(t *testing.T) {
	plan := threeRuns().plan
	for _, k := range []struct {
		name string
		laid []plane.Point
		want []plane.Point
	}{
		{"a run's end", plan[:2], plan}, {"a turn's end", plan[:3], plan}, {"all", plan, plan},
		{"within a run", hand.Points(0, 0, 900, 0, 900, 60, 600, 60), plan},
		{"0.9 mm off", hand.Points(0, 0, 900, 0, 900, 60.9, 600, 60.9),
			hand.Points(0, 0, 900, 0, 900, 60.9, 600, 60.9, 0, 60, 0, 120, 900, 120)},
		{"1.1 mm off", hand.Points(0, 0, 900, 0, 900, 61.1, 600, 61.1), nil},
		{"against its direction", hand.Points(0, 0, 300, 0, 300, 60, 600, 60), nil},
		{"across", hand.Points(0, 0, 450, 0, 450, 60), nil},
		{"beside what comes", hand.Points(0, 0, 900, 0, 900, 100, 800, 100, 800, 60, 600, 60), nil},
		{"from 59 mm above what comes", hand.Points(0, 0, 900, 0, 900, 179, 800, 179, 800, 60, 600, 60),
			hand.Points(0, 0, 900, 0, 900, 179, 800, 179, 800, 60, 0, 60, 0, 120, 700, 120)},
	} {
		f := threeRuns()
		f.Laid = k.laid
		line := plan
		if len(k.want) == 8 { // the plan's last run ends sooner, below the leg at 179
			line = hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 700, 120)
		}
		if got := f.onward(line); !samePath(got, k.want) && k.name != "0.9 mm off" {
			t.Errorf("%s: %v, want %v", k.name, got, k.want)
		} else if k.name == "0.9 mm off" && got == nil {
			t.Errorf("%s: no way on", k.name)
		}
	}
	f := threeRuns()
	for y, want := range map[float64]bool{59.1: true, 58.9: false} { // of the first leg, from the run to come
		laid := hand.Points(0, 60-y, 900, 60-y, 1500, 60-y, 1500, 60, 800, 60)
		if got := f.apart(laid, hand.Points(0, 60)); got != want {
			t.Errorf("%g mm from what comes: apart %v", y, got)
		}
	}
	f.plan, f.Planned.Laid.Planned = nil, plan[:2]
	if got := f.Before(); !samePath(got, plan[:2]) {
		t.Errorf("as it was to be: %v", got)
	}
	f.plan = plan[:4]
	if got := f.Before(); !samePath(got, plan[:4]) {
		t.Errorf("as it was to be: %v", got)
	}
}

// aside is a refit of the same plan 7 mm east and north, so that places counted a half peg
// apart, 15 mm, lie beside the edges of what they count, not on them.
func aside(f *Refit, share plane.Ring) *Refit {
	by := plane.Pt(7, 7)
	f.plan, f.Laid, f.Planned.Spacing = plane.Moved(f.plan, by), plane.Moved(f.Laid, by), 60
	f.Planned.Share = plane.FromRing(share.Translate(by))
	if f.floor != nil {
		f.floor = plane.FromRing(plane.Ring(plane.Moved(f.floor[0].Outer, by)))
		f.Room.Zones = []plane.Region{f.floor}
	}
	return f
}

// The plan ended 300 mm sooner leaves cold what only its last leg reached, 45 mm to either
// side: y from 105 to 165, x from 600 to 900, less the half circle about the new end.
func TestFloorThatGoesCold(t *testing.T) {
	f := aside(threeRuns(), plane.Rectangle(plane.Pt(0, -45), plane.Pt(900, 165)))
	segment := 45*45*math.Acos(1./3) - 15*math.Sqrt(45*45-15*15) // of the circle below y = 105
	want := 300*60 - (math.Pi*45*45-segment)/2
	sooner := append(f.plan[:5:5], plane.Pt(607, 127))
	if got := f.wentCold(sooner); math.Abs(got-want) > 0.05*want {
		t.Errorf("%g mm² go cold, by hand %g", got, want)
	}
	if got := f.wentCold(f.plan); got != 0 {
		t.Errorf("%g mm² go cold of the plan itself", got)
	}
	if got := f.wentCold(f.plan[:4]); math.Abs(got-900*60) > 0.02*900*60 {
		t.Errorf("%g mm² go cold without the last run, by hand %d", got, 900*60)
	}
	f = aside(threeRuns(), plane.Rectangle(plane.Pt(0, -45), plane.Pt(900, 120)))
	if got := f.wentCold(f.plan[:4]); math.Abs(got-900*15) > 0.02*900*15 {
		t.Errorf("%g mm² of its own floor go cold, by hand %d", got, 900*15)
	}
	if got := nearby(f.plan, f.plan[4:6], 59); len(got) != 2 {
		t.Errorf("within 59 mm of the last run lie %v", got)
	}
	if got := nearby(f.plan, f.plan[4:6], 61); len(got) != 4 {
		t.Errorf("within 61 mm of the last run lie %v", got)
	}
	legs := plane.Segments(threeRuns().plan)
	for y, want := range map[float64]bool{-45: true, -45.1: false, 90: true} {
		if reached(legs, plane.Pt(450, y), 45) != want {
			t.Errorf("at %g: reached %v", y, !want)
		}
	}
}

// The turn at x = 0 can go out by a peg, 60 mm of cable, and the end by one of 30: 90 mm of
// the plan's length with them.
func TestWhatDriftAPlanTakes(t *testing.T) {
	all := 2820 - 4*saved
	share := plane.Rectangle(plane.Pt(0, -45), plane.Pt(900, 165))
	with := func(x0, x1 float64, share plane.Ring) *Refit {
		f := onFloor(x0, -20, x1, 140, 0, 0, 900, 0)
		f.Planned.Label.Length = all
		return aside(f, share)
	}
	f := with(-40, 940, share)
	near(t, "less cable", f.takesLess(), 90/(all+90), 1e-9)
	f = with(-20, 920, share)
	near(t, "less cable without room", f.takesLess(), 0, 1e-9)
	if f.Rate != 1 {
		t.Errorf("the rate is left at %g", f.Rate)
	}
	// 5 % of the floor, 9450 mm², go cold where the end comes some 195 mm sooner
	cut := (0.05*900*210 + (math.Pi*45*45-45*45*math.Acos(1./3)+15*math.Sqrt(45*45-15*15))/2) / 60
	if got := f.takesMore(); math.Abs(got-(all/(all-cut)-1)) > 0.005 {
		t.Errorf("takes %g more, by hand %g", got, all/(all-cut)-1)
	}
	f = with(-20, 920, plane.Rectangle(plane.Pt(0, -45), plane.Pt(9000, 9000)))
	if got := f.takesMore(); got != 0.10 {
		t.Errorf("takes %g more of a large floor, 0.10 at most", got)
	}
	// 10 W/m: with 118 mm asked for over two gaps of 60, 120.5 with what is forgiven
	f.Planned.Label.Watts, f.Job.Supply.MaxDensity = all/100, 20/0.118
	limit := 120.5/118 - 1
	if got := f.coolUpTo(0.10); got > limit || got < limit-reserveStep/10 {
		t.Errorf("cool up to %g, by hand %g", got, limit)
	}
	if got := f.takesMore(); got > limit || got < limit-0.003 {
		t.Errorf("takes %g more under the power limit, by hand %g", got, limit)
	}
	if got := f.coolUpTo(0.01); got != 0.01 {
		t.Errorf("cool up to %g of 0.01", got)
	}
	if got := f.takes(1, 0.1, func([]plane.Point) bool { return false }); got != 0 {
		t.Errorf("takes %g", got)
	}
}

// A cable of which nothing is recorded is looked at as laid by its first leg, used as drawn;
// the plan itself is not touched.
func TestAReserveIsOfTheWholePlan(t *testing.T) {
	was := threeRuns()
	was.Planned.Share = plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000)))
	was.Planned.Laid, was.Planned.ColdLead = nil, hand.Points(-100, 500, 1100, 500)
	p := &layout.Plan{Job: was.Job, Rooms: []layout.Room{*was.Room}}
	p.Rooms[0].Floor = plane.FromRing(plane.Rectangle(plane.Pt(-100, -100), plane.Pt(1000, 300)))
	p.Rooms[0].Cables = []layout.Cable{{ID: "H0", Path: hand.Points(-100, 900, 1100, 900)}, *was.Planned}
	c := &p.Rooms[0].Cables[1]
	f, err := notYetLaid(p, &p.Rooms[0], c)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "floor", f.floor.Area(), 1e6-20_000-120_000, 1)
	if f.Rate != 1 || len(f.Laid) != 2 || len(f.Old) != 3 || f.Planned.ID != "H1" || f.Planned == c ||
		c.Laid != nil || f.bare.Pitch != 30 {
		t.Errorf("%+v", f)
	}
}

// To the end of the run that a mark is on.
func TestLaidToAMark(t *testing.T) {
	f := threeRuns()
	f.layTo(layout.Mark{Run: 2})
	if f.Runs != 2 || !samePath(f.Laid, f.plan[:4]) || math.Abs(f.Way-(1860-2*saved)) > 1e-6 {
		t.Errorf("%d runs, %v, %g mm", f.Runs, f.Laid, f.Way)
	}
}
