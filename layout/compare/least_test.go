package compare

import (
	"strings"
	"testing"
	"time"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/takeoff"
)

// What differs by just as much as is let pass is not said, by a little more it is: half a
// hundredth of a square metre, half a millimetre of wall and spacing, 5 mm of place, 1 mm of size.
func TestTheLeastThatIsSaid(t *testing.T) {
	wall := func(long float64) *job.Room {
		return &job.Room{Walls: []job.Wall{{Letter: "A", Segment: plane.Segment{B: plane.Pt(long, 0)}}}}
	}
	spaced := func(by float64) *layout.Cable { c := cableOf(260, 26000, 130); c.Spacing = by; return c }
	run := func(x0, x1 float64) layout.Run {
		return layout.Run{Pegs: 30, From: plane.Pt(x0, 0), To: plane.Pt(x1, 0)}
	}
	notched := func(x, notch float64) plane.Ring {
		return hand.Points(x, 0, x+200, 0, x+200, 100, x+notch, 100, x, 100)
	}
	box := func(x, w, h float64) plane.Ring { return plane.Rectangle(plane.Pt(x, 0), plane.Pt(x+w, h)) }
	for _, k := range []struct {
		name string
		by   func(*diff)
		said string // of what, or how; empty: nothing
	}{
		{"area", func(d *diff) { d.area("Bath", "floor", oneOf(1000, 4990), oneOf(1000, 4995)) }, ""},
		{"more area", func(d *diff) { d.area("Bath", "floor", oneOf(1000, 1000), oneOf(1000, 1006)) }, "floor"},
		{"less area", func(d *diff) { d.area("Bath", "floor", oneOf(1000, 1006), oneOf(1000, 1000)) }, "floor"},
		{"wall", func(d *diff) { d.walls(wall(2400), wall(2400.5)) }, ""},
		{"longer wall", func(d *diff) { d.walls(wall(2400), wall(2401)) }, "wall A"},
		{"shorter wall", func(d *diff) { d.walls(wall(2401), wall(2400)) }, "wall A"},
		{"spacing", func(d *diff) { d.cable("Bath", spaced(90), spaced(90.5)) }, ""},
		{"same spacing", func(d *diff) { d.cable("Bath", spaced(90), spaced(90)) }, ""},
		{"wider spacing", func(d *diff) { d.cable("Bath", spaced(90), spaced(91)) }, "spacing of H1"},
		{"closer spacing", func(d *diff) { d.cable("Bath", spaced(91), spaced(90)) }, "spacing of H1"},
		{"run", func(d *diff) { runs(d, run(0, 900), run(5, 905)) }, ""},
		{"run from elsewhere", func(d *diff) { runs(d, run(0, 900), run(6, 900)) }, "runs of H1 that lie otherwise"},
		{"run to elsewhere", func(d *diff) { runs(d, run(0, 900), run(0, 906)) }, "runs of H1 that lie otherwise"},
		{"tub", func(d *diff) { d.thing("Bath", "tub", box(100, 200, 300), box(105, 200, 300)) }, ""},
		{"tub as wide", func(d *diff) { d.thing("Bath", "tub", box(100, 200, 300), box(110, 201, 300)) }, "moved"},
		{"tub as deep", func(d *diff) { d.thing("Bath", "tub", box(100, 200, 300), box(110, 200, 301)) }, "moved"},
		{"wider tub", func(d *diff) { d.thing("Bath", "tub", box(100, 200, 300), box(110, 202, 300)) }, "changed"},
		{"deeper tub", func(d *diff) { d.thing("Bath", "tub", box(100, 200, 300), box(110, 200, 302)) }, "changed"},
		{"narrower tub", func(d *diff) { d.thing("Bath", "tub", box(100, 202, 300), box(110, 200, 300)) }, "changed"},
		{"tub of its outline", func(d *diff) { d.thing("Bath", "tub", notched(100, 90), notched(110, 95)) }, "moved"},
		{"tub of another", func(d *diff) { d.thing("Bath", "tub", notched(100, 90), notched(110, 96)) }, "changed"},
		{"cost", func(d *diff) { d.cost(priced(10), priced(10)) }, ""},
		{"a cent", func(d *diff) { d.cost(priced(10), priced(10.01)) }, "cost"},
	} {
		d := between()
		k.by(d)
		if (len(d.out) > 0) != (k.said != "") {
			t.Errorf("%s: %+v, want %q", k.name, d.out, k.said)
		} else if k.said != "" && d.out[0].What != k.said && !strings.HasPrefix(d.out[0].How, k.said) {
			t.Errorf("%s: %+v, want %q", k.name, d.out[0], k.said)
		}
	}
}

func runs(d *diff, was, now layout.Run) {
	d.otherRuns("Bath", &layout.Cable{ID: "H1", Runs: []layout.Run{was}},
		&layout.Cable{ID: "H1", Runs: []layout.Run{now}})
}

func priced(prices ...float64) (l takeoff.List) {
	for _, p := range prices {
		l.Lines = append(l.Lines, takeoff.Line{Item: language.As("thing"), Price: p})
	}
	return l
}

// 1000 by 1234.6 mm are 1.235 m² to the third figure; a wall is clouded half-way along it as
// it is now.
func TestAreaAndPlaceOfWhatChanged(t *testing.T) {
	d := between()
	d.area("Bath", "floor", oneOf(1000, 1000), oneOf(1000, 1234.6))
	if a, b := figuresOf(d, "floor"); a != 1 || b != 1.235 {
		t.Errorf("%v and %v m²", a, b)
	}
	d.walls(hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(2400, 2000))),
		hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(2400, 2100))))
	if c := d.out[1]; c.What != "wall B" || *c.At != plane.Pt(2400, 1050) || c.Radius != cloudLeast {
		t.Errorf("%+v at %v", c, *c.At)
	}
}

// Of a room with as many walls both places are measured from the datums it has now, of one
// with others each from those of its own time. The longest wall is B now, and was A.
func TestPlacesFromTheSameWalls(t *testing.T) {
	room := func(ring plane.Ring, box float64) *layout.Room {
		r := hand.Room(ring)
		r.Thermostat.At = plane.Pt(box, 0)
		return &layout.Room{Job: r}
	}
	wide := plane.Rectangle(plane.Pt(0, 0), plane.Pt(2400, 2000))
	long := plane.Rectangle(plane.Pt(0, 0), plane.Pt(2400, 3000))
	five := plane.Ring{{}, {X: 2400}, {X: 2400, Y: 3000}, {X: 1000, Y: 3000}, {Y: 2900}}
	for _, k := range []struct {
		now  plane.Ring
		want string
	}{
		{long, "1600 mm from wall B, 0 mm from wall A"}, {five, "0 mm from wall A, 1600 mm from wall B"},
	} {
		d := &diff{units: plane.Millimetres}
		d.room(room(wide, 800), room(k.now, 900))
		said := ""
		for _, c := range d.out {
			if c.What == "thermostat" {
				said = c.Before + "; " + c.After
			}
		}
		if want := k.want + "; 1500 mm from wall B, 0 mm from wall A"; said != want {
			t.Errorf("%d walls: %q, want %q", len(k.now), said, want)
		}
	}
}

// A room that had three walls has no place off the fourth of now.
func TestPlacesOffAWallThatWasNot(t *testing.T) {
	d := between()
	d.was.Walls, d.now.D1, d.now.D2 = d.was.Walls[:3], 3, 2
	at, to := plane.Pt(1000, 500), plane.Pt(1200, 500)
	got := d.fromWalls(&at, &to)
	if got[0].Before != nil || *got[0].After != 1200 || *got[1].Before != 1500 || *got[1].After != 1500 {
		t.Errorf("%+v", got)
	}
}

// What is said of an order: more packs of as much, another price of as many; and nothing where
// neither changes the figures printed.
func TestPacksAndPricesOfAnOrder(t *testing.T) {
	for _, k := range []struct {
		c    takeoff.Change
		want string
	}{
		{takeoff.Change{Before: 4.001, After: 4.002}, ""},
		{takeoff.Change{Before: 4.001, After: 4.002, PriceBefore: 10, Price: 10}, ""},
		{takeoff.Change{Before: 4, After: 5, PriceBefore: 10, Price: 10}, "4.00 kg -> 5.00 kg"},
		{takeoff.Change{Before: 4, After: 4, PacksBefore: 2, Packs: 1, PackName: "bag"},
			"4.00 kg -> 4.00 kg, +1 bag to buy"},
		{takeoff.Change{Before: 4, After: 4, PacksBefore: 2, Packs: -1, PackName: "bag"},
			"4.00 kg -> 4.00 kg, -1 bag to buy"},
		{takeoff.Change{Before: 4, After: 4, PriceBefore: 10, Price: 12.5},
			"4.00 kg, 10.00 CHF -> 4.00 kg, 12.50 CHF, +2.50 CHF"},
		{takeoff.Change{Before: 4, After: 4, PriceBefore: 12.5, Price: 10},
			"4.00 kg, 12.50 CHF -> 4.00 kg, 10.00 CHF, -2.50 CHF"},
	} {
		d := between()
		d.currency = "CHF"
		k.c.Item, k.c.Unit = language.As("Grout"), "kg"
		d.quantities([]takeoff.Change{k.c})
		got := ""
		for _, c := range d.out {
			got += c.String()
		}
		if want := "take-off, Grout: " + k.want; got != want && got+k.want != "" {
			t.Errorf("%+v: %q, want %q", k.c, got, want)
		}
	}
}

// Days are counted where both days are known, and compared only where both floors cure.
func TestDaysThatAreOpen(t *testing.T) {
	on := &layout.FullUse{Date: time.Date(2026, 12, 10, 0, 0, 0, 0, time.UTC), By: "bed", Cures: []record.Cure{{}}}
	open := &layout.FullUse{Open: []string{"bed"}, Cures: []record.Cure{{}}}
	for _, k := range []struct {
		was, now *layout.FullUse
		changes  int
	}{{on, open, 1}, {open, on, 1}, {nil, on, 0}, {on, nil, 0}, {nil, nil, 0}, {on, on, 0}, {open, open, 0}} {
		d := between()
		d.days(&layout.Plan{FullUse: k.was}, &layout.Plan{FullUse: k.now})
		if len(d.out) != k.changes || len(d.out) > 0 && d.out[0].How != "" {
			t.Errorf("%+v to %+v: %+v", k.was, k.now, d.out)
		}
	}
}

// The surface over a cable is as warm as the room at its warmest and what the cable adds: 24
// and 6 are 30 °C. Where nothing is known of it nothing is said.
func TestWarmthOverACable(t *testing.T) {
	warm := &layout.Warmth{Warmest: 24, Runs: []layout.Warm{{Cables: []string{"H1"},
		Hot: layout.Bound{Steady: heat.Steady{OverCable: 6}}}}}
	for _, k := range []struct {
		w    *layout.Warmth
		id   string
		want float64
	}{{warm, "H1", 30}, {warm, "H2", 0}, {nil, "H1", 0}} {
		if got := atMost(&layout.Plan{Warmth: k.w}, k.id); got != k.want {
			t.Errorf("%s: %g °C, want %g", k.id, got, k.want)
		}
	}
}

// 100 to 200 W are 340 to 680 Btu/h, which are said beside inches only; without a tariff a
// month has no price.
func TestLossAndUseInWords(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{}, Losses: []layout.RoomLoss{{Room: "Hall"}, {Room: "Bath",
		Lost: heat.Range{Low: 100, High: 200}, Gives: heat.Range{Low: 150, High: 250}}}}
	for u, want := range map[plane.Units]string{
		plane.Millimetres: "100 to 200 W, its floor gives 150 to 250 W",
		plane.Inches:      "100 to 200 W (340 to 680 Btu/h), its floor gives 150 to 250 W (510 to 850 Btu/h)",
	} {
		d := &diff{units: u}
		if got := d.loss(p, "Bath"); got != want || d.loss(p, "Attic") != "" {
			t.Errorf("%q, want %q", got, want)
		}
	}
	month := heat.Energy{Month: heat.Range{Low: 10, High: 20}, MonthPrice: heat.Range{Low: 2, High: 4}}
	p.Warmth, p.Job.Energy.Currency = &layout.Warmth{Use: []layout.RoomUse{{Room: "Hall"}, {Room: "Bath",
		Energy: month}}}, "EUR"
	if got := use(p, "Bath"); got != "10 to 20 kWh" {
		t.Errorf("%q without a tariff", got)
	}
	p.Warmth.Use[1].PerHourPrice = 0.1
	if got := use(p, "Bath"); got != "10 to 20 kWh, 2.0 to 4.0 EUR" || use(p, "Attic") != "" {
		t.Errorf("%q", got)
	}
}
