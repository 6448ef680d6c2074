package build

import (
	"oxturn/layout"
	"oxturn/layout/record"
)

// cement are the kinds of layer that are taken as freshly made with cement and
// must harden before the floor is warmed.
var cement = map[string]bool{"mortar": true, "membrane": true, "screed": true}

// fullUse gathers what must harden: the layers made with cement, any other
// that is given days or a day, and the grout. A slab is taken as old.
func fullUse(p *layout.Plan) {
	if firstCable(p) == nil || len(p.Job.BuildUp) == 0 && p.Job.Tile.Grouted.IsZero() && p.Job.Tile.GroutCure == 0 {
		return
	}
	f := &layout.FullUse{Cures: []record.Cure{{Layer: "grout", Placed: p.Job.Tile.Grouted, Days: p.Job.Tile.GroutCure}}}
	for _, l := range p.Job.BuildUp {
		if l.Kind == "screed" && f.Screed == "" {
			f.Screed = l.Name
		}
		if cement[l.Kind] || l.CureDays > 0 || !l.Placed.IsZero() {
			f.Cures = append(f.Cures, record.Cure{Layer: l.Name, Placed: l.Placed, Days: l.CureDays})
		}
	}
	for _, c := range f.Cures {
		if c.Placed.IsZero() {
			f.Open = append(f.Open, c.Layer)
		}
	}
	if use, ok := record.EarliestUse(f.Cures); ok {
		f.Date, f.By = use.Date, use.Layer
	}
	p.FullUse = f
}
