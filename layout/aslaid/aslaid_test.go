package aslaid_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
	"oxturn/layout/record"
)

func TestStagesAreThoseOfTheTestRecord(t *testing.T) {
	for _, s := range record.Stages() {
		p, found := trial.HandPlan(t, "for installation", trial.Record+fmt.Sprintf("[[as_laid.reading]]\nstage = %q\n",
			s))
		if p == nil {
			t.Errorf("%s: %v", s, found)
		}
	}
}

func TestAsPlanned(t *testing.T) {
	plain, _ := trial.HandPlan(t, "for installation", "")
	p, found := trial.HandPlan(t, "as laid", trial.Record+"plan = \"issued.json\"\nas_planned = true\n")
	if p == nil || trial.Errors(found) != "" {
		t.Fatal(found)
	}
	c, want := p.Rooms[0].Cables[0], plain.Rooms[0].Cables[0]
	if !c.Laid.Recorded() || c.Laid.Error != plane.Inch || len(c.Laid.Differ) > 0 {
		t.Errorf("recorded %v, error %g, differences %v", c.Laid.Recorded(), c.Laid.Error, c.Laid.Differ)
	}
	for i := range want.Path {
		if c.Path[i].Dist(want.Path[i]) > 0.001 {
			t.Fatalf("corner %d at %v, planned at %v", i, c.Path[i], want.Path[i])
		}
	}
	if s := p.Rooms[0].Sensors; len(s) > 0 && s[0].Found == nil {
		t.Error("the sensor held against the plan counts as not recorded")
	}
}

// corners writes points as the job file has them.
func corners(pts []plane.Point) string {
	var out []string
	for _, p := range pts {
		out = append(out, fmt.Sprintf("[%.3f, %.3f]", p.X, p.Y))
	}
	return "corners = [" + strings.Join(out, ", ") + "]\n"
}

// A cable laid a hand's breadth to the east of its plan is drawn where it
// lies, and every run of it is listed as moved.
func TestMovedCable(t *testing.T) {
	plain, _ := trial.HandPlan(t, "for installation", "")
	want := plain.Rooms[0].Cables[0]
	var moved []plane.Point
	for _, q := range want.Path {
		moved = append(moved, q.Add(plane.Pt(40, 0)))
	}
	p, found := trial.HandPlan(t, "as laid", trial.Record+corners(moved))
	if p == nil || trial.Errors(found) != "" {
		t.Fatal(found)
	}
	c := p.Rooms[0].Cables[0]
	if c.Path[3].Dist(moved[3]) > 0.01 || c.Laid.Planned[3] != want.Path[3] {
		t.Errorf("drawn at %v, planned at %v", c.Path[3], c.Laid.Planned[3])
	}
	for _, what := range []string{"lead joint", "end cap", "run 1"} {
		i := slices.IndexFunc(c.Laid.Differ, func(d layout.Difference) bool { return d.What.String() == what })
		if i < 0 || math.Abs(c.Laid.Differ[i].Off-40) > 1 && what != "run 1" {
			t.Errorf("%s: %+v", what, c.Laid.Differ)
		}
	}
}

func TestLegsInPegs(t *testing.T) {
	p, _ := trial.HandPlan(t, "for installation",
		trial.Record+"start = [100, 100]\nlegs = [\"north 40\", \"east 3\", \"south 40\", \"north-east 10\"]\n")
	want := []plane.Point{{X: 100, Y: 100}, {X: 100, Y: 1300}, {X: 190, Y: 1300}, {X: 190, Y: 100}, {X: 490, Y: 400}}
	got := p.Rooms[0].Cables[0].Laid.Path
	for i := range want {
		if i >= len(got) || got[i].Dist(want[i]) > 1e-6 {
			t.Fatalf("legs lead to %v, want %v", got, want)
		}
	}
	if p.Rooms[0].Cables[0].Path[0] == want[0] {
		t.Error("the plan is drawn where it was laid, though its status is for installation")
	}
}

func TestRecordsThatCannotBe(t *testing.T) {
	for _, c := range []struct{ status, record, want string }{
		{"for installation", trial.Record + "cable = \"H9\"\n", `room "Bath" has no cable "H9"`},
		{"for installation", trial.Record + "cable = \"H1\"\n" + trial.Record,
			`cable H1 of room "Bath" has two [[as_laid]]`},
		{"for installation", trial.Record + "runs = 99\n", "99 runs are said to be laid, but cable H1 has"},
		{"for installation", trial.Record + "start = [100, 100]\nlegs = [\"north 90\"]\n",
			"legs: leg 1 of cable H1 would leave room \"Bath\", to (100, 2800)"},
		{"for installation", trial.Record + "corners = [[100, 100], [900, 900], [900, 100], [100, 900]]\n",
			"cable H1 would cross itself, leg 1 over leg 3"},
		{"as laid", trial.Record + "corners = [[100, 100], [900, 900]]\n",
			"cable H1 as laid measures 1.1 m, but its label says 26.0 m"},
		{"for installation", trial.Record + "corners = [[100, 100], [100, 100], [100, 100]]\n",
			"corners: all corners of cable H1 are at one place"},
		{"for installation", trial.Record + "corners = [[100, 100], [900, 100], [300, 100]]\n", "leg 1 over leg 2"},
		{"for installation", trial.Record + "corners = [[100, 100], [900, 100], [900, 400], [400, 400], [400, 100]]\n",
			"leg 1 over leg 4"},
		{"as laid", "", "nothing says how the cable of room \"Bath\" was found to lie"},
	} {
		_, found := trial.HandPlan(t, c.status, c.record)
		var said []string
		for _, d := range found {
			said = append(said, d.Message)
		}
		if !strings.Contains(strings.Join(said, "\n"), c.want) {
			t.Errorf("%s%s: want %q, got %v", c.status, c.record, c.want, said)
		}
	}
}

// A cable that drifted by a run's length, and whose mark says so, is no cable
// with a run left out; without the mark it may be.
func TestAMarkExplainsAnotherLength(t *testing.T) {
	plain, _ := trial.HandPlan(t, "for installation", "")
	c := plain.Rooms[0].Cables[0]
	end := len(c.Path) - 1
	path := c.Path[:end-1] // without the last run
	share := 1 - (c.Path[end].Dist(c.Path[end-1])+c.Path[end-1].Dist(c.Path[end-2]))/c.Label.Length
	corners := ""
	for _, p := range path {
		corners += fmt.Sprintf("[%.4f, %.4f],", p.X, p.Y)
	}
	record := trial.Record + "corners = [" + corners + "]\n"
	run := c.Runs[0]
	mark := fmt.Sprintf("[[as_laid.mark]]\nlength = \"%.4f mm\"\nrun = 1\npegs = %d\n", run.RunningEnd/share, run.Pegs)
	for text, want := range map[string]bool{record: true, record + mark: false} {
		_, found := trial.HandPlan(t, "as laid", text)
		if got := strings.Contains(fmt.Sprint(found), "W110"); got != want {
			t.Errorf("W110 %v, want %v: %v\n%s", got, want, found, text)
		}
	}
}

// A record against another plan is at fault where it counts on the plan, and then nothing
// more is said of its cable; where it only is compared with it, that is worth a warning and
// the cable is joined.
func TestARecordAgainstAnotherPlan(t *testing.T) {
	const other = "plan = \"7KF-4RP\"\n"
	p, found := trial.HandPlan(t, "as laid", trial.Record+other+"as_planned = true\n")
	if p != nil {
		if got := trial.Errors(found); strings.Count(got, "was laid by plan 7KF-4RP") != 1 || strings.Contains(got,
			"nothing says how") || p.Rooms[0].Cables[0].Laid != nil {
			t.Errorf("%s", got)
		}
	}
	p, found = trial.HandPlan(t, "for installation",
		trial.Record+other+"corners = [[100, 100], [900, 100], [900, 300]]\n")
	if p == nil || trial.Errors(found) != "" || p.Rooms[0].Cables[0].Laid == nil {
		t.Fatalf("a record of its own is not joined: %v", found)
	}
	if p.Rooms[0].Cables[0].Path[0] == plane.Pt(100, 100) {
		t.Error("the plan is drawn where it was laid, though nothing is handed over yet")
	}
}
