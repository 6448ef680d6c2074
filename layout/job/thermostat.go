package job

import (
	"fmt"

	"oxturn/layout/plane"
)

// onWall is how far from a wall a thermostat's point may lie and still be on
// it: 1 in.
const onWall = 25.4

// readThermostat takes boxHeight, in mm, where the job gives no height.
func (r *Room) readThermostat(room table, boxHeight float64) {
	t := room.sub("thermostat")
	if t.n == nil {
		return // reported as missing
	}
	r.Thermostat = Thermostat{Height: t.numOr("height", boxHeight), Tail: t.num("tail"), Slack: t.num("slack"),
		Circuit: t.text("circuit"), Limit: t.num("floor_limit"), Span: t.span(), Spans: t.spans()}
	ways := given(t, "at", "wall")
	switch {
	case len(ways) == 0:
		t.errorf("at", `add wall = "A" with from = "4ft 6in", or at = [x, y] on a wall`,
			"the thermostat of room %q is on no wall", r.Name)
		return
	case len(ways) == 2:
		t.errorf("wall", "keep one of the two", "the thermostat of room %q has both at and wall", r.Name)
		return
	case t.broken() || !r.usable() || refuseIdle(t, "the thermostat", ways[0]):
		return
	}
	ok := false
	if ways[0] == "at" {
		ok = r.thermostatAt(t)
	} else {
		ok = r.thermostatOnWall(t)
	}
	if ok {
		r.checkThermostat(t)
	}
}

func (r *Room) thermostatAt(t table) bool {
	p, ok := r.spotOf(t, "at", fmt.Sprintf("the thermostat of room %q", r.Name))
	if !ok {
		return false
	}
	wall, d := r.nearestWall(p)
	w := r.Walls[wall]
	at, along := w.Nearest(p)
	if d > onWall {
		t.with("at", fmt.Sprintf(`write wall = %q and from = "%s" instead, or another wall's letter`, w.Letter,
			plainLength(t, along)), r.wallNote(t, wall),
			"the thermostat of room %q is on no wall: %s is %s from the nearest, %s", r.Name, t.rd.place(p),
			t.length(d), w.Letter)
		return false
	}
	r.Thermostat.At, r.Thermostat.Wall, r.Thermostat.Along = at, wall, along
	return true
}

func (r *Room) thermostatOnWall(t table) bool {
	what := "the thermostat"
	b, ok := r.baseGiven(t, what)
	switch {
	case !ok:
		return false
	case b.wall < 0:
		t.errorf("wall", "hang it on one of the room's own walls, or make the partition part of them",
			"%s is on a partition, %s, where no lead rise is drawn", what, b.called)
		return false
	case t.has("from") && t.has("to_end"):
		t.errorf("to_end", "keep one of the two", "%s has both from and to_end", what)
		return false
	}
	from, _, ok := r.along(t, what, b, 0)
	if !ok {
		return false
	}
	from = max(0, min(from, b.length()))
	wall, along, _, ok := r.side(t, what, b, from, from)
	r.Thermostat.At, r.Thermostat.Wall, r.Thermostat.Along = r.Walls[wall].At(along), wall, along
	return ok
}

// checkThermostat looks at what is where the leads come down.
func (r *Room) checkThermostat(t table) {
	th := r.Thermostat
	for _, o := range r.Openings {
		if o.Kind != "window" && o.Wall == th.Wall && th.Along > o.From && th.Along < o.To {
			t.with(placeKey(t), fmt.Sprintf("move it to less than %s or more than %s along wall %s, or to "+
				"another wall",
				plainLength(t, o.From), plainLength(t, o.To), r.Walls[th.Wall].Letter),
				[]Note{{o.Span, fmt.Sprintf("%s runs from %s to %s", thing(o.Kind, o.Name), t.length(o.From),
					t.length(o.To))}},
				"the thermostat of room %q would hang in %s: it is %s along wall %s", r.Name, thing(o.Kind,
					o.Name), t.length(th.Along), r.Walls[th.Wall].Letter)
		}
	}
	for _, f := range r.Fixtures {
		if foot := th.At.Add(r.inward(th.Wall).Mul(10)); f.Outline.Contains(foot) {
			t.rd.report.Add(Diagnostic{Severity: Warning, ID: "W005", Span: t.at(placeKey(t)),
				Notes: []Note{{f.Span, f.called() + " is here"}},
				Message: fmt.Sprintf("the leads of room %q come down behind %s, at %s", r.Name, f.called(),
					t.rd.place(plane.Point(th.At)))})
		}
	}
}
