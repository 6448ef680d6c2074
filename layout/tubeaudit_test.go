package layout

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// nearest is the least distance of a line, looked at each millimetre, from another.
func nearest(line, other []plane.Point) float64 {
	least := 1e9
	for _, s := range plane.Segments(line) {
		for n, k := int(s.Length())+1, 0; k <= n; k++ {
			least = min(least, plane.PathDistance(other, s.A.Lerp(s.B, float64(k)/float64(n))))
		}
	}
	return least
}

// A tube is some 12 mm thick, a cable 6 mm and a lead joint up to 20 mm
// (common practice): 8 mm and 18 mm between centre lines keep them apart under tile,
// where the pitches below leave as much between two runs.
const (
	offCable = 8 - 0.5
	offJoint = 18 - 0.5
)

// TestTubesKeepOffCableAndJoints: whatever runs stand at the mouth of a gap, a tube
// that is found for a place keeps off cable and lead joint; most places have one.
func TestTubesKeepOffCableAndJoints(t *testing.T) {
	tried, laid := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r, j := unevenRuns(t)
		floor, err := r.leadFloor()
		if err != nil {
			t.Fatal(err)
		}
		g := r.tubeGround(floor, j)
		start := r.Cables[0].Path[0]
		for _, p := range everyPlace(g) {
			tried++
			q, tube := r.placeWithTube(&g, &p)
			if tube == nil {
				continue
			}
			if q.tip == p.tip {
				laid++
			}
			if d := nearest(tube, r.Cables[0].Path); d < offCable {
				t.Fatalf("%.1f mm from cable: %v", d, tube)
			}
			if d := nearest(tube, []plane.Point{start, start}); d < offJoint {
				t.Fatalf("%.1f mm from the lead joint: %v", d, tube)
			}
		}
	})
	if laid < tried*8/10 {
		t.Errorf("%d of %d places reached", laid, tried)
	}
}

// someRoom is a rectangle or an L with one to four cables that about fill it, laid
// on a membrane of any pitch, the box anywhere on the first wall.
func someRoom(rnd *rand.Rand) string {
	pitch := []float64{30, 37.5, 60, 120}[rnd.IntN(4)]
	w, h := 2000+2000*rnd.Float64(), 1800+1500*rnd.Float64()
	if pitch > 100 {
		w, h = 2*w, 2*h
	}
	area, corners := w*h, fmt.Sprintf("[0, 0], [%.0f, 0], [%.0f, %.0f], [0, %.0f]", w, w, h, h)
	if rnd.IntN(2) > 0 {
		area, corners = 0.75*area, fmt.Sprintf("[0, 0], [%.0f, 0], [%.0f, %.0f], [%.0f, %.0f], [%.0f, %.0f], [0, %.0f]", w, w, h/2, w/2, h/2, w/2, h, h)
	}
	text := fmt.Sprintf("units = \"mm\"\n[membrane]\npitch = %v\nbend_radius = %v\n[spacing]\nclosest = %d\nwidest = 4\n", pitch, min(pitch/2, 25), 1+int(60/pitch)/2)
	n, ends := 1+rnd.IntN(4), []string{"one", "one", "both"}[rnd.IntN(3)]
	length := (area - 2*(w+h)*60) / (2.9 * pitch) / float64(n)
	ids := ""
	for k := range n {
		text += fmt.Sprintf("[[cable]]\nid = \"C%d\"\nvolts = 240\nwatts = %.0f\nlength = \"%.0f mm\"\nlead = \"12 m\"\nends = %q\n", k, length/100, length, ends)
		ids += fmt.Sprintf("%q, ", fmt.Sprintf("C%d", k))
	}
	return text + fmt.Sprintf("[[room]]\nname = \"Some\"\ncorners = [%s]\ncables = [%s]\n[room.thermostat]\nat = [%.0f, 0]\n", corners, ids, w*(0.1+0.8*rnd.Float64()))
}

// TestEveryPlanKeepsTubesClear: in no room does a planned tube touch heating cable,
// lie on a lead joint or leave the floor; what has no place is said.
func TestEveryPlanKeepsTubesClear(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	laid := 0
	for i := range 24 {
		j, report := job.Read("job.toml", []byte(someRoom(rnd)), nil)
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		p, found := Build(j)
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
	if laid < 24 {
		t.Errorf("only %d sensors in 24 rooms", laid)
	}
}

func keepsClear(t *testing.T, name string, r *Room, s Sensor) {
	t.Helper()
	for _, c := range r.Cables {
		if d := nearest(s.Lead, c.Path); d < offCable {
			t.Errorf("%s: %.1f mm from %s", name, d, c.ID)
		}
		joints := c.Path[:1]
		if c.Return != nil {
			joints = []plane.Point{c.Path[0], c.Path[len(c.Path)-1]}
		}
		for _, at := range joints {
			if d := nearest(s.Lead, []plane.Point{at, at}); d < offJoint {
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

// TestAuditLeavesOut: a tube over the cable, one at its lead joint and one through
// the wall are each left out, and the one that remains is the sensor.
func TestAuditLeavesOut(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000)))
	r := &Room{Cables: []Cable{{Path: []plane.Point{plane.Pt(300, 300), plane.Pt(300, 900)}}}}
	tube := func(pts ...plane.Point) Sensor { return Sensor{Name: "S2", Spare: true, Lead: pts} }
	good := tube(plane.Pt(500, 0), plane.Pt(500, 800))
	for what, bad := range map[string]Sensor{
		"over the cable":     tube(plane.Pt(200, 500), plane.Pt(400, 500)),
		"beside the cable":   tube(plane.Pt(307, 500), plane.Pt(307, 600)),
		"at the lead joint":  tube(plane.Pt(200, 285), plane.Pt(400, 285)),
		"through the wall":   tube(plane.Pt(900, 100), plane.Pt(1050, 200), plane.Pt(900, 300)),
		"without any length": tube(plane.Pt(900, 100)),
	} {
		kept := r.auditTubes(floor, []Sensor{bad, good}, 20)
		if len(kept) != 1 || kept[0].Lead[0] != good.Lead[0] || kept[0].Name != "S1" || kept[0].Spare {
			t.Errorf("%s: %+v", what, kept)
		}
	}
}
