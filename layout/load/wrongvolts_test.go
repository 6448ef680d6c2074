package load

import (
	"testing"

	"oxturn/layout/circuit"
)

// Heat goes with the square of the voltage: 208 V on a cable for 240 V give 0.7511 of 500 W,
// 376 W; 480 V four times as much.
func TestWrongVoltsAreSaidWithTheirHeat(t *testing.T) {
	for supply, want := range map[float64]string{
		208: "cable H1 is made for 240 V but the supply is 208 V: it would give 376 W, 75 % of its rated heat, " +
			"too little to warm the floor as planned",
		480: "cable H1 is made for 240 V but the supply is 480 V: it would give 2000 W, 400 % of its rated heat, " +
			"more than it is made for, which can destroy it",
	} {
		share := supply * supply / (240 * 240)
		e := circuit.VoltageError{Cable: "H1", Rated: 240, Supply: supply, Share: share, Watts: share * 500}
		if got := wrongVolts(&e); got != want {
			t.Errorf("%g V: %s, want %s", supply, got, want)
		}
	}
}
