package refit

import (
	"io"

	"oxturn/layout"
	"oxturn/layout/asjson"
	"oxturn/layout/plane"
)

// refitJSON is a refit for other programs: lengths in mm.
type refitJSON struct {
	Schema  int     `json:"schema"`
	Room    string  `json:"room"`
	Cable   string  `json:"cable"`
	Plan    string  `json:"plan_code"`
	LaidBy  string  `json:"laid_by_plan_code,omitempty"` // as given; empty: nobody said
	Runs    int     `json:"runs_laid"`
	Lift    int     `json:"runs_lifted,omitempty"`
	Lifted  float64 `json:"lifted_mm,omitempty"`
	GiveUp  int     `json:"low_area_given_up,omitempty"`
	Spared  float64 `json:"given_up_m2,omitempty"`
	Used    float64 `json:"used_mm"`
	Left    float64 `json:"left_mm"`
	Rate    float64 `json:"rate"`
	Early   float64 `json:"mark_early_mm"`
	Reading string  `json:"mark_read_as"` // steady: a drift that goes on; once: one slip
	Miss    float64 `json:"would_miss_mm"`
	// absent: the laid part left the plan, or no mark was off
	Steady  *float64         `json:"would_miss_if_steady_mm,omitempty"`
	Once    *float64         `json:"would_miss_if_once_mm,omitempty"`
	Farther float64          `json:"end_farther_mm,omitempty"` // where nothing else changes
	Fits    bool             `json:"fits"`
	Reason  string           `json:"reason,omitempty"`
	Changes int              `json:"changes_from_run,omitempty"`
	Differ  int              `json:"runs_changed,omitempty"`
	Cold    float64          `json:"out_of_reach_m2,omitempty"`
	Doorway bool             `json:"end_cap_in_doorway,omitempty"`
	Path    [][2]float64     `json:"path,omitempty"`
	List    []layout.RunJSON `json:"runs,omitempty"`
	Choices []choiceJSON     `json:"choices,omitempty"`
}

type choiceJSON struct {
	Lift    int     `json:"lift_runs,omitempty"`
	Lifted  float64 `json:"lifted_mm,omitempty"`
	Area    int     `json:"give_up_low_area,omitempty"`
	Floor   float64 `json:"given_up_m2,omitempty"`
	Remains float64 `json:"would_remain_mm,omitempty"`
	Lacks   float64 `json:"lacking_mm,omitempty"`
}

// WriteJSON writes the refit as indented JSON.
func (f *Refit) WriteJSON(w io.Writer) error {
	out := refitJSON{Schema: 1, Room: f.Room.Job.Name, Cable: f.Planned.ID, Plan: f.Code,
		LaidBy: f.Planned.Laid.Job.PlanCode, Runs: f.Runs, Lift: f.WayOut.Lift, Lifted: layout.Round(f.Lifted, 1),
		GiveUp: f.WayOut.GiveUp, Spared: layout.Round(f.Spared/plane.SquareMetre, 4), Used: layout.Round(f.Used, 1),
		Left: layout.Round(f.Left, 1), Rate: layout.Round(f.Rate, 5),
		Early: layout.Round(f.Early, 1), Miss: layout.Round(f.Miss, 1), Farther: layout.Round(f.Farther,
			1), Fits: f.New != nil, Reason: f.Reason}
	out.Reading = "steady"
	if f.WayOut.Once {
		out.Reading = "once"
	}
	if f.readTwice() && f.plan != nil {
		steady, once := f.misses()
		steady, once = layout.Round(steady, 1), layout.Round(once, 1)
		out.Steady, out.Once = &steady, &once
	}
	if f.New != nil {
		n := f.Change
		out.Changes, out.Differ, out.Cold, out.Doorway = n.From, n.Runs, layout.Round(n.Cold/plane.SquareMetre, 4),
			n.Doorway
		out.Path, out.List = layout.Pairs(f.New.Path), f.New.RunsJSON()
	}
	for _, c := range f.Choices {
		out.Choices = append(out.Choices, choiceJSON{c.Lift, layout.Round(c.Lifted, 1), c.GiveUp,
			layout.Round(c.Floor/plane.SquareMetre, 4), layout.Round(c.Remains, 1), layout.Round(c.Lacks, 1)})
	}
	return asjson.Write(w, out)
}
