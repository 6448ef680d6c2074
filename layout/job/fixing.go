package job

import (
	"fmt"

	"oxturn/layout/plane"
)

func (r *Room) readFixings(t table, c Clearance) {
	for _, ft := range limited(t, "fixing") {
		f := Fixing{Kind: ft.text("kind"), Name: ft.text("name"), Clear: ft.numOr("clear", c.Fixing), Span: ft.span(),
			Spans: ft.spans()}
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
		t.errorf("kind", `add at = [x, y], or line = [[x, y], [x, y]], or wall = "A" with from = "2ft"`,
			"%s is not said to be anywhere", what)
		return nil, false
	case len(ways) > 1:
		t.errorf(ways[1], "keep one of the two", "%s has both %s and %s", what, ways[0], ways[1])
		return nil, false
	case t.broken() || !r.usable() || refuseIdle(t, what, ways[0]):
		return nil, false
	case ways[0] == "at":
		p, ok := r.spotOf(t, "at", what)
		return []plane.Point{p}, ok
	case ways[0] == "line":
		return t.points("line"), true
	}
	b, ok := r.baseGiven(t, what)
	if !ok {
		return nil, false
	}
	from, to, ok := r.along(t, what, b, t.num("width"))
	if !ok {
		return nil, false
	}
	var line []plane.Point
	for _, d := range []float64{from, to} {
		p, _, out := b.at(d)
		if line = append(line, p.Add(out.Mul(t.num("off")))); to <= from {
			break
		}
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
	t.with(key, fmt.Sprintf("move it %s %s at least", plainLength(t, worst), Wind(bearingOf(r.inward(wall)))),
		r.wallNote(t, wall), "%s lies %s outside wall %s of room %q", thing(f.Kind, f.Name), t.length(worst),
		r.Walls[wall].Letter, r.Name)
	return false
}
