package heat

import (
	"strings"
	"testing"
)

func TestAgainstLimits(t *testing.T) {
	st := Steady{Mean: 11, OverCable: 12.5}
	v := st.Against(20, OccupiedLimit, EdgeLimit, CoveringLimit("oak", 27, "job file"), Limit{"exactly", 32.5, "test"})
	for i, want := range []struct {
		margin float64
		over   bool
	}{{-3.5, true}, {2.5, false}, {-5.5, true}, {0, false}} {
		near(t, v[i].Limit.Name, v[i].Margin, want.margin, 1e-12)
		if v[i].Over() != want.over {
			t.Errorf("%s: over is %v", v[i].Limit.Name, v[i].Over())
		}
	}
	for _, want := range []string{"32.5 °C", "5.5 °C above", "27 °C", "oak", "job file", "thermostat"} {
		if !strings.Contains(v[2].Words(false), want) {
			t.Errorf("%q is not in %q", want, v[2].Words(false))
		}
	}
	if !strings.Contains(v[1].Words(false), "2.5 °C below") {
		t.Error(v[1].Words(false))
	}
}

// 9 K and 15 K over a room at 20 °C are what the characteristic's 100 and
// 175 W/m² stand for (EN 1264-2).
func TestLimitsAgreeWithTheCharacteristic(t *testing.T) {
	near(t, "occupied", OccupiedLimit.Celsius-20, Film{}.Rise(100), 0.01)
	near(t, "edge", EdgeLimit.Celsius-20, Film{}.Rise(175), 0.05)
}
