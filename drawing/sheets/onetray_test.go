package sheets

import (
	"slices"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout/job"
)

// TestOneTray: forms are of the family of the paper that plans are drawn on, so that a set is
// printed where either is in the tray; where the job asks for no paper, of the one usual with
// its units. Letter and A4 sets have one size only.
func TestOneTray(t *testing.T) {
	for paper, want := range map[string]string{"A4": "A4", "A0": "A4", "letter": "letter", "tabloid": "letter",
		"ANSI D": "letter", "arch E": "letter"} {
		if got := setting.FormPaper(&job.Job{Sheet: job.Sheet{Size: paper}})[0].Name; got != want {
			t.Errorf("forms of a set on %s are on %s", paper, got)
		}
	}
	for _, name := range []string{"bath on letter", "kitchen on A4"} {
		d := example(t, name)
		if i := slices.IndexFunc(d.set, func(s *drawing.Sheet) bool { return s.Paper != d.set[0].Paper }); i >= 0 {
			t.Errorf("%s: %s is on %v, %s on %v", name, d.set[i].ID, d.set[i].Paper, d.set[0].ID, d.set[0].Paper)
		}
	}
}

// TestPlanLabels: what notes call the plan of a room is a sheet of the set, and that room's.
func TestPlanLabels(t *testing.T) {
	for _, name := range []string{"bath", "bath on letter", "kitchen"} {
		d := example(t, name)
		r := &d.plan.Rooms[0]
		label := planLabel(d.plan, r)
		if !slices.ContainsFunc(d.set, func(s *drawing.Sheet) bool {
			return s.Label == label && (kindIDOf(t, s.ID) == "cable-plan" || kindIDOf(t, s.ID) == "field-sheet")
		}) {
			t.Errorf("%s: no plan %s", name, label)
		}
	}
}
