package floorplan

import (
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// oneWay is within what of each other walls run one way, or square to it, radians.
const oneWay = 0.5 * math.Pi / 180

// Right returns the unit vector of a room's floor that points to the right on its plans: east
// or, where more of its walls run another way than along the compass, along those, so that the
// room stands square to the paper.
func Right(r *job.Room) plane.Point {
	straight, most, best := 0.0, 0.0, 0.0
	for _, w := range r.Walls {
		a := offEast(w.Segment)
		if math.Abs(a) < Square {
			straight += w.Length()
		}
		run := 0.0
		for _, o := range r.Walls {
			if d := math.Abs(offEast(o.Segment) - a); math.Min(d, math.Pi/2-d) < oneWay && o.Arc == nil {
				run += o.Length()
			}
		}
		if w.Arc == nil && run > most+plane.Hair {
			most, best = run, a
		}
	}
	if math.Abs(best) < Square || most <= straight {
		return plane.Pt(1, 0)
	}
	return plane.Pt(1, 0).Rotate(best)
}

// offEast is by what angle a wall runs off east, or off square to it, -45 to 45 degrees in
// radians.
func offEast(w plane.Segment) float64 {
	d := w.B.Sub(w.A)
	a := plane.Atan2(d.Y, d.X)
	return a - math.Round(a/(math.Pi/2))*(math.Pi/2)
}

// PaperOf is how a room is turned on its plans, without scale and place.
func PaperOf(r *job.Room) drawing.View { return drawing.View{Ratio: 1, Right: Right(r)} }

// TurnedBounds is what a room takes along the paper.
func TurnedBounds(r *job.Room) plane.Rect { return squared(r).Outline.Bounds() }

// squared returns a room with all that chains of dimensions go by as it lies on paper.
func squared(r *job.Room) *job.Room {
	v := PaperOf(r)
	if v.Right == plane.Pt(1, 0) {
		return r
	}
	turn := func(s plane.Segment) plane.Segment { return plane.Segment{A: v.Turned(s.A), B: v.Turned(s.B)} }
	ring := func(pts plane.Ring) plane.Ring {
		out := make(plane.Ring, len(pts))
		for i, p := range pts {
			out[i] = v.Turned(p)
		}
		return out
	}
	out := *r
	out.Outline, out.Walls = ring(r.Outline), slices.Clone(r.Walls)
	out.Fixtures, out.KeepOuts = slices.Clone(r.Fixtures), slices.Clone(r.KeepOuts)
	for i := range out.Walls {
		out.Walls[i].Segment = turn(r.Walls[i].Segment)
	}
	for i := range out.Fixtures {
		f := &out.Fixtures[i]
		f.Outline, f.Back = ring(f.Outline), turn(f.Back)
		if f.Flange != nil {
			flange := *f.Flange
			flange.Centre, f.Flange = v.Turned(flange.Centre), &flange
		}
	}
	for i := range out.KeepOuts {
		out.KeepOuts[i].Outline = ring(out.KeepOuts[i].Outline)
	}
	out.Partitions = slices.Clone(r.Partitions)
	for i := range out.Partitions {
		out.Partitions[i].Segment = turn(r.Partitions[i].Segment)
	}
	out.Thermostat.At = v.Turned(r.Thermostat.At)
	return &out
}
