package compare

import (
	"strings"
	"testing"
	"time"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/takeoff"
)

// runsOf is a cable with runs of so many pegs, all at one place.
func runsOf(pegs ...int) *layout.Cable {
	c := &layout.Cable{ID: "H1"}
	for i, n := range pegs {
		c.Runs = append(c.Runs, layout.Run{Number: i + 1, Pegs: n})
	}
	return c
}

// Runs are numbered from 1; two of four lie otherwise here, and there were none before.
func TestRunsThatLieOtherwise(t *testing.T) {
	d := between()
	d.otherRuns("Bath", runsOf(5, 6, 7), runsOf(5, 8, 7, 9))
	if len(d.out) != 1 || d.out[0].After != "2, 4 of 4" {
		t.Fatalf("%+v", d.out)
	}
	if before, after := figuresOf(d, "runs that lie otherwise"); before != 0 || after != 2 {
		t.Errorf("%v and %v runs", before, after)
	}
	d.otherRuns("Bath", runsOf(5, 6), runsOf(5, 6))
	if len(d.out) != 1 {
		t.Errorf("of the same: %+v", d.out)
	}
}

// A label of one name has the same length to a millimetre, and is another beyond it.
func TestLabelsOfOneName(t *testing.T) {
	room := func(length float64) *layout.Room {
		return &layout.Room{Cables: []layout.Cable{*cableOf(600, length, 100)}}
	}
	for by, want := range map[float64]bool{0: false, 1: false, 1.5: true, -1.5: true} {
		if got := relabelled(room(60000), room(60000+by)); got != want {
			t.Errorf("%v mm longer: %v", by, got)
		}
	}
}

// Another layer that decides, on the same day, is neither later nor sooner.
func TestDaysThatStay(t *testing.T) {
	on := time.Date(2026, 12, 10, 0, 0, 0, 0, time.UTC)
	use := func(by string, days int) *layout.Plan {
		return &layout.Plan{FullUse: &layout.FullUse{Date: on.AddDate(0, 0, days), By: by, Cures: []record.Cure{{}}}}
	}
	for days, how := range map[int]string{0: "", 1: "a day later", 2: "2 days later", -1: "a day sooner"} {
		d := between()
		d.days(use("the bed", 0), use("the grout", days))
		if len(d.out) != 1 || d.out[0].How != how {
			t.Errorf("%d days: %+v", days, d.out)
		}
	}
}

// One line without a price is said, none is not.
func TestCostsWithoutAPrice(t *testing.T) {
	list := func(prices ...float64) (l takeoff.List) {
		for _, p := range prices {
			l.Lines = append(l.Lines, takeoff.Line{Item: language.As("thing"), Price: p})
		}
		return l
	}
	for _, c := range []struct {
		now  takeoff.List
		want string
	}{{list(10, 20), ""}, {list(10, 20, 0), "; 1 of 3 lines have no price"}} {
		d := between()
		d.cost(list(10), c.now)
		if len(d.out) != 1 || !strings.HasSuffix(d.out[0].After, "+20.00"+c.want) {
			t.Errorf("%+v", d.out)
		}
		if before, after := figuresOf(d, "cost"); before != 10 || after != 30 {
			t.Errorf("%v and %v", before, after)
		}
	}
}

// Lengths and distances beside the words are to a tenth of a millimetre.
func TestLengthsToATenth(t *testing.T) {
	d := between()
	d.span("Bath", "height", 1200.26, 1300.54)
	if a, b := figuresOf(d, "height"); a != 1200.3 || b != 1300.5 {
		t.Errorf("heights %v and %v", a, b)
	}
	at, to := plane.Pt(1000.26, 500.26), plane.Pt(1100.54, 700.54)
	got := d.fromWalls(&at, &to)
	if *got[0].Before != 500.3 || *got[0].After != 700.5 {
		t.Errorf("from the first wall %v and %v", *got[0].Before, *got[0].After)
	}
}

// A thing that is new is where it is, one that is gone where it was.
func TestThingsThatComeAndGo(t *testing.T) {
	ring := plane.Rectangle(plane.Pt(100, 100), plane.Pt(300, 200))
	for _, gone := range []bool{false, true} {
		d, before, after := between(), plane.Ring(nil), ring
		if gone {
			before, after = ring, nil
		}
		d.thing("Bath", "tub", before, after)
		c := d.out[0]
		if (c.Before != "") != gone || (c.After != "") == gone || *c.At != plane.Pt(200, 150) || c.Radius <= 0 {
			t.Errorf("gone %v: %+v", gone, c)
		}
	}
}

// bought says what was bought for one room and is needed for the other.
func TestCablesBought(t *testing.T) {
	room := func(ids ...string) *layout.Room {
		r := &layout.Room{Job: &job.Room{Name: "Bath"}}
		for _, id := range ids {
			r.Cables = append(r.Cables, layout.Cable{Label: job.Cable{ID: id}})
		}
		return r
	}
	for _, c := range []struct {
		was, now *layout.Room
		want     string
	}{
		{room("A"), room("A", "B"), "no longer serves: B is to be bought"},
		{room("A"), room("B"), "no longer serves: B is to be bought, and A is left over"},
		{room("A", "A"), room("A"), "A is left over"},
		{room("A"), room("A"), "still serves"},
	} {
		d := between()
		d.bought(c.was, c.now)
		if d.out[0].After != c.want {
			t.Errorf("%q, want %q", d.out[0].After, c.want)
		}
	}
}

// The sensor is found by its name, not the first there is.
func TestSensorByName(t *testing.T) {
	r := &layout.Room{Sensors: []layout.Sensor{{Name: "S1", Tip: plane.Pt(1, 1)}, {Name: "S2", Tip: plane.Pt(2, 2)}}}
	for name, x := range map[string]float64{"S1": 1, "S2": 2} {
		if tip := sensorTip(r, name); tip == nil || tip.X != x {
			t.Errorf("%s is at %v", name, tip)
		}
	}
	if tip := sensorTip(r, "S3"); tip != nil {
		t.Errorf("S3 is at %v", tip)
	}
}

// A pitch is said to a tenth of a millimetre beside the words, and the last revision's letter
// is that of the last of them.
func TestSettingsAndLetters(t *testing.T) {
	d := between()
	was, now := &job.Job{}, &job.Job{}
	was.Membrane.Pitch, now.Membrane.Pitch = 30.26, 31.74
	d.settings(was, now)
	if a, b := figuresOf(d, "peg pitch"); a != 30.3 || b != 31.7 {
		t.Errorf("pitches %v and %v", a, b)
	}
	for n, want := range []string{"", "A", "B"} {
		j := &job.Job{Revisions: []job.Revision{{Letter: "A"}, {Letter: "B"}}[:n]}
		if got := lastLetter(j); got != want {
			t.Errorf("of %d revisions %q, want %q", n, got, want)
		}
	}
}
