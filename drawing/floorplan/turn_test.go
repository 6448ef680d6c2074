package floorplan

import (
	"math"
	"testing"

	"oxturn/drawing"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// roomOf is a room of walls alone.
func roomOf(r plane.Ring) *job.Room {
	out := &job.Room{Outline: r, Thermostat: job.Thermostat{Wall: -1}}
	for i := range r {
		out.Walls = append(out.Walls, job.Wall{Segment: r.Edge(i)})
	}
	return out
}

func turnedRing(r plane.Ring, degrees float64) plane.Ring {
	out := make(plane.Ring, len(r))
	for i, p := range r {
		out[i] = p.Rotate(plane.Radians(degrees))
	}
	return out
}

// TestTurnedRoomReadsAlike: however a room stands, its chains give the figures that they give
// where it stands square, and what lies along its walls lies square on paper.
func TestTurnedRoomReadsAlike(t *testing.T) {
	ell := plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 1000}, {X: 1200, Y: 1000}, {X: 1200, Y: 2400},
		{X: 0, Y: 2400}}
	want := Ladders(roomOf(ell), 20)
	for _, degrees := range []float64{12, -12, 8, 15, 40} {
		r := roomOf(turnedRing(ell, degrees))
		right := Right(r)
		if math.Abs(plane.Degrees(math.Atan2(right.Y, right.X))-degrees) > 1e-9 {
			t.Errorf("%g degrees: %v lies to the right", degrees, right)
		}
		got := Ladders(r, 20)
		if len(got) != len(want) {
			t.Errorf("%g degrees: %d chains, %d where it stands square", degrees, len(got), len(want))
			continue
		}
		for i, l := range got {
			for k := 1; k < len(l.Stations) && len(l.Stations) == len(want[i].Stations); k++ {
				a, b := l.Stations[k].Along-l.Stations[k-1].Along,
					want[i].Stations[k].Along-want[i].Stations[k-1].Along
				if math.Abs(a-b) > 1e-6 {
					t.Errorf("%g degrees, %v: %g, %g where it stands square", degrees, l.Side, a, b)
				}
			}
		}
		v := drawing.NewTurnedView(TurnedBounds(r), drawing.Box{X1: 200, Y1: 200}, 20, right)
		box := drawing.BoxOf(v.Pts(r.Outline)...)
		if math.Abs(box.W()-150) > 1e-9 || math.Abs(box.H()-120) > 1e-9 ||
			box.Centre().Dist(drawing.Pt{X: 100, Y: 100}) > 1e-9 {
			t.Errorf("%g degrees: it takes %v of the paper", degrees, box)
		}
		if back := v.Floor(v.Pt(r.Outline[3])); back.Dist(r.Outline[3]) > 1e-9 {
			t.Errorf("%g degrees: %v comes back as %v", degrees, r.Outline[3], back)
		}
	}
}

// TestSquareRoomsStay: rooms that lie along the compass, or out of line with it by less than
// shows, are drawn as they stand, slanting walls and all.
func TestSquareRoomsStay(t *testing.T) {
	cut := plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 1500}, {X: 2200, Y: 2400}, {X: 0, Y: 2400}}
	for name, r := range map[string]plane.Ring{"a cut corner": cut, "a degree off": turnedRing(cut, 1)} {
		if right := Right(roomOf(r)); right != plane.Pt(1, 0) {
			t.Errorf("%s: %v lies to the right", name, right)
		}
	}
}
