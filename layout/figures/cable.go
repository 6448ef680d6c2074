package figures

import (
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/record"
)

// A Cable is one cable as it is laid.
type Cable struct {
	ID            string    `json:"id"`
	Label         string    `json:"label"`
	Volts         float64   `json:"volts"`
	Watts         float64   `json:"watts"`
	Amps          float64   `json:"amps"`
	Ohms          Ohms      `json:"resistance"`
	Length        float64   `json:"length_mm"`
	WattsPerMetre float64   `json:"w_m"`
	Spacing       Spacing   `json:"spacing"`
	Served        float64   `json:"served_m2"`
	Lead          Lead      `json:"cold_lead"`
	Runs          int       `json:"runs"`
	HalfRun       int       `json:"halfway_run"`
	HalfInto      float64   `json:"halfway_into_run_mm"`
	HeldAgainst   string    `json:"readings_held_against"`
	Readings      []Verdict `json:"readings"`
	Worst         string    `json:"worst_reading"` // empty: nothing was read
}

// Ohms are a cable's resistance at 20 °C, and the heat at either end of its
// tolerance.
type Ohms struct {
	Nominal  float64 `json:"ohms"`
	From     string  `json:"from"`
	Low      float64 `json:"least_ohms"`
	High     float64 `json:"most_ohms"`
	Under    float64 `json:"under_percent"`
	Over     float64 `json:"over_percent"`
	Source   string  `json:"limits_from"`
	LabelGap float64 `json:"label_off_volts_and_watts_percent"`
	Most     float64 `json:"heat_at_least_ohms_w"`
	Least    float64 `json:"heat_at_most_ohms_w"`
}

// Spacing is how far a cable's runs lie apart, and the heat that makes.
type Spacing struct {
	Even       float64 `json:"even_mm"`
	Closest    float64 `json:"closest_mm"` // 0: no two runs lie side by side
	Widest     float64 `json:"widest_mm"`
	Density    float64 `json:"at_even_w_m2"`
	Densest    float64 `json:"densest_over_three_runs_w_m2"`
	DensestRun int     `json:"densest_run"`
}

// A Lead is a cold lead's way and what is left of it.
type Lead struct {
	Length float64 `json:"length_mm"`
	Rise   Limit   `json:"rise_mm"`
	Tail   Limit   `json:"tail_mm"`
	Slack  Limit   `json:"slack_mm"`
	Reach  float64 `json:"reach_over_floor_mm"`
	Used   float64 `json:"on_floor_mm"`
	Left   float64 `json:"left_mm"`
	Ends   int     `json:"cold_ends"`
}

// A Verdict is one thing said about the test record.
type Verdict struct {
	Stage string `json:"stage"`
	Item  string `json:"item"`
	Grade string `json:"grade"`
	Words string `json:"words"`
}

func cable(c *layout.Cable, t job.Thermostat) Cable {
	out := Cable{
		ID: c.ID, Label: c.Label.ID, Volts: c.Label.Volts, Watts: c.Label.Watts, Amps: round(c.Circuit.Amps, 3),
		Ohms: ohms(c), Length: round(c.Label.Length, 1), WattsPerMetre: round(c.Circuit.WattsPerMetre, 3),
		Spacing: Spacing{
			Even: round(c.Spacing, 1), Closest: round(c.Gaps.Closest, 1), Widest: round(c.Gaps.Widest, 1),
			Density: round(c.Density, 1), Densest: round(c.Gaps.Densest, 1), DensestRun: c.Gaps.Run,
		},
		Served: squareMetres(c.Share.Area()), Lead: lead(c, t), Runs: len(c.Runs),
		HeldAgainst: c.RecordLimits().String(), Readings: []Verdict{},
	}
	if len(c.Marks) > 1 {
		out.HalfRun, out.HalfInto = c.Halfway().Run, round(c.Halfway().Into, 0)
	}
	out.readings(c)
	return out
}

func ohms(c *layout.Cable) Ohms {
	o := c.Circuit
	return Ohms{
		Nominal: round(o.Nominal, 2), From: o.OhmsFrom, Low: round(o.Limits.Low, 2), High: round(o.Limits.High, 2),
		Under: round(100*o.Limits.LowShare, 2), Over: round(100*o.Limits.HighShare, 2), Source: o.Limits.Source,
		LabelGap: round(100*o.LabelGap, 2), Most: round(o.WattsHigh, 1), Least: round(o.WattsLow, 1),
	}
}

func lead(c *layout.Cable, t job.Thermostat) Lead {
	out := Lead{
		Length: round(c.Label.Lead, 1), Rise: limit(t.Height, t.Spans, "height"), Tail: limit(t.Tail, t.Spans, "tail"), Slack: limit(t.Slack, t.Spans, "slack"),
		Reach: round(c.LeadReach, 1), Used: round(length(c.ColdLead), 1), Ends: 1,
	}
	if c.Return != nil {
		out.Used, out.Ends = round(max(length(c.ColdLead), length(c.Return)), 1), 2
	}
	out.Left = round(out.Reach-out.Used, 1)
	return out
}

// readings adds what was read, each held against its limit.
func (c *Cable) readings(from *layout.Cable) {
	readings, verdicts, err := from.Readings()
	if err != nil || len(readings) == 0 {
		return
	}
	c.Worst = record.Worst(verdicts).String()
	for _, v := range verdicts {
		c.Readings = append(c.Readings, Verdict{v.Stage.String(), v.Item, v.Grade.String(), v.Words})
	}
}

func length(pts []plane.Point) float64 {
	n := 0.0
	for i := 1; i < len(pts); i++ {
		n += pts[i-1].Dist(pts[i])
	}
	return n
}
