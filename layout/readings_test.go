package layout_test

import (
	"strings"
	"testing"

	"oxturn/layout/record"
)

// handJob's cable is 240 V, 260 W: 221.5 Ω, 210.5 to 243.7 by -5/+10 %.
func TestReadingsAreJudged(t *testing.T) {
	at := func(stage, ohms string) string {
		return "[[as_laid.reading]]\nstage = \"" + stage + "\"\nohms = " + ohms + "\ninsulation = \">500\"\nvolts = 500\nhand = \"open\"\n"
	}
	for _, c := range []struct{ readings, want string }{
		{at("on spool", "222") + at("laid, before cover", "221"), ""},
		{at("on spool", "222") + at("laid, before cover", "209"), "cable H1, laid, before cover,"},
		{at("on spool", "244"), "cable H1, on spool,"},
		{strings.Replace(at("on spool", "222"), "\">500\"", "3", 1), "cable H1, on spool, insulation"},
	} {
		p, found := handPlan(t, "for installation", record1+c.readings)
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
		if err != nil || len(readings) != strings.Count(c.readings, "stage") || len(verdicts) == 0 || !readings[0].Insulation.Taken || readings[0].Hand != record.Open {
			t.Errorf("%d readings, %d verdicts, %v", len(readings), len(verdicts), err)
		}
	}
}
