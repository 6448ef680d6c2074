package layout

import (
	"fmt"
	"math"
	"sort"

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
	places := r.sensorPlaces(w, pitch)
	for _, name := range []string{"S1", "S2"} {
		best := r.bestPlace(places, w.step)
		if best < 0 {
			missing = append(missing, name)
			continue
		}
		p := places[best]
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

func (r *Room) sensorPlaces(w *walk, pitch float64) []sensorPlace {
	var out []sensorPlace
	for _, c := range r.Cables {
		legs := longLegs(c.Path, 2*sensorInside)
		for i := range legs {
			for k := range legs {
				if tips := between(legs, i, k, 8*pitch); k != i {
					out = append(out, r.tipsBetween(w, tips, &c)...)
				}
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].cost < out[j].cost })
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
	line plane.Segment
	gap  float64
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
	m := &midway{plane.Segment{A: a.At(lo).Add(off), B: a.At(hi).Add(off)}, gap}
	mid := m.line.A.Lerp(m.line.B, 0.5)
	for n, c := range legs {
		if n != i && n != k && c.Distance(mid) < gap/2-1 {
			return nil
		}
	}
	return m
}

// tipsBetween tries places along a midway line, from its ends inwards.
func (r *Room) tipsBetween(w *walk, m *midway, c *Cable) []sensorPlace {
	if m == nil {
		return nil
	}
	best := sensorPlace{cost: math.Inf(1)}
	for d := 0.0; d <= m.line.Length(); d += 2 * w.step {
		if p, ok := r.sensorAt(w, m, m.line.At(d), c, best.cost); ok {
			best = p
		}
	}
	if math.IsInf(best.cost, 1) {
		return nil
	}
	return []sensorPlace{best}
}

// sensorAt judges a place; false where no sensor may lie or where it costs as
// much as limit.
func (r *Room) sensorAt(w *walk, m *midway, tip plane.Point, c *Cable, limit float64) (sensorPlace, bool) {
	p := sensorPlace{tip: tip, gap: m.gap}
	var way int32
	if p.state, way = w.reached(tip); way == far {
		return p, false
	}
	odd := math.Abs(m.gap-c.Spacing) / w.step // a gap unlike the rest reads warmer or cooler than the floor
	if p.cost = float64(way) + 4*odd; p.cost >= limit {
		return p, false
	}
	if p.deep = r.Zones[c.Zone].Depth(tip); p.deep < sensorInside || r.nearHeat(tip) < sensorHeat {
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

// bestPlace picks the cheapest place that is not beside a sensor already
// placed; a place less than spareApart away pays for its nearness.
func (r *Room) bestPlace(places []sensorPlace, step float64) int {
	best, cost := -1, math.Inf(1)
	for i, p := range places {
		c := p.cost
		for _, s := range r.Sensors {
			d := s.Tip.Dist(p.tip)
			if d < 2*p.gap {
				c = math.Inf(1)
			}
			c += 6 * math.Max(0, spareApart-d) / step
		}
		if c < cost {
			best, cost = i, c
		}
	}
	return best
}
