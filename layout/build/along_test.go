package build_test

import (
	"fmt"
	"math"
	"testing"

	"oxturn/layout/internal/trial"
)

// TestRunsLieAlongTheWallNamed lays one floor both ways: most of the cable lies as asked.
func TestRunsLieAlongTheWallNamed(t *testing.T) {
	for _, wall := range []string{"A", "B"} {
		p, _ := trial.Said(t, fmt.Sprintf("units = \"mm\"\n[membrane]\npitch = 30\n[[cable]]\nid = \"C\"\n"+
			"volts = 240\nwatts = 500\nlength = \"50 m\"\nlead = \"4 m\"\n[[room]]\nname = \"Hall\"\nalong = %q\n"+
			"corners = [[0, 0], [2300, 0], [2300, 2300], [0, 2300]]\n[room.thermostat]\nwall = \"A\"\n"+
			"from = 300\n", wall))
		along, across := 0.0, 0.0
		path := p.Rooms[0].Cables[0].Path
		for i := range path[1:] {
			d := path[i+1].Sub(path[i])
			along, across = along+math.Abs(d.X), across+math.Abs(d.Y)
		}
		if wall == "B" {
			along, across = across, along
		}
		if along < 2*across {
			t.Errorf("along %s lie %.1f m, across it %.1f m", wall, along/1000, across/1000)
		}
	}
}
