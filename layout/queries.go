package layout

import (
	"oxturn/layout/job"
	"oxturn/layout/membrane"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// WithoutCable is the floor in which no cable is planned: inside the walls and
// outside the heated area. A cable that was found elsewhere takes its own strip
// of it, as wide as it may be off.
func (r *Room) WithoutCable() (plane.Region, error) {
	rest, err := r.Floor.Less(r.Heated)
	for _, c := range r.Cables {
		if !c.Laid.Recorded() || err != nil {
			continue
		}
		var strip plane.Region
		if strip, err = plane.Band(c.Path, 2*(c.Laid.Error+c.Laid.FingerRoom)); err == nil {
			rest, err = rest.Less(strip)
		}
	}
	return rest, err
}

// Cover is about how much lies over the cable in mm: the layers over the
// membrane, else the tile and its bed. It is a default as soon as one of these
// is.
func (p *Plan) Cover() (mm float64, from job.Source) {
	over := 0.0
	for _, l := range p.Job.BuildUp {
		if l.Kind == "membrane" {
			return over, job.FromJob
		}
		over += l.Thickness
	}
	return p.Job.Tile.Thickness + takeoff.Bed(p.Job.Materials), min(p.Job.Spans.Source("tile.thickness"),
		p.Job.Materials.BedSource)
}

// MembraneOf returns the membrane of a room, nil where none is planned.
func (p *Plan) MembraneOf(room string) *membrane.Laid {
	if p.Membrane == nil {
		return nil
	}
	for i := range p.Membrane.Rooms {
		if p.Membrane.Rooms[i].Name == room {
			return &p.Membrane.Rooms[i]
		}
	}
	return nil
}

// RoomNamed returns a room by its name, nil where there is none.
func (p *Plan) RoomNamed(name string) *Room {
	for i := range p.Rooms {
		if p.Rooms[i].Job.Name == name {
			return &p.Rooms[i]
		}
	}
	return nil
}

// LoadOf returns what the thermostat of a room feeds, nil where that is not worked out.
func (p *Plan) LoadOf(room string) *Load {
	for i := range p.Load {
		if p.Load[i].Room == room {
			return &p.Load[i]
		}
	}
	return nil
}

const (
	riseInches = 6
	riseMetric = 150
)

// RiseHalf is how far to either side of a lead rise nothing is nailed or screwed
// into wall or floor, mm: 6 in, in a metric job 150 mm (common practice).
func RiseHalf(u plane.Units) float64 {
	if u == plane.Inches {
		return riseInches * plane.Inch
	}
	return riseMetric
}

// RiseDepth is how far into the room the floor before a lead rise belongs to it,
// mm: 4 in, in a metric job 100 mm (common practice).
func RiseDepth(u plane.Units) float64 {
	if u == plane.Inches {
		return 4 * plane.Inch
	}
	return 100
}
