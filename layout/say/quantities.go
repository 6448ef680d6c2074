package say

import (
	"fmt"
	"strings"

	"oxturn/layout/language"
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

// RoomSize writes how long and wide a floor in mm is, in metres to a hundredth.
func RoomSize(w, h float64) string {
	return longFigure(w, plane.Millimetres) + " by " + Long(h, plane.Millimetres)
}

// WholeUnits writes a length in mm that was chosen in whole units: of millimetres or inches.
func WholeUnits(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.0f in", mm/plane.Inch)
	}
	return fmt.Sprintf("%.0f mm", mm)
}

// WholeUnitsMore is WholeUnits of a difference, with its sign.
func WholeUnitsMore(mm float64, u plane.Units) string {
	if mm < 0 {
		return WholeUnits(mm, u)
	}
	return "+" + WholeUnits(mm, u)
}

// Apart writes how far runs lie apart, finely enough to work out their heat per area
// again: to a hundredth of an inch, or a tenth of a millimetre.
func Apart(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return Plain(mm/plane.Inch) + " in"
	}
	return TrimFigure(mm) + " mm"
}

// Area writes mm² as square metres or feet.
func Area(mm2 float64, u plane.Units) string {
	if u == plane.Inches {
		return AreaFigure(mm2, u) + " ft²"
	}
	return AreaFigure(mm2, u) + " m²"
}

// AreaFigure is Area without its unit, for a column that names it.
func AreaFigure(mm2 float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.1f", plane.Inches.Area(mm2))
	}
	return fmt.Sprintf("%.2f", plane.Millimetres.Area(mm2))
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

// WholeDegrees writes a temperature in °C that is known no finer, as of a day outside.
func WholeDegrees(celsius float64, u plane.Units) string {
	if u == plane.Inches {
		return fmt.Sprintf("%.0f °F", Fahrenheit(celsius))
	}
	return fmt.Sprintf("%.0f °C", celsius)
}

// WholeDegreesRange writes the lowest and the highest of a temperature, as WholeDegrees does.
func WholeDegreesRange(low, high float64, u plane.Units) language.Message {
	from, _, _ := strings.Cut(WholeDegrees(low, u), " ")
	return language.Say("%s to %s", language.Figure(from), language.Figure(WholeDegrees(high, u)))
}

// Difference writes a difference of temperatures in K, as Degrees does.
func Difference(kelvin float64, u plane.Units) string {
	if u == plane.Inches {
		return TrimFigure(kelvin*Fahrenheits) + " °F"
	}
	return TrimFigure(kelvin) + " °C"
}

// Fahrenheits go into 1 K.
const Fahrenheits = 1.8

// Freezing is 0 °C in °F.
const Freezing = 32

// Fahrenheit turns °C into °F.
func Fahrenheit(celsius float64) float64 { return float64(celsius*Fahrenheits) + Freezing }

// Celsius returns a temperature in °C that is given in °F.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - Freezing) / Fahrenheits }
