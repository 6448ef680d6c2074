package load

import (
	"fmt"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/record"
)

// JudgeReadings warns of readings that are outside their limits or out of order.
func JudgeReadings(p *layout.Plan) []job.Diagnostic {
	var out []job.Diagnostic
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			c := &p.Rooms[i].Cables[k]
			c.Judge(p.Job.Sensor)
			out = append(out, outside(c)...)
		}
	}
	return out
}

func outside(c *layout.Cable) []job.Diagnostic {
	if err := c.Unjudged; err != nil {
		return []job.Diagnostic{{Severity: job.Warning, ID: "W111", Span: c.Laid.Job.Span,
			Message: fmt.Sprintf("the readings of cable %s cannot be held against its limits: %v", c.ID, err)}}
	}
	out := skipped(c)
	for _, v := range c.Verdicts {
		switch {
		case v.Item == record.OfStage || v.Item == record.OfDate:
			out = append(out, disorder(c, v))
		case v.Grade == record.Outside && v.Reading >= 0:
			out = append(out, job.Diagnostic{Severity: job.Warning, ID: "W111",
				Span:    c.Laid.Job.Readings[v.Reading].Span,
				Hint:    "read it again; what is outside its limit is not covered by the next trade",
				Message: fmt.Sprintf("cable %s, %s, %s: %s", c.ID, v.Stage, v.Item, v.Words)})
		}
	}
	return out
}

// skipped says which stages were gone over without a reading: what came between can
// no longer be told apart.
func skipped(c *layout.Cable) []job.Diagnostic {
	stages := SkippedStages(c)
	if len(stages) == 0 {
		return nil
	}
	readings := c.Laid.Job.Readings
	next := slices.IndexFunc(c.Tested, func(r record.Reading) bool { return r.Stage > stages[0] })
	return []job.Diagnostic{{Severity: job.Warning, ID: "W114", Span: readings[next].Spans.At("stage"),
		Hint: "add what was read; what nobody measured cannot be made up for: damage of that time shows only now",
		Message: fmt.Sprintf("cable %s was not tested at %s: the next reading is of stage %q, and what came between "+
			"was covered unmeasured", c.ID, record.StageWords(stages, language.English), c.Tested[next].Stage)}}
}

// SkippedStages are those without a reading before the last one that has any.
func SkippedStages(c *layout.Cable) (out []record.Stage) {
	for _, v := range c.Verdicts {
		if v.Grade == record.Missing && v.Reading < 0 {
			out = append(out, v.Stage)
		}
	}
	return out
}

// disorder says which reading goes back behind one written above it.
func disorder(c *layout.Cable, v record.Verdict) job.Diagnostic {
	at, before := c.Laid.Job.Readings[v.Reading], c.Laid.Job.Readings[v.Before]
	key, what := "stage", "readings stand in the order they were taken: move it up, or name the stage it was taken at"
	if v.Item == record.OfDate {
		key, what = "date", "readings stand in the order they were taken: look which of the two dates was misread"
	}
	return job.Diagnostic{Severity: job.Warning, ID: "W112", Span: at.Spans.At(key), Hint: what,
		Notes:   []job.Note{{Span: before.Spans.At(key), Message: "the reading it goes back behind is here"}},
		Message: fmt.Sprintf("cable %s, %s: %s", c.ID, v.Item, v.Words)}
}
