package setting

import (
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout/language"
)

// Distances between the lines of a sheet's column, mm.
const (
	Note     = drawing.H25
	Heading  = drawing.H35
	Leading  = 3.8 // baseline to baseline of note lettering
	FineLead = 2.8 // likewise of fine print
	Pad      = 1.4 // lettering to a rule beside it
	BlockGap = 3.2 // between blocks
	colGap   = 6.0 // between columns

	firstLine = 3.7  // from a row's top to the baseline of its first line
	sampleGap = 3.0  // from a sample in a legend or a key to its words
	wordSlack = 0.01 // that a word may be wider than its column, by rounding
	sumSlack  = 1e-9 // what sums lose to rounding
)

// A typeSize is how large lettering in rows is set, mm.
type typeSize struct {
	height  float64 // of capitals
	leading float64 // from line to line
	row     float64 // a table's row of one line
	first   float64 // from a row's top to the baseline of its first line
	indent  float64 // room for a paragraph's number
	space   float64 // after a paragraph
}

var (
	plainSize = typeSize{Note, Leading, 4.7, firstLine, 6, 1}
	fineSize  = typeSize{drawing.H18, FineLead, 3.3, 2.5, 4.4, 0.7}
)

// sizeOf returns fine print, for what figures rest on and is looked up at a desk, or plain.
func sizeOf(small bool) typeSize {
	if small {
		return fineSize
	}
	return plainSize
}

// A Block is a piece of a sheet's column: set in rows, never placed by hand.
type Block interface {
	// Height returns how much paper the block takes when it is w wide.
	Height(ty *Typesetter, w float64) float64
	// Set draws the block with its upper left corner at at.
	Set(pg *Page, at drawing.Pt, w float64)
}

// A splitter is a block that may go on in the next column or on the next
// sheet.
type splitter interface {
	Block
	// Split returns the part that fits into h and what is left. fits is nil
	// when not even the beginning does.
	Split(ty *Typesetter, w, h float64) (fits, rest Block)
	// extent is how many rows, paragraphs or signs there are to share out.
	extent() int
}

// A Measured block remembers its height at the widths it was asked for, and its pieces: an
// arrangement tries the same few again and again.
type Measured struct {
	Block
	memory *memory
	roomy  bool // a table goes elsewhere rather than where its words are broken
	goesOn bool // on another sheet, where a long list begins rather than here with one paragraph
}

// A memory is what a block was asked for.
type memory struct {
	heights []heightAt // few, and mostly the one asked for last
	pieces  map[int]pieces
	mute    Block // the block without its heading; nil: not asked for
}

// A heightAt is what a block takes at a width, both mm.
type heightAt struct{ w, h float64 }

// pieces are what fits of a block that is parted and what is left of it: by how much of it fits they are always
// the same.
type pieces struct{ fits, rest Block }

// remembering is a block that remembers what it is asked for from now on.
func remembering(b Block) Measured {
	return Measured{Block: b, memory: &memory{pieces: map[int]pieces{}}}
}

// like is a piece of m, which goes where m may.
func (m Measured) like(piece Block) Measured {
	out := remembering(piece)
	out.roomy, out.goesOn = m.roomy, m.goesOn
	return out
}

// roomy are measured blocks of which tables go elsewhere rather than into a column that
// breaks their words, and those without room go on to another sheet.
func roomy(blocks []Block) []Block {
	return measuredAs(blocks, func(m *Measured) { m.roomy, m.goesOn = true, true })
}

// goingOn are measured blocks of which those without room go on to another sheet.
func goingOn(blocks []Block) []Block {
	return measuredAs(blocks, func(m *Measured) { m.goesOn = true })
}

// measuredAs are measured blocks, each marked.
func measuredAs(blocks []Block, mark func(*Measured)) []Block {
	out := measure(blocks)
	for i := range out {
		m := out[i].(Measured)
		mark(&m)
		out[i] = m
	}
	return out
}

// tooHigh is the height of what has no place in a column, mm.
const tooHigh = 1e6

// squeezed reports whether a block would break words at width w, and must not.
func (m Measured) squeezed(w float64) bool {
	t, ok := m.Block.(Table)
	return m.roomy && ok && t.slimmest() > w+sumSlack
}

// measure wraps blocks so that they remember their heights, and tables what
// their columns want.
func measure(blocks []Block) []Block {
	out := make([]Block, len(blocks))
	for i, b := range blocks {
		if _, ok := b.(Measured); ok {
			out[i] = b
			continue
		}
		if t, ok := b.(Table); ok {
			t.wants = t.columnWants()
			b = t.remembered()
		}
		out[i] = remembering(b)
	}
	return out
}

// Height is what the block takes at a width of w, both mm of paper, tooHigh where it would be squeezed.
func (m Measured) Height(ty *Typesetter, w float64) float64 {
	if m.squeezed(w) {
		return tooHigh
	}
	known := m.memory.heights
	for i := len(known) - 1; i >= 0; i-- {
		if known[i].w == w {
			return known[i].h
		}
	}
	h := m.Block.Height(ty, w)
	m.memory.heights = append(known, heightAt{w, h})
	return h
}

// Split lets the block inside split, if it can.
func (m Measured) Split(ty *Typesetter, w, h float64) (fits, rest Block) {
	s, ok := m.Block.(splitter)
	if !ok || m.squeezed(w) {
		return nil, m
	}
	if t, ok := m.Block.(Table); ok && t.whole() && m.Height(ty, w) > h {
		return nil, m
	}
	fits, rest = s.Split(ty, w, h)
	if l, ok := fits.(List); ok && m.goesOn && len(l.Paras) == 1 && len(m.Block.(List).Paras) >= longList {
		return nil, m
	}
	switch {
	case fits == nil: // nothing is split off: what was measured holds
		return nil, m
	case rest == nil:
		return fits, nil
	}
	n := fits.(splitter).extent()
	known, ok := m.memory.pieces[n]
	if !ok {
		known = pieces{fits, m.like(rest)}
		m.memory.pieces[n] = known
	}
	return known.fits, known.rest
}

func (m Measured) extent() int { return m.Block.(splitter).extent() }

// A List is a heading with paragraphs below it.
type List struct {
	Head   string
	Number int // number of the first paragraph; 0: not numbered
	Bare   int // how many paragraphs at the end have no number
	Paras  []string
	Span   bool // as wide as a sheet without a drawing, not as a column
	Fine   bool // set in fine print
	mute   bool // the heading is not set: what it heads goes on from the column beside
	words  bool // a key of words in two languages, in one paragraph
}

// Shown is the heading as it is set.
func (l List) Shown() string {
	if l.mute {
		return ""
	}
	return l.Head
}

// longList is how many paragraphs a list has of which the first does not stand alone.
const longList = 4

// HeadRow is a heading with the space below it, mm.
const HeadRow = 7.0

func (l List) extent() int { return len(l.Paras) }

func (l List) size() typeSize { return sizeOf(l.Fine) }

func (l List) indent() float64 {
	if l.Number > 0 {
		return l.size().indent
	}
	return 0
}

// Height is what the list takes at a width of w, both mm of paper.
func (l List) Height(ty *Typesetter, w float64) float64 {
	h := ty.HeadingHeight(l.Shown(), w)
	for _, p := range l.Paras {
		h += l.para(ty, p, w)
	}
	return h
}

func (l List) para(ty *Typesetter, p string, w float64) float64 {
	lines := ty.Lines(fonts.Lettering, l.both(ty, p), l.size().height, w-l.indent())
	return float64(lines)*l.size().leading + l.size().space
}

// both is a paragraph in both languages; a key of words is so already.
func (l List) both(ty *Typesetter, p string) string {
	if l.words {
		return p
	}
	return ty.Both(p)
}

// Set draws the list from at, the upper left corner, w mm wide.
func (l List) Set(pg *Page, at drawing.Pt, w float64) {
	y, pr := at.Y, l.size()
	y += SetHeading(pg, at, l.Shown(), w)
	for i, p := range l.Paras {
		if l.Number > 0 && i < len(l.Paras)-l.Bare {
			pg.Write(drawing.Pt{X: at.X + pr.indent - 2*pr.height/Note, Y: y + pr.height}, strconv.Itoa(l.Number+i),
				pr.height, drawing.End)
		}
		for _, line := range pg.Ty.WrapIn(fonts.Lettering, l.both(pg.Ty, p), pr.height, w-l.indent()) {
			pg.Write(drawing.Pt{X: at.X + l.indent(), Y: y + pr.height}, line, pr.height, drawing.Start)
			y += pr.leading
		}
		y += pr.space
	}
}

// Split parts the list so that what fits stays within h mm of paper at a width of w.
func (l List) Split(ty *Typesetter, w, h float64) (fits, rest Block) {
	used, n := ty.HeadingHeight(l.Shown(), w), 0
	for n < len(l.Paras) {
		para := l.para(ty, l.Paras[n], w)
		if used+para > h {
			break
		}
		used += para
		n++
	}
	if n == len(l.Paras) {
		return l, nil
	}
	if n = min(n, len(l.Paras)-l.Bare-1); n <= 0 { // what has no number does not go on alone
		return nil, l
	}
	return l.Parted(n)
}

// Parted parts the list after so many paragraphs.
func (l List) Parted(n int) (first, last List) {
	first, last = l, l
	first.Paras, first.Bare, last.Paras = l.Paras[:n], 0, l.Paras[n:]
	if l.Number > 0 {
		last.Number = l.Number + n
	}
	if last.mute = false; l.Head != "" {
		last.Head = Continued(l.Head)
	}
	return first, last
}

// unheaded takes the heading off the rest of a list or a legend; tables keep
// theirs, over the heads of their columns.
func unheaded(b Block) Block {
	switch t := b.(type) {
	case Measured:
		if t.memory.mute == nil {
			t.memory.mute = t.like(unheaded(t.Block))
		}
		return t.memory.mute
	case List:
		t.mute = true
		return t
	case Legend:
		t.mute = true
		return t
	}
	return b
}

// Unmeasured returns the block itself where it remembers its heights.
func Unmeasured(b Block) Block {
	m, ok := b.(Measured)
	if !ok {
		return b
	}
	if t, ok := m.Block.(Table); ok {
		t.known = nil
		return t
	}
	return m.Block
}

// Of heads a block of a sheet that stands on another: notes always, whatever else there is
// where all is true, by the name of its sheet.
func Of(b Block, sheet string, all bool, l language.Language) Block {
	head := func(own string) string {
		if own != "" && (all || strings.HasPrefix(own, l.Text("Notes"))) {
			return l.Textf("%s: %s", sheet, l.Within(own))
		}
		return own
	}
	switch b := Unmeasured(b).(type) {
	case List:
		b.Head = head(b.Head)
		return b
	case Table:
		b.Head = head(b.Head)
		return b
	case Chart:
		b.Head = head(b.Head)
		return b
	}
	return b
}

// continued ends the heading of what goes on.
const (
	continuedMark = "(continued)"
	continued     = " " + continuedMark
)

// Continued is the heading of what goes on in the next column or on the next sheet.
func Continued(head string) string {
	return strings.TrimSuffix(head, continued) + continued
}
