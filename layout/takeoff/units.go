package takeoff

import (
	"math"
	"strconv"

	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// Exact ratios: the international foot and pound (1959), the US gallon of 231
// cubic inches.
const (
	feetPerMetre    = 1 / 0.3048
	poundsPerKilo   = 1 / 0.45359237
	gallonsPerLitre = 1 / 3.785411784

	gallonsPerCubicFoot = 1728.0 / 231
	ouncesPerGallon     = 128
)

// US converts a figure in one of Line's units to US units; each and h stay.
func US(value float64, unit string) (float64, string) {
	switch unit {
	case "m²":
		return value * feetPerMetre * feetPerMetre, "ft²"
	case "m":
		return value * feetPerMetre, "ft"
	case "kg":
		return value * poundsPerKilo, "lb"
	case "L":
		return value * gallonsPerLitre, "gal"
	case "mL":
		return value / 1000 * gallonsPerLitre * ouncesPerGallon, "fl oz"
	}
	return value, unit
}

// both writes a figure in one of Line's units, or one of "mm" and "kg/L", in both
// systems, the job's own first. What has no other system stands alone.
func (b *builder) both(value float64, unit string) language.Figure {
	us, usUnit := US(value, unit)
	switch unit {
	case "mm":
		us, usUnit = value/plane.Inch, "in"
	case "kg/L":
		us, usUnit = value*poundsPerKilo/gallonsPerLitre*gallonsPerCubicFoot, "lb/ft³"
	}
	first, second := say.Digits(value, 3)+" "+unit, say.Digits(us, 3)+" "+usUnit
	switch {
	case usUnit == unit:
		return language.Figure(first)
	case b.in.Units == plane.Inches:
		first, second = second, first
	}
	return language.Figure(first + " (" + second + ")")
}

// Figure writes a quantity as the sheet and the CSV do: two decimals, three
// below 1, none for a whole number of pieces or for millilitres.
func Figure(value float64, unit string) string {
	return strconv.FormatFloat(value, 'f', decimals(value, unit), 64)
}

func decimals(value float64, unit string) int {
	switch {
	case unit == "each" && value == math.Trunc(value), unit == "mL":
		return 0
	case unit == "fl oz":
		return 1
	case value > 0 && value < 1:
		return 3
	}
	return 2
}

// written rounds a quantity as Figure does, so that what follows from it can be
// worked out again from the sheet.
func written(value float64, unit string) float64 {
	v, err := strconv.ParseFloat(Figure(value, unit), 64)
	if err != nil {
		return value // no figure, refused elsewhere
	}
	return v
}
