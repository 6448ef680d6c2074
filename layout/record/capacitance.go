package record

import (
	"fmt"

	"oxturn/layout/say"
)

// Break finds a break from the capacitance to the braid read at the lead, in
// nF, and that of the whole cable: capacitance is in proportion to length, so
//
//	x = (L + leads) now / whole - lead
//
// Of a single-conductor cable it is read at the lead at the start of heat. Of
// a twin, both conductors are tied together for both readings, and it finds
// the place where both are broken; where one still carries on, the reading is
// that of the whole cable, which is an error.
func (c Cable) Break(now Measured) (Stretch, error) {
	const method = "break, by capacitance against that at hand-over"
	if err := c.forFarads(method, now); err != nil {
		return Stretch{}, err
	}
	if c.Farads.Value == 0 {
		return Stretch{}, fmt.Errorf("%s: needs the capacitance of the whole cable", method)
	}
	if !c.Ends.Return() && now.Value+now.Error >= c.Farads.Value-c.Farads.Error {
		return Stretch{}, fmt.Errorf("%s: %s nF is what the whole cable reads (%s nF): at most one core is broken; "+
			"read each core against the braid instead", method, say.Working(now.Value), say.Working(c.Farads.Value))
	}
	leads := c.Lead
	words := []string{evenFarads, c.leadFarads(), "the whole cable was read with the lead as long as it is now"}
	if c.Ends.Return() {
		leads *= 2
	} else {
		words = append(words, "both conductors were tied together for both readings, and both are broken at one place")
	}
	at := propagate(func(v []float64) float64 {
		return (c.Length+leads)*v[0]/v[1] - c.Lead
	}, now, c.Farads)
	formula := fmt.Sprintf("x = (L + leads) now / whole - lead = %s × %s / %s - %s",
		c.far(c.Length+leads), say.Working(now.Value), say.Working(c.Farads.Value), c.far(c.Lead))
	return c.stretch(method, formula, at, words...)
}

// BreakBothWays finds a break from the capacitances to the braid, in nF, read
// from both ends of the conductor: a share a/(a+b) of it lies before the
// break. Of a twin, a and b are its two cores, one read at a time.
func (c Cable) BreakBothWays(a, b Measured) (Stretch, error) {
	const method = "break, by capacitance from both ends"
	if err := c.forFarads(method, a, b); err != nil {
		return Stretch{}, err
	}
	if a.Value+b.Value == 0 {
		return Stretch{}, fmt.Errorf("%s: both readings are zero", method)
	}
	loop := c.Length
	words := []string{evenFarads, c.leadFarads()}
	if !c.Ends.Return() {
		loop *= 2
		words = append(words, "one core is broken; the other core, left free, adds something to both readings, so "+
			"that the place is rougher than the meter")
	}
	share := propagateAlike(func(v []float64) float64 {
		return ((loop+2*c.Lead)*v[0]/(v[0]+v[1]) - c.Lead) / loop
	}, []int{0, 1}, a, b)
	formula := fmt.Sprintf("share of the conductor from A = A / (A + B) = %s / (%s + %s)", say.Working(a.Value),
		say.Working(a.Value), say.Working(b.Value))
	s, err := c.onLoop(method, formula, share, 0.5, words...)
	if err == nil && s.Core == EitherCore {
		s.Cautions = append([]string{"the cores read alike: either the break is at the far end, or both cores are " +
			"cut at one place, which this method does not find; tie them together and compare with the hand-over " +
			"reading"}, s.Cautions...)
	}
	return s, err
}

const evenFarads = "the cable has the same capacitance per length all along"

func (c Cable) leadFarads() string {
	if c.Lead == 0 {
		return "the lead's length is not given and was taken as none"
	}
	return fmt.Sprintf("the lead, %s, has the same capacitance per length as the heating cable", c.far(c.Lead))
}

// forFarads checks the cable and the readings of a method by capacitance.
func (c Cable) forFarads(method string, readings ...Measured) error {
	if err := c.check(); err != nil {
		return fmt.Errorf("%s: %w", method, err)
	}
	for _, r := range readings {
		if err := r.check("a reading", "nF"); err != nil {
			return fmt.Errorf("%s: %w", method, err)
		}
	}
	return nil
}
