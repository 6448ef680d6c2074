package setting

import (
	"fmt"
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// An Arrangement is how a sheet's frame is shared out: the field for the
// drawing, slots for the blocks, and the title block at the lower right.
type Arrangement struct {
	Paper  drawing.Paper
	Scale  drawing.Scale
	Field  drawing.Box // for the drawing, the proof strip left out
	frame  drawing.Box // what was shared out: the paper's, or a drawing's half of it
	proof  drawing.Box
	title  drawing.Box
	slots  []drawing.Box
	Level  int     // which of the need's levels stands in the slots
	set    float64 // how high the blocks in them would stand in one narrow column, mm
	tight  bool    // a table in them is too narrow for its words
	pieces int     // in how many pieces the blocks are set
	all    bool    // nothing of them goes on elsewhere
}

// worth is what arrangements at one scale are compared by: the field or, where
// Blocks may go on to another sheet, how much of them stays on this one.
func (a Arrangement) worth(overflow bool) float64 {
	if overflow {
		return a.set
	}
	return a.Field.W() * a.Field.H()
}

// better reports whether a is to be taken rather than b, at one scale: words
// stay whole before anything else, then blocks.
func (a Arrangement) better(b Arrangement, overflow bool) bool {
	if a.tight != b.tight {
		return b.tight
	}
	if !overflow && a.pieces != b.pieces {
		return a.pieces < b.pieces
	}
	return a.worth(overflow) > b.worth(overflow)
}

// A placed block is a block with its place.
type placed struct {
	Block Block
	At    drawing.Pt
	W     float64
	of    int // which of the blocks it is, or is a piece of
}

// tight reports whether a block is a table set so narrow that words are broken.
func (p placed) tight() bool {
	b := p.Block
	if m, ok := b.(Measured); ok {
		b = m.Block
	}
	t, ok := b.(Table)
	return ok && t.slimmest() > p.W+sumSlack
}

// Flow puts blocks into slots one after the other. What does not fit is
// returned as rest, in order. Blocks are only split where they would not all
// fit otherwise.
func Flow(ty *Typesetter, blocks []Block, slots []drawing.Box) (out []placed, rest []Block) {
	if !overfull(ty, blocks, slots) {
		if out, rest = pourWhole(ty, blocks, slots); len(rest) == 0 {
			return out, rest
		}
	}
	return Pour(ty, blocks, slots, false)
}

// overfull reports whether slots are too low for the blocks in one piece each, however
// they were shared out: most ways to divide a sheet are found wanting so, without
// trying. What goes on in the next column may do so without its heading.
func overfull(ty *Typesetter, blocks []Block, slots []drawing.Box) bool {
	var widths []float64
	room := 0.0
	for _, s := range slots {
		room += s.H() + BlockGap + HeadRow
		if !slices.Contains(widths, s.W()) {
			widths = append(widths, s.W())
		}
	}
	for _, b := range blocks {
		least := math.Inf(1)
		for _, w := range widths {
			least = math.Min(least, b.Height(ty, w))
		}
		if room -= least + BlockGap; room < -1e-6 {
			return true
		}
	}
	return false
}

func pourWhole(ty *Typesetter, blocks []Block, slots []drawing.Box) (out []placed, rest []Block) {
	return Pour(ty, blocks, slots, true)
}

// Pour is flow with a choice: whole keeps every block in one piece that fits
// into one slot. A block that fits into the white left at the foot of an earlier
// slot goes there.
func Pour(ty *Typesetter, blocks []Block, slots []drawing.Box, whole bool) (out []placed, rest []Block) {
	slots = tallEnough(slots)
	if len(slots) == 0 {
		return nil, blocks
	}
	free := slices.Clone(slots)
	out = make([]placed, 0, len(blocks)+len(slots))
	i := 0
	put := func(k int, b Block, of int) {
		s := free[k]
		out = append(out, placed{b, drawing.Pt{X: s.X0, Y: s.Y0}, s.W(), of})
		free[k].Y0 += b.Height(ty, s.W()) + BlockGap
	}
	for of, b := range blocks {
		if k := slices.IndexFunc(free[:i], func(s drawing.Box) bool { return b.Height(ty, s.W()) <= s.H() }); k >= 0 {
			put(k, b, of)
			continue
		}
		for b != nil {
			fits, left := cut(ty, b, free[i].W(), free[i].H())
			if whole && fits != nil && left != nil && i < len(slots)-1 && b.Height(ty, slots[i+1].W()) <= slots[i+
				1].H() {
				fits, left = nil, b
			}
			atTop := free[i].Y0 == slots[i].Y0
			if fits != nil {
				put(i, fits, of)
			}
			if b = left; b == nil {
				break
			}
			if i == len(slots)-1 {
				rest = append(rest, b)
				break
			}
			i++
			if fits != nil && atTop && abreast(slots[i-1], slots[i]) && !covered(slots[i], slots) {
				b = unheaded(b)
			}
		}
	}
	return out, rest
}

// abreast reports whether b is the column next to the right of a: what begins at
// the top of a and goes on there needs no heading a second time.
func abreast(a, b drawing.Box) bool {
	return math.Abs(a.Y0-b.Y0) < sumSlack && b.X0 > a.X1 && b.X0-a.X1 <= 2*colGap+sumSlack
}

// covered reports whether another slot lies straight above one: what goes on there
// without a heading would seem to belong to it.
func covered(b drawing.Box, slots []drawing.Box) bool {
	return slices.ContainsFunc(slots, func(s drawing.Box) bool {
		return s.Y1 <= b.Y0 && s.X0 < b.X1 && b.X0 < s.X1
	})
}

// cut returns as much of a block as fits into h, and what is left of it.
func cut(ty *Typesetter, b Block, w, h float64) (fits, left Block) {
	if b.Height(ty, w) <= h+sumSlack {
		return b, nil
	}
	if s, ok := b.(splitter); ok && h > leastPiece {
		return s.Split(ty, w, h)
	}
	return nil, b
}

// tallEnough drops slots too low for anything but a heading.
func tallEnough(slots []drawing.Box) []drawing.Box {
	low := func(s drawing.Box) bool { return s.H() <= 2*HeadRow }
	if !slices.ContainsFunc(slots, low) {
		return slots
	}
	return slices.DeleteFunc(slices.Clone(slots), low)
}

// fieldEdge is the white kept between the frame and what is inside it.
const fieldEdge = 5.0

// A Need is what a drawing takes of its sheet.
type Need struct {
	Bounds plane.Rect // mm of floor
	// Border is what stands round it, mm on paper, at a scale
	Border func(ratio float64) (left, right, top, bottom float64)
	Proof  Proof      // without its ratio
	Title  TitleBlock // without its scale and paper
	Levels []Level    // what the column has to hold, fullest first
	Scales []drawing.Scale
	papers []drawing.Paper
	Ty     *Typesetter
	// whether the drawing is too small at a scale to be read for the sake of what stands beside it; nil: never
	TooSmall func(ratio float64) bool
	Titles   map[TitleKey]float64 // heights of the title block asked for before
	Half     Half                 // of the frame
	least    float64              // width of a column where there are several
	must     int                  // as of the level that is tried
}

// A TitleKey is what the height of a title block hangs on.
type TitleKey struct {
	compact bool
	w       float64
}

// titleHeight returns the height of the title block at a width.
func (n Need) titleHeight(w float64) float64 {
	if n.Half.above() {
		return 0
	}
	key := TitleKey{n.Title.Compact, w}
	h, ok := n.Titles[key]
	if !ok {
		h = n.Title.Kept(n.Ty, w)
		n.Titles[key] = h
	}
	return h
}

// size returns the field that the drawing takes at a scale.
func (n Need) size(s drawing.Scale) (w, h float64) {
	left, right, top, bottom := n.Border(s.Ratio)
	return n.Bounds.W()/s.Ratio + left + right, n.Bounds.H()/s.Ratio + top + bottom
}

// A Level is a choice of what stands beside the drawing and what goes on a
// sheet of its own. It is taken when the level before it does not fit, or when
// the scale becomes so many times as large.
type Level struct {
	Blocks, Rest []Block
	Later        []Block // for the next sheet of the room
	Gain         float64
	Overflow     bool // blocks that find no room go on with rest
	Must         int  // of an overflow: how many blocks, from the first on, have their place here
}

// measured are the level's blocks as they are set: what may go on to another sheet does so
// before its words are broken.
func (l Level) measured() []Block {
	if l.Overflow {
		return roomy(l.Blocks)
	}
	return measure(l.Blocks)
}

// Never is the gain of a level that is only for when nothing else fits.
const Never = 1e9

// arrange finds the largest scale at which everything has its place. The error
// says what the paper lacks.
func arrange(n Need) (Arrangement, error) {
	var found, tight Arrangement
	ok, broken := false, false
	for i, l := range n.Levels {
		if ok && found.Scale == n.Scales[0] {
			break
		}
		if l.Gain == Never && (ok || broken && l.Overflow) {
			continue
		}
		n.must = l.Must
		a, fits := n.best(l.measured(), l.Overflow)
		a.Level = i
		switch {
		case !fits:
		case a.tight:
			if !broken {
				tight, broken = a, true
			}
		case !ok || found.Scale.Ratio >= l.Gain*a.Scale.Ratio-sumSlack:
			found, ok = a, true
		}
	}
	if broken && (!ok || found.Scale.Ratio > wholeWorth*tight.Scale.Ratio) {
		return tight, nil
	}
	if !ok {
		return found, n.refusal()
	}
	return found, nil
}

// wholeWorth is how many times smaller a drawing may be for no word of a table beside it to be broken.
const wholeWorth = 1.4

// A Refusal says that a sheet cannot be drawn as the job's [sheet] asks.
type Refusal struct {
	Key     string // of the job file, whose value is in the way: "sheet.scale"
	Message string
}

// Error is the message as it is printed.
func (r *Refusal) Error() string { return r.Message }

// refusal says by how much the drawing is too large for the largest paper that
// was allowed.
func (n Need) refusal() error {
	s := n.Scales[len(n.Scales)-1]
	w, h := n.size(s)
	p := n.papers[len(n.papers)-1]
	f := p.Frame()
	key := "sheet.size"
	if len(n.Scales) == 1 {
		key = "sheet.scale"
	}
	return &Refusal{key, fmt.Sprintf("at %s the drawing takes %s with its dimensions, and the %s sheet "+
		"has %s inside its frame for the drawing, the title block and the notes; use a smaller scale or "+
		"a larger sheet",
		s.Name, say.PaperSize(w, h), p.Name, say.PaperSize(f.W(), f.H()))}
}

// best tries the scales, large to small, on every allowed paper. One at which
// words of a table are broken gives way to the next smaller, if that keeps them
// whole.
func (n Need) best(blocks []Block, overflow bool) (Arrangement, bool) {
	if overflow {
		return n.fullest(blocks)
	}
	var tight Arrangement
	kept := false
	for _, s := range n.Scales {
		var found Arrangement
		any := false
		if a, ok := n.at(s, blocks, overflow); ok {
			found, any = a, true
		}
		switch {
		case any && !found.tight:
			return found, true
		case kept:
			return tight, true
		case any:
			tight, kept = found, true
		}
	}
	return tight, kept
}

// at tries the allowed papers at one scale.
func (n Need) at(s drawing.Scale, blocks []Block, overflow bool) (found Arrangement, ok bool) {
	for _, p := range n.papers {
		if a, fits := n.on(p, s, blocks, overflow); fits && (!ok || a.better(found, overflow)) {
			found, ok = a, true
		}
	}
	return found, ok
}

// setWorth is what a larger scale is worth, as the share of all blocks that stand beside
// the drawing instead of on another sheet: of twice the scale.
const setWorth = 0.5

// fullest tries the scales for blocks that may go on to another sheet: the largest that the
// drawing has room at, or a smaller one where much more of them then stands beside it.
func (n Need) fullest(blocks []Block) (Arrangement, bool) {
	if n.must > 0 {
		return n.withMust(blocks)
	}
	all := 0.0
	for _, b := range blocks {
		all += b.Height(n.Ty, columnLeast)
	}
	var found Arrangement
	any := false
	for _, s := range n.Scales {
		if any && n.tooSmall(s) {
			return found, any
		}
		a, ok := n.at(s, blocks, true)
		switch {
		case !ok:
		case !any && !a.tight && a.all: // no smaller scale holds more
			return a, true
		case !any:
			found, any = a, true
		case a.Scale.Ratio > 2*found.Scale.Ratio+sumSlack:
			return found, any
		case found.tight && !a.tight, found.tight == a.tight &&
			a.set-found.set > setWorth*all*(a.Scale.Ratio/found.Scale.Ratio-1):
			found = a
		}
	}
	return found, any
}

func (n Need) tooSmall(s drawing.Scale) bool { return n.TooSmall != nil && n.TooSmall(s.Ratio) }

// mustWorth is how many times smaller a drawing may be for what must stand beside it.
const mustWorth = 1.6

// withMust tries the scales for blocks of which some must stand beside the drawing: the
// largest that holds them, if it is not much smaller than the drawing alone would have.
func (n Need) withMust(blocks []Block) (Arrangement, bool) {
	alone := math.Inf(1)
	for _, s := range n.Scales {
		if s.Ratio > mustWorth*alone || !math.IsInf(alone, 1) && n.tooSmall(s) {
			break
		}
		if math.IsInf(alone, 1) && slices.ContainsFunc(n.papers,
			func(p drawing.Paper) bool { return n.hasRoom(p, s) }) {
			alone = s.Ratio
		}
		if a, ok := n.at(s, blocks, true); ok && !a.tight {
			return a, true
		}
	}
	return Arrangement{}, false
}

// hasRoom reports whether the drawing has room on a paper at a scale.
func (n Need) hasRoom(p drawing.Paper, s drawing.Scale) bool {
	_, _, ok := n.onPaper(p, s).free(p, s)
	return ok
}

// on tries one paper and one scale: a column at the right, a strip below, or
// both, whichever leaves the larger field.
func (n Need) on(p drawing.Paper, s drawing.Scale, blocks []Block, overflow bool) (Arrangement, bool) {
	var found Arrangement
	any := false
	n = n.onPaper(p, s)
	freeW, freeH, ok := n.free(p, s)
	if !ok {
		return found, false
	}
	f := n.Half.of(p.Frame())
	w, h := n.field(s)
	var plain, beside []division
	for _, n.least = range leasts(n.Proof.small) {
		some, others := n.divisions(f, freeW, freeH)
		plain, beside = append(plain, some...), append(beside, others...)
	}
	for i, d := range append(plain, beside...) {
		if any && (i >= len(plain) || overflow && !found.tight && found.all) {
			break // a narrow title block is for when nothing else holds the blocks; and all of them is the most
		}
		a := n.divided(f, d)
		a.Paper, a.Scale, a.frame = p, s, f
		if a.Field.W() < w-sumSlack || a.Field.H() < h-sumSlack || a.proof.W() < checkRoom-sumSlack {
			continue
		}
		set := Flow
		if any && !overflow && !found.tight && found.pieces == len(blocks) { // nothing is broken there
			if a.worth(false) <= found.worth(false) {
				continue
			}
			set = pourWhole
		}
		n.least = d.least
		a.slots = n.slots(f, d, a)
		out, rest := set(n.Ty, blocks, a.slots)
		if len(rest) > 0 && (!overflow || !n.hasMust(blocks, a.slots)) {
			continue
		}
		a.set, a.pieces, a.all = 0, len(out), len(rest) == 0
		for _, b := range out {
			a.set += b.Block.Height(n.Ty, columnLeast)
			a.tight = a.tight || b.tight()
		}
		if !any || a.better(found, overflow) {
			found, any = a, true
		}
	}
	return found, any
}

// onPaper is a need with its title block and proof as a paper and a scale have them.
func (n Need) onPaper(p drawing.Paper, s drawing.Scale) Need {
	n.Proof.ratio = s.Ratio
	n.Title.Compact, n.Proof.small = IsSmall(p), IsSmall(p)
	n.Proof.none = n.Half.above()
	return n
}

// field is what the drawing takes: with the proof under it, but on small paper, where that has
// the whole width under the drawing and what is beside it.
func (n Need) field(s drawing.Scale) (w, h float64) {
	w, h = n.size(s)
	if !n.Proof.small {
		w = math.Max(w, checkRoom)
	}
	return w, h
}

// free is what the drawing leaves of a sheet, across and up; ok is false where it has no
// room.
func (n Need) free(p drawing.Paper, s drawing.Scale) (w, h float64, ok bool) {
	f := n.Half.of(p.Frame())
	w, h = n.field(s)
	w = f.W() - w - 2*fieldEdge
	h = f.H() - h - n.Proof.Height(n.Ty, f.W()-2*fieldEdge) - 2*fieldEdge
	return w, h, w >= 0 && h >= 0
}

// hasMust reports whether what must stand beside the drawing has room in the slots.
func (n Need) hasMust(blocks []Block, slots []drawing.Box) bool {
	if n.must == 0 {
		return true
	}
	_, rest := Flow(n.Ty, blocks[:n.must], slots)
	return len(rest) == 0
}

// leasts are the least widths of columns where there are several: on small paper a few
// wide ones hold tables that many narrow ones do not.
func leasts(small bool) []float64 {
	if small {
		return []float64{columnSmall, columnWide}
	}
	return []float64{columnLeast}
}

// A division is one way to divide a frame: a column beside the drawing, w wide with a title
// block tw wide under it, and a strip h high below, each where it is not 0; or, low, a strip
// over the title block with a column beside the drawing.
type division struct {
	low      bool
	w, h, tw float64
	least    float64 // width of a column where there are several
}

// divisions returns the ways to divide the frame, columns and strips in steps up to
// what is free beside the drawing: plain ones, and those in which a column runs
// down beside the title block.
func (n Need) divisions(f drawing.Box, freeW, freeH float64) (plain, beside []division) {
	for _, w := range steps(n.columnLeast(), freeW, cutStep) {
		heights := []float64{0}
		if w == freeW { // the widest column may be helped by a strip under the drawing
			heights = append(heights, steps(leastStrip, freeH, cutStep)...)
		}
		for _, h := range heights {
			plain = append(plain, division{w: w, h: h, tw: math.Min(w, TitleMax), least: n.least})
			if tw := n.besideFirst(w); tw >= TitleMin && tw < TitleMax {
				beside = append(beside, division{w: w, h: h, tw: tw, least: n.least})
			}
		}
	}
	least := n.titleHeight(math.Min(TitleMax, f.W())) // a strip is as high as its title block at least
	if n.Proof.small {
		freeH += n.Proof.Height(n.Ty, f.W()-2*fieldEdge)
	}
	for _, h := range steps(least, freeH, cutStep) {
		plain = append(plain, division{low: true, h: h, least: n.least})
		for _, w := range steps(n.least+2*fieldEdge, freeW, 10) {
			plain = append(plain, division{low: true, w: w, h: h, least: n.least})
		}
	}
	return plain, beside
}

// columnLeast is the least width of a column: that of the title block under it, if it has one.
func (n Need) columnLeast() float64 {
	if n.Half.above() {
		return n.least + 2*fieldEdge
	}
	return TitleMin
}

// steps returns the sizes from least to most in steps, most among them.
func steps(least, most, by float64) []float64 {
	var out []float64
	for v := least; v < most; v += by {
		out = append(out, v)
	}
	if least <= most {
		out = append(out, most)
	}
	return out
}

// besideFirst returns the width of a title block under columns w wide that lets
// the first of them run down beside it; 0 where there is one column.
func (n Need) besideFirst(w float64) float64 {
	if cols := n.columns(drawing.Box{X1: w - 2*fieldEdge}); len(cols) > 1 {
		return w - 2*fieldEdge - cols[0].X1
	}
	return 0
}

// divided gives the drawing and the title block their places in a division.
func (n Need) divided(f drawing.Box, d division) Arrangement {
	tw := d.tw
	if d.low {
		tw = math.Min(TitleMax, f.W())
	}
	a := Arrangement{title: drawing.Box{X0: f.X1 - tw, Y0: f.Y1 - n.titleHeight(tw), X1: f.X1, Y1: f.Y1}}
	if !d.low || !n.Proof.small {
		return n.withField(a, drawing.Box{X0: f.X0, Y0: f.Y0, X1: f.X1 - d.w, Y1: f.Y1 - d.h})
	}
	// the title block is as wide as small paper: the proof lies on it over the whole
	// width, and the strip over the proof
	in := f.Grow(-fieldEdge)
	if a.proof = (drawing.Box{X0: in.X0, Y0: f.Y1, X1: in.X1, Y1: f.Y1}); !n.Half.above() {
		a.proof.Y1 = a.title.Y0 - fieldEdge
		a.proof.Y0 = a.proof.Y1 - n.Proof.Height(n.Ty, in.W())
	}
	a.Field = drawing.Box{X0: in.X0, Y0: in.Y0, X1: f.X1 - d.w - fieldEdge, Y1: a.foot(f, d) - fieldEdge}
	return a
}

// foot is where what stands beside the drawing of a division with a strip ends on small
// paper.
func (a Arrangement) foot(f drawing.Box, d division) float64 {
	if a.proof.H() == 0 { // another drawing stands below
		return f.Y1 - d.h
	}
	return math.Min(a.proof.Y0-fieldEdge, f.Y1-d.h)
}

// slots returns the places for the blocks of a division.
func (n Need) slots(f drawing.Box, d division, a Arrangement) []drawing.Box {
	switch {
	case !d.low:
		return n.columnSlots(f, d, a)
	case n.Proof.small:
		return n.smallSlots(f, d, a)
	}
	return n.stripSlots(f, d, a)
}

// columnSlots are a column above and beside the title block, and a strip under the
// drawing.
func (n Need) columnSlots(f drawing.Box, d division, a Arrangement) []drawing.Box {
	cols := n.columns(drawing.Box{X0: f.X1 - d.w + fieldEdge, Y0: f.Y0 + fieldEdge, X1: f.X1 - fieldEdge,
		Y1: a.title.Y0 - fieldEdge})
	if cols[0].X1 <= a.title.X0-fieldEdge+sumSlack {
		cols[0].Y1 = f.Y1 - fieldEdge
	}
	if d.h > 0 {
		cols = append(cols, n.columns(drawing.Box{X0: f.X0 + fieldEdge, Y0: f.Y1 - d.h + fieldEdge,
			X1: f.X1 - d.w - fieldEdge, Y1: f.Y1 - fieldEdge})...)
	}
	return cols
}

// stripSlots are a column beside the drawing, and a strip below it with the title
// block at its right end.
func (n Need) stripSlots(f drawing.Box, d division, a Arrangement) []drawing.Box {
	var slots []drawing.Box
	if d.w > 0 {
		slots = n.columns(drawing.Box{X0: f.X1 - d.w + fieldEdge, Y0: f.Y0 + fieldEdge, X1: f.X1 - fieldEdge,
			Y1: math.Min(a.title.Y0, f.Y1-d.h) - fieldEdge})
	}
	below := drawing.Box{X0: f.X0 + fieldEdge, Y0: f.Y1 - d.h + fieldEdge, X1: a.title.X0 - fieldEdge,
		Y1: f.Y1 - fieldEdge}
	if below.W() >= leastBeside {
		slots = append(slots, n.columns(below)...)
	}
	if over := (drawing.Box{X0: math.Max(a.title.X0, f.X0+fieldEdge), Y0: f.Y1 - d.h + fieldEdge, X1: f.X1 - fieldEdge,
		Y1: a.title.Y0 - fieldEdge}); over.H() > leastPiece {
		slots = append(slots, n.columns(over)...)
	}
	return slots
}

// smallSlots are stripSlots on small paper.
func (n Need) smallSlots(f drawing.Box, d division, a Arrangement) []drawing.Box {
	var slots []drawing.Box
	in, foot := f.Grow(-fieldEdge), a.foot(f, d)
	if d.w > 0 {
		slots = n.columns(drawing.Box{X0: f.X1 - d.w + fieldEdge, Y0: in.Y0, X1: in.X1, Y1: foot})
	}
	if below := (drawing.Box{X0: in.X0, Y0: foot + fieldEdge, X1: in.X1,
		Y1: a.proof.Y0 - fieldEdge}); below.H() > leastPiece {
		slots = append(slots, n.columns(below)...)
	}
	return slots
}

// withField takes the proof strip off the bottom of the field.
func (n Need) withField(a Arrangement, field drawing.Box) Arrangement {
	inner := field.Grow(-fieldEdge)
	h := n.Proof.Height(n.Ty, inner.W())
	a.proof = drawing.Box{X0: inner.X0, Y0: inner.Y1 - h, X1: inner.X1, Y1: inner.Y1}
	a.Field = drawing.Box{X0: inner.X0, Y0: inner.Y0, X1: inner.X1, Y1: a.proof.Y0 - 2}
	return a
}

// columnLeast is the least width of a column when there are several, mm.
const (
	columnLeast  = 64
	columnSmall  = 48 // on small paper
	columnWide   = 76 // where a few wide ones are tried
	columnDetail = 52 // on sheets of details
)

// How a frame is cut up, mm.
const (
	cutStep     = 6  // from one column or strip that is tried to the next
	leastStrip  = 30 // the lowest strip under a drawing
	leastPiece  = 20 // a slot or part of a block that is worth its place
	leastBeside = 60 // the narrowest slot beside a title block
)

// ColumnsIn returns how many columns no narrower than least have room in a width with a gap from one to
// the next, but no more than most, and how wide each is; all mm on paper.
func ColumnsIn(width, least, gap float64, most int) (n int, each float64) {
	n = min(max(1, int((width+gap)/(least+gap))), max(1, most))
	return n, (width - float64(n-1)*gap) / float64(n)
}

// columns divides a box into columns of readable width.
func (n Need) columns(b drawing.Box) []drawing.Box {
	k, w := ColumnsIn(b.W(), n.least, colGap, math.MaxInt)
	out := make([]drawing.Box, k)
	for i := range out {
		x := b.X0 + float64(i)*(w+colGap)
		out[i] = drawing.Box{X0: x, Y0: b.Y0 + n.Ty.accents(), X1: x + w, Y1: b.Y1}
	}
	return out
}
