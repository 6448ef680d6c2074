package layout

import (
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// problemWith states the room with cables to be laid in it.
func (r *Room) problemWith(j *job.Job, labels []job.Cable) (route.Problem, error) {
	p, err := r.problemFor(j)
	for _, c := range labels {
		p.Cables = append(p.Cables, route.Cable{
			ID: c.ID, Length: c.Length, Ends: route.Ends(c.Ends), LeadReach: max(0, r.leadReach(c)),
			WattsPerMetre: c.Watts / (c.Length / 1000), MaxDensity: j.Supply.MaxDensity,
		})
	}
	return p, err
}

// problemFor states the room as the router wants it, without cables.
func (r *Room) problemFor(j *job.Job) (route.Problem, error) {
	floor, err := r.leadFloor()
	if err != nil {
		return route.Problem{}, err
	}
	p := route.Problem{
		Floor: floor, Zones: r.Zones, Entry: r.Job.Thermostat.At,
		Pitch: j.Membrane.Pitch, Closest: j.Spacing.Closest, Widest: j.Spacing.Widest, Bend: j.Membrane.BendRadius,
		Avoid: r.avoid(), Stop: r.stop,
	}
	for _, w := range r.Job.Walls {
		p.Walls = append(p.Walls, w.Segment)
	}
	for _, ring := range r.Job.Low {
		p.Low = append(p.Low, plane.FromRing(ring))
	}
	if at := r.Job.FirstPeg; at != nil {
		p.Lattice = &route.Lattice{Origin: *at, Angle: route.Angle(p.Walls, p.Zones), Pitch: p.Pitch}
	}
	return p, nil
}

// leadReach is the cold lead there is for the floor: the lead less its rise to
// the box, its tail inside and the slack kept.
func (r *Room) leadReach(label job.Cable) float64 {
	t := r.Job.Thermostat
	return circuit.Reach{Lead: label.Lead, Rise: t.Height, Tail: t.Tail, Slack: t.Slack}.Floor()
}

// leadFloor is where cold leads and sensor leads may run: the floor less what
// stands on it and less what is kept free to be drilled.
func (r *Room) leadFloor() (plane.Region, error) {
	var solid []plane.Region
	for _, f := range r.Job.Fixtures {
		solid = append(solid, plane.FromRing(f.Outline))
	}
	for _, k := range r.Job.KeepOuts {
		solid = append(solid, plane.FromRing(k.Outline))
	}
	for _, z := range r.NoCut {
		if z.Reason == ForFixing {
			solid = append(solid, z.Region)
		}
	}
	all, err := plane.Union(solid...)
	if err != nil {
		return nil, err
	}
	return r.Floor.Less(all)
}

// avoid is floor where a cable's end should not lie: doorways with the sweep
// of their doors.
func (r *Room) avoid() []plane.Region {
	var out []plane.Region
	for _, o := range r.Job.Openings {
		if o.Kind == "window" || o.Wall < 0 || o.Wall >= len(r.Job.Walls) {
			continue
		}
		w := r.Job.Walls[o.Wall].Segment
		a, b := w.At(o.From), w.At(o.To)
		in := b.Sub(a).Left()
		if !r.Floor.Contains(a.Lerp(b, 0.5).Add(in.Unit().Mul(5))) {
			in = in.Mul(-1)
		}
		out = append(out, plane.FromRing(plane.Ring{a, b, b.Add(in), a.Add(in)}))
	}
	for _, f := range r.Job.Fixtures {
		if f.Flange != nil {
			out = append(out, plane.FromRing(plane.Circle(f.Flange.Centre, f.Flange.Radius+f.Flange.Clear+100, 32)))
		}
	}
	return out
}
