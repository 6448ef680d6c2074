package build

import (
	"fmt"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// tooDense warns of cables whose power per area is above the job's own limit.
func tooDense(r *layout.Room, j *job.Job) []job.Diagnostic {
	var out []job.Diagnostic
	for i := range r.Cables {
		c := &r.Cables[i]
		if c.Keeps() {
			continue
		}
		d := job.Diagnostic{Severity: job.Warning, ID: "W108", Span: j.Spans.At("supply.max_density")}
		d.Message = fmt.Sprintf("room %q: %s gives %s, more than the %s allowed (%s)", r.Job.Name, c.ID,
			judgedWords(c, j.Units), say.DensityBoth(c.Gaps.Most, j.Units), c.Gaps.MostFrom)
		d.Hint = "take a cable of less power for its length, see oxturn choose, or ask its maker"
		if c.Gaps.MostOver == "" && max(c.Density, c.Gaps.Densest) <= c.Gaps.Most {
			d.Message += fmt.Sprintf("; at even spacing, half a gap beyond the outer runs counted in, it is %s "+
				"over %s",
				say.DensityBoth(c.Density, j.Units), say.AreaBoth(c.AtEven(), j.Units))
			d.Hint = "take a cable of less power for its length, see oxturn choose; where the limit is given by the " +
				"gap between runs, write max_density_over = \"" + job.OverEven + "\""
		}
		out = append(out, d)
	}
	return out
}

// judgedWords names what is held against the limit, with its area.
func judgedWords(c *layout.Cable, u plane.Units) string {
	most := say.DensityBoth(c.Judged(), u)
	switch c.Judged() {
	case c.Gaps.Densest:
		return fmt.Sprintf("%s over three neighbouring runs, round run %s", most, c.RunName(c.Gaps.Run))
	case c.Density:
		return fmt.Sprintf("%s at even spacing, over %s", most, say.AreaBoth(c.AtEven(), u))
	}
	return fmt.Sprintf("%s over the %s of heated floor that it serves", most, say.AreaBoth(c.Share.Area(), u))
}
