package job

import (
	"fmt"
	"math"
	"strconv"

	"oxturn/layout/plane"
)

// A measureUnit writes figures of one unit in either system.
type measureUnit struct {
	name, us string  // us: in a job in inches
	mul, add float64 // to the unit of us
	thousand string  // what a thousand of name is called
}

// measureUnits are the units that ranges are given in. The foot, the inch and the
// pound are the international ones.
var measureUnits = map[string]measureUnit{
	"mm":       {name: "mm", us: "in", mul: 1 / plane.Inch},
	"m²":       {name: "m²", us: "ft²", mul: 1 / sqFt},
	"W/m":      {name: "W/m", us: "W/ft", mul: plane.Foot / 1000},
	"W/m²":     {name: "W/m²", us: "W/ft²", mul: sqFt},
	"°C":       {name: "°C", us: "°F", mul: 1.8, add: 32},
	"K":        {name: "K", us: "°F", mul: 1.8},
	"kg/m²":    {name: "kg/m²", us: "lb/ft²", mul: sqFt / 0.45359237},
	"kg/m³":    {name: "kg/m³", thousand: "kg/L"},
	"kg/L":     {name: "kg/L"},
	"L/kg":     {name: "L/kg"},
	"W":        {name: "W", thousand: "kW"},
	"V":        {name: "V", thousand: "kV"},
	"A":        {name: "A"},
	"mA":       {name: "mA", thousand: "A"},
	"Ω":        {name: "Ω", thousand: "kΩ"},
	"%":        {name: "%"},
	"W/(m² K)": {name: "W/(m² K)", us: "Btu/(h ft² °F)", mul: 0.1761102},
	"W/(m K)":  {name: "W/(m K)"},
	"J/(kg K)": {name: "J/(kg K)", thousand: "kJ/(kg K)"},
}

// shown is a figure in the unit it is shown in.
func (m measureUnit) shown(v float64, u plane.Units) (float64, string) {
	if u == plane.Inches && m.us != "" {
		v, m.name = v*m.mul+m.add, m.us
	}
	return v, m.name
}

// long is the unit that long lengths are written in, and how many of the short
// one it has.
func long(unit string) (string, float64) {
	switch unit {
	case "mm":
		return "m", 1000
	case "in":
		return "ft", 12
	}
	return unit, 1
}

// manyLong is from how many of the long unit on lengths are written in it.
func manyLong(unit string) float64 {
	if unit == "in" {
		return 4
	}
	return 2
}

// write writes a figure: 44 W/ft, 8.3 ft.
func (m measureUnit) write(v float64, u plane.Units) string {
	v, unit := m.shown(v, u)
	if name, n := long(unit); n > 1 && math.Abs(v) >= n*manyLong(unit) {
		v, unit = v/n, name
	}
	return brief(v) + " " + unit
}

// span writes a range: 20 to 120 mm.
func (m measureUnit) span(low, high float64, u plane.Units) string {
	a, unit := m.shown(low, u)
	b, _ := m.shown(high, u)
	if name, n := long(unit); n > 1 && b >= n*manyLong(unit)*2 && a >= n/4 {
		a, b, unit = a/n, b/n, name
	}
	return brief(a) + " to " + brief(b) + " " + unit
}

// From where figures round to three digits and to two before the point, and how near a whole one is written as that.
const (
	threeDigits = 99.5
	twoDigits   = 9.95
	asWhole     = 0.05
)

// brief writes a figure to two or three digits, whole ones from ten on.
func brief(v float64) string {
	switch a := math.Abs(v); {
	case a >= threeDigits:
		return fmt.Sprintf("%.0f", v)
	case a >= twoDigits && math.Abs(v-math.Round(v)) < asWhole:
		return fmt.Sprintf("%.0f", v)
	case a >= twoDigits:
		return fmt.Sprintf("%.1f", v)
	}
	two, _ := strconv.ParseFloat(fmt.Sprintf("%.2g", v), 64) // never fails
	return strconv.FormatFloat(two, 'f', -1, 64)
}
