package job

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// An Arc is a curved wall: part of a circle over the straight way between its ends. Its
// sides are walls one after the other, all of its letter.
type Arc struct {
	Letter string
	Centre plane.Point
	Radius float64
	Length float64 // along the curve
	Sides  int
}

// offArc is how far the middle of a side may lie off its curve, mm.
const offArc = 1.0

// mostArcSides is how many sides a curve has at most: a half circle of 40 m.
const mostArcSides = 200

// readArcs bends the walls that are curved, and says so of their sides.
func (r *Room) readArcs(t table) {
	for _, at := range limited(t, "arc") {
		if at.broken() || !r.usable() {
			continue
		}
		wall, ok := r.wallNamed(at, "wall", at.text("wall"), "the curve")
		if !ok {
			continue
		}
		if rise, ok := r.rise(at, r.Walls[wall]); ok {
			r.bend(wall, rise, at.flag("into"))
		}
	}
	if !r.usable() || t.broken() {
		return
	}
	if c, bad := r.Outline.SelfClash(); bad && r.curved() {
		t.errorf("arc", "make it flatter, or look whether it bulges into the room",
			"a curved wall of room %q would meet another wall at %s", r.Name, t.rd.place(c.At))
		r.Outline, r.Walls = nil, nil
		t.spoil()
	}
}

func (r *Room) curved() bool {
	for _, w := range r.Walls {
		if w.Arc != nil {
			return true
		}
	}
	return false
}

// rise is how far a curve stands off the straight way between its ends in its middle, as
// given or by its radius.
func (r *Room) rise(t table, w Wall) (float64, bool) {
	half, chord := w.Length()/2, t.length(w.Length())
	rise, key := t.num("rise"), "rise"
	switch {
	case t.has("rise") && t.has("radius"):
		t.errorf("radius", "keep one of the two", "the curve of wall %s has both rise and radius", w.Letter)
		return 0, false
	case !t.has("rise") && !t.has("radius"):
		t.errorf("wall", `add rise = "300 mm", from the straight way between its ends to the middle of the curve, or `+
			`radius`,
			"nothing says how curved wall %s is", w.Letter)
		return 0, false
	case t.has("radius"):
		radius := t.num("radius")
		if key = "radius"; radius < half {
			t.errorf(key, "it is half of that at least",
				"wall %s is %s from end to end: no circle of %s radius spans it",
				w.Letter, chord, t.read(key))
			return 0, false
		}
		rise = radius - math.Sqrt(radius*radius-half*half)
	}
	if rise > half {
		t.errorf(key, "type a wall in two curves where it is more",
			"the curve of wall %s would rise %s, more than a half "+
				"circle over %s", w.Letter, t.length(rise), chord)
		return 0, false
	}
	return rise, true
}

// bend puts the sides of a curve in the place of a wall.
func (r *Room) bend(wall int, rise float64, into bool) {
	w := r.Walls[wall]
	out := r.inward(wall).Mul(-1)
	if into {
		out = out.Mul(-1)
	}
	b := bowOver(w.Segment, out, rise)
	arc := &Arc{Letter: w.Letter, Centre: b.centre, Radius: b.radius, Length: b.radius * math.Abs(b.turn),
		Sides: len(b.ends)}
	span := r.Spans[wallSpanKey(wall)]
	var sides []Wall
	a := w.A
	for _, end := range b.ends {
		sides = append(sides, Wall{w.Letter, plane.Segment{A: a, B: end}, arc})
		a = end
	}
	r.putSides(wall, sides, span)
}

// A bow is part of a circle over a straight way.
type bow struct {
	centre plane.Point
	radius float64
	turn   float64       // radians from its start to its end, counter-clockwise
	ends   []plane.Point // of the sides that it is drawn with
}

// bowOver is the bow over a way whose middle stands off it to one side, out, by rise.
func bowOver(s plane.Segment, out plane.Point, rise float64) bow {
	half := s.Length() / 2
	radius := (half*half + rise*rise) / (2 * rise)
	centre := s.At(half).Add(out.Mul(rise - radius))
	from := s.A.Sub(centre)
	turn := 2 * plane.Atan2(half, radius-rise)
	if from.Rotate(turn/2).Dot(out) < from.Rotate(-turn/2).Dot(out) { // its middle lies the other way
		turn = -turn
	}
	n := int(math.Ceil(math.Abs(turn) / (2 * math.Acos(1-math.Min(0.5, offArc/radius)))))
	n = min(max(n, 2), mostArcSides)
	b := bow{centre, radius, turn, make([]plane.Point, n)}
	for i := range n - 1 {
		b.ends[i] = centre.Add(from.Rotate(turn * float64(i+1) / float64(n)))
	}
	b.ends[n-1] = s.B
	return b
}

// leastBow is how far a curve stands off at least, mm: less is straight.
const leastBow = 0.5

// bowed is an outline with its sides curved as a table's rises say.
func bowed(t table, what string, ring plane.Ring) (plane.Ring, bool) {
	rises := t.lengths("rises")
	if len(rises) != len(ring) {
		t.errorf("rises", "write one for each side, 0 for those that are straight",
			"%s has %d sides and %d rises", what, len(ring), len(rises))
		return nil, false
	}
	right := math.Copysign(1, ring.SignedArea())
	var out plane.Ring
	for i, rise := range rises {
		side := ring.Edge(i)
		out = append(out, side.A)
		if math.Abs(rise) < leastBow {
			continue
		}
		if math.Abs(rise) > side.Length()/2+lengthRounding {
			t.rd.report.Errorf(t.atItem("rises", i), "give the curve in two sides where it is more",
				"the curve of side %d of %s would rise %s, more than a half circle over %s", i+1, what,
				t.length(math.Abs(rise)), t.length(side.Length()))
			return nil, false
		}
		away := side.B.Sub(side.A).Unit().Left().Mul(-right * math.Copysign(1, rise))
		ends := bowOver(side, away, math.Abs(rise)).ends
		out = append(out, ends[:len(ends)-1]...)
	}
	if c, bad := out.SelfClash(); bad {
		t.errorf("rises", "make the curves flatter, or look whether one bulges inwards",
			"with its curves the outline of %s would cross or touch itself at %s", what, t.rd.place(c.At))
		return nil, false
	}
	return out, true
}

// putSides puts walls in the place of one, and what is written of all where it is found.
func (r *Room) putSides(wall int, sides []Wall, span Span) {
	r.Spans[wallSpanKey(wall)] = span
	r.swapSides(wall, 1, sides)
}

// swapSides puts walls in the place of n from one on; all are written where that one is.
func (r *Room) swapSides(wall, n int, sides []Wall) {
	var spans []Span
	var walls []Wall
	for i := range r.Walls {
		if i < wall || i >= wall+n {
			walls, spans = append(walls, r.Walls[i]), append(spans, r.Spans[wallSpanKey(i)])
			continue
		}
		if i > wall {
			continue
		}
		for _, s := range sides {
			walls, spans = append(walls, s), append(spans, r.Spans[wallSpanKey(wall)])
		}
	}
	r.Walls, r.Outline = walls, nil
	for i, w := range walls {
		r.Outline = append(r.Outline, w.A)
		r.Spans[wallSpanKey(i)] = spans[i]
	}
	for i := range r.Openings { // those read before
		if r.Openings[i].Wall >= wall+n {
			r.Openings[i].Wall += len(sides) - n
		}
	}
}

// alongCurve is the side of a curved wall that a length along it from its start lies on,
// and the length that is left there.
func (r *Room) alongCurve(wall int, along float64) (side int, rest float64) {
	b := r.baseOf(wall)
	side = b.wall
	for side+1 < len(r.Walls) && r.Walls[side+1].Arc == b.arc && b.along(r.Walls[side+1].A) < along {
		side++
	}
	return side, math.Max(0, math.Min(r.Walls[side].Length(), along-b.along(r.Walls[side].A)))
}

// BearsLetter reports whether wall i is to show its letter: of a curve the middle side does,
// for all.
func (r *Room) BearsLetter(i int) bool {
	arc := r.Walls[i].Arc
	if arc == nil {
		return true
	}
	first := slices.IndexFunc(r.Walls, func(w Wall) bool { return w.Arc == arc })
	return i == first+arc.Sides/2
}
