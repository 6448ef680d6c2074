package load_test

import (
	"strings"
	"testing"

	"oxturn/layout/internal/trial"
	"oxturn/layout/record"
)

// handJob's cable is 240 V, 260 W: 221.5 Ω, 210.5 to 243.7 by -5/+10 %.
func TestReadingsAreJudged(t *testing.T) {
	at := func(stage, ohms string) string {
		return "[[as_laid.reading]]\nstage = \"" + stage + "\"\nohms = " + ohms +
			"\ninsulation = \">500\"\nvolts = 500\nhand = \"open\"\n"
	}
	for _, c := range []struct{ readings, want string }{
		{at("on spool", "222") + at("laid, before cover", "221"), ""},
		{at("on spool", "222") + at("laid, before cover", "209"), "cable H1, laid, before cover,"},
		{at("on spool", "244"), "cable H1, on spool,"},
		{strings.Replace(at("on spool", "222"), "\">500\"", "3", 1), "cable H1, on spool, insulation"},
	} {
		p, found := trial.HandPlan(t, "for installation", trial.Record+c.readings)
		var said []string
		for _, d := range found {
			if d.ID == "W111" {
				said = append(said, d.Message)
			}
		}
		if got := strings.Join(said, "\n"); (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q, got %q", c.readings, c.want, got)
		}
		if p == nil {
			continue
		}
		readings, verdicts, err := p.Rooms[0].Cables[0].Readings()
		if err != nil || len(readings) != strings.Count(c.readings, "stage") || len(verdicts) == 0 ||
			!readings[0].Insulation.Taken || readings[0].Hand != record.Open {
			t.Errorf("%d readings, %d verdicts, %v", len(readings), len(verdicts), err)
		}
	}
}

// TestReadingsOutOfOrder: the reading at fault is pointed at, and the one it
// goes back behind.
func TestReadingsOutOfOrder(t *testing.T) {
	reading := func(stage, date string) string {
		return "[[as_laid.reading]]\nstage = \"" + stage + "\"\ndate = " + date + "\nohms = 222\n"
	}
	text := trial.Record + reading("on spool", "2026-03-01") + reading("laid, before cover", "2026-03-01") +
		reading("covered", "2026-03-09") + reading("laid, before cover", "2026-03-02")
	_, found := trial.HandPlan(t, "for installation", text)
	var said []string
	for _, d := range found {
		if d.ID == "W112" {
			said = append(said, d.Message)
			if len(d.Notes) != 1 || d.Notes[0].Span == d.Span || d.Hint == "" {
				t.Errorf("%+v", d)
			}
		}
	}
	want := []string{`cable H1, order of stages: stage "laid, before cover" is written after stage "covered"`,
		`cable H1, order of dates: dated 2026-03-02, yet stage "covered" written before it is dated 2026-03-09`}
	if strings.Join(said, "\n") != strings.Join(want, "\n") {
		t.Errorf("said %q, want %q", said, want)
	}
}

// TestSkippedStages: stages gone over are named once, at the reading that comes
// after them; those still to come and service are none.
func TestSkippedStages(t *testing.T) {
	for _, c := range []struct {
		stages []string
		want   string
	}{
		{[]string{"on spool", "laid, before cover", "covered"}, ""},
		{[]string{"on spool", "laid, before cover", "covered", "tiled", "grouted", "hook-up"}, ""},
		{[]string{"laid, before cover"},
			`cable H1 was not tested at stage "on spool": the next reading is of stage "laid, before cover", and ` +
				`what came between was covered unmeasured`},
		{[]string{"on spool", "hook-up"},
			`cable H1 was not tested at stages "laid, before cover", "covered", "tiled" and "grouted": the next ` +
				`reading is of stage "hook-up", and what came between was covered unmeasured`},
		{[]string{"on spool", "covered", "service"},
			`cable H1 was not tested at stages "laid, before cover", "tiled", "grouted" and "hook-up": the next ` +
				`reading is of stage "covered", and what came between was covered unmeasured`},
	} {
		text := trial.Record
		for _, s := range c.stages {
			text += "[[as_laid.reading]]\nstage = \"" + s + "\"\nohms = 222\n"
		}
		_, found := trial.HandPlan(t, "for installation", text)
		var said []string
		for _, d := range found {
			if d.ID == "W114" {
				said = append(said, d.Message)
			}
		}
		if got := strings.Join(said, "\n"); got != c.want {
			t.Errorf("%v: said %q, want %q", c.stages, got, c.want)
		}
	}
}
