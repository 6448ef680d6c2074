package sheets

import "oxturn/drawing"

// finish sets what stands round the field: frame, proof and blocks. Blocks
// that found no room go on sheets of their own, which it returns as well.
func (pg *page) finish(a arrangement, l level) ([]*page, error) {
	pg.drawFrame()
	pg.titleAt = a.title
	pr := proof{ratio: a.scale.Ratio, units: figuresOf(pg.plan.Job).units}
	pr.set(pg, drawing.Pt{X: a.proof.X0, Y: a.proof.Y0}, a.proof.W())
	placed, rest := flow(pg.ty, measure(l.blocks), a.slots)
	for _, b := range placed {
		b.block.set(pg, b.at, b.w)
	}
	pg.partLines(a)
	rest = append(rest, l.rest...)
	if len(rest) == 0 {
		return []*page{pg}, nil
	}
	more, err := listSheets(pg.plan, waysOf(a.paper, pg.plan.Job.Sheet), pg.sheet.ID+"-notes", pg.sheet.Title+", notes", "Notes", rest)
	for _, m := range more {
		m.title.partly = pg.title.partly
	}
	return append([]*page{pg}, more...), err
}

// partLines rules off the field from the column and the strip.
func (pg *page) partLines(a arrangement) {
	f := pg.frame
	right, bottom := a.field.X1+edge, a.proof.Y1+edge
	if right < f.X1-1 {
		pg.rule(drawing.Pt{X: right, Y: f.Y0}, drawing.Pt{X: right, Y: bottom}, drawing.MediumLine())
	}
	if bottom < f.Y1-1 {
		pg.rule(drawing.Pt{X: f.X0, Y: bottom}, drawing.Pt{X: right, Y: bottom}, drawing.MediumLine())
	}
}
