package calendar

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	ics "github.com/arran4/golang-ical"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
)

func planOf(t *testing.T, name, old, with string) *layout.Plan {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), old, with, 1)
	j, report := job.Read(name, []byte(text), func(n string) ([]byte, error) {
		return os.ReadFile(filepath.Join(filepath.Dir(name), n))
	})
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics()[0])
	}
	p, _ := build.Plan(j)
	return p
}

func written(t *testing.T, p *layout.Plan) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Another reader finds the days that the job's own figures give: the bed of 2026-12-05
// with its 14 days is hard on the 19th, the grout of the 7th with 7 days on the 14th.
func TestReadByAnother(t *testing.T) {
	p := planOf(t, "../../testdata/laid/bath.toml", "site = \"", "site = \"a, b; c\\\\d \u00e4 ")
	data := written(t, p)
	if again := written(t, p); !bytes.Equal(again, data) {
		t.Error("the same plan gives two calendars")
	}
	for _, line := range bytes.Split(data, []byte("\r\n")) {
		if len(line) > 75 || bytes.ContainsAny(line, "\r\n") {
			t.Errorf("a line of %d octets: %q", len(line), line)
		}
	}
	c, err := ics.ParseCalendar(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	on, ids := map[string]string{}, map[string]bool{}
	for _, e := range c.Events() {
		at, err := e.GetAllDayStartAt()
		if err != nil {
			t.Fatal(err)
		}
		on[e.GetProperty(ics.ComponentPropertySummary).Value] = at.Format("2006-01-02")
		ids[e.Id()] = true
		if got := e.GetProperty(ics.ComponentPropertyLocation).Value; !strings.HasPrefix(got, "a, b; c\\d \u00e4 ") {
			t.Errorf("it is at %q", got)
		}
	}
	for title, want := range map[string]string{"The tile bed has had its 14 days": "2026-12-19",
		"The grout has had its 7 days": "2026-12-14", "Earliest full use of the floor": "2026-12-19"} {
		if on[title] != want {
			t.Errorf("%s: %q, want %s; there are %v", title, on[title], want, on)
		}
	}
	if len(ids) != len(c.Events()) {
		t.Errorf("%d events have %d names", len(c.Events()), len(ids))
	}
}

// What was not tested and what has no day is a task; it never gets a day of its own.
func TestWhatHasNoDayIsATask(t *testing.T) {
	text := string(written(t, planOf(t, "../../testdata/laid/bath.toml", "grouted = 2026-12-07", "")))
	for _, want := range []string{"BEGIN:VTODO", "SUMMARY:Write down when the grout was placed",
		"SUMMARY:Earliest full use of the floor is open"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	bare := string(written(t, planOf(t, "../../testdata/formats/1/nook.toml", "", "")))
	if n := strings.Count(bare, "SUMMARY:Test cable H1"); n != 5 {
		t.Errorf("%d tests are to be made, want the 5 that were gone over:\n%s", n, bare)
	}
	if !strings.HasSuffix(bare, "END:VCALENDAR\r\n") {
		t.Error("it does not end")
	}
}
