package say

import (
	"fmt"
	"math"
	"strconv"
)

// Plain writes a figure to two decimals, without those that are nothing.
func Plain(v float64) string { return Decimals(v, 2) }

// Decimals writes a figure to so many decimals at most, without those that are nothing.
func Decimals(v float64, most int) string {
	parts := math.Pow10(most)
	return strconv.FormatFloat(math.Round(v*parts)/parts+0, 'f', -1, 64)
}

// Signed is Plain with a sign before what is above nothing.
func Signed(v float64) string {
	if v > 0 {
		return "+" + Plain(v)
	}
	return Plain(v)
}

// Digits writes a figure to so many digits, or whole where it has more: 0.352, 11.4, 1076.
func Digits(v float64, n int) string {
	if math.Abs(v) >= math.Pow10(n)-0.5 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.*g", n, v)
}

// exactDigits are those of a Working.
const exactDigits = 7

// Working writes a figure of a sum that is to be redone from what is printed: with up to
// seven digits, since it may take small differences of large readings.
func Working(v float64) string {
	r, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', exactDigits, 64), 64) // never fails
	return strconv.FormatFloat(r, 'f', -1, 64)
}

// Percent writes a share, 1 for all, in whole per cent.
func Percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// PercentRange writes the least and the most of a share, as Percent does.
func PercentRange(low, high float64) string { return fmt.Sprintf("%.0f to %s", 100*low, Percent(high)) }

// PercentFine writes a share to a tenth of a per cent.
func PercentFine(share float64) string { return fmt.Sprintf("%.1f %%", 100*share) }

// PercentGiven writes a share as it is given, such as a waste: 7.5 %.
func PercentGiven(share float64) string { return Plain(100*share) + " %" }

// PercentMore writes by what share something moved, to a tenth of a per cent with its sign.
func PercentMore(share float64) string { return fmt.Sprintf("%+.1f %%", 100*share) }

// Pegs writes a distance in pegs, to a hundredth where it is no whole number.
func Pegs(n float64) string { return Plain(n) + " pegs" }

// Angle writes an angle in whole degrees.
func Angle(degrees float64) string { return fmt.Sprintf("%.0f°", degrees) }

// AngleFine writes an angle in degrees to a tenth.
func AngleFine(degrees float64) string { return fmt.Sprintf("%.1f°", degrees) }

// PaperSize writes how wide and high a paper or what stands on it is, in whole mm.
func PaperSize(w, h float64) string { return fmt.Sprintf("%.0f x %.0f mm", w, h) }

// Price writes an amount of money without its currency.
func Price(v float64) string { return fmt.Sprintf("%.2f", v) }

// PriceMore writes a difference of money with its sign.
func PriceMore(v float64) string { return fmt.Sprintf("%+.2f", v) }

// Reading writes what an instrument showed, "over" before it where its range ended.
func Reading(v float64, over bool, write func(float64) string) string {
	if over {
		return "over " + write(v)
	}
	return write(v)
}
