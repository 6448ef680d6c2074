package layout

import (
	"oxturn/layout/job"
	"oxturn/layout/record"
)

// Readings returns what the job has of a cable's test record, in the order
// written, and what is to be said of it against the label's limits. Both are
// empty where nothing was read.
func (c *Cable) Readings() ([]record.Reading, []record.Verdict, error) {
	return c.Tested, c.Verdicts, c.Unjudged
}

// RecordLimits is what a cable's readings are held against: its label's ohms,
// and insulation at the voltage that the tester was set to.
func (c *Cable) RecordLimits() record.Limits {
	limits := record.DefaultLimits(c.Circuit.Nominal)
	limits.Low, limits.High, limits.ToleranceSource = c.Circuit.Limits.LowShare, c.Circuit.Limits.HighShare,
		c.Circuit.Limits.Source
	limits.OhmsSource = c.Circuit.OhmsFrom
	if c.Laid == nil {
		return limits
	}
	for _, r := range c.Laid.Job.Readings {
		if r.Volts > 0 {
			limits.Volts = r.Volts
		}
	}
	return limits
}

// Judge holds what was read of a cable against its limits, its sensors against
// the job's kind; Build does so for every cable.
func (c *Cable) Judge(s job.Sensor) {
	if c.Laid == nil || len(c.Laid.Job.Readings) == 0 {
		return
	}
	c.Tested = nil
	for _, r := range c.Laid.Job.Readings {
		one := reading(r)
		band(&one, s)
		c.Tested = append(c.Tested, one)
	}
	c.Verdicts, c.Unjudged = record.Judge(c.RecordLimits(), c.Tested)
}

func reading(r job.Reading) record.Reading {
	stage, _ := record.StageNamed(r.Stage)
	out := record.Reading{Stage: stage, Date: r.Date, By: r.By, Volts: r.Volts, Ohms: taken(r.Ohms),
		Insulation: taken(r.Insulation), Sensor: taken(r.Sensor), Spare: taken(r.Spare), Floor: taken(r.Floor)}
	switch r.Hand {
	case "open":
		out.Hand = record.Open
	case "connected":
		out.Hand = record.Connected
	}
	return out
}

func taken(f job.Figure) record.Figure {
	return record.Figure{Value: f.Value, Taken: f.Taken, Over: f.Over}
}
