// Package setting sets what stands in rows: blocks, tables, charts, legends and title
// blocks, on a page of a paper and a scale that it chooses.
package setting

import (
	"slices"
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/signs"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/symbols"
)

// A Page is one sheet while it is being drawn.
type Page struct {
	Plan    *layout.Plan
	Sheet   *drawing.Sheet
	Ty      *Typesetter
	frame   drawing.Box       // inside the margins
	Letters *lettering.Labels // nil on a sheet without a view
	Used    []signs.Sign      // what the legend has to explain, in the order drawn
	Noted   []string          // what could not be written in the field
	Remarks []string          // what the field leaves out
	Title   TitleBlock
	TitleAt drawing.Box
	Blocks  []Block  // what was to stand round the field, each in one piece
	Over    []Block  // what found no room, for the set's sheets of notes
	Details []int    // the details that stand on the page, by their numbers
	calls   []call   // what names the sheet of a detail
	Name    string   // what notes call the drawing, where its sheet is called otherwise
	Upper   *Page    // whose drawing stands on the sheet above its own; nil: none
	list    []placed // the blocks of a sheet without a drawing, until that is drawn
	filled  float64  // the share of its columns that is used, on a sheet without a drawing
}

// NewPage returns a blank page of a paper.
func NewPage(p *layout.Plan, paper drawing.Paper) *Page {
	pg := &Page{Plan: p, Sheet: &drawing.Sheet{Paper: paper, Language: p.Job.Language.Tag()}, frame: paper.Frame(),
		Ty: NewTypesetter(p.Job.Language, p.Job.Also...)}
	return pg
}

// Add draws items on the page.
func (pg *Page) Add(items ...drawing.Item) { pg.Sheet.Items = append(pg.Sheet.Items, items...) }

// Path adds a line or an area.
func (pg *Page) Path(l drawing.Layer, title string, segs []drawing.Seg, s *drawing.Stroke, fill *drawing.Colour) {
	if len(segs) > 0 {
		pg.Add(&drawing.Path{Layer: l, Title: title, Segs: segs, Stroke: s, Fill: fill})
	}
}

// Sign adds a line or an area that shows s.
func (pg *Page) Sign(s signs.Sign, l drawing.Layer, title string, segs []drawing.Seg, st *drawing.Stroke,
	fill *drawing.Colour) {
	if len(segs) > 0 {
		pg.Path(l, title, segs, st, fill)
		pg.Uses(s)
	}
}

// rule adds a straight line of the frame layer.
func (pg *Page) rule(a, b drawing.Pt, s *drawing.Stroke) {
	pg.Path(drawing.LayerFrame, "", drawing.Polyline(a, b), s, nil)
}

// Write adds lettering that needs no placing, for the parts of a sheet that
// are set in rows.
func (pg *Page) Write(at drawing.Pt, text string, height float64, a drawing.Anchor) {
	pg.WriteIn(fonts.Lettering, at, text, height, a)
}

// WriteIn is Write in another face.
func (pg *Page) WriteIn(f fonts.Face, at drawing.Pt, text string, height float64, a drawing.Anchor) {
	if text != "" {
		pg.Add(&drawing.Text{Layer: drawing.LayerText, At: at, Text: text, Height: height, Face: f, Anchor: a})
	}
}

// Uses notes that the legend has to explain s.
func (pg *Page) Uses(s signs.Sign) {
	if s != signs.WordsOnly && !slices.Contains(pg.Used, s) {
		pg.Used = append(pg.Used, s)
	}
}

// Remark adds a note to the column.
func (pg *Page) Remark(text string) { pg.Remarks = append(pg.Remarks, text) }

// drawFrame draws the frame and its centring marks. The marks end at the frame:
// inside it they would run through tables (ISO 5457 lets them reach in).
func (pg *Page) drawFrame() {
	f, w := pg.frame, pg.Sheet.Paper
	pg.Path(drawing.LayerFrame, "frame", drawing.Rectangle(f), drawing.WallLine(), nil)
	c := f.Centre()
	marks := [][2]drawing.Pt{
		{{X: c.X, Y: 5}, {X: c.X, Y: f.Y0}}, {{X: c.X, Y: w.H - 5}, {X: c.X, Y: f.Y1}},
		{{X: 15, Y: c.Y}, {X: f.X0, Y: c.Y}}, {{X: w.W - 5, Y: c.Y}, {X: f.X1, Y: c.Y}},
	}
	for _, m := range marks {
		pg.rule(m[0], m[1], drawing.WallLine())
	}
}

// Thin adds a thin line.
func (pg *Page) Thin(l drawing.Layer, pts ...drawing.Pt) {
	pg.Path(l, "", drawing.Polyline(pts...), drawing.ThinLine(), nil)
}

// A call is the bubble of a detail.
type call struct {
	detail int
	at     drawing.Pt
	symbol func(at drawing.Pt, number, sheet string) []drawing.Item
	items  []drawing.Item
}

// Callout draws the bubble of a detail about at, the label of its sheet to be filled in once
// that is known.
func (pg *Page) Callout(detail int, at drawing.Pt) []drawing.Item {
	return pg.called(detail, at, symbols.Callout, "-")
}

// LowCallout draws the bubble in one line.
func (pg *Page) LowCallout(detail int, at drawing.Pt) []drawing.Item {
	return pg.called(detail, at, symbols.LowCallout, toCome)
}

func (pg *Page) called(detail int, at drawing.Pt, symbol func(at drawing.Pt, number, sheet string) []drawing.Item,
	sheet string) []drawing.Item {
	c := call{detail, at, symbol, symbol(at, strconv.Itoa(detail), sheet)}
	pg.calls = append(pg.calls, c)
	return c.items
}

// toCome stands in words for the label of a sheet until that is known, as wide as most.
const toCome = "DT-1"

// DetailAt names a detail in words, with its sheet.
func DetailAt(detail int, l language.Language) string {
	return strings.ReplaceAll(detailOn(detail, toCome, l), " ", NoBreak)
}

// detailOn is the same as it is drawn.
func detailOn(detail int, label string, l language.Language) string {
	return l.Textf("detail %d, %s", detail, label)
}

// DetailSheets are the labels of the sheets that the details stand on, by the details' numbers.
func DetailSheets(pages []*Page) map[int]string {
	labels := map[int]string{}
	for _, pg := range pages {
		for _, n := range pg.Details {
			labels[n] = pg.Sheet.Label
		}
	}
	return labels
}

// NameSheets fills in on which sheet each detail stands that pages call out.
func NameSheets(pages []*Page, labels map[int]string) {
	for _, pg := range pages {
		for _, c := range pg.calls {
			if label := labels[c.detail]; label != "" {
				c.name(label)
			}
		}
		for _, t := range pg.Sheet.Texts() {
			for n, label := range labels {
				t.Text = strings.Replace(t.Text, detailOn(n, toCome, pg.Ty.Language), detailOn(n, label,
					pg.Ty.Language), 1)
			}
		}
	}
}

// name draws a bubble anew with the label of a sheet.
func (c call) name(label string) {
	for i, it := range c.symbol(c.at, strconv.Itoa(c.detail), label) {
		switch own := c.items[i].(type) {
		case *drawing.Path:
			*own = *it.(*drawing.Path)
		case *drawing.Text:
			*own = *it.(*drawing.Text)
		}
	}
}
