package build_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
)

// twoParts is a room that a joint cuts in two, with so many cables named.
func twoParts(cables string) []byte {
	return []byte(`units = "mm"

[membrane]
pitch = 30

[clearance]
wall = 100
joint = 50

[[room]]
name = "Hall"
corners = [[0, 0], [4000, 0], [4000, 2000], [0, 2000]]
cables = ` + cables + `

[[room.joint]]
from = [2000, 0]
to = [2000, 2000]

[room.thermostat]
wall = "A"
from = "2000 mm"

[[cable]]
id = "C1"
volts = 240
length = "30 m"
watts = 300
lead = "6 m"

[[cable]]
id = "C2"
volts = 240
length = "30 m"
watts = 300
lead = "6 m"
`)
}

func TestFloorLeftBareIsSaid(t *testing.T) {
	// either half is (2000 - 100 - 50) x (2000 - 2x100) mm
	const half = 1850 * 1800.0
	for _, c := range []struct {
		cables       string
		heated, bare float64
		warnings     int
	}{
		{`["C1"]`, half, half, 1},
		{`["C1", "C2"]`, 2 * half, 0, 0},
	} {
		data := twoParts(c.cables)
		p, found := build.Plan(trial.Read(t, "hall.toml", data))
		warned := 0
		for _, d := range found {
			if d.ID == "W103" {
				warned++
				if !strings.Contains(d.Message, "3.33 m²") ||
					!strings.Contains(d.Message, "stays without cable: movement joint MJ1 cuts it off from the rest") ||
					!strings.HasPrefix(string(data[d.Span.Start:]), c.cables) {
					t.Errorf("%s: at byte %d: %s", c.cables, d.Span.Start, d.Message)
				}
			}
		}
		if warned != c.warnings {
			t.Errorf("%s: %d warnings, want %d", c.cables, warned, c.warnings)
		}
		r := p.Rooms[0]
		if math.Abs(r.Heated.Area()-c.heated) > 0.002*half || math.Abs(r.Bare.Area()-c.bare) > 0.002*half {
			t.Errorf("%s: heated %.0f, bare %.0f mm², want %.0f and %.0f", c.cables, r.Heated.Area(), r.Bare.Area(),
				c.heated, c.bare)
		}
		// the mean gap is of the floor that is served: a field of a by b mm served by l mm of cable has runs a b / (l -
		// a - b) apart
		if one := r.Cables[0]; math.Abs(one.Spacing-half/(30000-1850-1800)) > 0.01*one.Spacing {
			t.Errorf("%s: runs %.1f mm apart in the mean", c.cables, one.Spacing)
		}
		if asked := strings.Contains(strings.Join(language.In(language.English, p.TakeOff.Questions), "\n"),
			"3.33 m² (35.8 ft²) of the floor stays without cable"); asked != (c.warnings > 0) {
			t.Errorf("%s: the take-off asks %q", c.cables, p.TakeOff.Questions)
		}
	}
}

// TestFloorCutOffByClearances has a slit of 140 mm between two halves: its two clearances
// of 100 mm leave no way.
func TestFloorCutOffByClearances(t *testing.T) {
	text := strings.Replace(string(twoParts(`["C1"]`)), "[4000, 0], [4000, 2000]", "[4000, 0], [4000, 2000], [2200, "+
		"2000], [2200, 140], [2000, 140], [2000, 2000]", 1)
	text = strings.Replace(text, "[[room.joint]]\nfrom = [2000, 0]\nto = [2000, 2000]\n", "", 1)
	_, found := build.Plan(trial.Read(t, "hall.toml", []byte(text)))
	for _, d := range found {
		if d.ID == "W103" && strings.Contains(d.Message, "what stands about leaves cable no way from the rest") {
			return
		}
	}
	t.Errorf("not said: %v", found)
}

// TestFloorThatStaysCoolIsSaid has three pockets behind necks one run wide: a
// path has two ends, so that one pocket is left. Inside its clearances it
// measures 450 x 400 mm.
func TestFloorThatStaysCoolIsSaid(t *testing.T) {
	var pockets []byte
	for _, e := range layout.Explanations() {
		if e.ID == "W104" {
			pockets = []byte("units = \"mm\"\n\n[membrane]\npitch = 30\n\n" + e.Bad)
		}
	}
	_, found := build.Plan(trial.Read(t, "pockets.toml", pockets))
	for _, d := range found {
		if d.ID != "W104" {
			continue
		}
		var name string
		var area float64
		if _, err := fmt.Sscanf(d.Message, "room %q: %f m²", &name, &area); err != nil ||
			math.Abs(area-0.45*0.4) > 0.02 {
			t.Errorf("%.2f m² stays cool, want 0.18: %s", area, d.Message)
		}
		return
	}
	t.Error("nothing is said to stay cool")
}

// TestOneWarningForACoolZone: cables that share a zone share what is said of it,
// and a cable whose own floor is warm throughout has no part of its own in it.
func TestOneWarningForACoolZone(t *testing.T) {
	for _, e := range layout.Explanations() {
		if e.ID != "W104" {
			continue
		}
		text := "units = \"mm\"\n\n[membrane]\npitch = 30\n\n" + strings.Replace(e.Bad, `cables = ["C"]`,
			`cables = ["C", "C"]`, 1)
		text = strings.NewReplacer(`length = "14 m"`, `length = "7 m"`, "watts = 140", "watts = 70").Replace(text)
		_, found := build.Plan(trial.Read(t, "pockets.toml", []byte(text)))
		said := 0
		for _, d := range found {
			switch {
			case d.ID == "W104":
				said++
			case d.Severity == job.Error:
				t.Fatal(d.Message)
			}
		}
		if said != 1 {
			t.Errorf("said %d times", said)
		}
	}
}
