package build_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

func TestThreeAreasAreThree(t *testing.T) {
	for _, name := range trial.Examples {
		for _, r := range trial.Example(t, name).Rooms {
			f, tl, h := r.Floor.Area(), r.Tiled.Area(), r.Heated.Area()
			if !(h < tl && tl <= f) {
				t.Errorf("%s: heated %.0f, tiled %.0f, floor %.0f: each is part of the next", name, h, tl, f)
			}
		}
	}
}

// A bath of 1600 x 2400 with a tub of 1600 x 760: all areas by hand.
func TestAreasByHand(t *testing.T) {
	p, found := build.Plan(trial.Read(t, "hand.toml", []byte(trial.Hand)))
	if len(found) > 0 {
		t.Log(found)
	}
	r := p.Rooms[0]
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"floor", r.Floor.Area(), 1600 * 2400},
		{"tiled", r.Tiled.Area(), 1600 * 1640},
		{"heated", r.Heated.Area(), 1450 * (1640 - 75 - 50)},
	} {
		if math.Abs(c.got-c.want) > 200 { // clearances are kept 0.2 % over: 0.1 mm along 1450
			t.Errorf("%s area %.0f mm², by hand %.0f", c.what, c.got, c.want)
		}
	}
}

func TestEveryCableIsUsedUp(t *testing.T) {
	for _, name := range trial.Examples {
		for _, r := range trial.Example(t, name).Rooms {
			for _, c := range r.Cables {
				if math.Abs(c.Routed-c.Label.Length) > 0.5 {
					t.Errorf("%s %s: %.2f mm routed of %.2f", name, c.ID, c.Routed, c.Label.Length)
				}
			}
		}
	}
}

func TestLeadsReachAndCrossNoCable(t *testing.T) {
	for _, name := range trial.Examples {
		for _, r := range trial.Example(t, name).Rooms {
			for _, c := range r.Cables {
				if n := plane.PathLength(c.ColdLead); n > c.LeadReach+0.5 {
					t.Errorf("%s %s: lead runs %.0f mm over the floor, %.0f are there", name, c.ID, n, c.LeadReach)
				}
				crossesNothing(t, fmt.Sprintf("%s: cold lead of %s", name, c.ID), c.ColdLead, r.Cables)
			}
		}
	}
}

// crossesNothing checks a lead against every cable but where it joins one.
func crossesNothing(t *testing.T, what string, lead []plane.Point, cables []layout.Cable) {
	t.Helper()
	for i := 1; i < len(lead); i++ {
		s := plane.Segment{A: lead[i-1], B: lead[i]}
		for _, c := range cables {
			for k := 1; k < len(c.Path); k++ {
				if s.Crosses(plane.Segment{A: c.Path[k-1], B: c.Path[k]}) {
					t.Errorf("%s crosses %s between %v and %v", what, c.ID, s.A, s.B)
				}
			}
		}
	}
}

// Common practice: the tip lies midway between two parallel runs, at least
// 150 mm (6 in) inside the heated area, its lead crossing no heating cable, and
// the spare lies elsewhere.
func TestSensors(t *testing.T) {
	for _, name := range trial.Examples {
		for _, r := range trial.Example(t, name).Rooms {
			if len(r.Sensors) != 2 || r.Sensors[0].Spare || !r.Sensors[1].Spare {
				t.Fatalf("%s: sensors %+v; want one and a spare", name, r.Sensors)
			}
			for _, s := range r.Sensors {
				if d := r.Heated.Depth(s.Tip); d < 150 {
					t.Errorf("%s %s: %.0f mm inside the heated area", name, s.Name, d)
				}
				midway(t, name+" "+s.Name, s.Tip, r.Cables)
				crossesNothing(t, name+": lead of "+s.Name, s.Lead, r.Cables)
				if s.Lead[0] != r.Job.Thermostat.At || s.Lead[len(s.Lead)-1] != s.Tip {
					t.Errorf("%s %s: lead from %v to %v", name, s.Name, s.Lead[0], s.Lead[len(s.Lead)-1])
				}
			}
			if d := r.Sensors[0].Tip.Dist(r.Sensors[1].Tip); d < 300 {
				t.Errorf("%s: the spare is only %.0f mm from the sensor", name, d)
			}
		}
	}
}

// midway checks that the two nearest runs on opposite sides are equally far.
func midway(t *testing.T, what string, tip plane.Point, cables []layout.Cable) {
	t.Helper()
	var near []plane.Point
	best := math.Inf(1)
	for _, c := range cables {
		for k := 1; k < len(c.Path); k++ {
			q, _ := plane.Segment{A: c.Path[k-1], B: c.Path[k]}.Nearest(tip)
			best = math.Min(best, q.Dist(tip))
			near = append(near, q)
		}
	}
	for _, q := range near {
		for _, o := range near {
			a, b := q.Sub(tip), o.Sub(tip)
			if a.Norm() < best+1 && b.Norm() < best+1 && a.Dot(b) < -0.99*a.Norm()*b.Norm() {
				return
			}
		}
	}
	t.Errorf("%s at %v is not midway between two runs; the nearest is %.1f mm away", what, tip, best)
}

func TestRunsAndMarks(t *testing.T) {
	for _, name := range trial.Examples {
		for _, r := range trial.Example(t, name).Rooms {
			for _, c := range r.Cables {
				last := c.Runs[len(c.Runs)-1].RunningEnd
				// the end cap may lie on a turn, past the last run
				if past := c.Routed - last; past < -1 || past > 150 {
					t.Errorf("%s %s: the last run ends at %.0f of %.0f mm", name, c.ID, last, c.Routed)
				}
				for i, run := range c.Runs {
					if run.Number != i+1 || i > 0 && run.RunningEnd <= c.Runs[i-1].RunningEnd {
						t.Errorf("%s %s: run %d is numbered %d and ends at %.0f", name, c.ID, i+1, run.Number,
							run.RunningEnd)
					}
				}
				half := c.Halfway()
				if math.Abs(half.Along-c.Routed/2) > 0.01 {
					t.Errorf("%s %s: half-way mark at %.1f of %.1f mm", name, c.ID, half.Along, c.Routed)
				}
				onPath(t, name+" "+c.ID, half.At, c)
			}
		}
	}
}

// onPath checks that a mark's point and running length belong together, by
// walking the rounded line's samples.
func onPath(t *testing.T, what string, at plane.Point, c layout.Cable) {
	t.Helper()
	best, along := math.Inf(1), 0.0
	for _, s := range route.Samples(c.Path, c.BendRadius, 2) {
		if d := s.At.Dist(at); d < best {
			best, along = d, s.Along
		}
	}
	if best > 0.45*c.BendRadius || math.Abs(along-c.Routed/2) > 3+c.BendRadius {
		t.Errorf("%s: half-way mark is %.1f mm off the line, at %.1f mm along it", what, best, along)
	}
}

func TestLayoutFileReadsBack(t *testing.T) {
	p := trial.Example(t, "bath.toml")
	var a, b bytes.Buffer
	if err := p.WriteFile(&a); err != nil {
		t.Fatal(err)
	}
	if err := trial.ExampleAgain(t, "bath.toml").WriteFile(&b); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("the same job gives two layout files")
	}
	var got struct {
		Schema int
		Unit   string
		Rooms  []struct {
			Cables []struct {
				ID     string
				Length float64 `json:"length_mm"`
				Bend   float64 `json:"bend_radius_mm"`
				Path   [][2]float64
			}
		}
	}
	if err := json.Unmarshal(a.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	c := got.Rooms[0].Cables[0]
	var path []plane.Point
	for _, q := range c.Path {
		path = append(path, plane.Pt(q[0], q[1]))
	}
	if got.Schema != 1 || got.Unit != "mm" || math.Abs(route.Length(path, c.Bend)-c.Length) > 0.5 {
		t.Errorf("schema %d, unit %q, %s is %.2f mm along its written path, %.2f as bought", got.Schema, got.Unit, c.ID,
			route.Length(path, c.Bend), c.Length)
	}
}

// What does not fit is refused with what would, never squeezed in.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		name, from, to, message, hint string
	}{
		{"far too long", `length = "26 m"`, `length = "40 m"`,
			"of 40.0 m is too long, with the closest gaps allowed; this zone takes", ""},
		{"far too short", `length = "26 m"`, `length = "6.6 m"`, "this zone takes", ""},
		{"too much heat", "watts = 260\nlength = \"26 m\"", "watts = 1400\nlength = \"40 m\"",
			"W/m²; tiled floors are given", "were meant for it"},
		{"lead too short", `lead = "4 m"`, `lead = "1 m"`, "does not reach the floor", "lower the box"},
		{"no floor", `wall = 75`, `wall = 900`, "no floor left for cable", "check the room's size"},
	} {
		_, found := build.Plan(trial.Read(t, c.name, []byte(strings.Replace(trial.Hand, c.from, c.to, 1))))
		ok := false
		for _, d := range found {
			ok = ok || d.Severity == job.Error && strings.Contains(d.Message, c.message) && strings.Contains(d.Hint,
				c.hint)
		}
		if !ok {
			t.Errorf("%s: got %+v; want an error saying %q, hint %q", c.name, found, c.message, c.hint)
		}
	}
}

func TestSupplyUnlikeTheLabel(t *testing.T) {
	text := strings.Replace(trial.Hand, "[membrane]", "[supply]\nvolts = 120\n[membrane]", 1)
	_, found := build.Plan(trial.Read(t, "supply.toml", []byte(text)))
	for _, d := range found {
		if d.Severity == job.Error && strings.Contains(d.Message, "25") && strings.Contains(d.Hint, "120 V") {
			return // half the volts give a quarter of the heat: P ~ V²
		}
	}
	t.Errorf("a 240 V cable on 120 V: got %+v; want an error with the heat it would give", found)
}

// A job with layers has what lies over its membrane on the cable, one without
// its tile and bed, which are defaults unless the job gives both.
func TestCoverOverTheCable(t *testing.T) {
	type cover struct {
		mm   float64
		from job.Source
	}
	for name, want := range map[string]cover{"kitchen.toml": {10 + 4, job.FromJob},
		"entry.toml": {10 + 3.4, job.FromDefault}} {
		if mm, from := trial.Example(t, name).Cover(); mm != want.mm || from != want.from {
			t.Errorf("%s: %.2f mm (%s), want %.2f (%s)", name, mm, from, want.mm, want.from)
		}
	}
}
