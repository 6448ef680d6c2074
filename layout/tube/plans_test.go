package tube_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// slantedRoom is a room of 3000 x 2400 with a corner cut off, the box on the slant
// or beside it, and a movement joint across it where joint says so.
func slantedRoom(cut, at float64, joint bool) string {
	text := fmt.Sprintf(`units = "mm"
[membrane]
pitch = 30
[[room]]
name = "Slant"
corners = [[0, 0], [3000, 0], [3000, 2400], [%.0f, 2400], [0, %.0f]]
cables = ["A", "B"]
[room.thermostat]
at = [%.0f, 0]
`, cut, 2400-0.7*cut, at)
	if joint {
		text += "[[room.joint]]\nfrom = [1500, 0]\nto = [1500, 2400]\n"
	}
	for _, id := range []string{"A", "B"} {
		text += "[[cable]]\nid = \"" + id + "\"\nvolts = 240\nwatts = 240\nlength = \"30 m\"\nlead = \"6 m\"\n"
	}
	return text
}

// roundRoom has a wall of 20 straight pieces about a circle of 3 m, the box on one
// of them.
func roundRoom(wall int) string {
	var corners []string
	for i := range 20 {
		a := 2 * math.Pi * float64(i) / 20
		corners = append(corners, fmt.Sprintf("[%.0f, %.0f]", 1500+1500*math.Cos(a), 1500+1500*math.Sin(a)))
	}
	return fmt.Sprintf(`units = "mm"
[membrane]
pitch = 30
[[room]]
name = "Round"
corners = [%s]
cables = ["A"]
[room.thermostat]
wall = "%c"
from = 200
[[cable]]
id = "A"
volts = 240
watts = 600
length = "60 m"
lead = "6 m"
`, strings.Join(corners, ", "), 'A'+wall)
}

// TestTubesAreStraight: common practice is a tube of few, wide bends, that passes no
// heating cable, lies on no movement joint and begins at the box. Eight bends are
// those of a way a quarter round a room of many short walls with the turn into the
// gap.
func TestTubesAreStraight(t *testing.T) {
	var rooms []string
	for wall := 0; wall < 20; wall += 5 {
		rooms = append(rooms, roundRoom(wall))
	}
	for i, cut := range []float64{600, 1700} {
		for k, at := range []float64{300, 1500, 2700} {
			rooms = append(rooms, slantedRoom(cut, at, (i+k)%2 == 0))
		}
	}
	laid := 0
	for i, text := range rooms {
		j, report := job.Read("job.toml", []byte(text), nil)
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		p, _ := build.Plan(j)
		for _, s := range p.Rooms[0].Sensors {
			laid++
			checkTube(t, fmt.Sprintf("room %d, %s", i, s.Name), &p.Rooms[0], s)
		}
	}
	if laid < 2*len(rooms)-4 {
		t.Errorf("only %d sensors laid in %d rooms", laid, len(rooms))
	}
}

func checkTube(t *testing.T, name string, r *layout.Room, s layout.Sensor) {
	t.Helper()
	if s.Lead[0] != r.Job.Thermostat.At || s.Lead[len(s.Lead)-1] != s.Tip {
		t.Errorf("%s: the tube runs from %v to %v", name, s.Lead[0], s.Lead[len(s.Lead)-1])
	}
	if bends := len(s.Lead) - 2; bends > 8 {
		t.Errorf("%s: %d bends: %v", name, bends, s.Lead)
	}
	for _, piece := range plane.Segments(s.Lead) {
		for _, c := range r.Cables {
			for _, run := range plane.Segments(c.Path) {
				if piece.Crosses(run) {
					t.Errorf("%s: crosses %s at %v", name, c.ID, run)
				}
			}
		}
		for _, m := range r.Job.Joints {
			along := math.Abs(piece.B.Sub(piece.A).Unit().Dot(m.B.Sub(m.A).Unit()))
			if mid := piece.A.Lerp(piece.B, 0.5); along > 0.9 && piece.Length() > 100 && m.Distance(mid) < m.Clear/2 {
				t.Errorf("%s: lies on the joint from %v to %v", name, piece.A, piece.B)
			}
		}
	}
}

// TestTubePastAJointIsSaid: a sensor whose tube passes a joint is named with it.
func TestTubePastAJointIsSaid(t *testing.T) {
	r := layout.Room{Job: &job.Room{Joints: []job.Joint{{Segment: plane.Segment{A: plane.Pt(100, 0),
		B: plane.Pt(100, 500)}}}}}
	r.Sensors = []layout.Sensor{{Name: "S1", Lead: []plane.Point{plane.Pt(0, 50), plane.Pt(200, 50)}},
		{Name: "S2", Lead: []plane.Point{plane.Pt(0, 50), plane.Pt(90, 50)}}}
	if x := r.JointCrossings(); len(x) != 1 || fmt.Sprint(x[0].Leads) != "[tube of S1]" {
		t.Errorf("%+v", x)
	}
}

var tubeRooms = flag.Int("tube.rooms", 6, "how many random rooms TestEveryPlanKeepsTubesClear plans")

// TestEveryPlanKeepsTubesClear: in no room does a planned tube touch heating cable,
// lie on a lead joint or leave the floor; what has no place is said.
func TestEveryPlanKeepsTubesClear(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	laid := 0
	for i := range *tubeRooms {
		j, report := job.Read("job.toml", []byte(trial.SomeRoom(rnd)), nil)
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		p, found := build.Plan(j)
		r := &p.Rooms[0]
		said := false
		for _, d := range found {
			said = said || d.ID == "W101"
		}
		if len(r.Cables) > 0 && said == (len(r.Sensors) == 2) {
			t.Errorf("room %d: %d sensors, W101 said: %v", i, len(r.Sensors), said)
		}
		for _, s := range r.Sensors {
			laid++
			keepsClear(t, fmt.Sprintf("room %d, %s", i, s.Name), r, s)
		}
	}
	if laid < *tubeRooms {
		t.Errorf("only %d sensors in %d rooms", laid, *tubeRooms)
	}
}

// offCable and offJoint are what keeps a tube of some 12 mm off a cable of 6 mm and
// a lead joint of up to 20 mm, centre line to centre line, mm (common practice).
const (
	offCable = 8 - 0.5
	offJoint = 18 - 0.5
)

func keepsClear(t *testing.T, name string, r *layout.Room, s layout.Sensor) {
	t.Helper()
	for _, c := range r.Cables {
		for _, piece := range plane.Segments(s.Lead) {
			for _, run := range plane.Segments(c.Path) {
				if d := piece.Gap(run); d < offCable {
					t.Errorf("%s: %.1f mm from %s", name, d, c.ID)
				}
			}
		}
		joints := c.Path[:1]
		if c.Return != nil {
			joints = []plane.Point{c.Path[0], c.Path[len(c.Path)-1]}
		}
		for _, at := range joints {
			if d := plane.PathDistance(s.Lead, at); d < offJoint {
				t.Errorf("%s: %.1f mm from a lead joint of %s", name, d, c.ID)
			}
		}
	}
	outside := plane.FromRing(r.Job.Outline)
	for _, piece := range plane.Segments(s.Lead) {
		for d := 0.0; d < piece.Length(); d++ {
			if out := -outside.Depth(piece.At(d)); out > 1.5 {
				t.Fatalf("%s: %.0f mm off the floor", name, out)
			}
		}
	}
}

// smallRoom is a floor w by h mm with cables of so many metres each, the box at x on the south
// wall.
func smallRoom(w, h float64, cables int, metres, x float64) string {
	text, ids := "", []string{}
	for i := range cables {
		ids = append(ids, fmt.Sprintf("%q", fmt.Sprintf("C%d", i)))
		text += fmt.Sprintf("[[cable]]\nid = \"C%d\"\nvolts = 240\nwatts = %.0f\nlength = \"%g m\"\nlead = \"4 m\"\n",
			i, metres*16, metres)
	}
	return fmt.Sprintf("units = \"mm\"\n[membrane]\npitch = 30\n[[room]]\nname = \"Small\"\n"+
		"corners = [[0, 0], [%g, 0], [%g, %g], [0, %g]]\ncables = [%s]\n[room.thermostat]\nat = [%g, 0]\n",
		w, w, h, h, strings.Join(ids, ", "), x) + text
}

// Small floors on which leads lie in the way of the tubes, or the spare's tube in that of the
// sensor: both are placed, away from each other, their tubes clear of cable and lead joints;
// where a lead can be moved for them, none is crossed.
func TestTubesAmongLeads(t *testing.T) {
	for _, k := range []struct {
		name    string
		text    string
		crossed int // leads that lie under a tube beyond the foot of the box
	}{
		{"lead moved", smallRoom(2200, 1200, 1, 24.8, 600), 0},
		{"lead moved and tubes turned", smallRoom(1400, 1600, 1, 21.1, 800), 0},
		{"tubes turned", smallRoom(2100, 1500, 2, 12.9, 700), 0},
		{"lead crossed", smallRoom(2100, 1200, 1, 20.3, 900), 1},
	} {
		j, report := job.Read("job.toml", []byte(k.text), nil)
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		p, _ := build.Lay(j, build.Search{})
		r := &p.Rooms[0]
		if len(r.Sensors) != 2 || r.Sensors[0].Name != "S1" || r.Sensors[0].Spare || r.Sensors[1].Name != "S2" ||
			!r.Sensors[1].Spare {
			t.Errorf("%s: %+v", k.name, r.Sensors)
			continue
		}
		if d := r.Sensors[0].Tip.Dist(r.Sensors[1].Tip); d < 600 {
			t.Errorf("%s: tips %.0f mm apart", k.name, d)
		}
		crossed := 0
		for _, s := range r.Sensors {
			checkTube(t, k.name+", "+s.Name, r, s)
			keepsClear(t, k.name+", "+s.Name, r, s)
			for _, c := range r.Cables {
				if leadUnder(r, s.Lead, c.ColdLead) {
					crossed++
				}
			}
		}
		if crossed != k.crossed {
			t.Errorf("%s: %d leads lie under a tube, want %d", k.name, crossed, k.crossed)
		}
	}
}

// leadUnder tells whether a lead comes to within 10 mm of a tube, 100 mm and more from the box.
func leadUnder(r *layout.Room, tube, lead []plane.Point) bool {
	for _, s := range plane.Segments(tube) {
		for d := 0.0; d < s.Length(); d += 5 {
			if at := s.At(d); at.Dist(r.Job.Thermostat.At) > 100 && plane.PathDistance(lead, at) < 10 {
				return true
			}
		}
	}
	return false
}
