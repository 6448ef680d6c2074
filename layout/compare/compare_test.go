package compare_test

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/compare"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
)

func changed(t *testing.T, from, to string) []compare.Change {
	t.Helper()
	before, _ := build.Plan(trial.Read(t, "old.toml", []byte(from)))
	after, found := build.Plan(trial.Read(t, "new.toml", []byte(to)))
	if s := trial.Errors(found); s != "" {
		t.Fatal(s)
	}
	return compare.Plans(before, after)
}

func lines(changes []compare.Change) string {
	var out []string
	for _, c := range changes {
		out = append(out, c.String())
	}
	return strings.Join(out, "\n")
}

func TestNothingChanged(t *testing.T) {
	if got := lines(changed(t, trial.Hand, trial.Hand)); got != "" {
		t.Errorf("from a job to itself:\n%s", got)
	}
}

func TestChangesAreSaid(t *testing.T) {
	for _, c := range []struct {
		name, old, new string
		want           []string
	}{
		{"a wall", "[1600,2400],[0,2400]]\ncables", "[1600,2410],[0,2410]]\ncables",
			[]string{"Bath, wall B: 2400 mm -> 2410 mm", "Bath, floor: 3.84 m²", "take-off, Bond mortar"}},
		{"the cable's watts", "watts = 260", "watts = 300",
			[]string{"Bath, cable H1: C, 240 V, 260 W, 26.0 m -> C, 240 V, 300 W, 26.0 m",
				"Bath, load: 1.08 A, 260 W at 240 V -> 1.25 A, 300 W at 240 V"}},
		{"a room's name", "name = \"Bath\"", "name = \"Shower\"", []string{"room: new: Shower",
			"room: no longer there (was Bath"}},
		{"the box", "at = [800, 0]", "at = [900, 0]",
			[]string{"Bath, thermostat: moved 100 mm to the right of the sheet, now 700 mm from wall B, 0 mm from " +
				"wall A (was 800 mm from wall B, 0 mm from wall A)"}},
		{"a tub", "outline = [[0,1640],[1600,1640]", "outline = [[0,1650],[1600,1650]",
			[]string{"changed by up to 10 mm, now 1600 mm x 750 mm, its middle 800 mm from wall B, 2025 mm from wall " +
				"A (was 1600 mm x 760 mm, its middle 800 mm from wall B, 2020 mm from wall A)"}},
		{"the widest gap", "widest = 5", "widest = 7", []string{"gaps between runs: 2 to 5 pegs -> 2 to 7 pegs"}},
		{"a clearance", "fixture = 50", "fixture = 50\ndrain = 130",
			[]string{"clearance from drains: 100 mm -> 130 mm"}},
		{"the supply", "units = \"mm\"", "units = \"mm\"\n[supply]\nvolts = 240",
			[]string{"supply: as the cables' labels -> 240 V"}},
		{"the build-up", "units = \"mm\"",
			"units = \"mm\"\n[[layer]]\nname = \"slate\"\nkind = \"tile\"\nthickness = 12",
			[]string{"build-up, from the top: none given -> slate 12 mm"}},
		{"a door", "[room.thermostat]", "[[room.opening]]\nkind = \"door\"\nname = \"to the hall\"\nwall = " +
			"\"B\"\nfrom = 300\nwidth = 700\n[room.thermostat]",
			[]string{"Bath, to the hall: new: 700 mm long, its middle 0 mm from wall B, 650 mm from wall A"}},
		{"another fixture", "[room.thermostat]",
			"[[room.fixture]]\nkind = \"column\"\nname = \"post\"\nat = [100, 100]\ndiameter = 100\n[room.thermostat]",
			[]string{"Bath, post: new: 100 mm x 100 mm, its middle 1500 mm from wall B, 100 mm from wall A"}},
	} {
		to := strings.Replace(trial.Hand, c.old, c.new, 1)
		if to == trial.Hand && c.want != nil {
			t.Fatalf("%s: nothing to replace", c.name)
		}
		got := lines(changed(t, trial.Hand, to))
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%s: want %q in\n%s", c.name, w, got)
			}
		}
	}
}

// TestMovesHaveTheirPlace holds a move's distance to its two places.
func TestMovesHaveTheirPlace(t *testing.T) {
	for _, c := range changed(t, trial.Hand, strings.Replace(trial.Hand, "length = \"26 m\"", "length = \"25 m\"", 1)) {
		if c.Moved > 0 && (c.At == nil || c.Radius <= 0 || math.IsNaN(c.Moved)) {
			t.Errorf("%s has moved without a place", c)
		}
	}
}

// TestFiguresOfAMove: the box 100 mm farther east, in numbers: that much nearer
// to wall B, by subtraction.
func TestFiguresOfAMove(t *testing.T) {
	for _, c := range changed(t, trial.Hand, strings.Replace(trial.Hand, "at = [800, 0]", "at = [900, 0]", 1)) {
		if c.What != "thermostat" {
			continue
		}
		f := c.Figures
		if len(f) != 2 || f[0].Of != "from wall B" || *f[0].Before != 800 || *f[0].After != 700 ||
			f[1].Of != "from wall A" || *f[1].Before != 0 || *f[1].After != 0 || c.Moved != 100 {
			t.Errorf("%+v", c)
		}
		return
	}
	t.Error("the box did not move")
}

// TestFiguresAreThoseSaid: a number's two sides differ where its words do, and
// what is new or gone has one side only.
func TestFiguresAreThoseSaid(t *testing.T) {
	post := strings.Replace(trial.Hand, "[room.thermostat]",
		"[[room.fixture]]\nkind = \"column\"\nname = \"post\"\nat = [100, 100]\ndiameter = 100\n[room.thermostat]", 1)
	for _, c := range append(changed(t, trial.Hand, strings.Replace(post, "watts = 260", "watts = 300", 1)),
		changed(t, post, trial.Hand)...) {
		differs := len(c.Figures) == 0
		for _, f := range c.Figures {
			if (f.Before == nil) != (c.Before == "") || (f.After == nil) != (c.After == "") {
				t.Errorf("%s: %s has figures for %v and %v", c, f.Of, f.Before, f.After)
				continue
			}
			differs = differs || f.Before == nil || f.After == nil || *f.Before != *f.After
		}
		if !differs {
			t.Errorf("%s: no figure of it changes", c)
		}
	}
}

// TestWhatIsGoneIsClouded: what is no longer there has a cloud where it was.
func TestWhatIsGoneIsClouded(t *testing.T) {
	with := strings.Replace(trial.Hand, "[room.thermostat]",
		"[[room.fixture]]\nkind = \"column\"\nname = \"post\"\nat = [100, 100]\ndiameter = 100\n[room.thermostat]", 1)
	for _, c := range changed(t, with, trial.Hand) {
		if c.What == "post" && (c.After != "" || c.At == nil || c.At.Dist(plane.Pt(100, 100)) > 1 || c.Radius <= 0) {
			t.Errorf("%+v", c)
		}
	}
}
