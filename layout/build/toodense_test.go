package build_test

import (
	"strings"
	"testing"

	"oxturn/layout/internal/trial"
)

// landing is 1200 x 1000 mm with 75 mm kept clear: 1.05 x 0.85 m = 0.8925 m² of
// heated floor, on which 100 W come to 112 W/m². A bed and boards, nothing lost below.
const landing = `units = "mm"
SUPPLY
[warmth]
below = "insulated"
[membrane]
pitch = 30
LAYERS
[[room]]
name = "Landing"
corners = [[0, 0], [1200, 0], [1200, 1000], [0, 1000]]
cables = ["C"]
FIXTURE
[room.thermostat]
wall = "A"
from = 600
LIMIT
[[cable]]
id = "C"
volts = 120
lead = 3000
length = "10 m"
watts = 100
`

const threeLayers = `[[layer]]
kind = "tile"
thickness = 10
[[layer]]
kind = "membrane"
thickness = 5.5
[[layer]]
kind = "wood"
thickness = 19
`

func landingSays(t *testing.T, id string, with ...string) []string {
	t.Helper()
	text := strings.NewReplacer(with...).Replace(landing)
	for _, rest := range []string{"SUPPLY", "LAYERS", "FIXTURE", "LIMIT"} {
		text = strings.Replace(text, rest+"\n", "", 1)
	}
	_, said := trial.Said(t, text)
	return said[id]
}

// 100 W / 0.8925 m² = 112.04 W/m².
func TestLimitIsHeldAgainstTheStricterFloor(t *testing.T) {
	for supply, want := range map[string]string{
		`max_density = "111.5 W/m2"`: "112 W/m² (10.4 W/ft²) over the 0.89 m² " +
			"(9.6 ft²) of heated floor that it serves, more than the 112 W/m²",
		`max_density = "112.5 W/m2"`: "",
		"max_density = \"111.5 W/m2\"\nmax_density_over = \"heated floor\"": "112 W/m² (10.4 W/ft²) over the 0.89 m² " +
			"(9.6 ft²) of heated floor",
		"max_density = \"111.5 W/m2\"\nmax_density_over = \"even spacing\"": "",
	} {
		said := landingSays(t, "W108", "SUPPLY", "[supply]\n"+supply)
		if (want == "") != (len(said) == 0) || len(said) > 1 || want != "" && !strings.Contains(said[0], want) {
			t.Errorf("%s: %q, want %q", supply, said, want)
		}
	}
}

// One warning, and none where the thermostat is known to keep the floor below the
// limit of its kind of room (EN 1264-2: 29 °C, or 33 °C in a bathroom).
func TestFloorLimitAnswersComfort(t *testing.T) {
	for _, v := range []struct{ layers, fixture, limit, want string }{
		{"", "", "", ""},
		{threeLayers, "", "", "no floor_limit is given"},
		{threeLayers, "", "floor_limit = \"29 C\"", ""},
		{threeLayers, "", "floor_limit = \"30 C\"", "floor_limit = 30 °C is above it"},
		{threeLayers, "[[room.fixture]]\nkind = \"shower\"\nat = [700, 550]\nwidth = 500\ndepth = 450\n",
			"floor_limit = \"33 C\"", ""},
	} {
		said := landingSays(t, "W123", "LAYERS", v.layers, "FIXTURE", v.fixture, "LIMIT", v.limit)
		if (v.want == "") != (len(said) == 0) || len(said) > 1 || v.want != "" && !strings.Contains(said[0], v.want) {
			t.Errorf("layers %q, %q, %q: %q, want %q", v.layers, v.fixture, v.limit, said, v.want)
		}
	}
}
