package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/plane"
)

// A spot is a piece of floor that something takes.
type spot struct {
	outline      plane.Ring
	back         plane.Segment // A to B with the thing on the left
	width, depth float64
	on           *base // what it was told to stand against; nil: nothing
}

// A size is what a thing measures where the file does not say.
type size struct{ width, depth, diameter float64 }

// circleSides is the number of sides a round thing is drawn with: at 300 mm
// across they stand out 0.7 mm from the circle at most.
const circleSides = 32

// place finds where a table puts its thing: against a wall, round a centre, or
// by its outline. ok is false when that has been reported as an error, or when
// the room has no outline to place it in.
func (r *Room) place(t table, what string, usual size) (s spot, ok bool) {
	ways := given(t, "wall", "at", "outline", "corner", "beside")
	if len(ways) == 0 {
		t.errorf("name", `add wall = "A" with from = "2ft", or corner = "A", or beside = "tub", or at = [x, y], or `+
			`outline = [[x, y], …]`,
			"%s is not said to stand anywhere", what)
		return s, false
	}
	if len(ways) > 1 {
		t.errorf(ways[1], "keep one of the two", "%s has both %s and %s", what, ways[0], ways[1])
		return s, false
	}
	if t.broken() || !r.usable() || refuseIdle(t, what, ways[0]) {
		return s, false
	}
	if ways[0] == "outline" {
		return r.byOutline(t, what)
	}
	z, ok := sizeOf(t, what, usual)
	if !ok {
		return s, false
	}
	switch ways[0] {
	case "at":
		c, ok := r.spotOf(t, "at", what)
		return free(t, c, z), ok
	case "corner":
		return r.inCorner(t, what, z)
	case "beside":
		return r.besideOther(t, what, z)
	}
	return r.againstWall(t, what, z)
}

// idleKeys are the keys that say nothing of a thing placed in one of the ways, with
// what the way is in words.
var idleKeys = map[string]struct {
	words string
	keys  []string
}{
	"wall": {"stands against its wall", []string{"rises", "angle", "gap", "side", "shape", "cut"}},
	"at": {"stands free, by its centre", []string{"rises", "from", "to_end", "centre", "off", "between", "gap", "side",
		"shape", "cut", "face"}},
	"outline": {"is given by its outline", []string{"from", "to_end", "centre", "off", "width", "depth", "diameter",
		"angle", "between", "gap", "side", "shape", "cut", "face"}},
	"line": {"is given by its line", []string{"rises", "from", "to_end", "centre", "off", "width", "face"}},
	"corner": {"stands in its corner", []string{"rises", "angle", "to_end", "centre", "between", "gap", "side",
		"diameter", "face"}},
	"beside": {"stands beside another thing", []string{"rises", "angle", "from", "to_end", "centre", "between", "shape",
		"cut", "diameter", "face"}},
}

// refuseIdle reports keys that would be passed over without a word.
func refuseIdle(t table, what, way string) bool {
	bad := given(t, idleKeys[way].keys...)
	words := idleKeys[way].words
	if t.has("diameter") && way != "outline" {
		bad = append(bad, given(t, "width", "depth")...)
		words += ", and is round"
		if way == "at" {
			bad = append(bad, given(t, "angle")...)
		}
	}
	for _, key := range bad {
		hint := "leave " + key + " out"
		if key == "angle" && way == "wall" {
			hint += `; a thing that stands turned is placed by its centre: at = [x, y]`
		}
		t.errorf(key, hint, "%s %s: %s says nothing of it", what, words, key)
	}
	return len(bad) > 0
}

// given returns those of the keys that the file gives.
func given(t table, keys ...string) []string {
	var out []string
	for _, k := range keys {
		if t.has(k) {
			out = append(out, k)
		}
	}
	return out
}

// sizeOf returns the size from the file, and what it leaves out from the usual.
func sizeOf(t table, what string, usual size) (size, bool) {
	if t.has("diameter") || usual.diameter > 0 && !t.has("width") && !t.has("depth") {
		d := t.numOr("diameter", usual.diameter)
		return size{d, d, d}, true
	}
	z := size{width: t.numOr("width", usual.width), depth: t.numOr("depth", usual.depth)}
	bothEnds := t.has("from") && t.has("to_end") || t.has("between")
	if t.has("between") && !t.has("width") {
		z.width = 0 // it fills the gap
	}
	switch {
	case z.depth == 0:
		t.errorf("name", `add depth = "2ft", or diameter for a round one`,
			"%s has no usual size, and no depth is given", what)
	case z.width == 0 && !bothEnds:
		t.errorf("name", `add width = "3ft"`, "%s has no usual size, and no width is given", what)
	default:
		return z, true
	}
	return z, false
}

// free places a thing round its centre.
func free(t table, c plane.Point, z size) spot {
	a := plane.Radians(t.num("angle"))
	if z.diameter > 0 {
		return round(c, z.diameter)
	}
	w, d := z.width/2, z.depth/2
	ring := plane.Ring{{X: -w, Y: -d}, {X: w, Y: -d}, {X: w, Y: d}, {X: -w, Y: d}}
	for i, p := range ring {
		ring[i] = c.Add(p.Rotate(a))
	}
	return spot{ring, ring.Edge(0), z.width, z.depth, nil}
}

func round(c plane.Point, diameter float64) spot {
	r := diameter / 2
	ring := plane.Circle(c, r, circleSides)
	back := plane.Segment{A: c.Add(plane.Pt(-r, -r)), B: c.Add(plane.Pt(r, -r))}
	return spot{ring, back, diameter, diameter, nil}
}

// onWallNear mm is how near an edge has to be to a wall to lie on it.
const onWallNear = 5.0

// byOutline places a thing by its corners. Its back is its longest side on a
// wall, or the first side where none is.
func (r *Room) byOutline(t table, what string) (spot, bool) {
	ring := plane.Ring(opened(t.points("outline")))
	if c, bad := ring.SelfClash(); bad {
		hint := "give the corners in the order in which one walks round it"
		t.rd.report.Errorf(t.atItem("outline", c.I), hint, "the outline of %s crosses or touches itself at %s", what,
			t.rd.place(c.At))
		return spot{}, false
	}
	if ring.Area() < 1 {
		t.errorf("outline", "look whether the unit is right", "the outline of %s encloses nothing", what)
		return spot{}, false
	}
	ring = ring.CCW()
	back, longest := ring.Edge(0), 0.0
	for i := range ring {
		e := ring.Edge(i)
		w, _ := r.nearestWall(e.A.Lerp(e.B, 0.5))
		if onWall := r.Walls[w].Distance(e.A) < onWallNear && r.Walls[w].Distance(e.B) < onWallNear; onWall &&
			e.Length() > longest {
			back, longest = e, e.Length()
		}
	}
	if t.has("rises") {
		var ok bool
		if ring, ok = bowed(t, what, plane.Ring(opened(t.points("outline")))); !ok {
			return spot{}, false
		}
		ring = ring.CCW()
	}
	out := back.B.Sub(back.A).Unit().Left()
	depth := 0.0
	for _, p := range ring {
		depth = math.Max(depth, p.Sub(back.A).Dot(out))
	}
	return spot{ring, back, back.Length(), depth, nil}, true
}

// baseGiven is what a table's wall names.
func (r *Room) baseGiven(t table, what string) (base, bool) {
	return r.baseNamed(t, "wall", t.text("wall"), what)
}

// wallNamed looks up a straight wall that a key names.
func (r *Room) wallNamed(t table, key, name, what string) (int, bool) {
	i, ok := r.wallLettered(t, key, name, what)
	if ok && r.Walls[i].Arc != nil {
		t.errorf(key, "take a straight wall, or give the wall as a curve and a straight piece",
			"%s asks for a straight wall, and wall %s is curved", what, r.Walls[i].Letter)
		return 0, false
	}
	return i, ok
}

// wallLettered is wallNamed for what may lie along a curve: then it is the curve's first
// side.
func (r *Room) wallLettered(t table, key, name, what string) (int, bool) {
	letter := strings.ToUpper(strings.TrimSpace(name))
	for i, w := range r.Walls {
		if w.Letter == letter {
			return i, true
		}
	}
	hint := fmt.Sprintf("wall A is the first one written; room %q has walls A to %s", r.Name,
		r.Walls[len(r.Walls)-1].Letter)
	if facing := r.facing(strings.ToLower(strings.TrimSpace(name))); facing != "" {
		hint += "; in the " + strings.ToLower(strings.TrimSpace(name)) + " is " + facing
	}
	for i, p := range r.Partitions {
		hint += map[bool]string{true: ", and ", false: ", "}[i == 0] + p.Name
	}
	t.errorf(key, hint, "%s stands on wall %q, which room %q does not have", what, name, r.Name)
	return 0, false
}

// facing names the walls on the side of a compass word, "" for none.
func (r *Room) facing(word string) string {
	var out []string
	for i, w := range r.Walls {
		if Wind(bearingOf(r.inward(i).Mul(-1))) == word && !slices.Contains(out, w.Letter) {
			out = append(out, w.Letter)
		}
	}
	return strings.Join(out, " and ")
}

// along finds from where to where something of a width stretches along a wall or partition.
func (r *Room) along(t table, what string, b base, width float64) (from, to float64, ok bool) {
	length := b.length()
	ways := given(t, "from", "to_end", "centre", "between")
	switch {
	case len(ways) == 0:
		t.errorf("wall", `add from = "2ft", measured from the wall's start, or to_end or centre or between`,
			"%s has a wall but no place along it", what)
		return 0, 0, false
	case len(ways) == 2 && ways[0] == "from" && ways[1] == "to_end" && !t.has("width"):
		return t.num("from"), length - t.num("to_end"), r.fitsWall(t, what, b, t.num("from"), length-t.num("to_end"))
	case len(ways) > 1:
		t.errorf(ways[1], "keep one of the two", "%s has both %s and %s", what, ways[0], ways[1])
		return 0, 0, false
	}
	switch ways[0] {
	case "between":
		low, high, ok := r.gapBetween(t, what, b)
		if !ok {
			return 0, 0, false
		}
		if width == 0 {
			width = high - low
		}
		from = (low + high - width) / 2
	case "from":
		from = t.num("from")
	case "to_end":
		from = length - t.num("to_end") - width
	case "centre":
		from = t.num("centre") - width/2
	}
	return from, from + width, r.fitsWall(t, what, b, from, from+width)
}

// fitsWall refuses what reaches beyond the ends of its wall.
func (r *Room) fitsWall(t table, what string, b base, from, to float64) bool {
	length, key := b.length(), given(t, "from", "to_end", "centre", "between")[0]
	hint := alongHint(t, key, length, to-from)
	notes := b.note(t)
	switch {
	case to < from:
		t.with(key, fmt.Sprintf("from and to_end together may be %s at most", plainLength(t, length)), notes,
			"%s would end before it begins on %s", what, b.called)
	case from < -r.slack() && to == from:
		t.with(key, hint, notes, "%s stands %s before the start of %s", what, t.length(-from), b.called)
	case from < -r.slack():
		t.with(key, hint, notes, "%s begins %s before the start of %s", what, t.length(-from), b.called)
	case to > length+r.slack() && to == from:
		t.with(key, hint, notes, "%s stands %s beyond the end of %s", what, t.length(to-length), b.called)
	case to > length+r.slack() && to-from > length+r.slack():
		t.with(key, "make it narrower, or take a longer wall", notes, "%s is %s wide, but %s is %s long", what,
			t.length(to-from), b.called, t.length(length))
	case to > length+r.slack():
		t.with(key, hint, notes,
			"%s ends %s beyond the end of %s: it runs from %s to %s", what, t.length(to-length), b.called,
			t.length(from), t.length(to))
	default:
		return true
	}
	return false
}

// alongHint says what a place along a wall may be for something of a width.
func alongHint(t table, key string, length, width float64) string {
	switch {
	case key == "between":
		return "make it narrower, or name two things that have room for it between them"
	case key == "centre" && width > 0:
		return fmt.Sprintf("centre may be %s to %s", plainLength(t, width/2), plainLength(t, length-width/2))
	case length-width < 0.5:
		return key + " may be 0 here"
	}
	return fmt.Sprintf("%s may be %s at most", key, plainLength(t, length-width))
}

// wallSpan returns where a wall stands in the file.
func (r *Room) wallSpan(wall int) Span {
	if s, ok := r.Spans[wallSpanKey(wall)]; ok {
		return s
	}
	return r.Span
}

func wallSpanKey(wall int) string { return "wall " + WallLetter(wall) }

// againstWall places a rectangle or a round thing against its wall.
func (r *Room) againstWall(t table, what string, z size) (spot, bool) {
	b, ok := r.baseGiven(t, what)
	if !ok {
		return spot{}, false
	}
	from, to, ok := r.along(t, what, b, z.width)
	if !ok {
		return spot{}, false
	}
	s := b.stand(from, to, t.num("off"), z)
	s.on = &b
	return s, true
}

// outside reports how far a ring reaches out of the room, over which wall, and
// whether all of it is out.
func (r *Room) outside(ring plane.Ring) (depth float64, wall int, wholly bool, err error) {
	if r.plainlyInside(ring) {
		return 0, 0, false, nil
	}
	floor, own := plane.FromRing(r.Outline), plane.FromRing(ring)
	out, err := own.Less(floor)
	if err != nil {
		return 0, 0, false, err
	}
	if out.Area() > own.Area()-1 {
		depth, wall = r.away(ring)
		return depth, wall, true, nil
	}
	for _, part := range out.Rings() {
		for _, p := range part {
			if w, d := r.nearestWall(p); d > depth {
				depth, wall = d, w
			}
		}
	}
	return depth, wall, false, nil
}

// plainlyInside spares the work of cutting two shapes where no side of the
// ring comes near a wall.
func (r *Room) plainlyInside(ring plane.Ring) bool {
	for i := range ring {
		if !r.Outline.Contains(ring[i]) {
			return false
		}
		for _, w := range r.Walls {
			if w.Meets(ring.Edge(i)) {
				return false
			}
		}
	}
	return true
}

// away returns the least distance from a ring to a wall, and that wall.
func (r *Room) away(ring plane.Ring) (distance float64, wall int) {
	distance = math.Inf(1)
	for i, w := range r.Walls {
		for k := range ring {
			if d := w.Gap(ring.Edge(k)); d < distance {
				distance, wall = d, i
			}
		}
	}
	return distance, wall
}
