package tube

import (
	"fmt"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A tubePlan is a sensor and its spare, as far as they find a place.
type tubePlan struct {
	sensors []layout.Sensor
	costs   []float64 // mm
}

// meet reports whether a tube crosses a lead or comes too near to one.
func (t tubePlan) meet(leads [][]plane.Point) bool {
	for _, s := range t.sensors {
		for _, l := range leads {
			for _, a := range plane.Segments(s.Lead) {
				for _, b := range plane.Segments(pastFoot(l, footNear)) {
					if a.Gap(b) < tubeLead-1 {
						return true
					}
				}
			}
		}
	}
	return false
}

// tubes places the sensors, off the given leads: the spare's tube past that of
// the sensor, or the other way round where that saves much.
func tubes(r *layout.Room, g tubeGround, leads [][]plane.Point) tubePlan {
	g = g.fresh()
	for _, l := range leads {
		g.addLead(pastFoot(l, footFan))
	}
	plan := tubesInTurn(r, g, nil)
	if len(plan.sensors) < 2 {
		return plan
	}
	r.Sensors = plan.sensors[:1:1]
	spare, ok := bestPlace(r, g)
	if !ok || plan.costs[0]+spare.cost*g.walk.step > plan.cost()-leadMove {
		return plan
	}
	if turned := tubesInTurn(r, g, &spare); turned.cost() < plan.cost()-leadMove {
		slices.Reverse(turned.sensors)
		return turned
	}
	return plan
}

// tubesInTurn places one sensor, at a given place or the best, and then the
// other; the audit names them.
func tubesInTurn(r *layout.Room, g tubeGround, first *sensorPlace) (out tubePlan) {
	g = g.fresh()
	r.Sensors = nil
	for range sensorNames {
		p, tube := placeWithTube(r, &g, first)
		if tube == nil {
			break
		}
		first = nil
		why := fmt.Sprintf("midway in a gap of %s, %s inside the heated area", say.WholeUnits(p.gap, plane.Millimetres),
			say.WholeUnits(p.deep, plane.Millimetres))
		r.Sensors = append(r.Sensors, layout.Sensor{Tip: p.tip, Lead: tube, Why: why})
		g.addLead(pastFoot(tube, footFan))
		g.addLead(p.across())
		out.costs = append(out.costs, p.cost*g.walk.step)
	}
	out.sensors = r.Sensors
	return out
}

// mostPlaces bounds how many places are tried for one sensor.
const mostPlaces = 24

// placeWithTube returns a place, the given one or the best, and the tube to it:
// drawn straight, or as it was found where that breaks a rule. A place that no
// tube comes to by the rules is left out, together with its line; nil for none.
func placeWithTube(r *layout.Room, g *tubeGround, first *sensorPlace) (sensorPlace, []plane.Point) {
	for range mostPlaces {
		p, ok := sensorPlace{}, true
		if first != nil {
			p, first = *first, nil
		} else if p, ok = bestPlace(r, *g); !ok {
			break
		}
		found := plane.Corners(slices.Concat([]plane.Point{g.foot}, p.way, []plane.Point{p.tip}))
		for _, tube := range [][]plane.Point{g.tube(p), found} {
			if tubeLies(r, g.walk.floor, tube, g.offJoints) {
				return p, tube
			}
		}
		g.places = g.without(p)
	}
	return sensorPlace{}, nil
}

// without returns the places that lie on another line than a given one.
func (ps *places) without(p sensorPlace) *places {
	out := &places{first: slices.Repeat([]int32{-1}, len(ps.first))}
	for n, k := range ps.first {
		for ; k >= 0; k = ps.all[k].next {
			if q := ps.all[k]; q.midway != p.midway {
				q.next = out.first[n]
				out.all = append(out.all, q)
				out.first[n] = int32(len(out.all) - 1)
			}
		}
	}
	return out
}

func (t tubePlan) cost() (sum float64) {
	for _, c := range t.costs {
		sum += c
	}
	return sum
}

// across returns the line from run to run through the tip, which no other tube
// is to pass.
func (p sensorPlace) across() []plane.Point {
	half := p.line.B.Sub(p.line.A).Unit().Left().Mul(p.gap / 2)
	return []plane.Point{p.tip.Sub(half), p.tip.Add(half)}
}

// A tubeGround is the floor that tubes are laid on: a grid to search, the lines
// to keep off, and the places for tips.
type tubeGround struct {
	tubeFloor
	walk      *walk
	offJoints float64 // how far to keep off lead joints, mm
	*places
}

// shunWeighs is how much dearer a step beside what is shunned is.
const shunWeighs = 6

// groundOf lays out the floor with its cables.
func groundOf(r *layout.Room, floor plane.Region, j *job.Job) tubeGround {
	lattice := r.Cables[0].Lattice
	w := newWalk(floor, lattice.Origin, lattice.Angle, j.Peg()/2)
	f := tubeFloor{foot: r.Job.Thermostat.At}
	f.off = margins{nearCable: j.Near() / 2, nearWall: tubeOff, nearLead: tubeLead}
	for _, m := range r.Job.Joints {
		f.off[nearJoint] = max(f.off[nearJoint], m.Clear)
	}
	for _, ring := range floor.Rings() {
		f.add(nearWall, append(ring[:len(ring):len(ring)], ring[0]))
	}
	for _, c := range r.Cables {
		w.bar(c.Path)
		f.add(nearCable, c.Path)
	}
	offJoints := jointRoom(j)
	for _, at := range leadJoints(r) {
		ring := ringRound(at, offJoints)
		w.bar(ring)
		f.add(nearLeadJoint, ring)
	}
	for _, m := range r.Job.Joints {
		line := []plane.Point{m.A, m.B}
		w.cross(line, int32(jointToll/w.step))
		f.add(nearJoint, line)
	}
	for _, l := range f.lines {
		if l.what == nearCable {
			w.shun(l.Segment, tubeOff, shunWeighs)
		}
		w.shun(l.Segment, f.off[l.what], [obstacleKinds]int32{nearCable: 1, nearWall: 2, nearJoint: jointCost}[l.what])
	}
	return tubeGround{f, w, offJoints, placesAlong(r, w, midways(r, j.Peg()))}
}

// fresh returns the ground for tubes and leads to be added to.
func (g tubeGround) fresh() tubeGround {
	w := *g.walk
	w.dear = slices.Clone(w.dear)
	w.toll = [2][]int32{slices.Clone(w.toll[0]), slices.Clone(w.toll[1])}
	g.lines = slices.Clip(g.lines)
	g.walk = &w
	return g
}

// addLead keeps tubes off a lead or an earlier tube.
func (g *tubeGround) addLead(pts []plane.Point) {
	g.walk.cross(pts, int32(leadToll/g.walk.step))
	g.add(nearLead, pts)
	for _, s := range plane.Segments(pts) {
		g.walk.shun(s, tubeLead, 1)
	}
}

// pastFoot returns a lead without its first d millimetres.
func pastFoot(pts []plane.Point, d float64) []plane.Point {
	for i := 1; i < len(pts); i++ {
		s := plane.Segment{A: pts[i-1], B: pts[i]}
		if n := s.Length(); n > d {
			return append([]plane.Point{s.At(d)}, pts[i:]...)
		}
		d -= s.Length()
	}
	return nil
}
