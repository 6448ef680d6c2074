package sheets

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A figures writes lengths as the sheet wants them.
type figures struct {
	units plane.Units
	both  bool
	bare  bool // lengths under a foot without their feet: 3/8", not 0'-0 3/8"; millimetres to a tenth
}

// fine returns f for things of which most are under a foot.
func (f figures) fine() figures {
	f.bare = true
	return f
}

func figuresOf(j *job.Job) figures {
	u := j.Sheet.Units
	if u == plane.NoUnits {
		u = j.Units
	}
	return figures{units: u, both: j.Sheet.Both}
}

// length writes mm in the sheet's units, in the others as well when the sheet
// asks for both.
func (f figures) length(mm float64) string {
	return f.ordered(f.metric(mm), f.feetInches(mm))
}

// between writes how far it is from one place of a line to another. Both are
// measured from one datum and rounded there: figures of a chain so add up to its
// overall figure, and agree with offsets from that datum.
func (f figures) between(from, to float64) string {
	step := 1.0
	if f.bare {
		step = 0.1
	}
	return f.ordered(f.metric(rounded(to, step)-rounded(from, step)), f.feetInches(rounded(to, sixteenth)-rounded(from, sixteenth)))
}

// sixteenth is what feet and inches are rounded to, mm.
const sixteenth = plane.Inch / 16

// rounded rounds v to whole steps, halves away from 0.
func rounded(v, step float64) float64 { return math.Round(v/step) * step }

// metric writes mm in whole millimetres, or in tenths where most things are
// small.
func (f figures) metric(mm float64) string {
	if f.bare {
		return trimFigure(mm)
	}
	return plane.FormatLength(mm, plane.Millimetres)
}

// ordered puts the sheet's own unit first, the other in brackets where the sheet
// asks for both.
func (f figures) ordered(metric, inches string) string {
	own, other := metric, inches
	if f.units == plane.Inches {
		own, other = other, own
	}
	if !f.both {
		return own
	}
	return own + " (" + other + ")"
}

func (f figures) feetInches(mm float64) string {
	s := plane.FormatFeetInches(mm)
	if f.bare {
		s = strings.TrimPrefix(strings.TrimPrefix(s, "0'-"), "0 ")
	}
	return s
}

// long writes a length of cable: in feet or metres.
func (f figures) long(mm float64) string {
	if f.units == plane.Inches {
		return fmt.Sprintf("%.1f ft", mm/plane.Foot)
	}
	return fmt.Sprintf("%.2f m", mm/1000)
}

// longFigure writes a length of cable without its unit.
func (f figures) longFigure(mm float64) string {
	if f.units == plane.Inches {
		return fmt.Sprintf("%.1f", mm/plane.Foot)
	}
	return fmt.Sprintf("%.2f", mm/1000)
}

// longUnit is the unit of longFigure.
func (f figures) longUnit() string {
	if f.units == plane.Inches {
		return "ft"
	}
	return "m"
}

// thickness writes a thickness in both systems: millimetres to a tenth, inches
// to a sixteenth.
func (f figures) thickness(mm float64) string { return f.thicknessOf(mm, mm) }

// thicknessOf is thickness of what was rounded for each system, both in mm.
func (f figures) thicknessOf(metric, imperial float64) string {
	m, in := trimFigure(metric)+" mm", f.fine().feetInches(imperial)
	if f.units == plane.Inches {
		return in + " (" + m + ")"
	}
	return m + " (" + in + ")"
}

// trimFigure writes a figure with one decimal, none where that is 0.
func trimFigure(v float64) string { return strings.TrimSuffix(tenths(v), ".0") }

// tenths writes a figure with one decimal, halves rounded up as by hand.
func tenths(v float64) string { return fmt.Sprintf("%.1f", math.Round(v*10)/10) }

// spacing writes a short distance: in inches to a tenth, or millimetres.
func (f figures) spacing(mm float64) string {
	if f.units == plane.Inches {
		return fmt.Sprintf("%.1f in", mm/plane.Inch)
	}
	return fmt.Sprintf("%.0f mm", mm)
}
