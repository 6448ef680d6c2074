package layout

import (
	"fmt"
	"math"

	"oxturn/layout/plane"
)

// Where a floor sensor may lie: common practice, see the take-up of each in
// sensorPlace.
const (
	sensorInside = 150 // least distance of the tip inside the heated area, mm (6 in)
	sensorWanted = 300 // wanted distance inside, mm (12 in)
	sensorHeat   = 300 // least distance from registers, hearths and other heat, mm
	spareApart   = 600 // wanted distance between the two tips, mm
)

// placeSensors puts a sensor and a spare midway between two neighbouring
// parallel runs, their leads reaching the box without crossing heating cable.
// It returns what could not be placed.
func (r *Room) placeSensors(pitch float64) (missing []string) {
	if len(r.Cables) == 0 {
		return nil
	}
	lattice := r.Cables[0].Lattice
	floor, err := r.leadFloor()
	if err != nil {
		return []string{"S1", "S2"}
	}
	w := newWalk(floor, lattice.Origin, lattice.Angle, pitch/2)
	for _, c := range r.Cables {
		w.bar(c.Path)
	}
	w.run(r.Job.Thermostat.At)
	ways := r.midways(pitch)
	for _, name := range []string{"S1", "S2"} {
		p, ok := r.bestPlace(w, ways)
		if !ok {
			missing = append(missing, name)
			continue
		}
		why := fmt.Sprintf("midway in a gap of %.0f mm, %.0f mm inside the heated area", p.gap, p.deep)
		r.Sensors = append(r.Sensors, Sensor{Name: name, Spare: name == "S2", Tip: p.tip, Lead: p.lead(w, r.Job.Thermostat.At), Why: why})
	}
	return missing
}

// A sensorPlace is a tip midway between two runs, reachable from the box.
type sensorPlace struct {
	tip   plane.Point
	state int // of the walk, where the lead arrives
	gap   float64
	deep  float64 // inside the heated area
	cost  float64
}

// lead is the way from the thermostat's foot to the tip.
func (p sensorPlace) lead(w *walk, foot plane.Point) []plane.Point {
	way := w.way(p.state)
	way[len(way)-1] = p.tip
	if len(way) > 1 && way[len(way)-2].Dist(p.tip) < w.step {
		way = append(way[:len(way)-2], p.tip)
	}
	return corners(append([]plane.Point{foot}, way...))
}

// midways returns the lines halfway between neighbouring runs.
func (r *Room) midways(pitch float64) []midway {
	var out []midway
	for n := range r.Cables {
		c := &r.Cables[n]
		legs := longLegs(c.Path, 2*sensorInside)
		for i := range legs {
			for k := range legs {
				if k == i {
					continue
				}
				if m := between(legs, i, k, 8*pitch); m != nil {
					m.cable = c
					out = append(out, *m)
				}
			}
		}
	}
	return out
}

func longLegs(path []plane.Point, least float64) []plane.Segment {
	var out []plane.Segment
	for i := 1; i < len(path); i++ {
		if s := (plane.Segment{A: path[i-1], B: path[i]}); s.Length() >= least {
			out = append(out, s)
		}
	}
	return out
}

// A midway is a line of points halfway between two parallel legs.
type midway struct {
	line  plane.Segment
	gap   float64
	cable *Cable
}

// between returns the midway line of legs i and k where k lies to the left of
// i, faces it over some length, and no third leg lies between them.
func between(legs []plane.Segment, i, k int, widest float64) *midway {
	a, b := legs[i], legs[k]
	u, v := a.B.Sub(a.A).Unit(), b.B.Sub(b.A).Unit()
	if math.Abs(u.Cross(v)) > 1e-3 {
		return nil
	}
	gap := u.Cross(b.A.Sub(a.A))
	if gap < 1 || gap > widest {
		return nil
	}
	s, t := b.A.Sub(a.A).Dot(u), b.B.Sub(a.A).Dot(u)
	lo, hi := math.Max(0, math.Min(s, t)), math.Min(a.Length(), math.Max(s, t))
	if hi-lo < sensorInside {
		return nil
	}
	off := u.Left().Mul(gap / 2)
	m := &midway{line: plane.Segment{A: a.At(lo).Add(off), B: a.At(hi).Add(off)}, gap: gap}
	mid := m.line.A.Lerp(m.line.B, 0.5)
	for n, c := range legs {
		if n != i && n != k && c.Distance(mid) < gap/2-1 {
			return nil
		}
	}
	return m
}

// bestPlace is the cheapest place of all, tried along each midway line from
// its ends inwards; false for none.
func (r *Room) bestPlace(w *walk, ways []midway) (sensorPlace, bool) {
	best := sensorPlace{cost: math.Inf(1)}
	for i := range ways {
		m := &ways[i]
		for d := 0.0; d <= m.line.Length(); d += 2 * w.step {
			if p, ok := r.sensorAt(w, m, m.line.At(d), best.cost); ok {
				best = p
			}
		}
	}
	return best, !math.IsInf(best.cost, 1)
}

// sensorAt judges a place; false where no sensor may lie or where it costs as
// much as limit.
func (r *Room) sensorAt(w *walk, m *midway, tip plane.Point, limit float64) (sensorPlace, bool) {
	p := sensorPlace{tip: tip, gap: m.gap}
	var way int32
	if p.state, way = w.reached(tip); way == far {
		return p, false
	}
	odd := math.Abs(m.gap-m.cable.Spacing) / w.step // a gap unlike the rest reads warmer or cooler than the floor
	if p.cost = float64(way) + 4*odd + r.besideSensors(&p, m)/w.step; p.cost >= limit {
		return p, false
	}
	if p.deep = r.Zones[m.cable.Zone].Depth(tip); p.deep < sensorInside || r.nearHeat(tip) < sensorHeat {
		return p, false
	}
	p.cost += 2 * math.Max(0, sensorWanted-p.deep) / w.step
	return p, p.cost < limit
}

// nearHeat is the distance to the nearest other source of heat.
func (r *Room) nearHeat(p plane.Point) float64 {
	d := math.Inf(1)
	for _, f := range r.Job.Fixtures {
		if f.Heat {
			d = math.Min(d, f.Outline.Distance(p))
		}
	}
	return d
}

// besideSensors is what a place asks for lying near a sensor already placed:
// 6 mm for each that spareApart is missed by, and for all of it in the same
// gap; no place right beside it.
func (r *Room) besideSensors(p *sensorPlace, m *midway) float64 {
	asks := 0.0
	for _, s := range r.Sensors {
		d := s.Tip.Dist(p.tip)
		if d < 2*p.gap {
			return math.Inf(1)
		}
		asks += float64(6 * math.Max(0, spareApart-d))
		if m.line.Distance(s.Tip) < 1 {
			asks += 6 * spareApart
		}
	}
	return asks
}
