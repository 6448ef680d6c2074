package record

import (
	"fmt"
	"math"
)

// A Measured is a figure and how far it may be off either way, in its unit.
type Measured struct {
	Value, Error float64
	Gain         float64 // what of Error moves all readings of one range of one meter alike, in their own proportion
}

// MeterReading returns v with a meter's error as manuals state it: a share of the
// reading (0.01 for 1 %) and a number of steps of its last digit.
func MeterReading(v, share float64, digits int, step float64) Measured {
	gain := math.Abs(v) * share
	return Measured{Value: v, Error: gain + float64(digits)*step, Gain: gain}
}

func (m Measured) check(name, unit string) error {
	if !(m.Value >= 0) || math.IsInf(m.Value, 1) {
		return fmt.Errorf("%s is %g %s; that is not a reading", name, m.Value, unit)
	}
	if !(m.Error >= 0) || math.IsInf(m.Error, 1) {
		return fmt.Errorf("the error of %s is %g %s; give it as the meter's manual states it, not below zero", name,
			m.Error, unit)
	}
	if !(m.Gain >= 0 && m.Gain <= m.Error) {
		return fmt.Errorf("of an error of %g %s in %s, %g are said to be the meter's gain", m.Error, unit, name, m.Gain)
	}
	return nil
}

// propagateAlike is propagate where the figures numbered in alike were read on
// one range of one meter. Its gain moves them all the same way, so that it is
// counted once, with their joint effect (JCGM 100:2008, 5.2.2, note 1: fully
// correlated inputs add with their signs); in a ratio or a difference of like
// readings little or nothing is left of it:
//
//	error = |f(v + gain) - f(v)| + sum of |f's change| by what else each is off
func propagateAlike(f func(v []float64) float64, alike []int, in ...Measured) Measured {
	rest := append([]Measured{}, in...)
	more, less := make([]float64, len(in)), make([]float64, len(in))
	for i, m := range in {
		more[i], less[i] = m.Value, m.Value
	}
	for _, i := range alike {
		more[i], less[i] = in[i].Value+in[i].Gain, in[i].Value-in[i].Gain
		rest[i].Error -= in[i].Gain
	}
	out := propagate(f, rest...)
	out.Error += math.Max(math.Abs(f(more)-out.Value), math.Abs(f(less)-out.Value))
	return out
}

// propagate returns f of measured figures. Its error is the sum of what each
// figure's own error moves it by, either way: the worst case, since a manual
// gives the most that a figure may be off.
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
