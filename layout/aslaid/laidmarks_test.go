package aslaid_test

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
)

func TestMarksThatCannotBe(t *testing.T) {
	plan, _ := build.Plan(trial.Read(t, "plan.toml", []byte(trial.Hand)))
	half := plan.Rooms[0].Cables[0].Halfway()
	laid := fmt.Sprintf("[[as_laid]]\nroom = \"Bath\"\nevidence = \"measured by hand\"\nruns = %d\n", half.Run)
	mark := func(length string, run, pegs int) string {
		if length != "" {
			length = "length = \"" + length + "\"\n"
		}
		return fmt.Sprintf("[[as_laid.mark]]\n%srun = %d\npegs = %d\n", length, run, pegs)
	}
	for _, c := range []struct {
		marks string
		want  []string
	}{
		{mark("", half.Run, int(half.Into/30)), nil},
		{mark("60 m", 2, 0), []string{"a mark is read as 60.0 m, but cable H1 has 26.0 m"}},
		{mark("9 m", 4, 0) + mark("10 m", 3, 9),
			[]string{"cable H1 has 10.0 m marked at run 3, peg 9, and 9.0 m at run 4, peg 0"}},
		{mark("", 4, 0), []string{"faster than drawn"}},
		{mark("1 m", 2, 400) + mark("", 90, 1), []string{"400 pegs into run 2, which has",
			"a mark is said to lie on run 90, but"}},
	} {
		_, found := build.Plan(trial.Read(t, "marks.toml", []byte(trial.Hand+laid+c.marks)))
		got := trial.Errors(found)
		if (c.want == nil) != (got == "") {
			t.Errorf("%s: %q, want %q", c.marks, got, c.want)
		}
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%s: %q, want %q", c.marks, got, w)
			}
		}
		for _, d := range found {
			if c.want != nil && d.Severity == job.Error && (d.Span == (job.Span{}) || d.Hint == "") {
				t.Error("an error without its place or what to do: " + fmt.Sprint(d))
			}
		}
	}
}
