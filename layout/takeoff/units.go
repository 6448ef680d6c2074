package takeoff

import (
	"math"
	"strconv"
)

// Exact ratios: the international foot and pound (1959), the US gallon of 231
// cubic inches.
const (
	feetPerMetre    = 1 / 0.3048
	poundsPerKilo   = 1 / 0.45359237
	gallonsPerLitre = 1 / 3.785411784
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
	}
	return value, unit
}

// Figure writes a quantity as the sheet and the CSV do: two decimals, none
// for a whole number of pieces.
func Figure(value float64, unit string) string {
	decimals := 2
	if unit == "each" && value == math.Trunc(value) {
		decimals = 0
	}
	return strconv.FormatFloat(value, 'f', decimals, 64)
}
