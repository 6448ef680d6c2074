package setting

import (
	"math"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// TitleMax is the greatest width of a title block, mm (ISO 7200).
const TitleMax = 180.0

// TitleMin is the least width at which every field has room.
const TitleMin = 88.0

// A TitleBlock is the block at the lower right of every sheet: the fields of
// ISO 7200 under a band that says what the sheet may be used for.
type TitleBlock struct {
	Title    string
	Kind     string // document type
	Scale    string
	Paper    string
	Label    string // "CP-1"
	N, Of    int
	Revision string
	Info     job.Info
	Units    string
	letter   []string // letterhead
	language language.Language
	also     []language.Language // the second of two, with what the record is in it
	records  []string
	plan     string  // the plan's code
	record   string  // how the cable was found, where it is recorded as laid
	area     float64 // mm² kept for it, whatever it takes; 0: what it takes
	Compact  bool    // names beside their values, for small paper
	Brief    bool    // of a compact block: without what the first sheet says and ISO 7200 does not ask for
	Partly   bool    // it shows a cable that is laid in part
	Signed   bool    // of a compact block: its sheet is signed by who does and who checks the work
}

// A field is one box of the title block.
type field struct {
	Name, Value string
	least       float64 // mm wide
	tall        float64 // capital height of the value
}

const (
	bandHeight  = 9.0
	bandCompact = 7.4
	bandTwice   = 8.4  // of a compact block in two languages
	fieldName   = 4.2  // from a field's top to where its value begins, under its name
	nameGap     = 1.6  // from a name to the value beside it
	nameLine    = 3.5  // from a field's top to the baseline of its name
	underNote   = 1.6  // white under the status' note
	noteTight   = 0.9  // white between the note's lines beside the status
	noteLoose   = 1.4  // the same in two languages, with room for a tail over an accent
	valueLine   = 1.64 // from line to line of a value, in heights of its capitals
	briefBlank  = 5.0  // of a brief block, for what a pen fills in
	compactArea = 0.53 // what a compact block takes of the area of one that is not
	valueDown   = 0.6  // of that below the baseline, at the height of notes
)

// smallPaper is the width of the paper below which title blocks are compact and
// columns narrow: A4 and letter.
const smallPaper = 220

// IsSmall reports whether a paper is narrower than that either way.
func IsSmall(p drawing.Paper) bool { return math.Min(p.W, p.H) < smallPaper }

func (t TitleBlock) band() float64 {
	switch {
	case t.Compact && len(t.also) > 0:
		return bandTwice
	case t.Compact:
		return bandCompact
	}
	return bandHeight
}

// StatusWords returns the words of the band.
func StatusWords(s job.Status, l language.Language) string {
	switch s {
	case job.ForInstallation:
		return l.Text("FOR INSTALLATION")
	case job.AsLaid:
		return l.Text("AS LAID")
	}
	return l.Text("PROPOSAL")
}

// statusNote returns what the status means, for the line under the band, in both languages where there are two.
func (t TitleBlock) statusNote() string {
	out := t.noteIn(t.language, t.record)
	for i, l := range t.also {
		out += " / " + t.noteIn(l, t.records[i])
	}
	return out
}

func (t TitleBlock) noteIn(l language.Language, record string) string {
	switch {
	case t.Partly:
		return l.Text("Partly laid, the rest planned: mark every change.")
	case t.Info.Status == job.ForInstallation:
		return l.Text("Not yet laid: mark every change.")
	case t.Info.Status == job.AsLaid:
		return l.Textf("Record of the floor as laid, by the job file: %s.", record)
	}
	return l.Text("Not for installation: order and lay only after the finished walls are measured.")
}

// statusWords are the words of the band, in both languages where there are two and the band is wide enough.
func (t TitleBlock) statusWords(w float64) string {
	out := StatusWords(t.Info.Status, t.language)
	for _, l := range t.also {
		both := out + " / " + StatusWords(t.Info.Status, l)
		if fonts.Width(fonts.LetteringBold, both, drawing.H50) <= w-4*Pad {
			out = both
		}
	}
	return out
}

// Fields are the fields in the order of the block: those of ISO 7200 always, so that a
// pen finds its place in them, and others where the job gives them.
func (t TitleBlock) Fields() []field {
	i := t.Info
	date := ""
	if !i.Date.IsZero() {
		date = i.Date.Format("2006-01-02")
	}
	owner := i.Contractor
	if len(t.letter) > 0 {
		owner = strings.Join(t.letter, " · ")
	}
	fields := []field{
		{t.language.Text("Contractor"), owner, 46, Note}, {t.language.Text("Client"), i.Client, 38, Note},
		{t.language.Text("Site"), i.Site, 46, Note}, {t.language.Text("Job"), i.Title, 38, Note},
		{t.language.Text("Title"), t.both(t.Title), 84, t.titleTall()},
		{t.language.Text("Document type"), t.kind(), 40, Note}, {t.language.Text("Drawing no."), i.Number, 40, Note},
		{t.language.Text("Sheet"), t.language.Textf("%s, %d of %d", t.Label, t.N, t.Of), 30, Note},
		{t.language.Text("Rev."), t.Revision, 14, Note},
		{t.language.Text("Plan code"), t.plan, 22, Note},
		{t.language.Text("Scale"), t.Scale, 30, Note}, {t.language.Text("Units"), t.Units, 40, Note},
		{t.language.Text("Paper"), t.Paper, 20, Note},
		{t.language.Text("Date"), date, 26, Note}, {t.language.Text("Drawn"), i.DrawnBy, 30, Note},
		{t.language.Text("Checked"), i.CheckedBy, 30, Note}, {t.language.Text("Approved"), i.ApprovedBy, 30, Note},
	}
	for _, f := range []field{{t.language.Text("Permit"), i.Permit, 30, Note}} {
		if f.Value != "" {
			fields = append(fields, f)
		}
	}
	switch {
	case t.Brief && t.Compact:
		fields = t.inTwoRows(fields)
	case t.Signed && t.Compact: // whose it is comes last, in a row
		fields = slices.Concat(fields[4:], fields[:3])
	}
	if t.Compact {
		return slices.DeleteFunc(fields, t.spared)
	}
	return fields
}

// inTwoRows orders the fields of a brief block so that they fill two rows: the owner, who would be alone
// in the first, comes last, and the units stand in the title's.
func (t TitleBlock) inTwoRows(fields []field) []field {
	named := func(name string) int {
		return slices.IndexFunc(fields, func(f field) bool { return f.Name == t.language.Text(name) })
	}
	units := fields[named("Units")]
	rest := slices.Delete(slices.Clone(fields), named("Units"), named("Units")+1)
	rest = slices.Insert(rest, named("Plan code"), units)
	return append(rest[1:], rest[0])
}

// spared reports whether a compact block goes without a field that ISO 7200 does not ask for: the
// paper it is printed on, and the scale of a sheet without a drawing; a brief one also without whose job it is.
func (t TitleBlock) spared(f field) bool {
	if t.Brief && slices.ContainsFunc([]string{"Client", "Site", "Job", "Checked"},
		func(name string) bool { return f.Name == t.language.Text(name) }) {
		return true
	}
	if t.Signed && f.Name == t.language.Text("Checked") {
		return true
	}
	return f.Name == t.language.Text("Paper") || f.Name == t.language.Text("Scale") && t.Scale == noScale
}

// noScale stands for the scale of a sheet without a drawing.
const noScale = "-"

// titleTall is the capital height of the title.
func (t TitleBlock) titleTall() float64 {
	if t.Compact {
		return Heading
	}
	return drawing.H50
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

// Rows packs the fields into rows w wide, in order.
func (t TitleBlock) Rows(w float64) [][]field {
	var rows [][]field
	used := math.Inf(1)
	for _, f := range t.Fields() {
		f = t.sized(f, w)
		own := math.Min(w, t.least(f))
		f.least = own
		if used+own > w+sumSlack || f.tall > Note {
			rows, used = append(rows, nil), 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], f)
		used += own
		if f.tall > Note && !t.Compact {
			used = w
		}
	}
	return accompanied(rows, w)
}

// sized is a field with its value as large as has room in one line, as two languages may not have.
func (t TitleBlock) sized(f field, w float64) field {
	if len(t.also) > 0 && f.tall > Heading && fonts.Width(fieldFace(f), f.Value, f.tall) > w-2*Pad {
		f.tall = Heading
	}
	return f
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
func (t TitleBlock) least(f field) float64 {
	if t.Compact {
		blank := f.least / 4
		if t.Brief || t.Signed {
			blank = briefBlank
		}
		return f.beside() + math.Max(blank, fonts.Width(fieldFace(f), f.Value, f.tall)) + Pad + 0.1
	}
	return math.Max(f.least, 2*Pad+fonts.Width(fonts.Lettering, t.named(f), Note))
}

// beside is how far right a value begins that stands beside its name.
func (f field) beside() float64 {
	return Pad + fonts.Width(fonts.Lettering, f.Name, Note) + nameGap
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
	if f.tall > Note {
		return fonts.LetteringBold
	}
	return fonts.Lettering
}

func (t TitleBlock) rowTall(ty *Typesetter, r []field, w float64) float64 {
	ws := stretch(r, w)
	h := 0.0
	for i, f := range r {
		dx, dy := t.valueAt(f)
		n := ty.Lines(fieldFace(f), f.Value, f.tall, ws[i]-dx-Pad)
		h = math.Max(h, dy+float64(n)*f.tall*valueLine+1)
	}
	return h
}

// valueAt is how far from a field's corner its value begins.
func (t TitleBlock) valueAt(f field) (dx, dy float64) {
	if t.Compact {
		return f.beside(), 0
	}
	return Pad, fieldName
}

// Kept is the height that a sheet keeps for the title block at a width of w, both mm of
// paper: its own, unless the job fixes its area.
func (t TitleBlock) Kept(ty *Typesetter, w float64) float64 {
	switch {
	case t.area == 0:
		return t.Height(ty, w)
	case t.Compact:
		return t.area * compactArea / w
	}
	return t.area / w
}

// Height is what the title block takes at a width of w, both mm of paper.
func (t TitleBlock) Height(ty *Typesetter, w float64) float64 {
	h := t.band()
	if _, _, beside := t.besides(ty, w); !beside {
		h += t.noteHeight(ty, w)
	}
	for _, r := range t.Rows(w) {
		h += t.rowTall(ty, r, w)
	}
	return h
}

// statusWidth is what the band of a compact block takes beside its note, mm.
func (t TitleBlock) statusWidth(words string, tall float64) float64 {
	return fonts.Width(fonts.LetteringBold, words, tall) + 4*Pad
}

// besides returns the words of a band that has the status' note beside it: in two lines at most, of a compact block
// that is wide enough; of two languages both where there is room for that in smaller letters.
func (t TitleBlock) besides(ty *Typesetter, w float64) (words string, tall float64, is bool) {
	words, tall = StatusWords(t.Info.Status, t.language), drawing.H50
	both := t.statusWords(math.Inf(1))
	for _, try := range []struct {
		words string
		tall  float64
	}{{both, drawing.H50}, {both, Heading}, {words, tall}} {
		room := w - t.statusWidth(try.words, try.tall) - 2*Pad
		if t.Compact && room > 60 && ty.Lines(fonts.Lettering, t.statusNote(), Note, room) <= 2 {
			return try.words, try.tall, true
		}
	}
	return words, tall, false
}

func (t TitleBlock) noteHeight(ty *Typesetter, w float64) float64 {
	return float64(ty.Lines(fonts.Lettering, t.statusNote(), Note, w-2*Pad))*Leading + underNote
}

// Set draws the title block from at, the upper left corner, w mm wide.
func (t TitleBlock) Set(pg *Page, at drawing.Pt, w float64) {
	box := drawing.Box{X0: at.X, Y0: at.Y, X1: at.X + w, Y1: at.Y + t.Height(pg.Ty, w)}
	ty := pg.Ty
	y := t.setBand(pg, at, w)
	for _, r := range t.Rows(w) {
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
	pg.Path(drawing.LayerFrame, "title block", drawing.Rectangle(box), drawing.WallLine(), nil)
}

// setBand draws the status: white letters on black, so that a sheet's status
// is read before anything else and on any printer.
func (t TitleBlock) setBand(pg *Page, at drawing.Pt, w float64) float64 {
	band := drawing.Box{X0: at.X, Y0: at.Y, X1: at.X + w, Y1: at.Y + t.band()}
	words, tall, beside := t.besides(pg.Ty, w)
	if beside {
		band.X1 = at.X + t.statusWidth(words, tall)
	} else {
		words = t.statusWords(w)
	}
	pg.Path(drawing.LayerFloor, "status", drawing.Rectangle(band), nil, drawing.Filled(drawing.Black))
	pg.Add(&drawing.Text{
		Layer: drawing.LayerText, At: drawing.Pt{X: band.Centre().X, Y: band.Centre().Y + tall/2},
		Text:   words,
		Height: tall, Face: fonts.LetteringBold, Anchor: drawing.Middle, Colour: drawing.White,
	})
	y := band.Y1
	if beside {
		lines, tight := pg.Ty.Wrap(t.statusNote(), at.X+w-band.X1-2*Pad), noteTight
		if len(t.also) > 0 {
			tight = noteLoose
		}
		up := float64(len(lines)-1) * (Note + tight) / 2
		for i, l := range lines {
			pg.Write(drawing.Pt{X: band.X1 + Pad, Y: band.Centre().Y + Note/2 - up + float64(i)*(Note+tight)}, l,
				Note,
				drawing.Start)
		}
		return y
	}
	for _, l := range pg.Ty.Wrap(t.statusNote(), w-2*Pad) {
		pg.Write(drawing.Pt{X: at.X + w/2, Y: y + firstLine}, l, Note, drawing.Middle)
		y += Leading
	}
	return y + underNote
}

func (t TitleBlock) setField(pg *Page, at drawing.Pt, f field, w float64) {
	pg.Add(&drawing.Text{
		Layer: drawing.LayerText, At: drawing.Pt{X: at.X + Pad, Y: at.Y + nameLine}, Text: t.named(f),
		Height: Note, Colour: drawing.Grey(0.6),
	})
	dx, dy := t.valueAt(f)
	for i, l := range pg.Ty.WrapIn(fieldFace(f), f.Value, f.tall, w-dx-Pad) {
		y := at.Y + dy + float64(i+1)*f.tall*valueLine - valueDown*(f.tall/Note)
		pg.WriteIn(fieldFace(f), drawing.Pt{X: at.X + dx, Y: y}, l, f.tall, drawing.Start)
	}
}

// TitleFor returns the title block of a sheet of the job.
func TitleFor(p *layout.Plan, title, form string) TitleBlock {
	var records []string
	for _, l := range p.Job.Also {
		records = append(records, RecordIn(p, p.Rooms, l))
	}
	return TitleBlock{
		also: p.Job.Also, records: records,
		Title: p.Job.Language.Text(title), Kind: p.Job.Language.Text(form), Revision: LastRevision(p), Info: p.Job.Info,
		Label: "MB-88", N: 88, Of: 88, // until they are known, room for two figures
		Units: unitsWords(p.Job.Sheet, p.Job.Figures().Units), letter: p.Job.Sheet.Letterhead, Scale: noScale,
		record: RecordOf(p, p.Rooms), plan: p.Code, area: p.Job.Sheet.TitleArea, language: p.Job.Language,
	}
}

// NoRevision stands for the letter of a revision where there is none.
const NoRevision = "-"

// LastRevision returns the letter of the last revision, a dash for none.
func LastRevision(p *layout.Plan) string {
	if n := len(p.Job.Revisions); n > 0 {
		return p.Job.Revisions[n-1].Letter
	}
	return NoRevision
}

// RecordOf says how the cables of rooms recorded as laid were found, by the
// weakest evidence among them.
func RecordOf(p *layout.Plan, rooms []layout.Room) string { return RecordIn(p, rooms, p.Job.Language) }

// RecordIn is RecordOf in a language.
func RecordIn(p *layout.Plan, rooms []layout.Room, l language.Language) string {
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
	f := p.Job.Figures()
	f.Language = l
	return f.Textf("%s, within %s either way", weakest.Job.Evidence, f.Spacing(weakest.Error))
}
