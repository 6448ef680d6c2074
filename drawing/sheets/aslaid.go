package sheets

import (
	"fmt"

	"oxturn/layout"
	"oxturn/layout/job"
)

// recordOf says how the cables of rooms recorded as laid were found, by the
// weakest evidence among them.
func recordOf(p *layout.Plan, rooms []layout.Room) string {
	var weakest *layout.Laid
	for i := range rooms {
		for _, c := range rooms[i].Cables {
			if c.Laid.Recorded() && (weakest == nil || c.Laid.Error > weakest.Error) {
				weakest = c.Laid
			}
		}
	}
	if p.Job.Info.Status != job.AsLaid || weakest == nil {
		return ""
	}
	return fmt.Sprintf("%s, within %s either way", weakest.Job.Evidence, figuresOf(p.Job).length(weakest.Error))
}

// differMost is how many differences a sheet lists; the layout file has all.
const differMost = 8

// differences lists what does not lie where the plan had it; nothing when all
// does, or nothing is recorded.
func (v *roomView) differences() []block {
	l := list{head: "As laid against the plan"}
	for i := range v.room.Cables {
		c := &v.room.Cables[i]
		if !c.Laid.Recorded() || v.plan.Job.Info.Status != job.AsLaid {
			continue
		}
		for k, d := range c.Laid.Differ {
			if k == differMost {
				l.paras = append(l.paras, fmt.Sprintf("%s: %d more in the layout file.", c.ID, len(c.Laid.Differ)-k))
				break
			}
			l.paras = append(l.paras, fmt.Sprintf("%s%s: %s off, at %s.", v.prefix(c.ID), d.What, v.fig.length(d.Off), v.placeWords(d.Laid)))
		}
	}
	if len(l.paras) == 0 {
		return nil
	}
	return []block{l}
}
