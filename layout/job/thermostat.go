package job

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// onWallReach is how far from a wall a thermostat's point may lie and still be on
// it: 1 in.
const onWallReach = 25.4

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
	r.Thermostat.Wall = -1
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
	if r.thermostatAtPartition(p) {
		return true
	}
	wall, d := r.nearestWall(p)
	w := r.Walls[wall]
	at, along := w.Nearest(p)
	if d > onWallReach {
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
	case t.has("from") && t.has("to_end"):
		t.errorf("to_end", "keep one of the two", "%s has both from and to_end", what)
		return false
	}
	from, _, ok := r.along(t, what, b, 0)
	if !ok {
		return false
	}
	from = max(0, min(from, b.length()))
	if b.face != nil {
		r.hang(b, from)
		return true
	}
	wall, along, _, ok := r.side(t, what, b, from, from)
	r.Thermostat.At, r.Thermostat.Wall, r.Thermostat.Along = r.Walls[wall].At(along), wall, along
	return ok
}

// thermostatAtPartition hangs the box on the face of a partition that a point lies on.
func (r *Room) thermostatAtPartition(p plane.Point) bool {
	for i := range r.Partitions {
		for _, side := range []string{"left", "right"} {
			b := r.faceOf(i, side)
			if at, along := b.line.Nearest(p); at.Dist(p) <= onWallReach && r.Partitions[i].Distance(p) >=
				r.Partitions[i].Thickness/2-onWallReach/2 {
				r.hang(b, along)
				return true
			}
		}
	}
	return false
}

// A BoxWall is what a thermostat's box hangs on: one of a room's walls or a face of a
// partition.
type BoxWall struct {
	Called    string        // "wall B", or the partition by its name
	Letter    string        // of the wall; empty of a partition
	Line      plane.Segment // as one goes along it; of a curve its tangent at the box, as long as the curve
	In        plane.Point   // at the box: unit vector square to it, to where the leads come down
	Along     float64       // mm from its start to the box
	Thickness float64       // of a partition; 0: it is a wall
	Openings  []Opening     // From and To are along it
	base      base
}

// Name is Called in the reader's language.
func (w BoxWall) Name(l language.Language) string {
	if w.Letter == "" {
		return w.Called
	}
	return l.Textf("wall %s", w.Letter)
}

// Within is the same as it stands within a sentence, where other languages have an article before it.
func (w BoxWall) Within(l language.Language) string {
	if w.Letter == "" {
		return w.Called
	}
	return l.Textf("wall %[1]s", w.Letter)
}

// BoxWall returns what the thermostat's box hangs on, false where the room has none.
func (r *Room) BoxWall() (BoxWall, bool) {
	t := r.Thermostat
	switch {
	case t.Face != nil && t.Face.Partition < len(r.Partitions):
		return r.boxWall(r.faceOf(t.Face.Partition, map[bool]string{true: "right"}[t.Face.Right]), t.At), true
	case t.Face != nil || t.Wall < 0 || t.Wall >= len(r.Walls):
		return BoxWall{}, false
	}
	return r.boxWall(r.sideOrCurve(t.Wall), t.At), true
}

// sideOrCurve is wall i alone, or the curve that it is a side of.
func (r *Room) sideOrCurve(i int) base {
	if w := r.Walls[i]; w.Arc == nil {
		return base{called: "wall " + w.Letter, letter: w.Letter, line: w.Segment, in: r.inward(i), wall: i}
	}
	return r.baseOf(i)
}

// boxWall is a base with a box at a place of it.
func (r *Room) boxWall(b base, at plane.Point) BoxWall {
	out := BoxWall{Called: b.called, Letter: b.letter, Line: b.line, In: b.in, Along: b.along(at), base: b}
	if b.face != nil {
		p := &r.Partitions[b.face.Partition]
		out.Thickness, out.Openings = p.Thickness, p.Openings
		return out
	}
	for _, o := range r.Openings {
		side := r.Walls[o.Wall]
		if o.Wall != b.wall && (b.arc == nil || side.Arc != b.arc) {
			continue
		}
		shift := b.along(side.A)
		o.From, o.To = o.From+shift, o.To+shift
		out.Openings = append(out.Openings, o)
	}
	if b.arc != nil {
		_, on, in := b.at(out.Along)
		out.In = in
		out.Line = plane.Segment{A: at.Sub(on.Mul(out.Along)), B: at.Add(on.Mul(b.length() - out.Along))}
	}
	return out
}

// BoxWalls are what a box may hang on by a name, its place being its start: the pieces of a
// wall by its letter, or both faces of a partition by its name; none where nothing is called so.
func (r *Room) BoxWalls(name string) (out []BoxWall) {
	name = strings.TrimSpace(name)
	for i := range r.Partitions {
		if strings.EqualFold(r.Partitions[i].Name, name) {
			for _, side := range []string{"left", "right"} {
				b := r.faceOf(i, side)
				out = append(out, r.boxWall(b, b.line.A))
			}
		}
	}
	for i, w := range r.Walls {
		root, _, _ := strings.Cut(w.Letter, ".")
		if strings.EqualFold(root, name) && (w.Arc == nil || i == 0 || r.Walls[i-1].Arc != w.Arc) {
			out = append(out, r.boxWall(r.sideOrCurve(i), w.A))
		}
	}
	return out
}

// WithBox returns the room with its box so far along what it may hang on.
func (r *Room) WithBox(w BoxWall, along float64) Room {
	moved := *r
	moved.hang(w.base, along)
	return moved
}

// hang puts the box so far along a base that it lies on.
func (r *Room) hang(b base, along float64) {
	t := &r.Thermostat
	t.At, t.Wall, t.Along, t.Face = b.line.At(along), b.wall, along, b.face
	if b.arc != nil {
		t.Wall, t.Along = r.alongCurve(b.wall, along)
		t.At = r.Walls[t.Wall].At(t.Along)
	}
}

// Side says of a partition which face it is, as the job's key has it; "" for a wall.
func (b BoxWall) Side() string {
	switch f := b.base.face; {
	case f == nil:
		return ""
	case f.Right:
		return "right"
	}
	return "left"
}

// Length is along the curve where it is one.
func (b BoxWall) Length() float64 { return b.base.length() }

// Curved reports whether it is a curve, which its elevation shows unrolled.
func (b BoxWall) Curved() bool { return b.base.arc != nil }

// Off returns how far along it from its start a place of the floor lies, and how far
// before it.
func (b BoxWall) Off(p plane.Point) (along, before float64) {
	along = b.base.along(p)
	at, _, out := b.base.at(along)
	return along, out.Dot(p.Sub(at))
}

// Before returns the place of the floor that lies so far along it and so far before it.
func (b BoxWall) Before(along, before float64) plane.Point {
	at, _, out := b.base.at(along)
	return at.Add(out.Mul(before))
}

// CurveTo is how far along its curve side i begins, mm from the curve's start.
func (r *Room) CurveTo(i int) float64 { return math.Max(0, r.baseOf(i).along(r.Walls[i].A)) }

// FacesOf are the left and the right face of partition i, as one goes from its start to its
// end.
func (r *Room) FacesOf(i int) [2]plane.Segment {
	return [2]plane.Segment{r.faceOf(i, "left").line, r.faceOf(i, "right").line}
}

// WithoutBox returns a room in which no box hangs, so that none is drawn.
func (r *Room) WithoutBox() *Room {
	bare := *r
	bare.Thermostat.Wall, bare.Thermostat.Face = -1, nil
	return &bare
}

// besideOpening says where else than in an opening a box may hang: where its wall goes on, or elsewhere.
func besideOpening(t table, w BoxWall, o Opening) string {
	var on []string
	if o.From > lengthRounding {
		on = append(on, "less than "+plainLength(t, o.From))
	}
	if o.To < w.Length()-lengthRounding {
		on = append(on, "more than "+plainLength(t, o.To))
	}
	if on == nil {
		return "another wall"
	}
	return fmt.Sprintf("%s along %s, or to another wall", strings.Join(on, " or "), w.Called)
}

// checkThermostat looks at what is where the leads come down.
func (r *Room) checkThermostat(t table) {
	th := r.Thermostat
	w, hangs := r.BoxWall()
	if !hangs {
		return
	}
	for _, o := range w.Openings {
		if o.Kind != "window" && w.Along > o.From && w.Along < o.To {
			note := Note{o.Span, fmt.Sprintf("%s runs from %s to %s", thing(o.Kind, o.Name), t.length(o.From),
				t.length(o.To))}
			t.with(placeKey(t), "move it to "+besideOpening(t, w, o), []Note{note},
				"the thermostat of room %q would hang in %s: it is %s along %s", r.Name, thing(o.Kind, o.Name),
				t.length(w.Along), w.Called)
		}
	}
	for _, f := range r.Fixtures {
		if foot := th.At.Add(w.In.Mul(10)); f.Outline.Contains(foot) {
			t.rd.report.Add(Diagnostic{Severity: Warning, ID: "W005", Span: t.at(placeKey(t)),
				Notes: []Note{{f.Span, f.called() + " is here"}},
				Message: fmt.Sprintf("the leads of room %q come down behind %s, at %s", r.Name, f.called(),
					t.rd.place(plane.Point(th.At)))})
		}
	}
}
