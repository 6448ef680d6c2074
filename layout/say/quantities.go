package say

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"oxturn/layout/plane"
)

// Long writes a length of cable in mm: feet to a tenth, or metres to a hundredth.
func Long(mm float64, u plane.Units) string { return longFigure(mm, u) + " " + longUnit(u) }

func longFigure(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.1f", mm/plane.Foot)
	}
	return fmt.Sprintf("%.2f", mm/1000)
}

func longUnit(u plane.Units) string {
	if u == plane.Inches {
		return "ft"
	}
	return "m"
}

// About writes a length of cable that is an estimate or stands in a message: to a
// tenth of a metre or a foot.
func About(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return Long(mm, u)
	}
	return fmt.Sprintf("%.1f m", mm/1000)
}

// Whole writes a length in mm as a tape reads it, with its unit: whole millimetres, or
// feet and inches to a sixteenth.
func Whole(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return plane.FormatFeetInches(mm)
	}
	return plane.FormatLength(mm, plane.Millimetres) + " mm"
}

// Apart writes how far runs lie apart, finely enough to work out their heat per area
// again: to a hundredth of an inch, or a tenth of a millimetre.
func Apart(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return trimmed(mm/plane.Inch, 100) + " in"
	}
	return TrimFigure(mm) + " mm"
}

// Area writes mm² as square metres or feet.
func Area(mm2 float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.1f ft²", plane.Inches.Area(mm2))
	}
	return fmt.Sprintf("%.2f m²", plane.Millimetres.Area(mm2))
}

// AreaBoth writes mm² in both systems, the given one first.
func AreaBoth(mm2 float64, u plane.Units) string { return both(mm2, u, Area) }

// Density writes a power per area in W/m².
func Density(wm2 float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.1f W/ft²", wm2*plane.Foot*plane.Foot/plane.SquareMetre)
	}
	return fmt.Sprintf("%.0f W/m²", wm2)
}

// DensityBoth writes W/m² in both systems, the given one first.
func DensityBoth(wm2 float64, u plane.Units) string { return both(wm2, u, Density) }

// LongBoth writes a length of cable in both systems, the given one first.
func LongBoth(mm float64, u plane.Units) string { return both(mm, u, Long) }

// both writes a figure in the given system, and in the other in brackets.
func both(v float64, u plane.Units, write func(float64, plane.Units) string) string {
	other := plane.Inches
	if u == plane.Inches {
		other = plane.Millimetres
	}
	return write(v, u) + " (" + write(v, other) + ")"
}

// PerLength writes what a cable gives per length of itself, in W/m.
func PerLength(wm float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.2f W/ft", wm*plane.Foot/1000)
	}
	return fmt.Sprintf("%.1f W/m", wm)
}

// Degrees writes a temperature in °C to a tenth, a Fahrenheit one where the units are
// inches.
func Degrees(celsius float64, u plane.Units) string {
	if u == plane.Inches {
		return TrimFigure(Fahrenheit(celsius)) + " °F"
	}
	return TrimFigure(celsius) + " °C"
}

// DegreesBoth writes °C in both scales, that of the units first.
func DegreesBoth(celsius float64, u plane.Units) string { return both(celsius, u, Degrees) }

// Difference writes a difference of temperatures in K, as Degrees does.
func Difference(kelvin float64, u plane.Units) string {
	if u == plane.Inches {
		return TrimFigure(kelvin*Fahrenheits) + " °F"
	}
	return TrimFigure(kelvin) + " °C"
}

// Fahrenheits go into 1 K.
const Fahrenheits = 1.8

// Fahrenheit turns °C into °F.
func Fahrenheit(celsius float64) float64 { return float64(celsius*Fahrenheits) + 32 }

// Celsius returns a temperature in °C that is given in °F.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - 32) / Fahrenheits }

// Amps writes a current in A.
func Amps(a float64) string { return fmt.Sprintf("%.2f A", a) }

// Ohms writes a conductor's resistance in Ω, to a tenth as meters for it show.
func Ohms(ohms float64) string { return fmt.Sprintf("%.1f Ω", ohms) }

// OhmsRange writes the lowest and the highest of a conductor's resistance, as Ohms does.
func OhmsRange(low, high float64) string { return fmt.Sprintf("%.1f to %s", low, Ohms(high)) }

// SensorOhms writes what a floor sensor reads in Ω: thousands, whose tenths say nothing.
func SensorOhms(ohms float64) string { return fmt.Sprintf("%.0f Ω", ohms) }

// SensorOhmsRange writes the lowest and the highest reading of a sensor, as SensorOhms does.
func SensorOhmsRange(low, high float64) string {
	return fmt.Sprintf("%.0f to %s", low, SensorOhms(high))
}

// Megohms writes an insulation resistance in MΩ, to a hundredth where it is no whole number.
func Megohms(megohms float64) string { return Plain(megohms) + " MΩ" }

// Watts writes a power in W, to a hundredth where it is no whole number.
func Watts(w float64) string { return Plain(w) + " W" }

// Plain writes a figure to two decimals, without those that are nothing.
func Plain(v float64) string { return trimmed(v, 100) }

// trimmed writes a figure to one part in so many, without decimals that are nothing.
func trimmed(v, parts float64) string {
	return strconv.FormatFloat(math.Round(v*parts)/parts, 'f', -1, 64)
}

// Counted is a number of things in words: 1 wall, 2 walls.
func Counted(n int, what string) string { return fmt.Sprintf("%d %s", n, Plural(n, what)) }

// Plural is the word for so many things: wall for one, walls, boxes.
func Plural(n int, what string) string {
	switch {
	case n == 1 || what == "":
		return what
	case strings.HasSuffix(what, "x"):
		return what + "es"
	}
	return what + "s"
}
