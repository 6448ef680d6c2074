package circuit

import "math"

// Coefficients of IEC 60751 on the ITS-90 scale.
const (
	platinumA = 3.9083e-3
	platinumB = -5.775e-7
	platinumC = -4.183e-12 // below 0 °C only
)

// Platinum is the curve of IEC 60751, R = R0 [1 + A t + B t² + C (t - 100) t³],
// C being 0 above 0 °C. R0 is the ohms at 0 °C. Range -50 to 150 °C.
type Platinum struct{ R0 float64 }

func (p Platinum) at(t float64) float64 {
	r := 1 + platinumA*t + platinumB*t*t
	if t < 0 {
		r += platinumC * (t - 100) * t * t * t
	}
	return p.R0 * r
}

// Ohms returns the resistance at a temperature.
func (p Platinum) Ohms(celsius float64) (float64, error) {
	if err := checkCelsius(celsius, coldestFormula, hottestFormula); err != nil {
		return 0, err
	}
	return p.at(celsius), nil
}

// Celsius solves the quadratic; below 0 °C a few Newton steps then take in the
// fourth power.
func (p Platinum) Celsius(ohms float64) (float64, error) {
	if err := checkOhms(ohms); err != nil {
		return 0, err
	}
	if ohms < p.at(coldestFormula)-byRounding || ohms > p.at(hottestFormula)+byRounding {
		return checkReading(ohms, math.NaN(), coldestFormula, hottestFormula)
	}
	t := (-platinumA + math.Sqrt(platinumA*platinumA-4*platinumB*(1-ohms/p.R0))) / (2 * platinumB)
	for range 3 {
		if t < 0 {
			t += (ohms - p.at(t)) / (p.R0 * (platinumA + 2*platinumB*t))
		}
	}
	return t, nil
}
