package refit

import (
	"fmt"
	"math"
	"slices"

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
	stays := func(s layout.Sensor) bool {
		return s.Found != nil || clearOf(s, path, j.Near()/2)
	}
	moved := 0
	for _, s := range planned {
		if !stays(s) {
			moved++
		}
	}
	if moved == 0 {
		return nil
	}
	r.Sensors = nil
	tube.Place(r, j, true, nil)
	free := r.Sensors
	for _, s := range planned {
		if stays(s) {
			free = besideSensor(free, s, moved)
		}
	}
	r.Sensors = nil
	var out []SensorMove
	for _, s := range planned {
		switch {
		case stays(s):
			r.Sensors = append(r.Sensors, s)
		case len(free) == 0:
			out = append(out, SensorMove{s.Name, s.Tip, nil})
		default:
			now := free[0]
			now.Name, now.Spare, free = s.Name, s.Spare, free[1:]
			r.Sensors = append(r.Sensors, now)
			if now.Tip.Dist(s.Tip) > layout.SamePeg {
				out = append(out, SensorMove{s.Name, s.Tip, &now.Tip})
			}
		}
	}
	return out
}

// besideSensor are the places that are left beside a sensor that stays: all but its own,
// or the one nearest to it where there are more than so many.
func besideSensor(free []layout.Sensor, s layout.Sensor, least int) []layout.Sensor {
	nearest, off := -1, math.Inf(1)
	for i, f := range free {
		if d := f.Tip.Dist(s.Tip); d < off {
			nearest, off = i, d
		}
	}
	if nearest < 0 || len(free) <= least && off > layout.SamePeg {
		return free
	}
	return slices.Delete(slices.Clone(free), nearest, nearest+1)
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
