package circuit

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"oxturn/layout/internal/published"
)

var (
	table = published.Table
	near  = published.Near
	off   = published.Off
)

// The figures of testdata/tables, each noticed when it is moved by 2 %.
func TestPublishedTables(t *testing.T) {
	published.Holds(t, "breaker-80.csv", breakerRow)
	published.Holds(t, "wrong-voltage.csv", wrongVoltageRow)
	published.Holds(t, "copper-awg.csv", awgRow)
	published.Holds(t, "copper-iec60228.csv", mm2Row)
	published.Holds(t, "copper-temperature.csv", temperatureRow,
		published.Unnoticed{Column: "celsius", Figure: 5,
			Why: "0.1 K is 0.0004 of the factor, less than its three places show"})
	published.Holds(t, "sensor-10k-3977.csv", ntc3977Row)
	published.Holds(t, "sensor-10k-3695.csv", ntc3695Row)
	published.Holds(t, "sensor-pt1000.csv", platinumRow)
}

// breakerRow: breaker, amps at 80 %, watts at 120, 208 and 240 V.
func breakerRow(row []float64) error {
	var wrong []error
	for i, volts := range []float64{120, 208, 240} {
		c, err := Compute(Label{ID: "H1", Volts: volts, Watts: 100}, volts)
		if err != nil {
			return err
		}
		l, err := Total([]Cable{c}, 0, NorthAmerica)
		if err != nil {
			return err
		}
		rows := l.Bindings(NorthAmerica.Ratings)
		k := slices.IndexFunc(rows, func(b Binding) bool { return b.Breaker == row[0] })
		if k < 0 {
			return fmt.Errorf("no breaker of %g A", row[0])
		}
		wrong = append(wrong, off("usable amps", rows[k].Usable, row[1], 1e-9), off("watts", rows[k].Watts, row[2+i],
			1e-6))
	}
	return errors.Join(wrong...)
}

// wrongVoltageRow: rated volts, supply, share of the rated heat to four places.
func wrongVoltageRow(row []float64) error {
	c, err := Compute(Label{ID: "H1", Volts: row[0], Watts: 500}, row[1])
	var wrong *VoltageError
	if !errors.As(err, &wrong) {
		return fmt.Errorf("%g V cable on %g V: error %v", row[0], row[1], err)
	}
	return errors.Join(off("share", wrong.Share, row[2], 5e-5), off("watts", wrong.Watts, 500*row[2], 0.03),
		off("watts of the cable itself", c.Watts, 500, 0))
}

// awgRow: size, ohms per 1000 ft, circular mils. The resistance on file also
// agrees within 0.5 % with the size's own cross-section (d = 0.005 in ·
// 92^((36-n)/39), ASTM B258) and 10.371 Ω·cmil/ft at 20 °C for annealed copper,
// moved to 75 °C.
func awgRow(row []float64) error {
	c, err := FindConductor(fmt.Sprintf("%g AWG", row[0]))
	if err != nil {
		return err
	}
	mils := 5 * math.Pow(92, (36-row[0])/39)
	at20 := 10.371 / (mils * mils) * 1000
	return errors.Join(off(c.Size, c.OhmsPerM*304.8, row[1], 1e-12), off(c.Size+" cmil", mils*mils, row[2],
		0.001*row[2]),
		off(c.Size+" at 75 °C", at20*CopperNEC.Factor(20, 75), row[1], 0.005*row[1]))
}

// mm2Row: mm², ohms per km, never below what the full cross-section of annealed
// copper has.
func mm2Row(row []float64) error {
	c, err := FindConductor(fmt.Sprintf("%g mm²", row[0]))
	if err != nil {
		return err
	}
	if full := 0.017241 / row[0] * 1000; row[1] < full {
		return fmt.Errorf("%s: %g Ω/km is below copper's own %g", c.Size, row[1], full)
	}
	return off(c.Size, c.OhmsPerM*1000, row[1], 1e-12)
}

// temperatureRow: °C, factor to 20 °C to three places.
func temperatureRow(row []float64) error {
	return off("IEC factor", CopperIEC.Factor(row[0], 20), row[1], 5.1e-4)
}

// ntc3977Row: °C, ohms; within 0.01 K from 0 to 65 °C, 0.1 K outside.
func ntc3977Row(row []float64) error {
	kelvin := 0.01
	if row[0] < 0 || row[0] > 65 {
		kelvin = 0.1
	}
	return onCurve(ntc3977, row, 0.003*row[1], kelvin)
}

// ntc3695Row: °C, ohms, from memory; within 0.1 %.
func ntc3695Row(row []float64) error { return onCurve(ntc3695, row, 0.001*row[1], 0.03) }

// platinumRow: °C, ohms printed to 0.1 Ω.
func platinumRow(row []float64) error { return onCurve(Platinum{1000}, row, 0.06, 0.02) }

// onCurve holds a row of °C and ohms against a curve, both ways.
func onCurve(c Curve, row []float64, ohms, kelvin float64) error {
	r, err := c.Ohms(row[0])
	if err != nil {
		return err
	}
	at, err := c.Celsius(row[1])
	if err != nil {
		return err
	}
	return errors.Join(off("Ω", r, row[1], ohms), off("°C", at, row[0], kelvin))
}
