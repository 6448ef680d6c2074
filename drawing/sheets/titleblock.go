package sheets

import (
	"fmt"
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// titleMax is the greatest width of a title block, mm (ISO 7200).
const titleMax = 180.0

// titleMin is the least width at which every field has room.
const titleMin = 88.0

// A titleBlock is the block at the lower right of every sheet: the fields of
// ISO 7200 under a band that says what the sheet may be used for.
type titleBlock struct {
	title    string
	kind     string // document type
	scale    string
	paper    string
	label    string // "CP-1"
	n, of    int
	revision string
	info     job.Info
	units    string
	letter   []string // letterhead
	plan     string   // the plan's code
	record   string   // how the cable was found, where it is recorded as laid
	compact  bool     // names beside their values, for small paper
	partly   bool     // it shows a cable that is laid in part
}

// A field is one box of the title block.
type field struct {
	name, value string
	least       float64 // mm wide
	tall        float64 // capital height of the value
}

const (
	bandHeight  = 9.0
	bandCompact = 7.4
	fieldName   = 4.2 // from a field's top to the baseline of its name
	nameGap     = 1.6 // from a name to the value beside it
)

// smallest is the width of the paper below which title blocks are compact and
// columns narrow: A4 and letter.
const smallest = 220

func isSmall(p drawing.Paper) bool { return math.Min(p.W, p.H) < smallest }

func (t titleBlock) band() float64 {
	if t.compact {
		return bandCompact
	}
	return bandHeight
}

// statusWords returns the words of the band.
func statusWords(s job.Status) string {
	switch s {
	case job.ForInstallation:
		return "FOR INSTALLATION"
	case job.AsLaid:
		return "AS LAID"
	}
	return "PROPOSAL"
}

// statusNote returns what the status means, for the line under the band.
func (t titleBlock) statusNote() string {
	switch {
	case t.partly:
		return "Partly laid, the rest planned. Mark every change on this sheet."
	case t.info.Status == job.ForInstallation:
		return "Planned, not yet laid. Mark every change on this sheet."
	case t.info.Status == job.AsLaid:
		return "Record of the floor as laid, by the job file: " + t.record + "."
	}
	return "Not for installation: order and lay only after the finished walls are measured."
}

func (t titleBlock) fields() []field {
	i := t.info
	date := ""
	if !i.Date.IsZero() {
		date = i.Date.Format("2006-01-02")
	}
	owner := i.Contractor
	if len(t.letter) > 0 {
		owner = strings.Join(t.letter, " · ")
	}
	return []field{
		{"Contractor", owner, 46, note}, {"Client", i.Client, 38, note},
		{"Site", i.Site, 46, note}, {"Job", i.Title, 38, note},
		{"Title", t.title, 84, drawing.H50},
		{"Document type", t.kind, 40, note}, {"Drawing no.", i.Number, 40, note},
		{"Sheet", fmt.Sprintf("%s, %d of %d", t.label, t.n, t.of), 30, note}, {"Rev.", t.revision, 14, note}, {"Plan code", t.plan, 22, note},
		{"Scale", t.scale, 30, note}, {"Units", t.units, 40, note}, {"Paper", t.paper, 20, note},
		{"Date", date, 26, note}, {"Drawn", i.DrawnBy, 30, note},
		{"Checked", i.CheckedBy, 30, note}, {"Approved", i.ApprovedBy, 30, note},
	}
}

// unitsWords names the units of a sheet's figures.
func unitsWords(s job.Sheet, u plane.Units) string {
	first, second := "mm", "ft-in"
	if u == plane.Inches {
		first, second = second, first
	}
	if s.Both {
		return first + " (" + second + ")"
	}
	return first
}

// rows packs the fields into rows w wide, in order.
func (t titleBlock) rows(w float64) [][]field {
	var rows [][]field
	used := math.Inf(1)
	for _, f := range t.fields() {
		own := math.Min(w, t.least(f))
		f.least = own
		if used+own > w+1e-9 || f.tall > note {
			rows, used = append(rows, nil), 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], f)
		used += own
		if f.tall > note {
			used = w
		}
	}
	return accompanied(rows, w)
}

// accompanied gives a field that is alone in the last row the one before it, where
// both have room there.
func accompanied(rows [][]field, w float64) [][]field {
	n := len(rows) - 1
	if n == 0 || len(rows[n]) > 1 || len(rows[n-1]) < 3 {
		return rows
	}
	k := len(rows[n-1]) - 1
	if last := rows[n-1][k]; last.least+rows[n][0].least <= w {
		rows[n], rows[n-1] = []field{last, rows[n][0]}, rows[n-1][:k]
	}
	return rows
}

// least is the width that a field needs: of a compact block, for its whole value
// beside its name.
func (t titleBlock) least(f field) float64 {
	if t.compact {
		return f.beside() + math.Max(f.least/4, fonts.Width(fieldFace(f), f.value, f.tall)) + pad + 0.1
	}
	return math.Max(f.least, 2*pad+fonts.Width(fonts.Lettering, f.name, note))
}

// beside is how far right a value begins that stands beside its name.
func (f field) beside() float64 {
	return pad + fonts.Width(fonts.Lettering, f.name, note) + nameGap
}

// stretch gives each field of a row its share of w.
func stretch(r []field, w float64) []float64 {
	sum := 0.0
	for _, f := range r {
		sum += f.least
	}
	ws := make([]float64, len(r))
	for i, f := range r {
		ws[i] = f.least * w / sum
	}
	return ws
}

func fieldFace(f field) fonts.Face {
	if f.tall > note {
		return fonts.LetteringBold
	}
	return fonts.Lettering
}

func (t titleBlock) rowTall(ty *typesetter, r []field, w float64) float64 {
	ws := stretch(r, w)
	h := 0.0
	for i, f := range r {
		dx, dy := t.valueAt(f)
		n := ty.lines(fieldFace(f), f.value, f.tall, ws[i]-dx-pad)
		h = math.Max(h, dy+float64(n)*f.tall*1.64+1)
	}
	return h
}

// valueAt is how far from a field's corner its value begins.
func (t titleBlock) valueAt(f field) (dx, dy float64) {
	if t.compact {
		return f.beside(), 0
	}
	return pad, fieldName
}

func (t titleBlock) height(ty *typesetter, w float64) float64 {
	h := t.band() + t.noteHeight(ty, w)
	for _, r := range t.rows(w) {
		h += t.rowTall(ty, r, w)
	}
	return h
}

func (t titleBlock) noteHeight(ty *typesetter, w float64) float64 {
	return float64(ty.lines(fonts.Lettering, t.statusNote(), note, w-2*pad))*leading + 1.6
}

func (t titleBlock) set(pg *page, at drawing.Pt, w float64) {
	box := drawing.Box{X0: at.X, Y0: at.Y, X1: at.X + w, Y1: at.Y + t.height(pg.ty, w)}
	ty := pg.ty
	y := t.setBand(pg, at, w)
	for _, r := range t.rows(w) {
		pg.rule(drawing.Pt{X: at.X, Y: y}, drawing.Pt{X: at.X + w, Y: y}, drawing.MediumLine())
		h := t.rowTall(ty, r, w)
		x := at.X
		for i, fw := range stretch(r, w) {
			if i > 0 {
				pg.rule(drawing.Pt{X: x, Y: y}, drawing.Pt{X: x, Y: y + h}, drawing.ThinLine())
			}
			t.setField(pg, drawing.Pt{X: x, Y: y}, r[i], fw)
			x += fw
		}
		y += h
	}
	pg.path(drawing.LayerFrame, "title block", drawing.Rectangle(box), drawing.WallLine(), nil)
}

// setBand draws the status: white letters on black, so that a sheet's status
// is read before anything else and on any printer.
func (t titleBlock) setBand(pg *page, at drawing.Pt, w float64) float64 {
	band := drawing.Box{X0: at.X, Y0: at.Y, X1: at.X + w, Y1: at.Y + t.band()}
	pg.path(drawing.LayerFloor, "status", drawing.Rectangle(band), nil, drawing.Filled(drawing.Black))
	pg.add(&drawing.Text{
		Layer: drawing.LayerText, At: drawing.Pt{X: at.X + w/2, Y: band.Centre().Y + drawing.H50/2}, Text: statusWords(t.info.Status),
		Height: drawing.H50, Face: fonts.LetteringBold, Anchor: drawing.Middle, Colour: drawing.White,
	})
	y := band.Y1
	for _, l := range pg.ty.wrap(t.statusNote(), w-2*pad) {
		pg.write(drawing.Pt{X: at.X + w/2, Y: y + 3.7}, l, note, drawing.Middle)
		y += leading
	}
	return y + 1.6
}

func (t titleBlock) setField(pg *page, at drawing.Pt, f field, w float64) {
	pg.add(&drawing.Text{
		Layer: drawing.LayerText, At: drawing.Pt{X: at.X + pad, Y: at.Y + 3.5}, Text: f.name,
		Height: note, Colour: drawing.Grey(0.6),
	})
	dx, dy := t.valueAt(f)
	for i, l := range pg.ty.wrapIn(fieldFace(f), f.value, f.tall, w-dx-pad) {
		y := at.Y + dy + float64(i+1)*f.tall*1.64 - 0.6*(f.tall/note)
		pg.writeIn(fieldFace(f), drawing.Pt{X: at.X + dx, Y: y}, l, f.tall, drawing.Start)
	}
}

// titleFor returns the title block of a sheet of the job.
func titleFor(p *layout.Plan, title, form string) titleBlock {
	return titleBlock{
		title: title, kind: form, revision: lastRevision(p), info: p.Job.Info,
		label: "MB-88", n: 88, of: 88, // until they are known, room for two figures
		units: unitsWords(p.Job.Sheet, figuresOf(p.Job).units), letter: p.Job.Sheet.Letterhead, scale: "-",
		record: recordOf(p, p.Rooms), plan: p.Code,
	}
}

// noRevision stands for the letter of a revision where there is none.
const noRevision = "-"

// lastRevision returns the letter of the last revision, a dash for none.
func lastRevision(p *layout.Plan) string {
	if n := len(p.Job.Revisions); n > 0 {
		return p.Job.Revisions[n-1].Letter
	}
	return noRevision
}

// recordOf says how the cables of rooms recorded as laid were found, by the
// weakest evidence among them.
func recordOf(p *layout.Plan, rooms []layout.Room) string {
	var weakest *layout.Laid
	for i := range rooms {
		for _, c := range rooms[i].Cables {
			if c.Laid.Recorded() && (weakest == nil || c.Laid.Error > weakest.Error) {
				weakest = c.Laid
			}
		}
	}
	if p.Job.Info.Status != job.AsLaid || weakest == nil {
		return ""
	}
	return fmt.Sprintf("%s, within %s either way", weakest.Job.Evidence, figuresOf(p.Job).spacing(weakest.Error))
}
