package sheets

import (
	"fmt"
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/layout/plane"
)

// An arrangement is how a sheet's frame is shared out: the field for the
// drawing, slots for the blocks, and the title block at the lower right.
type arrangement struct {
	paper drawing.Paper
	scale drawing.Scale
	field drawing.Box // for the drawing, the proof strip left out
	proof drawing.Box
	title drawing.Box
	slots []drawing.Box
	level int     // which of the need's levels stands in the slots
	set   float64 // how high the blocks in them would stand in one narrow column, mm
	tight bool    // a table in them is too narrow for its words
	parts int     // in how many pieces the blocks are set
}

// worth is what arrangements at one scale are compared by: the field or, where
// blocks may go on to another sheet, how much of them stays on this one.
func (a arrangement) worth(overflow bool) float64 {
	if overflow {
		return a.set
	}
	return a.field.W() * a.field.H()
}

// better reports whether a is to be taken rather than b, at one scale: words
// stay whole before anything else, then blocks.
func (a arrangement) better(b arrangement, overflow bool) bool {
	if a.tight != b.tight {
		return b.tight
	}
	if !overflow && a.parts != b.parts {
		return a.parts < b.parts
	}
	return a.worth(overflow) > b.worth(overflow)
}

// A placed block is a block with its place.
type placed struct {
	block block
	at    drawing.Pt
	w     float64
	of    int // which of the blocks it is, or is a piece of
}

// tight reports whether a block is a table set so narrow that words are broken.
func (p placed) tight() bool {
	b := p.block
	if m, ok := b.(measured); ok {
		b = m.block
	}
	t, ok := b.(table)
	return ok && t.slimmest() > p.w+1e-9
}

// flow puts blocks into slots one after the other. What does not fit is
// returned as rest, in order. Blocks are only split where they would not all
// fit otherwise.
func flow(ty *typesetter, blocks []block, slots []drawing.Box) (out []placed, rest []block) {
	if out, rest = pourWhole(ty, blocks, slots); len(rest) == 0 {
		return out, rest
	}
	return pour(ty, blocks, slots, false)
}

func pourWhole(ty *typesetter, blocks []block, slots []drawing.Box) (out []placed, rest []block) {
	return pour(ty, blocks, slots, true)
}

// pour is flow with a choice: whole keeps every block in one piece that fits
// into one slot. A block that fits into the white left at the foot of an earlier
// slot goes there.
func pour(ty *typesetter, blocks []block, slots []drawing.Box, whole bool) (out []placed, rest []block) {
	slots = tallEnough(slots)
	if len(slots) == 0 {
		return nil, blocks
	}
	free := slices.Clone(slots)
	i := 0
	put := func(k int, b block, of int) {
		s := free[k]
		out = append(out, placed{b, drawing.Pt{X: s.X0, Y: s.Y0}, s.W(), of})
		free[k].Y0 += b.height(ty, s.W()) + blockGap
	}
	for of, b := range blocks {
		if k := slices.IndexFunc(free[:i], func(s drawing.Box) bool { return b.height(ty, s.W()) <= s.H() }); k >= 0 {
			put(k, b, of)
			continue
		}
		for b != nil {
			fits, left := cut(ty, b, free[i].W(), free[i].H())
			if whole && fits != nil && left != nil && i < len(slots)-1 && b.height(ty, slots[i+1].W()) <= slots[i+1].H() {
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
	return math.Abs(a.Y0-b.Y0) < 1e-9 && b.X0 > a.X1 && b.X0-a.X1 <= 2*colGap+1e-9
}

// covered reports whether another slot lies straight above one: what goes on there
// without a heading would seem to belong to it.
func covered(b drawing.Box, slots []drawing.Box) bool {
	return slices.ContainsFunc(slots, func(s drawing.Box) bool {
		return s.Y1 <= b.Y0 && s.X0 < b.X1 && b.X0 < s.X1
	})
}

// cut returns as much of a block as fits into h, and what is left of it.
func cut(ty *typesetter, b block, w, h float64) (fits, left block) {
	if b.height(ty, w) <= h+1e-9 {
		return b, nil
	}
	if s, ok := b.(splitter); ok && h > 20 {
		return s.split(ty, w, h)
	}
	return nil, b
}

// tallEnough drops slots too low for anything but a heading.
func tallEnough(slots []drawing.Box) []drawing.Box {
	var out []drawing.Box
	for _, s := range slots {
		if s.H() > 2*headRow {
			out = append(out, s)
		}
	}
	return out
}

// edge is the white kept between the frame and what is inside it.
const edge = 5.0

// A need is what a drawing takes of its sheet.
type need struct {
	bounds plane.Rect // mm of floor
	// border is what stands round it, mm on paper, at a scale
	border func(ratio float64) (left, right, top, bottom float64)
	proof  proof      // without its ratio
	title  titleBlock // without its scale and paper
	levels []level    // what the column has to hold, fullest first
	scales []drawing.Scale
	papers []drawing.Paper
	ty     *typesetter
	titles map[titleKey]float64 // heights of the title block asked for before
	least  float64              // width of a column where there are several
}

type titleKey struct {
	compact bool
	w       float64
}

// titleHeight returns the height of the title block at a width.
func (n need) titleHeight(w float64) float64 {
	key := titleKey{n.title.compact, w}
	h, ok := n.titles[key]
	if !ok {
		h = n.title.height(n.ty, w)
		n.titles[key] = h
	}
	return h
}

// size returns the field that the drawing takes at a scale.
func (n need) size(s drawing.Scale) (w, h float64) {
	left, right, top, bottom := n.border(s.Ratio)
	return n.bounds.W()/s.Ratio + left + right, n.bounds.H()/s.Ratio + top + bottom
}

// A level is a choice of what stands beside the drawing and what goes on a
// sheet of its own. It is taken when the level before it does not fit, or when
// the scale becomes so many times as large.
type level struct {
	blocks, rest []block
	later        []block // for the next sheet of the room
	gain         float64
	overflow     bool // blocks that find no room go on with rest
}

// never is the gain of a level that is only for when nothing else fits.
const never = 1e9

// arrange finds the largest scale at which everything has its place. The error
// says what the paper lacks.
func arrange(n need) (arrangement, error) {
	var found arrangement
	ok := false
	for i, l := range n.levels {
		if ok && found.scale == n.scales[0] {
			break
		}
		if ok && l.gain == never {
			continue
		}
		a, fits := n.best(measure(l.blocks), l.overflow)
		if fits && (!ok || found.scale.Ratio >= l.gain*a.scale.Ratio-1e-9) {
			found, ok = a, true
			found.level = i
		}
	}
	if !ok {
		return found, n.refusal()
	}
	return found, nil
}

// A Refusal says that a sheet cannot be drawn as the job's [sheet] asks.
type Refusal struct {
	Key     string // of the job file, whose value is in the way: "sheet.scale"
	Message string
}

func (r *Refusal) Error() string { return r.Message }

// refusal says by how much the drawing is too large for the largest paper that
// was allowed.
func (n need) refusal() error {
	s := n.scales[len(n.scales)-1]
	w, h := n.size(s)
	p := n.papers[len(n.papers)-1]
	f := p.Frame()
	key := "sheet.size"
	if len(n.scales) == 1 {
		key = "sheet.scale"
	}
	return &Refusal{key, fmt.Sprintf("at %s the drawing takes %.0f x %.0f mm with its dimensions, and the %s sheet has %.0f x %.0f mm inside its frame for the drawing, the title block and the notes; use a smaller scale or a larger sheet",
		s.Name, w, h, p.Name, f.W(), f.H())}
}

// best tries the scales, large to small, on every allowed paper. One at which
// words of a table are broken gives way to the next smaller, if that keeps them
// whole.
func (n need) best(blocks []block, overflow bool) (arrangement, bool) {
	var tight arrangement
	kept := false
	for _, s := range n.scales {
		var found arrangement
		any := false
		for _, p := range n.papers {
			if a, ok := n.on(p, s, blocks, overflow); ok && (!any || a.better(found, overflow)) {
				found, any = a, true
			}
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

// on tries one paper and one scale: a column at the right, a strip below, or
// both, whichever leaves the larger field.
func (n need) on(p drawing.Paper, s drawing.Scale, blocks []block, overflow bool) (arrangement, bool) {
	var found arrangement
	any := false
	f := p.Frame()
	w, h := n.size(s)
	n.proof.ratio = s.Ratio
	n.least = columnLeast
	if n.title.compact = isSmall(p); n.title.compact {
		n.least = columnSmall
	}
	w = math.Max(w, checkRoom)
	freeW := f.W() - w - 2*edge
	freeH := f.H() - h - n.proof.height(n.ty, f.W()-2*edge) - 2*edge
	if freeW < 0 || freeH < 0 {
		return found, false
	}
	plain, beside := n.cuts(f, freeW, freeH)
	for i, cut := range append(plain, beside...) {
		if any && i >= len(plain) {
			break // a narrow title block is for when nothing else holds the blocks
		}
		a := cut
		a.paper, a.scale = p, s
		if a.field.W() < w-1e-9 || a.field.H() < h-1e-9 {
			continue
		}
		set := flow
		if any && !overflow && !found.tight && found.parts == len(blocks) { // nothing is broken there
			if a.worth(false) <= found.worth(false) {
				continue
			}
			set = pourWhole
		}
		out, rest := set(n.ty, blocks, a.slots)
		if len(rest) > 0 && !overflow {
			continue
		}
		a.set, a.parts = 0, len(out)
		for _, b := range out {
			a.set += b.block.height(n.ty, columnLeast)
			a.tight = a.tight || b.tight()
		}
		if !any || a.better(found, overflow) {
			found, any = a, true
		}
	}
	return found, any
}

// cuts returns the ways to divide the frame, columns and strips in steps up to
// what is free beside the drawing: plain ones, and those in which a column runs
// down beside the title block.
func (n need) cuts(f drawing.Box, freeW, freeH float64) (plain, beside []arrangement) {
	for _, w := range steps(titleMin, freeW, 6) {
		heights := []float64{0}
		if w == freeW { // the widest column may be helped by a strip under the drawing
			heights = append(heights, steps(30, freeH, 6)...)
		}
		for _, h := range heights {
			plain = append(plain, n.column(f, w, h, math.Min(w, titleMax)))
			if tw := n.besideFirst(w); tw >= titleMin && tw < titleMax {
				beside = append(beside, n.column(f, w, h, tw))
			}
		}
	}
	least := n.titleHeight(math.Min(titleMax, f.W())) // a strip is as high as its title block at least
	for _, h := range steps(least, freeH, 6) {
		plain = append(plain, n.strip(f, h, 0))
		for _, w := range steps(n.least+2*edge, freeW, 10) {
			plain = append(plain, n.strip(f, h, w))
		}
	}
	return plain, beside
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
func (n need) besideFirst(w float64) float64 {
	if cols := n.columns(drawing.Box{X1: w - 2*edge}); len(cols) > 1 {
		return w - 2*edge - cols[0].X1
	}
	return 0
}

// column gives the drawing the left of the frame and the blocks the right, w
// wide, above and beside the title block, which is tw wide, and a strip h high
// under the drawing when h is not 0.
func (n need) column(f drawing.Box, w, h, tw float64) arrangement {
	title := drawing.Box{X0: f.X1 - tw, Y0: f.Y1 - n.titleHeight(tw), X1: f.X1, Y1: f.Y1}
	a := arrangement{title: title}
	if h > 0 {
		a.slots = n.columns(drawing.Box{X0: f.X0 + edge, Y0: f.Y1 - h + edge, X1: f.X1 - w - edge, Y1: f.Y1 - edge})
	}
	side := drawing.Box{X0: f.X1 - w + edge, Y0: f.Y0 + edge, X1: f.X1 - edge, Y1: title.Y0 - edge}
	cols := n.columns(side)
	if cols[0].X1 <= title.X0-edge+1e-9 {
		cols[0].Y1 = f.Y1 - edge
	}
	a.slots = append(cols, a.slots...)
	return n.withField(a, drawing.Box{X0: f.X0, Y0: f.Y0, X1: f.X1 - w, Y1: f.Y1 - h})
}

// strip gives the drawing the top of the frame and the blocks a strip below,
// h high, with the title block at its right end, and a column w wide at the
// right when w is not 0.
func (n need) strip(f drawing.Box, h, w float64) arrangement {
	tw := math.Min(titleMax, f.W())
	title := drawing.Box{X0: f.X1 - tw, Y0: f.Y1 - n.titleHeight(tw), X1: f.X1, Y1: f.Y1}
	a := arrangement{title: title}
	if w > 0 {
		a.slots = n.columns(drawing.Box{X0: f.X1 - w + edge, Y0: f.Y0 + edge, X1: f.X1 - edge, Y1: math.Min(title.Y0, f.Y1-h) - edge})
	}
	below := drawing.Box{X0: f.X0 + edge, Y0: f.Y1 - h + edge, X1: title.X0 - edge, Y1: f.Y1 - edge}
	if below.W() >= 60 {
		a.slots = append(a.slots, n.columns(below)...)
	}
	if over := (drawing.Box{X0: math.Max(title.X0, f.X0+edge), Y0: f.Y1 - h + edge, X1: f.X1 - edge, Y1: title.Y0 - edge}); over.H() > 20 {
		a.slots = append(a.slots, n.columns(over)...)
	}
	return n.withField(a, drawing.Box{X0: f.X0, Y0: f.Y0, X1: f.X1 - w, Y1: f.Y1 - h})
}

// withField takes the proof strip off the bottom of the field.
func (n need) withField(a arrangement, field drawing.Box) arrangement {
	inner := field.Grow(-edge)
	h := n.proof.height(n.ty, inner.W())
	a.proof = drawing.Box{X0: inner.X0, Y0: inner.Y1 - h, X1: inner.X1, Y1: inner.Y1}
	a.field = drawing.Box{X0: inner.X0, Y0: inner.Y0, X1: inner.X1, Y1: a.proof.Y0 - 2}
	return a
}

// columnLeast is the least width of a column when there are several, mm.
const (
	columnLeast = 64
	columnSmall = 48 // on small paper
)

// columns divides a box into columns of readable width.
func (n need) columns(b drawing.Box) []drawing.Box {
	k := int(math.Max(1, math.Floor((b.W()+colGap)/(n.least+colGap))))
	w := (b.W() - float64(k-1)*colGap) / float64(k)
	out := make([]drawing.Box, k)
	for i := range out {
		x := b.X0 + float64(i)*(w+colGap)
		out[i] = drawing.Box{X0: x, Y0: b.Y0, X1: x + w, Y1: b.Y1}
	}
	return out
}
