package job

import (
	"fmt"
	"math"

	"oxturn/layout/plane"
)

func (r *Room) readKeepOuts(t table, c Clearance) {
	names := namesSeen{}
	for i, kt := range limited(t, "keep_out") {
		k := KeepOut{Name: kt.text("name"), Clear: kt.numOr("clear", c.KeepOut), Tiled: kt.flag("tiled"), Span: kt.span(), Spans: kt.spans()}
		names.check(kt, "name", k.Name, "keep-out")
		if k.Name == "" {
			k.Name = fmt.Sprintf("keep-out %d", i+1)
		}
		s, ok := r.place(kt, thing("keep-out", k.Name), size{})
		if !ok {
			continue
		}
		k.Outline = s.outline
		r.checkWithin(kt, thing("keep-out", k.Name), k.Outline)
		r.KeepOuts = append(r.KeepOuts, k)
	}
}

// checkWithin refuses a piece of floor that is wholly outside the room, and
// warns of one that reaches over a wall: the floor ends at the wall anyway.
func (r *Room) checkWithin(t table, what string, ring plane.Ring) {
	depth, wall, wholly, err := r.outside(ring)
	switch {
	case err != nil:
		t.errorf(placeKey(t), "", "%s cannot be compared with room %q: %v", what, r.Name, err)
	case wholly:
		t.with(placeKey(t), "x runs east and y north from the same origin as the room's corners", r.wallNote(t, wall), "%s lies outside room %q, %s from wall %s", what, r.Name, t.length(depth), r.Walls[wall].Letter)
	case depth > r.slack():
		t.rd.report.Add(Diagnostic{Severity: Warning, ID: "W004", Span: t.at(placeKey(t)), Notes: r.wallNote(t, wall),
			Message: fmt.Sprintf("%s reaches %s through wall %s of room %q; what is beyond the wall is left out", what, t.length(depth), r.Walls[wall].Letter, r.Name)})
	}
}

func (r *Room) readLow(t table) {
	for i, lt := range limited(t, "low") {
		what := thing("low-value floor", fmt.Sprint(i+1))
		if s, ok := r.place(lt, what, size{}); ok {
			r.checkWithin(lt, what, s.outline)
			r.Low = append(r.Low, s.outline)
		}
	}
}

func (r *Room) readFixings(t table, c Clearance) {
	for _, ft := range limited(t, "fixing") {
		f := Fixing{Kind: ft.text("kind"), Name: ft.text("name"), Clear: ft.numOr("clear", c.Fixing), Span: ft.span(), Spans: ft.spans()}
		if f.Name == "" {
			f.Name = f.Kind
		}
		var ok bool
		if f.Line, ok = r.fixingLine(ft, thing(f.Kind, f.Name)); ok && r.checkFixing(ft, f) {
			r.Fixings = append(r.Fixings, f)
		}
	}
}

// fixingLine finds the point or line that a fixing is at.
func (r *Room) fixingLine(t table, what string) ([]plane.Point, bool) {
	ways := given(t, "at", "line", "wall")
	switch {
	case len(ways) == 0:
		t.errorf("kind", `add at = [x, y], or line = [[x, y], [x, y]], or wall = "A" with from = "2ft"`, "%s is not said to be anywhere", what)
		return nil, false
	case len(ways) > 1:
		t.errorf(ways[1], "keep one of the two", "%s has both %s and %s", what, ways[0], ways[1])
		return nil, false
	case t.broken() || !r.usable():
		return nil, false
	case ways[0] == "at":
		return []plane.Point{t.point("at")}, true
	case ways[0] == "line":
		return t.points("line"), true
	}
	wall, ok := r.wallIndex(t, what)
	if !ok {
		return nil, false
	}
	from, to, ok := r.along(t, what, wall, t.num("width"))
	if !ok {
		return nil, false
	}
	by := r.inward(wall).Mul(t.num("off"))
	line := []plane.Point{r.Walls[wall].At(from).Add(by)}
	if to > from {
		line = append(line, r.Walls[wall].At(to).Add(by))
	}
	return line, true
}

// checkFixing refuses a fixing outside the room.
func (r *Room) checkFixing(t table, f Fixing) bool {
	worst, wall := 0.0, 0
	for _, p := range f.Line {
		if w, d := r.nearestWall(p); !r.Outline.Contains(p) && d > worst {
			worst, wall = d, w
		}
	}
	if worst <= r.slack() {
		return true
	}
	key := given(t, "at", "line", "off", "wall")[0]
	t.with(key, "", r.wallNote(t, wall), "%s lies %s outside wall %s of room %q", thing(f.Kind, f.Name), t.length(worst), r.Walls[wall].Letter, r.Name)
	return false
}

func (r *Room) readJoints(t table, c Clearance) {
	names := namesSeen{}
	for i, jt := range limited(t, "joint") {
		m := Joint{Name: jt.text("name"), Clear: jt.numOr("clear", c.Joint), Width: jt.num("width"), Span: jt.span(), Spans: jt.spans()}
		names.check(jt, "name", m.Name, "joint")
		if m.Name == "" {
			m.Name = fmt.Sprintf("MJ%d", i+1)
		}
		if jt.broken() || !r.usable() {
			continue
		}
		m.Segment = plane.Segment{A: jt.point("from"), B: jt.point("to")}
		if r.trim(jt, &m) {
			r.Joints = append(r.Joints, m)
		}
	}
}

// trim cuts a joint to what of it is in the room: from where it first enters
// to where it last leaves.
func (r *Room) trim(t table, m *Joint) bool {
	s := m.Segment
	if s.Length() < 1 {
		t.errorf("to", "from and to are the joint's two ends", "movement joint %q has no length: both ends are at %s", m.Name, t.rd.place(s.A))
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
		t.with("from", hint, r.wallNote(t, wall), "movement joint %q misses room %q: it passes %s from wall %s and cuts no floor", m.Name, r.Name, t.length(gap), r.Walls[wall].Letter)
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
		if p, ok := s.Intersection(w.Segment); ok && w.Distance(p) < 1e-6 {
			if d := p.Sub(s.A).Dot(u); d > 0 && d < s.Length() {
				cuts = append(cuts, d)
			}
		}
	}
	return r.stretches(s, cuts)
}
