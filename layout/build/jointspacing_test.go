package build_test

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/layout/internal/trial"
)

// hall is a job of one corridor of a length in mm, 1 m wide.
func hall(long float64, more string) string {
	text := strings.Replace(trial.Landing, "[1200, 0], [1200, 1000]", fmt.Sprintf("[%g, 0], [%[1]g, 1000]", long), 1)
	text = strings.Replace(text, "length = \"10 m\"", "length = \"50 m\"", 1)
	return strings.Replace(text, "[[cable]]", more+"[[cable]]", 1)
}

// Indoors every 20 to 25 ft, 6096 to 7620 mm: TCNA EJ171 and ANSI A108.01, as
// relayed in the NTCA Reference Manual 2024-25.
func TestTileFarFromAJoint(t *testing.T) {
	joint := func(x float64) string {
		return fmt.Sprintf("[[room.joint]]\nfrom = [%g, 0]\nto = [%[1]g, 1000]\n", x)
	}
	for _, c := range []struct {
		long float64
		more string
		far  string // "": nothing is said
	}{
		{6090, "", ""}, {6110, "", "6.1 m"}, {9500, "", "9.5 m"},
		{9500, joint(4700), ""}, {9500, joint(2000), "7.5 m"},
		{9500, "[[room.joint]]\nfrom = [4700, 0]\nto = [4700, 600]\n", "9.5 m"}, // does not cut through
	} {
		_, said := trial.Said(t, hall(c.long, c.more))
		got := said["W106"]
		want := fmt.Sprintf("tile runs over %s without a movement joint; indoors one is usual every 6.1 m to 7.6 m,",
			c.far)
		if (c.far == "") != (got == nil) || got != nil && !strings.Contains(got[0], want) {
			t.Errorf("%g mm, %q: %q, want %q", c.long, c.more, got, c.far)
		}
	}
}

// A room that stands askew is measured along its own walls: 4 x 6 m turned by
// 45 degrees spans 7.1 m north, but its tile nowhere runs over 6 m.
func TestTileOfARoomAskew(t *testing.T) {
	text := strings.Replace(trial.Landing, "[[0, 0], [1200, 0], [1200, 1000], [0, 1000]]",
		"[[0, 0], [4243, 4243], [1414, 7071], [-2828, 2828]]", 1)
	text = strings.Replace(strings.Replace(text, "length = \"10 m\"", "length = \"150 m\"", 1), "watts = 240",
		"watts = 1500", 1)
	if _, said := trial.Said(t, text); said["W106"] != nil {
		t.Error(said["W106"])
	}
}

// 80 °C of the heating zone: IEC 60364-7-753, 753.424, from memory. Under a
// carpet of 20 mm, 80 W on 10 m stay below it, 300 W do not.
func TestHeatAtTheCable(t *testing.T) {
	const layers = "[supply]\nregion = \"europe\"\n[[layer]]\nkind = \"other\"\nname = \"carpet\"\nthickness = " +
		"20\nconductivity = 0.05\ndensity = 200\nheat_capacity = 1300\n[[layer]]\nkind = \"tile\"\nthickness = " +
		"10\n[[layer]]\nkind = \"membrane\"\nthickness = 5\n[[layer]]\nkind = \"wood\"\nthickness = 19\n"
	for watts, over := range map[string]bool{"80": false, "300": true} {
		p, said := trial.Said(t, strings.Replace(trial.Landing, "watts = 240", "watts = "+watts, 1)+layers)
		if all := strings.Join(said["W130"], "\n"); strings.Contains(all, "753.424") != over {
			t.Errorf("%s W, %.1f K at the cable: %q", watts, p.Warmth.Runs[0].Hot.Steady.Hottest, all)
		}
	}
}
