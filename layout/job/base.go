package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/plane"
)

// A base is what things stand against: a wall, straight or curved, whole with what niches
// took of it, or a face of a partition.
type base struct {
	called string        // "wall A", or the partition by its name
	letter string        // of the wall; empty of a partition
	line   plane.Segment // as one goes along it; of a curve the straight way between its ends
	in     plane.Point   // of what is straight: square to it, to where things stand
	wall   int           // its first side among the room's; -1: a partition's face
	arc    *Arc          // nil: it is straight
	turn   float64       // of a curve: radians from its start to its end, counter-clockwise
	hollow bool          // of a curve: its centre is on the side where things stand
	face   *Face         // of a partition
	span   Span
}

// baseOf is the base of wall i, or of the curve that it is a side of.
func (r *Room) baseOf(i int) base {
	w := r.Walls[i]
	b := base{called: "wall " + w.Letter, letter: w.Letter, line: w.Segment, wall: i, arc: w.Arc, span: r.wallSpan(i)}
	switch whole, parted := r.whole[w.Letter]; {
	case w.Arc != nil:
		for b.wall > 0 && r.Walls[b.wall-1].Arc == w.Arc {
			b.wall--
		}
		b.bend(r)
	case parted:
		b.line = whole
	}
	b.in = r.inward(i)
	return b
}

// bend fills in what a base has of its curve.
func (b *base) bend(r *Room) {
	first := r.Walls[b.wall]
	last := b.wall
	for last+1 < len(r.Walls) && r.Walls[last+1].Arc == b.arc {
		last++
	}
	b.line = plane.Segment{A: first.A, B: r.Walls[last].B}
	b.turn = math.Copysign(b.arc.Length/b.arc.Radius,
		first.A.Sub(b.arc.Centre).Cross(first.B.Sub(b.arc.Centre)))
	b.hollow = b.arc.Centre.Sub(first.A).Dot(r.inward(b.wall)) > 0
}

// baseNamed finds what a key names: a wall by its letter, or a partition with the face that
// is asked for.
func (r *Room) baseNamed(t table, key, name, what string) (base, bool) {
	for i := range r.Partitions {
		if p := r.Partitions[i]; strings.EqualFold(p.Name, strings.TrimSpace(name)) {
			return r.faceOf(i, t.text("face")), true
		}
	}
	i, ok := r.wallLettered(t, key, name, what)
	if !ok {
		return base{}, false
	}
	b := r.baseOf(i)
	if t.has("face") {
		t.errorf("face", "leave face out", "%s stands against %s, which has one face", what, b.called)
		return b, false
	}
	return b, true
}

// faceOf is the left or the right face of partition i, as one goes from its start to its end.
func (r *Room) faceOf(i int, side string) base {
	p := &r.Partitions[i]
	out := p.B.Sub(p.A).Unit().Left()
	if side == "right" {
		out = out.Mul(-1)
	}
	by := out.Mul(p.Thickness / 2)
	return base{called: p.Name, line: plane.Segment{A: p.A.Add(by), B: p.B.Add(by)}, in: out, wall: -1, span: p.Span,
		face: &Face{i, side == "right"}}
}

// length is along the curve where it is one.
func (b base) length() float64 {
	if b.arc != nil {
		return b.arc.Length
	}
	return b.line.Length()
}

// at is the place so far along, with the ways on along the base there and out from it.
func (b base) at(along float64) (p, on, out plane.Point) {
	if b.arc == nil {
		return b.line.At(along), b.line.B.Sub(b.line.A).Unit(), b.in
	}
	spoke := b.line.A.Sub(b.arc.Centre).Rotate(b.turn * along / b.arc.Length)
	out = spoke.Unit()
	on = out.Left().Mul(math.Copysign(1, b.turn))
	if b.hollow {
		out = out.Mul(-1)
	}
	return b.arc.Centre.Add(spoke), on, out
}

// along is how far along the base a place lies.
func (b base) along(p plane.Point) float64 {
	if b.arc == nil {
		return p.Sub(b.line.A).Dot(b.line.B.Sub(b.line.A).Unit())
	}
	from, to := b.line.A.Sub(b.arc.Centre).Rotate(b.turn/2), p.Sub(b.arc.Centre)
	off := plane.Atan2(from.Cross(to), from.Dot(to)) // from the middle of the curve
	return b.arc.Length/2 + float64(b.arc.Radius*off*math.Copysign(1, b.turn))
}

// stretch is from where to where a ring lies along the base.
func (b base) stretch(ring plane.Ring) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range ring {
		d := b.along(p)
		low, high = math.Min(low, d), math.Max(high, d)
	}
	return low, high
}

// stand is a thing against the base between two distances from its start. In a hollow curve
// the ends of its back are at the wall.
func (b base) stand(from, to, off float64, z size) spot {
	half := (to - from) / 2
	p, on, out := b.at(from + half)
	if b.hollow && z.diameter == 0 && half < b.arc.Radius {
		off += b.arc.Radius - math.Sqrt(float64(b.arc.Radius*b.arc.Radius)-float64(half*half))
	}
	p = p.Add(out.Mul(off))
	back := plane.Segment{A: p.Sub(on.Mul(half)), B: p.Add(on.Mul(half))}
	if on.Left().Dot(out) < 0 {
		back.A, back.B = back.B, back.A
	}
	if z.diameter > 0 {
		s := round(p.Add(out.Mul(z.diameter/2)), z.diameter)
		s.back = back
		return s
	}
	by := out.Mul(z.depth)
	return spot{plane.Ring{back.A, back.B, back.B.Add(by), back.A.Add(by)}, back, to - from, z.depth, nil}
}

// side is the wall that a stretch of a base lies on, and where on it.
func (r *Room) side(t table, what string, b base, from, to float64) (wall int, low, high float64, ok bool) {
	switch {
	case b.arc != nil && to > from:
		if o := r.openingIn(b, from, to); o != nil {
			t.with(placeKeyOf(t), "move one of them, or make it narrower",
				[]Note{{o.Span, thing(o.Kind, o.Name) + " is here"}}, "%s overlaps %s on %s", what,
				thing(o.Kind, o.Name),
				b.called)
			return 0, 0, 0, false
		}
		return r.flatten(b, max(from, 0), min(to, b.length()))
	case b.arc != nil:
		wall, low = r.alongCurve(b.wall, from)
		return wall, low, low, true
	}
	for i, w := range r.Walls {
		on := r.whole[w.Letter] == b.line || i == b.wall || r.pieceOf(i, b)
		shift := b.along(w.A)
		if on && from >= shift-r.slack() && to <= shift+w.Length()+r.slack() {
			return i, max(0, from-shift), min(w.Length(), to-shift), true
		}
	}
	t.errorf(placeKeyOf(t), "move it to one side of the niche", "%s lies in a niche of %s", what, b.called)
	return 0, 0, 0, false
}

// openingIn is an opening of a curve that lies in a stretch of it, nil for none.
func (r *Room) openingIn(b base, from, to float64) *Opening {
	for i := range r.Openings {
		o := &r.Openings[i]
		w := r.Walls[o.Wall]
		if w.Arc == b.arc && math.Min(to, b.along(w.B))-math.Max(from, b.along(w.A)) > r.slack() {
			return o
		}
	}
	return nil
}

// pieceOf reports whether wall i is a piece that a niche left of a base.
func (r *Room) pieceOf(i int, b base) bool {
	w := r.Walls[i]
	root, _, _ := strings.Cut(w.Letter, ".")
	return "wall "+root == b.called && b.line.Distance(w.A) < lengthRounding && b.line.Distance(w.B) < lengthRounding
}

// flatten puts one straight side where an opening is in a curve: its frame is straight.
func (r *Room) flatten(b base, from, to float64) (wall int, low, high float64, ok bool) {
	var sides []Wall
	n, letter := 0, r.Walls[b.wall].Letter
	add := func(a, c plane.Point) {
		if a.Dist(c) > lengthRounding {
			sides = append(sides, Wall{letter, plane.Segment{A: a, B: c}, b.arc})
		}
	}
	p, _, _ := b.at(from)
	q, _, _ := b.at(to)
	first := -1
	for i := b.wall; i < len(r.Walls) && r.Walls[i].Arc == b.arc; i++ {
		w := r.Walls[i]
		n++
		a, c := b.along(w.A), b.along(w.B)
		switch {
		case c <= from || a >= to:
			add(w.A, w.B)
			continue
		case a < from:
			add(w.A, p)
		}
		if first < 0 {
			first = len(sides)
			sides = append(sides, Wall{letter, plane.Segment{A: p, B: q}, b.arc})
		}
		if c > to {
			add(q, w.B)
		}
	}
	was := map[int]plane.Segment{} // the openings that the curve has already
	for i, o := range r.Openings {
		if r.Walls[o.Wall].Arc == b.arc {
			was[i] = r.Walls[o.Wall].Segment
		}
	}
	r.swapSides(b.wall, n, sides)
	b.arc.Sides = len(sides)
	for i, side := range was {
		r.Openings[i].Wall = slices.IndexFunc(r.Walls, func(w Wall) bool { return w.Segment == side })
	}
	return b.wall + first, 0, p.Dist(q), true
}

// baseNote points at a base in the file.
func (b base) note(t table) []Note {
	return []Note{{b.span, fmt.Sprintf("%s is %s long", b.called, t.length(b.length()))}}
}
