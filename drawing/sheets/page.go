package sheets

import (
	"slices"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
)

// A page is one sheet while it is being drawn.
type page struct {
	plan    *layout.Plan
	sheet   *drawing.Sheet
	ty      *typesetter
	frame   drawing.Box // inside the margins
	letters *lettering  // nil on a sheet without a view
	used    []sign      // what the legend has to explain, in the order drawn
	noted   []string    // what could not be written in the field
	remarks []string    // what the field leaves out
	title   titleBlock
	titleAt drawing.Box
}

func newPage(p *layout.Plan, paper drawing.Paper) *page {
	pg := &page{plan: p, sheet: &drawing.Sheet{Paper: paper}, frame: paper.Frame(), ty: newTypesetter()}
	return pg
}

func (pg *page) add(items ...drawing.Item) { pg.sheet.Items = append(pg.sheet.Items, items...) }

// path adds a line or an area.
func (pg *page) path(l drawing.Layer, title string, segs []drawing.Seg, s *drawing.Stroke, fill *drawing.Colour) {
	if len(segs) > 0 {
		pg.add(&drawing.Path{Layer: l, Title: title, Segs: segs, Stroke: s, Fill: fill})
	}
}

// sign adds a line or an area that shows s.
func (pg *page) sign(s sign, l drawing.Layer, title string, segs []drawing.Seg, st *drawing.Stroke, fill *drawing.Colour) {
	if len(segs) > 0 {
		pg.path(l, title, segs, st, fill)
		pg.uses(s)
	}
}

// rule adds a straight line of the frame layer.
func (pg *page) rule(a, b drawing.Pt, s *drawing.Stroke) {
	pg.path(drawing.LayerFrame, "", drawing.Polyline(a, b), s, nil)
}

// write adds lettering that needs no placing, for the parts of a sheet that
// are set in rows.
func (pg *page) write(at drawing.Pt, text string, height float64, a drawing.Anchor) {
	pg.writeIn(fonts.Lettering, at, text, height, a)
}

func (pg *page) writeIn(f fonts.Face, at drawing.Pt, text string, height float64, a drawing.Anchor) {
	if text != "" {
		pg.add(&drawing.Text{Layer: drawing.LayerText, At: at, Text: text, Height: height, Face: f, Anchor: a})
	}
}

// uses notes that the legend has to explain s.
func (pg *page) uses(s sign) {
	if s != wordsOnly && !slices.Contains(pg.used, s) {
		pg.used = append(pg.used, s)
	}
}

// remark adds a note to the column.
func (pg *page) remark(text string) { pg.remarks = append(pg.remarks, text) }

// drawFrame draws the frame and its centring marks. The marks end at the frame:
// inside it they would run through tables (ISO 5457 lets them reach in).
func (pg *page) drawFrame() {
	f, w := pg.frame, pg.sheet.Paper
	pg.path(drawing.LayerFrame, "frame", drawing.Rectangle(f), drawing.WallLine(), nil)
	c := f.Centre()
	marks := [][2]drawing.Pt{
		{{X: c.X, Y: 5}, {X: c.X, Y: f.Y0}}, {{X: c.X, Y: w.H - 5}, {X: c.X, Y: f.Y1}},
		{{X: 15, Y: c.Y}, {X: f.X0, Y: c.Y}}, {{X: w.W - 5, Y: c.Y}, {X: f.X1, Y: c.Y}},
	}
	for _, m := range marks {
		pg.rule(m[0], m[1], drawing.WallLine())
	}
}

// thin adds a thin line.
func (pg *page) thin(l drawing.Layer, pts ...drawing.Pt) {
	pg.path(l, "", drawing.Polyline(pts...), drawing.ThinLine(), nil)
}
