package record

import (
	"fmt"
	"math"

	"oxturn/layout/say"
)

// Short finds a short between the cores of a twin cable from the ohms read at
// its lead: the loop then ends at the fault, so
//
//	x = L (now - lead) / (whole - lead)
//
// The return core may have other ohms than the first, as long as each is even
// along its length.
func (c Cable) Short(now Measured) (Stretch, error) {
	const method = "short between cores, by loop ohms"
	if err := c.forOhms(method, now); err != nil {
		return Stretch{}, err
	}
	if c.Ends.Return() {
		return Stretch{}, fmt.Errorf("%s: a single-conductor cable has no second core; read each end to the braid",
			method)
	}
	if !above(c.Ohms, c.LeadOhms) {
		return Stretch{}, fmt.Errorf("%s: needs the ohms of the whole cable, above those of its leads", method)
	}
	at := propagate(func(v []float64) float64 {
		return (v[0] - v[2]) / (v[1] - v[2]) * c.Length
	}, now, c.Ohms, c.LeadOhms)
	formula := fmt.Sprintf("x = L (now - lead) / (whole - lead) = %s × (%s - %s) / (%s - %s)",
		c.far(c.Length), say.Working(now.Value), say.Working(c.LeadOhms.Value), say.Working(c.Ohms.Value),
		say.Working(c.LeadOhms.Value))
	return c.stretch(method, formula, at, evenOhms, c.leadWords(),
		"the short itself has no ohms; if it has some the fault lies nearer the start of heat",
		c.warmthWords())
}

// Warmed returns the cable with its ohms as they are when it is so many kelvin
// warmer than it was read whole: R (1 + a dT). The coefficient a, per kelvin,
// is the conductor's own, from the cable's instructions.
func (c Cable) Warmed(kelvin, perKelvin float64) Cable {
	by := 1 + perKelvin*kelvin
	c.Ohms = Measured{c.Ohms.Value * by, c.Ohms.Error * by, c.Ohms.Gain * by}
	c.warmed = fmt.Sprintf("the whole cable's ohms are brought to now, %s K warmer, by the coefficient given, %s per "+
		"K; the leads' are not", say.Working(kelvin), say.Working(perKelvin))
	return c
}

func (c Cable) warmthWords() string {
	if c.warmed != "" {
		return c.warmed
	}
	return "the cable is as warm as when it was read whole"
}

// EarthReadings finds a fault between a core and the braid from the loop's
// ohms ab and the ohms from each end of the loop to the braid, a and b. Half
// of (ab + a - b) is the ohms of conductor from end A to the fault: the
// fault's own ohms, (a + b - ab)/2, cancel.
func (c Cable) EarthReadings(ab, a, b Measured) (Stretch, error) {
	const method = "fault to the braid, by loop and two braid readings"
	if err := c.forOhms(method, ab, a, b); err != nil {
		return Stretch{}, err
	}
	share, err := c.loopShare(method, ab, func(v []float64) float64 { return (v[0] + v[1] - v[2]) / 2 }, a, b)
	if err != nil {
		return Stretch{}, err
	}
	formula := fmt.Sprintf("ohms from A = (AB + A - B) / 2 = (%s + %s - %s) / 2, of %s", say.Working(ab.Value),
		say.Working(a.Value), say.Working(b.Value), say.Working(ab.Value))
	s, err := c.onLoop(method, formula, share, c.firstCore(), c.loopWords()...)
	if err != nil {
		return s, err
	}
	s.Assumptions = append(s.Assumptions,
		"both braid readings are by one meter on one range, so that its error in proportion moves both alike")
	s.FaultOhms = propagateAlike(func(v []float64) float64 { return math.Max(0, (v[0]+v[1]-v[2])/2) }, []int{0, 1}, a,
		b, ab)
	return c.compareLoop(s, ab), nil
}

// Murray finds a fault between a core and the braid from a bridge balanced by
// two arms, q at the end A of the faulty conductor and p at the other: the ohms
// from A are the share q/(p+q) of the loop's. The loop ab may be left zero:
// the whole cable's ohms are then taken.
func (c Cable) Murray(p, q, ab Measured) (Stretch, error) {
	const method = "fault to the braid, by Murray's bridge"
	if ab.Value == 0 {
		ab = c.Ohms
	}
	if err := c.forOhms(method, ab, p, q); err != nil {
		return Stretch{}, err
	}
	if p.Value+q.Value == 0 {
		return Stretch{}, fmt.Errorf("%s: both arms are zero", method)
	}
	if ab.Value == 0 && c.LeadOhms.Value == 0 {
		ab.Value = 1 // nothing to take off: the ratio alone gives the place
	}
	share, err := c.loopShare(method, ab, func(v []float64) float64 { return v[0] * v[2] / (v[1] + v[2]) }, p, q)
	if err != nil {
		return Stretch{}, err
	}
	formula := fmt.Sprintf("share of the loop from A = Q / (P + Q) = %s / (%s + %s)", say.Working(q.Value),
		say.Working(p.Value),
		say.Working(q.Value))
	return c.onLoop(method, formula, share, c.firstCore(), c.loopWords()...)
}

// Varley finds a fault between a core and the braid from a bridge with arms p
// and q, balanced by s ohms put in series with the faulty conductor:
//
//	ohms from A = (q ab - p s) / (p + q)
func (c Cable) Varley(p, q, s, ab Measured) (Stretch, error) {
	const method = "fault to the braid, by Varley's bridge"
	if ab.Value == 0 {
		ab = c.Ohms
	}
	if err := c.forOhms(method, ab, p, q, s); err != nil {
		return Stretch{}, err
	}
	if p.Value+q.Value == 0 {
		return Stretch{}, fmt.Errorf("%s: both arms are zero", method)
	}
	share, err := c.loopShare(method, ab, func(v []float64) float64 {
		return (v[2]*v[0] - v[1]*v[3]) / (v[1] + v[2])
	}, p, q, s)
	if err != nil {
		return Stretch{}, err
	}
	formula := fmt.Sprintf("ohms from A = (Q AB - P S) / (P + Q) = (%s × %s - %s × %s) / (%s + %s)",
		say.Working(q.Value), say.Working(ab.Value), say.Working(p.Value), say.Working(s.Value), say.Working(p.Value),
		say.Working(q.Value))
	return c.onLoop(method, formula, share, c.firstCore(), c.loopWords()...)
}

// loopShare takes the leads off: fromA gives the ohms from end A to the fault
// out of the loop's and the readings, and half of the leads' ohms lie before
// the heating conductor. The first two readings, both braid readings or both
// arms of a bridge, share their meter's or their bridge's gain.
func (c Cable) loopShare(method string, ab Measured, fromA func(v []float64) float64, readings ...Measured) (Measured,
	error) {
	if !above(ab, c.LeadOhms) {
		return Measured{}, fmt.Errorf("%s: needs the loop's ohms, above those of the leads", method)
	}
	in := append([]Measured{ab}, readings...)
	in = append(in, c.LeadOhms)
	last := len(in) - 1
	return propagateAlike(func(v []float64) float64 {
		return (fromA(v[:last]) - v[last]/2) / (v[0] - v[last])
	}, []int{1, 2}, in...), nil
}

// above reports whether a lies above b whatever their errors.
func above(a, b Measured) bool { return a.Value-a.Error > b.Value+b.Error }

// firstCore returns the share of the heating ohms in the first core.
func (c Cable) firstCore() float64 {
	if c.CoreShare == 0 {
		return 0.5
	}
	return c.CoreShare
}

// evenOhms is what every method by ohms assumes.
const evenOhms = "the conductor has the same ohms per length all along"

func (c Cable) leadWords() string {
	if c.LeadOhms.Value == 0 {
		return "the leads' ohms are not given and were taken as none"
	}
	return fmt.Sprintf("%s Ω taken off for the leads, there and back", say.Working(c.LeadOhms.Value))
}

func (c Cable) loopWords() []string {
	out := []string{evenOhms, c.leadWords()}
	switch {
	case c.Ends.Return():
		return append(out, "end A is at the start of heat; both leads are alike")
	case c.CoreShare == 0:
		return append(out, "both cores have the same ohms per length; if the return core differs, give the first "+
			"core's share, for the place moves with it")
	}
	return append(out, "the first core has "+say.PercentGiven(c.CoreShare)+" of the ohms, as given")
}

// compareLoop warns when the loop is no longer what it was when whole.
func (c Cable) compareLoop(s Stretch, ab Measured) Stretch {
	const apart = 0.05
	off := math.Abs(ab.Value-c.Ohms.Value) - ab.Error - c.Ohms.Error
	if c.Ohms.Value > 0 && off > apart*c.Ohms.Value {
		s.Cautions = append([]string{fmt.Sprintf("the loop reads %s Ω, %s Ω when whole: there may be a second fault, "+
			"or the cable is at another temperature", say.Working(ab.Value), say.Working(c.Ohms.Value))}, s.Cautions...)
	}
	return s
}

// forOhms checks the cable and the readings of a method by ohms.
func (c Cable) forOhms(method string, readings ...Measured) error {
	if err := c.check(); err != nil {
		return fmt.Errorf("%s: %w", method, err)
	}
	for _, r := range readings {
		if err := r.check("a reading", "Ω"); err != nil {
			return fmt.Errorf("%s: %w", method, err)
		}
	}
	return nil
}
