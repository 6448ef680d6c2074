package refit

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/plane"
)

// Everything that is known for other programs, in mm and square metres.
func TestARefitForOtherPrograms(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	f.WayOut = Way{Lift: 2, GiveUp: 1, Once: true}
	f.Lifted, f.Spared, f.Used, f.Left, f.Rate, f.Early, f.Miss, f.Farther = 960.44, 250_000, 900.06, 1899.94,
		1.0123456, 9.96,
		-12.34, 5.55
	f.Drift, f.Reason = 0.01, "why"
	f.Choices = []Choice{{Way: Way{Lift: 3}, Lifted: 1800.06}, {Way: Way{GiveUp: 2}, Floor: 123_456}, {Remains: 77.77},
		{Lacks: 88.88}}
	read := func() map[string]any {
		var b bytes.Buffer
		if err := f.WriteJSON(&b); err != nil {
			t.Fatal(err)
		}
		var out map[string]any
		if err := json.Unmarshal(b.Bytes(), &out); err != nil {
			t.Fatal(err)
		}
		return out
	}
	all := 2820 - 4*saved
	out := read()
	for key, want := range map[string]any{"runs_laid": 1., "runs_lifted": 2., "lifted_mm": 960.4,
		"low_area_given_up": 1.,
		"given_up_m2":       0.25, "used_mm": 900.1, "left_mm": 1899.9, "rate": 1.01235, "mark_early_mm": 10.,
		"mark_read_as":  "once",
		"would_miss_mm": -12.3, "end_farther_mm": 5.6, "fits": false, "reason": "why", "plan_code": "NOW",
		"room":                    "Bath",
		"would_miss_if_steady_mm": math.Round(10*(1.01*all-2800)) / 10,
		"would_miss_if_once_mm":   math.Round(10*(all+9.96-2800)) / 10, "runs": nil, "path": nil} {
		if got := out[key]; got != want {
			t.Errorf("%s: %v, want %v", key, got, want)
		}
	}
	choices := out["choices"].([]any)
	for i, want := range []map[string]any{{"lift_runs": 3., "lifted_mm": 1800.1}, {"give_up_low_area": 2.,
		"given_up_m2": 0.1235},
		{"would_remain_mm": 77.8}, {"lacking_mm": 88.9}} {
		got := choices[i].(map[string]any)
		for key, v := range want {
			if got[key] != v || len(got) != len(want) {
				t.Errorf("choice %d: %v, want %v", i, got, want)
			}
		}
	}
	f.New = &layout.Cable{Path: f.plan, Runs: f.Old}
	f.Change = Changed{From: 2, Runs: 2, Cold: 54_321, Doorway: true}
	f.Early, f.WayOut.Once = 0.9, false
	out = read()
	for key, want := range map[string]any{"changes_from_run": 2., "runs_changed": 2., "out_of_reach_m2": 0.0543,
		"end_cap_in_doorway": true, "fits": true, "mark_read_as": "steady", "would_miss_if_steady_mm": nil} {
		if got := out[key]; got != want {
			t.Errorf("%s: %v, want %v", key, got, want)
		}
	}
	if len(out["runs"].([]any)) != 3 || len(out["path"].([]any)) != 6 {
		t.Errorf("%v", out)
	}
	f.plan, f.Early = nil, 5
	if out = read(); out["would_miss_if_once_mm"] != nil {
		t.Error("the laid part left the plan: it misses nothing")
	}
}

// What is said first: where laying stands, each fact where it is so.
func TestFactsOfARefit(t *testing.T) {
	for _, k := range []struct {
		name string
		set  func(f *Refit)
		says string // empty: that nothing of the kind is said
		not  string
	}{
		{"laid", func(f *Refit) {}, "Bath, cable H1: 1 of 3 runs are laid, 0.9 m of 2.8 m used, 1.9 m left",
			"first take up"},
		{"lifted", func(f *Refit) { f.WayOut.Lift, f.Lifted = 1, 960 }, "1 of 3 runs stay laid", "are laid"},
		{"lifted one", func(f *Refit) { f.WayOut.Lift, f.Lifted = 1, 960 },
			"first take up the last run, 1.0 m of cable", ""},
		{"given up", func(f *Refit) { f.WayOut.GiveUp, f.Spared = 1, 5e5 },
			"low-value area 1 gets no new cable: 0.50 m²", ""},
		{"not given up", func(f *Refit) {}, "", "low-value"},
		{"early", func(f *Refit) { f.Early, f.Drift = 1, 0.01 },
			"the mark came 1 mm of cable sooner than drawn: 1.0 % more cable", ""},
		{"late", func(f *Refit) { f.Early, f.Drift = -1, -0.01 },
			"the mark came 1 mm of cable later than drawn: 1.0 % less", ""},
		{"within a mm", func(f *Refit) { f.Early = 0.9 },
			"no mark was read off the cable: the rest is planned as drawn", "sooner"},
		{"clear", func(f *Refit) {}, "", "inside a clearance"},
		{"in a clearance", func(f *Refit) { f.Laid = hand.Points(0, -50, 900, -50) },
			"run 1 lies 30 mm inside a clearance", ""},
		{"as drawn", func(f *Refit) {}, "", "power"},
		{"hotter", func(f *Refit) { f.Planned.Label.Watts, f.Job.Supply.MaxDensity, f.Rate = 28, 100, 1.06 },
			"every run gives 6.0 % more heat for its length than drawn, so that the job's limit asks for 8 pegs over " +
				"the two gaps beside it, 7 as drawn", ""},
		{"alone", func(f *Refit) {}, "", "own part of the room"},
		{"two cables", func(f *Refit) { f.Room.Cables = append(f.Room.Cables, layout.Cable{ID: "H2"}) },
			"only cable H1's own part of the room is used; H2 stays as planned", ""},
		{"by its plan", func(f *Refit) { f.Planned.Laid.Job.PlanCode = "NOW" }, "laid by plan NOW", "nothing says so"},
		{"by another plan", func(f *Refit) { f.Planned.Laid.Job.PlanCode = "OLD" },
			"laid by plan OLD, read from its layout file; the job's own plan is NOW now", ""},
		{"by no plan", func(f *Refit) {}, "laid by plan NOW if that stands on the drawings on site; nothing says so",
			""},
		{"pegs", func(f *Refit) {
			at := plane.Pt(3, -4)
			f.Planned.Laid.Job.FirstPeg, f.plan = &at, plane.Moved(f.plan, at)
		}, "the pegs lie 3 mm east and 4 mm south of where the plan has them", ""},
		{"pegs as drawn", func(f *Refit) {
			at := plane.Pt(0.5, 0)
			f.Planned.Laid.Job.FirstPeg, f.plan = &at, plane.Moved(f.plan, at)
		}, "", "the pegs lie"},
	} {
		f := threeRuns(0, 0, 900, 0)
		f.reckon()
		k.set(f)
		f.New, f.Change = &layout.Cable{Runs: f.Old, Path: f.Planned.Path}, Changed{}
		for _, said := range []string{strings.Join(f.Lines(plane.Millimetres), "\n"),
			strings.Join(f.Summary(plane.Millimetres), "\n")} {
			if !strings.Contains(said, k.says) || k.not != "" && strings.Contains(said, k.not) {
				t.Errorf("%s: want %q and no %q in\n%s", k.name, k.says, k.not, said)
			}
		}
	}
}

// The plan with the cable planned anew has it in its own room, and all else as it was.
func TestAPlanWithARest(t *testing.T) {
	f := threeRuns(0, 0, 900, 0)
	other := layout.Room{Job: hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(9, 9))),
		Cables: []layout.Cable{{ID: "H1"}}}
	f.Room.Cables = []layout.Cable{{ID: "H0"}, *f.Planned}
	p := &layout.Plan{Job: f.Job, Rooms: []layout.Room{other, *f.Room}}
	f.Room, f.New = &p.Rooms[1], &layout.Cable{ID: "H1", Path: f.plan[:4]}
	got, moves := f.Plan(p)
	if moves != nil || len(got.Rooms) != 2 || got.Rooms[0].Cables[0].Path != nil || got.Rooms[1].Cables[0].ID != "H0" ||
		len(got.Rooms[1].Cables[1].Path) != 4 || len(p.Rooms[1].Cables[1].Path) != 6 || got.Code == "" {
		t.Errorf("%+v", got.Rooms)
	}
}

// The runs still to be laid are listed, and those that are not as planned; the end's place
// only where it changes.
func TestRunsThatAreListed(t *testing.T) {
	for _, k := range []struct {
		laid []float64
		from int
		runs string // as numbered
		end  bool
	}{{[]float64{0, 0, 900, 0}, 0, "23", false}, {[]float64{0, 0, 900, 0}, 3, "23", true},
		{[]float64{0, 0, 900, 0, 900, 60, 300, 60}, 0, "23", false}, {[]float64{0, 0, 900, 0, 900, 60, 0, 60}, 0, "3",
			false},
		{[]float64{0, 0, 900, 0, 900, 60, 0, 60}, 2, "23", true}, {nil, 0, "123", false}} {
		f := threeRuns(k.laid...)
		f.reckon()
		f.New, f.Change = &layout.Cable{Runs: f.Old, Path: f.Planned.Path}, Changed{From: k.from, Runs: 1}
		got, end := "", false
		for _, l := range f.newLines(plane.Millimetres) {
			if strings.HasPrefix(l, "run ") {
				got += l[4:5]
			}
			end = end || strings.Contains(l, "; planned ")
		}
		if got != k.runs || end != k.end {
			t.Errorf("%v laid, changed from %d: runs %s, its end %v", k.laid, k.from, got, end)
		}
	}
	var none *Misread
	if err := error(&Misread{Words: "x"}); !errors.As(err, &none) || none.Error() != "x" {
		t.Error("a misread mark is no error")
	}
}
