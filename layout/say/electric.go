package say

import "fmt"

// Volts writes a voltage in V as it is given, to a hundredth where it is no whole number.
func Volts(v float64) string { return Plain(v) + " V" }

// VoltageDrop writes what a feed loses, in V and as a share of the supply.
func VoltageDrop(volts, share float64) string {
	return fmt.Sprintf("%.2f V, %.2f %%", volts, 100*share)
}

// Amps writes a load's current in A.
func Amps(a float64) string { return AmpsFigure(a) + " A" }

// AmpsFigure is Amps without its unit, for a column that names it.
func AmpsFigure(a float64) string { return fmt.Sprintf("%.2f", a) }

// AmpsGiven writes a current in A as it is given: a rating, or what a meter showed.
func AmpsGiven(a float64) string { return Plain(a) + " A" }

// Milliamps writes a current in mA as it is given.
func Milliamps(ma float64) string { return Plain(ma) + " mA" }

// Watts writes a power in W, to a hundredth where it is no whole number.
func Watts(w float64) string { return Plain(w) + " W" }

// WattsRange writes the lowest and the highest of a power in whole W.
func WattsRange(low, high float64) string { return fmt.Sprintf("%.0f to %.0f W", low, high) }

// Ohms writes a conductor's resistance in Ω, to a tenth as meters for it show.
func Ohms(ohms float64) string { return OhmsFigure(ohms) + " Ω" }

// OhmsFigure is Ohms without its unit, for a column that names it.
func OhmsFigure(ohms float64) string { return fmt.Sprintf("%.1f", ohms) }

// OhmsRange writes the lowest and the highest of a conductor's resistance, as Ohms does.
func OhmsRange(low, high float64) string { return OhmsFigures(low, high) + " Ω" }

// OhmsFigures is OhmsRange without its unit, for a column that names it.
func OhmsFigures(low, high float64) string { return OhmsFigure(low) + " to " + OhmsFigure(high) }

// Tolerance writes how far a figure may lie below and above another, as shares of that:
// -5/+10 %.
func Tolerance(under, over float64) string {
	return Signed(100*under) + "/" + Signed(100*over) + " %"
}

// SensorOhms writes what a floor sensor reads in Ω: thousands, whose tenths say nothing.
func SensorOhms(ohms float64) string { return fmt.Sprintf("%.0f Ω", ohms) }

// SensorOhmsRange writes the lowest and the highest reading of a sensor, as SensorOhms does.
func SensorOhmsRange(low, high float64) string {
	return fmt.Sprintf("%.0f to %s", low, SensorOhms(high))
}

// Kilohms writes what a floor sensor reads in kΩ, without the unit, for a column that names
// it: two decimals, as a meter's kΩ range shows.
func Kilohms(ohms float64) string { return fmt.Sprintf("%.2f", ohms/1000) }

// Megohms writes an insulation resistance in MΩ, to a hundredth where it is no whole number.
func Megohms(megohms float64) string { return Plain(megohms) + " MΩ" }

// Nanofarads writes a capacitance in nF, to a hundredth where it is no whole number.
func Nanofarads(nf float64) string { return Plain(nf) + " nF" }

// KilowattHours writes an energy in kWh, without the unit.
func KilowattHours(kwh float64) string { return fmt.Sprintf("%.3f", kwh) }
