package sheets

import (
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/layout/job"
)

// TestRevisionsLeadToTheirRows: every triangle of a plan has a letter that the table of
// revisions explains, and a revision's place has one.
func TestRevisionsLeadToTheirRows(t *testing.T) {
	for _, name := range []string{"bath", "bath on letter"} {
		d := example(t, name)
		var letters, want []string
		for _, s := range d.set {
			for _, it := range s.Items {
				if p, ok := it.(*drawing.Path); ok {
					if l, is := strings.CutPrefix(p.Title, "revision "); is {
						letters = append(letters, l)
					}
				}
			}
		}
		for _, r := range d.plan.Rooms[0].Job.Revised {
			want = append(want, r.Letter)
		}
		if len(want) == 0 || !slices.Equal(letters, want) {
			t.Errorf("%s: triangles %q, want %q", name, letters, want)
		}
		for _, l := range letters {
			if !slices.ContainsFunc(d.plan.Job.Revisions, func(r job.Revision) bool { return r.Letter == l }) {
				t.Errorf("%s: no row for the triangle %s", name, l)
			}
		}
	}
}
