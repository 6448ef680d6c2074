package lettering

import (
	"iter"
	"math"
	"slices"
	"strings"

	"oxturn/drawing"
)

// A Kind says how lettering gets on with what is already drawn.
type Kind int

const (
	ThinInk      Kind = iota // thin lines: lettering may stand over them, with a knock-out
	CableInk                 // cable, leads and movement joints: the same, at a higher price
	hatchInk                 // the outline of a hatched area
	SolidInk                 // walls, dimension lines and marks: no lettering over them
	leaderInk                // leaders: no lettering over them
	ExtensionInk             // extension lines: no lettering over them, but dimension lines may have to cross them
)

// A stroke is a straight piece of a drawn line.
type stroke struct {
	a, b  drawing.Pt
	kind  Kind
	owner *Label // of a leader
	line  int    // the straight line it is a piece of
}

// A patch is an area that lettering keeps out of.
type patch struct {
	box   drawing.Box
	owner *Label // of lettering; nil: a mark
	text  string // what is lettered there
}

// Ink is everything drawn in the field so far, in cells so that asking what
// lies under a box looks at few lines.
type Ink struct {
	rows    [][]*cell
	hatched [][][]drawing.Pt // regions, each a set of rings
	bounds  []drawing.Box    // of the hatched regions
	count   int              // of straight lines
}

// A cell is what lies in a square of the paper.
type cell struct {
	lines   []*stroke
	patches []*patch
}

// cellSize is the side of a cell in mm, about the size of a short label. What lies more than outsideCells
// above a sheet or to its left is taken to lie there, and what lies far beyond any paper likewise.
const (
	cellSize     = 8.0
	outsideCells = 8
	mostCells    = 512
)

// NewInk returns a field that nothing is drawn in.
func NewInk() *Ink { return &Ink{} }

// span is which cells a box touches.
func span(b drawing.Box) (x0, y0, x1, y1 int) {
	place := func(v float64) int { return int(math.Floor(max(0, min(v/cellSize+outsideCells, mostCells)))) }
	return place(b.X0), place(b.Y0), place(b.X1), place(b.Y1)
}

// cells yields the cells that b touches, in rows, but for those where nothing lies yet.
func (k *Ink) cells(b drawing.Box) iter.Seq[*cell] {
	return func(yield func(*cell) bool) {
		x0, y0, x1, y1 := span(b)
		for y := y0; y <= y1 && y < len(k.rows); y++ {
			row := k.rows[y]
			for x := x0; x <= x1 && x < len(row); x++ {
				if row[x] != nil && !yield(row[x]) {
					return
				}
			}
		}
	}
}

// inked returns the cells that b touches, for something to be put there.
func (k *Ink) inked(b drawing.Box) (out []*cell) {
	x0, y0, x1, y1 := span(b)
	for len(k.rows) <= y1 {
		k.rows = append(k.rows, nil)
	}
	for y := y0; y <= y1; y++ {
		for len(k.rows[y]) <= x1 {
			k.rows[y] = append(k.rows[y], nil)
		}
		for x := x0; x <= x1; x++ {
			if k.rows[y][x] == nil {
				k.rows[y][x] = &cell{}
			}
			out = append(out, k.rows[y][x])
		}
	}
	return out
}

// Line takes note of the line through pts.
func (k *Ink) Line(pts []drawing.Pt, as Kind) { k.lineOf(pts, as, nil) }

func (k *Ink) lineOf(pts []drawing.Pt, as Kind, owner *Label) {
	for i := 1; i < len(pts); i++ {
		// long lines in short pieces, so that a slanting one does not fill the cells of its whole box
		k.count++
		n := int(math.Max(1, math.Ceil(pts[i-1].Dist(pts[i])/(2*cellSize))))
		for j := range n {
			s := &stroke{pts[i-1].Lerp(pts[i], float64(j)/float64(n)), pts[i-1].Lerp(pts[i], float64(j+1)/float64(n)),
				as, owner, k.count}
			at := k.inked(drawing.BoxOf(s.a, s.b))
			for _, c := range at {
				c.lines = append(c.lines, s)
			}
			if owner != nil {
				owner.inked = append(owner.inked, at...)
			}
		}
	}
}

// Segs takes note of a drawn path.
func (k *Ink) Segs(segs []drawing.Seg, as Kind) {
	for _, l := range drawing.Flatten(segs, 0.1) {
		k.Line(l, as)
	}
}

// Hatch takes note of a hatched area.
func (k *Ink) Hatch(rings [][]drawing.Pt) {
	var all []drawing.Pt
	for _, r := range rings {
		all = append(all, r...)
	}
	k.hatched = append(k.hatched, rings)
	k.bounds = append(k.bounds, drawing.BoxOf(all...))
}

// Mark keeps lettering out of b.
func (k *Ink) Mark(b drawing.Box) { k.patch(&patch{box: b}) }

// Items keeps lettering out of a drawn mark.
func (k *Ink) Items(items []drawing.Item) {
	p := &patch{box: drawing.BoxOfItems(items)}
	for _, it := range items {
		if t, ok := it.(*drawing.Text); ok {
			p.text = t.Text
		}
	}
	k.patch(p)
}

// text keeps other lettering out of b.
func (k *Ink) text(l *Label, b drawing.Box) { k.patch(&patch{b, l, l.Text}) }

func (k *Ink) patch(p *patch) {
	at := k.inked(p.box.Grow(TextGap))
	for _, c := range at {
		c.patches = append(c.patches, p)
	}
	if p.owner != nil {
		p.owner.inked = append(p.owner.inked, at...)
	}
}

func (k *Ink) leader(l *Label, pts []drawing.Pt) { k.lineOf(pts, leaderInk, l) }

// lift takes a label's lettering and leader off again.
func (*Ink) lift(l *Label) {
	for _, c := range l.inked {
		c.patches = Without(c.patches, func(p *patch) bool { return p.owner == l })
		c.lines = Without(c.lines, func(s *stroke) bool { return s.owner == l })
	}
	l.inked = l.inked[:0]
}

// Without returns a list without what is to be dropped: the list itself where
// nothing is.
func Without[T any](list []T, drop func(T) bool) []T {
	for i := range list {
		if drop(list[i]) {
			var out []T
			for _, v := range list {
				if !drop(v) {
					out = append(out, v)
				}
			}
			return out
		}
	}
	return list
}

// under weighs what lies under b for the lettering of l. ok is false when
// something lies there that lettering must not cover.
func (k *Ink) under(b drawing.Box, l, except *Label) (cost float64, ok bool) {
	wide := b.Grow(TextGap)
	for c := range k.cells(b) {
		for _, p := range c.patches {
			if p.owner != l && (p.owner == nil || p.owner != except) && p.box.Meets(wide) {
				return 0, false
			}
		}
	}
	near := b.Grow(lineWhite)
	var hit []int // each straight line is paid for once
	for c := range k.cells(near) {
		for _, s := range c.lines {
			if (s.owner == nil || s.owner != l && s.owner != except) && near.Touches(s.a, s.b) &&
				!slices.Contains(hit, s.line) {
				if s.kind == SolidInk || s.kind == leaderInk || s.kind == ExtensionInk {
					return 0, false
				}
				hit = append(hit, s.line)
				cost += price(s.kind)
			}
		}
	}
	for i := range k.hatched {
		if k.bounds[i].Meets(b) && touches(k.hatched[i], b) {
			cost += overHatch
		}
	}
	return cost, true
}

// How near lettering beside other lettering reads as one with it, mm, and
// lettering over or under other.
const (
	besideText = 2.5
	overText   = 1.2
)

// mistaken weighs what the lettering of l in b could be taken for: one text with
// its neighbour, or the name of something else that begins alike.
func (k *Ink) mistaken(b drawing.Box, l, except *Label) (cost float64) {
	var seen []*patch
	for c := range k.cells(b.Grow(math.Max(besideText, l.Shy))) {
		for _, p := range c.patches {
			if p.text == "" || p.owner == l || p.owner != nil && p.owner == except || slices.Contains(seen, p) {
				continue
			}
			seen = append(seen, p)
			if p.owner != nil && p.owner.Mark == nil && p.owner.Subject != l.Subject && readsOn(p.box, b) {
				cost += asOne
			}
			if l.Shy > 0 && namesake(l.Text, p.text) && p.box.Meets(b.Grow(l.Shy)) {
				cost += asOther
			}
		}
	}
	return cost
}

// readsOn reports whether two letterings stand so close in a line, or one over
// the other, that they read as one.
func readsOn(a, b drawing.Box) bool {
	across, down := math.Max(b.X0-a.X1, a.X0-b.X1), math.Max(b.Y0-a.Y1, a.Y0-b.Y1)
	const share = -1.0 // mm that they have in common the other way
	return down < share && across < besideText || across < share && down < overText
}

// namesake reports whether the letter of a wall begins a name: S and S1, T and
// the thermostat's T.
func namesake(letter, name string) bool {
	figures, ok := strings.CutPrefix(name, letter)
	return ok && strings.Trim(figures, "0123456789") == ""
}

func price(as Kind) float64 {
	switch as {
	case CableInk:
		return OverCable
	case ThinInk:
		return overThin
	}
	return 0
}

// White round lettering, mm: to a line it stands by, to one it would stand over, and of marks to what leads by them.
const (
	lineWhite = 0.4
	overWhite = 0.2
	markWhite = 0.3
)

// covered reports whether lettering in b stands over a line or a hatch.
func (k *Ink) covered(b drawing.Box) bool {
	near, found := b.Grow(overWhite), false
	for c := range k.cells(near) {
		for _, s := range c.lines {
			found = found || s.owner == nil && near.Touches(s.a, s.b)
		}
	}
	for i := range k.hatched {
		found = found || k.bounds[i].Meets(b) && touches(k.hatched[i], b)
	}
	return found
}

// along weighs a leader. ok is false when it runs through lettering or a mark.
func (k *Ink) along(pts []drawing.Pt, l, except *Label) (cost float64, ok bool) {
	ok = true
	for i := 1; i < len(pts) && ok; i++ {
		a, b := pts[i-1], pts[i]
		cost += perMM * a.Dist(b)
		for c := range k.cells(drawing.BoxOf(a, b)) {
			for _, p := range c.patches {
				switch {
				case p.owner == nil:
					ok = ok && !throughMark(p.box, pts[0], a, b)
				case p.owner != l && p.owner != except && p.box.Grow(markWhite).Touches(a, b):
					ok = false
				}
			}
			for _, s := range c.lines {
				switch {
				case s.owner == l || s.owner != nil && s.owner == except:
				case (drawing.Straight{A: a, B: b}).Crosses(drawing.Straight{A: s.a, B: s.b}):
					cost += tie(s.kind)
				case s.kind == CableInk && hugs(a, b, s.a, s.b):
					cost += leaderTie
				}
			}
		}
	}
	return cost, ok
}

// BesideMarks returns the pieces of a line that lie beside all marks: an
// extension line is broken where it would run through one.
func (k *Ink) BesideMarks(a, b drawing.Pt) [][]drawing.Pt {
	var marks []drawing.Box
	for c := range k.cells(drawing.BoxOf(a, b)) {
		for _, p := range c.patches {
			if p.owner == nil && !slices.Contains(marks, p.box) {
				marks = append(marks, p.box)
			}
		}
	}
	pieces := [][]drawing.Pt{{a, b}}
	for _, m := range marks {
		var left [][]drawing.Pt
		for _, l := range pieces {
			p, q, ok := m.Grow(markWhite).Clip(l[0], l[1])
			if !ok {
				left = append(left, l)
				continue
			}
			for _, rest := range [][]drawing.Pt{{l[0], p}, {q, l[1]}} {
				if rest[0].Dist(rest[1]) > 0.5 {
					left = append(left, rest)
				}
			}
		}
		pieces = left
	}
	return pieces
}

// throughMark reports whether the piece of a leader from a to b runs through a
// Mark or fixed lettering. The mark that a leader begins in is its subject; one
// that it begins at the edge of must lie behind it.
func throughMark(mark drawing.Box, start, a, b drawing.Pt) bool {
	const skin = 0.6
	inside := mark.Grow(-skin)
	if inside.Holds(start) {
		return false
	}
	if mark.Grow(skin).Holds(start) {
		mark = inside
	}
	return mark.W() > 0 && mark.H() > 0 && mark.Touches(a, b)
}

// hugs reports whether two straight pieces lie so close side by side that they
// could be taken for one line.
func hugs(a, b, c, d drawing.Pt) bool {
	const slant, near, least = 0.15, 0.8, 2.0 // radians, mm apart, mm side by side
	u, w := b.Sub(a).Unit(), d.Sub(c).Unit()
	if math.Abs(u.X*w.Y-u.Y*w.X) > slant {
		return false
	}
	from, to := c.Sub(a).Dot(u), d.Sub(a).Dot(u)
	from, to = math.Max(0, math.Min(from, to)), math.Min(a.Dist(b), math.Max(from, to))
	off := a.Add(u.Mul((from + to) / 2)).Sub(c)
	return to-from > least && math.Abs(off.X*w.Y-off.Y*w.X) < near
}

func tie(as Kind) float64 {
	switch as {
	case leaderInk:
		return leaderTie
	case CableInk:
		return leaderWire
	case SolidInk, ExtensionInk:
		return leaderTie / 4
	}
	return leaderThin
}

// Crossed reports whether the straight piece from a to b crosses a line of one
// of these kinds.
func (k *Ink) Crossed(a, b drawing.Pt, kinds ...Kind) bool {
	found := false
	for c := range k.cells(drawing.BoxOf(a, b)) {
		for _, s := range c.lines {
			found = found || slices.Contains(kinds, s.kind) && (drawing.Straight{A: a,
				B: b}).Crosses(drawing.Straight{A: s.a, B: s.b})
		}
	}
	return found
}

// Crossings counts the lines of these kinds that the straight piece from a to b crosses.
func (k *Ink) Crossings(a, b drawing.Pt, kinds ...Kind) int {
	var seen []int
	for c := range k.cells(drawing.BoxOf(a, b)) {
		for _, s := range c.lines {
			if slices.Contains(kinds, s.kind) && !slices.Contains(seen, s.line) && (drawing.Straight{A: a,
				B: b}).Crosses(drawing.Straight{A: s.a, B: s.b}) {
				seen = append(seen, s.line)
			}
		}
	}
	return len(seen)
}

// owners returns the labels whose lettering or leader touches b, or whose
// lettering a leader would run through.
func (k *Ink) owners(b drawing.Box, leader []drawing.Pt) []*Label {
	var out []*Label
	add := func(l *Label) {
		for _, o := range out {
			if o == l {
				return
			}
		}
		if l != nil {
			out = append(out, l)
		}
	}
	for c := range k.cells(b) {
		for _, p := range c.patches {
			if p.box.Meets(b) {
				add(p.owner)
			}
		}
		for _, s := range c.lines {
			if s.owner != nil && b.Touches(s.a, s.b) {
				add(s.owner)
			}
		}
	}
	for i := 1; i < len(leader); i++ {
		for c := range k.cells(drawing.BoxOf(leader[i-1], leader[i])) {
			for _, p := range c.patches {
				if p.box.Touches(leader[i-1], leader[i]) {
					add(p.owner)
				}
			}
		}
	}
	return out
}

// touches reports whether part of b is inside the rings, by the even-odd rule.
func touches(rings [][]drawing.Pt, b drawing.Box) bool {
	for _, p := range append(b.Corners(), b.Centre()) {
		if drawing.Inside(rings, p) {
			return true
		}
	}
	for _, r := range rings {
		for i := range r {
			if b.Touches(r[i], r[(i+1)%len(r)]) {
				return true
			}
		}
	}
	return false
}
