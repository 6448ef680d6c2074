package build_test

import (
	"strings"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
)

// What the router laid under a cap is never reported as denser than the cap.
func TestDensestKeepsTheCap(t *testing.T) {
	p := trial.Laid(t, trial.Bath+"\n[supply]\nvolts = 240\nmax_density = \"150 W/m2\"\n")
	for _, c := range p.Rooms[0].Cables {
		if c.Gaps.Densest == 0 || c.Gaps.Densest > 150*1.001 {
			t.Errorf("%s: densest %.1f W/m²", c.ID, c.Gaps.Densest)
		}
		if c.Gaps.Closest < 2*30-0.1 {
			t.Errorf("%s: closest %.1f mm", c.ID, c.Gaps.Closest)
		}
	}
}

// A field of 2850 x 2250 mm at 4 pegs of 30 mm takes about its area over the
// gap and half its boundary: 53.4 + 5.1 m. 44 m of cable is said to be little,
// 60 m lies within the gap.
func TestGapWiderThanAllowedIsSaid(t *testing.T) {
	for length, want := range map[string]string{"44 m": "44.0 m of cable is little for this floor, which takes about 58.5 m at 4 pegs", "60 m": ""} {
		j := trial.Read(t, "study.toml", []byte(strings.Replace(study, "LENGTH", length, 1)))
		_, found := build.Plan(j)
		var said string
		for _, d := range found {
			if d.ID == "W105" {
				said = d.Hint
			}
		}
		if !strings.HasPrefix(said, want) || (want == "") != (said == "") {
			t.Errorf("%s: %q, want %q", length, said, want)
		}
	}
}

const study = `
units = "mm"

[membrane]
pitch = 30

[[cable]]
id = "A"
volts = 240
watts = 400
length = "LENGTH"
lead = "4 m"

[[room]]
name = "Study"
corners = [[0, 0], [3000, 0], [3000, 2400], [0, 2400]]
cables = ["A"]

[room.thermostat]
at = [1400, 0]
`
