package build_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
)

// example reads one of the example jobs.
func example(t *testing.T, name string) *job.Job {
	t.Helper()
	dir := "../../testdata/jobs"
	data, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	j, report := job.Read(name, data, func(n string) ([]byte, error) { return os.ReadFile(filepath.Join(dir, n)) })
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	return j
}

// TestOptionsAgreeWithBuild holds the option marked as taken to the plan: the
// same cables, spacing and heat, chosen or named.
func TestOptionsAgreeWithBuild(t *testing.T) {
	for _, name := range []string{"bath.toml", "entry.toml"} {
		plan, found := build.Plan(example(t, name))
		for _, d := range found {
			if d.Severity == job.Error {
				t.Fatal(d)
			}
		}
		rooms, wrong := build.Options(example(t, name))
		if len(wrong) > 0 || len(rooms) != len(plan.Rooms) {
			t.Fatalf("%s: %d rooms, %v", name, len(rooms), wrong)
		}
		for i, r := range rooms {
			agree(t, name, r, plan.Rooms[i])
		}
	}
}

func agree(t *testing.T, name string, r build.RoomOptions, room layout.Room) {
	t.Helper()
	taken := slices.IndexFunc(r.Options, func(o build.Option) bool { return o.Taken })
	if taken < 0 || !r.Options[taken].Fits {
		t.Fatalf("%s: the plan's cable is not taken among the options", name)
	}
	o := r.Options[taken]
	c := room.Cables[0]
	if o.IDs[0] != c.Label.ID || o.Spacing != c.Spacing || o.Volts != c.Label.Volts || o.LeadReach != c.LeadReach ||
		o.Length != c.Label.Length {
		t.Errorf("%s: option %+v, cable %s at %v", name, o, c.Label.ID, c.Spacing)
	}
	pairs := 0
	for i, o := range r.Options {
		if o.Fits == (o.Why != "") {
			t.Errorf("%s: option %v fits %v, why not %q", name, o.IDs, o.Fits, o.Why)
		}
		if i > 0 && o.Fits && !r.Options[i-1].Fits {
			t.Errorf("%s: option %v fits but stands below one that does not", name, o.IDs)
		}
		if len(o.IDs) == 2 {
			pairs++
		}
		if s := o.Smaller.Spacing; s > o.Larger.Spacing {
			t.Errorf("%s: option %v has its runs farther apart in a smaller room", name, o.IDs)
		}
	}
	if pairs == 0 {
		t.Errorf("%s: no pair is weighed", name)
	}
}

// TestOptionsOfTooFewCables finds a room that nothing fits.
func TestOptionsOfTooFewCables(t *testing.T) {
	j := example(t, "entry.toml")
	j.Cables = j.Cables[:1]
	rooms, wrong := build.Options(j)
	if len(wrong) != 1 || len(rooms) != 1 || rooms[0].Options[0].Fits || rooms[0].Options[0].Why == "" {
		t.Errorf("%v %+v", wrong, rooms)
	}
}

// partedHall is a hall of 4 x 2 m for which a cable is to be chosen, with what
// cuts its floor in two, and cables of 12 W/m.
func partedHall(parted string, lengths ...int) []byte {
	text := `units = "mm"

[membrane]
pitch = 30

[[room]]
name = "Hall"
corners = [[0, 0], [4000, 0], [4000, 2000], [0, 2000]]

[room.thermostat]
wall = "A"
from = "1 m"
` + parted
	for _, m := range lengths {
		text += fmt.Sprintf("\n[[cable]]\nid = \"C%d\"\nvolts = 240\nlength = \"%d m\"\nwatts = %d\nlead = \"6 m\"\n",
			m, m, 12*m)
	}
	return []byte(text)
}

// TestChoiceSuitsEachPart has a joint through the middle of a room: of two
// pairs with the same power in all, the one of equal cables warms both halves
// alike, as equal areas under equal watts do.
func TestChoiceSuitsEachPart(t *testing.T) {
	joint := "[[room.joint]]\nfrom = [2000, 0]\nto = [2000, 2000]\n"
	j := trial.Read(t, "hall.toml", partedHall(joint, 30, 40, 50))
	p, found := build.Plan(j)
	if len(found) > 0 {
		t.Fatal(found)
	}
	cables := p.Rooms[0].Cables
	if len(cables) != 2 || cables[0].Label.ID != "C40" || cables[1].Label.ID != "C40" {
		t.Errorf("chosen: %v", p.Rooms[0].Chosen)
	}
	rooms, _ := build.Options(trial.Read(t, "hall.toml", partedHall(joint, 30, 40, 50)))
	if best := rooms[0].Options[0]; !best.Taken || !slices.Equal(best.IDs, []string{"C40", "C40"}) {
		t.Errorf("weighed best: %+v", best)
	}
}

// TestChoiceSaysWhyInTheJobsUnits: what the sheet gives as the reason is in the
// units of its job.
func TestChoiceSaysWhyInTheJobsUnits(t *testing.T) {
	text := strings.NewReplacer("pitch = 30", `pitch = "30 mm"`, "4000", `"4 m"`, "2000",
		`"2 m"`).Replace(string(partedHall("", 60, 70)))
	for unit, want := range map[string]string{
		"mm": `^nearest to [0-9]+ W/m² \([0-9.]+ W/ft²\) of the 5 tried: [0-9]+ W/m² \([0-9.]+ W/ft²\) at an even ` +
			`spacing of [0-9.]+ mm$`,
		"in": `^nearest to [0-9.]+ W/ft² \([0-9]+ W/m²\) of the 5 tried: [0-9.]+ W/ft² \([0-9]+ W/m²\) at an even ` +
			`spacing of [0-9.]+ in$`,
	} {
		j := trial.Read(t, "hall.toml", []byte(strings.Replace(text, `units = "mm"`, `units = "`+unit+`"`, 1)))
		p, found := build.Plan(j)
		if len(found) > 0 {
			t.Fatal(found)
		}
		if why := p.Rooms[0].Chosen.Why; !regexp.MustCompile(want).MatchString(why.String()) {
			t.Errorf("in %s: %q", unit, why)
		}
	}
}

// TestPocketTooSmallForAnyCable has a corner of 900 x 600 mm cut off. Less the
// clearances, 775 x 475 mm take up 0.368 m² / 60 mm + 1.25 m = 7.4 m of cable at
// most: no cable of the job, so that the rest is laid with one, not with two.
func TestPocketTooSmallForAnyCable(t *testing.T) {
	walls := "[[room.keep_out]]\noutline = [[0, 1300], [1000, 1300], [1000, 1400], [0, 1400]]\n" +
		"[[room.keep_out]]\noutline = [[900, 1300], [1000, 1300], [1000, 2000], [900, 2000]]\n"
	p, found := build.Plan(trial.Read(t, "hall.toml", partedHall(walls, 20, 40, 80)))
	if len(found) != 1 || found[0].ID != "W103" || !strings.Contains(found[0].Hint, "takes up 7.4 m at most") {
		t.Fatal(found)
	}
	if c := p.Rooms[0].Cables; len(c) != 1 || c[0].Label.ID != "C80" {
		t.Errorf("chosen: %v", p.Rooms[0].Chosen)
	}
}
