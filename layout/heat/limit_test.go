package heat

import (
	"strings"
	"testing"
)

func TestAgainstLimits(t *testing.T) {
	st := Steady{Mean: 11, OverCable: 12.5}
	v := st.Against(20, OccupiedLimit, EdgeLimit, CoveringLimit("oak", 27, "job file"),
		Limit{"exactly", 32.5, 0, "test"})
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
		if !strings.Contains(v[2].Words(false).String(), want) {
			t.Errorf("%q is not in %q", want, v[2].Words(false))
		}
	}
	if !strings.Contains(v[1].Words(false).String(), "2.5 °C below") {
		t.Error(v[1].Words(false))
	}
}

// 9 K and 15 K over a room at 20 °C are what the characteristic's 100 and
// 175 W/m² stand for (EN 1264-2).
func TestLimitsAgreeWithTheCharacteristic(t *testing.T) {
	near(t, "occupied", OccupiedLimit.Celsius-20, Film{}.Rise(100), 0.01)
	near(t, "edge", EdgeLimit.Celsius-20, Film{}.Rise(175), 0.05)
}

// The bathroom's 33 °C are 9 K over its air of 24 °C (EN 1264-2: nine degrees
// over the room, about 24 °C): in a room at 20 °C the rise decides. A covering
// has its temperature alone.
func TestRiseIsJudgedAtTheLimitsOwnAir(t *testing.T) {
	near(t, "bathroom's rise", BathroomLimit.Rise(), 9, 1e-12)
	for _, c := range []struct {
		room, rise float64
		limit      Limit
		margin     float64
	}{
		{20, 12.5, BathroomLimit, -3.5}, {24, 8, BathroomLimit, 1}, {26, 8, BathroomLimit, -1},
		{20, 8, OccupiedLimit, 1}, {22, 8, OccupiedLimit, -1},
		{24, 8, CoveringLimit("oak", 40, "test"), 8},
	} {
		v := Steady{OverCable: c.rise}.Against(c.room, c.limit)[0]
		near(t, c.limit.Name, v.Margin, c.margin, 1e-12)
		near(t, "rise", v.Rise, c.rise, 1e-12)
	}
}

// Nothing is said to be above a limit by 0.0.
func TestMarginIsNeverNothing(t *testing.T) {
	for margin, want := range map[float64][2]string{
		-0.02: {"less than 0.1 °C above", "less than 0.1 °F above"}, 0.03: {"less than 0.1 °C below", "0.1 °F below"},
		0: {"just at", "just at"}, -2.26: {"2.3 °C above", "4.1 °F above"},
	} {
		v := Verdict{Margin: margin}
		if got := [2]string{v.MarginWords(false).String(), v.MarginWords(true).String()}; got != want {
			t.Errorf("%g K: %q, want %q", margin, got, want)
		}
	}
}
