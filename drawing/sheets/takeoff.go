package sheets

import (
	"fmt"
	"strings"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// takeOff sets what is to be bought as tables, over as many sheets as they
// take.
func takeOff(p *layout.Plan) ([]*page, error) {
	l := p.TakeOff
	if len(l.Lines) == 0 {
		return nil, nil
	}
	blocks := []block{takeOffTable(p)}
	if p.Job.Info.Status.String() == "proposal" {
		blocks = append(blocks, list{head: "Status", paras: []string{
			"PROPOSAL. Quantities are from the sizes in the job file. The cable is ordered only after the finished walls are measured: it cannot be shortened or lengthened, and is seldom taken back once unwound.",
		}})
	}
	for _, part := range []struct {
		head  string
		paras []string
	}{{"Included", l.Inclusions}, {"Not included", l.Exclusions}, {"Assumed", l.Assumptions}, {"Open questions", l.Questions}} {
		if len(part.paras) > 0 {
			blocks = append(blocks, list{head: part.head, number: 1, paras: part.paras})
		}
	}
	blocks = append(blocks, lossBlocks(p)...)
	if shifts := shiftBlocks(p); len(p.Rooms) == 1 && len(shifts) > 1 {
		blocks = append(blocks, together(shifts))
	} else {
		blocks = append(blocks, shifts...)
	}
	papers, err := papersFor(p.Job.Sheet, figuresOf(p.Job).units)
	if err != nil {
		return nil, err
	}
	return listSheets(p, papers, "take-off", "Take-off", "Take-off", blocks)
}

// takeOffTable returns the lines of the take-off. Prices stand only where the
// job gives any.
func takeOffTable(p *layout.Plan) table {
	priced := false
	for _, l := range p.TakeOff.Lines {
		priced = priced || l.Price != 0
	}
	t := table{head: "What to buy", span: true, cols: []column{
		{head: "Item", wraps: true}, {head: "Worked out from", wraps: true},
		{head: "Net", align: decimal, group: true}, {head: "Waste %", align: decimal}, {head: "Gross", align: decimal}, {head: "Unit"}, {head: "Gross, other units", align: decimal},
		{head: "Pack", group: true, align: decimal}, {head: "Packs", align: decimal}, {head: "of"}, {head: "Spare", align: decimal},
	}}
	if priced {
		price := "Price"
		if c := p.Job.Currency; c != "" {
			price += ", " + c
		}
		t.cols = append(t.cols, column{head: "Price each", align: decimal, group: true}, column{head: price, align: decimal})
	}
	t.cols = append(t.cols, column{head: "Note", wraps: true, group: true})
	u := figuresOf(p.Job).units
	for _, l := range p.TakeOff.Lines {
		t.rows = append(t.rows, takeOffRow(l, u, priced))
	}
	if priced {
		t.rows = append(t.rows, totalRow(p.TakeOff, len(t.cols)))
	}
	return t
}

// takeOffRow writes one line in the sheet's own units.
func takeOffRow(l takeoff.Line, u plane.Units, priced bool) []cell {
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
		waste = fmt.Sprintf("%.0f", 100*l.Waste)
	}
	pack, packs, of, spare := "-", "-", "-", "-"
	if l.Packs > 0 {
		packs = itoa(l.Packs)
		if l.PackName != "" {
			of = packName(l)
		}
		if l.Pack > 0 {
			pack, _ = in(l.Pack)
			spare, _ = in(l.Spare)
		}
	}
	r := []cell{{text: l.Item}, {text: l.Basis}, {text: net}, {text: waste}, {text: gross}, {text: unit}, {text: otherSystem(l, u)}, {text: pack}, {text: packs, strong: true}, {text: of}, {text: spare}}
	if priced {
		each, price := "", "" // to be filled in by hand
		if l.Price != 0 {
			each, price = fmt.Sprintf("%.2f", l.Each), fmt.Sprintf("%.2f", l.Price)
		}
		r = append(r, cell{text: each}, cell{text: price})
	}
	return append(r, cell{text: l.Note})
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

func totalRow(l takeoff.List, cols int) []cell {
	sum, unpriced := l.Total()
	r := make([]cell, cols)
	r[0] = cell{text: "Total of the prices given", strong: true}
	r[cols-2] = cell{text: fmt.Sprintf("%.2f", sum), strong: true}
	if len(unpriced) > 0 {
		r[cols-1] = cell{text: "without price: " + strings.Join(unpriced, ", ")}
	}
	return r
}
