package probe

import (
	"fmt"
	"math"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/say"
)

// A Known is what record and label tell of a cable, whose fault is to be found from
// readings.
type Known struct {
	record.Cable
	OhmsFrom   string // what its ohms rest on, in words; empty: they are not known
	FaradsFrom string // likewise its capacitance
}

// KnownOf gathers what is known of a cable. meterShare is what a recorded reading may be off,
// as a share of it.
func KnownOf(c *layout.Cable, u plane.Units, meterShare float64) Known {
	k := Known{Cable: record.Cable{Length: c.Label.Length, Ends: c.Label.Ends, Lead: c.LeadAsCut(),
		Feet: u == plane.Inches}}
	k.ohms(c, meterShare)
	if r := handOver(c, func(r job.Reading) job.Figure { return r.Capacitance }); r != nil {
		k.Farads = record.MeterReading(r.Capacitance.Value, meterShare, 0, 0)
		k.FaradsFrom = fmt.Sprintf("the whole cable's %s are those recorded at stage %q",
			say.Nanofarads(r.Capacitance.Value), r.Stage)
	}
	return k
}

// ohms takes the whole cable's by its record, or by its label.
func (k *Known) ohms(c *layout.Cable, meterShare float64) {
	if r := handOver(c, func(r job.Reading) job.Figure { return r.Ohms }); r != nil {
		k.Ohms = record.MeterReading(r.Ohms.Value, meterShare, 0, 0)
		k.OhmsFrom = fmt.Sprintf("the whole cable's %s are those recorded at stage %q", say.Ohms(r.Ohms.Value), r.Stage)
		return
	}
	ohms := c.Label.Ohms
	source := "on its label"
	if ohms == 0 {
		ohms, source = c.Label.Volts*c.Label.Volts/c.Label.Watts, "reckoned from the volts and watts on its label"
	}
	if !(ohms > 0) || math.IsInf(ohms, 1) {
		return
	}
	spread := max(-c.Label.OhmsLow, c.Label.OhmsHigh)
	k.Ohms = record.Measured{Value: ohms, Error: spread * ohms}
	k.OhmsFrom = fmt.Sprintf("the whole cable's %s are those %s, within its tolerance of %s; a reading from hand-over "+
		"would be truer", say.Ohms(ohms), source, say.PercentGiven(spread))
}

// handOver returns the last reading before service that has the figure asked for, nil when
// there is none: later ones may be of the fault itself.
func handOver(c *layout.Cable, figure func(job.Reading) job.Figure) *job.Reading {
	if c.Laid == nil {
		return nil
	}
	var last *job.Reading
	for i := range c.Laid.Job.Readings {
		r := &c.Laid.Job.Readings[i]
		if f := figure(*r); r.Stage != record.Service.String() && f.Taken && !f.Over {
			last = r
		}
	}
	return last
}
