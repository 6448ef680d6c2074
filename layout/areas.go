package layout

import (
	"fmt"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// areas fills in the room's floor, tiled and heated regions, its zones and
// what the cable keeps off.
func (r *Room) areas() error {
	r.Floor = plane.FromRing(r.Job.Outline)
	var err error
	if r.Tiled, err = tiled(r.Job, r.Floor); err != nil {
		return err
	}
	keepOff, err := r.keepOffs()
	if err != nil {
		return err
	}
	inner, err := r.Floor.Grow(-r.wallClear)
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
func (r *Room) keepOffs() (plane.Region, error) {
	for _, f := range r.Job.Fixtures {
		if err := r.keepOffFixture(f); err != nil {
			return nil, err
		}
	}
	for _, k := range r.Job.KeepOuts {
		if err := r.keepOff(ForFixture, k.Name, plane.FromRing(k.Outline), k.Clear); err != nil {
			return nil, err
		}
	}
	for _, x := range r.Job.Fixings {
		if err := r.keepOffFixing(x); err != nil {
			return nil, err
		}
	}
	for _, m := range r.Job.Joints {
		band, err := plane.Band([]plane.Point{m.A, m.B}, 2*m.Clear*fullArc)
		if err != nil {
			return nil, err
		}
		r.NoCut = append(r.NoCut, NoCut{ForJoint, m.Name, band})
	}
	regions := make([]plane.Region, len(r.NoCut))
	for i, z := range r.NoCut {
		regions[i] = z.Region
	}
	return plane.Union(regions...)
}

func (r *Room) keepOffFixture(f job.Fixture) error {
	if f.Flange != nil {
		ring := plane.FromRing(plane.Circle(f.Flange.Centre, f.Flange.Radius+f.Flange.Clear, 48))
		r.NoCut = append(r.NoCut, NoCut{ForFixture, f.Name + " flange", ring})
	}
	return r.keepOff(ForFixture, f.Name, plane.FromRing(f.Outline), f.Clear)
}

func (r *Room) keepOffFixing(x job.Fixing) error {
	if len(x.Line) == 1 {
		disc := plane.FromRing(plane.Circle(x.Line[0], x.Clear, 48))
		r.NoCut = append(r.NoCut, NoCut{ForFixing, x.Name, disc})
		return nil
	}
	band, err := plane.Band(x.Line, 2*x.Clear*fullArc)
	r.NoCut = append(r.NoCut, NoCut{ForFixing, x.Name, band})
	return err
}

// fullArc makes up for the chords of a grown shape's round corners, which cut
// up to 0.12 % off the distance, so that no clearance is short.
const fullArc = 1.002

func (r *Room) keepOff(why Reason, name string, shape plane.Region, clear float64) error {
	grown, err := shape.Grow(clear * fullArc)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	r.NoCut = append(r.NoCut, NoCut{why, name, grown})
	return nil
}

// RiseHalf is how far to either side of a lead rise nothing is nailed or screwed
// into wall or floor, mm: 6 in, in a metric job 150 mm (common practice).
func RiseHalf(u plane.Units) float64 {
	if u == plane.Inches {
		return 6 * plane.Inch
	}
	return 150
}

// RiseDepth is how far into the room the floor before a lead rise belongs to it,
// mm: 4 in, in a metric job 100 mm (common practice).
func RiseDepth(u plane.Units) float64 {
	if u == plane.Inches {
		return 4 * plane.Inch
	}
	return 100
}

// leadRise adds the strip of floor in front of the wall where the leads rise.
func (r *Room) leadRise(u plane.Units) error {
	t := r.Job.Thermostat
	if t.Wall < 0 || t.Wall >= len(r.Job.Walls) {
		return nil
	}
	wall := r.Job.Walls[t.Wall]
	along := wall.B.Sub(wall.A).Unit().Mul(RiseHalf(u))
	in := along.Left().Unit().Mul(r.wallClear)
	if !r.Floor.Contains(t.At.Add(in.Unit())) {
		in = in.Mul(-1)
	}
	strip := plane.Ring{t.At.Sub(along), t.At.Add(along), t.At.Add(along).Add(in), t.At.Sub(along).Add(in)}
	inside, err := plane.FromRing(strip).Meet(r.Floor)
	if err != nil {
		return err
	}
	r.NoCut = append(r.NoCut, NoCut{LeadRise, "lead rise", inside})
	return nil
}
