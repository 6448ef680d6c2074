package job

import (
	"fmt"

	"oxturn/layout/plane"
)

// cornerLeast is how much wall, mm, a niche leaves at least on either side.
const cornerLeast = 10.0

// readNiches takes the floor into recesses of the walls, and keeps the cable out of those
// that are not tiled or not to be warm.
func (r *Room) readNiches(t table, c Clearance) {
	r.whole = map[string]plane.Segment{}
	count := map[string]int{}
	for i, nt := range limited(t, "niche") {
		name := nt.text("name")
		if name == "" {
			name = numbered("niche", i+1)
		}
		what := thing("niche", name)
		tiled, heated := nt.flagOr("tiled", true), nt.flagOr("heated", true)
		if nt.broken() || !r.usable() {
			continue
		}
		if ring, ok := r.recess(nt, what, count); ok && !(tiled && heated) {
			r.KeepOuts = append(r.KeepOuts, KeepOut{Name: name, Outline: ring, Tiled: tiled, Cold: tiled,
				Clear: map[bool]float64{false: c.KeepOut}[tiled], Span: nt.span(), Spans: nt.spans()})
		}
	}
	if !r.usable() || t.broken() || len(count) == 0 {
		return
	}
	if clash, bad := r.Outline.SelfClash(); bad {
		t.errorf("niche", "make it less deep, or look at where it begins",
			"a niche of room %q would meet another wall at %s", r.Name, t.rd.place(clash.At))
		r.Outline, r.Walls = nil, nil
		t.spoil()
	}
}

// recess puts the sides of a niche into its wall, and returns its floor. The wall's piece
// before it keeps the letter; A.1 to A.3 are its sides, A.4 is where wall A goes on.
func (r *Room) recess(t table, what string, count map[string]int) (plane.Ring, bool) {
	if !t.has("wall") {
		t.errorf("depth", `add wall = "A" with from = "2ft"`, "%s is in no wall", what)
		return nil, false
	}
	i, ok := r.wallNamed(t, "wall", t.text("wall"), what)
	if !ok {
		return nil, false
	}
	b := r.baseOf(i)
	from, to, ok := r.along(t, what, b, t.num("width"))
	if !ok {
		return nil, false
	}
	if from < cornerLeast || to > b.length()-cornerLeast {
		t.errorf(placeKeyOf(t), "write its walls in the room's own walls or corners instead",
			"%s begins or ends in a corner of %s", what, b.called)
		return nil, false
	}
	wall, _, _, ok := r.side(t, what, b, from, to)
	if !ok {
		return nil, false
	}
	by := b.in.Mul(-t.num("depth"))
	p, q := b.line.At(from), b.line.At(to)
	ring := plane.Ring{p, p.Add(by), q.Add(by), q}
	w, root := r.Walls[wall], r.Walls[i].Letter
	r.whole[root] = b.line
	sides := []Wall{{w.Letter, plane.Segment{A: w.A, B: p}, nil}}
	for k, s := range []plane.Segment{{A: p, B: ring[1]}, {A: ring[1], B: ring[2]}, {A: ring[2], B: q},
		{A: q, B: w.B}} {
		sides = append(sides, Wall{fmt.Sprintf("%s.%d", root, count[root]+k+1), s, nil})
	}
	count[root] += 4
	r.putSides(wall, sides, r.wallSpan(wall))
	return ring, true
}
