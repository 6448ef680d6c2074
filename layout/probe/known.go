package probe

import (
	"math"
	"strconv"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
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
func KnownOf(c *layout.Cable, u plane.Units, meterShare float64, l language.Language) Known {
	k := Known{Cable: record.Cable{Length: c.Label.Length, Ends: c.Label.Ends, Lead: c.LeadAsCut(),
		Feet: u == plane.Inches}}
	k.ohms(c, meterShare, l)
	if r := handOver(c, func(r job.Reading) job.Figure { return r.Capacitance }); r != nil {
		k.Farads = record.MeterReading(r.Capacitance.Value, meterShare, 0, 0)
		k.FaradsFrom = l.Textf("the whole cable's %s are those recorded at stage %s",
			l.Figure(say.Nanofarads(r.Capacitance.Value)), strconv.Quote(l.Text(r.Stage)))
	}
	return k
}

// ohms takes the whole cable's by its record, or by its label.
func (k *Known) ohms(c *layout.Cable, meterShare float64, l language.Language) {
	if r := handOver(c, func(r job.Reading) job.Figure { return r.Ohms }); r != nil {
		k.Ohms = record.MeterReading(r.Ohms.Value, meterShare, 0, 0)
		k.OhmsFrom = l.Textf("the whole cable's %s are those recorded at stage %s", l.Figure(say.Ohms(r.Ohms.Value)),
			strconv.Quote(l.Text(r.Stage)))
		return
	}
	ohms := c.Label.Ohms
	source := l.Text("on its label")
	if ohms == 0 {
		ohms = c.Label.Volts * c.Label.Volts / c.Label.Watts
		source = l.Text("reckoned from the volts and watts on its label")
	}
	if !(ohms > 0) || math.IsInf(ohms, 1) {
		return
	}
	spread := max(-c.Label.OhmsLow, c.Label.OhmsHigh)
	k.Ohms = record.Measured{Value: ohms, Error: spread * ohms}
	k.OhmsFrom = l.Textf("the whole cable's %s are those %s, within its tolerance of %s; a reading from hand-over "+
		"would be truer", l.Figure(say.Ohms(ohms)), source, l.Figure(say.PercentGiven(spread)))
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
