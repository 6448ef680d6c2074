package sheets

import (
	"math"
	"strconv"
	"testing"

	"oxturn/drawing/floorplan"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

func edges(r plane.Ring) []plane.Segment {
	var out []plane.Segment
	for i := range r {
		out = append(out, r.Edge(i))
	}
	return out
}

// walled is a room with nothing but walls and openings in it.
func walled(r plane.Ring, openings ...job.Opening) *job.Room {
	room := &job.Room{Outline: r, Openings: openings}
	for i := range r {
		room.Walls = append(room.Walls, job.Wall{Segment: r.Edge(i)})
	}
	return room
}

// TestDatums: the longest wall, and the longest about square to it.
func TestDatums(t *testing.T) {
	box := walled(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)))
	if d1, d2 := layout.DatumWalls(box); d1 != 0 || d2 != 1 {
		t.Errorf("rectangle: %d and %d", d1, d2)
	}
	tri := walled(plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 1500, Y: 1000}})
	if d1, d2 := layout.DatumWalls(tri); d1 != 0 || d2 < 0 || d2 == d1 {
		t.Errorf("triangle: %d and %d", d1, d2)
	}
	if d1, d2 := layout.DatumWalls(&job.Room{}); d1 != -1 || d2 != -1 {
		t.Errorf("no walls: %d and %d", d1, d2)
	}
	open := walled(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)), job.Opening{Kind: "opening", Wall: 0,
		From: 100, To: 2950})
	if d1, d2 := layout.DatumWalls(open); d1 != 2 || d2 != 1 {
		t.Errorf("wall 0 is all opening, nothing to hold a tape to: %d and %d", d1, d2)
	}
	window := walled(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)), job.Opening{Kind: "window", Wall: 0,
		From: 0, To: 3000})
	if d1, d2 := layout.DatumWalls(window); d1 != 0 || d2 != 1 {
		t.Errorf("a wall below a window stands: %d and %d", d1, d2)
	}
}

// TestOffsets: measured square to the face, worked out by hand for a wall that
// rises 3 in 4: 400 mm before it, or behind where the room is on its other side; and
// for a rectangle, whose datums are its south and its east wall.
func TestOffsets(t *testing.T) {
	w := layout.Wall{Segment: plane.Segment{A: plane.Pt(0, 0), B: plane.Pt(400, 300)}}
	for _, out := range []float64{1, -1} {
		w.In = plane.Pt(-0.6, 0.8).Mul(out)
		if got := w.FromWall(plane.Pt(0, 500)); math.Abs(got-400*out) > 1e-9 {
			t.Errorf("offset %v, want %v", got, 400*out)
		}
	}
	d := layout.DatumsOf(walled(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))))
	if got := d.Offsets(plane.Pt(700, 400)); !d.Both() || d[0].Name != "D1" || got != [2]float64{400, 2300} {
		t.Errorf("%+v: offsets %v", d, got)
	}
	if d := layout.DatumsOf(&job.Room{}); d.Both() || len(d.There()) != 0 || d.Offsets(plane.Pt(1, 1)) != [2]float64{} {
		t.Errorf("without walls: %+v", d)
	}
}

// TestLadders: a plain room has two dimensions, each once; an L has its parts
// and the whole.
func TestLadders(t *testing.T) {
	room := func(r plane.Ring) *job.Room {
		j := &job.Room{Outline: r, Thermostat: job.Thermostat{Wall: -1}}
		for i, w := range edges(r) {
			j.Walls = append(j.Walls, job.Wall{Letter: strconv.Itoa(i), Segment: w})
		}
		return j
	}
	if ls := floorplan.Ladders(room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))), 20); len(ls) != 2 ||
		ls[0].Overall || ls[1].Overall {
		t.Errorf("rectangle: %+v", ls)
	}
	l := plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 1000}, {X: 1200, Y: 1000}, {X: 1200, Y: 2000},
		{X: 0, Y: 2000}}
	ls := floorplan.Ladders(room(l), 20)
	parts, whole := 0, 0
	for _, d := range ls {
		parts += len(d.Stations) - 1
		if d.Overall || len(d.Stations) == 2 {
			whole++
		}
	}
	// 3000 and 2000 whole; 1200 + 1800 at the north, 1000 + 1000 at the east
	if parts != 6 || whole != 2 {
		t.Errorf("L: %d parts, %d overall: %+v", parts, whole, ls)
	}
}
