package circuit

import (
	"fmt"
	"math"
)

// A Label is what a cable's tag says.
type Label struct {
	ID     string
	Volts  float64
	Watts  float64
	Length float64 // mm of heating cable, 0: not given
	Ohms   float64 // at 20 °C; 0: not on the tag, V²/W is used
	// Tolerance of the ohms as shares of the nominal value, -0.05 and +0.10.
	// Both zero: DefaultLow and DefaultHigh are used.
	OhmsLow, OhmsHigh float64
	Tolerance         string // where the tolerance comes from: "label", "job file"
}

// The tolerance used when nothing else is stated: -5/+10 % of the label's
// ohms at 20 °C, common practice for heating cable.
const (
	DefaultLow  = -0.05
	DefaultHigh = +0.10
)

// Reference is the temperature in °C that label ohms are stated at.
const Reference = 20.0

// A Cable is one cable on its supply.
type Cable struct {
	Label
	OhmsFrom      string  // "label" or "V²/W"
	Nominal       float64 // ohms at 20 °C
	Limits        Limits
	Amps          float64 // Watts / Volts
	WattsPerMetre float64 // 0 when the label gives no length
	// Heat at rated volts with the ohms at either end of the tolerance, in W:
	// V²/R, so the low end of the ohms gives the most heat.
	WattsLow, WattsHigh float64
	// LabelGap is the share by which the label's ohms differ from V²/W; 0
	// when the label gives no ohms.
	LabelGap float64
}

// Compute works out one cable at its rated voltage. supply is what the
// electrician brings, in volts; 0: not stated, the label's is assumed. A
// supply unlike the label's gives the cable's figures all the same, with a
// *VoltageError. Figures that no cable can have give a plain error.
func Compute(l Label, supply float64) (Cable, error) {
	if err := l.check(); err != nil {
		return Cable{}, err
	}
	if !usable(supply) {
		return Cable{}, fmt.Errorf("cable %s: a supply of %g V is not a usable figure", l.ID, supply)
	}
	c := Cable{Label: l, OhmsFrom: "label", Nominal: l.Ohms, Amps: l.Watts / l.Volts}
	computed := l.Volts * l.Volts / l.Watts
	if l.Ohms == 0 {
		c.OhmsFrom, c.Nominal = "V²/W", computed
	} else {
		c.LabelGap = l.Ohms/computed - 1
	}
	c.Limits = l.limits(c.Nominal)
	c.WattsLow = l.Volts * l.Volts / c.Limits.High
	c.WattsHigh = l.Volts * l.Volts / c.Limits.Low
	if l.Length > 0 {
		c.WattsPerMetre = l.Watts / l.Length * 1000
	}
	return c, CheckSupply(l, supply)
}

// check refuses figures that no label can carry.
func (l Label) check() error {
	for _, f := range []struct {
		name  string
		value float64
		need  bool
	}{{"volts", l.Volts, true}, {"watts", l.Watts, true}, {"length", l.Length, false}, {"ohms", l.Ohms, false}} {
		if !usable(f.value) || f.need && f.value == 0 {
			return fmt.Errorf("cable %s: %s of %g is not a usable figure", l.ID, f.name, f.value)
		}
	}
	// written so that NaN fails too
	if !(l.OhmsLow > -1 && l.OhmsLow <= 0 && l.OhmsHigh >= 0 && l.OhmsHigh < 10) {
		return fmt.Errorf("cable %s: a tolerance of %+g/%+g %% is not usable; it is written as -5 and +10",
			l.ID, 100*l.OhmsLow, 100*l.OhmsHigh)
	}
	return nil
}

// usable reports whether v is an ordinary number, zero or more.
func usable(v float64) bool { return v >= 0 && !math.IsInf(v, 1) }

// A VoltageError says that a cable would be fed with a voltage it is not made
// for. It is reported, never scaled away.
type VoltageError struct {
	Cable         string
	Rated, Supply float64 // volts
	Share         float64 // of the rated heat, (Supply/Rated)²
	Watts         float64 // the heat it would give
}

// Error names the cable; the figures are for the caller to word.
func (e *VoltageError) Error() string {
	return fmt.Sprintf("cable %s is made for another voltage than that of the supply", e.Cable)
}

// CheckSupply returns a *VoltageError when supply, in volts, is not what the
// label asks for. A cable's resistance hardly changes, so its heat goes with
// the square of the voltage. supply 0 means not stated and is never an error.
func CheckSupply(l Label, supply float64) error {
	if supply == 0 || supply == l.Volts {
		return nil
	}
	share := supply / l.Volts * (supply / l.Volts)
	return &VoltageError{Cable: l.ID, Rated: l.Volts, Supply: supply, Share: share, Watts: share * l.Watts}
}
