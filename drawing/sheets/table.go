package sheets

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/fonts"
)

// unbroken is the number of rows up to which a table stays in one piece.
const unbroken = 10

// tableTail is the number of rows that a table goes on with at least, where it
// is split.
const tableTail = 3

// rowHeight is the height of a table's row of one line, mm.
const rowHeight = 5.0

// align says how a column's entries stand.
type align int

const (
	left    align = iota
	decimal       // figures, right-aligned on the decimal point
	centred
)

// A column is one column of a table.
type column struct {
	head  string
	align align
	wraps bool    // takes what width the others leave, and breaks its lines
	least float64 // width that it is never below, mm: for entries made by hand
	group bool    // a vertical rule before it: a new group begins
}

// A cell is one entry. Strong is set in bold.
type cell struct {
	text   string
	strong bool
}

// A table is a heading, a row of column heads and rows of cells.
type table struct {
	head string
	cols []column
	rows [][]cell
	span bool    // as wide as the sheet, not as a column
	tall float64 // least height of a row, for tables to be filled in by hand; 0: rowHeight

	wants []columnWant // what its columns want, where that was worked out already
}

// A columnWant is the least width of a column at which no word is broken, and
// the width at which no line is.
type columnWant struct{ word, natural float64 }

// columnWants measures all columns.
func (t table) columnWants() []columnWant {
	if t.wants != nil {
		return t.wants
	}
	out := make([]columnWant, len(t.cols))
	for i := range out {
		out[i] = columnWant{t.word(i), t.natural(i)}
	}
	return out
}

// row makes plain cells.
func row(texts ...string) []cell {
	cells := make([]cell, len(texts))
	for i, t := range texts {
		cells[i].text = t
	}
	return cells
}

func (t table) least() float64 { return math.Max(t.tall, rowHeight) }

func (c cell) face() fonts.Face {
	if c.strong {
		return fonts.LetteringBold
	}
	return fonts.Lettering
}

// parts splits a figure at its decimal point, or a whole one before its unit; a
// word has no second part.
func parts(s string) (whole, rest string) {
	if i := strings.IndexByte(s, '.'); i >= 0 && i+1 < len(s) && s[i+1] >= '0' && s[i+1] <= '9' {
		return s[:i], s[i:]
	}
	if i := strings.IndexByte(s, ' '); i >= 0 && slices.Contains(unitWords, s[i+1:]) {
		return s[:i], s[i:]
	}
	return s, ""
}

// fractionWidth is the width right of the decimal point in column i.
func (t table) fractionWidth(i int) float64 {
	w := 0.0
	for _, r := range t.rows {
		_, f := parts(r[i].text)
		w = math.Max(w, fonts.Width(r[i].face(), f, note))
	}
	return w
}

// natural returns the width that column i wants: its head in two lines at
// most, its entries in one.
func (t table) natural(i int) float64 {
	w, frac := t.headWidth(i), 0.0
	if t.cols[i].align == decimal {
		frac = t.fractionWidth(i)
	}
	for _, r := range t.rows {
		text := r[i].text
		if t.cols[i].align == decimal {
			text, _ = parts(text)
		}
		w = math.Max(w, fonts.Width(r[i].face(), text, note)+frac)
	}
	return math.Max(w+2*pad, t.cols[i].least)
}

// headWidth returns the least width at which the head of column i takes no
// more than two lines.
func (t table) headWidth(i int) float64 {
	words := fields(t.cols[i].head)
	least := math.Inf(1)
	for k := range words {
		a := fonts.Width(fonts.Lettering, strings.Join(words[:k+1], " "), note)
		b := fonts.Width(fonts.Lettering, strings.Join(words[k+1:], " "), note)
		least = math.Min(least, math.Max(a, b))
	}
	if len(words) == 0 {
		return 0
	}
	return least + 0.01
}

// word returns the least width of column i at which no word is broken; of a
// column that does not wrap, what it wants.
func (t table) word(i int) float64 {
	if !t.cols[i].wraps {
		return t.natural(i)
	}
	w := 0.0
	for _, word := range fields(t.cols[i].head) {
		w = math.Max(w, fonts.Width(fonts.Lettering, word, note))
	}
	for _, r := range t.rows {
		for _, word := range fields(r[i].text) {
			w = math.Max(w, fonts.Width(r[i].face(), word, note))
		}
	}
	return math.Max(w+2*pad+0.02, t.cols[i].least)
}

// slimmest returns the least width at which no word is broken.
func (t table) slimmest() float64 {
	w := 0.0
	for _, c := range t.columnWants() {
		w += c.word
	}
	return w
}

// widths shares w among the columns. Each gets what keeps its words whole, and
// those that wrap share what is left by what they want, or alike where the rows
// come out lower so: a long note is to take lines before short names do. Where
// there is more than all want, they share it by that. Only where words cannot be
// kept whole all shrink alike.
func (t table) widths(ty *typesetter, w float64) []float64 {
	ws, wants := make([]float64, len(t.cols)), make([]float64, len(t.cols))
	want := 0.0
	for i, c := range t.columnWants() {
		ws[i] = c.word
		if t.cols[i].wraps {
			wants[i] = math.Max(c.natural-ws[i], 0)
			want += wants[i]
		}
	}
	left := w - sum(ws)
	switch {
	case left < 0:
		return scaled(ws, w/sum(ws))
	case want > left:
		byWant, alike := added(ws, scaled(wants, left/want)), added(ws, shared(wants, left))
		if t.lines(ty, alike) < t.lines(ty, byWant) {
			return alike
		}
		return byWant
	}
	return t.spread(ws, wants, left-want)
}

// shared gives everyone the same of left, but nobody more than is wanted.
func shared(wants []float64, left float64) []float64 {
	order := make([]int, len(wants))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(wants[a], wants[b]) })
	out := make([]float64, len(wants))
	for k, i := range order {
		out[i] = math.Min(wants[i], left/float64(len(order)-k))
		left -= out[i]
	}
	return out
}

// spread gives every column what it wants, and what is over to those that
// wrap, or to all where none does.
func (t table) spread(ws, wants []float64, over float64) []float64 {
	base := 0.0
	for i, c := range t.cols {
		ws[i] += wants[i]
		if c.wraps {
			base += ws[i]
		}
	}
	if base == 0 {
		return scaled(ws, 1+over/sum(ws))
	}
	for i, c := range t.cols {
		if c.wraps {
			ws[i] *= 1 + over/base
		}
	}
	return ws
}

// lines counts the lines of all rows.
func (t table) lines(ty *typesetter, ws []float64) int {
	n := 0
	for _, r := range t.rows {
		n += t.rowLines(ty, r, ws)
	}
	return n
}

func added(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] + b[i]
	}
	return out
}

func scaled(vs []float64, k float64) []float64 {
	out := make([]float64, len(vs))
	for i, v := range vs {
		out[i] = v * k
	}
	return out
}

func (t table) headLines(ty *typesetter, ws []float64) int {
	n := 0
	for i, c := range t.cols {
		if c.head != "" {
			n = max(n, ty.lines(fonts.Lettering, c.head, note, ws[i]-2*pad+0.01))
		}
	}
	return n
}

func (t table) rowLines(ty *typesetter, r []cell, ws []float64) int {
	n := 1
	for i := range r {
		n = max(n, ty.lines(r[i].face(), r[i].text, note, ws[i]-2*pad+0.01))
	}
	return n
}

func (t table) rowsHeight(ty *typesetter, r []cell, ws []float64) float64 {
	return math.Max(t.least(), rowHeight+float64(t.rowLines(ty, r, ws)-1)*leading)
}

func (t table) top(ty *typesetter, ws []float64) float64 {
	h := ty.headingHeight(t.head, sum(ws))
	if n := t.headLines(ty, ws); n > 0 {
		h += rowHeight + float64(n-1)*leading
	}
	return h
}

func (t table) height(ty *typesetter, w float64) float64 {
	ws := t.widths(ty, w)
	h := t.top(ty, ws)
	for _, r := range t.rows {
		h += t.rowsHeight(ty, r, ws)
	}
	return h
}

func (t table) split(ty *typesetter, w, h float64) (fits, rest block) {
	if len(t.rows) <= unbroken && t.height(ty, w) > h {
		return nil, t
	}
	return t.part(ty, w, h, 4)
}

// part splits off the rows that fit into h, when at least so many do.
func (t table) part(ty *typesetter, w, h float64, least int) (fits, rest block) {
	ws := t.widths(ty, w)
	used, n := t.top(ty, ws), 0
	for n < len(t.rows) && used+t.rowsHeight(ty, t.rows[n], ws) <= h {
		used += t.rowsHeight(ty, t.rows[n], ws)
		n++
	}
	if n < len(t.rows) && n < least {
		return nil, t
	}
	first, last := t, t
	first.rows, last.rows = t.rows[:n], t.rows[n:]
	if len(last.rows) == 0 {
		return first, nil
	}
	if n -= tableTail - len(last.rows); len(last.rows) < tableTail && n >= least {
		first.rows, last.rows = t.rows[:n], t.rows[n:]
	}
	if t.head != "" {
		last.head = continued(t.head)
	}
	return first, last
}

func (t table) set(pg *page, at drawing.Pt, w float64) {
	ty := pg.ty
	ws := t.widths(ty, w)
	y := at.Y
	y += setHeading(pg, at, t.head, w)
	top := y
	if n := t.headLines(ty, ws); n > 0 {
		y = t.setHead(pg, drawing.Pt{X: at.X, Y: y}, ws, n)
	}
	pg.rule(drawing.Pt{X: at.X, Y: y}, drawing.Pt{X: at.X + w, Y: y}, drawing.MediumLine())
	for i, r := range t.rows {
		if i > 0 {
			pg.rule(drawing.Pt{X: at.X, Y: y}, drawing.Pt{X: at.X + w, Y: y}, drawing.ThinLine())
		}
		t.setRow(pg, drawing.Pt{X: at.X, Y: y}, r, ws)
		y += t.rowsHeight(ty, r, ws)
	}
	pg.rule(drawing.Pt{X: at.X, Y: y}, drawing.Pt{X: at.X + w, Y: y}, drawing.MediumLine())
	x := at.X
	for i, c := range t.cols {
		if c.group && i > 0 {
			pg.rule(drawing.Pt{X: x, Y: top}, drawing.Pt{X: x, Y: y}, drawing.ThinLine())
		}
		x += ws[i]
	}
}

func (t table) setHead(pg *page, at drawing.Pt, ws []float64, lines int) float64 {
	x := at.X
	for i, c := range t.cols {
		ls := pg.ty.wrap(c.head, ws[i]-2*pad+0.01)
		y := at.Y + 3.7 + float64(lines-len(ls))*leading
		for _, l := range ls {
			p, a := stand(c.align, x, ws[i], y)
			pg.write(p, l, note, a)
			y += leading
		}
		x += ws[i]
	}
	return at.Y + rowHeight + float64(lines-1)*leading
}

// stand returns where a line of lettering stands in a column.
func stand(a align, x, w, y float64) (drawing.Pt, drawing.Anchor) {
	switch a {
	case decimal:
		return drawing.Pt{X: x + w - pad, Y: y}, drawing.End
	case centred:
		return drawing.Pt{X: x + w/2, Y: y}, drawing.Middle
	}
	return drawing.Pt{X: x + pad, Y: y}, drawing.Start
}

func (t table) setRow(pg *page, at drawing.Pt, r []cell, ws []float64) {
	x := at.X
	for i, c := range r {
		frac := 0.0
		if t.cols[i].align == decimal {
			frac = t.fractionWidth(i)
		}
		ls := pg.ty.wrapIn(c.face(), c.text, note, ws[i]-2*pad+0.01)
		for k, l := range ls {
			y := at.Y + 3.7 + float64(k)*leading
			p, a := stand(t.cols[i].align, x, ws[i], y)
			if t.cols[i].align == decimal && len(ls) == 1 {
				_, f := parts(l)
				p.X -= frac - fonts.Width(c.face(), f, note)
			}
			pg.writeIn(c.face(), p, l, note, a)
		}
		x += ws[i]
	}
}

func sum(vs []float64) float64 {
	n := 0.0
	for _, v := range vs {
		n += v
	}
	return n
}
