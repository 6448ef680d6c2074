package main

import (
	"fmt"
	"strings"

	"oxturn/layout/build"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// writeWarmth writes how warm the floor gets with each option, in the job's
// units: output and warm-up in the cold case, limits in the hot one, and what the
// cases are.
func writeWarmth(c *commandLine, options []build.Option, j *job.Job) error {
	us := j.Units == plane.Inches
	var known []build.Option
	for _, o := range options {
		if o.Warmth != nil {
			known = append(known, o)
		}
	}
	if len(known) == 0 {
		return nil
	}
	air := say.Degrees(j.Warmth.Room, j.Units)
	if j.Warmth.Warmest != j.Warmth.Room {
		air += ", at its warmest at " + say.Degrees(j.Warmth.Warmest, j.Units)
	}
	c.tellf("\nEstimated, left on without a thermostat in a room at %s:", air)
	head := []string{"", "cable", "goes up", "mean, at least", "warm in", "over a cable, at most"}
	for i := range known[0].Warmth.Verdicts {
		head = append(head, fmt.Sprintf("limit %d", i+1))
	}
	t := c.table(head...)
	for _, o := range known {
		t.row(warmthCells(o, j.Units)...)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(c.Out)
	for i, v := range known[0].Warmth.Verdicts {
		c.tellf("  limit %d: %s, %s (%s)", i+1, printable(v.Limit.Name), v.Limit.Words(us),
			printable(v.Limit.Source))
	}
	for _, b := range known[0].Warmth.Bounds.Bounds(us) {
		fmt.Fprintf(c.Out, "  %s\n", strings.ReplaceAll(wrap(b.In(c.Language), 100), "\n", "\n    "))
	}
	return nil
}

func warmthCells(o build.Option, u plane.Units) []string {
	up := "none"
	if o.Warmth.UpShare > 0 {
		up = say.Percent(o.Warmth.UpShare)
	}
	out := []string{
		takenMark(o), printable(strings.Join(o.IDs, " + ")), up, say.Degrees(o.Warmth.Least, u),
		warmIn(o.Warmth.WarmUp),
		say.Degrees(o.Warmth.Most, u),
	}
	for _, v := range o.Warmth.Verdicts {
		out = append(out, strings.Replace(v.MarginWords(u == plane.Inches).String(), "above", "ABOVE", 1))
	}
	return out
}

// warmIn is how long the floor takes to gain the rise wanted.
func warmIn(o heat.Offer) string {
	switch {
	case o.Never:
		return "never"
	case !o.Reached:
		return "not in time"
	}
	return fmt.Sprintf("%.0f-%.0f min", o.Low/60, o.High/60)
}

// A rowWarmth is the warmth of an option as programs read it: null where it is
// not known, the warm-up also where the rise is never reached or not in time.
type rowWarmth struct {
	Least   *float64   `json:"surface_at_least_c"`
	UpShare *float64   `json:"up_share_at_least"`
	WarmUp  *float64   `json:"warm_up_s"`
	Most    *float64   `json:"surface_at_most_c"`
	Limits  []rowLimit `json:"limits"`
	over    []string   // the limits gone beyond, in words
}

// A rowLimit is how far the surface at most stays below a limit, in temperature or
// in its rise over the air that the limit is for, whichever is less.
type rowLimit struct {
	Name   string  `json:"name"`
	Limit  float64 `json:"limit_c"`
	Air    float64 `json:"for_air_at_c"` // 0: whatever the air
	Source string  `json:"source"`
	Margin float64 `json:"margin_k"` // negative: beyond it
}

func warmthOf(o build.Option) rowWarmth {
	r := rowWarmth{Limits: []rowLimit{}}
	if o.Warmth == nil {
		return r
	}
	r.Least, r.UpShare, r.Most = figureOf(o.Warmth.Least, 2), figureOf(o.Warmth.UpShare, 3), figureOf(o.Warmth.Most, 2)
	if o.Warmth.WarmUp.Reached {
		r.WarmUp = figureOf(o.Warmth.WarmUp.Time, 0)
	}
	for _, v := range o.Warmth.Verdicts {
		r.Limits = append(r.Limits, rowLimit{v.Limit.Name, rounded(v.Limit.Celsius, 2), v.Limit.Air, v.Limit.Source,
			rounded(v.Margin, 2)})
		if v.Over() {
			r.over = append(r.over, fmt.Sprintf("%s (%s)", v.Limit.Name, v.Limit.Words(false)))
		}
	}
	return r
}
