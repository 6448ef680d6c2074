package calendar

import (
	"slices"
	"strings"
	"testing"
	"time"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/record"
)

func on(day int) time.Time { return time.Date(2026, 3, day, 0, 0, 0, 0, time.UTC) }

// The stamp is the last day that a job names anywhere; of one without days the first of
// the year 2000.
func TestTheLastDayOfAJob(t *testing.T) {
	for name, k := range map[string]struct {
		set  func(p *layout.Plan)
		want time.Time
	}{
		"none": {func(p *layout.Plan) {}, time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)},
		"an older": {func(p *layout.Plan) { p.Job.Info.Date = on(1).AddDate(-30, 0, 0) }, time.Date(2000, 1, 1, 0, 0,
			0, 0, time.UTC)},
		"its own": {func(p *layout.Plan) { p.Job.Info.Date = on(3) }, on(3)},
		"revised": {func(p *layout.Plan) {
			p.Job.Info.Date, p.Job.Revisions = on(3), []job.Revision{{Date: on(5)}, {Date: on(4)}}
		}, on(5)},
		"laid": {func(p *layout.Plan) { p.Job.Info.Date, p.Job.Laid = on(3), []job.Laid{{Date: on(6)}} }, on(6)},
		"tested": {func(p *layout.Plan) {
			p.Job.Laid = []job.Laid{{Date: on(6),
				Readings: []job.Reading{{Date: on(8)}}}}
		}, on(8)},
		"placed": {func(p *layout.Plan) { p.FullUse = &layout.FullUse{Cures: []record.Cure{{Placed: on(9)}, {}}} },
			on(9)},
	} {
		p := &layout.Plan{Job: &job.Job{}}
		k.set(p)
		if got := latest(p); !got.Equal(k.want) {
			t.Errorf("%s: %v, want %v", name, got, k.want)
		}
	}
}

// entries are what a plan's calendar has, each as it is written.
func entries(t *testing.T, p *layout.Plan) []string {
	t.Helper()
	all := strings.ReplaceAll(string(written(t, p)), "\r\n ", "")
	_, all, _ = strings.Cut(all, "\r\nBEGIN:V")
	return strings.Split(all, "\r\nBEGIN:V")
}

func TestACalendarIsNeverEmpty(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{}}
	if got := entries(t, p); len(got) != 1 || !strings.Contains(got[0],
		"SUMMARY:No layer that hardens and no cable is known") {
		t.Errorf("%q", got)
	}
	p.FullUse = &layout.FullUse{Cures: []record.Cure{{Layer: "bed", Placed: on(1), Days: 1}}, Date: on(2), By: "bed"}
	got := entries(t, p)
	if len(got) != 2 || strings.Contains(strings.Join(got, ""), "No layer") {
		t.Errorf("%q", got)
	}
}

// A bed with a day of its own: on 2 March it has had it; the event takes that whole day, and
// ends as the third begins. One not stated takes 28 days, common practice, on 29 March.
func TestDaysOfCuring(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{}}
	p.FullUse = &layout.FullUse{Cures: []record.Cure{{Layer: "bed", Placed: on(1), Days: 1}, {Layer: "screed",
		Placed: on(1)},
		{Layer: "grout", Days: 3}}, Date: on(29), By: "screed"}
	got := entries(t, p)
	for i, want := range [][]string{
		{"EVENT", "DTSTART;VALUE=DATE:20260302", "DTEND;VALUE=DATE:20260303", "SUMMARY:The bed has had its day",
			`DESCRIPTION:Placed on 2026-03-01\; 1 days\, by its instructions.`, "TRANSP:TRANSPARENT"},
		{"EVENT", "DTSTART;VALUE=DATE:20260329", "DTEND;VALUE=DATE:20260330", "SUMMARY:The screed has had its 28 days",
			`28 days\, not stated\, taken by default.`},
		{"TODO", "SUMMARY:Write down when the grout was placed",
			`DESCRIPTION:It then takes 3 days\, by its instructions.`},
		{"EVENT", "DTSTART;VALUE=DATE:20260329", "SUMMARY:Earliest full use of the floor"},
	} {
		for _, part := range want {
			if len(got) != 4 || !strings.Contains(got[i], part) {
				t.Fatalf("%d entries; no %q in %q", len(got), part, got[i])
			}
		}
		if !strings.Contains(got[i], "\r\nDTSTAMP:20260301T000000Z\r\n") {
			t.Errorf("stamped otherwise: %q", got[i])
		}
	}
}

// A stage that was read is an event on its day where it has one; all others are tasks.
func TestStagesOfTesting(t *testing.T) {
	c := layout.Cable{ID: "H1", Laid: &layout.Laid{Job: &job.Laid{Readings: []job.Reading{
		{Stage: "on spool", Date: on(4), By: "A. B.", Ohms: job.Figure{Value: 144, Taken: true},
			Insulation: job.Figure{Value: 500, Taken: true, Over: true}}, {Stage: "covered"}}}}}
	c.Circuit.Limits = circuit.Limits{Low: 137, High: 158.4}
	p := &layout.Plan{Job: &job.Job{}, Rooms: []layout.Room{{Job: &job.Room{Name: "Bath"}, Cables: []layout.Cable{c}}}}
	got := entries(t, p)
	if len(got) != 5 {
		t.Fatalf("%d entries, want one event and the four stages left: %q", len(got), got)
	}
	if e := got[0]; !strings.Contains(e, `SUMMARY:Tested: cable H1\, Bath\, on spool`) || !strings.Contains(e,
		`DESCRIPTION:144.0 Ω\, over 500 MΩ\, read by A. B.`) || !strings.Contains(e, "DATE:20260304") {
		t.Errorf("%q", e)
	}
	for i, stage := range []string{"laid\\, before cover", "tiled", "grouted", "hook-up"} {
		if e := got[i+1]; !strings.HasPrefix(e, "TODO") || !strings.Contains(e,
			"SUMMARY:Test cable H1\\, Bath: "+stage) ||
			!strings.Contains(e, "DESCRIPTION:Ohms 137.0 to 158.4\\; insulation") {
			t.Errorf("%s: %q", stage, e)
		}
	}
	for want, r := range map[string]job.Reading{"": {}, "read by X": {By: "X"},
		"2 nF, 10000 Ω at the sensor": {Capacitance: job.Figure{Value: 2, Taken: true}, Sensor: job.Figure{Value: 1e4,
			Taken: true}}} {
		if got := new(file).read(r); got != want {
			t.Errorf("%+v: %q, want %q", r, got, want)
		}
	}
}

// In another language the words are its own, days and entries stay the same: one who reads
// both files has each once.
func TestCalendarInEachLanguage(t *testing.T) {
	p := &layout.Plan{Job: &job.Job{}, Rooms: []layout.Room{{Job: &job.Room{Name: "R"},
		Cables: []layout.Cable{{ID: "H1"}}}}}
	p.FullUse = &layout.FullUse{Cures: []record.Cure{{Layer: "grout", Placed: on(1), Days: 3}, {Layer: "tile bed"}},
		Open: []string{"tile bed"}}
	of := func(name string, text []string) (out []string) {
		for _, e := range text {
			_, value, _ := strings.Cut(e, "\r\n"+name+":")
			value, _, _ = strings.Cut(value, "\r\n")
			out = append(out, value)
		}
		return out
	}
	english := entries(t, p)
	for _, l := range []language.Language{language.Spanish, language.French, language.German} {
		p.Job.Language = l
		got := entries(t, p)
		if a, b := of("UID", got), of("UID", english); !slices.Equal(a, b) {
			t.Errorf("%s: other entries: %q, want %q", l.Tag(), a, b)
		}
		for _, name := range []string{"SUMMARY", "DESCRIPTION"} {
			a, b := of(name, got), of(name, english)
			for i := range a {
				if a[i] == b[i] || a[i] == "" {
					t.Errorf("%s: %s stays %q", l.Tag(), name, a[i])
				}
			}
		}
	}
	if got := entries(t, p)[0]; !strings.Contains(got, "SUMMARY:Fugenmörtel: 3 Tage sind um") {
		t.Error(got)
	}
}

// By RFC 5545, 3.1, a line has 75 octets at most without its end, and 3.3.11 says what is
// escaped; no control characters stand in text.
func TestLinesAndText(t *testing.T) {
	for _, k := range []struct{ n, lines, last int }{{73, 1, 75}, {74, 2, 2}, {73 + 74, 2, 75}, {73 + 75, 3, 2}} {
		f := &file{}
		f.line("A", strings.Repeat("x", k.n))
		rows := strings.Split(strings.TrimSuffix(f.b.String(), "\r\n"), "\r\n")
		if len(rows) != k.lines || len(rows[len(rows)-1]) != k.last {
			t.Errorf("%d letters: %q", k.n, rows)
		}
	}
	f := &file{} // a letter of two octets is not cut
	f.line("A", strings.Repeat("x", 72)+"é")
	if got := f.b.String(); got != "A:"+strings.Repeat("x", 72)+"\r\n é\r\n" {
		t.Errorf("%q", got)
	}
	for in, want := range map[string]string{"a\tb": "a\tb", "a\x01b\x1fc": "abc", "a\x7fb": "ab", "a\xffb": "ab",
		"a\r\nb\nc\rd": `a\nb\nc\nd`, `a;b,c\d`: `a\;b\,c\\d`} {
		if got := escaped(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
	p := &layout.Plan{Job: &job.Job{}}
	f = &file{plan: p}
	if f.task(language.Say("do it"), ""); strings.Contains(f.b.String(), "DESCRIPTION") ||
		strings.Contains(f.b.String(),
			"LOCATION") {
		t.Errorf("%q", f.b.String())
	}
	p.Job.Info.Site = "here"
	f = &file{plan: p}
	if f.task(language.Say("do it"), "so"); !strings.Contains(f.b.String(), "LOCATION:here\r\n") ||
		!strings.Contains(f.b.String(), "DESCRIPTION:so\r\n") {
		t.Errorf("%q", f.b.String())
	}
}
