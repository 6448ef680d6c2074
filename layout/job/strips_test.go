package job

import (
	"os"
	"strings"
	"testing"
)

// What a job with strips says wrong is said with its place, its figures and what to write.
func TestStripsThatCannotBe(t *testing.T) {
	data, err := os.ReadFile("testdata/good/strips.toml")
	if err != nil {
		t.Fatal(err)
	}
	good := string(data)
	mustRead(t, good)
	for _, c := range []struct{ name, old, new, want string }{
		{"a membrane too", "[spacing]", "[membrane]\npitch = 30\n[spacing]",
			"error: cable lies on the pegs of a [membrane] or is clipped to [strips], not both\n    leave one of " +
				"the two out\n"},
		{"pegs", "closest_gap = 75", "closest = 3",
			"error: closest is counted in pegs, and with [strips] there are none\n    write closest_gap as a length " +
				"instead, such as closest_gap = \"75 mm\"\n"},
		{"no whole clips", "closest_gap = 75\nwidest_gap = \"175 mm\"", "closest_gap = 80\nwidest_gap = 95",
			"error: no whole number of clips lies between 80 mm and 95 mm: 3 make 75 mm and one more 100 mm\n" +
				"    make closest_gap less or widest_gap more\n"},
		{"bends too wide", "bend_radius = 37.5", "bend_radius = 38",
			"error: two bends of radius 38 mm need a gap of 76 mm, but the closest gap is 75 mm\n" +
				"    make the bend radius 37.5 mm or less, or the closest gap more\n"},
		{"strips under bends", "from_turns = 50", "from_turns = 20",
			"error: strips 20 mm from the turns would lie under bends of radius 37.5 mm, which no clip holds\n" +
				"    make from_turns 37.5 mm or more\n"},
		{"no room for two", "from_turns = 50", "from_turns = 250",
			"error: strips 250 mm from the turns leave no room for two on a run of 400 mm, the shortest\n" +
				"    make from_turns less\n"},
		{"a first peg", `name = "Den"`, "name = \"Den\"\nfirst_peg = [90, 82]",
			"error: first_peg is of a membrane, and the cable is clipped to [strips]\n    leave first_peg out\n"},
		{"a zone the other way", "[room.thermostat]",
			"[[room.zone]]\nat = [3000, 700]\nalong = \"B\"\n[room.thermostat]",
			"error: the runs of zone 1 lie as the room's do, across its [strips]\n    leave along out, or give it to " +
				"the room\n"},
		{"a layer of membrane", "[[cable]]", "[[layer]]\nkind = \"membrane\"\nthickness = 5\n[[cable]]",
			"error: with [strips] there is no membrane\n    write the layer that the cable is bedded in as kind = " +
				"\"mortar\" or \"screed\"\n"},
		{"neither", "[strips]\nclips = 25\napart = \"400 mm\"\nfrom_turns = 50\nbend_radius = 37.5\n", "",
			"error: the job has no [membrane]\n"},
		{"a mat", "[strips]", "[mat]\n[strips]", "error: unknown key \"mat\" at the top of the file\n    mats with " +
			"cable fixed to them are out of scope: "},
		{"a mat by another word", "[strips]", "fixing = \"mat\"\n[strips]",
			"mats with cable fixed to them are out of scope"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(good, c.old) {
				t.Fatalf("the job has no %q", c.old)
			}
			_, report := readText(strings.Replace(good, c.old, c.new, 1))
			if got := spoken(report); !strings.Contains(got, c.want) {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

// Along their runs strips count in what a person counts in: cm, or inches.
func TestStripsCountInCentimetresOrInches(t *testing.T) {
	data, err := os.ReadFile("testdata/good/strips.toml")
	if err !=
		nil {
		t.Fatal(err)
	}
	j := mustRead(t, string(data))
	if j.RunUnit() != "cm" || j.Membrane.Pitch != 10 || j.Membrane.Across != 25 || j.Near() != 75 ||
		j.Strips.Apart != 400 {
		t.Errorf("%s, %+v, %+v", j.RunUnit(), j.Membrane, j.Strips)
	}
	j = mustRead(t, strings.NewReplacer(`units = "mm"`, `units = "in"`, "clips = 25", "clips = 1", "from_turns = "+
		"50",
		"from_turns = 2", "bend_radius = 37.5", "bend_radius = 1.5", "closest_gap = 75", "closest_gap = "+
			"3",
		"[0, 0], [4200, 0], [4200, 1400], [2600, 1400], [2600, 2600], [0, 2600]",
		"[0, 0], [120, 0], [120, 96], [0, 96]",
		"[1400, 0]", "[40, 0]", "height = 1200", "height = 48").Replace(string(data)))
	if j.RunUnit() != "in" || j.Membrane.Pitch != 25.4 {
		t.Errorf("%s, %+v", j.RunUnit(), j.Membrane)
	}
	if j := mustRead(t, slipped); j.RunUnit() != "pegs" {
		t.Error(j.RunUnit())
	}
}

// Where strips hold the cable it lies at the foot of what it is bedded in, over what carries the floor.
func TestHolding(t *testing.T) {
	for _, c := range []struct {
		strips bool
		kinds  string
		want   int
	}{
		{true, "tile mortar wood", 1}, {true, "tile mortar screed concrete", 2}, {true, "tile mortar board screed", 1},
		{true, "tile wood", -1}, {true, "", -1}, {false, "tile mortar membrane screed", 2}, {false, "tile mortar", -1},
	} {
		j := &Job{}
		if c.strips {
			j.Strips = &Strips{}
		}
		for _, kind := range strings.Fields(c.kinds) {
			j.BuildUp = append(j.BuildUp, Layer{Kind: kind})
		}
		if got := j.Holding(); got != c.want {
			t.Errorf("strips %v, %s: the cable lies in layer %d, not %d", c.strips, c.kinds, got, c.want)
		}
	}
}
