package setting

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/say"
)

// ListSheets sets blocks on as many sheets as they take, without a drawing: on
// those of the given papers, in wide columns or narrow ones, that take the
// fewest.
func ListSheets(p *layout.Plan, papers []drawing.Paper, id, title, kind string, blocks []Block) ([]*Page, error) {
	return ListIn(nil, p, papers, id, title, kind, blocks)
}

// Widths are the least widths of the columns on sheets without a drawing, mm: sheet by sheet, the last for all that
// follow.
type Widths []float64

// on is the least width of the columns on sheet i.
func (w Widths) on(i int) float64 { return w[min(i, len(w)-1)] }

// DetailWidths are for details, which fill the first of their sheets in narrow columns, as most are narrow; text that
// goes on after them is read more easily in wide ones, unless narrow ones save a sheet.
func DetailWidths() []Widths {
	return []Widths{{columnDetail, columnWide}, {columnDetail, columnDetail, columnWide}, {columnDetail}, {columnWide}}
}

// ListIn is ListSheets in columns of the first of some widths that take the fewest sheets; nil: of those that suit
// the paper.
func ListIn(tried []Widths, p *layout.Plan, papers []drawing.Paper, id, title, kind string,
	blocks []Block) ([]*Page, error) {
	var best []*Page
	var wrong error
	blocks = inBoth(blocks, NewTypesetter(p.Job.Language, p.Job.Also...), IsSmall(papers[0]))
	defer func() {
		for _, pg := range best { // only what is taken is drawn
			pg.drawList()
		}
	}()
	for _, paper := range papers {
		widths := tried
		if widths == nil {
			widths = usualWidths(paper)
		}
		for _, least := range widths {
			out, err := evenly(func(share float64) ([]*Page, error) {
				return listsOn(p, paper, least, share, id, title, kind, blocks)
			})
			if err == nil && (best == nil || len(out) < len(best)) {
				best = out
			}
			if wrong = err; len(best) == 1 {
				return best, nil
			}
		}
	}
	if best != nil {
		return best, nil
	}
	return nil, wrong
}

// usualWidths are such as are read with ease, and such as waste less beside narrow tables. A small
// sheet has no paper to spare.
func usualWidths(p drawing.Paper) []Widths {
	if p.Frame().W() < 260 {
		return []Widths{{columnWide}}
	}
	return []Widths{{110}, {80}}
}

// evenly sets sheets whose columns are full or, where the last would be nearly empty, so
// long as fills them all alike.
func evenly(set func(share float64) ([]*Page, error)) ([]*Page, error) {
	full, err := set(1)
	n := len(full)
	if err != nil || n < 2 || full[n-1].filled > 0.45 {
		return full, err
	}
	share := (float64(n-1) + full[n-1].filled) / float64(n)
	for _, more := range []float64{0.04, 0.09} {
		if even, err := set(share + more); err == nil && len(even) == n {
			return even, nil
		}
	}
	return full, nil
}

// listsOn sets blocks on as many sheets of one paper as they take, in columns no
// narrower than least and as long as a share of the sheet.
func listsOn(p *layout.Plan, paper drawing.Paper, least Widths, share float64, id, title, kind string,
	blocks []Block) ([]*Page, error) {
	var out []*Page
	for len(blocks) > 0 {
		pg := NewPage(p, paper)
		Retitle(pg, id, title, kind)
		n, rest := pg.setList(blocks, least.on(len(out)), share)
		if n == 0 {
			return nil, &Refusal{"sheet.size",
				fmt.Sprintf("%s: its tables do not fit on one sheet of %s, %s; use a larger sheet", title,
					paper.Name, say.PaperSize(paper.W, paper.H))}
		}
		out, blocks = append(out, pg), rest
	}
	return out, nil
}

// inSet are the sheets that stay with their set, by their IDs: its first sheet says whose job it is.
var inSet = []string{"details", "notes", "take-off"}

// signedID begins the IDs of test records, which have room for all signatures.
const signedID = "test-record"

// Retitle calls a sheet without a drawing something else.
func Retitle(pg *Page, id, title, kind string) {
	title = pg.Ty.Text(title)
	pg.Sheet.ID, pg.Sheet.Title, pg.Sheet.Description = id, title, title
	pg.Title = TitleFor(pg.Plan, title, kind)
	pg.Title.Paper, pg.Title.Compact = pg.Sheet.Paper.Name, IsSmall(pg.Sheet.Paper)
	small, err := PapersFor(pg.Plan.Job.Sheet, pg.Plan.Job.Figures().Units)
	pg.Title.Signed = strings.HasPrefix(id, signedID)
	pg.Title.Brief = slices.Contains(inSet, id) && err == nil && IsSmall(small[0])
}

// setList finds places for as many blocks as the sheet holds, in columns above and beside
// the title block, and returns how many have one and what is left.
func (pg *Page) setList(blocks []Block, least, share float64) (n int, left []Block) {
	f := pg.frame
	pg.Blocks = blocks
	w := min(TitleMax, f.W())
	pg.TitleAt = drawing.Box{X0: f.X1 - w, Y0: f.Y1 - pg.Title.Kept(pg.Ty, w), X1: f.X1, Y1: f.Y1}
	top := drawing.Box{X0: f.X0 + fieldEdge, Y0: f.Y0 + fieldEdge + pg.Ty.accents(), X1: f.X1 - fieldEdge,
		Y1: pg.TitleAt.Y0 - fieldEdge}
	n, top, blocks = pg.setWide(top, blocks)
	if least >= columnWide { // else a sheet with wider columns follows
		least = max(least, min(wholeWords(blocks), top.W()))
	}
	whole := pg.listColumns(top, least)
	wide, fitting := parted(blocks, whole[0].W())
	if least >= columnWide && len(fitting) == 0 { // no sheet has wider ones
		wide, fitting = nil, blocks
	}
	blocks = fitting
	cols := Levelled(pg.Ty, blocks, shortened(whole, share))
	placed, left := compose(pg.Ty, goingOn(blocks), cols)
	pg.list = append(pg.list, placed...)
	pg.filled = pg.shareOf(placed, whole)
	return n + len(placed), append(wide, left...)
}

// accents is what accents of a first heading's capitals reach above it: no English one has any.
func (ty *Typesetter) accents() float64 {
	if ty.Language == language.English && len(ty.also) == 0 {
		return 0
	}
	return 0.3
}

// drawList draws the frame of a sheet without a drawing, and the blocks in their places.
func (pg *Page) drawList() {
	pg.drawFrame()
	for _, b := range pg.list {
		b.Block.Set(pg, b.At, b.W)
	}
	pg.list = nil
}

// parted takes out the tables whose words a column would break: a sheet with wider ones follows.
func parted(blocks []Block, w float64) (wide, rest []Block) {
	for _, b := range blocks {
		if t, ok := b.(Table); ok && t.slimmest() > w+sumSlack {
			wide = append(wide, b)
			continue
		}
		rest = append(rest, b)
	}
	return wide, rest
}

// wholeWords is the least width at which no table in a column breaks a word.
func wholeWords(blocks []Block) float64 {
	w := 0.0
	for _, b := range blocks {
		if m, ok := b.(Measured); ok {
			b = m.Block
		}
		if t, ok := b.(Table); ok && !t.Span {
			w = max(w, t.slimmest()+sumSlack)
		}
	}
	return w
}

// shortened returns a share of columns, from their tops on.
func shortened(cols []drawing.Box, share float64) []drawing.Box {
	out := slices.Clone(cols)
	for i, c := range cols {
		out[i].Y1 = c.Y0 + share*c.H()
	}
	return out
}

// shareOf is how much of columns blocks take; 1 where there are none.
func (pg *Page) shareOf(blocks []placed, cols []drawing.Box) float64 {
	room, used := 0.0, 0.0
	for _, c := range cols {
		room += c.H()
	}
	for _, b := range blocks {
		used += b.Block.Height(pg.Ty, b.W) + BlockGap
	}
	if room <= 0 {
		return 1
	}
	return used / room
}

// Levelled returns columns no longer than the blocks need, so that these fill
// them alike; as they are where blocks have to be split or go on.
func Levelled(ty *Typesetter, blocks []Block, cols []drawing.Box) []drawing.Box {
	if short := shortestOf(ty, blocks, cols); short != nil {
		return short
	}
	return cols
}

// shortestOf returns columns just as long as all blocks take in one piece; nil
// where they do not fit so.
func shortestOf(ty *Typesetter, blocks []Block, cols []drawing.Box) []drawing.Box {
	blocks = measure(blocks)
	fit := func(cols []drawing.Box) bool {
		placed, left := Pour(ty, blocks, cols, true)
		return len(left) == 0 && len(placed) == len(blocks)
	}
	if !fit(cols) {
		return nil
	}
	const step = 5.0
	for h := step; ; h += step {
		short := slices.Clone(cols)
		for i, c := range cols {
			short[i].Y1 = min(c.Y1, c.Y0+h)
		}
		if fit(short) {
			return short
		}
	}
}

// wideGap is between blocks as wide as the sheet, mm: their rules part them already.
const wideGap = 3.0

// setWide finds places for the tables and lists that are as wide as the sheet, and returns how many,
// and what is left of the sheet and of the blocks. The first on a sheet is split
// wherever it must be.
func (pg *Page) setWide(top drawing.Box, blocks []Block) (int, drawing.Box, []Block) {
	n := 0
	for len(blocks) > 0 {
		if b := blocks[0]; spans(b) {
			if b.Height(pg.Ty, top.W()) > top.H() {
				return n, drawing.Box{}, blocks
			}
			pg.list = append(pg.list, placed{Block: b, At: drawing.Pt{X: top.X0, Y: top.Y0}, W: top.W()})
			n, blocks = n+1, blocks[1:]
			top.Y0 += b.Height(pg.Ty, top.W()) + wideGap
			continue
		}
		t, ok := blocks[0].(Table)
		if !ok || !t.Span {
			break
		}
		fits, rest := Block(t), Block(nil)
		if t.Height(pg.Ty, top.W()) > top.H() {
			least := 4
			if n == 0 {
				least = 1
			}
			fits, rest = t.most(pg.Ty, top.W(), top.H(), least)
		}
		if fits == nil {
			return n, drawing.Box{}, blocks
		}
		pg.list = append(pg.list, placed{Block: fits, At: drawing.Pt{X: top.X0, Y: top.Y0}, W: top.W()})
		n++
		top.Y0 += fits.Height(pg.Ty, top.W()) + wideGap
		if blocks = blocks[1:]; rest != nil {
			return n, drawing.Box{}, append([]Block{rest}, blocks...)
		}
	}
	return n, top, blocks
}

// A spanner is a block that is as wide as a sheet without a drawing.
type spanner interface{ Spans() bool }

// spans reports whether a block in one piece is as wide as the sheet.
func spans(b Block) bool {
	if l, ok := b.(List); ok {
		return l.Span
	}
	s, ok := b.(spanner)
	return ok && s.Spans()
}

// most is part with every sheet's columns as wide as its own rows need: more of
// them fit than at the widths of the whole table.
func (t Table) most(ty *Typesetter, w, h float64, least int) (fits, rest Block) {
	n := len(t.Rows)
	first := t
	for first.Rows = t.Rows[:n]; n > 0 && first.Height(ty, w) > h; first.Rows = t.Rows[:n] {
		n--
	}
	if left := len(t.Rows) - n; left > 0 && left < tableTail && n-(tableTail-left) >= least {
		n -= tableTail - left
	}
	switch {
	case n == len(t.Rows):
		return t, nil
	case n < least:
		return nil, t
	}
	first.Rows = t.Rows[:n]
	last := t
	last.Rows = t.Rows[n:]
	if t.Head != "" {
		last.Head = Continued(t.Head)
	}
	return first, last
}

// listColumns divides a sheet without a drawing into columns no narrower than
// least. A column that lies beside the title block reaches down to the frame.
func (pg *Page) listColumns(b drawing.Box, least float64) []drawing.Box {
	gap := 2 * colGap
	if IsSmall(pg.Sheet.Paper) {
		gap = colGap
	}
	n, w := ColumnsIn(b.W(), least, gap, math.MaxInt)
	out := make([]drawing.Box, n)
	for i := range out {
		x := b.X0 + float64(i)*(w+gap)
		out[i] = drawing.Box{X0: x, Y0: b.Y0, X1: x + w, Y1: b.Y1}
		if out[i].X1 <= pg.TitleAt.X0-fieldEdge && b.H() > 0 {
			out[i].Y1 = pg.frame.Y1 - fieldEdge
		}
	}
	return out
}
