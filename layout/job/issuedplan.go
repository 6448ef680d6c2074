package job

import (
	"cmp"
	"fmt"
	"math"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// An IssuedPlan is a whole plan as its layout file keeps it.
type IssuedPlan struct {
	File, Code string
	Rooms      []IssuedRoom
}

// An IssuedRoom is what was routed in one room of an issued plan.
type IssuedRoom struct {
	Name    string
	Pegs    IssuedPegs
	Cables  []IssuedCable
	Sensors []IssuedSensor
}

// An IssuedCable is one cable of an issued plan. Lengths in mm.
type IssuedCable struct {
	ID, Label              string
	Zone                   int // as the plan counted them, from 0
	Spacing                float64
	Score                  IssuedScore
	Path, ColdLead, Return []plane.Point
}

// An IssuedScore is how a cable was found to lie, as route.Score has it.
type IssuedScore struct {
	Covered  float64 `json:"covered"`
	Bare     float64 `json:"bare"`
	Evenness float64 `json:"evenness"`
	Straight float64 `json:"straight"`
	Turns    int     `json:"turns"`
}

// An IssuedSensor is a sensor of an issued plan.
type IssuedSensor struct {
	Name  string
	Spare bool
	LaidSensor
}

// LayBy makes the job be laid as a layout file says, whatever it would be laid
// like now. The error says where file and job are not about the same floor.
func (j *Job) LayBy(name string, open func(string) ([]byte, error)) error {
	f, err := openFile(name, open)
	if err != nil {
		return fmt.Errorf("plan %q: %w", name, err)
	}
	p := &IssuedPlan{File: name, Code: f.Code}
	for i := range j.Rooms {
		r, err := j.issuedRoom(f, &j.Rooms[i])
		if err != nil {
			return fmt.Errorf("plan %q: %w", name, err)
		}
		p.Rooms = append(p.Rooms, *r)
	}
	if err := j.recordsRestOn(f); err != nil {
		return fmt.Errorf("plan %q: %w", name, err)
	}
	j.LaidBy = p
	return nil
}

// recordsRestOn refuses a file that is not of the plan that a record rests on, and a
// record as laid for a job that is none.
func (j *Job) recordsRestOn(f *issuedFile) error {
	if f.Status == AsLaid.String() && j.Info.Status != AsLaid {
		return fmt.Errorf(
			"it is a record as laid, but the job's status is %q: take the job file that it was drawn from",
			j.Info.Status)
	}
	for _, a := range j.Laid {
		if a.PlanCode != "" && a.PlanCode != f.Code {
			return fmt.Errorf("it is of plan %s, but by its record the cable of room %q was laid by plan %s", f.Code,
				j.Rooms[a.Room].Name, a.PlanCode)
		}
	}
	return nil
}

// issuedRoom reads a room of the job out of a layout file.
func (j *Job) issuedRoom(f *issuedFile, r *Room) (*IssuedRoom, error) {
	for _, from := range f.Rooms {
		if from.Name != r.Name {
			continue
		}
		out := &IssuedRoom{Name: r.Name}
		if l := from.Lattice; l != nil {
			out.Pegs = IssuedPegs{plane.Pt(l.Origin[0], l.Origin[1]), plane.Radians(l.Angle)}
			if math.Abs(l.Pitch-j.Membrane.Pitch) > sameLength {
				return nil, fmt.Errorf("its pegs are %s mm apart, those of the job %s mm", say.Plain(l.Pitch),
					say.Plain(j.Membrane.Pitch))
			}
			if math.Abs(l.Across-j.Membrane.Across) > sameLength {
				return nil, fmt.Errorf("across the roll its pegs are %s mm apart, those of the job %s mm",
					say.Plain(cmp.Or(l.Across, l.Pitch)), say.Plain(cmp.Or(j.Membrane.Across, j.Membrane.Pitch)))
			}
		}
		for _, c := range from.Cables {
			cable, err := j.issuedCable(c, r)
			if err != nil {
				return nil, err
			}
			out.Cables = append(out.Cables, *cable)
		}
		for _, s := range from.Sensors {
			tip := plane.Pt(s.Tip[0], s.Tip[1])
			out.Sensors = append(out.Sensors, IssuedSensor{s.Name, s.Spare, LaidSensor{&tip, points(s.Lead)}})
		}
		return out, nil
	}
	return nil, fmt.Errorf("there is no room %q in it", r.Name)
}

// sameLength is how far two figures for one length may differ, mm.
const sameLength = 0.01

// issuedCable holds a cable of a layout file against the job's catalogue and room.
func (j *Job) issuedCable(c issuedCable, r *Room) (*IssuedCable, error) {
	label := j.labelled(c.Label)
	switch {
	case label == nil:
		return nil, fmt.Errorf("cable %s is a %s in it, which the job's catalogue does not have", c.ID, c.Label)
	case math.Abs(label.Length-c.Length) > 1:
		return nil, fmt.Errorf("cable %s, %s, is %s long in it, and %s by the job's catalogue", c.ID, c.Label,
			say.Long(c.Length, j.Units), say.Long(label.Length, j.Units))
	case len(c.Path) < 2:
		return nil, fmt.Errorf("cable %s has no path in it", c.ID)
	}
	out := &IssuedCable{ID: c.ID, Label: c.Label, Zone: c.Zone - 1, Spacing: c.Spacing, Score: c.Score,
		Path: points(c.Path), ColdLead: points(c.ColdLead), Return: points(c.Return)}
	if c.AsLaid != nil && c.AsLaid.Whole && len(c.AsLaid.Planned) > 1 {
		out.Path = points(c.AsLaid.Planned) // the job's own record says again how it was laid
	}
	for _, p := range out.Path {
		if wall, off := r.nearestWall(p); !r.Outline.Contains(p) && off > onWallReach+r.slack() {
			return nil, fmt.Errorf("cable %s would lie %s outside wall %s of room %q: it is the plan of another "+
				"room, or the walls were changed since", c.ID, say.WholeUnits(off, plane.Millimetres),
				r.Walls[wall].Letter, r.Name)
		}
	}
	return out, nil
}

func (j *Job) labelled(id string) *Cable {
	for i := range j.Cables {
		if j.Cables[i].ID == id {
			return &j.Cables[i]
		}
	}
	return nil
}
