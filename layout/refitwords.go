package layout

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"oxturn/layout/plane"
)

// Lines says in lines for people how far off the laid part is and what to lay
// from there on, or what can be done where nothing fits.
func (f *Refit) Lines(u plane.Units) []string {
	c := f.Planned
	out := []string{fmt.Sprintf("%s, cable %s: %d of %d runs are laid, %s of %s used", f.Room.Job.Name, c.ID, f.Runs, len(c.Runs), length(f.Used, u), length(c.Label.Length, u))}
	if math.Abs(f.Early) >= 1 {
		out = append(out, fmt.Sprintf("off      the mark came %s of cable %s than drawn: %.1f %% %s is used than the way covered", small(math.Abs(f.Early), u), earlier(f.Early), 100*math.Abs(f.Rate-1), more(f.Rate)))
	} else {
		out = append(out, "off      by the marks given, nothing: the rest is planned as drawn, with what is left")
	}
	if f.Laid != nil {
		out = append(out, "end      if nothing changed the cable would "+f.missWords(u))
	}
	if f.New == nil {
		return append(out, f.stuckLines(u)...)
	}
	n := f.Changes()
	if n == 0 {
		return append(out, "change   none: lay on as planned")
	}
	out = append(out, fmt.Sprintf("change   from run %d on; the laid runs stay as they are", n))
	for _, r := range f.New.Runs {
		if r.Number > f.Runs {
			out = append(out, runLine(r, u))
		}
	}
	end := f.New.Path[len(f.New.Path)-1]
	return append(out, fmt.Sprintf("end cap  at (%s, %s); planned at (%s, %s)", plane.FormatLength(end.X, u), plane.FormatLength(end.Y, u),
		plane.FormatLength(c.Path[len(c.Path)-1].X, u), plane.FormatLength(c.Path[len(c.Path)-1].Y, u)))
}

func (f *Refit) missWords(u plane.Units) string {
	switch {
	case f.Miss >= 1:
		return fmt.Sprintf("end %s short of its planned end", small(f.Miss, u))
	case f.Miss <= -1:
		return fmt.Sprintf("have %s over at its planned end", small(-f.Miss, u))
	}
	return "end where it was planned to"
}

func earlier(early float64) string {
	if early > 0 {
		return "sooner"
	}
	return "later"
}

func more(rate float64) string {
	if rate > 1 {
		return "more cable"
	}
	return "less cable"
}

// runLine is one run as an installer reads it.
func runLine(r Run, u plane.Units) string {
	s := fmt.Sprintf("run %-3d  %d pegs %s", r.Number, r.Pegs, r.Direction)
	if r.GapToNext > 0 {
		s += fmt.Sprintf(", then %d over", r.GapToNext)
	}
	return s + fmt.Sprintf("; %s on the cable at its end", length(r.RunningEnd, u))
}

// stuckLines says why nothing fits and what can be done. Laid cable is never
// moved and no rule is given up without being asked.
func (f *Refit) stuckLines(u plane.Units) []string {
	out := []string{"no fit   " + f.Reason}
	for _, c := range f.Choices {
		switch {
		case c.Lift > 0:
			out = append(out, fmt.Sprintf("choice   lift the last %d runs (%s of cable) and lay on from there", c.Lift, length(c.Lifted, u)))
		case c.Area > 0:
			out = append(out, fmt.Sprintf("choice   give up low-value area %d: %s of floor without cable", c.Area, plane.FormatArea(c.Floor, u)))
		case c.Remains > 0:
			out = append(out, fmt.Sprintf("choice   none without lifting or giving up floor: %s of cable would find no place; it is never cut, coiled or doubled", length(c.Remains, u)))
		case c.Lacks > 0:
			out = append(out, fmt.Sprintf("choice   none without leaving floor cold: %s of cable are lacking", length(c.Lacks, u)))
		}
	}
	if len(f.Choices) == 0 {
		out = append(out, "choice   none was found: lift the cable and take another length, or change what the job asks for")
	}
	return out
}

// small writes a short length of cable: mm, or feet and inches.
func small(mm float64, u plane.Units) string {
	if u == plane.Inches {
		return plane.FormatFeetInches(mm)
	}
	return fmt.Sprintf("%.0f mm", mm)
}

// refitJSON is a refit for other programs: lengths in mm.
type refitJSON struct {
	Schema  int          `json:"schema"`
	Room    string       `json:"room"`
	Cable   string       `json:"cable"`
	Runs    int          `json:"runs_laid"`
	Used    float64      `json:"used_mm"`
	Left    float64      `json:"left_mm"`
	Rate    float64      `json:"rate"`
	Early   float64      `json:"mark_early_mm"`
	Miss    float64      `json:"would_miss_mm"`
	Fits    bool         `json:"fits"`
	Reason  string       `json:"reason,omitempty"`
	Changes int          `json:"changes_from_run,omitempty"`
	Path    [][2]float64 `json:"path,omitempty"`
	List    []runJSON    `json:"runs,omitempty"`
	Choices []choiceJSON `json:"choices,omitempty"`
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
	out := refitJSON{Schema: 1, Room: f.Room.Job.Name, Cable: f.Planned.ID, Runs: f.Runs, Used: round(f.Used, 1), Left: round(f.Left, 1), Rate: round(f.Rate, 5),
		Early: round(f.Early, 1), Miss: round(f.Miss, 1), Fits: f.New != nil, Reason: f.Reason}
	if f.New != nil {
		c := f.New.json()
		out.Changes, out.Path, out.List = f.Changes(), c.Path, c.Runs
	}
	for _, c := range f.Choices {
		out.Choices = append(out.Choices, choiceJSON{c.Lift, round(c.Lifted, 1), c.Area, round(c.Floor/1e6, 4), round(c.Remains, 1), round(c.Lacks, 1)})
	}
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	return e.Encode(out)
}
