package layout

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
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
	for wall := 0; wall < 20; wall += 2 {
		rooms = append(rooms, roundRoom(wall))
	}
	for _, cut := range []float64{600, 1200, 1700} {
		for _, at := range []float64{300, 1500, 2700} {
			for _, joint := range []bool{false, true} {
				rooms = append(rooms, slantedRoom(cut, at, joint))
			}
		}
	}
	laid := 0
	for i, text := range rooms {
		j, report := job.Read("job.toml", []byte(text), nil)
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		p, _ := Build(j)
		for _, s := range p.Rooms[0].Sensors {
			laid++
			checkTube(t, fmt.Sprintf("room %d, %s", i, s.Name), &p.Rooms[0], s)
		}
	}
	if laid < 2*len(rooms)-4 {
		t.Errorf("only %d sensors laid in %d rooms", laid, len(rooms))
	}
}

func checkTube(t *testing.T, name string, r *Room, s Sensor) {
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

// TestStraightenKeepsOff: a straightened way has the ends of the way and is no
// longer, bends less, and crosses nothing that the way does not cross.
func TestStraightenKeepsOff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		way := []plane.Point{plane.Pt(0, 0)}
		for _, up := range rapid.SliceOfN(rapid.Bool(), 2, 40).Draw(t, "up") {
			step := plane.Pt(15, 0)
			if up {
				step = plane.Pt(0, 15)
			}
			way = append(way, way[len(way)-1].Add(step))
		}
		f := tubeFloor{foot: plane.Pt(-1000, -1000), off: margins{cable: 20, wall: 10}}
		mm := rapid.IntRange(-100, 700)
		for range rapid.IntRange(0, 6).Draw(t, "lines") {
			a := plane.Pt(float64(mm.Draw(t, "x")), float64(mm.Draw(t, "y")))
			b := plane.Pt(float64(mm.Draw(t, "x")), float64(mm.Draw(t, "y")))
			if line := []plane.Point{a, b}; a != b && crossings(way, line) == 0 {
				f.add(matter(rapid.IntRange(int(cable), int(wall)).Draw(t, "what")), line)
			}
		}
		out := f.straighten(way, nil, nil)
		if out[0] != way[0] || out[len(out)-1] != way[len(way)-1] {
			t.Fatalf("from %v to %v, the way from %v to %v", out[0], out[len(out)-1], way[0], way[len(way)-1])
		}
		if plane.PathLength(out) > plane.PathLength(way)+1e-6 {
			t.Fatalf("%.1f mm, the way is %.1f mm", plane.PathLength(out), plane.PathLength(way))
		}
		if len(corners(out)) > len(corners(way)) {
			t.Fatalf("%d points, the way has %d", len(corners(out)), len(corners(way)))
		}
		for _, l := range f.lines {
			if crossings(out, []plane.Point{l.A, l.B}) > 0 {
				t.Fatalf("%v crosses %v", out, l.Segment)
			}
		}
	})
}

// TestTubesPassNoCable: whatever runs of unequal length stand at the mouth of a
// gap, and a fixture beside it, a tube to any place for a tip crosses no cable and
// does not leave the floor: common practice.
func TestTubesPassNoCable(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		r, j := unevenRuns(t)
		floor, err := r.leadFloor()
		if err != nil {
			t.Fatal(err)
		}
		g := r.tubeGround(floor, j)
		for _, p := range everyPlace(g) {
			drawn++
			tube := g.tube(p)
			if n := crossings(tube, r.Cables[0].Path); n > 0 {
				t.Fatalf("crosses cable %d times: %v", n, tube)
			}
			for _, piece := range plane.Segments(tube) {
				for d := 0.0; d < piece.Length(); d += 10 {
					if out := -floor.Depth(piece.At(d)); out > 0.5 {
						t.Fatalf("%.0f mm off the floor at %v: %v", out, piece.At(d), tube)
					}
				}
			}
		}
	})
	if drawn == 0 {
		t.Error("no tube was drawn")
	}
}

// everyPlace lists the places for tips that can be reached, one in seven, each
// with its way.
func everyPlace(g tubeGround) (out []sensorPlace) {
	start := g.walk.around(g.foot, footNear, func(p plane.Point) bool {
		return g.clear(plane.Segment{A: g.foot, B: p}, &margins{})
	})
	seen := map[int32]bool{}
	g.walk.run(start, func(state int, _ int32) bool {
		for k := g.first[state/4]; k >= 0; k = g.all[k].next {
			if k%7 == 0 && !seen[k] {
				seen[k] = true
				p := g.all[k]
				p.way = g.walk.way(state)
				out = append(out, p)
			}
		}
		return false
	})
	return out
}

// unevenRuns is a room with a cable that goes up and down, each run ending where
// it likes, and perhaps a fixture under some of them.
func unevenRuns(t *rapid.T) (*Room, *job.Job) {
	const pitch = 30.0
	pegs := func(name string, low, high int) float64 {
		return pitch * float64(rapid.IntRange(low, high).Draw(t, name))
	}
	x, y := 90.0, 180.0
	path := []plane.Point{plane.Pt(x, y)}
	hook := pegs("hook", 0, 5)
	if hook > 0 { // the cable begins half across the mouth of its first gap
		path = []plane.Point{plane.Pt(x+hook, y-60), plane.Pt(x+hook, y), plane.Pt(x, y)}
	}
	foot := pegs("foot", 3, 40)
	zone := plane.Rectangle(plane.Pt(90, 90), plane.Pt(2400, 1410))
	room := &job.Room{Outline: plane.Rectangle(plane.Pt(0, 0), plane.Pt(2490, 1500)), Thermostat: job.Thermostat{At: plane.Pt(foot, 0)}}
	for up := true; x < 2100; up = !up {
		last := path[len(path)-1].Y
		if y = pegs("end", 24, 46); !up {
			y = pegs("end", 4, 22)
		}
		if rapid.IntRange(0, 2).Draw(t, "short") == 0 { // a run of a few pegs, so that the next ends beside this one
			y = last + pegs("a few", 2, 6)
			if !up {
				y = last - pegs("a few", 2, 6)
			}
		}
		if up {
			y = min(1410, max(y, last+60))
		} else {
			y = max(90, min(y, last-60))
		}
		if hook > 0 && !up { // the next run faces the whole of the first
			y, hook = 120, 0
		}
		path = append(path, plane.Pt(x, y))
		x += pegs("gap", 2, 5)
		if up {
			x += hook
		}
		path = append(path, plane.Pt(x, y))
	}
	if depth := pegs("depth", 0, 6); depth > 0 {
		low := math.Inf(1)
		from := pegs("from", 0, 60)
		for _, q := range path {
			if q.X > from-60 && q.X < from+360 {
				low = min(low, q.Y)
			}
		}
		if low > depth+40 && (foot < from-30 || foot > from+330) {
			room.Fixtures = append(room.Fixtures, job.Fixture{Outline: plane.Rectangle(plane.Pt(from, 0), plane.Pt(from+300, depth))})
		}
	}
	r := &Room{Job: room, Floor: plane.FromRing(room.Outline), Zones: []plane.Region{plane.FromRing(zone)}}
	r.Cables = []Cable{{Path: path, Spacing: 90, Lattice: route.Lattice{Pitch: pitch}}}
	j := &job.Job{}
	j.Membrane.Pitch, j.Spacing.Closest = pitch, 2
	return r, j
}

// crossings counts where two lines cross or touch.
func crossings(a, b []plane.Point) (n int) {
	for _, s := range plane.Segments(a) {
		for _, o := range plane.Segments(b) {
			if s.Meets(o) {
				n++
			}
		}
	}
	return n
}

// TestTubePastAJointIsSaid: a sensor whose tube passes a joint is named with it.
func TestTubePastAJointIsSaid(t *testing.T) {
	r := Room{Job: &job.Room{Joints: []job.Joint{{Segment: plane.Segment{A: plane.Pt(100, 0), B: plane.Pt(100, 500)}}}}}
	r.Sensors = []Sensor{{Name: "S1", Lead: []plane.Point{plane.Pt(0, 50), plane.Pt(200, 50)}}, {Name: "S2", Lead: []plane.Point{plane.Pt(0, 50), plane.Pt(90, 50)}}}
	if x := r.JointCrossings(); len(x) != 1 || strings.Join(x[0].Leads, ", ") != "tube of S1" {
		t.Errorf("%+v", x)
	}
}
