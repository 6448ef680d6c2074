package probe

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A Face is what a hole may be drilled into from the side: a wall, a side of a curved one, or
// a face of a partition.
type Face struct {
	Called string        // "wall B", "toilet wall, left face", in the map's language
	Letter string        // of a wall; empty of a partition
	Part   string        // what stands there: "wall B", "toilet wall"
	Line   plane.Segment // where it meets the floor
	Core   plane.Segment // along it, where leads rise in it: of a partition its middle
	In     plane.Point   // unit vector square to it, to who looks at it
	From   string        // what lengths along it are measured from
	Start  float64       // mm of that at the start of its line
	Next   [2]string     // what is beyond its two ends
}

// facesOf are those of a room.
func (m *Map) facesOf(r *job.Room) (out []Face) {
	for i, w := range m.Walls {
		called := m.Textf("wall %s", w.Letter)
		corner := m.Textf("its corner with wall %s", m.before(i))
		f := Face{called, w.Letter, called, w.Segment, w.Segment, w.In, corner, 0,
			[2]string{m.before(i), m.Walls[(i+1)%len(m.Walls)].Letter}}
		if w.Curved {
			f.From, f.Start = m.Text("its start, along the curve"), r.CurveTo(i)
		}
		out = append(out, f)
	}
	for i := range r.Partitions {
		p := &r.Partitions[i]
		for k, line := range r.FacesOf(i) {
			called := [2]string{m.Textf("%s, left face", p.Name), m.Textf("%s, right face", p.Name)}[k]
			out = append(out, Face{called, "", p.Name, line, p.Segment, line.A.Sub(p.A).Unit(), m.Text("its start"), 0,
				[2]string{m.Text("start"), m.Text("end")}})
		}
	}
	return out
}

// A WallSpot is the mouth of a hole in the face of a wall or partition.
type WallSpot struct {
	Face  int     // index into Map.Faces
	Along float64 // mm from the start of the face's line
	Up    float64 // mm above the floor
}

// WallSpot finds a place on a wall named by its letter, or on a partition by its name with
// "left face" or "right face"; the error says which figure lies off it.
func (m *Map) WallSpot(wall string, along, up float64) (WallSpot, error) {
	first := -1
	for i, f := range m.Faces {
		if !f.named(wall) {
			continue
		}
		if first < 0 {
			first = i
		}
		if rest := along - f.Start; rest >= 0 && rest <= f.Line.Length() {
			return WallSpot{i, rest, up}, nil
		}
	}
	if first < 0 {
		return WallSpot{}, m.noFace(wall)
	}
	f, reach := m.Faces[first], 0.0
	for _, other := range m.Faces {
		if other.Called == f.Called {
			reach = math.Max(reach, other.Start+other.Line.Length())
		}
	}
	return WallSpot{}, fmt.Errorf("%s is %s long; %s from %s lies beyond it", f.Called, m.Length(reach),
		m.Length(along), f.From)
}

// named reports whether a face is the one that a name asks for. A partition alone stands for
// its left face.
func (f Face) named(name string) bool {
	return strings.EqualFold(f.Called, name) || f.Letter != "" && strings.EqualFold(f.Letter, name) ||
		f.Letter == "" && strings.EqualFold(f.Part+", left face", f.Called) && strings.EqualFold(f.Part, name)
}

// noFace says which walls and partitions there are.
func (m *Map) noFace(name string) error {
	_, err := m.wall(name)
	for i := len(m.Walls); i < len(m.Faces); i += 2 {
		err = fmt.Errorf("%w; %s, left or right face", err, m.Faces[i].Part)
	}
	return err
}

// before is the letter of the wall that ends where another starts.
func (m *Map) before(i int) string { return m.Walls[(i+len(m.Walls)-1)%len(m.Walls)].Letter }

// OnWall answers for a hole in a wall, whatever its depth. Leads in the wall lie
// as far from it as Rise says; what lies in the floor, as far as it is from the
// hole's mouth, measured aslant.
func (m *Map) OnWall(s WallSpot) Answer {
	face := m.Faces[s.Face]
	foot := face.Line.At(s.Along)
	raised := *m
	raised.Things = nil
	for _, t := range m.Things {
		if t.Kind == LeadRise {
			t = *m.Rise()
		}
		raised.Things = append(raised.Things, t)
	}
	a := raised.answer(foot, func(t Thing) (plane.Point, float64, int, float64) {
		from := foot
		if t.Kind == LeadRise && t.Name == face.Part {
			from = face.Core.At(s.Along)
		}
		at, off, leg, share := plane.Nearest(t.Line, from)
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
	w, hangs := m.room.BoxWall()
	if !hangs {
		return nil
	}
	t := m.room.Thermostat
	lo := w.Along
	hi := lo
	for _, x := range m.Things {
		if x.Kind != ColdLead && x.Kind != SensorLead {
			continue
		}
		end := nearerEnd(x.Line, t.At) // the other is its joint's or its tip's
		if q, at := w.Line.Nearest(end); q.Dist(end) <= layout.RiseDepth(m.Units) {
			lo, hi = min(lo, at), max(hi, at)
		}
	}
	core := w.In.Mul(-w.Thickness / 2)
	return &Thing{Kind: LeadRise, Name: w.Name(m.Language),
		Line: []plane.Point{w.Line.At(lo).Add(core), w.Line.At(hi).Add(core)},
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
		return m.Text("where the leads rise is not known")
	}
	w, _ := m.room.BoxWall()
	core := w.In.Mul(w.Thickness / 2)
	lo := math.Max(0, w.Line.A.Dist(r.Line[0].Add(core))-r.Half)
	hi := math.Min(w.Line.Length(), w.Line.A.Dist(r.Line[1].Add(core))+r.Half)
	from := m.Text("its start")
	for _, f := range m.Faces {
		if f.Part == w.Name(m.Language) {
			from = f.From
		}
	}
	return m.Textf("the leads rise in %s to the box, whose middle is %s up: the zone kept for them is %s "+
		"wide, from %s to %s from %s, and reaches from the floor to %s up, at any depth",
		w.Name(m.Language), m.Length(r.Up), m.Length(hi-lo), m.Length(lo), m.Length(hi), from, m.Length(r.Up+r.Half))
}

// WallCautions returns what is to be said with every answer about a wall.
func (m *Map) WallCautions() []string {
	return []string{
		m.Textf("Switch the heating off at the %s and make sure that it is off before any tool touches this wall.",
			m.Text(m.region.Panel)),
		m.Text("First look for a way without a hole: glue, or a holder that stands."),
		m.Text("No hole, nail or screw where the leads rise: each kills the floor as one in the cable does, and may " +
			"put a tool under voltage."),
		m.Text("How the leads lie in the wall was not recorded, and the circuit that feeds the box, other wires and " +
			"pipes are not on this map: find them with a detector before you drill."),
		m.Text("What lies in the floor is measured aslant from the hole's mouth; a hole that slopes down comes " +
			"nearer to it."),
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
	f := m.Faces[s.Face]
	return m.Textf("%s, %s from %s, %s above the floor", f.Called, m.Length(f.Start+s.Along), f.From,
		m.Length(s.Up))
}
