package say

import (
	"testing"

	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// Figures in words, by hand: shares are per cents, 1000 Ω are 1 kΩ, an inch is 25.4 mm, and water
// freezes at 32 °F; nothing is written with a sign before it.
func TestFiguresInWords(t *testing.T) {
	const mm, in = plane.Millimetres, plane.Inches
	for _, c := range []struct{ got, want string }{
		{VoltageDrop(3.456, 0.015), "3.46 V, 1.50 %"},
		{Tolerance(-0.05, 0.1), "-5/+10 %"}, {Tolerance(0, 0), "0/0 %"}, {Tolerance(-0.025, 0.005), "-2.5/+0.5 %"},
		{Kilohms(12490), "12.49"}, {SensorOhmsRange(9000, 12490.4), "9000 to 12490 Ω"},
		{OhmsRange(23.04, 26.96), "23.0 to 27.0 Ω"}, {Volts(230), "230 V"}, {Volts(237.5), "237.5 V"},
		{Amps(2), "2.00 A"},
		{AmpsGiven(16), "16 A"}, {Milliamps(30), "30 mA"}, {WattsRange(99.6, 120), "100 to 120 W"},
		{Megohms(0.5), "0.5 MΩ"}, {Nanofarads(9), "9 nF"}, {KilowattHours(1.5), "1.500"},
		{Plain(-0.001), "0"}, {Plain(-0.01), "-0.01"}, {Plain(12.345), "12.35"}, {Decimals(1.25, 0), "1"},
		{Signed(0), "0"}, {Signed(0.5), "+0.5"}, {Signed(-0.5), "-0.5"}, {Signed(2), "+2"},
		{Percent(0.125), "12 %"}, {PercentRange(0.55, 0.7), "55 to 70 %"}, {PercentFine(0.1234), "12.3 %"},
		{PercentGiven(0.075), "7.5 %"}, {PercentMore(0.004), "+0.4 %"}, {PercentMore(-0.018), "-1.8 %"},
		{WholeUnits(50.8, in), "2 in"}, {WholeUnits(50.4, mm), "50 mm"}, {WholeUnitsMore(25.4, in), "+1 in"},
		{WholeUnitsMore(-25, mm), "-25 mm"}, {WholeUnitsMore(0, mm), "+0 mm"}, {WholeUnitsMore(0.5, in), "+0 in"},
		{WholeDegrees(0, in), "32 °F"}, {WholeDegrees(-40, in), "-40 °F"}, {WholeDegrees(-5.2, mm), "-5 °C"},
		{WholeDegreesRange(-5, 20, in).String(), "23 to 68 °F"},
		{WholeDegreesRange(-5, 20, mm).In(language.German), "-5 bis 20 °C"},
		{Figures{Units: mm, Both: true}.Degrees(100), "100 °C (212 °F)"}, {Difference(5, in), "9 °F"},
		{Difference(5, mm), "5 °C"},
		{RoomSize(2850, 2400), "2.85 by 2.40 m"}, {About(26040, mm), "26.0 m"}, {About(3048, in), "10.0 ft"},
		{PaperSize(297, 210), "297 x 210 mm"}, {PriceMore(-3), "-3.00"}, {PriceMore(3), "+3.00"},
		{Reading(2000, true, Megohms), "over 2000 MΩ"}, {Reading(9, false, Nanofarads), "9 nF"},
		{Angle(89.6), "90°"}, {AngleFine(0.25), "0.2°"}, {Pegs(5.5), "5.5 pegs"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
