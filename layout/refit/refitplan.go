package refit

import (
	"fmt"
	"math"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/tube"
)

// Plan returns the plan with the cable as planned anew in its place. Sensors
// that were found on the floor, and those that it leaves clear, stay; others
// are placed again.
func (f *Refit) Plan(p *layout.Plan) (*layout.Plan, []SensorMove) {
	out := *p
	out.Rooms = append([]layout.Room{}, p.Rooms...)
	var moves []SensorMove
	for i := range out.Rooms {
		if r := &out.Rooms[i]; &p.Rooms[i] == f.Room {
			r.Cables = append([]layout.Cable{}, r.Cables...)
			for k := range r.Cables {
				if r.Cables[k].ID == f.Planned.ID {
					r.Cables[k] = *f.New
				}
			}
			moves = moveSensors(r, f.Room.Sensors, f.New.Path, p.Job)
		}
	}
	out.Code = out.CodeNow()
	return &out, moves
}

// A SensorMove is a sensor whose planned place the rest of a cable takes.
type SensorMove struct {
	Name string
	From plane.Point
	To   *plane.Point // nil: no other place was found
}

// Words says where the sensor moves, for a line of text.
func (m SensorMove) Words(tape layout.Tape) string {
	if m.To == nil {
		return fmt.Sprintf("%s, planned %s, comes under the cable, and no other place was found for it: place it by "+
			"hand before covering", m.Name, tape.Place(m.From))
	}
	return fmt.Sprintf("%s moves: %s; planned %s", m.Name, tape.Place(*m.To), tape.Place(m.From))
}

// moveSensors places the sensors anew that a path comes too near to.
func moveSensors(r *layout.Room, planned []layout.Sensor, path []plane.Point, j *job.Job) []SensorMove {
	stay := true
	for _, s := range planned {
		stay = stay && (s.Found != nil || clearOf(s, path, float64(j.Spacing.Closest)*j.Membrane.Pitch/2))
	}
	if stay {
		return nil
	}
	r.Sensors = nil
	tube.Place(r, j, true, nil)
	var out []SensorMove
	for _, s := range planned {
		at := -1
		for i := range r.Sensors {
			if r.Sensors[i].Name == s.Name {
				at = i
			}
		}
		switch {
		case s.Found != nil && at < 0:
			r.Sensors = append(r.Sensors, s)
		case s.Found != nil:
			r.Sensors[at] = s
		case at < 0:
			out = append(out, SensorMove{s.Name, s.Tip, nil})
		case r.Sensors[at].Tip.Dist(s.Tip) > layout.SamePeg:
			out = append(out, SensorMove{s.Name, s.Tip, &r.Sensors[at].Tip})
		}
	}
	return out
}

// clearOf reports whether a sensor's tip lies at least so far from a cable and
// its lead does not touch it.
func clearOf(s layout.Sensor, path []plane.Point, least float64) bool {
	for i := 1; i < len(path); i++ {
		leg := plane.Segment{A: path[i-1], B: path[i]}
		if leg.Distance(s.Tip) < least-layout.SamePeg {
			return false
		}
		for k := 1; k < len(s.Lead); k++ {
			if leg.Gap(plane.Segment{A: s.Lead[k-1], B: s.Lead[k]}) < tube.Touch {
				return false
			}
		}
	}
	return true
}

// pegsOff says how the real pegs lie against the plan's, in mm east and north;
// zero where they are the plan's.
func (f *Refit) pegsOff() plane.Point {
	if f.Planned.Laid.Job.FirstPeg == nil || len(f.plan) == 0 {
		return plane.Point{}
	}
	return f.plan[0].Sub(f.Planned.Laid.Planned[0])
}

func offWords(d plane.Point, small func(float64) string) string {
	ew, ns := "east", "north"
	if d.X < 0 {
		ew = "west"
	}
	if d.Y < 0 {
		ns = "south"
	}
	return fmt.Sprintf("%s %s and %s %s", small(math.Abs(d.X)), ew, small(math.Abs(d.Y)), ns)
}
