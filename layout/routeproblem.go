package layout

import (
	"fmt"
	"math"
	"slices"

	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// ProblemWith states the room with cables to be laid in it.
func (r *Room) ProblemWith(j *job.Job, labels []job.Cable) (route.Problem, error) {
	p, err := r.ProblemFor(j)
	named := slices.EqualFunc(labels, r.Job.Cables, func(c job.Cable, id string) bool { return c.ID == id })
	for i, c := range labels {
		var within *plane.Point // no other cables than those named are asked into zones
		if named {
			within = r.asked(i)
		}
		p.Cables = append(p.Cables, route.Cable{
			Within: within,
			ID:     c.ID, Length: c.Length, Ends: c.Ends, LeadReach: max(0, r.LeadReach(c)),
			WattsPerMetre: c.Watts / (c.Length / 1000), MaxDensity: j.Supply.MaxDensity,
		})
	}
	return p, err
}

// AskOf is what the job asks of the cables of zone i: what it says of that, and of the room
// where it says nothing.
func (r *Room) AskOf(i int) route.Ask {
	ask := route.Ask{Rows: r.Job.Along, Start: r.Job.Start}
	if z := r.Spoken(i); z != nil && z.Along != nil {
		ask.Rows = z.Along
	}
	if z := r.Spoken(i); z != nil && z.Start != nil {
		ask.Start = z.Start
	}
	return ask
}

// Spoken is what the job says of zone i; nil: nothing.
func (r *Room) Spoken(i int) *job.Zone {
	if i >= len(r.Named) {
		return nil
	}
	return r.Named[i]
}

// asked is the floor that the room's cable i is asked to lie in, as a place in it; nil:
// anywhere.
func (r *Room) asked(i int) *plane.Point {
	if z := r.Job.ZoneOf(i); z != nil {
		return &z.At
	}
	return nil
}

// ProblemFor states the room as the router wants it, without cables.
func (r *Room) ProblemFor(j *job.Job) (route.Problem, error) {
	floor, err := r.LeadFloor()
	if err != nil {
		return route.Problem{}, err
	}
	p := route.Problem{
		Floor: floor, Zones: r.Zones, Entry: r.Job.Thermostat.At,
		Pitch: j.Membrane.Pitch, Closest: j.Spacing.Closest, Widest: j.Spacing.Widest, Bend: j.Membrane.BendRadius,
		Avoid: r.Avoid(),
	}
	if j.Uneven() {
		p.Uneven = &route.Uneven{Across: j.Membrane.Across, Closest: j.Near(), Widest: j.Far(), Along: r.Job.Rolled}
	}
	if j.Strips != nil {
		p.Uneven.Along, p.Uneven.Held = r.Job.Along, j.Strips.Apart
	}
	for i := range r.Zones {
		p.Asks = append(p.Asks, r.AskOf(i))
	}
	for _, w := range r.Job.Walls {
		p.Walls = append(p.Walls, w.Segment)
	}
	for _, ring := range r.Job.Low {
		p.Low = append(p.Low, plane.FromRing(ring))
	}
	if at := r.Job.FirstPeg; at != nil {
		p.Lattice = &route.Lattice{Origin: *at, Angle: route.Angle(p), Pitch: p.Pitch, Across: j.Membrane.Across}
	}
	return p, nil
}

// LeadReach is the cold lead there is for the floor: the lead less its rise to
// the box, its tail inside and the slack kept.
func (r *Room) LeadReach(label job.Cable) float64 {
	t := r.Job.Thermostat
	return circuit.Reach{Lead: label.Lead, Rise: t.Height, Tail: t.Tail, Slack: t.Slack}.Floor()
}

// LeadFloor is where cold leads and sensor leads may run: the floor less what
// stands on it and less what is kept free to be drilled.
func (r *Room) LeadFloor() (plane.Region, error) {
	var solid []plane.Region
	for _, f := range r.Job.Fixtures {
		solid = append(solid, plane.FromRing(f.Outline))
	}
	for _, k := range r.Job.KeepOuts {
		if !k.Cold {
			solid = append(solid, plane.FromRing(k.Outline))
		}
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

// Beside a doorway and a flange, mm: a place sure to be inside, and what is kept beyond the flange's own
// clearance; and in how many sides a circle is taken.
const (
	inside       = 5
	beyondFlange = 100
	circleSides  = 32
)

// Avoid is floor where a cable's end should not lie: doorways with the sweep
// of their doors, flanges, and showers that are warmed.
func (r *Room) Avoid() []plane.Region {
	var out []plane.Region
	for _, o := range r.Job.Openings {
		if o.Kind == "window" || o.Wall < 0 || o.Wall >= len(r.Job.Walls) {
			continue
		}
		w := r.Job.Walls[o.Wall].Segment
		a, b := w.At(o.From), w.At(o.To)
		in := b.Sub(a).Left()
		if !r.Floor.Contains(a.Lerp(b, 0.5).Add(in.Unit().Mul(inside))) {
			in = in.Mul(-1)
		}
		out = append(out, plane.FromRing(plane.Ring{a, b, b.Add(in), a.Add(in)}))
	}
	for _, f := range r.Job.Fixtures {
		if f.Heated { // an end is the weakest place of a cable, and this the wettest of the floor
			out = append(out, plane.FromRing(f.Outline))
		}
		if f.Flange != nil {
			reach := f.Flange.Radius + f.Flange.Clear + beyondFlange
			out = append(out, plane.FromRing(plane.Circle(f.Flange.Centre, reach, circleSides)))
		}
	}
	return out
}

// Named looks up catalogue ids; the job has been checked, so all are there.
func Named(j *job.Job, ids []string) []job.Cable {
	var out []job.Cable
	for _, id := range ids {
		for _, c := range j.Cables {
			if c.ID == id {
				out = append(out, c)
				break
			}
		}
	}
	return out
}

// ShortLead is a cold lead, mm, that no cable is sold with.
const ShortLead = 500

// Cable turns a route into the cable as it is drawn and listed.
func (r *Room) Cable(j *job.Job, label job.Cable, rt route.Route, number int) Cable {
	bend := j.Membrane.BendRadius
	c := Cable{
		ID: fmt.Sprintf("H%d", number), Number: number, Label: label, Zone: rt.Zone, Path: rt.Path, BendRadius: bend,
		Routed: route.Length(rt.Path, bend), Spacing: rt.Spacing, Share: rt.Share,
		ColdLead: rt.ColdLead, Return: rt.Return, LeadReach: r.LeadReach(label),
		Lattice: rt.Lattice, Score: rt.Score,
	}
	if c.Spacing > 0 {
		c.Density = label.Watts / (label.Length / 1000) / (c.Spacing / 1000)
	}
	c.Runs = Runs(rt.Path, bend, rt.Lattice)
	c.Marks = Marks(rt.Path, bend, c.Runs)
	return c
}

// IdealSpacing is the mean distance between runs of a cable of the given
// length that runs along the edges of a region: s = A / (L - P/2), the fence
// posts of a field counted. Infinite when the cable is shorter than half the
// boundary.
func IdealSpacing(zone plane.Region, length float64) float64 {
	n := length - zone.Perimeter()/2
	if n <= 0 {
		return math.Inf(1)
	}
	return zone.Area() / n
}
