package arrange

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"oxturn/layout/job/tree"
	"oxturn/layout/pattern"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A style is how lengths are written in a job file.
type style struct {
	units plane.Units // that bare numbers are in
	bare  bool        // without a unit
	unit  string      // else: "mm", "cm", "m" or "in", which is feet and inches
}

// unitAtEnd is the unit of a length that is written with one.
var unitAtEnd = pattern.Of(`(?i)(mm|cm|m|ft|in|'|")\s*$`)

// styleOf is how a value is written, or for a new one how the job's units have it: bare
// millimetres, or feet and inches as a tape has them.
func styleOf(n *tree.Node, units plane.Units) style {
	s := style{units: units, bare: units == plane.Millimetres, unit: "mm"}
	if units == plane.Inches {
		s.unit = "in"
	}
	if n == nil {
		return s
	}
	switch v := n.Value.(type) {
	case int64, float64:
		s.bare = true
	case string:
		s.bare = false
		s.unit = unitOf(unitAtEnd(), v, s.unit)
	}
	return s
}

func unitOf(end *regexp.Regexp, text, other string) string {
	m := end.FindStringSubmatch(text)
	if m == nil {
		return other
	}
	switch unit := strings.ToLower(m[1]); unit {
	case "mm", "cm", "m":
		return unit
	}
	return "in"
}

// value is a length as TOML.
func (s style) value(mm float64) string {
	if !s.bare {
		return `"` + s.text(mm) + `"`
	}
	if s.units == plane.Inches {
		return trimmed(math.Round(mm/plane.Inch*plane.Sixteenths) / plane.Sixteenths)
	}
	return say.TrimFigure(mm + 0) // never -0
}

// text is a length with its unit.
func (s style) text(mm float64) string {
	switch s.unit {
	case "m":
		return trimmed(math.Round(mm)/1000) + " m"
	case "cm":
		return trimmed(math.Round(mm)/10) + " cm"
	case "in":
		return Tape(mm)
	}
	return say.TrimFigure(mm) + " mm"
}

func trimmed(v float64) string { return strconv.FormatFloat(v+0, 'f', -1, 64) }

// Tape writes a length in feet and inches as a job file has it.
func Tape(mm float64) string {
	s := strings.NewReplacer("'-", "ft ", `"`, "in", " ", "-").Replace(plane.FormatFeetInches(mm))
	s = strings.TrimPrefix(s, "0ft ")
	return strings.TrimPrefix(s, "0-")
}
