package job

import (
	"fmt"

	"oxturn/layout/plane"
)

func (r *Room) readKeepOuts(t table, c Clearance) {
	names := namesSeen{}
	for i, kt := range limited(t, "keep_out") {
		k := KeepOut{Name: kt.text("name"), Clear: kt.numOr("clear", c.KeepOut), Tiled: kt.flag("tiled"),
			Span: kt.span(), Spans: kt.spans()}
		names.check(kt, "name", k.Name, "keep-out")
		what := thing("keep-out", k.Name)
		if k.Name == "" {
			k.Name = fmt.Sprintf("keep-out %d", i+1)
			what = k.Name
		}
		s, ok := r.place(kt, what, size{})
		if !ok {
			continue
		}
		k.Outline = s.outline
		r.checkWithin(kt, what, k.Outline)
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
		t.with(placeKey(t), "x runs east and y north from the same origin as the room's corners", r.wallNote(t, wall),
			"%s lies outside room %q, %s from wall %s", what, r.Name, t.length(depth), r.Walls[wall].Letter)
	case depth > r.slack():
		t.rd.report.Add(Diagnostic{Severity: Warning, ID: "W004", Span: t.at(placeKey(t)), Notes: r.wallNote(t, wall),
			Message: fmt.Sprintf("%s reaches %s through wall %s of room %q; what is beyond the wall is left out", what,
				t.length(depth), r.Walls[wall].Letter, r.Name)})
	}
}

func (r *Room) readLow(t table) {
	for i, lt := range limited(t, "low") {
		what := fmt.Sprintf("low-value floor %d", i+1)
		if s, ok := r.place(lt, what, size{}); ok {
			r.checkWithin(lt, what, s.outline)
			r.Low = append(r.Low, s.outline)
		}
	}
}
