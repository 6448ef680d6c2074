package sheets

import "oxturn/drawing"

// finish sets what stands round the field: frame, proof and blocks. It returns
// the blocks that found no room.
func (pg *page) finish(a arrangement, l level) []block {
	pg.drawFrame()
	pg.titleAt = a.title
	pr := proof{ratio: a.scale.Ratio, units: figuresOf(pg.plan.Job).units}
	pr.set(pg, drawing.Pt{X: a.proof.X0, Y: a.proof.Y0}, a.proof.W())
	placed, rest := compose(pg.ty, measure(l.blocks), a.slots)
	for _, b := range placed {
		b.block.set(pg, b.at, b.w)
	}
	pg.partLines(a)
	return rest
}

// notes sets blocks on sheets without a drawing, of the page's paper.
func (pg *page) notes(id, title string, blocks []block) ([]*page, error) {
	if len(blocks) == 0 {
		return nil, nil
	}
	more, err := listSheets(pg.plan, waysOf(pg.sheet.Paper, pg.plan.Job.Sheet), id, title, "Notes", blocks)
	for _, m := range more {
		m.title.partly = pg.title.partly
	}
	return more, err
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
