package sheets

import (
	"math"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// lettered rooms for what is measured from corner to corner.
func letteredRoom(r plane.Ring) *job.Room {
	out := walled(r)
	for i := range out.Walls {
		out.Walls[i].Letter = job.WallLetter(i)
	}
	return out
}

// TestCrossLines: by hand, a room of 3 by 4 m has two diagonals of 5 m; in an L the tape goes
// round no corner.
func TestCrossLines(t *testing.T) {
	box := letteredRoom(plane.Rectangle(plane.Pt(0, 0), plane.Pt(4000, 3000)))
	lines := crossLines(box)
	if len(lines) != 2 {
		t.Fatalf("%v", lines)
	}
	for _, l := range lines {
		if d := box.Walls[l[0]].A.Dist(box.Walls[l[1]].A); math.Abs(d-5000) > 1e-9 {
			t.Errorf("%v is %g long", l, d)
		}
	}
	if a := cornerName(box, lines[0][0]); a != "D-A" {
		t.Errorf("the first corner is %s", a)
	}
	ell := letteredRoom(plane.Ring{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 4000, Y: 1000}, {X: 1000, Y: 1000},
		{X: 1000, Y: 4000}, {X: 0, Y: 4000}})
	for _, l := range crossLines(ell) {
		a, b := ell.Walls[l[0]].A, ell.Walls[l[1]].A
		if mid := a.Lerp(b, 0.5); !ell.Outline.Contains(mid) {
			t.Errorf("from %v to %v the tape goes through a wall", a, b)
		}
	}
	if len(crossLines(ell)) != 2 {
		t.Errorf("an L: %v", crossLines(ell))
	}
}

// TestSecondCrossing: P2 is as far from P1 along a channel as the floor goes, all of it tiled.
func TestSecondCrossing(t *testing.T) {
	for _, name := range examples {
		p := example(t, name).plan
		v := roomView(p, &p.Rooms[0])
		a, ok1 := first(v)
		b, ok2 := second(v, a)
		l, _ := lattice(v)
		if !ok1 || !ok2 {
			t.Errorf("%s: P1 %v, P2 %v", name, ok1, ok2)
			continue
		}
		d := b.Sub(a).Rotate(-l.Angle).Mul(1 / l.Pitch)
		if off := math.Min(math.Abs(d.X), math.Abs(d.Y)); off > 1e-6 || math.Abs(d.Norm()-math.Round(d.Norm())) > 1e-6 {
			t.Errorf("%s: P2 is %v pegs off", name, d)
		}
		for k := range 101 {
			if at := a.Lerp(b, float64(k)/100); !v.Room.Tiled.Contains(at) {
				t.Errorf("%s: the line from P1 to P2 leaves the tiled floor at %v", name, at)
				break
			}
		}
		if beyond := b.Add(b.Sub(a).Unit().Mul(l.Pitch)); v.Room.Tiled.Depth(beyond) >= l.Pitch/2 {
			t.Errorf("%s: the floor goes on past P2", name)
		}
	}
}

// TestSettingOutSays: both crossings, what is kept clear, and which wall was
// drawn otherwise than typed: the bath's tape misses by an eighth and a quarter of an inch.
func TestSettingOutSays(t *testing.T) {
	for _, name := range []string{"bath", "bath on letter"} {
		all := ""
		for _, s := range layingSheets(example(t, name).set) {
			all += said(s) + " "
		}
		for _, want := range []string{"P2, on its channel:",
			`Dashed edge: 2 15/16" off walls`, `Taped walls, typed, made to close: A 5'-0 1/4", drawn 5'-0 3/16"`} {
			if !strings.Contains(all, want) {
				t.Errorf("%s: no %q", name, want)
			}
		}
	}
}

// TestDiagonals: a room of four square corners has two lines from corner to corner on the plan
// that is set out first, to scale, each with the length that Pythagoras gives; and no more of
// them on the sheets that follow.
func TestDiagonals(t *testing.T) {
	d := example(t, "kitchen")
	long := math.Hypot(5400, 3900)
	drawn := 0
	for _, s := range d.set {
		for _, it := range s.Items {
			p, ok := it.(*drawing.Path)
			if !ok || p.Title != "D-A to B-C" && p.Title != "A-B to C-D" {
				continue
			}
			if drawn++; !strings.HasPrefix(s.ID, "membrane") {
				t.Errorf("%s has the line from %s", s.ID, p.Title)
			}
			line := drawing.Flatten(p.Segs, 0.1)[0]
			if off := line[0].Dist(line[1])*s.Ratio - long; math.Abs(off) > 0.1 {
				t.Errorf("%s is %g mm off", p.Title, off)
			}
			figured := false
			for _, tx := range s.Texts() {
				figured = figured || tx.Text == "6661" && tx.Box().Touches(line[0], line[1])
			}
			if !figured {
				t.Errorf("%s has no figure on it", p.Title)
			}
		}
	}
	if drawn != 2 {
		t.Errorf("%d lines from corner to corner", drawn)
	}
}

// TestTurnedNorth: on the sheets of a room that stands 12 degrees off, its walls lie square to
// the paper, and the arrow of north leans as much as it was turned.
func TestTurnedNorth(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	r := p.Rooms[0].Job
	for i := range r.Outline {
		r.Outline[i] = r.Outline[i].Rotate(plane.Radians(12))
	}
	for i := range r.Walls {
		r.Walls[i].Segment = r.Outline.Edge(i)
	}
	r.Fixtures, r.KeepOuts, r.Openings, r.Thermostat.Wall = nil, nil, nil, -1
	p.Rooms[0].Cables, p.Rooms[0].Sensors, p.Rooms[0].NoCut = nil, nil, nil
	own, err := cablePlan(&p.Rooms[0]).Page(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range own.Sheet.Items {
		q, ok := it.(*drawing.Path)
		if !ok {
			continue
		}
		line := drawing.Flatten(q.Segs, 0.1)
		switch {
		case strings.HasPrefix(q.Title, "wall ") && q.Stroke != nil:
			if d := line[0][1].Sub(line[0][0]).Unit(); math.Min(math.Abs(d.X), math.Abs(d.Y)) > 1e-9 {
				t.Errorf("%s lies along %v", q.Title, d)
			}
		case q.Title == "north" && q.Fill == nil:
			d := line[0][1].Sub(line[0][0])
			if a := plane.Degrees(math.Atan2(d.X, -d.Y)); math.Abs(a-12-p.Job.Sheet.North) > 1e-6 {
				t.Errorf("north lies at %g degrees", a)
			}
		}
	}
}
