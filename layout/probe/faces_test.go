package probe_test

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/record"
)

// A wall is 2000 mm long from its corner to its end, both of which are on it; what lies
// beyond is said with its length, and what is no wall with those there are.
func TestPlacesAlongAFace(t *testing.T) {
	m := wallMap(job.AsLaid)
	for _, k := range []struct {
		wall  string
		along float64
		wrong string
	}{
		{"A", 0, ""}, {"A", 0.5, ""}, {"A", 2000, ""}, {"wall a", 1, ""}, {"B", 1500, ""},
		{"A", 2001, "wall A is 2000 mm long; 2001 mm from its corner with wall D lies beyond it"},
		{"A", -1, "wall A is 2000 mm long"}, {"B", 1501, "wall B is 1500 mm long"}, {"E", 1, `has no wall "E"`},
	} {
		s, err := m.WallSpot(k.wall, k.along, 900)
		if k.wrong != "" && (err == nil || !strings.Contains(err.Error(), k.wrong)) || k.wrong == "" && (err != nil ||
			s.Along != k.along || s.Up != 900) {
			t.Errorf("%s at %g: %+v, %v", k.wall, k.along, s, err)
		}
	}
	for i, want := range [][2]string{{"D", "B"}, {"A", "C"}, {"B", "D"}, {"C", "A"}} {
		if got := m.Faces[i].Next; got != want {
			t.Errorf("beside wall %s: %v", m.Walls[i].Letter, got)
		}
	}
}

// Along a curved wall lengths are counted from where the curve starts, over all its sides:
// 700 mm are 200 on the second of two of 500 mm.
func TestPlacesAlongACurve(t *testing.T) {
	side := func(x, start float64) probe.Face {
		return probe.Face{Called: "wall C", Letter: "C", Part: "wall C", From: "its start, along the curve",
			Start: start, Line: plane.Segment{A: plane.Pt(x, 0), B: plane.Pt(x+500, 0)}}
	}
	m := &probe.Map{Faces: []probe.Face{side(0, 0), side(500, 500),
		{Called: "wall D", Letter: "D", Line: plane.Segment{B: plane.Pt(9000, 0)}}}}
	for along, want := range map[float64]probe.WallSpot{0: {Face: 0}, 499: {Face: 0, Along: 499}, 500: {Face: 0,
		Along: 500}, 501: {Face: 1, Along: 1}, 700: {Face: 1, Along: 200}, 1000: {Face: 1, Along: 500}} {
		if got, err := m.WallSpot("C", along, 0); err != nil || got != want {
			t.Errorf("%g mm along: %+v, %v", along, got, err)
		}
	}
	if _, err := m.WallSpot("C", 1001, 0); err == nil ||
		err.Error() != "wall C is 1000 mm long; 1001 mm from its start, along the curve lies beyond it" {
		t.Error(err)
	}
}

// From a hole in a partition the leads in a wall are as far as they are from the mouth: a
// screen 100 mm thick from wall A at 1100 has its right face at 1150, 350 mm from 1500.
func TestLeadsInAWallFromAPartition(t *testing.T) {
	p, r := bath(job.AsLaid, job.PhotoWithTape)
	r.Job.Thermostat.Height = 1200
	r.Job.Partitions = []job.Partition{{Name: "Screen", Segment: plane.Segment{A: plane.Pt(1100, 0),
		B: plane.Pt(1100, 800)}, Thickness: 100}}
	m := probe.Of(p, r)
	for face, want := range map[string]float64{"Screen, right face": 350 - 150, "Screen, left face": 450 - 150} {
		s, err := m.WallSpot(face, 0, 900)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range m.OnWall(s).Near {
			if n.Kind == probe.LeadRise && math.Abs(n.Clear-want) > 1e-6 {
				t.Errorf("%s: %g mm left, want %g", face, n.Clear, want)
			}
		}
	}
}

// A lead that ends just as far from the wall as the rise is deep comes up there.
func TestLeadsAtTheDepthOfTheRise(t *testing.T) {
	for off, from := range map[float64]float64{layout.RiseDepth(plane.Millimetres): 1100,
		layout.RiseDepth(plane.Millimetres) + 1: 1500} {
		p, r := bath(job.AsLaid, job.PhotoWithTape)
		r.Sensors, r.Cables[0].ColdLead = nil, []plane.Point{{X: 1100, Y: off}, {X: 1100, Y: 900}}
		if got := probe.Of(p, r).Rise().Line[0]; got.Dist(plane.Pt(from, 0)) > 1e-6 {
			t.Errorf("a lead %g mm off the wall: from %v", off, got)
		}
	}
}

// The joint at a cable's other end has the last of the cable and of its lead with it.
func TestJointsReachAlongTheirOwnEnds(t *testing.T) {
	p, r := bath(job.AsLaid, job.PhotoWithTape)
	c := &r.Cables[0]
	c.Label.Ends, c.Return = circuit.BothEnds, []plane.Point{{X: 620, Y: 200}, {X: 1500, Y: 200}, {X: 1500, Y: 0}}
	joints := things(probe.Of(p, r), probe.LeadJoint)
	if len(joints) != 2 || joints[0].Mark != c.Path[0] || joints[1].Mark != c.Path[3] {
		t.Fatalf("%+v", joints)
	}
	for _, j := range joints {
		long := plane.PathLength(j.Line)
		for _, q := range j.Line {
			if off := q.Dist(j.Mark); off > long/2+1 || long < 100 {
				t.Errorf("%s: %v is %g mm off its joint at %v", j.Name, q, off, j.Mark)
			}
		}
	}
	line := joints[1].Line
	lead, cable := line[0], line[len(line)-1]
	if lead.Y != 200 || lead.X <= 620 || cable.X != 620 || cable.Y <= 200 {
		t.Errorf("joint 2 reaches along %v", line)
	}
}

// Of the cables recorded as laid those are named of which a test was never made.
func TestStagesNeverTested(t *testing.T) {
	missing := func(stages ...record.Stage) (out []record.Verdict) {
		for _, s := range stages {
			out = append(out, record.Verdict{Grade: record.Missing, Reading: -1, Stage: s})
		}
		return out
	}
	_, r := comb(job.AsLaid, job.PhotoWithTape)
	if got := probe.Untested(r, language.English); got != nil {
		t.Errorf("all were tested: %q", got)
	}
	r.Cables[1].Verdicts = missing(record.Tiled)
	hold(t, probe.Untested(r, language.English), []string{`H2 was not tested at stage "tiled": see its test record.`})
	r.Cables[0].Verdicts = missing(record.Covered, record.Tiled, record.Grouted)
	hold(t, probe.Untested(r, language.English), []string{
		`H1 was not tested at stages "covered", "tiled" and "grouted": see its test record.`,
		`H2 was not tested at stage "tiled": see its test record.`})
	r.Cables[0].Laid = nil
	hold(t, probe.Untested(r, language.English), []string{`H2 was not tested at stage "tiled": see its test record.`})
}
