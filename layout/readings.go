package layout

import (
	"fmt"
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/record"
)

// Readings returns what the job has of a cable's test record, in the order
// written, and what is to be said of it against the label's limits. Both are
// empty where nothing was read.
func (c *Cable) Readings() ([]record.Reading, []record.Verdict, error) {
	return c.readings, c.verdicts, c.unjudged
}

// RecordLimits is what a cable's readings are held against: its label's ohms,
// and insulation at the voltage that the tester was set to.
func (c *Cable) RecordLimits() record.Limits {
	limits := record.DefaultLimits(c.Circuit.Nominal)
	limits.Low, limits.High, limits.ToleranceSource = c.Circuit.Limits.LowShare, c.Circuit.Limits.HighShare, c.Circuit.Limits.Source
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
	c.readings = nil
	for _, r := range c.Laid.Job.Readings {
		one := reading(r)
		band(&one, s)
		c.readings = append(c.readings, one)
	}
	c.verdicts, c.unjudged = record.Judge(c.RecordLimits(), c.readings)
}

func reading(r job.Reading) record.Reading {
	stage, _ := record.StageNamed(r.Stage)
	out := record.Reading{Stage: stage, Date: r.Date, By: r.By, Volts: r.Volts, Ohms: taken(r.Ohms), Insulation: taken(r.Insulation), Sensor: taken(r.Sensor), Spare: taken(r.Spare), Floor: taken(r.Floor)}
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

// judge warns of readings that are outside their limits or out of order.
func (p *Plan) judge() []job.Diagnostic {
	var out []job.Diagnostic
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			c := &p.Rooms[i].Cables[k]
			c.Judge(p.Job.Sensor)
			out = append(out, c.outside()...)
		}
	}
	return out
}

func (c *Cable) outside() []job.Diagnostic {
	if err := c.unjudged; err != nil {
		return []job.Diagnostic{{Severity: job.Warning, ID: "W111", Span: c.Laid.Job.Span, Message: fmt.Sprintf("the readings of cable %s cannot be held against its limits: %v", c.ID, err)}}
	}
	out := c.skipped()
	for _, v := range c.verdicts {
		switch {
		case v.Item == record.OfStage || v.Item == record.OfDate:
			out = append(out, c.disorder(v))
		case v.Grade == record.Outside && v.Reading >= 0:
			out = append(out, job.Diagnostic{Severity: job.Warning, ID: "W111", Span: c.Laid.Job.Readings[v.Reading].Span, Hint: "read it again; what is outside its limit is not covered by the next trade",
				Message: fmt.Sprintf("cable %s, %s, %s: %s", c.ID, v.Stage, v.Item, v.Words)})
		}
	}
	return out
}

// skipped says which stages were gone over without a reading: what came between can
// no longer be told apart.
func (c *Cable) skipped() []job.Diagnostic {
	stages := c.SkippedStages()
	if len(stages) == 0 {
		return nil
	}
	readings := c.Laid.Job.Readings
	next := slices.IndexFunc(c.readings, func(r record.Reading) bool { return r.Stage > stages[0] })
	return []job.Diagnostic{{Severity: job.Warning, ID: "W114", Span: readings[next].Spans.At("stage"), Hint: "add what was read; what nobody measured cannot be made up for: damage of that time shows only now",
		Message: fmt.Sprintf("cable %s was not tested at %s: the next reading is of stage %q, and what came between was covered unmeasured", c.ID, record.StageWords(stages), c.readings[next].Stage)}}
}

// SkippedStages are those without a reading before the last one that has any.
func (c *Cable) SkippedStages() (out []record.Stage) {
	for _, v := range c.verdicts {
		if v.Grade == record.Missing && v.Reading < 0 {
			out = append(out, v.Stage)
		}
	}
	return out
}

// disorder says which reading goes back behind one written above it.
func (c *Cable) disorder(v record.Verdict) job.Diagnostic {
	at, before := c.Laid.Job.Readings[v.Reading], c.Laid.Job.Readings[v.Before]
	key, what := "stage", "readings stand in the order they were taken: move it up, or name the stage it was taken at"
	if v.Item == record.OfDate {
		key, what = "date", "readings stand in the order they were taken: look which of the two dates was misread"
	}
	return job.Diagnostic{Severity: job.Warning, ID: "W112", Span: at.Spans.At(key), Hint: what, Notes: []job.Note{{Span: before.Spans.At(key), Message: "the reading it goes back behind is here"}},
		Message: fmt.Sprintf("cable %s, %s: %s", c.ID, v.Item, v.Words)}
}
