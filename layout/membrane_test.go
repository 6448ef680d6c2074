package layout

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A joint across a floor of 3 m with an island of 1 m in its way lies on tile
// for 2 m.
func TestJointIsMeasuredOnTile(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)))
	tiled, err := floor.Less(plane.FromRing(plane.Rectangle(plane.Pt(1000, 500), plane.Pt(2000, 1500))))
	if err != nil {
		t.Fatal(err)
	}
	r := Room{Tiled: tiled}
	for _, c := range []struct {
		a, b plane.Point
		want float64
	}{
		{plane.Pt(0, 1000), plane.Pt(3000, 1000), 2000},
		{plane.Pt(-200, 1000), plane.Pt(800, 1000), 800},
		{plane.Pt(0, 200), plane.Pt(3000, 200), 3000},
		{plane.Pt(1200, 1000), plane.Pt(1800, 1000), 0},
	} {
		if got := r.onTile(plane.Segment{A: c.a, B: c.b}); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%v to %v: %.1f, want %.1f", c.a, c.b, got, c.want)
		}
	}
}

const bathJob = `units = "mm"
[membrane]
pitch = 30
roll_width = "1 m"
roll_length = "12 m"
[[cable]]
id = "C"
volts = 240
watts = 360
length = "36 m"
lead = "4 m"
[[room]]
name = "Bath"
corners = [[0, 0], [2400, 0], [2400, 1800], [0, 1800]]
cables = ["C"]
[room.thermostat]
wall = "A"
from = 400
`

func build(t *testing.T, text string) *Plan {
	t.Helper()
	j, report := job.Read("job.toml", []byte(text), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	p, ds := Build(j)
	for _, d := range ds {
		if d.Severity == job.Error {
			t.Fatal(d.Message)
		}
	}
	return p
}

// The take-off counts what the cut plan cuts, and the plan's seams lie on the
// cable's own lattice.
func TestCutPlanOfAJob(t *testing.T) {
	p := build(t, bathJob)
	l := p.MembraneOf("Bath")
	if l == nil || len(l.Pieces) != 2 || p.MembraneOf("Hall") != nil {
		t.Fatalf("membrane %+v", p.Membrane)
	}
	line := p.TakeOff.Lines[0]
	if line.Code != "membrane" || line.Packs != len(p.Membrane.Packs) || math.Abs(line.Gross-p.Membrane.Taken/1e6) > 1e-9 || !strings.Contains(line.Note, "the fewest possible") {
		t.Errorf("take-off %+v", line)
	}
	lattice := p.Rooms[0].Cables[0].Lattice
	for _, s := range l.Seams {
		u, v := lattice.ToPegs(s.A)
		if math.Abs(u-math.Round(u)) > 1e-6 && math.Abs(v-math.Round(v)) > 1e-6 {
			t.Errorf("seam %v is out of step with the cable", s)
		}
	}
}

// A first peg that the job gives is a place of the lattice.
func TestFirstPegIsKept(t *testing.T) {
	p := build(t, strings.Replace(bathJob, "cables = [\"C\"]", "cables = [\"C\"]\nfirst_peg = [94, 88]", 1))
	u, v := p.Rooms[0].Cables[0].Lattice.ToPegs(plane.Pt(94, 88))
	if math.Abs(u-math.Round(u)) > 1e-6 || math.Abs(v-math.Round(v)) > 1e-6 {
		t.Errorf("the first peg lies at %.3f, %.3f of the lattice", u, v)
	}
	for _, q := range p.Rooms[0].Cables[0].Path[1:] {
		u, v := p.Rooms[0].Cables[0].Lattice.ToPegs(q)
		if math.Abs(u-math.Round(u)) > 1e-3 && math.Abs(v-math.Round(v)) > 1e-3 {
			t.Errorf("a corner lies off the lattice, at %.3f, %.3f", u, v)
		}
	}
}
