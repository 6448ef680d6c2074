package sheets

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// layingSheets are those of a set that the cable is laid by, and their notes.
func layingSheets(set []*drawing.Sheet) []*drawing.Sheet {
	return slices.DeleteFunc(slices.Clone(set), func(s *drawing.Sheet) bool {
		return !slices.Contains([]string{"FS", "CP", "SO", "DT", "NT"}, codeOf(s.ID))
	})
}

// checkLaying: wherever they found room, every caution and every run of the first
// room stands once on the sheets that it is laid by, and revisions do.
func checkLaying(t *testing.T, p *layout.Plan, set []*drawing.Sheet) {
	t.Helper()
	all := ""
	for _, s := range layingSheets(set) {
		all += said(s) + " "
	}
	for _, c := range layingCautions(p) {
		words := c.text(p.Job.Region(), p.Job.Figures())
		if n := strings.Count(all, words); n != 1 {
			t.Errorf("%d times: %s", n, words)
		}
	}
	fig := p.Job.Figures()
	for _, c := range p.Rooms[0].Cables {
		for _, r := range c.Runs {
			next := "-"
			if r.GapToNext > 0 {
				next = strconv.Itoa(r.GapToNext)
			}
			row := strings.Join([]string{" " + c.RunName(r.Number), wallAlone(&floorplan.View{Room: &p.Rooms[0]}, r),
				strconv.Itoa(r.Pegs), next, fig.LongFigure(r.RunningEnd) + " "}, " ")
			if n := strings.Count(all, row); n != 1 {
				t.Errorf("%s run %d is listed %d times", c.ID, r.Number, n)
			}
		}
	}
	if n := strings.Count(all, "Revisions"); n != 1 {
		t.Errorf("%d tables of revisions", n)
	}
}

// TestNotesAreShared: what a cable plan and a setting out have no room for stands
// together, on one sheet of notes, and nothing is lost or said twice.
func TestNotesAreShared(t *testing.T) {
	for name, most := range map[string]int{"bath": 3, "entry": 4, "kitchen": 2} {
		d := example(t, name)
		checkLaying(t, d.plan, d.set)
		if n := len(layingSheets(d.set)); n > most {
			t.Errorf("%s is laid by %d sheets, %d hold everything", name, n, most)
		}
	}
}

// TestNothingLostOnSmallPaper: the same where little fits beside a drawing.
func TestNothingLostOnSmallPaper(t *testing.T) {
	for _, paper := range []string{"A4", "letter", "A3"} {
		p := samplePlan(t, plane.Millimetres)
		p.Job.Sheet.Size = paper
		p.Job.Revisions = []job.Revision{{Letter: "A", Text: "first issue"}}
		set, err := Set(p)
		if err != nil {
			t.Fatal(err)
		}
		checkLaying(t, p, set)
	}
}
