package sheets

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/passport"
	"oxturn/layout/probe"
	"oxturn/layout/say"
	"oxturn/symbols"
)

// ownerMap draws the page that stays with the house: where cable is and where
// none is, and a label for the panel, where the floor is laid or to be for sure.
func ownerMap(p *layout.Plan, r *layout.Room) ([]*setting.Page, error) {
	s := floorplan.OfRoom(kindNamed("owner-map"), r)
	s.Border = func(ratio float64) (left, right, top, bottom float64) { return floorplan.OverallBorder(r.Job, ratio) }
	s.Draw, s.HandOver = drawOwnerMap, true
	if p.Job.Info.Status == job.Proposal {
		s.Levels = func(v *floorplan.View) []setting.Level { return ownerMapLevels(v, nil, nil) }
		return s.Alone(p)
	}
	codes, without := codesOf(p, r) // once for all trials: a code takes longer than a drawing
	s.Levels = func(v *floorplan.View) []setting.Level {
		return ownerMapLevels(v, []setting.Block{panelLabel{labelLines(v), codes}}, without)
	}
	pages, err := s.Alone(p)
	if err != nil || !setting.Narrow(r, pages[0].Sheet.Ratio, setting.Legible) {
		return pages, err
	}
	return labelApart(p, s, codes, without)
}

// labelApart draws a map with its label on the set's notes, where the two together leave too
// little for the drawing: it is cut out anyway.
func labelApart(p *layout.Plan, s floorplan.Scene, codes []labelCode, without []string) ([]*setting.Page, error) {
	var label panelLabel
	s.Levels = func(v *floorplan.View) []setting.Level {
		label = panelLabel{labelLines(v), codes}
		return ownerMapLevels(v, nil, without)
	}
	pages, err := s.Alone(p)
	if err == nil {
		pages[0].Over = append(pages[0].Over, label)
	}
	return pages, err
}

func drawOwnerMap(v *floorplan.View) {
	v.Walls()
	v.DrawOpenings()
	bare(v)
	v.RiseInWall()
	v.Fixtures()
	v.Limit()
	v.Joints()
	v.Cables()
	for i := range v.Room.Cables {
		if c := &v.Room.Cables[i]; len(c.Path) > 1 {
			v.CableEnds(c)
		}
	}
	v.Sensors()
	v.Thermostat()
	v.DrawDatums()
	overall(v)
	if short := v.WallLetters(); short > 0 {
		v.Remark(v.Fig.Textf("%s no letter here.", shortWords(v, short)))
	}
}

// overall dimensions a room's length and width; the rest is in the table of places.
func overall(v *floorplan.View) {
	if walls := floorplan.SlantingDatums(v.Room.Job); walls != nil {
		for _, w := range walls {
			v.Slant(w)
		}
		return
	}
	for _, l := range floorplan.OverallLadders(v.Room.Job) {
		v.Ladder(l, floorplan.TurnedBounds(v.Room.Job))
	}
}

// bare dots the floor without cable.
func bare(v *floorplan.View) {
	if rest, err := v.Room.WithoutCable(); err == nil {
		v.Dotted(rest)
	}
}

// ownerMapLevels returns what stands beside the map: with its label, where that is not on a
// page of its own, and what there is to say of the codes it goes without.
func ownerMapLevels(v *floorplan.View, label []setting.Block, without []string) []setting.Level {
	drill := mayIDrill(v)
	head, places, short := append([]setting.Block{drill}, label...), v.Places(true, false), v.Places(true, true)
	var notes []setting.Block
	if texts := slices.Concat(v.Noted, v.Remarks, without, probe.Untested(v.Room, v.Fig.Language)); len(texts) > 0 {
		notes = []setting.Block{setting.List{Head: v.Fig.Text("Notes"), Number: 1, Paras: texts}}
	}
	beside := func(bs ...setting.Block) []setting.Block { return slices.Concat(head, bs, notes) }
	living, legend := whole{keeping(v)}, legendOf(v)
	all := beside(places, legend, living) // what stands named on the map goes first, how to live with the floor last
	levels := []setting.Level{{Blocks: all}, {Blocks: beside(legend, places, living), Gain: 1.3}}
	for _, bs := range [][]setting.Block{beside(short, legend, living), beside(legend, short, living),
		beside(inFine(places), legend, living)} {
		levels = append(levels, setting.Level{Blocks: bs, Gain: setting.Never})
	}
	return append(levels, setting.Level{Blocks: all, Gain: setting.Never, Overflow: true})
}

// inFine is a table in fine print, for a column that is too narrow for its words.
func inFine(b setting.Block) setting.Block {
	if t, ok := b.(setting.Table); ok {
		t.Fine = true
		return t
	}
	return b
}

// evidence says what the map is worth.
func evidence(f say.Figures, record string) string {
	if record != "" {
		return f.Textf("Recorded AS LAID: %s. Take that off every distance from D1 and D2.", record)
	}
	return f.Text("THIS IS A PLAN, NOT A RECORD: the cable may lie elsewhere. Have it located before any hole.")
}

// mayIDrill is the question the map is kept for.
func mayIDrill(v *floorplan.View) setting.List {
	l := setting.List{Head: v.Fig.Text("Before you drill"), Number: 1}
	for i := range drilling(v, v.Fig) {
		l.Paras = append(l.Paras, v.Plan.Job.Both(func(f say.Figures) string { return drilling(v, f)[i] }))
	}
	return governed(v.Plan, l)
}

// drilling is what must be known before any hole.
func drilling(v *floorplan.View, f say.Figures) []string {
	record := setting.RecordIn(v.Plan, []layout.Room{*v.Room}, f.Language)
	near := f.Text("leads, sensors, START or END")
	if record != "" { // what was found need not lie inside the line
		near = f.Textf("cable, %s", near)
	}
	out := []string{
		evidence(f, record),
		f.Textf("Switch off at the %s; make sure it is off.", f.Text(v.Plan.Job.Region().Panel)),
		f.Textf("No hole inside the dashed line, nor near %s.", near),
		f.Textf("No nail or screw within %s of the lead rise, floor to box.", floorplan.RiseWords(f.Units)),
		f.Text("Try glue first. Have dotted floor checked too."),
	}
	if deep, from := v.Plan.Cover(); deep > 0 {
		by := ""
		if from == job.FromDefault {
			by = f.Text(" (default)")
		}
		out = append(out, f.Textf("No depth is free of risk: cable lies from about %s down%s.",
			f.Figure(layout.NewTape(v.Room.Job, v.Plan.Units()).Length(deep)), by))
	}
	return append(out, f.Text("A protective device that trips stays off: call an electrician."))
}

// keeping is how to live with the floor.
func keeping(v *floorplan.View) setting.Block {
	l := setting.List{Head: v.Fig.Text("Living with the floor"), Number: 1}
	living := func(f say.Figures) []string {
		return probe.Living(v.Plan.Job.Region(), v.Plan.Job.Info.Status, f.Language)
	}
	for i := range living(v.Fig) {
		l.Paras = append(l.Paras, v.Plan.Job.Both(func(f say.Figures) string { return living(f)[i] }))
	}
	if heat := v.Plan.LossWords(v.Room, v.Fig.Language); heat != "" {
		l.Paras = append(l.Paras, heat)
	}
	return l
}

// labelLines is what the panel label says.
func labelLines(v *floorplan.View) []string {
	lines := []string{v.Plan.Job.Both(func(f say.Figures) string { return f.Text("ELECTRIC CABLE IN THE FLOOR") }),
		v.Plan.Job.Both(func(f say.Figures) string { return f.Text("DO NOT DRILL") })}
	circuit := floorplan.Or(settled(v)[settleCircuit], "______")
	if name := v.Room.Job.Name; name != "" {
		lines = append(lines, v.Fig.Textf("%s, circuit %s", name, circuit))
	} else {
		lines = append(lines, v.Fig.Textf("Circuit %s", circuit))
	}
	if l := v.Plan.LoadOf(v.Room.Job.Name); l != nil {
		lines = append(lines, fmt.Sprintf("%s, %s, %s", v.Fig.Volts(l.Volts), v.Fig.Watts(l.Watts), v.Fig.Amps(l.Amps)))
	}
	number := v.Plan.Job.Info.Number
	if number == "" {
		number = "________"
	}
	return append(lines, v.Fig.Textf("Drawing %s, rev. %s", number, setting.LastRevision(v.Plan)),
		v.Fig.Textf("Plan %s, %s", v.Plan.Code, setting.StatusWords(v.Plan.Job.Info.Status, v.Fig.Language)))
}

// A panelLabel is a label to cut out and stick inside the panel's door, with a code of
// every cable that any phone reads.
type panelLabel struct {
	lines []string
	codes []labelCode
}

// A labelCode is one code as it is drawn.
type labelCode struct {
	rows   [][]bool
	module float64 // mm
	title  string
}

// size is how much paper a code takes with the white about it, mm.
func (c labelCode) size() float64 { return float64(len(c.rows)+2*symbols.CodeQuiet) * c.module }

// Modules that are read off a common print by a phone held over it: about 0.4 mm is
// the least (common practice), and beyond 0.6 nothing is gained.
const (
	moduleLeast = 0.42
	moduleMost  = 0.6
	codeMost    = 45.0 // mm, of a code with modules that can be smaller
)

// codesOf are the codes of a room's cables, and a note for each that says too much for one.
func codesOf(p *layout.Plan, r *layout.Room) (out []labelCode, without []string) {
	for i := range r.Cables {
		c := &r.Cables[i]
		if len(c.Path) < 2 {
			continue
		}
		rows, err := symbols.CodeRows(passport.Of(p, r, c))
		if err != nil {
			without = append(without, p.Job.Language.Textf("The label has no code of cable %s: it says too much "+
				"for one.", c.ID))
			continue
		}
		code := labelCode{rows: rows, title: p.Job.Language.Textf("code of cable %s", c.ID)}
		code.module = max(moduleLeast, min(moduleMost, codeMost/float64(len(rows)+2*symbols.CodeQuiet)))
		out = append(out, code)
	}
	return out, without
}

// labelWidth is the width of a label at most, mm: what fits inside the door of a
// small panel.
const labelWidth = 90

// line returns how line i of a label is lettered.
func (l panelLabel) line(i int) (face fonts.Face, height float64) {
	if i < 2 {
		return fonts.LetteringBold, setting.Heading
	}
	return fonts.Lettering, setting.Note
}

// wrapped breaks line i to the label's width, into lines about alike.
func (l panelLabel) wrapped(ty *setting.Typesetter, i int, w float64) []string {
	face, height := l.line(i)
	w = min(w, labelWidth) - 4*setting.Pad
	lines := ty.WrapIn(face, l.lines[i], height, w)
	for next := lines; len(lines) > 1 && len(next) == len(lines); next = ty.WrapIn(face, l.lines[i], height, w) {
		if strings.Join(next, " ") != strings.Join(lines, " ") {
			break // a word is broken
		}
		lines = next
		w -= setting.Pad
	}
	return lines
}

// Height is what the label takes at a width of w, both mm of paper.
func (l panelLabel) Height(ty *setting.Typesetter, w float64) float64 {
	h := ty.HeadingHeight(ty.Text(labelHead), w) + 5
	for i := range l.lines {
		_, height := l.line(i)
		h += float64(len(l.wrapped(ty, i, w))) * height * 1.7
	}
	for _, row := range l.codeRows(w) {
		h += tallest(row)
	}
	return h
}

// codeRows are the codes as they stand side by side in a label's width.
func (l panelLabel) codeRows(w float64) (out [][]labelCode) {
	left := 0.0
	for _, c := range l.codes {
		if left < c.size() {
			out, left = append(out, nil), min(w, labelWidth)
		}
		out[len(out)-1] = append(out[len(out)-1], c)
		left -= c.size()
	}
	return out
}

func tallest(row []labelCode) (h float64) {
	for _, c := range row {
		h = max(h, c.size())
	}
	return h
}

const labelHead = "Label to cut out"

// Set draws the label from at, the upper left corner, w mm wide.
func (l panelLabel) Set(pg *setting.Page, at drawing.Pt, w float64) {
	y := at.Y + setting.SetHeading(pg, at, pg.Ty.Text(labelHead), w)
	b := drawing.Box{X0: at.X, Y0: y, X1: at.X + min(w, labelWidth), Y1: at.Y + l.Height(pg.Ty, w)}
	pg.Path(drawing.LayerFrame, "cut here", drawing.Rectangle(b), drawing.HiddenLine(), nil)
	y += 2
	for i := range l.lines {
		face, height := l.line(i)
		for _, t := range l.wrapped(pg.Ty, i, w) {
			y += height * 1.7
			pg.WriteIn(face, drawing.Pt{X: b.Centre().X, Y: y - 0.4*height}, t, height, drawing.Middle)
		}
	}
	for _, row := range l.codeRows(w) {
		width := 0.0
		for _, c := range row {
			width += c.size()
		}
		x := b.Centre().X - width/2
		for _, c := range row {
			quiet := symbols.CodeQuiet * c.module
			pg.Add(symbols.Code(drawing.Pt{X: x + quiet, Y: y + quiet}, c.rows, c.module, c.title))
			x += c.size()
		}
		y += tallest(row)
	}
}
