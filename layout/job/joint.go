package job

import (
	"fmt"
	"math"
	"slices"

	"oxturn/layout/plane"
)

func (r *Room) readJoints(t table, c Clearance) {
	names := namesSeen{}
	for i, jt := range limited(t, "joint") {
		m := Joint{Name: jt.text("name"), Clear: jt.numOr("clear", c.Joint), Width: jt.num("width"), Span: jt.span(),
			Spans: jt.spans()}
		names.check(jt, "name", m.Name, "joint")
		if m.Name == "" {
			m.Name = fmt.Sprintf("MJ%d", i+1)
		}
		if jt.broken() || !r.usable() {
			continue
		}
		a, okA := r.jointEnd(jt, "from", m.Name)
		b, okB := r.jointEnd(jt, "to", m.Name)
		m.Segment = plane.Segment{A: a, B: b}
		if okA && okB && r.trim(jt, &m, fmt.Sprintf("movement joint %q", m.Name)) {
			r.Joints = append(r.Joints, m)
		}
	}
}

// jointEnd returns an end of a joint, which may be given along a wall.
func (r *Room) jointEnd(t table, key, name string) (plane.Point, bool) {
	return r.spotOf(t, key, fmt.Sprintf("movement joint %q", name))
}

// trim cuts a joint to what of it is in the room: from where it first enters
// to where it last leaves.
func (r *Room) trim(t table, m *Joint, what string) bool {
	s := m.Segment
	if s.Length() < 1 {
		t.errorf("to", "from and to are its two ends", "%s has no length: both ends are at %s", what, t.rd.place(s.A))
		return false
	}
	first, last := math.Inf(1), math.Inf(-1)
	for _, cut := range r.inside(s) {
		first, last = math.Min(first, cut[0]), math.Max(last, cut[1])
	}
	if last-first < 1 {
		gap, wall := math.Inf(1), 0
		for i, w := range r.Walls {
			if d := s.Gap(w.Segment); d < gap {
				gap, wall = d, i
			}
		}
		hint := "x runs east and y north from the same origin as the room's corners"
		t.with("from", hint, r.wallNote(t, wall),
			"%s misses room %q: it passes %s from wall %s and cuts no floor", what, r.Name,
			t.length(gap), r.Walls[wall].Letter)
		return false
	}
	m.Segment = plane.Segment{A: s.At(first), B: s.At(last)}
	return true
}

// inside returns the stretches of a segment that are in the room, as distances
// from its start.
func (r *Room) inside(s plane.Segment) [][2]float64 {
	cuts := []float64{0, s.Length()}
	u := s.B.Sub(s.A).Unit()
	for _, w := range r.Walls {
		if p, ok := s.Intersection(w.Segment); ok && w.Distance(p) < plane.Hair {
			if d := p.Sub(s.A).Dot(u); d > 0 && d < s.Length() {
				cuts = append(cuts, d)
			}
		}
	}
	return r.stretches(s, cuts)
}

// stretches keeps those pieces between cuts whose middle is in the room.
func (r *Room) stretches(s plane.Segment, cuts []float64) [][2]float64 {
	slices.Sort(cuts)
	var out [][2]float64
	for i := 1; i < len(cuts); i++ {
		a, b := cuts[i-1], cuts[i]
		if b-a > lengthRounding && r.Outline.Contains(s.At((a+b)/2)) {
			out = append(out, [2]float64{a, b})
		}
	}
	return out
}
