// Package load works out what cables, thermostats and circuits carry, and holds that and
// the readings of the test record against what they may be.
package load

import (
	"errors"
	"fmt"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
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
			d.Hint = fmt.Sprintf("take a cable made for %g V, or mend [supply] volts", s.Volts)
		}
		out = append(out, d)
	}
	return out
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
