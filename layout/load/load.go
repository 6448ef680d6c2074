// Package load works out what cables, thermostats and circuits carry, and holds that and
// the readings of the test record against what they may be.
package load

import (
	"errors"
	"fmt"
	"math"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/say"
)

// Loads works out every cable's electrical figures and what each room's
// thermostat feeds.
func Loads(p *layout.Plan) []job.Diagnostic {
	var out []job.Diagnostic
	for i := range p.Rooms {
		r := &p.Rooms[i]
		if len(r.Cables) == 0 {
			continue
		}
		out = append(out, electrics(r, p.Job.Supply)...)
		r.FindGaps(p.Job)
		l, err := load(r, p.Job)
		if err != nil {
			out = append(out, r.Problem("room %q: %v", r.Job.Name, err))
			continue
		}
		p.Load = append(p.Load, l)
	}
	return out
}

// electrics fills in each cable's Circuit; a supply unlike the label is an error.
func electrics(r *layout.Room, s job.Supply) []job.Diagnostic {
	var out []job.Diagnostic
	for i := range r.Cables {
		c := &r.Cables[i]
		var err error
		c.Circuit, err = circuit.Compute(circuitLabel(c.Label), s.Volts)
		if err == nil {
			continue
		}
		d := job.Diagnostic{Severity: job.Error, Span: c.Label.Span, Message: err.Error()}
		var wrong *circuit.VoltageError
		if errors.As(err, &wrong) {
			d.Message = wrongVolts(wrong)
			d.Hint = fmt.Sprintf("take a cable made for %s, or mend [supply] volts", say.Volts(s.Volts))
		}
		out = append(out, d)
	}
	return out
}

// wrongVolts gives both voltages and the heat that would come of it.
func wrongVolts(e *circuit.VoltageError) string {
	danger := "too little to warm the floor as planned"
	if e.Share > 1 {
		danger = "more than it is made for, which can destroy it"
	}
	return fmt.Sprintf("cable %s is made for %s but the supply is %s: it would give %s, %s of its rated heat, %s",
		e.Cable, say.Volts(e.Rated), say.Volts(e.Supply), say.Watts(math.Round(e.Watts)), say.Percent(e.Share), danger)
}

func circuitLabel(c job.Cable) circuit.Label {
	return circuit.Label{
		ID: c.ID, Volts: c.Volts, Watts: c.Watts, Length: c.Length, Ohms: c.Ohms,
		OhmsLow: c.OhmsLow, OhmsHigh: c.OhmsHigh, Tolerance: c.Tolerance.String(),
	}
}

func load(r *layout.Room, j *job.Job) (layout.Load, error) {
	s := j.Supply
	var cables []circuit.Cable
	for _, c := range r.Cables {
		cables = append(cables, c.Circuit)
	}
	total, err := circuit.Total(cables, s.ThermostatAmps, j.Region())
	return layout.Load{Room: r.Job.Name, Load: total}, err
}
