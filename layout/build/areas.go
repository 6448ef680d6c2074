package build

import (
	"fmt"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// areas fills in the room's floor, tiled and heated regions, its zones and
// what the cable keeps off. Off the walls that is wallClear, mm.
func areas(r *layout.Room, wallClear float64) error {
	r.Floor = plane.FromRing(r.Job.Outline)
	var err error
	if r.Tiled, err = tiled(r.Job, r.Floor); err != nil {
		return err
	}
	keepOff, err := keepOffs(r)
	if err != nil {
		return err
	}
	inner, err := r.Floor.Grow(-wallClear)
	if err != nil {
		return err
	}
	if r.Heated, err = inner.Less(keepOff); err != nil {
		return err
	}
	for _, p := range r.Heated {
		r.Zones = append(r.Zones, plane.Region{p})
	}
	return nil
}

// tiled is the floor less what stands on the subfloor itself.
func tiled(j *job.Room, floor plane.Region) (plane.Region, error) {
	var bare []plane.Region
	for _, f := range j.Fixtures {
		if !f.Tiled {
			bare = append(bare, plane.FromRing(f.Outline))
		}
	}
	for _, k := range j.KeepOuts {
		if !k.Tiled {
			bare = append(bare, plane.FromRing(k.Outline))
		}
	}
	all, err := plane.Union(bare...)
	if err != nil {
		return nil, err
	}
	return floor.Less(all)
}

// keepOffs collects the no-cut zones of the room's fixtures, keep-outs,
// fixings and joints, each with its clearance, and returns their union.
func keepOffs(r *layout.Room) (plane.Region, error) {
	for _, f := range r.Job.Fixtures {
		if err := keepOffFixture(r, f); err != nil {
			return nil, err
		}
	}
	for _, k := range r.Job.KeepOuts {
		why := layout.ForFixture
		switch {
		case k.Partition:
			why = layout.ForPartition
		case k.Cold:
			why = layout.LeftCold
		}
		if err := keepOff(r, why, k.Name, plane.FromRing(k.Outline), k.Clear); err != nil {
			return nil, err
		}
	}
	for _, x := range r.Job.Fixings {
		if err := keepOffFixing(r, x); err != nil {
			return nil, err
		}
	}
	for _, m := range r.Job.Joints {
		band, err := plane.Band([]plane.Point{m.A, m.B}, 2*m.Clear*fullArc)
		if err != nil {
			return nil, err
		}
		r.NoCut = append(r.NoCut, layout.NoCut{Reason: layout.ForJoint, Name: m.Name, Region: band})
	}
	regions := make([]plane.Region, len(r.NoCut))
	for i, z := range r.NoCut {
		regions[i] = z.Region
	}
	return plane.Union(regions...)
}

// discSides sides draw a disc of floor that is left out.
const discSides = 48

func keepOffFixture(r *layout.Room, f job.Fixture) error {
	if f.Heated {
		return nil // its drain is kept off by itself
	}
	if f.Flange != nil {
		ring := plane.FromRing(plane.Circle(f.Flange.Centre, f.Flange.Radius+f.Flange.Clear, discSides))
		r.NoCut = append(r.NoCut, layout.NoCut{Reason: layout.ForFixture, Name: f.Name + " flange", Region: ring})
	}
	return keepOff(r, layout.ForFixture, f.Name, plane.FromRing(f.Outline), f.Clear)
}

func keepOffFixing(r *layout.Room, x job.Fixing) error {
	if len(x.Line) == 1 {
		disc := plane.FromRing(plane.Circle(x.Line[0], x.Clear, discSides))
		r.NoCut = append(r.NoCut, layout.NoCut{Reason: layout.ForFixing, Name: x.Name, Region: disc})
		return nil
	}
	band, err := plane.Band(x.Line, 2*x.Clear*fullArc)
	r.NoCut = append(r.NoCut, layout.NoCut{Reason: layout.ForFixing, Name: x.Name, Region: band})
	return err
}

// fullArc makes up for the chords of a grown shape's round corners, which cut
// up to 0.12 % off the distance, so that no clearance is short.
const fullArc = 1.002

func keepOff(r *layout.Room, why layout.Reason, name string, shape plane.Region, clear float64) error {
	grown, err := shape.Grow(clear * fullArc)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	r.NoCut = append(r.NoCut, layout.NoCut{Reason: why, Name: name, Region: grown})
	return nil
}

// leadRise adds the strip of floor in front of the wall where the leads rise.
func leadRise(r *layout.Room, j *job.Job) error {
	t := r.Job.Thermostat
	wall, hangs := r.Job.BoxWall()
	if !hangs {
		return nil
	}
	along := wall.Line.B.Sub(wall.Line.A).Unit().Mul(layout.RiseHalf(j.Printed()))
	in := wall.In.Mul(j.Clearance.Wall)
	strip := plane.Ring{t.At.Sub(along), t.At.Add(along), t.At.Add(along).Add(in), t.At.Sub(along).Add(in)}
	inside, err := plane.FromRing(strip).Meet(r.Floor)
	if err != nil {
		return err
	}
	r.NoCut = append(r.NoCut, layout.NoCut{Reason: layout.LeadRise, Name: "lead rise", Region: inside})
	return nil
}
