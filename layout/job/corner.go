package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// inCorner places a thing in the corner where a wall begins: its back against that
// wall, its side against the wall before, each as far off as from and off say.
func (r *Room) inCorner(t table, what string, z size) (spot, bool) {
	wall, ok := r.wallNamed(t, "corner", t.text("corner"), what)
	if !ok {
		return spot{}, false
	}
	u := r.Walls[wall].B.Sub(r.Walls[wall].A).Unit()
	before := r.Walls[(wall+len(r.Walls)-1)%len(r.Walls)]
	back := before.A.Sub(before.B).Unit()
	in := r.inward(wall)
	if back.Dot(in) <= 0 {
		t.errorf("corner", fmt.Sprintf(`write wall = %q and from = 0 instead`, r.Walls[wall].Letter),
			"%s cannot stand in corner %s, which juts into the room", what, r.Walls[wall].Letter)
		return spot{}, false
	}
	c := cornered{at: r.Walls[wall].A, u: u, in: in, back: back, reversed: r.Outline.SignedArea() < 0}
	switch shape := t.text("shape"); shape {
	case "diagonal":
		return c.diagonal(z, t.num("off")), true
	case "neo-angle", "quadrant":
		return r.cutCorner(t, what, c, z, shape)
	}
	if t.has("cut") {
		t.errorf("cut", `add shape = "neo-angle" or "quadrant", or leave cut out`,
			"%s is a rectangle: nothing is cut off it", what)
		return spot{}, false
	}
	off := t.num("off")
	from := t.num("from") + math.Max(0, u.Dot(back)/in.Dot(back)*(off+z.depth)) // clear of a wall that leans in
	return c.spot([]plane.Point{{X: 0, Y: 0}, {X: z.width, Y: 0}, {X: z.width, Y: z.depth}, {X: 0, Y: z.depth}}, from,
		off, z), true
}

// A cornered is the frame of a corner: where it is, the ways along the wall that
// begins there, into the room and back along the wall before.
type cornered struct {
	at, u, in, back plane.Point
	reversed        bool // the room's corners are written clockwise
}

// spot places corners given along the wall and out from it.
func (c cornered) spot(pts []plane.Point, from, off float64, z size) spot {
	ring := make(plane.Ring, len(pts))
	for i, p := range pts {
		ring[i] = c.at.Add(c.u.Mul(from + p.X)).Add(c.in.Mul(off + p.Y))
	}
	return c.facing(ring, z)
}

// facing is a thing by its corners, the back first.
func (c cornered) facing(ring plane.Ring, z size) spot {
	if c.reversed {
		slices.Reverse(ring[2:])
		ring[0], ring[1] = ring[1], ring[0]
	}
	return spot{ring, ring.Edge(0), z.width, z.depth, nil}
}

// diagonal places a rectangle across a corner, its back to it, both ends of the back
// as far off the walls as asked for.
func (c cornered) diagonal(z size, off float64) spot {
	half := math.Sqrt(math.Max(0, (1-c.u.Dot(c.back))/2)) // sine of half the corner's angle
	reach := z.width / 2 / half
	ahead := c.u.Add(c.back).Unit()
	at := c.at.Add(ahead.Mul(off / half)) // off both walls
	a, b := at.Add(c.back.Mul(reach)), at.Add(c.u.Mul(reach))
	out := ahead.Mul(z.depth)
	return c.facing(plane.Ring{a, b, b.Add(out), a.Add(out)}, z)
}

// quadrantRadius is the radius of a quadrant shower's front, mm: 550 of 900 is common
// practice.
const quadrantRadius = 550

// nearlySquare is how far off a right angle a corner may be for what is made for one.
const nearlySquare = 3 * math.Pi / 180

// cutCorner places what has its front corner cut off straight or round.
func (r *Room) cutCorner(t table, what string, c cornered, z size, shape string) (spot, bool) {
	short := math.Min(z.width, z.depth)
	usual := short / 2
	if shape == "quadrant" {
		usual = math.Min(quadrantRadius, short)
	}
	cut := t.numOr("cut", usual)
	switch {
	case math.Abs(c.u.Dot(c.back)) > math.Sin(nearlySquare):
		t.errorf("corner", "give its outline instead: outline = [[x, y], …]",
			"%s is made for a square corner, and this one has %s", what,
			say.Angle(plane.Degrees(math.Acos(c.u.Dot(c.back)))))
		return spot{}, false
	case cut > short+lengthRounding:
		t.errorf("cut", fmt.Sprintf("cut may be %s at most", plainLength(t, short)),
			"%s is %s by %s: %s cannot be cut off its corner", what, t.length(z.width), t.length(z.depth),
			t.read("cut"))
		return spot{}, false
	}
	pts := []plane.Point{{}, {X: z.width}}
	w, d := z.width-cut, z.depth-cut
	steps := 1
	if shape == "quadrant" {
		steps = circleSides / 4
	}
	for i := range steps + 1 {
		sin, cos := plane.Sincos(math.Pi / 2 * float64(i) / float64(steps))
		pts = append(pts, plane.Pt(w+float64(cut*cos), d+float64(cut*sin)))
	}
	pts = append(pts, plane.Pt(0, z.depth))
	if d < lengthRounding {
		pts = append(pts[:1], pts[2:]...) // the cut begins at the wall
	}
	if w < lengthRounding {
		pts = pts[:len(pts)-1]
	}
	return c.spot(pts, t.num("from"), t.num("off"), z), true
}

// A stood is where a thing stands along a wall or a partition.
type stood struct {
	base
	low, high float64
}

// standing finds a fixture or keep-out of the room by its name, and where it stands
// along what its back is at.
func (r *Room) standing(name string) (s stood, names []string, ok bool) {
	for _, f := range r.Fixtures {
		if names = append(names, f.Name); strings.EqualFold(f.Name, strings.TrimSpace(name)) {
			if f.on != nil {
				return stoodAt(*f.on, f.Outline), names, true
			}
			wall, _ := r.nearestWall(f.Back.A.Lerp(f.Back.B, 0.5))
			return stoodAt(r.baseOf(wall), f.Outline), names, true
		}
	}
	for _, k := range r.KeepOuts {
		if names = append(names, k.Name); strings.EqualFold(k.Name, strings.TrimSpace(name)) {
			_, wall := r.away(k.Outline)
			return stoodAt(r.baseOf(wall), k.Outline), names, true
		}
	}
	return s, names, false
}

func stoodAt(b base, outline plane.Ring) stood {
	low, high := b.stretch(outline)
	return stood{b, low, high}
}

// reportUnknown says that a key names nothing that stands before it in the file.
func (r *Room) reportUnknown(t table, key, what, name string, names []string) {
	hint := "what it stands beside is written before it, with that name"
	if near := nearest(name, names); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	} else if len(names) > 0 {
		hint = "there are: " + strings.Join(names[:min(len(names), 8)], ", ")
	}
	t.errorf(key, hint, "%s is placed by %q, which room %q does not have above it", what, name, r.Name)
}

// besideOther places a thing next to another along its wall, after it or before.
func (r *Room) besideOther(t table, what string, z size) (spot, bool) {
	other, names, ok := r.standing(t.text("beside"))
	if !ok {
		r.reportUnknown(t, "beside", what, t.text("beside"), names)
		return spot{}, false
	}
	from := other.high + t.num("gap")
	if t.text("side") == "before" {
		from = other.low - t.num("gap") - z.width
	}
	length := other.length()
	if from < -r.slack() || from+z.width > length+r.slack() {
		t.with("beside", `write side = "before" or "after", or make it narrower`, other.note(t),
			"%s finds no room beside %q: it would run from %s to %s on %s, which is %s long", what,
			t.text("beside"), t.length(from), t.length(from+z.width), other.called, t.length(length))
		return spot{}, false
	}
	out := other.stand(from, from+z.width, t.num("off"), z)
	out.on = &other.base
	return out, true
}

// gapBetween is the stretch of a wall between two things by their names, or by the
// letters of the walls next to it.
func (r *Room) gapBetween(t table, what string, b base) (low, high float64, ok bool) {
	names := t.texts("between")
	if len(names) != 2 {
		t.errorf("between", `write it like between = ["tub", "vanity"] or ["tub", "C"]`,
			"between takes two names, and %s has %d", what, len(names))
		return 0, 0, false
	}
	var ends [2]stood
	for i, name := range names {
		s, known, found := r.standing(name)
		switch {
		case found:
			s.low, s.high = b.stretch(r.outlineNamed(name))
		case r.nextTo(b, name, b.line.A):
			s.low, s.high = 0, 0
		case r.nextTo(b, name, b.line.B):
			s.low, s.high = b.length(), b.length()
		default:
			r.reportUnknown(t, "between", what, name, append(known, r.wallsNextTo(b)...))
			return 0, 0, false
		}
		ends[i] = s
	}
	if ends[0].low > ends[1].low {
		ends[0], ends[1] = ends[1], ends[0]
	}
	return ends[0].high, ends[1].low, true
}

func (r *Room) outlineNamed(name string) plane.Ring {
	for _, s := range r.Stands() {
		if strings.EqualFold(s.Name, strings.TrimSpace(name)) {
			return s.Outline
		}
	}
	return nil
}

// nextTo reports whether a letter is that of the wall that a base meets at one of its ends.
func (r *Room) nextTo(b base, letter string, end plane.Point) bool {
	return slices.ContainsFunc(r.Walls, func(w Wall) bool {
		return strings.EqualFold(w.Letter, strings.TrimSpace(letter)) && "wall "+w.Letter != b.called &&
			w.Distance(end) < metBy
	})
}

// wallsNextTo are the letters of the walls that a base meets at its ends.
func (r *Room) wallsNextTo(b base) (letters []string) {
	for _, w := range r.Walls {
		if r.nextTo(b, w.Letter, b.line.A) || r.nextTo(b, w.Letter, b.line.B) {
			letters = append(letters, w.Letter)
		}
	}
	return letters
}

// metBy is how far, mm, the end of a partition's face may lie off the wall it meets: half
// its thickness, where it comes to it aslant.
const metBy = 60

// spotOf is a point of the floor that a key gives by its coordinates, or from a corner
// along a wall and out from it.
func (r *Room) spotOf(t table, key, what string) (plane.Point, bool) {
	w := value[wallPoint](t, key)
	if w.wall == "" {
		return w.point, true
	}
	b, ok := r.baseNamed(t, key, w.wall, what)
	if !ok {
		return plane.Point{}, false
	}
	if over := w.along - b.length(); over > r.slack() {
		t.with(key, fmt.Sprintf("the length may be %s at most", plainLength(t, b.length())), b.note(t),
			"%s is %s beyond the end of %s", what, t.length(over), b.called)
		return plane.Point{}, false
	}
	p, _, out := b.at(w.along)
	return p.Add(out.Mul(w.out)), true
}
