package refit

import (
	"errors"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// wide is a floor of nine rows of 900 mm, 60 mm apart, on which four runs lie 120 mm apart,
// with cable for so many rows more or less. Closest is two pegs, widest six.
func wide(rows float64) *Refit {
	path := hand.Points(0, 0, 900, 0, 900, 120, 0, 120, 0, 240, 900, 240, 900, 360, 0, 360)
	f := threeRuns()
	f.Job.Spacing.Widest, f.Job.Membrane.BendRadius = 6, 15
	f.floor = plane.FromRing(plane.Rectangle(plane.Pt(-5, -5), plane.Pt(905, 485)))
	f.Room.Zones, f.Planned.Share = []plane.Region{f.floor}, f.floor
	f.Room.Floor = plane.FromRing(plane.Rectangle(plane.Pt(-200, -200), plane.Pt(1100, 700)))
	f.plan, f.Laid, f.drawn = nil, path, path
	f.Planned.Label.Length, f.Planned.LeadReach, f.Planned.Spacing = rows*900+(rows-1)*(60-2*saved), 5000, 60
	f.Planned.Path, f.Planned.Laid.Planned, f.Planned.Laid.Path = path, path, path
	f.Old, f.Runs = layout.Runs(path, 15, route.Lattice{Pitch: 30}), 4
	f.bare = route.Problem{Floor: f.Room.Floor, Zones: f.Room.Zones, Pitch: 30, Closest: 2, Widest: 6, Bend: 15,
		Entry: plane.Pt(-200, 0)}
	f.reckon()
	return f
}

// Four runs laid 120 mm apart waste a row each. With cable for six rows nothing need be
// lifted (0, 120, 240, 360, 420, 480 mm); each row more asks for one run to be lifted.
func TestARunIsLifted(t *testing.T)       { liftedOf(t, 6.6, 1) }
func TestTwoRunsAreLifted(t *testing.T)   { liftedOf(t, 7.6, 2) }
func TestThreeRunsAreLifted(t *testing.T) { liftedOf(t, 8.5, 3) }

func TestNoRunNeedBeLifted(t *testing.T) {
	f := wide(5.5)
	if _, err := f.solve(f.Laid, f.floor, false); err != nil {
		t.Error(err)
	}
}

func liftedOf(t *testing.T, rows float64, lift int) {
	t.Helper()
	f := wide(rows)
	_, err := f.solve(f.Laid, f.floor, false)
	if err == nil {
		t.Error("a rest is found behind what is laid")
	}
	f.choices(err)
	if len(f.Choices) == 0 || f.Choices[0].Lift != lift {
		t.Fatalf("choices %+v, want %d lifted", f.Choices, lift)
	}
	// each with the turn before it
	near(t, "lifted, mm", f.Choices[0].Lifted, float64(lift)*(900+120-2*saved), 1e-6)
}

func TestLiftingAllIsNoWayOutOfTooMuchCable(t *testing.T) {
	f := wide(10) // for ten rows, on nine
	got, none := f.fewestLifted()
	var ref *route.Refusal
	if !errors.As(none, &ref) || got.Lift != 0 && got.Lift != 4 {
		t.Errorf("%+v, %v", got, none)
	}
	if f.choices(none); len(f.Choices) != 1 || f.Choices[0].Remains <= 0 {
		t.Errorf("choices %+v", f.Choices)
	}
	f.Choices = nil
	if f.choices(errors.New("no way")); len(f.Choices) != 1 || f.Choices[0].Remains <= 0 || f.Choices[0].Lift != 4 {
		t.Errorf("choices where only lifting all says how much is over: %+v", f.Choices)
	}
	f.Laid = nil
	if _, none := f.fewestLifted(); !errors.Is(none, errNothingLaid) {
		t.Errorf("nothing laid: %v", none)
	}
	if got := wide(6).without(4); got != nil {
		t.Errorf("without all runs: %v", got)
	}
	if got := wide(6).without(1); len(got) != 6 {
		t.Errorf("without the last run: %v", got)
	}
}

// A low-value strip on the north of the floor is offered where the rest finds a route without
// it: with cable for four rows it does, with nine it does not.
func TestALowValueAreaIsOffered(t *testing.T) {
	for rows, want := range map[float64]bool{4.5: true, 9: false} {
		f := wide(rows)
		f.Laid, f.Runs = f.Laid[:2], 1
		f.reckon()
		f.Room.Job.Low = []plane.Ring{plane.Rectangle(plane.Pt(-10, 325), plane.Pt(910, 490))}
		f.choices(errors.New("no way"))
		found := false
		for _, c := range f.Choices {
			if c.GiveUp == 1 {
				found = true
				near(t, "floor given up, mm²", c.Floor, 910*160, 1)
			}
		}
		if found != want {
			t.Errorf("cable for %g rows: choices %+v", rows, f.Choices)
		}
	}
}

// Behind a kept head, the rest is laid anew: the router may add no run beyond what changes
// least.
func TestTheLeastChangeKeepsRuns(t *testing.T) {
	f := wide(6.4)
	f.floor = plane.FromRing(plane.Rectangle(plane.Pt(-5, -5), plane.Pt(905, 365)))
	path := hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 900, 120, 900, 180, 0, 180, 0, 240, 900, 240)
	f.plan, f.drawn, f.Old = path, path, layout.Runs(path, 15, route.Lattice{Pitch: 30})
	f.Planned.Laid.Planned = path
	f.Laid, f.Runs = path[:4], 2
	f.Planned.Share = f.floor
	f.reckon()
	best, err := f.leastChange()
	if best == nil {
		t.Fatal(err)
	}
	// the five runs drawn are kept but for the last, which needs its end to go on
	if best.change.From < 5 || best.change.Runs > 3 {
		t.Errorf("%+v: %v", best.change, best.route.Path)
	}
	near(t, "way", route.Length(best.route.Path, 15), f.whole(), 0.2)
}
