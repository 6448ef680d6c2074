package job

import (
	"strings"
	"testing"
)

// unevenJob is a job whose pegs lie 30 mm apart along the roll and 40 mm across it.
const unevenJob = `units = "mm"
[membrane]
pitch = 30
pitch_across = 40
[spacing]
closest_gap = 60
widest_gap = 160
[[cable]]
id = "U1"
volts = 240
watts = 620
length = "60 m"
ohms = 92.9
lead = "4 m"
[[room]]
name = "Hall"
corners = [[0, 0], [3000, 0], [3000, 2400], [0, 2400]]
cables = ["U1"]
[room.thermostat]
at = [1400, 0]
height = 1200
`

// What a job with two pitches says wrong is said with its place, its figures and what to write.
func TestGapsOfUnevenPegs(t *testing.T) {
	mustRead(t, unevenJob)
	for _, c := range []struct{ name, old, new, want string }{
		{"pegs counted", "closest_gap = 60", "closest = 2",
			"6:11 error: closest = 2 is counted in pegs, but those are 30 mm apart along the roll and 40 mm across " +
				"it\n    write closest_gap as a length instead, such as closest_gap = \"80 mm\"\n"},
		{"the wrong way round", "closest_gap = 60", "closest_gap = 170",
			"6:15 error: closest_gap = 170 mm is more than widest_gap = 160 mm\n    swap them, or leave one out\n"},
		{"no whole pegs", "closest_gap = 60\nwidest_gap = 160", "closest_gap = 62\nwidest_gap = 78",
			"6:15 error: no whole number of pegs lies between 62 mm and 78 mm: one way 2 make 60 mm and one more 90 " +
				"mm, the other 1 make 40 mm and one more 80 mm\n    make closest_gap less or widest_gap more\n"},
		{"no room for two bends", "pitch_across = 40", "pitch_across = 40\nbend_radius = 31",
			"5:15 error: two bends of radius 31 mm need a gap of 62 mm, but the closest gap is 60 mm\n" +
				"    make the bend radius 30 mm or less, or the closest gap more\n"},
		{"lengths where pegs are alike", "pitch_across = 40\n", "",
			"5:15 error: closest_gap is for pegs that lie otherwise one way than the other; these all lie 30 mm " +
				"apart, and gaps are counted in them\n    write closest = 2 instead\n" +
				"6:14 error: widest_gap is for pegs that lie otherwise one way than the other; these all lie 30 mm " +
				"apart, and gaps are counted in them\n    write widest = 5 instead\n"},
		{"a roll's way in vain", "pitch_across = 40\n[spacing]\nclosest_gap = 60\nwidest_gap = 160", "",
			"14:10 error: rolled has no effect: the pegs lie alike along the roll and across it\n" +
				"    leave rolled out, or give pitch_across in [membrane]\n"},
		{"a wall there is not", `name = "Hall"`, "name = \"Hall\"\nrolled = \"Q\"", "17:10 error: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := unevenJob
			if strings.HasPrefix(c.name, "a roll") {
				text = strings.Replace(text, `name = "Hall"`, "name = \"Hall\"\nrolled = \"A\"", 1)
			}
			if !strings.Contains(text, c.old) {
				t.Fatalf("the job has no %q", c.old)
			}
			_, report := readText(strings.Replace(text, c.old, c.new, 1))
			got := spoken(report)
			if got != c.want && !(strings.HasSuffix(c.want, "error: ") && strings.HasPrefix(got, c.want)) {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

// What is left out of a job with two pitches: gaps of two and of four of the wider one, bends of half the closest.
func TestGapsLeftOut(t *testing.T) {
	j := mustRead(t, strings.Replace(unevenJob, "closest_gap = 60\nwidest_gap = 160\n", "", 1))
	if j.Near() != 80 || j.Far() != 160 || j.Membrane.BendRadius != 40 || j.Spacing.Closest != 0 || j.Peg() != 40 {
		t.Errorf("%+v, %+v", j.Spacing, j.Membrane)
	}
	if got := j.Gaps(); got != "gaps of 80 mm to 160 mm" {
		t.Error(got)
	}
	// two pitches that are the same are one
	j = mustRead(t, strings.NewReplacer("pitch_across = 40", "pitch_across = 30",
		"closest_gap = 60\nwidest_gap = 160\n", "").Replace(unevenJob))
	if j.Uneven() || j.Near() != 60 || j.Far() != 120 || j.Gaps() != "2 to 4 pegs" {
		t.Errorf("%+v, %+v", j.Spacing, j.Membrane)
	}
}

// Staggered rows of pegs 50 mm apart: from channel to channel half of that along the roll, and 50 mm across it.
func TestStaggeredRows(t *testing.T) {
	j := mustRead(t, strings.NewReplacer("pitch = 30\npitch_across = 40", "pitch = 50\nrows = \"staggered\"",
		"closest_gap = 60", "closest_gap = 75").Replace(unevenJob))
	if m := j.Membrane; !m.Staggered || m.Pitch != 25 || m.Across != 50 || m.PegPitch() != 50 || !j.Uneven() {
		t.Errorf("%+v", m)
	}
	// rows half as far apart as pegs make a square lattice of channels, whose gaps are lengths all the same
	j = mustRead(t, strings.NewReplacer("pitch = 30\npitch_across = 40", "pitch = 60\npitch_across = 30\n"+
		"rows = \"staggered\"").Replace(unevenJob))
	if m := j.Membrane; m.Pitch != 30 || m.Across != 30 || j.Near() != 60 {
		t.Errorf("%+v", m)
	}
	_, report := readText(strings.NewReplacer("pitch = 30\npitch_across = 40", "pitch = 50\nrows = \"staggered\"",
		"closest_gap = 60", "closest = 2").Replace(unevenJob))
	if got := spoken(report); !strings.Contains(got, "50 mm apart along the roll and 50 mm across it") {
		t.Error(got)
	}
}
