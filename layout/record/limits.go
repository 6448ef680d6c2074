package record

import (
	"fmt"
	"math"

	"oxturn/layout/say"
)

// Limits are what the readings are held against, each with its origin in
// words ("label", "instructions", "job file", "default").
type Limits struct {
	Ohms            float64 // by the label, at its temperature
	OhmsSource      string
	Low, High       float64 // tolerance as shares: -0.05 and 0.10
	ToleranceSource string
	Megohms         float64 // least insulation
	Volts           float64 // dc, at which it is to be read
	MegohmsSource   string
	Fall            float64 // insulation that falls to 1/Fall of the first reading is reported
	Drift           float64 // share by which ohms may differ from the first reading
}

// DefaultLimits returns the limits used where nothing is given: -5/+10 % of the
// label (IEC 60800 practice), 20 MΩ at 500 V (IEEE 515.1 as commonly relayed),
// insulation fallen tenfold, ohms moved by 5 % (common practice).
func DefaultLimits(ohms float64) Limits {
	return Limits{
		Ohms: ohms, OhmsSource: "label",
		Low: -0.05, High: 0.10, ToleranceSource: "default",
		Megohms: 20, Volts: 500, MegohmsSource: "default",
		Fall: 10, Drift: 0.05,
	}
}

// LeastMegohms is the insulation below which no limit may be set, in MΩ
// (IEC 60364-6 table 6.1 for circuits up to 1000 V; from memory).
const LeastMegohms = 1.0

// Check reports the first limit that cannot be held against anything.
func (l Limits) Check() error {
	switch {
	case !(l.Ohms > 0 && !math.IsInf(l.Ohms, 1)):
		return fmt.Errorf("the label's ohms are %g; give what the label says, or volts² / watts", l.Ohms)
	case !(l.Low > -1 && l.Low <= 0 && l.High >= 0 && l.High < 10):
		return fmt.Errorf("the tolerance %g to %g is not a share below and one above the label", l.Low, l.High)
	case !(l.Megohms >= LeastMegohms):
		return fmt.Errorf("the least insulation is %g MΩ; it may not be set below %g MΩ", l.Megohms, LeastMegohms)
	case !(l.Volts > 0):
		return fmt.Errorf("the insulation limit has no test voltage")
	case !(l.Fall > 1):
		return fmt.Errorf("a fall of insulation by %g is no fall", l.Fall)
	case !(l.Drift > 0 && l.Drift < 1):
		return fmt.Errorf("a drift of %g is not a share between 0 and 1", l.Drift)
	}
	return nil
}

// OhmsRange returns the lowest and highest ohms within the tolerance.
func (l Limits) OhmsRange() (low, high float64) {
	return l.Ohms * (1 + l.Low), l.Ohms * (1 + l.High)
}

// limitSlack is the share by which a reading may pass a limit it equals, so that
// rounding in binary does not fail a reading exactly at its limit.
const limitSlack = 1e-9

// String writes the limits for the head of a test record.
func (l Limits) String() string {
	low, high := l.OhmsRange()
	return fmt.Sprintf("%s (%s %s, %s %s); insulation at least %s at %s dc (%s)",
		say.OhmsRange(low, high), l.OhmsSource, say.Ohms(l.Ohms), say.Tolerance(l.Low, l.High), l.ToleranceSource,
		say.Megohms(l.Megohms), say.Volts(l.Volts), l.MegohmsSource)
}
