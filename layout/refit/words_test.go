package refit

import (
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// threeRuns is a cable of three runs of 30 pegs, two pegs apart, of which some path is laid.
func threeRuns(laid ...float64) *Refit {
	path := hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 900, 120)
	c := &layout.Cable{ID: "H1", BendRadius: 15, Path: path, Label: job.Cable{Length: 2800},
		Laid: &layout.Laid{Job: &job.Laid{}, Planned: path}}
	c.Lattice.Pitch = 30
	r := &layout.Room{Job: hand.Room(plane.Rectangle(plane.Pt(-100, -100), plane.Pt(1000, 300))),
		Zones: []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(-20, -20), plane.Pt(920, 140)))}}
	r.Job.Name = "Bath"
	r.Cables = []layout.Cable{*c}
	c.Share = plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000)))
	f := &Refit{Room: r, Planned: c, Code: "NOW", Rate: 1, Old: layout.Runs(path, 15, pegs30), plan: path,
		Job: &job.Job{Membrane: job.Membrane{Pitch: 30}, Spacing: job.Spacing{Closest: 2}}}
	if len(laid) > 0 {
		f.Laid = hand.Points(laid...)
		f.Runs = len(layout.Runs(f.Laid, 15, pegs30))
	}
	return f
}

func TestHowManyRunsAreLaid(t *testing.T) {
	for _, k := range []struct {
		laid []float64
		into float64
		lift int
		want string
	}{
		{nil, 0, 0, "0 of 3 runs"}, {[]float64{0, 0, 900, 0}, 0, 0, "1 of 3 runs"},
		{[]float64{0, 0, 300, 0}, 0, 0, "0 of 3 runs and 10 pegs of run 1"},
		{[]float64{0, 0, 900, 0, 900, 60, 0, 60}, 0, 0, "2 of 3 runs"},
		{[]float64{0, 0, 900, 0, 900, 60, 600, 60}, 0, 0, "1 of 3 runs and 10 pegs of run 2"},
		{[]float64{0, 0, 900, 0, 900, 60, 899, 60}, 0, 0, "1 of 3 runs"}, // within a peg's place
		{[]float64{0, 0, 900, 0, 900, 60, 600, 60}, 7, 0, "1 of 3 runs and 7 pegs of run 2"},
		{[]float64{0, 0, 900, 0}, 7, 1, "1 of 3 runs"},
		{[]float64{0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 300, 120}, 0, 0, "2 of 3 runs and 10 pegs of run 3"},
		{[]float64{0, 0, 900, 0, 900, 60, 870, 60}, 1, 0, "1 of 3 runs and 1 peg of run 2"},
	} {
		f := threeRuns(k.laid...)
		f.into, f.WayOut.Lift = k.into, k.lift
		if len(k.laid) == 8 && k.laid[6] > 800 {
			f.Runs = 2 // its last run is begun
		}
		if got := f.laidWords(); got != k.want {
			t.Errorf("%v, %g pegs, %d lifted: %q, want %q", k.laid, k.into, k.lift, got, k.want)
		}
	}
}

func TestWhatARunIsLaidInPart(t *testing.T) {
	rs := threeRuns().Old
	for _, k := range []struct {
		laid []float64
		run  int
		want bool
	}{
		{nil, 1, false}, {[]float64{0, 0, 600, 0}, 1, true}, {[]float64{0, 0, 900, 0}, 1, false},
		{[]float64{0, 0, 899, 0}, 1, false}, {[]float64{0, 0, 600, 0}, 2, false}, {[]float64{0, 0, 900, 0, 900, 60, 300,
			60}, 2, true}, {[]float64{0, 0, 900, 0, 900, 60, 300, 60}, 1, false},
	} {
		if got := threeRuns(k.laid...).InPart(rs[k.run-1]); got != k.want {
			t.Errorf("%v laid, run %d: in part %v", k.laid, k.run, got)
		}
	}
}

func TestChangeInWords(t *testing.T) {
	for _, k := range []struct {
		laid    int
		change  Changed
		farther float64
		runs    int
		want    string
	}{
		{1, Changed{}, 0, 3, "lay on as planned"}, {1, Changed{}, 0.9, 3, "lay on as planned"},
		{1, Changed{}, 1, 3, "lay on as planned; the end cap comes 1 mm farther"},
		{1, Changed{}, -1, 3, "lay on as planned; the end cap comes 1 mm sooner"},
		{1, Changed{}, -0.9, 3, "lay on as planned"},
		{0, Changed{From: 1, Runs: 3}, 0, 3, "from run 1 on anew"},
		{1, Changed{From: 2, Runs: 2}, 0, 3, "from run 2 on anew; the laid runs stay as they are"},
		{1, Changed{From: 3, Runs: 1}, 0, 3,
			"run 2 as planned, run 3, the last, ends elsewhere; the laid runs stay as they are"},
		{0, Changed{From: 3, Runs: 1}, 0, 3, "runs 1 to 2 as planned, run 3, the last, ends elsewhere"},
		{0, Changed{From: 3, Runs: 2}, 0, 3, "runs 1 to 2 as planned, from run 3 on anew"},
		{0, Changed{From: 2, Runs: 1}, 0, 3, "run 1 as planned, from run 2 on anew"},
		{0, Changed{From: 3, Runs: 2}, 0, 2,
			"runs 1 to 2 as planned, then the cable ends; run 3 and those after it fall away"},
	} {
		f := threeRuns()
		f.Runs, f.Change, f.Farther = k.laid, k.change, k.farther
		f.New = &layout.Cable{Runs: f.Old[:k.runs]}
		if got := f.changeFacts(plane.Millimetres); len(got) != 1 || got[0].words != k.want {
			t.Errorf("%+v: %+v, want %q", k.change, got, k.want)
		}
	}
	f := threeRuns()
	f.New = &layout.Cable{Runs: f.Old}
	for cold, want := range map[float64]int{999: 1, 1000: 2, 50_000: 2} { // of a square metre; 0.1 % is said
		f.Change = Changed{From: 2, Runs: 2, Cold: cold}
		if got := f.changeFacts(plane.Millimetres); len(got) != want {
			t.Errorf("%g mm² gone cold: %+v", cold, got)
		}
	}
	f.Change = Changed{From: 2, Runs: 2, Doorway: true}
	if got := f.changeFacts(plane.Millimetres); len(got) != 2 || !strings.Contains(got[1].words, "doorway") {
		t.Errorf("%+v", got)
	}
}

func TestARunInWords(t *testing.T) {
	f := threeRuns()
	f.Change = Changed{From: 2}
	for i, want := range []string{"run 1     30 pegs towards wall B, then 2 over; 0.9 m on the cable at its end",
		"run 2   * 30 pegs towards wall D, then 2 over; 1.8 m", "run 3   * 30 pegs towards wall B; 2.8 m"} {
		if got := f.runLine(f.Old[i], plane.Millimetres); !strings.HasPrefix(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
	f.Change = Changed{}
	if got := f.runLine(f.Old[2], plane.Millimetres); strings.Contains(got, "*") {
		t.Errorf("nothing changes: %q", got)
	}
}

func TestEndInWords(t *testing.T) {
	for _, k := range []struct {
		laid  bool
		plan  bool
		early float64
		want  string
	}{
		{true, true, 0, "if nothing changed the cable would end 5 mm short"}, {false, true, 0, ""},
		{true, false, 0, ""}, {true, true, 0.9, "if nothing changed"}, {true, true, 1, "if it goes on like this"},
		{true, true, -1, "if it goes on like this"}, {true, false, 1, "planned for a drift"},
		{false, true, 1, ""},
	} {
		f := threeRuns(0, 0, 900, 0)
		f.Miss, f.Early, f.Change.From = 5, k.early, 2
		if !k.laid {
			f.Laid = nil
		}
		if !k.plan {
			f.plan = nil
		}
		got := ""
		if facts := f.endFacts(plane.Millimetres); len(facts) > 0 {
			got = facts[0].words
		}
		if (got == "") != (k.want == "") || !strings.HasPrefix(got, k.want) {
			t.Errorf("%+v: %q", k, got)
		}
	}
	f := threeRuns(0, 0, 900, 0)
	f.Early, f.New = 5, &layout.Cable{}
	if got := f.endFacts(plane.Millimetres); len(got) != 1 || got[0].about != "end" {
		t.Errorf("where nothing changes, nothing hangs on how the mark is read: %+v", got)
	}
	if f.Change.From = 2; len(f.endFacts(plane.Millimetres)) != 2 {
		t.Errorf("%+v", f.endFacts(plane.Millimetres))
	}
	f.Old[1].Pegs, f.Planned.Laid.Job.Miscounts = 20, []job.Miscount{{Run: 1, Pegs: 28}, {Run: 2, Pegs: 20}}
	if got := f.miscounts(); got != "run 1 has 28 pegs, not 30; run 2 has 20 pegs, as drawn" {
		t.Error(got)
	}
	for miss, want := range map[float64]string{1: "end 1 mm short of its planned end",
		0.9:  "end where it was planned to",
		-0.9: "end where it was planned to", -1: "have 1 mm over at its planned end"} {
		if got := missWords(miss, plane.Millimetres); got != want {
			t.Errorf("%g: %q", miss, got)
		}
	}
	for drift, want := range map[float64]string{0.0005: "0.1 % more cable", 0.0004: "under 0.1 % more cable",
		-0.02: "2.0 % less cable", 0.1: "10.0 % more cable"} {
		if got := driftShare(drift) + " " + more(drift); got != want {
			t.Errorf("%g: %q", drift, got)
		}
	}
	if earlier(1) != "sooner" || earlier(-1) != "later" {
		t.Error("more cable than way comes sooner to its mark")
	}
}

func TestNoWayOutInWords(t *testing.T) {
	for _, k := range []struct {
		choices []Choice
		laid    bool
		once    bool
		want    []string
	}{
		{nil, true, false, []string{"choice   none was found"}},
		{[]Choice{{Remains: 1500}}, true, false,
			[]string{"choice   none, not even with all laid runs lifted: 1.5 m of " +
				"cable would find no place"}},
		{[]Choice{{Remains: 1500}}, false, false, []string{"choice   none: 1.5 m of cable would find no place"}},
		{[]Choice{{Remains: 0.6}}, false, false, []string{"choice   none: 0.0 m of cable would find no place"}},
		{[]Choice{{Lacks: 0.6}}, false, false, []string{"choice   none: 0.0 m of cable are lacking"}},
		{[]Choice{{Lacks: 2500}}, false, false, []string{"choice   none: 2.5 m of cable are lacking"}},
		{[]Choice{{Way: Way{Lift: 1}, Lifted: 900}}, true, false,
			[]string{"choice   lift the last run (0.9 m of cable) " +
				"and lay on from there: --lift 1"}},
		{[]Choice{{Way: Way{Lift: 2}, Lifted: 1800}, {Lacks: 2500}}, true, true,
			[]string{"choice   lift the last 2 runs " +
				"(1.8 m of cable) and lay on from there: --lift 2 --once", "else     2.5 m of cable are lacking"}},
		{[]Choice{{Way: Way{GiveUp: 3}, Floor: 1e6}}, true, false,
			[]string{"choice   give up low-value area 3 (1.00 m²"}},
	} {
		f := threeRuns()
		f.Reason, f.Choices, f.WayOut.Once = "it does not fit", k.choices, k.once
		if k.laid {
			f.Laid = hand.Points(0, 0, 900, 0)
		}
		got := f.stuckLines(plane.Millimetres)
		if len(got) != 1+len(k.want) || got[0] != "no fit   it does not fit" {
			t.Errorf("%+v: %q", k.choices, got)
			continue
		}
		for i, want := range k.want {
			if !strings.HasPrefix(got[i+1], want) {
				t.Errorf("%q, want %q", got[i+1], want)
			}
		}
	}
}

// A laid run that lies farther out of the floor for cable than pegs are told apart by is
// named, the worst of all; the zone ends 20 mm beyond the plan.
func TestIntrusionIsTheWorst(t *testing.T) {
	for _, k := range []struct {
		laid []float64
		run  int
		off  float64
	}{
		{[]float64{0, 0, 900, 0}, 0, layout.SamePeg}, {[]float64{0, -21, 900, -21}, 0, layout.SamePeg},
		{[]float64{0, -50, 900, -50}, 1, 30}, {[]float64{0, -50, 900, -50, 900, 200, 0, 200}, 2, 60},
		{[]float64{0, -90, 900, -90, 900, 200, 0, 200}, 1, 70},
	} {
		if run, off := threeRuns(k.laid...).intrusion(); run != k.run || off != k.off {
			t.Errorf("%v: run %d by %g, want %d by %g", k.laid, run, off, k.run, k.off)
		}
	}
	zone := threeRuns().Room.Zones[0]
	for _, k := range []struct {
		leg  plane.Segment
		want bool
	}{{hand.Segment(0, 0, 900, 0), true}, {hand.Segment(0, 0, 930, 0), false}, {hand.Segment(930, 0, 0, 0), false},
		{hand.Segment(0, -20, 900, -20), true}, {hand.Segment(0, -30, 900, -30), false}} {
		if inside(k.leg, zone) != k.want {
			t.Errorf("%v inside: %v", k.leg, !k.want)
		}
	}
}

func TestSensorsKeepClear(t *testing.T) {
	path := hand.Points(0, 0, 900, 0, 900, 60)
	for _, k := range []struct {
		name string
		s    layout.Sensor
		want bool
	}{
		{"midway", layout.Sensor{Tip: plane.Pt(500, 30)}, true}, {"nearer", layout.Sensor{Tip: plane.Pt(500, 15)},
			false},
		{"near the last leg", layout.Sensor{Tip: plane.Pt(885, 55)}, false},
		{"its tube 8 mm off", layout.Sensor{Tip: plane.Pt(500, 100), Lead: hand.Points(0, 8, 500, 8, 500, 100)}, true},
		{"its tube nearer", layout.Sensor{Tip: plane.Pt(500, 100), Lead: hand.Points(0, 7.9, 500, 7.9, 500, 100)},
			false},
		{"its tube over it", layout.Sensor{Tip: plane.Pt(500, 100), Lead: hand.Points(500, -50, 500, 100)}, false},
	} {
		if got := clearOf(k.s, path, 30); got != k.want {
			t.Errorf("%s: %v", k.name, got)
		}
	}
	mm := func(v float64) string { return small(v, plane.Millimetres) }
	for d, want := range map[plane.Point]string{{X: 3, Y: 4}: "3 mm east and 4 mm north", {X: -3,
		Y: -4}: "3 mm west and " +
		"4 mm south", {X: 0, Y: 0}: "0 mm east and 0 mm north"} {
		if got := offWords(d, mm); got != want {
			t.Errorf("%v: %q", d, got)
		}
	}
}
