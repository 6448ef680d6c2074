package setting

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/fonts"
)

// wholeRows is the number of rows up to which a table stays in one piece.
const wholeRows = 10

// tableTail is the number of rows that a table goes on with at least, where it
// is split.
const tableTail = 3

// align says how a column's entries stand.
type align int

const (
	Left    align = iota
	Decimal       // figures, right-aligned on the decimal point
	Centred
)

// A Column is one column of a table.
type Column struct {
	Head  string
	Align align
	Wraps bool    // takes what width the others leave, and breaks its lines
	Least float64 // width that it is never below, mm: for entries made by hand
	Group bool    // a vertical rule before it: a new group begins
	also  string  // on small paper the head in the second of two languages, below it
}

// A Cell is one entry. Strong is set in bold.
type Cell struct {
	Text   string
	Strong bool
	also   string // on small paper the same in the second of two languages, below it
}

// A Table is a heading, a row of column heads and rows of cells. A row may have one cell more
// than there are columns: it is set below the others, as wide as the table.
type Table struct {
	Head string
	Cols []Column
	Rows [][]Cell
	Span bool    // as wide as the sheet, not as a column
	Tall float64 // least height of a row, for tables to be filled in by hand; 0: of one line
	Fine bool    // set in fine print
	// MayBeFine is that fine print will do on small paper, where it saves a sheet: nothing to work by on the knees.
	MayBeFine bool
	both      bool // it stands in both of two languages

	wants []columnWant  // what its columns want, where that was worked out already
	known *[]tableWidth // how it is set at the widths it was asked for; nil: that is not kept
}

// A tableWidth is how a table is set at a width, all in mm.
type tableWidth struct {
	w    float64
	cols []float64 // widths of the columns
	top  float64   // height of headings
	rows []float64 // heights
}

// at returns how the table is set at a width.
func (t Table) at(ty *Typesetter, w float64) tableWidth {
	if t.known != nil {
		for _, k := range slices.Backward(*t.known) {
			if k.w == w {
				return k
			}
		}
	}
	out := tableWidth{w: w, cols: t.widths(ty, w), rows: make([]float64, len(t.Rows))}
	out.top = t.top(ty, out.cols)
	for i, r := range t.Rows {
		out.rows[i] = t.rowsHeight(ty, r, out.cols)
	}
	if t.known != nil {
		*t.known = append(*t.known, out)
	}
	return out
}

// A columnWant is the least width of a column at which no word is broken, and
// the width at which no line is.
type columnWant struct{ word, natural float64 }

// columnWants measures all columns.
func (t Table) columnWants() []columnWant {
	if t.wants != nil {
		return t.wants
	}
	out := make([]columnWant, len(t.Cols))
	for i := range out {
		out[i] = columnWant{t.word(i), t.natural(i)}
	}
	return out
}

func (t Table) extent() int { return len(t.Rows) }

func (t Table) size() typeSize { return sizeOf(t.Fine) }

// FinePrint returns blocks with their tables that may be so in fine print; ok is false where there are none.
func FinePrint(blocks []Block) (fine []Block, ok bool) {
	fine = slices.Clone(blocks)
	for i, b := range fine {
		if t, is := Unmeasured(b).(Table); is && t.MayBeFine && !t.Fine {
			t.Fine, t.wants, t.known = true, nil, nil
			fine[i], ok = t, true
		}
	}
	return fine, ok
}

// PlainPrint returns blocks with their lists and tables in plain print; ok is false where all are.
func PlainPrint(blocks []Block) (plain []Block, ok bool) {
	plain = slices.Clone(blocks)
	for i, b := range plain {
		switch b := Unmeasured(b).(type) {
		case List:
			if b.Fine {
				b.Fine = false
				plain[i], ok = b, true
			}
		case Table:
			if b.Fine {
				b.Fine, b.wants, b.known = false, nil, nil
				plain[i], ok = b, true
			}
		}
	}
	return plain, ok
}

// Row makes plain cells.
func Row(texts ...string) []Cell {
	cells := make([]Cell, len(texts))
	for i, t := range texts {
		cells[i].Text = t
	}
	return cells
}

func (t Table) least() float64 { return math.Max(t.Tall, t.size().row) }

func (c Cell) face() fonts.Face {
	if c.Strong {
		return fonts.LetteringBold
	}
	return fonts.Lettering
}

// splitFigure splits a figure at its decimal point or comma, or a whole one before its unit; a
// word has no second part.
func splitFigure(s string) (whole, rest string) {
	if i := strings.IndexAny(s, ".,"); i >= 0 && i+1 < len(s) && s[i+1] >= '0' && s[i+1] <= '9' {
		return s[:i], s[i:]
	}
	if i := strings.IndexByte(s, ' '); i >= 0 && slices.Contains(unitWords, s[i+1:]) {
		return s[:i], s[i:]
	}
	return s, ""
}

// fractionWidth is the width right of the decimal point in column i.
func (t Table) fractionWidth(i int) float64 {
	w := 0.0
	for _, r := range t.Rows {
		_, f := splitFigure(r[i].Text)
		w = math.Max(w, fonts.Width(r[i].face(), f, t.size().height))
	}
	return w
}

// natural returns the width that column i wants: its head in two lines at
// most, its entries in one.
func (t Table) natural(i int) float64 {
	w, frac := t.headWidth(i), 0.0
	if t.Cols[i].Align == Decimal {
		frac = t.fractionWidth(i)
	}
	for _, r := range t.Rows {
		text := r[i].Text
		if t.Cols[i].Align == Decimal {
			text, _ = splitFigure(text)
		}
		w = math.Max(w, fonts.Width(r[i].face(), text, t.size().height)+frac)
		w = math.Max(w, fonts.Width(r[i].face(), r[i].also, fineSize.height))
	}
	return math.Max(w+2*Pad, t.Cols[i].Least)
}

// headWidth returns the least width at which the head of column i takes no
// more than two lines in each language.
func (t Table) headWidth(i int) float64 {
	w := twoLines(t.Cols[i].also, fineSize.height)
	for _, head := range strings.Split(t.Cols[i].Head, betweenBoth) {
		w = math.Max(w, twoLines(head, t.size().height))
	}
	return w
}

// twoLines is the least width at which a text takes no more than two lines.
func twoLines(text string, height float64) float64 {
	words := Fields(text)
	least := math.Inf(1)
	for k := range words {
		a := fonts.Width(fonts.Lettering, strings.Join(words[:k+1], " "), height)
		b := fonts.Width(fonts.Lettering, strings.Join(words[k+1:], " "), height)
		least = math.Min(least, math.Max(a, b))
	}
	if len(words) == 0 {
		return 0
	}
	return least + wordSlack
}

// word returns the least width of column i at which no word is broken; of a
// Column that does not wrap, what it wants.
func (t Table) word(i int) float64 {
	if !t.Cols[i].Wraps {
		return t.natural(i)
	}
	w := 0.0
	for _, word := range Fields(t.Cols[i].Head) {
		w = math.Max(w, fonts.Width(fonts.Lettering, word, t.size().height))
	}
	for _, word := range Fields(t.Cols[i].also) {
		w = math.Max(w, fonts.Width(fonts.Lettering, word, fineSize.height))
	}
	for _, r := range t.Rows {
		for _, word := range Fields(r[i].Text) {
			w = math.Max(w, fonts.Width(r[i].face(), word, t.size().height))
		}
		for _, word := range Fields(r[i].also) {
			w = math.Max(w, fonts.Width(r[i].face(), word, fineSize.height))
		}
	}
	return math.Max(w+2*Pad+0.02, t.Cols[i].Least)
}

// slimmest returns the least width at which no word is broken.
func (t Table) slimmest() float64 {
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
func (t Table) widths(ty *Typesetter, w float64) []float64 {
	ws, wants := make([]float64, len(t.Cols)), make([]float64, len(t.Cols))
	want := 0.0
	for i, c := range t.columnWants() {
		ws[i] = c.word
		if t.Cols[i].Wraps {
			wants[i] = math.Max(c.natural-ws[i], 0)
			want += wants[i]
		}
	}
	left := w - sum(ws)
	switch {
	case left < 0:
		return scaled(ws, w/sum(ws))
	case want > left:
		return t.fewestLines(ty, ws, wants, left)
	}
	return t.spread(ws, wants, left-want)
}

// fewestLines shares out what is left among columns that want more: by what they want, alike, or
// all they want to all but one.
func (t Table) fewestLines(ty *Typesetter, ws, wants []float64, left float64) []float64 {
	ways := [][]float64{scaled(wants, left/sum(wants)), shared(wants, left)}
	for i, want := range wants {
		if others := sum(wants) - want; want > 0 && others < left {
			way := slices.Clone(wants)
			way[i] = left - others
			ways = append(ways, way)
		}
	}
	best, least := []float64(nil), math.MaxInt
	for _, way := range ways {
		widths := added(ws, way)
		if n := t.lines(ty, widths, least); n < least {
			best, least = widths, n
		}
	}
	return best
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
func (t Table) spread(ws, wants []float64, over float64) []float64 {
	base := 0.0
	for i, c := range t.Cols {
		ws[i] += wants[i]
		if c.Wraps {
			base += ws[i]
		}
	}
	if base == 0 {
		return scaled(ws, 1+over/sum(ws))
	}
	for i, c := range t.Cols {
		if c.Wraps {
			ws[i] *= 1 + over/base
		}
	}
	return ws
}

// lines counts the lines of all rows, up to so many.
func (t Table) lines(ty *Typesetter, ws []float64, most int) int {
	n := 0
	for _, r := range t.Rows {
		if n += t.rowLines(ty, r, ws); n >= most {
			break
		}
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

// headHeight is the height of the highest head of a column, 0 where there is none.
func (t Table) headHeight(ty *Typesetter, ws []float64) float64 {
	h := 0.0
	for i, c := range t.Cols {
		if c.Head != "" {
			n := ty.Lines(fonts.Lettering, c.Head, t.size().height, ws[i]-2*Pad+wordSlack)
			h = math.Max(h, t.size().row+float64(n-1)*t.size().leading+alsoHeight(ty, fonts.Lettering, c.also, ws[i]))
		}
	}
	return h
}

// alsoHeight is what a text of the second language takes in a column, below that of the first.
func alsoHeight(ty *Typesetter, f fonts.Face, also string, w float64) float64 {
	if n := alsoLines(ty, f, also, w); n > 0 {
		return float64(n-1)*fineSize.leading + alsoDown - alsoFoot
	}
	return 0
}

// alsoDown is from the baseline of a text to that of its second language: room for a tail over an accent. alsoFoot is
// how much less small letters keep below them than large ones. Both mm.
const alsoDown, alsoFoot = 3.2, 0.3

func alsoLines(ty *Typesetter, f fonts.Face, also string, w float64) int {
	if also == "" {
		return 0
	}
	return ty.Lines(f, also, fineSize.height, w-2*Pad+wordSlack)
}

// setAlso sets a text of the second language in a column, its first baseline at y.
func setAlso(pg *Page, f fonts.Face, also string, a align, x, w, y float64) {
	for _, l := range pg.Ty.WrapIn(f, also, fineSize.height, w-2*Pad+wordSlack) {
		p, anchor := stand(a, x, w, y)
		pg.WriteIn(f, p, l, fineSize.height, anchor)
		y += fineSize.leading
	}
}

func (t Table) rowLines(ty *Typesetter, r []Cell, ws []float64) int {
	cells, under := t.cellsAndUnder(r)
	n := 1
	for i, c := range cells {
		n = max(n, t.cellLines(ty, c, ws[i])+alsoLines(ty, c.face(), c.also, ws[i]))
	}
	return n + t.underLines(ty, under, ws)
}

func (t Table) underLines(ty *Typesetter, under Cell, ws []float64) int {
	if under.Text == "" {
		return 0
	}
	return ty.Lines(under.face(), under.Text, t.size().height, sum(ws)-underIn-Pad)
}

// underIn is how far what stands below a row is set in, mm.
const underIn = 5.0

// cellsAndUnder parts a row from what stands below it.
func (t Table) cellsAndUnder(r []Cell) (cells []Cell, under Cell) {
	if len(r) > len(t.Cols) {
		return r[:len(t.Cols)], r[len(t.Cols)]
	}
	return r, under
}

func (t Table) cellLines(ty *Typesetter, c Cell, w float64) int {
	return ty.Lines(c.face(), c.Text, t.size().height, w-2*Pad+wordSlack)
}

// cellsHeight is the height of the highest of some cells.
func (t Table) cellsHeight(ty *Typesetter, cells []Cell, ws []float64) float64 {
	h := t.size().row
	for i, c := range cells {
		h = math.Max(h, t.size().row+float64(t.cellLines(ty, c, ws[i])-1)*t.size().leading+
			alsoHeight(ty, c.face(), c.also, ws[i]))
	}
	return h
}

func (t Table) rowsHeight(ty *Typesetter, r []Cell, ws []float64) float64 {
	cells, under := t.cellsAndUnder(r)
	return math.Max(t.least(), t.cellsHeight(ty, cells, ws)+float64(t.underLines(ty, under, ws))*t.size().leading)
}

func (t Table) top(ty *Typesetter, ws []float64) float64 {
	return ty.HeadingHeight(t.Head, sum(ws)) + t.headHeight(ty, ws)
}

// Height is what the table takes at a width of w, both mm of paper.
func (t Table) Height(ty *Typesetter, w float64) float64 {
	own := t.at(ty, w)
	h := own.top
	for _, row := range own.rows {
		h += row
	}
	return h
}

// Split parts the table so that what fits stays within h mm of paper at a width of w.
func (t Table) Split(ty *Typesetter, w, h float64) (fits, rest Block) {
	if t.whole() && t.Height(ty, w) > h {
		return nil, t
	}
	return t.splitAfter(ty, w, h, 4)
}

// whole reports whether a table stays in one piece.
func (t Table) whole() bool { return len(t.Rows) <= wholeRows }

// splitAfter splits off the rows that fit into h, when at least so many do.
func (t Table) splitAfter(ty *Typesetter, w, h float64, least int) (fits, rest Block) {
	own := t.at(ty, w)
	used, n := own.top, 0
	for n < len(t.Rows) && used+own.rows[n] <= h {
		used += own.rows[n]
		n++
	}
	if n < len(t.Rows) && n < least {
		return nil, t
	}
	first, last := t.unknown(), t.unknown()
	first.Rows, last.Rows = t.Rows[:n], t.Rows[n:]
	if len(last.Rows) == 0 {
		return first, nil
	}
	if n -= tableTail - len(last.Rows); len(last.Rows) < tableTail && n >= least {
		first.Rows, last.Rows = t.Rows[:n], t.Rows[n:]
	}
	if t.Head != "" {
		last.Head = Continued(t.Head)
	}
	return first, last
}

// remembered is a table that keeps how it is set at the widths it is asked for.
func (t Table) remembered() Table {
	t.known = &[]tableWidth{}
	return t
}

// unknown is a table of which nothing is known yet: part of its rows want other widths.
func (t Table) unknown() Table {
	if t.known != nil {
		return t.remembered()
	}
	return t
}

// Set draws the table from at, the upper left corner, w mm wide.
func (t Table) Set(pg *Page, at drawing.Pt, w float64) {
	ty, own := pg.Ty, t.at(pg.Ty, w)
	ws := own.cols
	y := at.Y
	y += SetHeading(pg, at, t.Head, w)
	top := y
	if h := t.headHeight(ty, ws); h > 0 {
		t.setHead(pg, drawing.Pt{X: at.X, Y: y}, ws, h)
		y += h
	}
	pg.rule(drawing.Pt{X: at.X, Y: y}, drawing.Pt{X: at.X + w, Y: y}, drawing.MediumLine())
	for i, r := range t.Rows {
		if i > 0 {
			pg.rule(drawing.Pt{X: at.X, Y: y}, drawing.Pt{X: at.X + w, Y: y}, drawing.ThinLine())
		}
		t.setRow(pg, drawing.Pt{X: at.X, Y: y}, r, ws)
		y += own.rows[i]
	}
	pg.rule(drawing.Pt{X: at.X, Y: y}, drawing.Pt{X: at.X + w, Y: y}, drawing.MediumLine())
	t.ruleGroups(pg, drawing.Pt{X: at.X, Y: top}, y, ws)
}

// ruleGroups draws the lines between groups of columns.
func (t Table) ruleGroups(pg *Page, at drawing.Pt, bottom float64, ws []float64) {
	x := at.X
	for i, c := range t.Cols {
		if c.Group && i > 0 {
			pg.rule(drawing.Pt{X: x, Y: at.Y}, drawing.Pt{X: x, Y: bottom}, drawing.ThinLine())
		}
		x += ws[i]
	}
}

// setHead sets the heads of the columns, each down to the rule below them.
func (t Table) setHead(pg *Page, at drawing.Pt, ws []float64, high float64) {
	x := at.X
	for i, c := range t.Cols {
		ls := pg.Ty.WrapIn(fonts.Lettering, c.Head, t.size().height, ws[i]-2*Pad+wordSlack)
		below := alsoHeight(pg.Ty, fonts.Lettering, c.also, ws[i])
		y := at.Y + high - below - t.size().row + t.size().first - float64(len(ls)-1)*t.size().leading
		for _, l := range ls {
			p, a := stand(c.Align, x, ws[i], y)
			pg.Write(p, l, t.size().height, a)
			y += t.size().leading
		}
		setAlso(pg, fonts.Lettering, c.also, c.Align, x, ws[i], y+alsoDown-t.size().leading)
		x += ws[i]
	}
}

// stand returns where a line of lettering stands in a column.
func stand(a align, x, w, y float64) (drawing.Pt, drawing.Anchor) {
	switch a {
	case Decimal:
		return drawing.Pt{X: x + w - Pad, Y: y}, drawing.End
	case Centred:
		return drawing.Pt{X: x + w/2, Y: y}, drawing.Middle
	}
	return drawing.Pt{X: x + Pad, Y: y}, drawing.Start
}

func (t Table) setRow(pg *Page, at drawing.Pt, r []Cell, ws []float64) {
	x := at.X
	cells, under := t.cellsAndUnder(r)
	if under.Text != "" {
		y := at.Y + t.cellsHeight(pg.Ty, cells, ws) - t.size().row + t.size().first + t.size().leading
		for k, l := range pg.Ty.WrapIn(under.face(), under.Text, t.size().height, sum(ws)-underIn-Pad) {
			pg.WriteIn(under.face(), drawing.Pt{X: at.X + underIn, Y: y + float64(k)*t.size().leading}, l,
				t.size().height, drawing.Start)
		}
	}
	for i, c := range cells {
		frac := 0.0
		if t.Cols[i].Align == Decimal {
			frac = t.fractionWidth(i)
		}
		ls := pg.Ty.WrapIn(c.face(), c.Text, t.size().height, ws[i]-2*Pad+wordSlack)
		for k, l := range ls {
			y := at.Y + t.size().first + float64(k)*t.size().leading
			p, a := stand(t.Cols[i].Align, x, ws[i], y)
			if t.Cols[i].Align == Decimal && len(ls) == 1 {
				_, f := splitFigure(l)
				p.X -= frac - fonts.Width(c.face(), f, t.size().height)
			}
			pg.WriteIn(c.face(), p, l, t.size().height, a)
		}
		setAlso(pg, c.face(), c.also, t.Cols[i].Align, x, ws[i],
			at.Y+t.size().first+float64(len(ls)-1)*t.size().leading+alsoDown)
		x += ws[i]
	}
}

// sum adds up.
func sum(vs []float64) float64 {
	n := 0.0
	for _, v := range vs {
		n += v
	}
	return n
}
