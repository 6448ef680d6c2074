package load

import (
	"strings"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
)

// Region holds the job's figures against the rules of the region it names.
// What is outside one is a warning with the edition named; what the rules only
// remind of is kept in ToLookUp. Neither says that a rule is met.
func Region(p *layout.Plan) []job.Diagnostic {
	var out []job.Diagnostic
	seen := map[string]bool{}
	for _, f := range facts(p) {
		found, err := circuit.Check(p.Job.Supply.Region, []circuit.Fact{f.Fact})
		if err != nil {
			continue // the figure has been reported where it was worked out
		}
		for _, w := range found {
			switch {
			case w.Quantity != "":
				out = append(out, job.Diagnostic{Severity: job.Warning, ID: "W130", Span: f.at, Message: w.String(),
					Hint: "a look at the rules in force, not a finding: the electrician and the inspector decide"})
			case !seen[w.String()]:
				seen[w.String()] = true
				p.ToLookUp = append(p.ToLookUp, w)
			}
		}
	}
	return out
}

// A fact is a figure of the job with the place that it stands in.
type fact struct {
	circuit.Fact
	at job.Span
}

// facts are all figures that a region's rules may speak of.
func facts(p *layout.Plan) []fact {
	var out []fact
	add := func(q circuit.Quantity, v float64, about string, at job.Span) {
		out = append(out, fact{circuit.Fact{Quantity: q, Value: v, About: about}, at})
	}
	for _, r := range p.Rooms {
		for _, c := range r.Cables {
			name := "cable " + c.ID
			add(circuit.LeadLength, c.Label.Lead, name, c.Label.Spans.At("lead"))
			add(circuit.PowerPerLength, c.Circuit.WattsPerMetre, name, c.Label.Spans.At("watts"))
			if c.Laid == nil {
				continue
			}
			for _, x := range c.Laid.Job.Readings {
				if x.Insulation.Taken {
					add(circuit.InsulationVolts, x.Volts, name+", "+x.Stage, x.Span)
					if !x.Insulation.Over {
						add(circuit.InsulationMohm, x.Insulation.Value, name+", "+x.Stage, x.Span)
					}
				}
			}
		}
		if len(r.Cables) > 0 {
			add(circuit.LeadInBox, r.Job.Thermostat.Tail, "thermostat of "+r.Job.Name,
				r.Job.Thermostat.Spans.At("tail"))
		}
	}
	if p.Warmth != nil {
		for _, w := range p.Warmth.Runs {
			hot := p.Warmth.Warmest + w.Hot.Steady.Hottest
			add(circuit.ZoneCelsius, hot, strings.Join(w.Cables, ", ")+", left on without a thermostat",
				p.Job.Spans.At("layer"))
		}
	}
	for _, c := range p.Circuits {
		at := p.Job.Spans.At("supply")
		if c.Job != nil {
			at = c.Job.Span
		}
		add(circuit.CircuitAmps, c.Total.Amps, c.Name(), at)
		if c.Total.Cables > 1 {
			rating := c.Total.Continuous
			if c.Job != nil && c.Job.Breaker > 0 {
				rating = c.Job.Breaker
			}
			add(circuit.SharedAmps, rating, c.Name(), at)
		}
		if c.Job != nil && c.Job.GroundFault > 0 {
			add(circuit.GroundFaultTrip, c.Job.GroundFault, c.Name(), c.Job.Spans.At("ground_fault"))
		}
		if c.Drop != nil {
			add(circuit.FeedShare, 100*c.Drop.Share, c.Name(), at)
		}
	}
	return out
}
