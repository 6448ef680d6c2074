package job

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// reportOn puts one error at the first place of a word in a text.
func reportOn(text, word string) *Report {
	r := &Report{}
	r.AddSource("job.toml", []byte(text))
	at := strings.Index(text, word)
	r.Errorf(Span{"job.toml", at, at + len(word)}, "", "here")
	return r
}

func TestExcerpts(t *testing.T) {
	long := "corners = [" + strings.Repeat("[1000, 2000], ", 30) + "[nan, 0], " + strings.Repeat("[1000, 2000], ", 30) +
		"]"
	tests := []struct{ name, text, word, want string }{
		{"plain", "a = 1\nb = bad\n", "bad", "job.toml:2:5: error: here\n    2 | b = bad\n      |     ^^^\n"},
		{"tabs", "\tb =\tbad\n", "bad", "job.toml:1:6: error: here\n    1 |     b =    bad\n      |            ^^^\n"},
		{"wide runes", "b = \"浴室\" bad\n", "bad",
			"job.toml:1:10: error: here\n    1 | b = \"浴室\" bad\n      |            ^^^\n"},
		{"a wide rune marked", "b = 浴室\n", "室", "job.toml:1:6: error: here\n    1 | b = 浴室\n      |       ^^\n"},
		{"combining marks", "b = \"e\u0301\" bad\n", "bad",
			"job.toml:1:10: error: here\n    1 | b = \"e\u0301\" bad\n      |         ^^^\n"},
		{"carriage returns", "a = 1\r\nb = bad\r\n", "bad",
			"job.toml:2:5: error: here\n    2 | b = bad\n      |     ^^^\n"},
		{"byte order mark", "\ufeffb = bad\n", "bad", "job.toml:1:5: error: here\n    1 | b = bad\n      |     ^^^\n"},
		{"several lines", "b = [\n 1,\n]\n", "[\n 1,\n]", "job.toml:1:5: error: here\n    1 | b = [\n      |     ^\n"},
		{"control characters", "b = \"\x1b[31m\" bad", "bad",
			"job.toml:1:13: error: here\n    1 | b = \"\ufffd[31m\" bad\n      |             ^^^\n"},
		{"a long line", long, "nan", "job.toml:1:433: error: here\n    1 | …], [1000, 2000], [1000, 2000], [nan, 0], " +
			"[1000, 2000], [1000, 2000], [1000, 2000], [1000, 2000], […\n      |                                " +
			"  ^^^\n"},
	}
	for _, c := range tests {
		want := c.want + "1 error, 0 warnings\n"
		if d := cmp.Diff(want, human(reportOn(c.text, c.word))); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
}

func TestAtTheEndOfTheFile(t *testing.T) {
	r := &Report{}
	r.AddSource("job.toml", []byte("a = "))
	r.Errorf(Span{"job.toml", 4, 5}, "", "here")
	want := "job.toml:1:5: error: here\n    1 | a =\n      |     ^\n1 error, 0 warnings\n"
	if d := cmp.Diff(want, human(r)); d != "" {
		t.Error(d)
	}
}

// several returns a report with notes, hints and two files, put in out of order.
func several() *Report {
	r := &Report{}
	r.AddSource("job.toml", []byte("a = 1\nb = 2\n"))
	r.AddSource("cables.toml", []byte("c = 3\n"))
	r.Warnf("W001", Span{"cables.toml", 4, 5}, "", "third")
	r.Add(Diagnostic{Span: Span{"job.toml", 10, 11}, Message: "second", Hint: "write\nb = 3",
		Notes: []Note{{Span{"cables.toml", 0, 1}, "there"}}})
	r.Errorf(Span{}, "", "last")
	r.Errorf(Span{"job.toml", 0, 1}, "", "first")
	return r
}

func TestHuman(t *testing.T) {
	want := `job.toml:1:1: error: first
    1 | a = 1
      | ^
job.toml:2:5: error: second
    2 | b = 2
      |     ^
  note: cables.toml:1:1: there
  hint: write
        b = 3
cables.toml:1:5: warning W001: third
    1 | c = 3
      |     ^
error: last
3 errors, 1 warning
`
	if d := cmp.Diff(want, human(several())); d != "" {
		t.Error(d)
	}
	if got := human(&Report{}); got != "" {
		t.Errorf("nothing to say is %q", got)
	}
	var b bytes.Buffer
	if err := several().Human(&b, true); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(b.String(), "\x1b[1mjob.toml:1:1:\x1b[0m \x1b[1;31merror:\x1b[0m first\n    1 | a = 1\n    "+
		"  | \x1b[1;31m^\x1b[0m\n") {
		t.Errorf("in colour: %q", b.String())
	}
}

func TestShort(t *testing.T) {
	var b bytes.Buffer
	if err := several().Short(&b); err != nil {
		t.Fatal(err)
	}
	want := "job.toml:1:1: error: first\njob.toml:2:5: error: second\ncables.toml:1:5: warning W001: third\nerror: " +
		"last\n"
	if d := cmp.Diff(want, b.String()); d != "" {
		t.Error(d)
	}
}

func TestJSON(t *testing.T) {
	var b bytes.Buffer
	if err := several().JSON(&b); err != nil {
		t.Fatal(err)
	}
	want := `{"type":"version","format":"1.0"}
{"type":"diagnostic","file":"job.toml","line":1,"column":1,"end_line":1,"end_column":2,"byte_start":0,"byte_end":1,"severity":"error","message":"first"}
{"type":"diagnostic","file":"job.toml","line":2,"column":5,"end_line":2,"end_column":6,"byte_start":10,"byte_end":11,"severity":"error","message":"second","notes":[{"file":"cables.toml","line":1,"column":1,"message":"there"}],"hint":"write\nb = 3"}
{"type":"diagnostic","file":"cables.toml","line":1,"column":5,"end_line":1,"end_column":6,"byte_start":4,"byte_end":5,"severity":"warning","id":"W001","message":"third"}
{"type":"diagnostic","file":"","line":0,"column":0,"end_line":0,"end_column":0,"byte_start":0,"byte_end":0,"severity":"error","message":"last"}
`
	if d := cmp.Diff(want, b.String()); d != "" {
		t.Error(d)
	}
	for _, line := range strings.Split(strings.TrimSpace(b.String()), "\n") {
		if !json.Valid([]byte(line)) {
			t.Errorf("not JSON: %s", line)
		}
	}
}

// TestTwentyAtMost: errors are kept before warnings, and the rest is counted.
func TestTwentyAtMost(t *testing.T) {
	r := &Report{}
	r.AddSource("job.toml", []byte(strings.Repeat("a = 1\n", 40)))
	for i := range 10 {
		r.Warnf("W001", Span{"job.toml", 6 * i, 6*i + 1}, "", "a warning")
	}
	for i := range 17 {
		r.Errorf(Span{"job.toml", 60 + 6*i, 61 + 6*i}, "", "an error")
	}
	got := human(r)
	if strings.Count(got, "an error") != 17 || strings.Count(got, "a warning") != 3 || !strings.HasSuffix(got,
		"and 7 more\n17 errors, 10 warnings\n") {
		t.Error(got)
	}
}

// TestLongLineIsCutTheSame: what is shown of a line does not depend on how far
// it goes on.
func TestLongLineIsCutTheSame(t *testing.T) {
	line := strings.Repeat("a", 5000) + "üX" + strings.Repeat("b", 5000)
	shown := func(line string, column int) string {
		cells, from := cellsOf(line, column, Span{Start: 1, End: 2})
		cells, cut := window(cells, from)
		return textOf(cells, cut) + "\n" + carets(cells)
	}
	for _, column := range []int{1, 2, 350, 399, 400, 401, 402, 5000, 5001, 5002, 9800, 10002, 10003} {
		short, at := shortened(line, column)
		if got, want := shown(short, at), shown(line, column); got != want || len(short) > 1000 {
			t.Errorf("column %d:\n%s\nwant\n%s", column, got, want)
		}
	}
}
