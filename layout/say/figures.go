// Package say writes every quantity in words, with one rounding for each, so that
// messages, sheets, lists and maps say the same of the same thing.
package say

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// Figures writes lengths and words as the sheet wants them.
type Figures struct {
	language.Language
	Units plane.Units
	Both  bool
	bare  bool // lengths under a foot without their feet: 3/8", not 0'-0 3/8"; millimetres to a tenth
}

// Fine returns f for things of which most are under a foot.
func (f Figures) Fine() Figures {
	f.bare = true
	return f
}

// Length writes mm in the sheet's units, in the others as well when the sheet
// asks for both.
func (f Figures) Length(mm float64) string {
	return f.ordered(f.metric(mm), f.FeetInches(mm))
}

// Between writes how far it is from one place of a line to another. Both are
// measured from one datum and rounded there: figures of a chain so add up to its
// overall figure, and agree with offsets from that datum.
func (f Figures) Between(from, to float64) string {
	step := 1.0
	if f.bare {
		step = 0.1
	}
	return f.ordered(f.metric(Rounded(to, step)-Rounded(from, step)),
		f.FeetInches(Rounded(to, Sixteenth)-Rounded(from, Sixteenth)))
}

// Thicknesses are rounded to a tenth of a millimetre, and as feet and inches are to a sixteenth, mm.
const (
	Tenth     = 0.1
	Sixteenth = plane.Inch / plane.Sixteenths
)

// Rounded rounds v to whole steps, halves away from 0.
func Rounded(v, step float64) float64 { return math.Round(v/step) * step }

// metric writes mm in whole millimetres, or in tenths where most things are
// small.
func (f Figures) metric(mm float64) string {
	if f.bare {
		return TrimFigure(mm)
	}
	return plane.FormatLength(mm, plane.Millimetres)
}

// ordered puts the sheet's own unit first, the other in brackets where the sheet
// asks for both.
func (f Figures) ordered(metric, inches string) string {
	own, other := metric, inches
	if f.Units == plane.Inches {
		own, other = other, own
	}
	if f.Both {
		own += " (" + other + ")"
	}
	return f.Figure(own)
}

// FeetInches writes mm in feet and inches.
func (f Figures) FeetInches(mm float64) string {
	s := plane.FormatFeetInches(mm)
	if f.bare {
		s = strings.TrimPrefix(strings.TrimPrefix(s, "0'-"), "0 ")
	}
	return s
}

// Long writes a length of cable: in feet or metres.
func (f Figures) Long(mm float64) string { return f.Figure(Long(mm, f.Units)) }

// LongFigure writes a length of cable without its unit.
func (f Figures) LongFigure(mm float64) string { return f.Figure(longFigure(mm, f.Units)) }

// LongUnit is the unit of LongFigure.
func (f Figures) LongUnit() string { return longUnit(f.Units) }

// Thickness writes a thickness in both systems: millimetres to a tenth, inches
// to a sixteenth.
func (f Figures) Thickness(mm float64) string {
	m, in := TrimFigure(mm)+" mm", f.Fine().FeetInches(mm)
	if f.Units == plane.Inches {
		return f.Figure(in + " (" + m + ")")
	}
	return f.Figure(m + " (" + in + ")")
}

// TrimFigure writes a figure with one decimal, none where that is 0.
func TrimFigure(v float64) string { return strings.TrimSuffix(Tenths(v), ".0") }

// Tenths writes a figure with one decimal, halves rounded up as by hand.
func Tenths(v float64) string { return fmt.Sprintf("%.1f", math.Round(v*10)/10) }

// Apart writes how far runs lie apart.
func (f Figures) Apart(mm float64) string { return f.Figure(Apart(mm, f.Units)) }

// Area writes mm², in the other system too where the sheet asks for both.
func (f Figures) Area(mm2 float64) string { return f.inBoth(mm2, Area) }

// Density writes W/m², in the other system too where the sheet asks for both.
func (f Figures) Density(wm2 float64) string { return f.inBoth(wm2, Density) }

// Degrees writes °C, in the other scale too where the sheet asks for both.
func (f Figures) Degrees(celsius float64) string { return f.inBoth(celsius, Degrees) }

func (f Figures) inBoth(v float64, write func(float64, plane.Units) string) string {
	if f.Both {
		return f.Figure(both(v, f.Units, write))
	}
	return f.Figure(write(v, f.Units))
}

// Spacing writes a short distance: in inches to a tenth, or millimetres.
func (f Figures) Spacing(mm float64) string {
	if f.Units == plane.Inches {
		return f.Figure(fmt.Sprintf("%.1f in", mm/plane.Inch))
	}
	return fmt.Sprintf("%.0f mm", mm)
}
