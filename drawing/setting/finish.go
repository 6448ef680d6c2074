package setting

import "oxturn/drawing"

// Finish sets what stands round the field: frame, proof and blocks. It returns
// the blocks that found no room.
func (pg *Page) Finish(a Arrangement, l Level) []Block {
	pg.TitleAt, pg.Blocks = a.title, l.Blocks
	if a.frame.Y1 == pg.frame.Y1 {
		pg.drawFrame()
		pr := Proof{ratio: a.Scale.Ratio, small: IsSmall(a.Paper), Units: pg.Plan.Job.Figures().Units}
		pr.Set(pg, drawing.Pt{X: a.proof.X0, Y: a.proof.Y0}, a.proof.W())
	}
	placed, rest := compose(pg.Ty, l.measured(), a.slots)
	for _, b := range placed {
		b.Block.Set(pg, b.At, b.W)
	}
	pg.ruleField(a)
	return rest
}

// Notes sets blocks on sheets without a drawing, of the page's paper as it lies.
func (pg *Page) Notes(id, title string, blocks []Block) ([]*Page, error) {
	if len(blocks) == 0 {
		return nil, nil
	}
	more, err := ListSheets(pg.Plan, []drawing.Paper{pg.Sheet.Paper}, id, title, pg.Ty.Text("Notes"), blocks)
	for _, m := range more {
		m.Title.Partly = pg.Title.Partly
	}
	return more, err
}

// ruleField rules off the field from the column and the strip.
func (pg *Page) ruleField(a Arrangement) {
	f := a.frame
	right, bottom := a.Field.X1+fieldEdge, a.proof.Y1+fieldEdge
	if IsSmall(a.Paper) {
		bottom = a.Field.Y1 + fieldEdge
		foot := a.proof.Y0 - fieldEdge/2
		if a.proof.H() == 0 { // another drawing stands below
			foot = f.Y1
		}
		pg.rule(drawing.Pt{X: f.X0, Y: foot}, drawing.Pt{X: f.X1, Y: foot}, drawing.MediumLine())
	}
	if right < f.X1-1 {
		pg.rule(drawing.Pt{X: right, Y: f.Y0}, drawing.Pt{X: right, Y: bottom}, drawing.MediumLine())
	}
	if bottom < f.Y1-1 {
		pg.rule(drawing.Pt{X: f.X0, Y: bottom}, drawing.Pt{X: right, Y: bottom}, drawing.MediumLine())
	}
}
