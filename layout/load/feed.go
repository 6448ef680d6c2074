package load

import (
	"fmt"
	"strings"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// Feeds works out what each circuit carries, in the order of their first
// rooms, and warns of what a rating given does not carry.
func Feeds(p *layout.Plan) []job.Diagnostic {
	var out []job.Diagnostic
	for _, l := range p.Load {
		out = append(out, contacts(p, l)...)
	}
	for _, group := range circuits(p) {
		c, err := group.add(p.Job.Region())
		if err != nil {
			out = append(out, job.Diagnostic{Span: group.at, Message: err.Error()})
			continue
		}
		out = append(out, overloaded(c)...)
		out = append(out, thinConductor(c)...)
		p.Circuits = append(p.Circuits, c)
	}
	return out
}

// A group is the rooms on one circuit.
type group struct {
	job      *job.Circuit
	rooms    []string
	cables   []circuit.Cable
	contacts float64
	at       job.Span
}

// circuits groups the rooms that have cable by what feeds them.
func circuits(p *layout.Plan) []group {
	var out []group
	for i := range p.Rooms {
		r := &p.Rooms[i]
		if p.LoadOf(r.Job.Name) == nil {
			continue // it has no cable, or its cables do not go together: already said
		}
		c := p.Job.Circuit(r.Job.Thermostat)
		g := group{job: c, contacts: p.Job.Supply.ThermostatAmps, at: r.Job.Thermostat.Span}
		at := -1
		for k := range out {
			if c != nil && out[k].job == c {
				at = k
			}
		}
		if at < 0 {
			out, at = append(out, g), len(out)
		} else {
			out[at].contacts = 0 // each thermostat has its own
		}
		out[at].rooms = append(out[at].rooms, r.Job.Name)
		for _, cable := range r.Cables {
			out[at].cables = append(out[at].cables, cable.Circuit)
		}
	}
	return out
}

func (g group) add(in circuit.Region) (layout.Circuit, error) {
	c := layout.Circuit{Job: g.job, Rooms: g.rooms}
	var err error
	if c.Total, err = circuit.Total(g.cables, g.contacts, in); err != nil {
		return c, fmt.Errorf("%s: %w", c.Name(), err)
	}
	ratings := in.Ratings
	if g.job != nil && g.job.Breaker > 0 {
		ratings = []float64{g.job.Breaker}
	}
	c.Ratings = c.Total.Bindings(ratings)
	if g.job == nil || g.job.Conductor == "" {
		return c, nil
	}
	c.Drop, err = drop(g.job, c.Total)
	return c, err
}

// drop works out the voltage lost on a circuit's feed. Metric sizes are moved
// to other temperatures as their own standard does, AWG sizes as theirs.
func drop(j *job.Circuit, l circuit.Load) (*circuit.Drop, error) {
	conductor, err := circuit.FindConductor(j.Conductor)
	if err != nil {
		return nil, err
	}
	by, at := circuit.CopperIEC, conductor.At
	if strings.HasSuffix(j.Conductor, "AWG") {
		by = circuit.CopperNEC
	}
	if j.CelsiusGiven {
		at = j.Celsius
	}
	d, err := circuit.FeedDrop(conductor, by, at, l.Amps, l.Volts, j.Length)
	return &d, err
}

// contacts warns of a load that a thermostat's contacts do not carry.
func contacts(p *layout.Plan, l layout.Load) []job.Diagnostic {
	if l.Needs == "" {
		return nil
	}
	return []job.Diagnostic{{
		Severity: job.Warning, ID: "W131", Span: p.Job.Spans.At("supply.thermostat_amps"),
		Message: fmt.Sprintf("room %q: %s is more than the thermostat's contacts carry, %s (%s): it needs %s",
			l.Room, say.Amps(l.Amps), say.AmpsGiven(l.Contacts), p.Job.Spans.Source("supply.thermostat_amps"), l.Needs),
		Hint: "the electrician settles which; take other cables, or give the contacts' own rating with [supply] " +
			"thermostat_amps",
	}}
}

// overloaded warns of a load above what a breaker that the job gives may carry
// by the region's rules.
func overloaded(c layout.Circuit) []job.Diagnostic {
	if c.Job == nil || c.Job.Breaker == 0 {
		return nil
	}
	usable := c.Ratings[0].Usable
	if c.Total.Amps <= usable*(1+plane.Whit) {
		return nil
	}
	in := c.Total.Region
	what := fmt.Sprintf("its %s of %s (job file) carries", in.Breaker, say.AmpsGiven(c.Job.Breaker))
	if in.Derated() {
		what = fmt.Sprintf("%s, which is %s of its %s of %s (job file): heating is a continuous load (%s)",
			say.AmpsGiven(usable), say.Percent(1/in.Continuous.Value), in.Breaker, say.AmpsGiven(c.Job.Breaker),
			in.Continuous.Source)
	}
	return []job.Diagnostic{{
		Severity: job.Warning, ID: "W131", Span: c.Job.Spans.At("breaker"),
		Message: fmt.Sprintf("%s: %s is more than %s", c.Name(), say.Amps(c.Total.Amps), what),
		Hint:    "the electrician settles the circuit; no " + in.Breaker + " is chosen here",
	}}
}

// thinConductor warns of a conductor that the region's table has behind smaller
// breakers than the job gives.
func thinConductor(c layout.Circuit) []job.Diagnostic {
	if c.Job == nil || c.Job.Breaker == 0 {
		return nil
	}
	in := c.Total.Region
	size, known := in.SizeNamed(c.Job.Conductor)
	if !known || c.Job.Breaker <= size.Most*(1+plane.Whit) {
		return nil
	}
	return []job.Diagnostic{{
		Severity: job.Warning, ID: "W132", Span: c.Job.Spans.At("conductor"),
		Message: fmt.Sprintf("%s: copper of %s usually goes behind %s at most (%s), and its %s has %s (job file)",
			c.Name(), size.Name, say.AmpsGiven(size.Most), in.SizesBy, in.Breaker, say.AmpsGiven(c.Job.Breaker)),
		Hint: "local code, the way it is laid and its insulation decide, and the electrician settles it: no " +
			"conductor is chosen here",
	}}
}
