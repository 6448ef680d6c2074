package refit

import (
	"fmt"
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// leadBand is how wide the strip is that a lead on the floor keeps free of
// heating cable, mm: a cable and a half to either side of its middle.
const leadBand = 20.0

// ownFloor is the floor the rest may lie on: the cable's own share of its zone,
// so that other cables keep theirs, less what lies there already or is to.
func (f *Refit) ownFloor() (plane.Region, error) {
	floor := f.Planned.Share
	if len(floor) == 0 {
		floor = f.Room.Zones[f.Planned.Zone]
	}
	var bands []plane.Region
	for _, s := range f.taken() {
		if plane.Bounds(s.line).Apart(floor.Bounds(), s.width) {
			continue // it takes nothing of this floor
		}
		band, err := plane.Band(s.line, s.width)
		if err != nil {
			return nil, err
		}
		bands = append(bands, band)
	}
	all, err := plane.Union(bands...)
	if err != nil {
		return nil, err
	}
	return floor.Less(all)
}

// A strip is floor taken by a line.
type strip struct {
	line  []plane.Point
	width float64
}

// taken are the other cables with the closest gap beside them, and all leads
// that lie before the rest does.
func (f *Refit) taken() []strip {
	var out []strip
	for i := range f.Room.Cables {
		c := &f.Room.Cables[i]
		if c == f.Planned {
			if f.Laid != nil {
				out = append(out, strip{c.ColdLead, leadBand})
			}
			continue
		}
		lies := c.Path
		if c.Laid != nil && c.Laid.Whole {
			lies = c.Laid.Path
		}
		out = append(out, strip{lies, 2 * f.Job.Near()}, strip{c.ColdLead, leadBand},
			strip{c.Return, leadBand})
	}
	return slices.DeleteFunc(out, func(s strip) bool { return len(s.line) < 2 })
}

// solve lays the rest after a part that stays, over a floor: with its runs along
// those of the plan where that can be done, for the less changes then. Briefly it
// looks no farther: then a refusal says little.
func (f *Refit) solve(stays []plane.Point, floor plane.Region, briefly bool) (route.Route, error) {
	p := f.problem()
	c, grid := f.Planned, *p.Lattice
	p.Zones = []plane.Region{floor}
	if stays != nil {
		p.Frozen = [][]plane.Point{stays}
	}
	along, asked := f.along(), route.Ask{}
	if i := c.Zone; i < len(p.Asks) {
		asked.Start = p.Asks[i].Start
	}
	p.Asks, p.Brief = []route.Ask{{Rows: &along, Start: asked.Start}}, true
	routes, err := route.Solve(p)
	if err != nil && !briefly {
		p.Asks, p.Brief = []route.Ask{asked}, false
		routes, err = route.Solve(p)
	}
	if err != nil {
		return route.Route{}, err
	}
	if !alongPegs(routes[0].Path[max(0, len(stays)-1):], grid) {
		return route.Route{}, fmt.Errorf("cable %s can't go on from where its laid part ends: no run can be joined "+
			"to it", c.ID)
	}
	return routes[0], nil
}

// problem states the room with the cable as it is used up, its floor still to be said.
func (f *Refit) problem() route.Problem {
	p, c, grid := f.bare, f.Planned, f.lattice()
	p.Lattice = &grid
	p.Cables = []route.Cable{{
		ID: c.ID, Length: f.whole(), Ends: c.Label.Ends, LeadReach: max(0, c.LeadReach),
		WattsPerMetre: f.Rate * f.wattsPerMetre(), MaxDensity: f.Job.Supply.MaxDensity,
	}}
	return p
}

// along is the direction in which most of the plan's cable lies, radians from
// east.
func (f *Refit) along() float64 {
	across, best := 0.0, 0.0
	if len(f.Old) > 0 {
		d := f.Old[0].To.Sub(f.Old[0].From)
		best = plane.Atan2(d.Y, d.X)
	}
	for _, r := range f.Old {
		if d := r.To.Sub(r.From).Rotate(-best); math.Abs(d.X) > math.Abs(d.Y) {
			across -= d.Norm()
		} else {
			across += d.Norm()
		}
	}
	if across > 0 {
		best += math.Pi / 2
	}
	return best
}

// Judge scores the cable's path over all its floor: a route that was found for
// the rest of a cable is scored by that alone.
func Judge(c *layout.Cable, j *job.Job) {
	if len(c.Share) > 0 {
		c.Score = route.Judge(c.Path, c.Share, c.Lattice, j.Near(), c.Routed)
	}
}

// alongPegs reports whether all legs of a path follow rows of pegs.
func alongPegs(path []plane.Point, grid route.Lattice) bool {
	for i := 1; i < len(path); i++ {
		d := path[i].Sub(path[i-1]).Rotate(-grid.Angle)
		if min(math.Abs(d.X), math.Abs(d.Y)) > layout.SamePeg {
			return false
		}
	}
	return true
}

// whole is the way the whole cable covers, mm.
func (f *Refit) whole() float64 { return (f.Planned.Label.Length - f.Slip) / f.Rate }

// cable turns the route found into the cable as it is drawn. Its running
// lengths are those read off the cable, by how the mark is read; a lead that lies
// stays where it is.
func (f *Refit) cable(rt route.Route) *layout.Cable {
	number := 0
	fmt.Sscanf(f.Planned.ID, "H%d", &number)
	c := f.Room.Cable(f.Job, f.Planned.Label, rt, number)
	c.Zone, c.Circuit, c.Share = f.Planned.Zone, f.Planned.Circuit, f.Planned.Share
	c.Spacing = layout.IdealSpacing(c.Share, c.Routed)
	c.Density = f.Rate * f.wattsPerMetre() / (c.Spacing / 1000)
	Judge(&c, f.Job)
	if f.Laid != nil && len(f.Planned.ColdLead) > 1 {
		c.ColdLead = slices.Clone(f.Planned.ColdLead)
		if last := len(c.ColdLead) - 1; c.ColdLead[last].Dist(c.Path[0]) > plane.Hair {
			c.ColdLead[last] = c.Path[0] // the start went with the pegs, and the lead's end with it
		}
	}
	for i := range c.Runs {
		c.Runs[i].RunningEnd = f.usedAt(c.Runs[i].RunningEnd)
	}
	f.placeMarks(&c)
	return &c
}

// usedAt is the cable used over so much way, mm. A slip lies before the mark that
// told of it.
func (f *Refit) usedAt(way float64) float64 {
	used := f.Rate * way
	if f.Laid != nil && way > f.found-layout.SamePeg {
		used += f.Slip
	}
	return used
}

// placeMarks puts a cable's marks where they will come: each share of its length
// where so much of it is used.
func (f *Refit) placeMarks(c *layout.Cable) {
	cum := route.Stations(c.Path, c.BendRadius)
	for i := range c.Marks {
		m := &c.Marks[i]
		m.Along = f.Planned.Label.Length * float64(i+1) / 4
		way := m.Along / f.Rate
		if f.usedAt(way-f.Slip) > m.Along-layout.SamePeg {
			way -= f.Slip
		}
		way = min(way, cum[len(cum)-1])
		m.At = route.Along(c.Path, c.BendRadius, way)
		m.Run, m.Into = layout.PlaceOnRuns(c.Runs, cum, way)
	}
}

// WayBefore is the way of the new plan before one of its runs, mm.
func (f *Refit) WayBefore(run int) float64 {
	if run < 2 {
		return 0
	}
	return route.Stations(f.New.Path, f.New.BendRadius)[f.New.Runs[run-2].Leg]
}
