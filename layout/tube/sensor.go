package tube

import (
	"fmt"
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// Where a floor sensor may lie: common practice, see the take-up of each in
// sensorPlace.
const (
	sensorInside = 150 // least distance of the tip inside the heated area, mm (6 in)
	sensorWanted = 300 // wanted distance inside, mm (12 in)
	sensorHeat   = 300 // least distance from registers, hearths and other heat, mm
	spareApart   = 600 // wanted distance between the two tips, mm
)

// What the way of a tube asks for beside its length, in mm.
const (
	leadToll  = 2500 // crossing a lead or another tube: one lies on the other, under tile
	jointToll = 1500 // crossing a movement joint
)

// Place puts a sensor and a spare midway between two neighbouring
// parallel runs, their tubes reaching the box clear of heating cable and lead
// joints, and crossing other leads only where there is no other way. Where the
// cold leads are not laid yet, they may pass the tubes on the other side. It
// returns what could not be placed. Moving leads is taken off steps, nil for any.
func Place(r *layout.Room, j *job.Job, leadsLaid bool, steps *route.Steps) (missing []string) {
	if len(r.Cables) == 0 {
		return nil
	}
	floor, err := r.LeadFloor()
	if err != nil {
		return sensorNames[:]
	}
	g, leads := groundOf(r, floor, j), leads(r)
	best := tubes(r, g, nil)
	if alone := best; alone.meet(leads) {
		best = tubes(r, g, leads)
		if !leadsLaid && alone.cost() < best.cost()-leadMove {
			if cables, more := leadsPast(r, j, alone.sensors, steps); alone.cost()+more < best.cost()-leadMove {
				r.Cables, best = cables, alone
			}
		}
	}
	r.Sensors = auditTubes(r, floor, best.sensors, jointRoom(j))
	return sensorNames[len(r.Sensors):]
}

// sensorNames are those of a sensor and its spare.
var sensorNames = [2]string{"S1", "S2"}

// leadMove is what moving cold leads for the sake of a tube must save, mm.
const leadMove = 700

// leads returns the cold leads over the floor.
func leads(r *layout.Room) (out [][]plane.Point) {
	for _, c := range r.Cables {
		for _, end := range c.Joined() {
			out = append(out, end.Lead)
		}
	}
	return out
}

// leadsPast draws the cold leads anew so that they pass the sensors' tubes, and
// returns the cables with them and by how much they are longer; infinite where
// they find no way.
func leadsPast(r *layout.Room, j *job.Job, sensors []layout.Sensor, steps *route.Steps) ([]layout.Cable, float64) {
	var routes []route.Route
	var labels []job.Cable
	for i, c := range r.Cables {
		routes = append(routes, route.Route{Cable: i, Path: c.Path, ColdLead: c.ColdLead, Return: c.Return})
		labels = append(labels, c.Label)
	}
	var tubes [][]plane.Point
	for _, s := range sensors {
		tubes = append(tubes, s.Lead)
	}
	p, err := r.ProblemWith(j, labels)
	p.Steps = steps
	if err != nil || !route.LeadsPast(p, routes, tubes) {
		return nil, math.Inf(1)
	}
	cables, more := slices.Clone(r.Cables), 0.0
	for i, rt := range routes {
		c := &cables[i]
		more += plane.PathLength(rt.ColdLead) + plane.PathLength(rt.Return) - plane.PathLength(
			c.ColdLead) - plane.PathLength(c.Return)
		c.ColdLead, c.Return = rt.ColdLead, rt.Return
	}
	return cables, more
}

// A sensorPlace is a tip midway between two runs, reachable from the box.
type sensorPlace struct {
	*midway
	tip  plane.Point
	next int32         // the next place at the same node of the walk, -1 for none
	way  []plane.Point // of the walk
	deep float64       // inside the heated area
	cost float64
}

// placesAlong are all places a tip might have, by the nodes they lie at.
type places struct {
	all   []sensorPlace
	first []int32 // per node: the first place there, -1 for none
}

// placesAlong lists them along each midway line from its ends inwards.
func placesAlong(r *layout.Room, w *walk, ways []midway) *places {
	ps := &places{first: make([]int32, len(w.free))}
	for i := range ps.first {
		ps.first[i] = -1
	}
	for i := range ways {
		m := &ways[i]
		for d := 0.0; d <= m.line.Length(); d += 2 * w.step {
			tip := m.line.At(d)
			if n := w.nodeAt(tip); n >= 0 {
				ps.all = append(ps.all, sensorPlace{midway: m, tip: tip, next: ps.first[n]})
				ps.first[n] = int32(len(ps.all) - 1)
			}
		}
	}
	return ps
}

// bestPlace is the cheapest place of all; false for none.
func bestPlace(r *layout.Room, g tubeGround) (sensorPlace, bool) {
	best, at := sensorPlace{cost: math.Inf(1)}, -1
	start := g.walk.around(g.foot, footNear, func(p plane.Point) bool {
		return g.clear(plane.Segment{A: g.foot, B: p}, &margins{})
	})
	g.walk.run(start, func(state int, way int32) bool {
		if float64(way) >= best.cost {
			return true
		}
		for k := g.first[state/4]; k >= 0; k = g.all[k].next {
			if p, ok := sensorAt(r, g.walk, g.all[k], way, best.cost); ok {
				best, at = p, state
			}
		}
		return false
	})
	if at < 0 {
		return best, false
	}
	best.way = g.walk.way(at)
	return best, true
}

// sensorAt judges a place reached at a cost; false where no sensor may lie or
// where it costs as much as limit.
func sensorAt(r *layout.Room, w *walk, p sensorPlace, way int32, limit float64) (sensorPlace, bool) {
	odd := math.Abs(p.gap-p.cable.Spacing) / w.step // a gap unlike the rest reads warmer or cooler than the floor
	if p.cost = float64(way) + 4*odd + besideSensors(r, &p)/w.step; p.cost >= limit {
		return p, false
	}
	if p.deep = r.Zones[p.cable.Zone].Depth(p.tip); p.deep < sensorInside || nearHeat(r, p.tip) < sensorHeat {
		return p, false
	}
	p.cost += 2 * math.Max(0, sensorWanted-p.deep) / w.step
	return p, p.cost < limit
}

// nearHeat is the distance to the nearest other source of heat.
func nearHeat(r *layout.Room, p plane.Point) float64 {
	d := math.Inf(1)
	for _, f := range r.Job.Fixtures {
		if f.Heat {
			d = math.Min(d, f.Outline.Distance(p))
		}
	}
	return d
}

// spareWeighs is what a mm counts by which a spare sensor is too near to the first.
const spareWeighs = 6

// besideSensors is what a place asks for lying near a sensor already placed:
// 6 mm for each that spareApart is missed by, and for all of it in the same
// gap; no place right beside it.
func besideSensors(r *layout.Room, p *sensorPlace) float64 {
	cost := 0.0
	for _, s := range r.Sensors {
		d := s.Tip.Dist(p.tip)
		if d < 2*p.gap {
			return math.Inf(1)
		}
		cost += float64(spareWeighs * math.Max(0, spareApart-d))
		if p.line.Distance(s.Tip) < 1 {
			cost += spareWeighs * spareApart
		}
	}
	return cost
}

// SensorWarning names the sensors that found no place.
func SensorWarning(r *layout.Room, missing []string, u plane.Units) job.Diagnostic {
	d := job.Diagnostic{Severity: job.Warning, ID: "W101", Span: r.Job.Span}
	inside := say.Whole(sensorInside, u)
	what := "the spare sensor"
	if len(missing) == 2 {
		what = "neither the sensor nor its spare"
		d.Message = fmt.Sprintf("room %q: %s could be placed: no gap between two runs is %s inside the heated "+
			"area and reached from the box clear of cable and lead joints", r.Job.Name, what, inside)
	} else {
		d.Message = fmt.Sprintf("room %q: %s could not be placed: no second gap between two runs is %s inside the "+
			"heated area and reached from the box clear of cable and lead joints", r.Job.Name, what, inside)
	}
	d.Hint = "move the thermostat, or place the sensor by hand before covering"
	return d
}
