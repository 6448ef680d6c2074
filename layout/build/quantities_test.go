package build_test

import (
	"strings"
	"testing"

	"oxturn/layout/language"

	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
)

// What is ordered by a voltage or a kind of sensor that nobody has written down
// is asked about, until it is written down.
func TestSupplyAndSensorAreAskedFor(t *testing.T) {
	asked := func(more string) string {
		p, _ := build.Plan(trial.Read(t, "hand.toml",
			[]byte(strings.Replace(trial.Hand, "[membrane]", more+"[membrane]", 1))))
		return strings.Join(language.In(language.English, p.TakeOff.Questions), "\n")
	}
	supply, sensor := "Supply: its voltage is not given; 240 V is assumed", "Sensor: its kind is not given"
	if q := asked(""); !strings.Contains(q, supply) || !strings.Contains(q, sensor) {
		t.Errorf("questions %q", q)
	}
	if q := asked("[supply]\nvolts = 240\n"); strings.Contains(q, "Supply") || !strings.Contains(q, sensor) {
		t.Errorf("with a supply: %q", q)
	}
	if q := asked("[sensor]\nkind = \"12k\"\n"); !strings.Contains(q, supply) || strings.Contains(q, "Sensor") {
		t.Errorf("with a sensor: %q", q)
	}
}
