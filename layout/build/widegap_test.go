package build_test

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/hand"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// What the router laid under a cap is never reported as denser than the cap.
func TestDensestKeepsTheCap(t *testing.T) {
	p := trial.Laid(t, hand.Bath+"\n[supply]\nvolts = 240\nmax_density = \"150 W/m2\"\n")
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
	for length, want := range map[string]string{"44 m": "44.0 m of cable is little for this floor, which takes about " +
		"58.5 m at 4 pegs", "60 m": ""} {
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

// A hook of 2 x 2 m and 2 x 0.5 m is, less 75 mm all round, a field of 1850 x 1850
// and 2000 x 350 mm: 4.1225 m² within 11.4 m. 36 m of cable lie 4.1225 m² / (36 m -
// 5.7 m) = 136 mm apart, over 4 pegs of 30 mm, with every gap between runs in order:
// that is said too. 45 m lie 105 mm apart.
func TestEvenSpacingOverWidestIsSaid(t *testing.T) {
	hook := strings.Replace(study, "[[0, 0], [3000, 0], [3000, 2400], [0, 2400]]",
		"[[0, 0], [2000, 0], [2000, 1500], [4000, 1500], [4000, 2000], [0, 2000]]", 1)
	for length, want := range map[string]string{"36 m": "the runs of H1 would have to lie 136 mm (4.5", "45 m": ""} {
		p, found := build.Plan(trial.Read(t, "hook.toml", []byte(strings.NewReplacer("LENGTH", length, "at = [1400, 0]",
			"at = [600, 0]").Replace(hook))))
		said := ""
		for _, d := range found {
			if d.ID == "W105" {
				said += d.Message
			}
		}
		if !strings.Contains(said, want) || (want == "") != (said == "") {
			t.Errorf("%s, laid %.1f mm apart: %q, want %q", length, p.Rooms[0].Cables[0].Spacing, said, want)
		}
	}
}

// cools lays a room and returns what W104 says, "" for nothing.
func cools(t *testing.T, text string) string {
	t.Helper()
	_, found := build.Plan(trial.Read(t, "room.toml", []byte(text)))
	for _, d := range found {
		if d.Severity == job.Error {
			t.Fatal(d.Message)
		}
		if d.ID == "W104" {
			return d.Message + "; " + d.Hint
		}
	}
	return ""
}

// TestCoolFloorHasItsCause: a hall with a niche that is wide enough for runs to go
// in and come back stays cool in part while its cable is too short, and with more
// it does not: the cable ran out. Behind a neck as wide as one run floor stays
// cool with as much cable as it takes: the neck is blamed, with its width, and made as much
// wider as is said it does.
func TestCoolFloorHasItsCause(t *testing.T) {
	hall := func(metres float64) string {
		text := strings.NewReplacer("LENGTH", fmt.Sprintf("%g m", metres), "watts = 400", "watts = 458",
			"at = [1400, 0]", "at = [600, 0]",
			"[[0, 0], [3000, 0], [3000, 2400], [0, 2400]]",
			"[[0, 0], [3200, 0], [3200, 2000], [1720, 2000], [1720, 2700], "+
				"[1300, 2700], [1300, 2000], [0, 2000]]").Replace(study)
		return strings.Replace(text, `lead = "4 m"`, `lead = "6 m"`, 1)
	}
	if said := cools(t, hall(38.2)); !strings.Contains(said, ": the cable ran out; 38.2 m of cable is little") ||
		strings.Contains(said, "narrow") {
		t.Errorf("too short a cable: %q", said)
	}
	if said := cools(t, hall(60)); said != "" {
		t.Errorf("enough cable: %q", said)
	}
	for _, e := range layout.Explanations() {
		if e.ID != "W104" {
			continue
		}
		bad := "units = \"mm\"\n\n[membrane]\npitch = 30\n\n" + e.Bad
		// of 170 mm from wall to wall two clearances of 75 mm leave 20; two runs 2 pegs of 30 mm apart need 60
		if said := cools(t, bad); !strings.Contains(said, "narrows to 20 mm within the clearances, between wall ") ||
			!strings.Contains(said, "; two runs need 60 mm; make it 40 mm wider") || strings.Contains(said, "ran out") {
			t.Errorf("a narrow neck: %q", said)
		}
		wider := strings.NewReplacer("415", "395", "585", "605", "685", "725").Replace(bad)
		if said := cools(t, wider); said != "" {
			t.Errorf("made wider as it said: %q", said)
		}
	}
}

// TestShortLeadIsBlamed: of two partitions across a floor the first keeps the lead of one cable, 2.5 m over the floor,
// from the far side, which stays cool; made as much longer as is said, it does not.
func TestShortLeadIsBlamed(t *testing.T) {
	chambers := func(lead string) string {
		cable := "[[cable]]\nid = %q\nvolts = 240\nwatts = %d\nlength = %q\nlead = \"" + lead + "\"\n\n"
		return "units = \"mm\"\n\n[membrane]\npitch = 25\n\n" + fmt.Sprintf(cable, "A", 448, "49.75 m") +
			fmt.Sprintf(cable, "B", 366, "40.7 m") + `[[room]]
name = "Study"
corners = [[3190, 2820], [3190, 845], [3100, 845], [3100, 2820], [0, 2820], [0, 0], [1260, 0], [1260, 1665],
	[1360, 1665], [1360, 0], [3975, 0], [3975, 2820]]
cables = ["A", "B"]

[room.thermostat]
at = [3975, 1220]
height = "1200 mm"
`
	}
	said := cools(t, chambers("4 m"))
	_, hint, _ := strings.Cut(said, "; move the box nearer, or take a cable whose lead is ")
	var more float64
	if n, err := fmt.Sscanf(hint, "%f m longer", &more); n != 1 || err != nil || more < 0.1 || more > 3 ||
		!strings.Contains(said, "is too short for a way round that warms it: 2.5 m of it are left for the floor, and "+
			"that asks for ") {
		t.Fatalf("4 m of lead: %q", said)
	}
	if said := cools(t, chambers(fmt.Sprintf("%.1f m", 4+more))); said != "" {
		t.Errorf("%.1f m of lead: %q", 4+more, said)
	}
}

// TestAllLeadsReach: of four cables the best cuts of the floor, one after the other, leave the last one out of reach of
// a lead of 2.5 m; other cuts have all four within reach.
func TestAllLeadsReach(t *testing.T) {
	text := "units = \"mm\"\n\n[membrane]\npitch = 30\n\n[spacing]\nclosest = 2\nwidest = 5\n\n"
	for _, id := range []string{"A", "B", "C", "D"} {
		text += fmt.Sprintf("[[cable]]\nid = %q\nvolts = 240\nwatts = 354\nlength = \"39.35 m\"\nlead = \"4 m\"\n\n",
			id)
	}
	text += `[[room]]
name = "Study"
corners = [[0, 0], [4258.8, 0], [4258.8, 2352.8], [2507.6, 4705.6], [0, 4705.6]]
cables = ["A", "B", "C", "D"]

[room.thermostat]
at = [1085, 0]
height = 1200
`
	p := trial.Laid(t, text)
	for _, c := range p.Rooms[0].Cables {
		if n := plane.PathLength(c.ColdLead); n > c.LeadReach || c.LeadReach > 2500 || c.Score.Covered < 0.98 {
			t.Errorf("%s: %.0f mm of lead where %.0f reach, covered %.4f", c.ID, n, c.LeadReach, c.Score.Covered)
		}
	}
}
