package job

import (
	"fmt"
	"strings"

	"oxturn/layout/plane"
)

// readOpenings reads doors, cased openings and windows. A threshold becomes a
// fixing along the opening: it will be screwed down.
func (r *Room) readOpenings(t table, c Clearance) {
	for _, o := range limited(t, "opening") {
		if got, ok := r.readOpening(o); ok {
			r.Openings = append(r.Openings, got)
			if got.Threshold {
				r.Fixings = append(r.Fixings, r.threshold(got, c))
			}
		}
	}
}

// openingOf is what a table says of an opening but for its place.
func openingOf(t table) Opening {
	o := Opening{Kind: t.text("kind"), Name: t.text("name"), Swing: t.text("swing"), Hinge: t.text("hinge"),
		Span: t.span(), Spans: t.spans()}
	if o.Name == "" {
		o.Name = o.Kind
	}
	if o.Swing == "" {
		o.Swing = map[bool]string{true: "in", false: "none"}[o.Kind == "door"]
	}
	return o
}

func (r *Room) readOpening(t table) (Opening, bool) {
	o := openingOf(t)
	o.Threshold = t.flag("threshold")
	what := thing(o.Kind, o.Name)
	if !t.has("wall") {
		t.errorf("kind", `add wall = "A" with from = "2ft"`, "%s stands on no wall", what)
		return o, false
	}
	if t.broken() || !r.usable() {
		return o, false
	}
	b, ok := r.baseGiven(t, what)
	if !ok {
		return o, false
	}
	if b.wall < 0 {
		t.errorf("wall", "write it as [[room.partition.opening]] below that partition", "%s is in a partition, %s",
			what,
			b.called)
		return o, false
	}
	from, to, ok := r.along(t, what, b, t.num("width"))
	if !ok {
		return o, false
	}
	if o.Wall, o.From, o.To, ok = r.side(t, what, b, from, to); !ok {
		return o, false
	}
	return o, r.clearOfOthers(t, o)
}

// clearOfOthers refuses two openings in one stretch of wall.
func (r *Room) clearOfOthers(t table, o Opening) bool {
	for _, p := range r.Openings {
		if over := min(o.To, p.To) - max(o.From, p.From); p.Wall == o.Wall && over > r.slack() {
			t.with(placeKey(t), "move one of them, or make it narrower",
				[]Note{{p.Span, fmt.Sprintf("%s runs from %s to %s", thing(p.Kind, p.Name), t.length(p.From),
					t.length(p.To))}},
				"%s overlaps %s by %s on wall %s", thing(o.Kind, o.Name), thing(p.Kind, p.Name), t.length(over),
				r.Walls[o.Wall].Letter)
			return false
		}
	}
	return true
}

// threshold is the fixing of an opening's threshold.
func (r *Room) threshold(o Opening, c Clearance) Fixing {
	w := r.Walls[o.Wall]
	return Fixing{Kind: "threshold", Name: o.Name + " threshold", Of: o.Name,
		Line: []plane.Point{w.At(o.From), w.At(o.To)}, Clear: c.Fixing, Span: o.Span, Spans: o.Spans}
}

// thing names a thing in a message: its kind, and its name where that says more.
func thing(kind, name string) string {
	if name == "" || name == kind {
		return kind
	}
	if n, ok := strings.CutPrefix(name, kind+" "); ok && n != "" && strings.Trim(n, "0123456789") == "" {
		return name // numbered: toilet 2
	}
	return fmt.Sprintf("%s %q", kind, name)
}
