package record

import (
	"fmt"
	"math"
)

// A Measured is a figure and how far it may be off either way, in its unit.
type Measured struct{ Value, Error float64 }

// MeterReading returns v with a meter's error as manuals state it: a share of the
// reading (0.01 for 1 %) and a number of steps of its last digit.
func MeterReading(v, share float64, digits int, step float64) Measured {
	return Measured{v, math.Abs(v)*share + float64(digits)*step}
}

func (m Measured) check(name, unit string) error {
	if !(m.Value >= 0) || math.IsInf(m.Value, 1) {
		return fmt.Errorf("%s is %g %s; that is not a reading", name, m.Value, unit)
	}
	if !(m.Error >= 0) || math.IsInf(m.Error, 1) {
		return fmt.Errorf("the error of %s is %g %s; give it as the meter's manual states it, not below zero", name, m.Error, unit)
	}
	return nil
}

// propagate returns f of measured figures. Its error is the sum of what each
// figure's own error moves it by, either way: the worst case, since the errors
// of one meter are not independent of each other.
func propagate(f func(v []float64) float64, in ...Measured) Measured {
	v := make([]float64, len(in))
	for i, m := range in {
		v[i] = m.Value
	}
	out := Measured{Value: f(v)}
	for i, m := range in {
		if m.Error == 0 {
			continue
		}
		v[i] = m.Value + m.Error
		more := math.Abs(f(v) - out.Value)
		v[i] = m.Value - m.Error
		less := math.Abs(f(v) - out.Value)
		v[i] = m.Value
		out.Error += math.Max(more, less)
	}
	return out
}
