package job

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// widestRoom is how many mm a room may be across.
const widestRoom = 100e3

// readRoom reads a room and all in it. With an outline that cannot be used the
// things in it are still read, but nothing is said of where they stand.
func (j *Job) readRoom(t table) Room {
	r := Room{Name: t.text("name"), MeasuredTo: t.text("measured_to"), Cables: t.texts("cables"),
		Density: t.num("density"),
		Exposed: t.num("exposed"), ExposedGiven: t.has("exposed"), Span: t.span(), Spans: t.spans()}
	if t.has("first_peg") {
		p := t.point("first_peg")
		r.FirstPeg = &p
	}
	if !r.readOutline(t) || !r.checkOutline(t) {
		r.Outline = nil
		t.spoil()
	}
	r.checkExposed(t)
	r.readFirstTile(t)
	r.letterWalls(t)
	r.readArcs(t)
	r.readNiches(t, j.Clearance)
	r.Along, r.Start = r.readAlong(t, "along", fmt.Sprintf("a run of room %q", r.Name)), r.readStart(t)
	r.readRolled(t, j)
	clears := r.readPartitions(t, j.Clearance)
	r.readOpenings(t, j.Clearance)
	r.readFixtures(t, j.Clearance)
	r.readKeepOuts(t, j.Clearance)
	r.raisePartitions(clears)
	r.readCold(t)
	r.readZones(t, j.Strips != nil)
	r.readLow(t)
	r.readFixings(t, j.Clearance)
	r.readJoints(t, j.Clearance)
	r.readThermostat(t, j.Region().BoxHeight.Value)
	r.readLoss(t, j.Warmth.Room)
	r.readRevised(t, j.Revisions)
	return r
}

// readRolled reads which way the membrane is rolled out, which matters only where its pegs lie otherwise along the
// roll than across it.
func (r *Room) readRolled(t table, j *Job) {
	r.Rolled = r.readAlong(t, "rolled", fmt.Sprintf("the membrane of room %q", r.Name))
	for _, key := range []string{"rolled", "first_peg"} {
		if j.Strips != nil && t.has(key) {
			t.errorf(key, "leave "+key+" out", "%s is of a membrane, and the cable is clipped to [strips]", key)
		}
	}
	if t.has("rolled") && !j.Uneven() && j.Membrane.Pitch > 0 {
		t.errorf("rolled", "leave rolled out, or give pitch_across in [membrane]",
			"rolled has no effect: the pegs lie alike along the roll and across it")
	}
}

// readAlong is the direction that runs are to lie in, or the membrane, along a wall or by a compass word or
// bearing, radians counter-clockwise from east; nil: either.
func (r *Room) readAlong(t table, key, what string) *float64 {
	said := strings.TrimSpace(t.text(key))
	if said == "" || !r.usable() {
		return nil
	}
	angle := 0.0
	if bearing, rest, ok := CutBearing(said); ok && strings.TrimSpace(rest) == "" && !r.hasWall(said) {
		angle = plane.Radians(90 - bearing)
	} else if i, ok := r.wallNamed(t, key, said, what); ok {
		way := r.Walls[i].B.Sub(r.Walls[i].A)
		angle = plane.Atan2(way.Y, way.X)
	} else {
		return nil
	}
	return &angle
}

func (r *Room) hasWall(letter string) bool {
	return slices.ContainsFunc(r.Walls, func(w Wall) bool { return strings.EqualFold(w.Letter, letter) })
}

// readStart is the corner in which the heat is to start; nil: anywhere.
func (r *Room) readStart(t table) *plane.Point {
	letter := t.text("start")
	if letter == "" || !r.usable() {
		return nil
	}
	if i, ok := r.wallLettered(t, "start", letter, "the start of heat"); ok {
		return &r.Walls[i].A
	}
	return nil
}

// checkExposed refuses more outside wall than the room has walls.
func (r *Room) checkExposed(t table) {
	if !r.usable() || t.broken() {
		return
	}
	if round := r.Outline.Perimeter(); r.Exposed > round+r.slack() {
		t.errorf("exposed", "count only the walls with the outside behind them",
			"room %q has %s of its edge along outside walls, but is only %s round", r.Name, t.read("exposed"),
			t.length(round))
	}
}

// shortestRow is the least length, mm, that tells a row's direction.
const shortestRow = 100

// readFirstTile reads where the tile was set out from, and checks that the
// tile lies in the room.
func (r *Room) readFirstTile(t table) {
	if s, ok := r.firstTile(t, t.points("first_tile")); ok {
		r.FirstTile = s
	}
}

// firstTile makes of two points where the tile was set out from; ok is false where
// there are none or they were reported.
func (r *Room) firstTile(t table, pts []plane.Point) (s plane.Segment, ok bool) {
	if len(pts) == 0 {
		return s, false
	}
	s = plane.Segment{A: pts[0], B: pts[len(pts)-1]}
	switch {
	case len(pts) != 2:
		t.errorf("first_tile", "give a corner of a whole tile, and a second point along its row",
			"first_tile has %d points where two are wanted", len(pts))
	case s.Length() < shortestRow:
		t.errorf("first_tile", "take the second point as far along the row as the room lets you",
			"the two points of first_tile are %s apart: too near to tell which way the rows run", t.length(s.Length()))
	case r.usable() && !r.Outline.Contains(s.A) && r.Outline.Distance(s.A) > r.slack():
		t.errorf("first_tile", "it is measured from the same corner as the room's own corners",
			"the corner of first_tile lies %s outside the walls of room %q", t.length(r.Outline.Distance(s.A)), r.Name)
	default:
		return s, true
	}
	return s, false
}

// usable reports whether things can be placed in the room.
func (r *Room) usable() bool { return len(r.Outline) > 0 }

// traceSlack mm is how far what is measured along walls may miss them.
const traceSlack = 5.0

// slack is how far a thing may reach over a wall before it is an error: what a
// tape and rounding leave, and what closing the walls moved.
func (r *Room) slack() float64 { return traceSlack + r.Closure.Gap }

// readOutline reads the walls by their corners or as taped; false when there is
// no outline to go on with.
func (r *Room) readOutline(t table) bool {
	switch {
	case t.has("corners") && t.has("walls"):
		t.with("walls", "keep one of the two", []Note{{t.at("corners"), "the corners are here"}},
			"room %q has both corners and walls", r.Name)
		return false
	case t.has("corners"):
		r.Outline = opened(t.points("corners"))
		if t.rd.unitsForgotten(r.Outline.Perimeter(), bareItems(t.n.Get("corners"))) {
			r.reportForgotten(t, "corners", r.Outline.Perimeter())
			return false
		}
		if r.usable() {
			r.checkDiagonals(t, readDiagonals(t, len(r.Outline)))
		}
	case t.has("walls"):
		if !t.readable("walls") {
			return false // reported
		}
		diagonals := readDiagonals(t, len(t.texts("walls")))
		if r.Outline = r.tape(t, diagonals); r.usable() {
			r.checkDiagonals(t, diagonals)
		}
	default:
		t.errorf("name", "add "+t.key("corners").Example+", or "+t.key("walls").Example,
			"room %q has neither corners nor walls", r.Name)
	}
	return r.usable()
}

// leastRound is the way round a room, mm, below which lengths without a unit
// are taken for a slip: a closet of 1 m by 1 m.
const leastRound = 4000

// unitsForgotten reports whether a room whose lengths are all bare is so small
// that another unit was meant.
func (rd *reader) unitsForgotten(round float64, bare bool) bool {
	return bare && round > 0 && round < leastRound && rd.units != plane.NoUnits
}

// barePart reports whether all walls as taped have a length without a unit.
func (rd *reader) barePart(walls []string) bool {
	return !slices.ContainsFunc(walls, func(s string) bool {
		_, rest, ok := CutBearing(strings.TrimSpace(s))
		return !ok || !isBare(rest)
	})
}

func isBare(length string) bool {
	_, err := strconv.ParseFloat(strings.TrimSpace(length), 64)
	return err == nil
}

// bareItems reports whether every value in a list is a number without a unit.
func bareItems(n *tree.Node) bool {
	for _, it := range n.Items {
		s, isText := it.Value.(string)
		if it.Kind == tree.Array && !bareItems(it) || isText && !isBare(s) {
			return false
		}
	}
	return true
}

func (r *Room) reportForgotten(t table, key string, round float64) {
	in, other := "millimetres", "m"
	if t.rd.units == plane.Inches {
		in, other = "inches", "ft"
	}
	hint := fmt.Sprintf("write the unit with each: \"east 5%s\", or \"east 5%s\" where that is meant", other,
		t.rd.units)
	if key == "corners" {
		hint = fmt.Sprintf("write the unit with each: [\"5%s\", \"8%s\"], or [\"5%s\", \"8%[3]s\"] where that "+
			"is meant",
			other, other, t.rd.units)
	}
	t.errorf(key, hint, "the %s of room %q have no unit and are read as %s: it would be %s all round", key, r.Name, in,
		t.length(round))
}

// opened drops a last corner that repeats the first.
func opened(pts []plane.Point) plane.Ring {
	if n := len(pts); n > 3 && pts[0] == pts[n-1] {
		return pts[:n-1]
	}
	return pts
}

// outlineKey is the key that the room's outline was read from.
func outlineKey(t table) string {
	if t.has("walls") {
		return "walls"
	}
	return "corners"
}

// checkOutline refuses walls that cross and sizes that no room has; it takes
// account of wall linings last.
func (r *Room) checkOutline(t table) bool {
	key := outlineKey(t)
	if c, bad := r.Outline.SelfClash(); bad {
		r.reportClash(t, key, c)
		return false
	}
	return r.checkSize(t, key) && r.line(t)
}

func (r *Room) reportClash(t table, key string, c plane.Clash) {
	at := t.atItem(key, c.I)
	report := func(notes []Note, hint, format string, args ...any) {
		t.rd.report.Add(Diagnostic{Span: at, Notes: notes, Hint: hint, Message: fmt.Sprintf(format, args...)})
	}
	if c.I == c.J {
		report(nil, "leave out one of the two corners", "wall %s of room %q has no length: it begins and ends at %s",
			WallLetter(c.I), r.Name, t.rd.place(c.At))
		return
	}
	notes := []Note{{t.atItem(key, c.J), "wall " + WallLetter(c.J) + " is here"}}
	if !r.crossing(c) {
		report(notes, "two parts of a room that only touch are two rooms; else look at the lengths of both walls",
			"walls %s and %s of room %q touch at %s, where they should not", WallLetter(c.I), WallLetter(c.J), r.Name,
			t.rd.place(c.At))
		return
	}
	hint := fmt.Sprintf("look at the directions and lengths of walls %s to %s", WallLetter(c.I), WallLetter(c.J))
	if key == "corners" {
		hint = r.uncrossed(c)
	}
	report(notes, hint, "walls %s and %s of room %q cross at %s", WallLetter(c.I), WallLetter(c.J), r.Name,
		t.rd.place(c.At))
}

// crossing reports whether two sides go through each other, and do not only
// touch.
func (r *Room) crossing(c plane.Clash) bool {
	a, b := r.Outline.Edge(c.I), r.Outline.Edge(c.J)
	inside := func(s plane.Segment) bool { return c.At.Dist(s.A) > lengthRounding && c.At.Dist(s.B) > lengthRounding }
	return inside(a) && inside(b)
}

// uncrossed says which corners to give the other way round: turning those
// between two sides that cross takes the crossing out.
func (r *Room) uncrossed(c plane.Clash) string {
	turned := slices.Clone(r.Outline)
	slices.Reverse(turned[c.I+1 : c.J+1])
	if _, bad := turned.SelfClash(); bad {
		return "give the corners in the order in which one walks round the room"
	}
	if c.J == c.I+2 {
		return fmt.Sprintf("corners %d and %d are the wrong way round: swap them", c.I+2, c.J+1)
	}
	return fmt.Sprintf("corners %d to %d are the wrong way round: write them from the last to the first", c.I+2, c.J+1)
}

// place writes a point for a message.
func (rd *reader) place(p plane.Point) string {
	if rd.drawingUnits() == plane.Inches {
		return fmt.Sprintf("(%s, %s)", plane.FormatFeetInches(p.X), plane.FormatFeetInches(p.Y))
	}
	return fmt.Sprintf("(%s, %s) mm", say.TrimFigure(p.X), say.TrimFigure(p.Y))
}

// line moves walls that were measured to their studs in by the lining.
func (r *Room) line(t table) bool {
	lining := t.num("lining")
	switch {
	case t.has("measured_to") && !t.readable("measured_to"): // reported
		return true
	case r.MeasuredTo != "stud" && lining > 0:
		t.errorf("lining", `write measured_to = "stud" as well, or leave lining out`,
			"room %q is measured to its finished walls, which have no lining to come", r.Name)
		return false
	case r.MeasuredTo != "stud":
		return true
	case !t.has("lining"):
		t.rd.report.Warnf("W003", t.at("measured_to"), `add lining = "3/4in", or what board and wall tile come to`,
			"room %q is measured to its studs, and nothing is taken off for what goes on them", r.Name)
		return true
	}
	in := inset(r.Outline, lining)
	if _, bad := in.SelfClash(); bad || !sameBearings(in, r.Outline) {
		t.errorf("lining", "look whether the unit is right", "a lining of %s leaves nothing of some wall of room %q",
			t.read("lining"), r.Name)
		return false
	}
	r.Outline = in
	return true
}

// sameBearings reports whether all sides of two rings run the same way: one
// that was moved in by too much runs backwards.
func sameBearings(a, b plane.Ring) bool {
	for i := range a {
		e, f := a.Edge(i), b.Edge(i)
		if e.B.Sub(e.A).Dot(f.B.Sub(f.A)) <= 0 {
			return false
		}
	}
	return true
}

// inset moves every side of a ring inwards by d, keeping the corners' order.
func inset(ring plane.Ring, d float64) plane.Ring {
	if ring.SignedArea() < 0 {
		d = -d
	}
	sides := make([]plane.Segment, len(ring))
	for i := range ring {
		e := ring.Edge(i)
		by := e.B.Sub(e.A).Unit().Left().Mul(d)
		sides[i] = plane.Segment{A: e.A.Add(by), B: e.B.Add(by)}
	}
	out := make(plane.Ring, len(ring))
	for i := range ring {
		before := sides[(i+len(ring)-1)%len(ring)]
		p, ok := before.Intersection(sides[i])
		if !ok {
			p = sides[i].A // the two run on in one line
		}
		out[i] = p
	}
	return out
}

// letterWalls names the sides and notes where each is written.
func (r *Room) letterWalls(t table) {
	for i := range r.Outline {
		r.Spans[wallSpanKey(i)] = t.atItem(outlineKey(t), i)
		r.Walls = append(r.Walls, Wall{Letter: WallLetter(i), Segment: r.Outline.Edge(i)})
	}
}

// letters of the alphabet name walls; then two stand together.
const letters = 26

// WallLetter returns a wall's letter: A to Z, then AA, AB and so on.
func WallLetter(i int) string {
	if i < letters {
		return string(rune('A' + i))
	}
	return WallLetter(i/letters-1) + string(rune('A'+i%letters))
}

// inward returns the unit vector from a wall into the room.
func (r *Room) inward(wall int) plane.Point {
	return r.Outline.Outward(r.Walls[wall].Segment).Mul(-1)
}

// nearestWall returns the wall nearest to a point.
func (r *Room) nearestWall(p plane.Point) (wall int, distance float64) {
	distance = math.Inf(1)
	for i, w := range r.Walls {
		if d := w.Distance(p); d < distance {
			wall, distance = i, d
		}
	}
	return wall, distance
}

// limited returns the tables of a sort in a room, up to the limit.
func limited(t table, name string) []table {
	all := t.each(name)
	if len(all) > maxThings {
		t.errorf(name, "leave some out", "there are %d tables %s in one room; %d are taken at most", len(all),
			t.key(name).Header(), maxThings)
		return all[:maxThings]
	}
	return all
}
