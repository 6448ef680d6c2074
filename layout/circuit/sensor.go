package circuit

import (
	"fmt"
	"math"
	"sort"
	"strings"
)

// byRounding is what a figure at the end of a range may lie beyond it.
const byRounding = 1e-6

// kelvinAtZero is 0 °C in kelvin.
const kelvinAtZero = 273.15

// A Curve ties the ohms of a floor sensor to its temperature in °C. Both ways
// give an error outside the curve's range rather than an extrapolation.
type Curve interface {
	Ohms(celsius float64) (float64, error)
	Celsius(ohms float64) (float64, error)
}

// A Family is a kind of sensor with a name the job file may use.
type Family struct {
	Name   string // "10k-3977"
	About  string
	Source string // of the curve
	Curve
}

// The coefficients of the two common 10 kΩ families, 1/T = A + B ln R + C (ln R)³.
var (
	ntc3977 = SteinhartHart{1.12924e-3, 2.34108e-4, 0.87755e-7, 1}
	ntc3695 = SteinhartHart{1.0295e-3, 2.3910e-4, 1.5680e-7, 1}
)

// Families returns the built-in sensor families, commonest first.
func Families() []Family {
	scaled := func(k float64) Curve { c := ntc3977; c.Scale = k; return c }
	return []Family{
		{"10k-3977", "10 kΩ at 25 °C, falling with warmth, B25/85 about 3977 (type II, curve 2)",
			"published coefficients", ntc3977},
		{"10k-3695", "10 kΩ at 25 °C, falling with warmth, B25/85 about 3695 (type III, curve 3)",
			"published coefficients", ntc3695},
		{"10k-3435", "10 kΩ at 25 °C, falling with warmth, beta 3435", "beta formula", Beta{10000, 3435}},
		{"10k-3950", "10 kΩ at 25 °C, falling with warmth, beta 3950", "beta formula", Beta{10000, 3950}},
		{"12k", "12 kΩ at 25 °C, falling with warmth",
			"assumed 1.2 times the 10k-3977 curve; no published table was found", scaled(1.2)},
		{"15k", "15 kΩ at 25 °C, falling with warmth",
			"assumed 1.5 times the 10k-3977 curve; no published table was found", scaled(1.5)},
		{"pt1000", "platinum, 1000 Ω at 0 °C, rising with warmth", "IEC 60751", Platinum{1000}},
	}
}

// FindFamily returns the built-in family of a name, letter case apart.
func FindFamily(name string) (Family, error) {
	var names []string
	for _, f := range Families() {
		if strings.EqualFold(f.Name, name) {
			return f, nil
		}
		names = append(names, f.Name)
	}
	return Family{}, fmt.Errorf("no sensor family is called %q; there are %s, or give a table of temperatures "+
		"and ohms",
		name, strings.Join(names, ", "))
}

// The range in °C that the formulas are used over. No floor leaves it.
const (
	coldestFormula = -50.0
	hottestFormula = 150.0
)

func checkCelsius(t, low, high float64) error {
	if !(t >= low && t <= high) {
		return fmt.Errorf("%g °C is outside the sensor's curve, %g to %g °C", t, low, high)
	}
	return nil
}

func checkOhms(r float64) error {
	if !(r > 0) || math.IsInf(r, 1) {
		return fmt.Errorf("%g Ω is not a sensor's reading: the lead is open or shorted", r)
	}
	return nil
}

// checkReading refuses a temperature that ohms were turned into when it lies
// outside the curve.
func checkReading(ohms, t, low, high float64) (float64, error) {
	if !(t >= low-byRounding && t <= high+byRounding) {
		return 0, fmt.Errorf("%g Ω is outside the sensor's curve, %g to %g °C", ohms, low, high)
	}
	return t, nil
}

// A Fit says how well a family explains a reading.
type Fit struct {
	Family  Family
	Celsius float64 // the floor temperature the ohms would mean
	Miss    float64 // Celsius less the floor's own temperature, K
}

// Fits holds a sensor's reading in ohms, taken at a floor temperature in °C,
// against families and returns the best first; equal ones keep their order. A
// family whose curve does not reach the reading is left out.
func Fits(families []Family, ohms, celsius float64) ([]Fit, error) {
	if err := checkOhms(ohms); err != nil {
		return nil, err
	}
	if err := checkCelsius(celsius, coldestFormula, hottestFormula); err != nil {
		return nil, err
	}
	var out []Fit
	for _, f := range families {
		if t, err := f.Celsius(ohms); err == nil {
			out = append(out, Fit{f, t, t - celsius})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return math.Abs(out[i].Miss) < math.Abs(out[j].Miss) })
	return out, nil
}

// BetterFamily looks whether a reading fits another family clearly better than
// the one chosen: chosen misses the floor temperature by more than tolerance
// kelvin while the other is within it. ok is false when there is none.
func BetterFamily(chosen Family, ohms, celsius, tolerance float64) (other Fit, ok bool, err error) {
	fits, err := Fits(Families(), ohms, celsius)
	if err != nil || len(fits) == 0 {
		return Fit{}, false, err
	}
	if t, err := chosen.Celsius(ohms); err == nil && math.Abs(t-celsius) <= tolerance {
		return Fit{}, false, nil
	}
	best := fits[0]
	return best, best.Family.Name != chosen.Name && math.Abs(best.Miss) <= tolerance, nil
}
