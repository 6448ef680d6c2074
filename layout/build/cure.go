package build

import (
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/record"
)

// setsByCement are the kinds of layer that are taken as freshly made with cement and
// must harden before the floor is warmed.
var setsByCement = map[string]bool{"mortar": true, "membrane": true, "screed": true}

// fullUse gathers what must harden: the layers made with cement, any other
// that is given days or a day, and the grout. A slab is taken as old.
func fullUse(p *layout.Plan) {
	if firstCable(p) == nil || len(p.Job.BuildUp) == 0 && p.Job.Tile.Grouted.IsZero() && p.Job.Tile.GroutCure == 0 {
		return
	}
	f := &layout.FullUse{Cures: cures(p.Job)}
	if i := slices.IndexFunc(p.Job.BuildUp, func(l job.Layer) bool { return l.Kind == "screed" }); i >= 0 {
		f.Screed = p.Job.BuildUp[i].Name
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

// cures are what has to harden: the grout, and the layers that do.
func cures(j *job.Job) []record.Cure {
	out := []record.Cure{{Layer: "grout", Placed: j.Tile.Grouted, Days: j.Tile.GroutCure}}
	for _, l := range j.BuildUp {
		if setsByCement[l.Kind] || l.CureDays > 0 || !l.Placed.IsZero() {
			out = append(out, record.Cure{Layer: l.Name, Placed: l.Placed, Days: l.CureDays})
		}
	}
	return out
}
