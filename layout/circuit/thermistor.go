package circuit

import (
	"fmt"
	"math"
)

// SteinhartHart is the curve 1/T = A + B ln R + C (ln R)³ of a thermistor, T
// in kelvin and R in ohms, its ohms multiplied by Scale. Range -50 to 150 °C.
type SteinhartHart struct{ A, B, C, Scale float64 }

// Ohms solves the cubic for ln R in closed form. B and C are positive, so it
// has one real root.
func (s SteinhartHart) Ohms(celsius float64) (float64, error) {
	if err := checkCelsius(celsius, coldestFormula, hottestFormula); err != nil {
		return 0, err
	}
	if !(s.B > 0 && s.C > 0 && s.Scale > 0) {
		return 0, fmt.Errorf("thermistor coefficients B %g, C %g and scale %g must all be above zero", s.B, s.C,
			s.Scale)
	}
	half := (s.A - 1/(celsius+kelvinAtZero)) / s.C / 2
	root := math.Sqrt(math.Pow(s.B/(3*s.C), 3) + half*half)
	return s.Scale * math.Exp(math.Cbrt(root-half)-math.Cbrt(root+half)), nil
}

// Celsius returns the temperature at ohms.
func (s SteinhartHart) Celsius(ohms float64) (float64, error) {
	if err := checkOhms(ohms); err != nil {
		return 0, err
	}
	y := math.Log(ohms / s.Scale)
	return checkReading(ohms, 1/(s.A+s.B*y+s.C*y*y*y)-kelvinAtZero, coldestFormula, hottestFormula)
}

// Beta is the two-figure curve R = R25 exp[B (1/T - 1/298.15 K)]. It is a
// label rather than a curve: 0.7 K off at 0 °C for the 3977 family. Range -50
// to 150 °C.
type Beta struct{ R25, B float64 }

// nominalAt °C is where a thermistor has its nominal ohms (IEC 60539-1).
const nominalAt = 25

// Ohms returns the resistance at a temperature.
func (b Beta) Ohms(celsius float64) (float64, error) {
	if err := checkCelsius(celsius, coldestFormula, hottestFormula); err != nil {
		return 0, err
	}
	return b.R25 * math.Exp(b.B*(1/(celsius+kelvinAtZero)-1/(nominalAt+kelvinAtZero))), nil
}

// Celsius returns the temperature at ohms.
func (b Beta) Celsius(ohms float64) (float64, error) {
	if err := checkOhms(ohms); err != nil {
		return 0, err
	}
	t := 1/(1/(nominalAt+kelvinAtZero)+math.Log(ohms/b.R25)/b.B) - kelvinAtZero
	return checkReading(ohms, t, coldestFormula, hottestFormula)
}
