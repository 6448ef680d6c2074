package setting

import (
	"math"
	"strconv"
	"testing"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
)

func setAlone(b Block, w float64) *drawing.Sheet {
	pg := NewPage(&layout.Plan{Job: &job.Job{}}, drawing.Paper{Name: "A4", W: 210, H: 297})
	b.Set(pg, drawing.Pt{X: 20, Y: 20}, w)
	return pg.Sheet
}

// TestDecimalAlign: the decimal points of a column lie under each other.
func TestDecimalAlign(t *testing.T) {
	tab := Table{Cols: []Column{{Head: "Item", Wraps: true}, {Head: "Net", Align: Decimal}},
		Rows: [][]Cell{Row("a", "1.25"), Row("b", "100.5"), Row("c", "12")}}
	var points []float64
	for _, tx := range setAlone(tab, 80).Texts() {
		whole, _ := splitFigure(tx.Text)
		if tx.Text == "1.25" || tx.Text == "100.5" || tx.Text == "12" {
			points = append(points, tx.Start().X+fonts.Width(tx.Face, whole, tx.Height))
		}
	}
	if len(points) != 3 || math.Abs(points[0]-points[1]) > 1e-6 || math.Abs(points[0]-points[2]) > 1e-6 {
		t.Errorf("decimal points at %v", points)
	}
}

// TestTableHeight: what a table says of its height is what it takes.
func TestTableHeight(t *testing.T) {
	tab := Table{Head: "Things", Cols: []Column{{Head: "Item", Wraps: true}, {Head: "Note of some length",
		Wraps: true}}}
	for range 5 {
		tab.Rows = append(tab.Rows, Row("a name that has to wrap in a narrow column", "and a note that wraps too"))
	}
	for _, w := range []float64{40, 60, 90, 170} {
		pg := NewPage(&layout.Plan{Job: &job.Job{}}, drawing.Paper{Name: "A4", W: 210, H: 297})
		tab.Set(pg, drawing.Pt{X: 20, Y: 20}, w)
		low := drawing.BoxOfItems(pg.Sheet.Items).Y1
		if h := tab.Height(pg.Ty, w); math.Abs(20+h-low) > 0.3 {
			t.Errorf("%.0f wide: %.2f high by its word, %.2f on paper", w, h, low-20)
		}
	}
}

// TestSplit: a long table goes on without losing a row, a short one stays
// whole.
func TestSplit(t *testing.T) {
	tab := Table{Head: "Runs", Cols: []Column{{Head: "Run", Align: Decimal}, {Wraps: true}}}
	for i := range 40 {
		tab.Rows = append(tab.Rows, Row(strconv.Itoa(i+1), "east"))
	}
	ty := NewTypesetter(language.English)
	first, rest := tab.Split(ty, 60, 100)
	if n := len(first.(Table).Rows) + len(rest.(Table).Rows); n != 40 || first.Height(ty, 60) > 100 {
		t.Errorf("%d rows, first part %.1f high", n, first.Height(ty, 60))
	}
	tab.Rows = tab.Rows[:8]
	if first, _ := tab.Split(ty, 60, 30); first != nil {
		t.Error("a short table is split")
	}
}

// TestWordsBeforeField: of two arrangements at one scale the one that keeps the
// words of its tables whole is taken, be the other's field as large as it may.
func TestWordsBeforeField(t *testing.T) {
	tab := Table{Cols: []Column{{Head: "Room", Wraps: true}, {Head: "W", Align: Decimal}},
		Rows: [][]Cell{Row("Conservatory", "1200")}}
	w := fonts.Width(fonts.Lettering, "Conservatory", Note) + fonts.Width(fonts.Lettering, "1200", Note) + 4*Pad
	if narrow, wide := (placed{Block: tab, W: w - 1}), (placed{Block: tab, W: w + 1}); !narrow.tight() || wide.tight() {
		t.Errorf("%.1f wide its words are whole; narrower: %v, wider: %v", w, narrow.tight(), wide.tight())
	}
	large, small := Arrangement{tight: true, Field: drawing.Box{X1: 300, Y1: 200}},
		Arrangement{Field: drawing.Box{X1: 100, Y1: 100}}
	if large.better(small, false) || !small.better(large, false) {
		t.Error("a larger field is preferred to whole words")
	}
}

// TestNoLoneRow: a table that is split goes on with three rows at least, and
// loses none.
func TestNoLoneRow(t *testing.T) {
	ty := NewTypesetter(language.English)
	tab := Table{Cols: []Column{{Head: "No."}}}
	for i := range 14 {
		tab.Rows = append(tab.Rows, Row(strconv.Itoa(i+1)))
	}
	whole := tab.Height(ty, 60)
	for h := whole - 0.1; h > whole/2; h -= 2 {
		first, rest := tab.Split(ty, 60, h)
		a, b := first.(Table).Rows, rest.(Table).Rows
		if len(a)+len(b) != 14 || len(b) < 3 || b[0][0].Text != strconv.Itoa(len(a)+1) || first.Height(ty, 60) > h {
			t.Errorf("%.1f high: %d rows and %d", h, len(a), len(b))
		}
	}
}

// TestFlow: blocks never overlap, keep to their slots, and what does not fit
// is handed back.
func TestFlow(t *testing.T) {
	ty := NewTypesetter(language.English)
	var blocks []Block
	for range 12 {
		blocks = append(blocks, List{Head: "Head", Number: 1, Paras: []string{"one two three four five six",
			"seven eight nine ten eleven twelve", "thirteen"}})
	}
	slots := []drawing.Box{{X1: 60, Y1: 100}, {X0: 70, X1: 130, Y1: 80}}
	placed, rest := Flow(ty, blocks, slots)
	paras := 0
	var boxes []drawing.Box
	for _, p := range placed {
		b := drawing.Box{X0: p.At.X, Y0: p.At.Y, X1: p.At.X + p.W, Y1: p.At.Y + p.Block.Height(ty, p.W)}
		if !slots[0].Grow(1e-6).Contains(b) && !slots[1].Grow(1e-6).Contains(b) {
			t.Errorf("a block leaves its slot: %v", b)
		}
		for _, o := range boxes {
			if o.Meets(b) {
				t.Errorf("blocks overlap: %v and %v", o, b)
			}
		}
		boxes = append(boxes, b)
		paras += len(p.Block.(List).Paras)
	}
	for _, b := range rest {
		paras += len(b.(List).Paras)
	}
	if paras != 36 || len(rest) == 0 {
		t.Errorf("%d of 36 paragraphs left, %d blocks over", paras, len(rest))
	}
}

// TestFootOfColumn: a block that is too high for the white left in one column
// goes on to the next, and a later one that fits into that white is set there.
func TestFootOfColumn(t *testing.T) {
	ty := NewTypesetter(language.English)
	of := func(rows int) Block {
		tab := Table{Cols: []Column{{Head: "No."}}}
		for i := range rows {
			tab.Rows = append(tab.Rows, Row(strconv.Itoa(i+1)))
		}
		return tab
	}
	slots := []drawing.Box{{X1: 60, Y1: 70}, {X0: 70, X1: 130, Y1: 50}}
	placed, rest := Pour(ty, []Block{of(8), of(7), of(2)}, slots, false) // a head and 8, 7 and 2 rows
	foot := 9*plainSize.row + BlockGap
	if len(rest) > 0 || len(placed) != 3 || placed[1].At.X != 70 || placed[2].At != (drawing.Pt{Y: foot}) {
		t.Errorf("%v, left %v", placed, rest)
	}
}

// TestBesideTitle: under several columns the title block may be so narrow that
// the first of them runs down beside it, 5 mm off it and off the frame.
func TestBesideTitle(t *testing.T) {
	n := Need{Ty: NewTypesetter(language.English), Titles: map[TitleKey]float64{}, least: columnLeast,
		Title: TitleBlock{Title: "Cable plan", Label: "CP-1", N: 1, Of: 9}}
	f := drawing.Box{X0: 20, Y0: 10, X1: 410, Y1: 287}
	for _, w := range []float64{150, 190, 230} {
		tw := n.besideFirst(w)
		d := division{w: w, tw: tw, least: columnLeast}
		a := n.divided(f, d)
		a.slots = n.slots(f, d, a)
		if first := a.slots[0]; first.Y1 != f.Y1-fieldEdge || math.Abs(first.X1-(a.title.X0-fieldEdge)) > 1e-6 ||
			a.title.X1 != f.X1 {
			t.Errorf("%g mm of columns: the first is %v, the title block %v", w, first, a.title)
		}
		for _, s := range a.slots[1:] {
			if s.Meets(a.title) {
				t.Errorf("%g mm of columns: %v lies on the title block %v", w, s, a.title)
			}
		}
	}
}

// TestWidths: columns fill the width given, and no word is broken while there
// is room to keep it whole.
func TestWidths(t *testing.T) {
	tab := Table{Cols: []Column{{Head: "Room", Wraps: true}, {Head: "An hour", Align: Decimal},
		{Head: "Where the figure comes from", Wraps: true}},
		Rows: [][]Cell{Row("Kitchen", "1.49", "the label, worked out for the whole of a month"),
			Row("Membrane", "0.2", "-")}}
	for _, w := range []float64{55, 70, 120} {
		ws := tab.widths(NewTypesetter(language.English), w)
		if math.Abs(sum(ws)-w) > 1e-6 {
			t.Errorf("%.0f wide: columns of %.1f", w, ws)
		}
		if need := fonts.Width(fonts.Lettering, "Membrane", Note) + 2*Pad; ws[0] < need {
			t.Errorf("%.0f wide: %.1f for a word of %.1f", w, ws[0], need)
		}
	}
}
