package build

import (
	"fmt"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// tooHot warns of floors that would, left on, pass the limit of comfort for their
// room where the job does not say that their thermostats keep them below.
func tooHot(p *layout.Plan) []job.Diagnostic {
	var out []job.Diagnostic
	us := p.Job.Units == plane.Inches
	for i := range p.Rooms {
		r := &p.Rooms[i]
		v, set := p.Warmth.Comfort(r), r.Job.Thermostat.Limit
		if v == nil || !v.Over() || set > 0 && set <= v.Limit.Celsius {
			continue
		}
		out = append(out, job.Diagnostic{
			Severity: job.Warning, ID: "W123", Span: r.Job.Thermostat.Spans.At("floor_limit"),
			Message: fmt.Sprintf("room %q: %s", r.Job.Name, hotWords(v, set, us)),
			Hint: fmt.Sprintf("have the floor limit of its thermostat set to %s or less at hook-up, and write it "+
				"down as floor_limit in its [room.thermostat]", heat.Temperature(v.Limit.Celsius, us)),
		})
	}
	return out
}

// hotWords says how warm the floor would get, and what the thermostat is set to.
func hotWords(v *heat.Verdict, set float64, us bool) string {
	is := "no floor_limit is given"
	if set > 0 {
		is = fmt.Sprintf("floor_limit = %s is above it", heat.Temperature(set, us))
	}
	return fmt.Sprintf("the floor, left on, would reach %s over a cable in air at %s, above the %s that lasting "+
		"contact may have in a room of its kind (%s, %s); %s",
		heat.Temperature(v.Surface, us), heat.Temperature(v.Surface-v.Rise, us), heat.Temperature(v.Limit.Celsius,
			us), v.Limit.Name, v.Limit.Source, is)
}
