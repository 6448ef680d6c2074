package probe

import (
	"fmt"
	"math"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// A WallSpot is the mouth of a hole in the face of a wall.
type WallSpot struct {
	Wall  int     // index into Map.Walls
	Along float64 // mm from the wall's start, its corner with the wall lettered before it
	Up    float64 // mm above the floor
}

// WallSpot finds a place on a wall named by its letter; the error says which
// figure lies off it.
func (m *Map) WallSpot(wall string, along, up float64) (WallSpot, error) {
	i, err := m.wall(wall)
	if err != nil {
		return WallSpot{}, err
	}
	if w := m.Walls[i]; along > w.Length() {
		return WallSpot{}, fmt.Errorf("wall %s is %s long; %s from its corner with wall %s lies beyond it", w.Letter,
			m.Length(w.Length()), m.Length(along), m.before(i))
	}
	return WallSpot{i, along, up}, nil
}

// before is the letter of the wall that ends where another starts.
func (m *Map) before(i int) string { return m.Walls[(i+len(m.Walls)-1)%len(m.Walls)].Letter }

// OnWall answers for a hole in a wall, whatever its depth. Leads in the wall lie
// as far from it as Rise says; what lies in the floor, as far as it is from the
// hole's mouth, measured aslant.
func (m *Map) OnWall(s WallSpot) Answer {
	foot := m.Walls[s.Wall].At(s.Along)
	raised := *m
	raised.Things = nil
	for _, t := range m.Things {
		if t.Kind == LeadRise {
			t = *m.Rise()
		}
		raised.Things = append(raised.Things, t)
	}
	a := raised.answer(foot, func(t Thing) (plane.Point, float64, int, float64) {
		at, off, leg, share := plane.Nearest(t.Line, foot)
		return at, math.Hypot(off, math.Max(0, s.Up-t.Up)), leg, share
	})
	a.Wall, a.Inside, a.Tile, a.Stand = &s, true, nil, nil
	m.judge(&a)
	return a
}

// Rise is the lead rise as a hole in a wall meets it: the foot of the wall from
// the box to where any lead comes to it, and up to the box from there. How the
// leads lie in between nobody records. Nil: the room has no box.
func (m *Map) Rise() *Thing {
	t := m.room.Thermostat
	if t.Wall < 0 || t.Wall >= len(m.Walls) {
		return nil
	}
	w := m.Walls[t.Wall]
	along := w.B.Sub(w.A).Unit()
	lo := along.Dot(t.At.Sub(w.A))
	hi := lo
	for _, x := range m.Things {
		if x.Kind != ColdLead && x.Kind != SensorLead {
			continue
		}
		end := nearerEnd(x.Line, t.At) // the other is its joint's or its tip's
		if q, at := w.Segment.Nearest(end); q.Dist(end) <= layout.RiseDepth(m.Units) {
			lo, hi = min(lo, at), max(hi, at)
		}
	}
	return &Thing{Kind: LeadRise, Name: "wall " + w.Letter, Line: []plane.Point{w.At(lo), w.At(hi)},
		Half: layout.RiseHalf(m.Units), Up: t.Height}
}

// nearerEnd is the end of a line that lies nearer to a place.
func nearerEnd(line []plane.Point, to plane.Point) plane.Point {
	first, last := line[0], line[len(line)-1]
	if last.Dist(to) < first.Dist(to) {
		return last
	}
	return first
}

// Foot is where the wall below the box meets the floor.
func (m *Map) Foot() plane.Point { return m.room.Thermostat.At }

// RiseWords says which part of which wall belongs to the leads.
func (m *Map) RiseWords() string {
	r := m.Rise()
	if r == nil {
		return "where the leads rise is not known"
	}
	i := m.room.Thermostat.Wall
	w := m.Walls[i]
	lo, hi := math.Max(0, w.A.Dist(r.Line[0])-r.Half), math.Min(w.Length(), w.A.Dist(r.Line[1])+r.Half)
	return fmt.Sprintf("the leads rise in wall %s to the box, whose middle is %s up: the zone kept for them is %s "+
		"wide, from %s to %s from the corner with wall %s, and reaches from the floor to %s up, at any depth",
		w.Letter, m.Length(r.Up), m.Length(hi-lo), m.Length(lo), m.Length(hi), m.before(i), m.Length(r.Up+r.Half))
}

// WallCautions returns what is to be said with every answer about a wall.
func (m *Map) WallCautions() []string {
	return []string{
		"Switch the heating off at the " + m.region.Panel +
			" and make sure that it is off before any tool touches this wall.",
		"First look for a way without a hole: glue, or a holder that stands.",
		"No hole, nail or screw where the leads rise: each kills the floor as one in the cable does, and may put a " +
			"tool under voltage.",
		"How the leads lie in the wall was not recorded, and the circuit that feeds the box, other wires and pipes " +
			"are not on this map: find them with a detector before you drill.",
		"What lies in the floor is measured aslant from the hole's mouth; a hole that slopes down comes nearer to it.",
	}
}

// CautionsOf returns what is to be said with an answer.
func (m *Map) CautionsOf(a Answer) []string {
	if a.Wall != nil {
		return m.WallCautions()
	}
	return m.Cautions()
}

// wallWords says where on a wall a hole is.
func (m *Map) wallWords(s WallSpot) string {
	return fmt.Sprintf("wall %s, %s from its corner with wall %s, %s above the floor", m.Walls[s.Wall].Letter,
		m.Length(s.Along), m.before(s.Wall), m.Length(s.Up))
}
