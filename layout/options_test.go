package layout_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"oxturn/layout"
	"oxturn/layout/job"
)

// example reads one of the example jobs.
func example(t *testing.T, name string) *job.Job {
	t.Helper()
	dir := "../testdata/jobs"
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
		plan, found := layout.Build(example(t, name))
		for _, d := range found {
			if d.Severity == job.Error {
				t.Fatal(d)
			}
		}
		rooms, wrong := layout.Options(example(t, name))
		if len(wrong) > 0 || len(rooms) != len(plan.Rooms) {
			t.Fatalf("%s: %d rooms, %v", name, len(rooms), wrong)
		}
		for i, r := range rooms {
			agree(t, name, r, plan.Rooms[i])
		}
	}
}

func agree(t *testing.T, name string, r layout.RoomOptions, room layout.Room) {
	t.Helper()
	taken := slices.IndexFunc(r.Options, func(o layout.Option) bool { return o.Taken })
	if taken < 0 || !r.Options[taken].Fits {
		t.Fatalf("%s: the plan's cable is not taken among the options", name)
	}
	o := r.Options[taken]
	c := room.Cables[0]
	if o.IDs[0] != c.Label.ID || o.Spacing != c.Spacing || o.Volts != c.Label.Volts || o.LeadReach != c.LeadReach || o.Length != c.Label.Length {
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
	rooms, wrong := layout.Options(j)
	if len(wrong) != 1 || len(rooms) != 1 || rooms[0].Options[0].Fits || rooms[0].Options[0].Why == "" {
		t.Errorf("%v %+v", wrong, rooms)
	}
}
