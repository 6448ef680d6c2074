package sheets

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"oxturn/layout/language"

	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/pattern"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// takeOffID is the kind of the take-off.
const takeOffID = "take-off"

// takeOff sets what is to be bought as tables, over as many sheets as they take. Into the white
// of the last goes what pages leave over that is looked up at a desk.
func takeOff(p *layout.Plan, pages []*setting.Page) ([]*setting.Page, error) {
	if len(p.TakeOff.Lines) == 0 {
		return nil, nil
	}
	k := kindNamed(takeOffID)
	set := func(blocks []setting.Block) ([]*setting.Page, error) {
		return setting.ListSheets(p, setting.FormPaper(p.Job), k.ID, k.Title, k.Form, blocks)
	}
	return filled(p, set, takeOffBlocks(p), pages,
		func(b setting.Block) (setting.Block, bool) { return atDesk(p, b) })
}

// atDesk reports whether a block is what figures rest on: nothing to work by on the floor. A list
// is as wide as the sheet then, where it is lowest below tables that are, and in fine print, as the
// sheet is a form. Small sheets have the floor's warmth there too, which is read with its cost.
func atDesk(p *layout.Plan, b setting.Block) (as setting.Block, ok bool) {
	head, f := "", p.Job.Figures()
	heads := []string{f.Text(restHead), f.Text(lossHead), f.Text(warmUpHead)}
	if onSmall(p) {
		heads = append(heads, f.Textf(surfaceHead, degree(f)), f.Text(energyHead))
	}
	switch own := b.(type) {
	case setting.List:
		head, own.Span, own.Fine = own.Head, true, true
		b = own
	case setting.Table:
		head = own.Head
	case warmFloor:
		return b, onSmall(p)
	case setting.Chart: // of the warm-up, beside its times
		return b, true
	}
	return b, slices.ContainsFunc(heads, func(h string) bool { return strings.HasPrefix(head, h) })
}

// assumed is the place of what is assumed among the terms of a take-off.
const assumed = 2

// takeOffBlocks are the take-off and what it stands on.
func takeOffBlocks(p *layout.Plan) []setting.Block {
	l := p.TakeOff
	terms := setting.List{Span: true, Number: 1, Fine: onSmall(p)}
	if p.Offer != nil { // its cover says what is included, what is not, and what it rests on
		l.Inclusions, l.Exclusions = nil, nil
	}
	f := p.Job.Figures()
	common := commonBasis(l, f)
	for i, part := range []struct {
		head  string
		paras []language.Message
	}{{p.Job.Language.Text("Included: "), l.Inclusions}, {p.Job.Language.Text("Not included: "), l.Exclusions},
		{p.Job.Language.Text("Assumed: "), l.Assumptions},
		{p.Job.Language.Text("Open: "), l.Questions}} {
		if len(part.paras) == 0 {
			continue
		}
		said := strings.Join(language.In(p.Job.Language, part.paras), " ")
		if i == assumed && common != "" {
			said += " " + f.Textf("Else counted on: %s.", common)
		}
		terms.Paras = append(terms.Paras, part.head+ownUnits(said, f))
	}
	terms.Paras = append(terms.Paras, shiftTerms(p)...)
	lines := takeOffTable(p)
	if slices.ContainsFunc(lines.Rows, isStarred) {
		terms.Paras = withLast(terms.Paras, f.Text(starNote))
	}
	blocks := slices.Concat([]setting.Block{lines, terms}, offerBlocks(p), shiftBlocks(p))
	if thickness(p.Job.BuildUp) <= 0 { // else it is with the build-up
		blocks = append(blocks, lossBlocks(p)...)
	}
	return blocks
}

// withLast adds a sentence to the last of some paragraphs.
func withLast(paras []string, sentence string) []string {
	n := len(paras)
	if n == 0 {
		return []string{sentence}
	}
	return append(slices.Clone(paras[:n-1]), paras[n-1]+" "+sentence)
}

// takeOffTable returns the lines of the take-off. Prices stand only where the
// job gives any.
func takeOffTable(p *layout.Plan) setting.Table {
	priced := false
	for _, l := range p.TakeOff.Lines {
		priced = priced || l.Price != 0
	}
	t := setting.Table{Span: true, Fine: onSmall(p), Cols: []setting.Column{
		{Head: p.Job.Language.Text("Item"), Wraps: true},
		{Head: p.Job.Language.Text("Net"), Align: setting.Decimal}, {Head: "+ %", Align: setting.Decimal},
		{Head: p.Job.Language.Text("Gross"), Align: setting.Decimal}, {Head: p.Job.Language.Text("Unit")},
		{Head: p.Job.Language.Text("Pack"), Align: setting.Decimal}, {Head: p.Job.Language.Text("Packs"),
			Align: setting.Decimal}, {Head: p.Job.Language.Text("of")},
		{Head: p.Job.Language.Text("Spare"), Align: setting.Decimal},
	}}
	if priced {
		price := p.Job.Language.Text("Price")
		if c := p.Job.Currency; c != "" {
			price += ", " + c
		}
		t.Cols = append(t.Cols, setting.Column{Head: p.Job.Language.Text("Price each"), Align: setting.Decimal},
			setting.Column{Head: price, Align: setting.Decimal})
	}
	f, most := p.Job.Figures(), oneLine
	common := commonBasis(p.TakeOff, f)
	if t.Fine {
		most = fineLine
	}
	for _, l := range p.TakeOff.Lines {
		t.Rows = append(t.Rows, takeOffRow(l, common, most, f, priced))
	}
	if priced {
		t.Rows = append(t.Rows, totalRow(f, p.TakeOff, len(t.Cols)))
	}
	return t
}

// takeOffRow writes one line in the sheet's own units, so many letters of what it is worked out from beside its item.
func takeOffRow(l takeoff.Line, common string, most int, f say.Figures, priced bool) []setting.Cell {
	in := func(v float64) (string, string) {
		if f.Units == plane.Inches {
			v, unit := takeoff.US(v, l.Unit)
			return f.Figure(takeoff.Figure(v, unit)), f.Text(unit)
		}
		return f.Figure(takeoff.Figure(v, l.Unit)), f.Text(l.Unit)
	}
	net, unit := in(l.Net)
	gross, _ := in(l.Gross)
	waste := "-"
	if l.Waste != 0 {
		waste = f.TrimFigure(100 * l.Waste)
	}
	pack, packs, of, spare := "-", "-", "-", "-"
	if l.Packs > 0 {
		packs = strconv.Itoa(l.Packs)
		if l.PackName != "" {
			of = f.Text(say.Plural(l.Packs, l.PackName))
		}
		if l.Pack > 0 {
			pack, _ = in(l.Pack)
			spare, _ = in(l.Spare)
		}
	}
	r := []setting.Cell{{Text: l.Item.In(f.Language)}, {Text: net}, {Text: waste}, {Text: gross}, {Text: unit},
		{Text: pack},
		{Text: packs, Strong: true}, {Text: of}, {Text: spare}}
	if priced {
		each, price := "", "" // to be filled in by hand
		if l.Price != 0 {
			each, price = f.Price(l.Each), f.Price(l.Price)
		}
		r = append(r, setting.Cell{Text: each}, setting.Cell{Text: price})
	}
	switch under := starred(ownUnits(below(l, common, f), f), f); {
	case under == "":
	case utf8.RuneCountInString(r[0].Text+under) < most:
		r[0].Text += ", " + under
	default:
		r = append(r, setting.Cell{Text: under})
	}
	return r
}

// starred marks what is not from the job, and leaves out that the rest is.
func starred(text string, f say.Figures) string {
	return strings.NewReplacer(", "+f.Text(job.FromDefault.String()), "*", ", "+f.Text(job.FromJob.String()), "").
		Replace(text)
}

// isStarred reports whether a row has something that is not from the job.
func isStarred(row []setting.Cell) bool {
	return slices.ContainsFunc(row, func(c setting.Cell) bool { return strings.Contains(c.Text, "*") })
}

// starNote says what a star means.
const starNote = "* by default, not from the job."

// oneLine is how many letters of a line's item and basis stand beside its figures, fineLine in fine print.
const (
	oneLine  = 52
	fineLine = 80
)

// commonLeast is how many lines of a take-off have one basis where it is said once, below them.
const commonLeast = 3

// commonBasis is what most lines are worked out from, empty where no three share one.
func commonBasis(l takeoff.List, f say.Figures) string {
	count := map[string]int{}
	most := ""
	for _, line := range l.Lines {
		b := line.Basis.In(f.Language)
		if count[b]++; b != "" && count[b] >= commonLeast && count[b] > count[most] {
			most = b
		}
	}
	return most
}

// below is what a line is worked out from, but for what is common to many, with its note.
func below(l takeoff.Line, common string, f say.Figures) string {
	if l.Basis.In(f.Language) == common {
		return l.Note.In(f.Language)
	}
	return language.Joined("; ", l.Basis, l.Note).In(f.Language)
}

// otherUnit matches a quantity of the other system in brackets, behind one of the sheet's own.
var otherUnit = map[plane.Units]func() *regexp.Regexp{
	plane.Inches:      pattern.Of(` \([\d.,]+ (m²|m|mm|kg|L|mL|kg/L)\)`),
	plane.Millimetres: pattern.Of(` \([\d.,]+ (ft²|ft|in|lb|gal|fl oz|lb/ft³)\)`),
}

// ownUnits leaves out what stands in brackets in the other system; its file has both.
func ownUnits(text string, f say.Figures) string {
	if f.Both {
		return text
	}
	u := f.Units
	if u != plane.Inches {
		u = plane.Millimetres
	}
	return otherUnit[u]().ReplaceAllString(text, "")
}

func totalRow(f say.Figures, l takeoff.List, cols int) []setting.Cell {
	sum, unpriced := l.Total()
	r := make([]setting.Cell, cols)
	r[0] = setting.Cell{Text: f.Text("Total of the prices given"), Strong: true}
	r[cols-1] = setting.Cell{Text: f.Price(sum), Strong: true}
	if len(unpriced) > 0 {
		r = append(r, setting.Cell{Text: f.Textf("without price: %s", strings.Join(language.In(f.Language, unpriced),
			", "))})
	}
	return r
}
