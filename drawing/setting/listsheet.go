package setting

import (
	"fmt"
	"slices"

	"oxturn/drawing"
	"oxturn/layout"
)

// ListSheets sets blocks on as many sheets as they take, without a drawing: on
// those of the given papers, in wide columns or narrow ones, that take the
// fewest.
func ListSheets(p *layout.Plan, papers []drawing.Paper, id, title, kind string, blocks []Block) ([]*Page, error) {
	var best []*Page
	var wrong error
	for _, paper := range papers {
		if wide(blocks) && paper.W < WideLeast {
			paper = paper.Landscape()
		}
		for _, least := range columnLeasts(paper) {
			out, err := listsOn(p, paper, least, id, title, kind, blocks)
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

// columnLeasts are the least widths of a column on sheets without a drawing, mm:
// such as are read with ease, and such as waste less beside narrow tables. A small
// sheet has no paper to spare.
func columnLeasts(p drawing.Paper) []float64 {
	if p.Frame().W() < 260 {
		return []float64{76}
	}
	return []float64{110, 80}
}

// listsOn sets blocks on as many sheets of one paper as they take, in columns no
// narrower than least.
func listsOn(p *layout.Plan, paper drawing.Paper, least float64, id, title, kind string, blocks []Block) ([]*Page,
	error) {
	var out []*Page
	for len(blocks) > 0 {
		pg := NewPage(p, paper)
		pg.Sheet.ID, pg.Sheet.Title, pg.Sheet.Description = id, title, title
		pg.Title = TitleFor(p, title, kind)
		pg.Title.Paper, pg.Title.Compact = paper.Name, IsSmall(paper)
		n, rest := pg.setList(blocks, least)
		if n == 0 {
			return nil, &Refusal{"sheet.size",
				fmt.Sprintf("%s: its tables do not fit on one sheet of %s, %.0f x %.0f mm; use a larger sheet", title,
					paper.Name, paper.W, paper.H)}
		}
		out, blocks = append(out, pg), rest
	}
	return out, nil
}

// WideLeast is the width of paper below which tables as wide as the sheet are
// Set on their side, whichever way up the job wants its sheets: their heads
// could not be read otherwise.
const WideLeast = 250

func wide(blocks []Block) bool {
	for _, b := range blocks {
		if t, ok := b.(Table); ok && t.Span {
			return true
		}
	}
	return false
}

// setList sets as many blocks as the sheet holds, in columns above and beside
// the title block, and returns how many were set and what is left.
func (pg *Page) setList(blocks []Block, least float64) (n int, left []Block) {
	f := pg.frame
	pg.Blocks = blocks
	pg.drawFrame()
	w := min(TitleMax, f.W())
	pg.TitleAt = drawing.Box{X0: f.X1 - w, Y0: f.Y1 - pg.Title.Height(pg.Ty, w), X1: f.X1, Y1: f.Y1}
	top, beside := pg.besideTitle()
	Proof{}.Set(pg, drawing.Pt{X: beside.X0, Y: beside.Y0}, beside.W())
	n, top, blocks = pg.setWide(top, blocks)
	blocks, cols := Levelled(pg.Ty, blocks, pg.listColumns(top, beside.Y0, least))
	placed, left := compose(pg.Ty, blocks, cols)
	for _, b := range placed {
		b.Block.Set(pg, b.At, b.W)
	}
	return n + len(placed), left
}

// besideTitle returns the room above the title block, and that of the proof: beside
// the block, or above it where that is too narrow.
func (pg *Page) besideTitle() (top, proof drawing.Box) {
	f, pr := pg.frame, Proof{}
	proof = drawing.Box{X0: f.X0 + edge, Y1: f.Y1 - edge, X1: pg.TitleAt.X0 - edge}
	top = drawing.Box{X0: f.X0 + edge, Y0: f.Y0 + edge, X1: f.X1 - edge, Y1: pg.TitleAt.Y0 - edge}
	if proof.W() > checkRoom {
		proof.Y0 = f.Y1 - edge - pr.Height(pg.Ty, proof.W())
		return top, proof
	}
	proof = drawing.Box{X0: top.X0, X1: top.X1, Y1: top.Y1, Y0: top.Y1 - pr.Height(pg.Ty, top.W())}
	top.Y1 = proof.Y0 - BlockGap
	return top, proof
}

// Levelled returns columns no longer than the blocks need, so that these fill
// them alike; as they are where blocks have to be split or go on. Blocks that
// stand together are parted where they do not fit otherwise.
func Levelled(ty *Typesetter, blocks []Block, cols []drawing.Box) ([]Block, []drawing.Box) {
	apart := parted(blocks)
	for _, bs := range [][]Block{blocks, apart} {
		if short := shortestOf(ty, bs, cols); short != nil {
			return bs, short
		}
	}
	return apart, cols
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

// A Together is blocks that stand below each other where that can be.
type Together []Block

func (t Together) Height(ty *Typesetter, w float64) float64 {
	h := -BlockGap
	for _, b := range t {
		h += b.Height(ty, w) + BlockGap
	}
	return h
}

func (t Together) Set(pg *Page, at drawing.Pt, w float64) {
	for _, b := range t {
		b.Set(pg, at, w)
		at.Y += b.Height(pg.Ty, w) + BlockGap
	}
}

// parted returns blocks with those apart that would stand together.
func parted(blocks []Block) []Block {
	var out []Block
	for _, b := range blocks {
		if t, ok := b.(Together); ok {
			out = append(out, t...)
		} else {
			out = append(out, b)
		}
	}
	return out
}

// setWide sets the tables that are as wide as the sheet, and returns how many,
// and what is left of the sheet and of the blocks. The first on a sheet is split
// wherever it must be.
func (pg *Page) setWide(top drawing.Box, blocks []Block) (int, drawing.Box, []Block) {
	n := 0
	for len(blocks) > 0 {
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
		fits.Set(pg, drawing.Pt{X: top.X0, Y: top.Y0}, top.W())
		n++
		top.Y0 += fits.Height(pg.Ty, top.W()) + BlockGap
		if blocks = blocks[1:]; rest != nil {
			return n, drawing.Box{}, append([]Block{rest}, blocks...)
		}
	}
	return n, top, blocks
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
// least. A column that lies beside the title block reaches down to the proof.
func (pg *Page) listColumns(b drawing.Box, proofTop, least float64) []drawing.Box {
	n := max(1, int((b.W()+2*colGap)/(least+2*colGap)))
	w := (b.W() - float64(n-1)*2*colGap) / float64(n)
	out := make([]drawing.Box, n)
	for i := range out {
		x := b.X0 + float64(i)*(w+2*colGap)
		out[i] = drawing.Box{X0: x, Y0: b.Y0, X1: x + w, Y1: b.Y1}
		if out[i].X1 <= pg.TitleAt.X0-edge && b.H() > 0 {
			out[i].Y1 = proofTop - BlockGap
		}
	}
	return out
}
