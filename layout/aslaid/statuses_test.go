package aslaid

import (
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Drawings that are handed over bear the code of the plan that all cables were laid by.
func TestHandedOverByThePlanThatWasLaid(t *testing.T) {
	laidBy1 := func(codes ...string) layout.Room {
		r := layout.Room{}
		for _, code := range codes {
			c := layout.Cable{}
			if code != "" {
				c.Laid = &layout.Laid{Job: &job.Laid{PlanCode: code}}
			}
			r.Cables = append(r.Cables, c)
		}
		return r
	}
	for _, k := range []struct {
		status job.Status
		rooms  []layout.Room
		want   string
	}{
		{job.AsLaid, []layout.Room{laidBy1("OLD")}, "OLD"},
		{job.AsLaid, []layout.Room{laidBy1("OLD", "OLD"), laidBy1("OLD")}, "OLD"},
		{job.AsLaid, []layout.Room{laidBy1("OLD", "OLDER")}, "NOW"},
		{job.AsLaid, []layout.Room{laidBy1("OLD"), laidBy1("OLDER")}, "NOW"},
		{job.AsLaid, []layout.Room{laidBy1("OLD", "")}, "NOW"}, // one without a record lies by the job's own
		{job.AsLaid, []layout.Room{laidBy1()}, "NOW"},
		{job.ForInstallation, []layout.Room{laidBy1("OLD")}, "NOW"},
		{job.Proposal, []layout.Room{laidBy1("OLD", "OLD")}, "NOW"},
	} {
		p := &layout.Plan{Code: "NOW", Job: &job.Job{Info: job.Info{Status: k.status}}, Rooms: k.rooms}
		if got := laidBy(p); got != k.want {
			t.Errorf("%v, %d rooms: %s, want %s", k.status, len(k.rooms), got, k.want)
		}
	}
}

// What is said of the evidence stands before what its kind usually gives; from a plan
// alone there is no error to speak of.
func TestEvidenceAndItsError(t *testing.T) {
	path := hand.Points(0, 0, 900, 0)
	r := &layout.Room{Job: &job.Room{Name: "Bath"}, Floor: plane.FromRing(plane.Rectangle(plane.Pt(0, 0),
		plane.Pt(2000, 2000)))}
	c := &layout.Cable{ID: "H1", Path: path, Label: job.Cable{Length: 900}}
	for _, k := range []struct {
		evidence    job.Evidence
		err, finger float64 // as recorded; a finger room below 0: not
		want        [2]float64
	}{
		{job.ByHand, 0, -1, [2]float64{25.4, 76.2}}, {job.ByHand, 10, -1, [2]float64{10, 76.2}},
		{job.ByHand, 0, 0, [2]float64{25.4, 0}}, {job.ByHand, 40, 50, [2]float64{40, 50}},
		{job.PhotoWithTape, 0, -1, [2]float64{12.7, 38.1}}, {job.PhotoWithTape, 0.5, 0.25, [2]float64{0.5, 0.25}},
		{job.PlanOnly, 10, 20, [2]float64{0, 0}},
	} {
		a := &job.Laid{Evidence: k.evidence, Error: k.err, FingerRoom: k.finger, Corners: path}
		l, found := laid(r, a, c, &job.Job{Membrane: job.Membrane{Pitch: 30}})
		if l == nil || len(found) > 0 {
			t.Fatal(found)
		}
		if got := [2]float64{l.Error, l.FingerRoom}; plane.Pt(got[0], got[1]).Dist(plane.Pt(k.want[0],
			k.want[1])) > 1e-9 {
			t.Errorf("%v, %g, %g: %v, want %v", k.evidence, k.err, k.finger, got, k.want)
		}
	}
}

// A path that is shorter than its label by more than 4 % is a part of the cable until the
// floor is handed over or its end cap is recorded: then a run may be missing.
func TestShorterThanItsLabel(t *testing.T) {
	end := plane.Pt(0, 0)
	r := &layout.Room{Job: &job.Room{Name: "Bath"}, Floor: plane.FromRing(plane.Rectangle(plane.Pt(0, 0),
		plane.Pt(2000, 2000)))}
	c := &layout.Cable{ID: "H1", Label: job.Cable{Length: 1000}}
	for _, k := range []struct {
		long   float64
		status job.Status
		cap    *plane.Point
		whole  bool
		id     string
	}{
		{960, job.ForInstallation, nil, true, ""}, {959, job.ForInstallation, nil, false, ""},
		{1040, job.ForInstallation, nil, true, ""}, {1041, job.ForInstallation, nil, true, "W110"},
		{959, job.AsLaid, nil, true, "W110"}, {960, job.AsLaid, nil, true, ""}, {1040, job.AsLaid, nil, true, ""},
		{500, job.ForInstallation, &end, true, "W110"}, {500, job.ForInstallation, nil, false, ""},
		{10, job.ForInstallation, nil, false, ""},
	} {
		path := hand.Points(0, 0, k.long, 0)
		l := &layout.Laid{Path: path, Whole: true, EndCap: &path[1], Job: &job.Laid{Corners: path, EndCap: k.cap}}
		d := check(l, r, c, &job.Job{Info: job.Info{Status: k.status}, Membrane: job.Membrane{Pitch: 30}})
		id := ""
		if d != nil {
			id = d.ID
		}
		if id != k.id || l.Whole != k.whole || !k.whole && l.EndCap != nil {
			t.Errorf("%+v: %q, whole %v", k, id, l.Whole)
		}
	}
}

// A leg may lie as far outside the room as a tape is out: an inch and 5 mm.
func TestLegsLeaveNoRoom(t *testing.T) {
	r := &layout.Room{Job: &job.Room{Name: "Bath"}, Floor: plane.FromRing(plane.Rectangle(plane.Pt(0, 0),
		plane.Pt(2000, 2000)))}
	c := &layout.Cable{ID: "H1", Label: job.Cable{Length: 3000}}
	for x, ok := range map[float64]bool{2000: true, 2030: true, 2031: false, -30: true, -31: false} {
		path := hand.Points(500, 500, x, 500)
		l := &layout.Laid{Path: path, Job: &job.Laid{Runs: 1}}
		if d := check(l, r, c, &job.Job{}); (d == nil) != ok || d != nil && !strings.Contains(d.Message, "leg 1 of") {
			t.Errorf("to %g: %v", x, d)
		}
	}
}

func TestEndsOfWhatIsLaid(t *testing.T) {
	other := plane.Pt(7, 8)
	for _, k := range []struct {
		path       []plane.Point
		whole      bool
		joint, cap *plane.Point
		from, to   *plane.Point
	}{
		{hand.Points(1, 2, 3, 4), true, nil, nil, &plane.Point{X: 1, Y: 2}, &plane.Point{X: 3, Y: 4}},
		{hand.Points(1, 2), false, nil, nil, &plane.Point{X: 1, Y: 2}, nil},
		{hand.Points(1, 2), true, nil, nil, &plane.Point{X: 1, Y: 2}, &plane.Point{X: 1, Y: 2}},
		{hand.Points(1, 2, 3, 4), false, &other, &other, &other, &other},
		{hand.Points(1, 2, 3, 4), true, &other, &other, &other, &other}, {nil, false, nil, nil, nil, nil},
	} {
		l := &layout.Laid{Path: k.path, Whole: k.whole, Joint: k.joint, EndCap: k.cap}
		ends(l)
		for _, e := range [][2]*plane.Point{{l.Joint, k.from}, {l.EndCap, k.to}} {
			if (e[0] == nil) != (e[1] == nil) || e[0] != nil && *e[0] != *e[1] {
				t.Errorf("%v, whole %v: %v, want %v", k.path, k.whole, e[0], e[1])
			}
		}
	}
}

// Runs lead to the corner that the last of them ends at.
func TestRunsLeadToTheirCorner(t *testing.T) {
	path := hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 900, 120)
	c := &layout.Cable{ID: "H1", BendRadius: 15}
	for runs, corners := range map[int]int{1: 2, 2: 4, 3: 6} {
		l := &layout.Laid{Planned: path, Job: &job.Laid{Runs: runs}}
		if d := trace(l, nil, c, &job.Job{Membrane: job.Membrane{Pitch: 30}}); d != nil || len(l.Path) != corners ||
			l.Whole {
			t.Errorf("%d runs: %v, %v", runs, l.Path, d)
		}
	}
}

// A sensor is drawn where it was found once the floor is handed over; before, its place
// stands beside the plan's.
func TestSensorsAsFound(t *testing.T) {
	tip, at := plane.Pt(5, 6), plane.Pt(1, 2)
	for _, k := range []struct {
		status job.Status
		lead   []plane.Point
		tip    plane.Point
		leadTo plane.Point
		found  bool
	}{
		{job.ForInstallation, nil, at, at, false}, {job.ForInstallation, hand.Points(0, 0, 4, 4), at, at, true},
		{job.AsLaid, nil, tip, at, false}, {job.AsLaid, hand.Points(0, 0, 4, 4), tip, tip, true},
		{job.AsLaid, hand.Points(0, 0), tip, at, false},
	} {
		r := &layout.Room{Sensors: []layout.Sensor{{Name: "S2", Tip: plane.Pt(9, 9)}, {Name: "S1", Tip: at,
			Lead: hand.Points(0, 0, 1, 2)}}}
		laidSensor(r, "S1", job.LaidSensor{Tip: &tip, Lead: k.lead}, k.status)
		s := r.Sensors[1]
		if len(r.Sensors) != 2 || s.Tip != k.tip || *s.Found != tip || s.FoundLead != k.found ||
			s.Lead[len(s.Lead)-1] != k.leadTo || r.Sensors[0].Found != nil {
			t.Errorf("%+v: %+v", k, r.Sensors)
		}
		laidSensor(r, "S3", job.LaidSensor{Tip: &tip}, k.status)
		if len(r.Sensors) != 3 || r.Sensors[2].Name != "S3" || r.Sensors[2].Spare || r.Sensors[2].Tip != tip {
			t.Errorf("a sensor that the plan had not: %+v", r.Sensors)
		}
	}
}

// What lies off its plan by more than the evidence can tell is listed; by as much, not.
func TestDifferencesBeyondTheError(t *testing.T) {
	planned := hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 900, 120)
	moved := func(by plane.Point) (out []plane.Point) {
		for _, p := range planned {
			out = append(out, p.Add(by))
		}
		return out
	}
	list := func(path, plan []plane.Point, whole bool, spacing, err float64) string {
		l := &layout.Laid{Path: path, Planned: plan, Whole: whole, Error: err}
		if len(path) > 0 {
			l.Joint = &path[0]
		}
		if whole {
			l.EndCap = &path[len(path)-1]
		}
		c := &layout.Cable{ID: "H1", BendRadius: 15, Spacing: spacing}
		c.Lattice.Pitch = 30
		var said []string
		for _, d := range compared(l, c).Differ {
			said = append(said, d.What.String())
		}
		return strings.Join(said, "; ")
	}
	for _, k := range []struct {
		name  string
		path  []plane.Point
		plan  []plane.Point
		whole bool
		err   float64
		want  string
	}{
		{"as planned", planned, planned, true, 25, ""},
		{"south by the error", moved(plane.Pt(0, -25)), planned, true, 25, ""},
		{"south by more", moved(plane.Pt(0, -26)), planned, true, 25, "lead joint; run 1; run 2; run 3; end cap"},
		{"no evidence", moved(plane.Pt(0, -26)), planned, true, 0, ""},
		{"part of it, by more", moved(plane.Pt(0, -26))[:2], planned, false, 25, "lead joint; run 1"},
		{"one run", hand.Points(0, 0, 900, 0), hand.Points(0, 30, 900, 30), true, 25, "lead joint; run 1; end cap"},
		{"one run as planned", hand.Points(0, 30, 900, 30), hand.Points(0, 30, 900, 30), true, 25, ""},
		{"nothing laid", nil, planned, false, 25, ""},
		{"without the last run", planned[:4], planned, true, 25,
			"planned run 3, where no cable lies; end cap"},
		{"a run cut short", append(hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120), plane.Pt(500, 120)), planned,
			true,
			25, "an end of planned run 3, where no cable lies; end cap"},
		{"an end elsewhere, the middle off by the error", hand.Points(0, 200, 300, 25, 900, 25),
			hand.Points(0, 0, 900, 0), true, 25,
			"lead joint; run 1; an end of planned run 1, where no cable lies"},
	} {
		if got := list(k.path, k.plan, k.whole, 60, k.err); got != k.want {
			t.Errorf("%s: %q, want %q", k.name, got, k.want)
		}
	}
	// a planned run counts as laid up to three quarters of the spacing off, where that is more than the error
	near := hand.Points(0, 45, 900, 45)
	for spacing, want := range map[float64]string{60: "run 1", 59: "run 1; planned run 1, where no cable lies"} {
		l := &layout.Laid{Path: near, Planned: hand.Points(0, 0, 900, 0), Whole: true, Error: 25}
		c := &layout.Cable{ID: "H1", BendRadius: 15, Spacing: spacing}
		var said []string
		for _, d := range compared(l, c).Differ {
			said = append(said, d.What.String())
		}
		if got := strings.Join(said, "; "); got != want {
			t.Errorf("spacing %g: %q, want %q", spacing, got, want)
		}
	}
	// looked at every 50 mm and in the middle of what is shorter
	if _, on, off := farthest(hand.Segment(0, 0, 50, 0), hand.Points(0, 0, 0, -40, 50, -40, 50, 0)); off != 25 ||
		on != plane.Pt(25, 0) {
		t.Errorf("%v, %g", on, off)
	}
}

// Marks are read on what is laid: where nothing is, they are not judged.
func TestMarksOfNothingLaid(t *testing.T) {
	c := &layout.Cable{ID: "H1", Label: job.Cable{Length: 1860}, BendRadius: 15,
		Laid: &layout.Laid{Job: &job.Laid{Marks: []job.LaidMark{{Length: 612, Run: 1, Pegs: 20}}}}}
	p := &layout.Plan{Job: &job.Job{Membrane: job.Membrane{Pitch: 30}}}
	if got := misread(p, &layout.Room{}, c); got != nil {
		t.Errorf("%v", got)
	}
}

// What is handed over shows leads as they were recorded, and those of the plan where none
// were; a part of a cable is not drawn in its stead.
func TestLeadsAsRecorded(t *testing.T) {
	plan, path := hand.Points(0, 0, 900, 0), hand.Points(0, 30, 900, 30)
	lead, back := hand.Points(-50, 0, 0, 0), hand.Points(900, 0, 950, 0)
	other, otherBack := hand.Points(-50, 30, 0, 30), hand.Points(900, 30, 950, 30)
	for _, k := range []struct {
		whole                      bool
		lead, back                 []plane.Point
		wantPath, wantLead, wantTo []plane.Point
	}{
		{true, nil, nil, path, lead, back}, {true, other, nil, path, other, back},
		{true, nil, otherBack, path, lead, otherBack}, {true, other, otherBack, path, other, otherBack},
		{false, other, otherBack, plan, lead, back},
	} {
		c := &layout.Cable{ID: "H1", Path: plan, ColdLead: lead, Return: back, BendRadius: 15,
			Label: job.Cable{Length: 900, Watts: 90, Volts: 230}}
		j := &job.Job{Membrane: job.Membrane{Pitch: 30}}
		becomes(c, &layout.Laid{Whole: k.whole, Path: path, ColdLead: k.lead, Return: k.back, Job: &job.Laid{}}, j)
		for _, e := range [][2][]plane.Point{{c.Path, k.wantPath}, {c.ColdLead, k.wantLead}, {c.Return, k.wantTo}} {
			if !slices.Equal(e[0], e[1]) {
				t.Errorf("whole %v, leads %v and %v: %v, want %v", k.whole, k.lead, k.back, e[0], e[1])
			}
		}
		if k.whole && (len(c.Runs) != 1 || c.Routed != 900) {
			t.Errorf("%d runs of %g mm", len(c.Runs), c.Routed)
		}
	}
}

// A message names the key of the job file that it is about.
func TestKeyThatIsGiven(t *testing.T) {
	one := hand.Points(1, 2)
	for want, a := range map[string]*job.Laid{"corners": {Corners: one}, "legs": {Legs: make([]job.Leg, 1)},
		"runs": {Runs: 1}, "as_planned": {AsPlanned: true, Corners: one}} {
		if got := given(a); got != want {
			t.Errorf("%+v: %s, want %s", a, got, want)
		}
	}
}
