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
		for i, r := range c.Runs {
			if jogged(c.Runs, i) { // one of short runs after the first of them
				if !strings.Contains(all, wallAlone(&floorplan.View{Room: &p.Rooms[0]}, r)+" "+strconv.Itoa(r.Pegs)) {
					t.Errorf("%s run %d is not listed with those before it", c.ID, r.Number)
				}
				continue
			}
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
	if n, want := strings.Count(all, "Revisions"), min(1, len(p.Job.Revisions)); n != want {
		t.Errorf("%d tables of revisions", n)
	}
}

// jogged reports whether run i of a list is one of four or more in a row of at most four pegs that no gap follows, but
// not the first of them: told by its neighbours, from either side.
func jogged(runs []layout.Run, i int) bool {
	short := func(k int) bool { return k >= 0 && k < len(runs) && runs[k].Pegs <= 4 && runs[k].GapToNext == 0 }
	from, to := i, i
	for short(from - 1) {
		from--
	}
	for short(to) {
		to++
	}
	return short(i) && i > from && to-from >= 4
}

// TestJogsAreListedTogether: of runs of 3 and 4 pegs round something, three stay rows of their own; four are one, with
// the length used at the end of the last.
func TestJogsAreListedTogether(t *testing.T) {
	run := func(pegs, gap int) layout.Run { return layout.Run{Pegs: pegs, GapToNext: gap} }
	for _, c := range []struct {
		runs []layout.Run
		want int
	}{
		{[]layout.Run{run(3, 0), run(4, 0), run(3, 0), run(40, 0)}, 1},
		{[]layout.Run{run(3, 0), run(4, 0), run(3, 0), run(4, 0), run(40, 0)}, 4},
		{[]layout.Run{run(3, 0), run(4, 2), run(3, 0), run(4, 0)}, 1},
		{[]layout.Run{run(40, 0), run(3, 0), run(4, 0), run(3, 0), run(4, 0)}, 1},
	} {
		if got := jogs(c.runs); got != c.want {
			t.Errorf("%v: %d in a row of the list, want %d", c.runs, got, c.want)
		}
	}
	d := example(t, "kitchen on A4")
	runs := d.plan.Rooms[0].Cables[1].Runs
	first := slices.IndexFunc(runs, func(r layout.Run) bool { return r.Number == 10 })
	n := jogs(runs[first:])
	all := ""
	for _, s := range layingSheets(d.set) {
		all += said(s) + " "
	}
	last := runs[first+n-1]
	if want := d.plan.Rooms[0].Cables[1].RunName(last.Number) + " ends at " +
		d.plan.Job.Figures().LongFigure(last.RunningEnd); n < 10 || !strings.Contains(all, want) {
		t.Errorf("%d short runs; no %q", n, want)
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
