package sheets

import (
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/fonts"
)

// Distances between the lines of a sheet's column, mm.
const (
	note     = drawing.H25
	heading  = drawing.H35
	leading  = 4.1 // baseline to baseline of note lettering
	pad      = 1.4 // lettering to a rule beside it
	blockGap = 5.0 // between blocks
	colGap   = 6.0 // between columns
)

// A block is a piece of a sheet's column: set in rows, never placed by hand.
type block interface {
	// height returns how much paper the block takes when it is w wide.
	height(ty *typesetter, w float64) float64
	// set draws the block with its upper left corner at at.
	set(pg *page, at drawing.Pt, w float64)
}

// A splitter is a block that may go on in the next column or on the next
// sheet.
type splitter interface {
	block
	// split returns the part that fits into h and what is left. fits is nil
	// when not even the beginning does.
	split(ty *typesetter, w, h float64) (fits, rest block)
}

// A measured block remembers its height at the widths it was asked for: an
// arrangement tries the same few widths again and again.
type measured struct {
	block
	heights map[float64]float64
}

// measure wraps blocks so that they remember their heights, and tables what
// their columns want.
func measure(blocks []block) []block {
	out := make([]block, len(blocks))
	for i, b := range blocks {
		if _, ok := b.(measured); ok {
			out[i] = b
			continue
		}
		if t, ok := b.(table); ok {
			t.wants = t.columnWants()
			b = t
		}
		out[i] = measured{b, map[float64]float64{}}
	}
	return out
}

func (m measured) height(ty *typesetter, w float64) float64 {
	h, ok := m.heights[w]
	if !ok {
		h = m.block.height(ty, w)
		m.heights[w] = h
	}
	return h
}

// split lets the block inside split, if it can.
func (m measured) split(ty *typesetter, w, h float64) (fits, rest block) {
	if s, ok := m.block.(splitter); ok {
		return s.split(ty, w, h)
	}
	return nil, m
}

// A list is a heading with paragraphs below it.
type list struct {
	head   string
	number int // number of the first paragraph; 0: not numbered
	bare   int // how many paragraphs at the end have no number
	paras  []string
	mute   bool // the heading is not set: what it heads goes on from the column beside
}

// shown is the heading as it is set.
func (l list) shown() string {
	if l.mute {
		return ""
	}
	return l.head
}

const (
	headRow   = 7.0 // a heading with the space below it
	hanging   = 6.0 // room for a number
	paraSpace = 1.0
)

func (l list) indent() float64 {
	if l.number > 0 {
		return hanging
	}
	return 0
}

func (l list) height(ty *typesetter, w float64) float64 {
	h := ty.headingHeight(l.shown(), w)
	for _, p := range l.paras {
		h += l.para(ty, p, w)
	}
	return h
}

func (l list) para(ty *typesetter, p string, w float64) float64 {
	return float64(ty.lines(fonts.Lettering, p, note, w-l.indent()))*leading + paraSpace
}

func (l list) set(pg *page, at drawing.Pt, w float64) {
	y := at.Y
	y += setHeading(pg, at, l.shown(), w)
	for i, p := range l.paras {
		if l.number > 0 && i < len(l.paras)-l.bare {
			pg.write(drawing.Pt{X: at.X + hanging - 2, Y: y + note}, itoa(l.number+i), note, drawing.End)
		}
		for _, line := range pg.ty.wrap(p, w-l.indent()) {
			pg.write(drawing.Pt{X: at.X + l.indent(), Y: y + note}, line, note, drawing.Start)
			y += leading
		}
		y += paraSpace
	}
}

func (l list) split(ty *typesetter, w, h float64) (fits, rest block) {
	used, n := ty.headingHeight(l.shown(), w), 0
	for n < len(l.paras) && used+l.para(ty, l.paras[n], w) <= h {
		used += l.para(ty, l.paras[n], w)
		n++
	}
	if n == len(l.paras) {
		return l, nil
	}
	if n = min(n, len(l.paras)-l.bare-1); n <= 0 { // what has no number does not go on alone
		return nil, l
	}
	first, last := l, l
	first.paras, first.bare, last.paras = l.paras[:n], 0, l.paras[n:]
	if l.number > 0 {
		last.number = l.number + n
	}
	if last.mute = false; l.head != "" {
		last.head = continued(l.head)
	}
	return first, last
}

// unheaded takes the heading off the rest of a list or a legend; tables keep
// theirs, over the heads of their columns.
func unheaded(b block) block {
	switch t := b.(type) {
	case list:
		t.mute = true
		return t
	case legend:
		t.mute = true
		return t
	}
	return b
}

func continued(head string) string {
	if strings.HasSuffix(head, " (continued)") {
		return head
	}
	return head + " (continued)"
}

func itoa(n int) string { return strconv.Itoa(n) }
