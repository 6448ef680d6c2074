package layout

import (
	"fmt"

	"oxturn/layout/job"
)

// wideGap warns of the room's widest gap where it is more than the job allows:
// the floor between those runs stays cooler than the rest.
func (r *Room) wideGap(j *job.Job) []job.Diagnostic {
	var worst *Cable
	for i := range r.Cables {
		if c := &r.Cables[i]; worst == nil || c.Gaps.Widest > worst.Gaps.Widest {
			worst = c
		}
	}
	pitch, allowed := j.Membrane.Pitch, j.Spacing.Widest
	if worst == nil || worst.Gaps.Widest <= (float64(allowed)+0.1)*pitch {
		return nil
	}
	wide := worst.Gaps.Widest
	d := job.Diagnostic{Severity: job.Warning, ID: "W105", Span: r.Job.Spans.At("cables")}
	d.Message = fmt.Sprintf("room %q: beside run %s of %s the next run is %s (%.3g pegs) away, more than the %d pegs allowed; the floor between stays cooler",
		r.Job.Name, worst.RunName(worst.Gaps.Beside), worst.ID, runsApart(wide, j.Units), wide/pitch, allowed)
	d.Hint = "a cable of another length may lie more evenly; see what the floor takes with oxturn choose, or allow W105"
	if least, laid := r.takes(j, worst.Zone); laid < least {
		d.Hint = fmt.Sprintf("%s of cable is little for this floor, which takes about %s at %d pegs: take a longer cable, or allow W105", length(laid, j.Units), length(least, j.Units), allowed)
	}
	return []job.Diagnostic{d}
}

// takes returns the least cable that a zone takes at the widest gap, and how
// much lies in it.
func (r *Room) takes(j *job.Job, zone int) (least, laid float64) {
	for _, c := range r.Cables {
		if c.Zone == zone {
			laid += c.Label.Length
		}
	}
	if zone < 0 || zone >= len(r.Zones) {
		return 0, laid
	}
	least, _ = lengths(j, r.Zones[zone])
	return least, laid
}
