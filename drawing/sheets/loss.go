package sheets

import (
	"oxturn/layout"
	"oxturn/layout/plane"
)

// lossBlocks hold what each floor gives against what its room loses.
func lossBlocks(p *layout.Plan) []block {
	var out []block
	units := figuresOf(p.Job).units
	for _, l := range p.Losses {
		paras := []string{sentence(l.Words(units))}
		for _, w := range l.Loss.Words(units == plane.Inches) {
			paras = append(paras, sentence(wholeStandards(w)))
		}
		paras = append(paras, "No room temperature is promised: a heat-loss calculation by the local standard is its designer's.")
		out = append(out, list{head: "Heat loss, simplified: " + l.Room, number: 1, paras: paras})
	}
	return out
}
