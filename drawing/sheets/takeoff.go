package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// takeOff sets what is to be bought as tables, over as many sheets as they
// take.
func takeOff(p *layout.Plan) ([]*setting.Page, error) {
	l := p.TakeOff
	if len(l.Lines) == 0 {
		return nil, nil
	}
	blocks := []setting.Block{takeOffTable(p)}
	if p.Job.Info.Status.String() == "proposal" {
		blocks = append(blocks, setting.List{Head: "Status", Paras: []string{
			"PROPOSAL. Quantities are from the sizes in the job file. The cable is ordered only after the finished " +
				"walls are measured: it cannot be shortened or lengthened, and is seldom taken back once unwound.",
		}})
	}
	for _, part := range []struct {
		head  string
		paras []string
	}{{"Included", l.Inclusions}, {"Not included", l.Exclusions}, {"Assumed", l.Assumptions}, {"Open questions",
		l.Questions}} {
		if len(part.paras) > 0 {
			blocks = append(blocks, setting.List{Head: part.head, Number: 1, Paras: part.paras})
		}
	}
	blocks = append(blocks, lossBlocks(p)...)
	if shifts := shiftBlocks(p); len(p.Rooms) == 1 && len(shifts) > 1 {
		blocks = append(blocks, setting.Together(shifts))
	} else {
		blocks = append(blocks, shifts...)
	}
	papers, err := setting.PapersFor(p.Job.Sheet, p.Job.Figures().Units)
	if err != nil {
		return nil, err
	}
	return setting.ListSheets(p, papers, "take-off", "Take-off", "Take-off", blocks)
}

// takeOffTable returns the lines of the take-off. Prices stand only where the
// job gives any.
func takeOffTable(p *layout.Plan) setting.Table {
	priced := false
	for _, l := range p.TakeOff.Lines {
		priced = priced || l.Price != 0
	}
	t := setting.Table{Head: "What to buy", Span: true, Cols: []setting.Column{
		{Head: "Item", Wraps: true}, {Head: "Worked out from", Wraps: true},
		{Head: "Net", Align: setting.Decimal, Group: true}, {Head: "Waste %", Align: setting.Decimal},
		{Head: "Gross", Align: setting.Decimal}, {Head: "Unit"}, {Head: "Gross, other units", Align: setting.Decimal},
		{Head: "Pack", Group: true, Align: setting.Decimal}, {Head: "Packs", Align: setting.Decimal}, {Head: "of"},
		{Head: "Spare", Align: setting.Decimal},
	}}
	if priced {
		price := "Price"
		if c := p.Job.Currency; c != "" {
			price += ", " + c
		}
		t.Cols = append(t.Cols, setting.Column{Head: "Price each", Align: setting.Decimal, Group: true},
			setting.Column{Head: price, Align: setting.Decimal})
	}
	t.Cols = append(t.Cols, setting.Column{Head: "Note", Wraps: true, Group: true})
	u := p.Job.Figures().Units
	for _, l := range p.TakeOff.Lines {
		t.Rows = append(t.Rows, takeOffRow(l, u, priced))
	}
	if priced {
		t.Rows = append(t.Rows, totalRow(p.TakeOff, len(t.Cols)))
	}
	return t
}

// takeOffRow writes one line in the sheet's own units.
func takeOffRow(l takeoff.Line, u plane.Units, priced bool) []setting.Cell {
	in := func(v float64) (string, string) {
		if u == plane.Inches {
			v, unit := takeoff.US(v, l.Unit)
			return takeoff.Figure(v, unit), unit
		}
		return takeoff.Figure(v, l.Unit), l.Unit
	}
	net, unit := in(l.Net)
	gross, _ := in(l.Gross)
	waste := "-"
	if l.Waste != 0 {
		waste = say.TrimFigure(100 * l.Waste)
	}
	pack, packs, of, spare := "-", "-", "-", "-"
	if l.Packs > 0 {
		packs = strconv.Itoa(l.Packs)
		if l.PackName != "" {
			of = packName(l)
		}
		if l.Pack > 0 {
			pack, _ = in(l.Pack)
			spare, _ = in(l.Spare)
		}
	}
	r := []setting.Cell{{Text: l.Item}, {Text: l.Basis}, {Text: net}, {Text: waste}, {Text: gross}, {Text: unit},
		{Text: otherSystem(l, u)}, {Text: pack}, {Text: packs, Strong: true}, {Text: of}, {Text: spare}}
	if priced {
		each, price := "", "" // to be filled in by hand
		if l.Price != 0 {
			each, price = fmt.Sprintf("%.2f", l.Each), fmt.Sprintf("%.2f", l.Price)
		}
		r = append(r, setting.Cell{Text: each}, setting.Cell{Text: price})
	}
	return append(r, setting.Cell{Text: l.Note})
}

// packName is what the packs of a line are called.
func packName(l takeoff.Line) string {
	switch {
	case l.Packs == 1:
		return l.PackName
	case strings.HasSuffix(l.PackName, "x"):
		return l.PackName + "es"
	}
	return l.PackName + "s"
}

// otherSystem writes the gross quantity in the units that are not the sheet's.
func otherSystem(l takeoff.Line, u plane.Units) string {
	v, unit := takeoff.US(l.Gross, l.Unit)
	if unit == l.Unit {
		return "-"
	}
	if u == plane.Inches {
		v, unit = l.Gross, l.Unit
	}
	return takeoff.Figure(v, unit) + " " + unit
}

func totalRow(l takeoff.List, cols int) []setting.Cell {
	sum, unpriced := l.Total()
	r := make([]setting.Cell, cols)
	r[0] = setting.Cell{Text: "Total of the prices given", Strong: true}
	r[cols-2] = setting.Cell{Text: fmt.Sprintf("%.2f", sum), Strong: true}
	if len(unpriced) > 0 {
		r[cols-1] = setting.Cell{Text: "without price: " + strings.Join(unpriced, ", ")}
	}
	return r
}
