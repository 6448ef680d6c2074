package compare

import (
	"cmp"
	"fmt"
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// settings compares what holds for the whole job: membrane, spacing,
// clearances, supply, tile and build-up.
func (d *diff) settings(was, now *job.Job) {
	mm := func(what string, a, b float64) {
		d.text("", what, d.fine(a), d.fine(b), both(what, "mm", layout.Round(a, 1), layout.Round(b, 1)))
	}
	if was.Strips != nil || now.Strips != nil {
		d.text("", "cable held by", holder(was), holder(now))
	} else {
		mm("peg pitch", was.Membrane.PegPitch(), now.Membrane.PegPitch())
		d.text("", "rows of pegs", rows(was), rows(now))
		mm("peg pitch across the roll", cmp.Or(was.Membrane.Across, was.Membrane.Pitch),
			cmp.Or(now.Membrane.Across, now.Membrane.Pitch))
	}
	mm("bend radius", was.Membrane.BendRadius, now.Membrane.BendRadius)
	if was.Uneven() || now.Uneven() {
		d.text("", "gaps between runs", was.Gaps(), now.Gaps(), both("closest", "mm", layout.Round(was.Near(), 1),
			layout.Round(now.Near(), 1)), both("widest", "mm", layout.Round(was.Far(), 1), layout.Round(now.Far(), 1)))
	} else {
		d.text("", "gaps between runs", was.Gaps(), now.Gaps(),
			both("closest", "pegs", float64(was.Spacing.Closest), float64(now.Spacing.Closest)), both("widest", "pegs",
				float64(was.Spacing.Widest), float64(now.Spacing.Widest)))
	}
	for _, c := range []struct {
		what string
		a, b float64
	}{
		{"walls", was.Clearance.Wall, now.Clearance.Wall}, {"fixtures", was.Clearance.Fixture, now.Clearance.Fixture},
		{"movement joints", was.Clearance.Joint, now.Clearance.Joint}, {"flanges", was.Clearance.Flange,
			now.Clearance.Flange},
		{"drains", was.Clearance.Drain, now.Clearance.Drain}, {"registers", was.Clearance.Register,
			now.Clearance.Register},
		{"hearths", was.Clearance.Hearth, now.Clearance.Hearth}, {"fixings", was.Clearance.Fixing,
			now.Clearance.Fixing},
		{"columns", was.Clearance.Column, now.Clearance.Column}, {"islands", was.Clearance.Island,
			now.Clearance.Island},
		{"keep-outs", was.Clearance.KeepOut, now.Clearance.KeepOut},
	} {
		mm("clearance from "+c.what, c.a, c.b)
	}
	d.text("", "supply", volts(was.Supply.Volts), volts(now.Supply.Volts), ifGiven("volts", "V", was.Supply.Volts,
		now.Supply.Volts))
	d.text("", "region", was.Region().Name, now.Region().Name)
	d.text("", "thermostat's contacts", say.AmpsGiven(was.Supply.ThermostatAmps),
		say.AmpsGiven(now.Supply.ThermostatAmps), both("amps", "A", was.Supply.ThermostatAmps,
			now.Supply.ThermostatAmps))
	d.text("", "power limit", d.limit(was.Supply.MaxDensity), d.limit(now.Supply.MaxDensity),
		ifGiven("power limit", "W/m²", was.Supply.MaxDensity, now.Supply.MaxDensity))
	d.text("", "tile", d.tile(was.Tile), d.tile(now.Tile))
	d.text("", "build-up, from the top", d.layers(was.BuildUp), d.layers(now.BuildUp))
}

// ifGiven is a figure that either revision may leave out, and is 0 there.
func ifGiven(of, unit string, before, after float64) Figure {
	f := both(of, unit, layout.Round(before, 3), layout.Round(after, 3))
	if before == 0 {
		f.Before = nil
	}
	if after == 0 {
		f.After = nil
	}
	return f
}

// fine writes a small length: to a sixteenth of an inch or a tenth of a mm.
func (d *diff) fine(mm float64) string {
	if d.units == plane.Inches {
		return plane.FormatFeetInches(mm)
	}
	return say.TrimFigure(mm) + " mm"
}

// holder is what holds the cable.
func holder(j *job.Job) string {
	if j.Strips != nil {
		return "strips"
	}
	return "membrane"
}

// rows is how the rows of pegs lie.
func rows(j *job.Job) string {
	if j.Membrane.Staggered {
		return "staggered"
	}
	return "straight"
}

func volts(v float64) string {
	if v == 0 {
		return "as the cables' labels"
	}
	return say.Volts(v)
}

func (d *diff) limit(v float64) string {
	if v == 0 {
		return "none given"
	}
	return say.Density(v, d.units)
}

func (d *diff) tile(t job.Tile) string {
	if t.Width == 0 || t.Length == 0 {
		return "none given"
	}
	return fmt.Sprintf("%s x %s, joint %s, %s", d.fine(t.Width), d.fine(t.Length), d.fine(t.Joint), t.Pattern)
}

func (d *diff) layers(ls []job.Layer) string {
	if len(ls) == 0 {
		return "none given"
	}
	var out []string
	for _, l := range ls {
		out = append(out, l.Name+" "+d.fine(l.Thickness))
	}
	return strings.Join(out, ", ")
}
