package layout_test

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/job"
)

func TestMarksThatCannotBe(t *testing.T) {
	for _, c := range []struct{ marks, want string }{
		{"[[as_laid.mark]]\nlength = \"60 m\"\nrun = 2\n", "a mark is read as 60.0 m, but cable H1 has 26.0 m"},
		{"[[as_laid.mark]]\nlength = \"9 m\"\nrun = 4\n[[as_laid.mark]]\nlength = \"10 m\"\nrun = 3\npegs = 9\n", "cable H1 has 10.0 m marked at run 3, peg 9, and 9.0 m at run 4, peg 0"},
		{"[[as_laid.mark]]\nrun = 4\n[[as_laid.mark]]\nlength = \"14 m\"\nrun = 4\npegs = 9\n", ""},
	} {
		_, found := layout.Build(read(t, "marks.toml", []byte(handJob+"[[as_laid]]\nroom = \"Bath\"\nevidence = \"measured by hand\"\nruns = 5\n"+c.marks)))
		got := errorsOf(found)
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", c.marks, got, c.want)
		}
		for _, d := range found {
			if c.want != "" && d.Span == (job.Span{}) {
				t.Error("an error without its place: " + fmt.Sprint(d))
			}
		}
	}
}
