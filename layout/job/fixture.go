package job

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A usualFixture is what holds of a kind where the file is silent.
type usualFixture struct {
	kind  FixtureKind
	size  size
	tiled bool // tile runs under it
	heat  bool
	clear string // key of [clearance]
}

// usualFixtures: a tub of 60 x 30 in, a shower of 36 x 36, a vanity and a base
// cabinet 21 and 24 in deep and a range 30 in wide are the trade's usual sizes;
// a toilet is 25 to 30 in long. From memory: the toilet's and vanity's width,
// the drain, and the register of 10 x 4 in. Island, column and hearth have no
// usual size.
var usualFixtures = []usualFixture{
	{Toilet, inches(15, 28), true, false, "fixture"},
	{Vanity, inches(30, 21), false, false, "fixture"},
	{Tub, inches(60, 30), false, false, "fixture"},
	{Shower, inches(36, 36), false, false, "fixture"},
	{Cabinet, inches(24, 24), false, false, "fixture"},
	{Appliance, inches(30, 24), true, false, "fixture"},
	{Island, size{}, false, false, "island"},
	{Column, size{}, false, false, "column"},
	{Hearth, size{}, false, true, "hearth"},
	{Drain, size{diameter: 100}, true, false, "drain"},
	{Register, inches(10, 4), false, true, "register"},
}

func inches(width, depth float64) size {
	return size{width: width * plane.Inch, depth: depth * plane.Inch}
}

// usualSizes lists the usual sizes by kind in words, of one measure.
func usualSizes(of func(size) float64) string {
	var out []string
	for _, u := range usualFixtures {
		if mm := of(u.size); mm > 0 {
			inch := say.Plain(mm / plane.Inch)
			if u.size.diameter > 0 {
				inch = "4" // what 100 mm go by
			}
			out = append(out, fmt.Sprintf("%s %s in (%s)", u.kind, inch, say.WholeUnits(mm, plane.Millimetres)))
		}
	}
	return strings.Join(out, ", ")
}

// withUsualSizes says in the keys of a size what holds where they are left out.
func withUsualSizes(keys []Key) []Key {
	for i, k := range keys {
		switch k.Path {
		case "width":
			keys[i].Otherwise = "by kind: " + usualSizes(func(s size) float64 { return s.width }) +
				"; no other kind has one"
		case "depth":
			keys[i].Otherwise = "by kind: " + usualSizes(func(s size) float64 { return s.depth }) +
				"; no other kind has one"
		case "diameter":
			keys[i].Otherwise = "by kind: " + usualSizes(func(s size) float64 { return s.diameter })
		}
	}
	return keys
}

func fixtureNames() []string {
	var out []string
	for _, u := range usualFixtures {
		out = append(out, string(u.kind))
	}
	return out
}

// of returns the clearance kept from a kind of thing, by its key.
func (c Clearance) of(key string) float64 {
	switch key {
	case "island":
		return c.Island
	case "column":
		return c.Column
	case "hearth":
		return c.Hearth
	case "drain":
		return c.Drain
	case "register":
		return c.Register
	}
	return c.Fixture
}

func (r *Room) readFixtures(t table, c Clearance) {
	names := namesSeen{}
	count := map[string]int{}
	for _, ft := range limited(t, "fixture") {
		kind := ft.spoken("kind")
		count[kind]++
		names.check(ft, "name", ft.text("name"), "fixture")
		if f, ok := r.readFixture(ft, c, count[kind]); ok {
			r.checkFixture(ft, f)
			r.Fixtures = append(r.Fixtures, f)
		}
	}
	r.checkDrains(t)
}

// checkDrains asks for the drain of every warmed shower, which the cable keeps off.
func (r *Room) checkDrains(t table) {
	for _, f := range r.Fixtures {
		drained := slices.ContainsFunc(r.Fixtures, func(d Fixture) bool {
			return d.Kind == Drain && f.Outline.Contains(d.Outline.Bounds().Centre())
		})
		if !f.Heated || f.Kind != Shower || drained {
			continue
		}
		at := f.Outline.Bounds().Centre()
		t.rd.report.Errorf(f.Spans.At("heated"), fmt.Sprintf("add [[room.fixture]] with kind = \"drain\" and at = "+
			"[%s, %s], or where it is", t.rd.typedLength(at.X), t.rd.typedLength(at.Y)),
			"%s is warmed, and no drain is given in it: the cable has to keep off one", f.called())
	}
}

// readFixture reads the nth fixture of its kind.
func (r *Room) readFixture(t table, c Clearance, nth int) (Fixture, bool) {
	f := Fixture{Kind: FixtureKind(t.text("kind")), Name: t.text("name"), Undecided: t.flag("undecided"),
		Span: t.span(), Spans: t.spans()}
	if f.Name == "" {
		f.Name = numbered(t.spoken("kind"), nth)
	}
	var usual usualFixture
	for _, u := range usualFixtures {
		if u.kind == f.Kind {
			usual = u
		}
	}
	if usual.kind == "" {
		return f, false
	}
	f.Clear, f.ClearSource = t.numOr("clear", c.of(usual.clear)), t.source("clear")
	if f.ClearSource == FromDefault && t.top().sub("clearance").has(usual.clear) {
		f.ClearSource = FromJob
	}
	f.Heated = t.flag("heated")
	if f.Heated && f.Kind != Shower && f.Kind != Vanity && f.Kind != Cabinet {
		t.errorf("heated", heatedHint,
			"%s stands on the floor; only a shower's own floor can be warmed, or that below "+
				"furniture on legs", f.called())
		f.Heated = false
	}
	f.Tiled, f.Heat = t.flagOr("tiled", usual.tiled || f.Heated), t.flagOr("heat", usual.heat)
	s, ok := r.place(t, f.called(), usual.size)
	f.Outline, f.Back, f.Width, f.Depth, f.on = s.outline, s.back, s.width, s.depth, s.on
	if ok {
		f.readFlange(t, c)
	}
	return f, ok
}

func numbered(kind string, nth int) string {
	if nth < 2 {
		return kind
	}
	return fmt.Sprintf("%s %d", kind, nth)
}

// called names a fixture in messages.
func (f *Fixture) called() string { return thing(string(f.Kind), f.Name) }

// readFlange finds a toilet's flange: where the file says, or the rough-in out
// from the middle of its back.
func (f *Fixture) readFlange(t table, c Clearance) {
	if f.Kind != Toilet {
		for _, k := range given(t, "flange", "rough_in", "flange_radius", "flange_clear") {
			t.errorf(k, "leave "+k+" out", "%s has no flange; only a toilet has one", f.called())
		}
		return
	}
	out := f.Back.B.Sub(f.Back.A).Unit().Left()
	at := f.Back.A.Lerp(f.Back.B, 0.5).Add(out.Mul(t.num("rough_in") - t.num("off")))
	if t.has("flange") {
		at = t.point("flange")
		for _, k := range given(t, "rough_in") {
			t.errorf(k, "keep one of the two", "%s has both flange and rough_in", f.called())
		}
	}
	f.Flange = &Flange{Centre: at, Radius: t.num("flange_radius"), Clear: t.numOr("flange_clear", c.Flange)}
}

// checkFixture compares a fixture with the room and with the fixtures before.
func (r *Room) checkFixture(t table, f Fixture) {
	inside := r.checkInside(t, f)
	for _, g := range r.Fixtures {
		if f.Kind == Drain || g.Kind == Drain || builtTogether(f, g) {
			continue // a drain is in the floor of a shower, runs of cabinets meet in corners
		}
		if r.checkOverlap(t, f, g) {
			break
		}
	}
	switch {
	case !inside || f.Flange == nil:
	case !r.Outline.Contains(f.Flange.Centre):
		t.errorf("flange", "give the flange's centre as flange = [x, y], or the rough-in",
			"the flange of %s is outside room %q, at %s", f.called(), r.Name, t.rd.place(f.Flange.Centre))
	case !f.Outline.Contains(f.Flange.Centre) && f.Outline.Distance(f.Flange.Centre) > r.slack():
		f.reportFlange(t)
	}
}

// builtTogether reports whether two things may share floor: a peninsula runs into a
// cabinet, and an appliance stands under its worktop. One that lies in another of its
// own kind is written twice.
func builtTogether(f, g Fixture) bool {
	casework := func(k FixtureKind) bool { return k == Cabinet || k == Appliance || k == Island }
	if !casework(f.Kind) || !casework(g.Kind) {
		return false
	}
	return f.Kind != g.Kind || !within(f.Outline, g.Outline) && !within(g.Outline, f.Outline)
}

// within reports whether all corners of a ring lie in another, or on its sides.
func within(a, b plane.Ring) bool {
	return !slices.ContainsFunc(a, func(p plane.Point) bool { return !b.Contains(p) && b.Distance(p) > lengthRounding })
}

// reportFlange refuses a flange that is not below its toilet.
func (f *Fixture) reportFlange(t table) {
	hint := "rough_in is from the finished wall to the middle of the flange, mostly 10 to 14 in"
	if t.has("flange") {
		t.errorf("flange", "it is the middle of the ring that the toilet is bolted to",
			"the flange of %s is at %s, %s beside it", f.called(), t.rd.place(f.Flange.Centre),
			t.length(f.Outline.Distance(f.Flange.Centre)))
		return
	}
	t.errorf("rough_in", hint, "the flange of %s, %s from the wall, would lie beyond it: it reaches %s into the room",
		f.called(), t.read("rough_in"), t.length(f.Depth+t.num("off")))
}

// placeKey is the key that put a thing where it is.
func placeKey(t table) string {
	if keys := given(t, "outline", "at", "corner", "beside", "between", "from", "to_end", "centre"); len(keys) > 0 {
		return keys[0]
	}
	return "wall"
}

// checkInside refuses a fixture outside the room or through a wall.
func (r *Room) checkInside(t table, f Fixture) bool {
	depth, wall, wholly, err := r.outside(f.Outline)
	w := r.wallNote(t, wall)
	switch {
	case err != nil:
		t.errorf(placeKey(t), "", "%s cannot be compared with room %q: %v", f.called(), r.Name, err)
	case wholly:
		t.with(placeKey(t), "x runs east and y north from the same origin as the room's corners", w,
			"%s lies outside room %q, %s from wall %s", f.called(), r.Name, t.length(depth), r.Walls[wall].Letter)
	case depth > r.slack():
		t.with(placeKey(t), r.moveHint(t, f.Outline, depth, wall), w,
			"%s reaches %s through wall %s of room %q; it is %s by %s", f.called(), t.length(depth),
			r.Walls[wall].Letter, r.Name, t.length(f.Width), t.length(f.Depth))
	default:
		return true
	}
	return false
}

// moveHint says how far to move what reaches through a wall, where it then
// lies in the room, and else that it is too large for its place.
func (r *Room) moveHint(t table, ring plane.Ring, depth float64, wall int) string {
	if t.has("wall") && !t.has("between") {
		return r.moveAlong(t, ring, depth, wall)
	}
	by, words, ok := r.wayInside(t, ring)
	switch {
	case !ok:
		return "it is too large for its place: make it smaller, or place it elsewhere"
	case t.has("at"):
		at, _ := r.spotOf(t, "at", "")
		p := at.Add(by)
		return fmt.Sprintf("move it %s: at = [%s, %s]", words, t.rd.typedLength(p.X), t.rd.typedLength(p.Y))
	}
	return "move it " + words
}

// wayInside is how to move a shape from out of the walls it reaches through: off
// each in turn, in a corner off both.
func (r *Room) wayInside(t table, ring plane.Ring) (by plane.Point, words string, ok bool) {
	var steps []string
	for range 3 {
		depth, wall, wholly, err := r.outside(ring.Translate(by))
		if err != nil || wholly {
			return by, "", false
		}
		if depth <= r.slack() {
			return by, strings.Join(steps, " and "), true
		}
		way := r.inward(wall)
		steps = append(steps, plainLength(t, depth)+" "+Wind(bearingOf(way)))
		by = by.Add(way.Mul(depth))
	}
	return by, "", false
}

// moveAlong is moveHint for what stands against a wall and reaches through
// another.
func (r *Room) moveAlong(t table, ring plane.Ring, depth float64, wall int) string {
	key := placeKey(t)
	own := slices.IndexFunc(r.Walls, func(w Wall) bool {
		return strings.EqualFold(w.Letter,
			strings.TrimSpace(t.text("wall")))
	})
	if own < 0 {
		return "" // reported
	}
	along := r.Walls[own].B.Sub(r.Walls[own].A).Unit()
	share := along.Dot(r.inward(wall))
	if math.Abs(share) < 0.1 {
		return "make it less deep, or stand it against another wall"
	}
	by := depth / share // along the wall, from its start
	if over, _, _, err := r.outside(ring.Translate(along.Mul(by))); err != nil || over > r.slack() {
		return "it is too large for its place: make it smaller, or place it elsewhere"
	}
	sign := "more"
	if by < 0 != (key == "to_end") {
		sign = "less"
	}
	return fmt.Sprintf("make %s %s %s", key, plainLength(t, math.Abs(by)), sign)
}

// typedLength writes a length as it would be typed in the file: a bare number
// where the file has a unit for it.
func (rd *reader) typedLength(mm float64) string {
	switch rd.units {
	case plane.Inches:
		return strconv.FormatFloat(math.Round(mm/plane.Inch*plane.Sixteenths)/plane.Sixteenths, 'f', -1, 64)
	case plane.Millimetres:
		return say.TrimFigure(mm)
	}
	return `"` + plainLength(table{rd: rd}, mm) + `"`
}

// wallNote points at a wall in the file.
func (r *Room) wallNote(t table, wall int) []Note {
	w := r.Walls[wall]
	return []Note{{r.wallSpan(wall), fmt.Sprintf("wall %s, %s long, is here", w.Letter, t.length(w.Length()))}}
}

// checkOverlap refuses two fixtures on one piece of floor, and reports whether
// it did.
func (r *Room) checkOverlap(t table, f, g Fixture) bool {
	if apart(f.Outline, g.Outline) {
		return false
	}
	both, err := plane.FromRing(f.Outline).Meet(plane.FromRing(g.Outline))
	if err != nil {
		t.errorf(placeKey(t), "", "%s cannot be compared with %s: %v", f.called(), g.called(), err)
		return true
	}
	over := both.Bounds()
	if both.Empty() || math.Min(over.W(), over.H()) <= r.slack() {
		return false
	}
	t.with(placeKey(t), fmt.Sprintf("move one of them by %s, or make it smaller",
		t.length(math.Min(over.W(), over.H()))), []Note{{g.Span, g.called() + " is here"}},
		"%s overlaps %s by %s x %s, at %s", f.called(), g.called(),
		t.length(over.W()), t.length(over.H()), t.rd.place(over.Centre()))
	return true
}

// apart reports whether two shapes plainly have no floor in common: their
// sides do not touch and neither holds a corner of the other.
func apart(a, b plane.Ring) bool {
	p, q := a.Bounds(), b.Bounds()
	if p.Max.X <= q.Min.X || q.Max.X <= p.Min.X || p.Max.Y <= q.Min.Y || q.Max.Y <= p.Min.Y {
		return true
	}
	for i := range a {
		for k := range b {
			if a.Edge(i).Meets(b.Edge(k)) {
				return false
			}
		}
	}
	return !a.Contains(b[0]) && !b.Contains(a[0])
}
