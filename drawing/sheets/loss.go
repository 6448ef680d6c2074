package sheets

import (
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/plane"
)

// lossHead is over what a room loses, with its name.
const lossHead = "Heat loss, simplified: "

// lossBlocks hold what each floor gives against what its room loses.
func lossBlocks(p *layout.Plan) []setting.Block {
	var out []setting.Block
	units := p.Job.Figures().Units
	for _, l := range p.Losses {
		paras := []string{sentence(l.Words(p.Job.Figures()))}
		for _, w := range l.Loss.Words(units == plane.Inches) {
			paras = append(paras, sentence(wholeStandards(w.In(p.Job.Language))))
		}
		paras = append(paras, p.Job.Language.Text("No room temperature is promised: a heat-loss calculation by the "+
			"local standard is its designer's."))
		out = append(out, setting.List{Head: p.Job.Language.Text(lossHead) + l.Room, Number: 1, Paras: paras,
			Fine: onSmall(p)})
	}
	return out
}
