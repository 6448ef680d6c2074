package job

import (
	"fmt"
	"strconv"
	"strings"

	"oxturn/layout/plane"
)

// A unit turns figures with its name into the dimension's own unit.
type unit struct {
	name string
	mul  float64
}

// Units by dimension, the one kept inside first. The pound and the foot are
// the international ones of 1959, the gallon is the US one.
var (
	angleUnits = []unit{{"deg", 1}, {"°", 1}, {"degrees", 1}}
	shareUnits = []unit{{"%", 0.01}, {"percent", 0.01}}
	areaUnits  = []unit{{"m2", 1}, {"m²", 1}, {"sqm", 1}, {"ft2", sqFt}, {"ft²", sqFt}, {"sqft", sqFt},
		{"sq ft", sqFt}}
	volumeUnits = []unit{{"L", 1}, {"l", 1}, {"litres", 1}, {"ml", 0.001}, {"mL", 0.001}, {"gal", 3.785411784},
		{"fl oz", 3.785411784 / 128}, {"floz", 3.785411784 / 128}, {"ft3", 28.316846592}, {"ft³", 28.316846592}}
	massUnits          = []unit{{"kg", 1}, {"lb", 0.45359237}, {"lbs", 0.45359237}, {"g", 0.001}}
	spanUnits          = []unit{{"m", 1}, {"ft", 0.3048}, {"cm", 0.01}, {"mm", 0.001}}
	transmittanceUnits = []unit{{"W/m2K", 1}, {"W/m²K", 1}, {"W/m2 K", 1}, {"W/(m2 K)", 1}, {"W/(m² K)", 1},
		{"W/(m²K)", 1}, {"Btu/h ft2 F", btuFilm}, {"Btu/(h ft2 F)", btuFilm}, {"Btu/h ft² °F", btuFilm},
		{"Btu/(h ft² °F)",
			btuFilm}, {"Btu/hr ft2 F", btuFilm}}
	densityUnits = []unit{{"W/m2", 1}, {"W/m²", 1}, {"W/ft2", 1 / sqFt}, {"W/ft²", 1 / sqFt},
		{"W/sqft", 1 / sqFt}}
)

// btuFilm is 1 Btu/(h ft² °F) in W/(m² K).
const btuFilm = 5.678263

const sqFt = 0.3048 * 0.3048 // m²

// quantity reads a figure and its unit, such as "14.5 L". The names given say
// what would have been understood.
func quantity(s string, units []unit) (float64, error) {
	s = strings.TrimSpace(s)
	n := 0
	for n < len(s) && strings.ContainsRune("+-.,0123456789", rune(s[n])) {
		n++
	}
	text, err := plane.PointForComma(s[:n])
	if err != nil {
		return 0, err
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0, fmt.Errorf("%q does not begin with a number", s)
	}
	name := strings.TrimSpace(s[n:])
	for _, u := range units {
		if strings.EqualFold(u.name, name) {
			return v * u.mul, nil
		}
	}
	if name == "" {
		return 0, fmt.Errorf("%q has no unit", s)
	}
	return 0, fmt.Errorf("%q is not a unit known here", name)
}

// A pack is a quantity to buy, in one of four units.
type pack struct {
	size float64
	unit string
}

func parsePack(s string) (pack, error) {
	var last error
	for _, d := range []struct {
		name  string
		units []unit
	}{{"kg", massUnits}, {"L", volumeUnits}, {"m²", areaUnits}, {"m", spanUnits}} {
		v, err := quantity(s, d.units)
		if err == nil {
			return pack{v, d.name}, nil
		}
		last = err
	}
	return pack{}, last
}
