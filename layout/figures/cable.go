package figures

import (
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/refit"
)

// A Cable is one cable as it is laid.
type Cable struct {
	ID            string    `json:"id"`
	Label         string    `json:"label"`
	Volts         float64   `json:"volts"`
	Watts         float64   `json:"watts"`
	Amps          float64   `json:"amps" round:"3"`
	Ohms          Ohms      `json:"resistance"`
	Length        float64   `json:"length_mm" round:"1"`
	WattsPerMetre float64   `json:"w_m" round:"3"`
	Spacing       Spacing   `json:"spacing"`
	Served        float64   `json:"served_m2" round:"3"`
	Lead          Lead      `json:"cold_lead"`
	Start         *Start    `json:"start_asked,omitempty"`
	Runs          int       `json:"runs"`
	HalfRun       int       `json:"halfway_run"`
	HalfInto      float64   `json:"halfway_into_run_mm" round:"0"`
	Drift         []Drift   `json:"drift_taken_at_least"` // empty: not known, or something of it is recorded
	HeldAgainst   string    `json:"readings_held_against"`
	Readings      []Verdict `json:"readings"`
	Worst         string    `json:"worst_reading"` // empty: nothing was read

	recorded bool
	runName  func(n int) string // as the drawings number it
}

// A Drift is what the plan takes by what a mark tells, before laid cable must be
// lifted or more than a few per cent of its floor stays cold.
type Drift struct {
	Mark string  `json:"mark"`
	Less float64 `json:"less_used_percent" round:"2"`
	More float64 `json:"more_used_percent" round:"2"`

	words string
}

// Ohms are a cable's resistance at 20 °C, and the heat at either end of its
// tolerance.
type Ohms struct {
	Nominal  float64 `json:"ohms" round:"2"`
	From     string  `json:"from"`
	Low      float64 `json:"least_ohms" round:"2"`
	High     float64 `json:"most_ohms" round:"2"`
	Under    float64 `json:"under_percent" round:"2"`
	Over     float64 `json:"over_percent" round:"2"`
	Source   string  `json:"limits_from"`
	LabelGap float64 `json:"label_off_volts_and_watts_percent" round:"2"`
	Most     float64 `json:"heat_at_least_ohms_w" round:"1"`
	Least    float64 `json:"heat_at_most_ohms_w" round:"1"`
}

// Spacing is how far a cable's runs lie apart, and the heat that makes.
type Spacing struct {
	Even       float64 `json:"even_mm" round:"1"`
	Closest    float64 `json:"closest_mm" round:"1"` // 0: no two runs lie side by side
	Widest     float64 `json:"widest_mm" round:"1"`
	Density    float64 `json:"at_even_w_m2" round:"1"`
	AtEven     float64 `json:"at_even_m2" round:"3"` // what Density is over
	OverServed float64 `json:"over_served_w_m2" round:"1"`
	// over what the limit is over, and over three runs; true where there is none
	Keeps      bool    `json:"within_limit"`
	Densest    float64 `json:"densest_over_three_runs_w_m2" round:"1"`
	DensestRun int     `json:"densest_run"`
}

// A Lead is a cold lead's way and what is left of it.
type Lead struct {
	Length float64 `json:"length_mm" round:"1"`
	Rise   Limit   `json:"rise_mm"`
	Tail   Limit   `json:"tail_mm"`
	Slack  Limit   `json:"slack_mm"`
	Reach  float64 `json:"reach_over_floor_mm" round:"1"`
	Used   float64 `json:"on_floor_mm" round:"1"`
	Left   float64 `json:"left_mm" round:"1"`
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
		ID: c.ID, Label: c.Label.ID, Volts: c.Label.Volts, Watts: c.Label.Watts, Amps: c.Circuit.Amps,
		Ohms: ohms(c), Length: c.Label.Length, WattsPerMetre: c.Circuit.WattsPerMetre,
		Spacing: Spacing{
			Even: c.Spacing, Closest: c.Gaps.Closest, Widest: c.Gaps.Widest,
			Density: c.Density, AtEven: squareMetres(c.AtEven()), OverServed: c.OverServed(), Keeps: c.Keeps(),
			Densest: c.Gaps.Densest, DensestRun: c.Gaps.Run,
		},
		Served: squareMetres(c.Share.Area()), Lead: lead(c, t), Runs: len(c.Runs),
		HeldAgainst: c.RecordLimits().String(), Readings: []Verdict{}, runName: c.RunName,
	}
	if len(c.Marks) > 1 {
		out.HalfRun, out.HalfInto = c.Halfway().Run, c.Halfway().Into
	}
	out.Drift, out.recorded = []Drift{}, c.Laid != nil
	for _, r := range c.Reserves {
		out.Drift = append(out.Drift, Drift{r.Mark, 100 * r.Less, 100 * r.More, refit.Takes(r, language.English)})
	}
	out.readings(c)
	return out
}

func ohms(c *layout.Cable) Ohms {
	o := c.Circuit
	return Ohms{
		Nominal: o.Nominal, From: o.OhmsFrom, Low: o.Limits.Low, High: o.Limits.High,
		Under: 100 * o.Limits.LowShare, Over: 100 * o.Limits.HighShare, Source: o.Limits.Source,
		LabelGap: 100 * o.LabelGap, Most: o.WattsHigh, Least: o.WattsLow,
	}
}

func lead(c *layout.Cable, t job.Thermostat) Lead {
	out := Lead{
		Length: c.Label.Lead, Rise: limit(t.Height, t.Spans, "height"), Tail: limit(t.Tail, t.Spans, "tail"),
		Slack: limit(t.Slack, t.Spans, "slack"),
		Reach: c.LeadReach,
	}
	for _, end := range c.Joined() {
		out.Used, out.Ends = max(out.Used, plane.PathLength(end.Lead)), out.Ends+1
	}
	out.Left = out.Reach - out.Used
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
		c.Readings = append(c.Readings, Verdict{v.Stage.String(), v.Item, v.Grade.String(), v.Words.String()})
	}
}
