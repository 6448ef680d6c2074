package job

import (
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// reported returns what is said of a job's errors, each with its hint.
func reported(text string) string {
	_, report := readText(text)
	var all []string
	for _, d := range report.Diagnostics() {
		all = append(all, d.Message+" | "+d.Hint)
	}
	return strings.Join(all, "\n")
}

// A part of a room in a file without a room is said, were it the only one.
func TestPartOfNoRoom(t *testing.T) {
	if got := reported("units = \"mm\"\n[[room.fixture]]\nkind = \"tub\"\n"); !strings.Contains(got,
		"room.fixture belongs to a [[room]], and the file has none") {
		t.Error(got)
	}
}

// From 8 ft on, twice what a single length is written in feet from, a range is in feet,
// unless it begins under 3 in; below, and where it does, in inches.
func TestRangesInFeet(t *testing.T) {
	for _, c := range []struct {
		low, high float64 // in
		want      string
	}{{4, 100, "0.33 to 8.3 ft"}, {3.5, 95, "3.5 to 95 in"}, {2.5, 100, "2.5 to 100 in"}, {12, 240, "1 to 20 ft"}} {
		if got := measureUnits["mm"].span(c.low*plane.Inch, c.high*plane.Inch, plane.Inches); got != c.want {
			t.Errorf("%g to %g in: %q, want %q", c.low, c.high, got, c.want)
		}
	}
}

// 3000 W on 2 m² are 1500 W/m², where tiled floors are given a tenth of that; 300 W are 150.
func TestHeatThatCannotBe(t *testing.T) {
	if got := HeatCannotBe(300, 2e6, true, plane.Millimetres); got != "" {
		t.Errorf("150 W/m²: %q", got)
	}
	got := HeatCannotBe(3000, 2e6, true, plane.Millimetres)
	for _, want := range []string{"of its cables on 2 m² of floor", "make 1500 W/m²"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
	// 20 W on 10 m² are too few, unless there is more floor than they are for
	if HeatCannotBe(20, 10e6, true, plane.Millimetres) == "" || HeatCannotBe(20, 10e6, false, plane.Millimetres) != "" {
		t.Error("2 W/m²")
	}
}

// What stands against a wall is not turned: the hint says how a turned thing is placed, of
// the angle and of nothing else.
func TestTurnedThingAgainstAWall(t *testing.T) {
	for key, turned := range map[string]bool{"angle = 30": true, "gap = 30": false} {
		got := reported(strings.Replace(slipped, "width = \"60in\"", key+"\nwidth = \"60in\"", 1))
		name, _, _ := strings.Cut(key, " ")
		if !strings.Contains(got, "leave "+name+" out") || strings.Contains(got, "stands turned") != turned {
			t.Errorf("%s: %s", key, got)
		}
	}
}
