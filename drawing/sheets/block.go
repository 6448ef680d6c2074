package sheets

import (
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
	height(w float64) float64
	// set draws the block with its upper left corner at at.
	set(pg *page, at drawing.Pt, w float64)
}

// A splitter is a block that may go on in the next column or on the next
// sheet.
type splitter interface {
	block
	// split returns the part that fits into h and what is left. fits is nil
	// when not even the beginning does.
	split(w, h float64) (fits, rest block)
}

// A measured block remembers its height at the widths it was asked for: an
// arrangement tries the same few widths again and again.
type measured struct {
	block
	heights map[float64]float64
}

// measure wraps blocks so that they remember their heights.
func measure(blocks []block) []block {
	out := make([]block, len(blocks))
	for i, b := range blocks {
		out[i] = measured{b, map[float64]float64{}}
	}
	return out
}

func (m measured) height(w float64) float64 {
	h, ok := m.heights[w]
	if !ok {
		h = m.block.height(w)
		m.heights[w] = h
	}
	return h
}

// split lets the block inside split, if it can.
func (m measured) split(w, h float64) (fits, rest block) {
	if s, ok := m.block.(splitter); ok {
		return s.split(w, h)
	}
	return nil, m
}

// A list is a heading with paragraphs below it.
type list struct {
	head   string
	number int // number of the first paragraph; 0: not numbered
	paras  []string
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

func (l list) height(w float64) float64 {
	h := headingHeight(l.head, w)
	for _, p := range l.paras {
		h += l.para(p, w)
	}
	return h
}

func (l list) para(p string, w float64) float64 {
	return float64(len(wrap(p, note, w-l.indent())))*leading + paraSpace
}

func (l list) set(pg *page, at drawing.Pt, w float64) {
	y := at.Y
	y += setHeading(pg, at, l.head, w)
	for i, p := range l.paras {
		if l.number > 0 {
			pg.write(drawing.Pt{X: at.X + hanging - 2, Y: y + note}, itoa(l.number+i), note, drawing.End)
		}
		for _, line := range wrap(p, note, w-l.indent()) {
			pg.write(drawing.Pt{X: at.X + l.indent(), Y: y + note}, line, note, drawing.Start)
			y += leading
		}
		y += paraSpace
	}
}

func (l list) split(w, h float64) (fits, rest block) {
	used, n := headingHeight(l.head, w), 0
	for n < len(l.paras) && used+l.para(l.paras[n], w) <= h {
		used += l.para(l.paras[n], w)
		n++
	}
	if n == 0 {
		return nil, l
	}
	first, last := l, list{paras: l.paras[n:]}
	first.paras = l.paras[:n]
	if l.number > 0 {
		last.number = l.number + n
	}
	if len(last.paras) == 0 {
		return first, nil
	}
	if l.head != "" {
		last.head = continued(l.head)
	}
	return first, last
}

func continued(head string) string {
	if strings.HasSuffix(head, " (continued)") {
		return head
	}
	return head + " (continued)"
}

// headingHeight returns what a heading takes with the space below it.
func headingHeight(text string, w float64) float64 {
	if text == "" {
		return 0
	}
	n := len(wrapIn(fonts.LetteringBold, text, heading, w))
	return headRow + float64(n-1)*heading*1.6
}

// setHeading writes a heading and returns its height.
func setHeading(pg *page, at drawing.Pt, text string, w float64) float64 {
	if text == "" {
		return 0
	}
	y := at.Y + heading
	for _, l := range wrapIn(fonts.LetteringBold, text, heading, w) {
		pg.writeIn(fonts.LetteringBold, drawing.Pt{X: at.X, Y: y}, l, heading, drawing.Start)
		y += heading * 1.6
	}
	return headingHeight(text, w)
}

// wrap breaks text into lines no wider than w. A word that is wider than w is
// broken too, so that nothing ever runs off its column.
func wrap(text string, height, w float64) []string {
	return wrapIn(fonts.Lettering, text, height, w)
}

// wrapIn breaks text set in f. The faces have no kerning, so that the width of
// a line is the sum of its words.
func wrapIn(f fonts.Face, text string, height, w float64) []string {
	space := fonts.Width(f, " ", height)
	var lines []string
	var line strings.Builder
	used := 0.0
	for _, word := range strings.Fields(text) {
		for _, piece := range breakWord(f, word, height, w) {
			own := fonts.Width(f, piece, height)
			if line.Len() > 0 && used+space+own > w {
				lines = append(lines, line.String())
				line.Reset()
				used = 0
			}
			if line.Len() > 0 {
				line.WriteByte(' ')
				used += space
			}
			line.WriteString(piece)
			used += own
		}
	}
	if line.Len() > 0 || len(lines) == 0 {
		lines = append(lines, line.String())
	}
	return lines
}

// breakWord cuts a word into pieces no wider than w, each of one character at
// least.
func breakWord(f fonts.Face, word string, height, w float64) []string {
	if fonts.Width(f, word, height) <= w {
		return []string{word}
	}
	var pieces []string
	piece := ""
	for _, r := range word {
		if piece != "" && fonts.Width(f, piece+string(r), height) > w {
			pieces = append(pieces, piece)
			piece = ""
		}
		piece += string(r)
	}
	return append(pieces, piece)
}
