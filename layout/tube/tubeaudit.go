package tube

import (
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// What no tube may come nearer to, in mm between the centre lines.
const (
	Touch     = 8.0  // heating cable: nearer, half a tube and half a cable lie on one another
	jointKeep = 18.0 // a lead joint, up to 20 mm thick, with a tube of 12 mm beside it: nothing lies on it
	tubeLeave = 1.0  // how far a tube may lie outside the floor: a line on a wall is inside
)

// jointRoom is how far a tube keeps from lead joints, mm: no more than leaves it
// the middle of the narrowest gap between two runs.
func jointRoom(j *job.Job) float64 {
	return min(jointKeep, float64(j.Near()/2)-1)
}

// leadJoints are the places where heating cable and cold lead are joined.
func leadJoints(r *layout.Room) (out []plane.Point) {
	for _, c := range r.Cables {
		for _, end := range c.Joined() {
			out = append(out, end.At)
		}
	}
	return out
}

// ringRound returns eight straight pieces about a point, none nearer than d.
func ringRound(p plane.Point, d float64) (out []plane.Point) {
	flat := float64(d * (math.Sqrt2 - 1)) // half a side
	for _, q := range []plane.Point{{X: d, Y: flat}, {X: flat, Y: d}, {X: -flat, Y: d}, {X: -d, Y: flat},
		{X: -d, Y: -flat}, {X: -flat, Y: -d}, {X: flat, Y: -d}, {X: d, Y: -flat}, {X: d, Y: flat}} {
		out = append(out, p.Add(q))
	}
	return out
}

// tubeLies reports whether a tube keeps the rules that hold for every tube,
// judged from its line alone: it touches no heating cable, keeps so far off lead
// joints and stays on the floor.
func tubeLies(r *layout.Room, floor plane.Region, tube []plane.Point, offJoints float64) bool {
	for _, s := range plane.Segments(tube) {
		if touchesCable(r, s) || !onFloor(floor, s) {
			return false
		}
		for _, at := range leadJoints(r) {
			if s.Distance(at) < offJoints-plane.Hair {
				return false
			}
		}
	}
	return len(tube) > 1
}

func touchesCable(r *layout.Room, s plane.Segment) bool {
	for _, c := range r.Cables {
		for _, leg := range plane.Segments(c.Path) {
			if s.Gap(leg) < Touch {
				return true
			}
		}
	}
	return false
}

// onFloor reports whether a straight piece stays on the floor.
func onFloor(floor plane.Region, s plane.Segment) bool {
	const apart = 5.0 // mm
	n := max(1, int(s.Length()/apart))
	for k := range n + 1 {
		if floor.Depth(s.A.Lerp(s.B, float64(k)/float64(n))) < -tubeLeave {
			return false
		}
	}
	return true
}

// auditTubes leaves out the sensors whose tubes break a rule, however they came
// about; where the first is left out, its spare becomes the sensor.
func auditTubes(r *layout.Room, floor plane.Region, sensors []layout.Sensor, offJoints float64) (out []layout.Sensor) {
	for _, s := range sensors {
		if tubeLies(r, floor, s.Lead, offJoints) {
			s.Name, s.Spare = sensorNames[len(out)], len(out) > 0
			out = append(out, s)
		}
	}
	return slices.Clip(out)
}
