package probe_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
)

// wallMap is the map of bath with its box 1200 mm up wall A.
func wallMap(status job.Status) *probe.Map {
	p, r := bath(status, job.PhotoWithTape)
	r.Job.Thermostat.Height = 1200
	return probe.Of(p, r)
}

// Distances by hand: the leads rise at 1500 mm along wall A, from the floor to
// 1200 mm up, and 150 mm to every side of them is theirs. The cold lead, planned and
// never recorded, comes up to 100 mm from wall A: 750.7 mm from wall B's foot at
// 660 mm, less 3 mm half width, 304.8 mm error and 38.1 mm finger-room.
func TestHolesInWallsByHand(t *testing.T) {
	m := wallMap(job.AsLaid)
	for _, c := range []struct {
		wall      string
		along, up float64
		want      probe.Verdict
		within    float64
	}{
		{"A", 1500, 600, probe.TooClose, 0},
		{"A", 1650, 600, probe.TooClose, 0},
		{"a", 1660, 600, probe.NothingRecorded, 160 - 150},
		{"A", 1500, 1350, probe.TooClose, 0},
		{"A", 1500, 1360, probe.NothingRecorded, 160 - 150},
		{"B", 660, 1016, probe.NothingRecorded, math.Hypot(500, 660) - 150},
		{"B", 660, 0, probe.NothingRecorded, 750.7 - 3 - 304.8 - 38.1},
	} {
		s, err := m.WallSpot(c.wall, c.along, c.up)
		if err != nil {
			t.Fatal(err)
		}
		a := m.OnWall(s)
		if a.Verdict != c.want || math.Abs(a.Within-c.within) > 0.1 {
			t.Errorf("wall %s at %g, %g up: %s within %.1f, want %s within %.1f", c.wall, c.along, c.up, a.Verdict,
				a.Within, c.want, c.within)
		}
	}
	if a := wallMap(job.ForInstallation).OnWall(probe.WallSpot{Face: 1, Along: 660,
		Up: 1016}); a.Verdict != probe.NoVerdict || a.Reason == "" {
		t.Errorf("from a plan: %s, %s", a.Verdict, a.Reason)
	}
}

// Leads that came to the wall beside the box widen the zone as far as they do.
func TestMovedLeadsWidenTheRise(t *testing.T) {
	p, r := bath(job.AsLaid, job.PhotoWithTape)
	r.Job.Thermostat.Height = 1200
	r.Cables[0].ColdLead[0] = plane.Pt(1100, 20)
	m := probe.Of(p, r)
	rise := m.Rise()
	if rise.Line[0].Dist(plane.Pt(1100, 0)) > 1e-6 || rise.Line[1].Dist(plane.Pt(1500, 0)) > 1e-6 || rise.Up != 1200 {
		t.Errorf("%+v", rise)
	}
	if a := m.OnWall(probe.WallSpot{Face: 0, Along: 1300, Up: 900}); a.Verdict != probe.TooClose {
		t.Errorf("between lead and box: %s", a.Verdict)
	}
}

func TestWallAnswerInWordsAndJSON(t *testing.T) {
	m := wallMap(job.AsLaid)
	a := m.OnWall(probe.WallSpot{Face: 1, Along: 660, Up: 1016})
	if got := m.Spot(a); got != "wall B, 660 mm from its corner with wall A, 1016 mm above the floor" {
		t.Error(got)
	}
	if got := m.RiseWords(); !strings.Contains(got,
		"300 mm wide, from 1350 mm to 1650 mm from its corner with wall D") {
		t.Error(got)
	}
	var b bytes.Buffer
	if err := m.WriteJSON(&b, a, nil, false); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"wall": "B"`, `"from_mm": 660`, `"up_mm": 1016`, "not recorded"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s in %s", want, b.String())
		}
	}
	if _, err := m.WallSpot("B", 1501, 0); err == nil || !strings.Contains(err.Error(),
		"wall B is 1500 mm long; 1501 mm from its corner with wall A lies beyond it") {
		t.Error(err)
	}
}

// A screen 100 mm thick from wall A at 1100 to 800 up, with the box on the face that looks
// west, 600 along it: a hole through either face meets the leads alike.
func TestHolesInAPartition(t *testing.T) {
	p, r := bath(job.AsLaid, job.PhotoWithTape)
	r.Job.Partitions = []job.Partition{{Name: "Screen", Segment: plane.Segment{A: plane.Pt(1100, 0),
		B: plane.Pt(1100, 800)}, Thickness: 100}}
	r.Job.Thermostat = r.Job.WithBox(r.Job.BoxWalls("screen")[0], 600).Thermostat
	r.Job.Thermostat.Height = 1200
	m := probe.Of(p, r)
	for _, c := range []struct {
		face    string
		along   float64
		verdict probe.Verdict
	}{{"Screen", 600, probe.TooClose}, {"screen, right face", 600, probe.TooClose}, {"Screen, left face", 450,
		probe.TooClose}, {"SCREEN, RIGHT FACE", 450, probe.TooClose}, {"Screen", 440, probe.NothingRecorded},
		{"Screen, right face", 440, probe.NothingRecorded}} {
		s, err := m.WallSpot(c.face, c.along, 900)
		if err != nil {
			t.Fatal(err)
		}
		a := m.OnWall(s)
		if a.Verdict != c.verdict || c.verdict == probe.NothingRecorded && math.Abs(a.Within-10) > 1e-6 {
			t.Errorf("%s at %g: %s within %g", c.face, c.along, a.Verdict, a.Within)
		}
	}
	if s := m.RiseWords(); !strings.Contains(s, "rise in Screen to the box") || !strings.Contains(s,
		"from 450 mm to 750 mm from its start") {
		t.Error(s)
	}
	if _, err := m.WallSpot("Q", 1, 1); err == nil || !strings.Contains(err.Error(), "Screen, left or right face") {
		t.Error(err)
	}
}
