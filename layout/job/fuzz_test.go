package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// FuzzRead: whatever the file, reading neither panics nor hangs, says
// something when it returns no job, and can be printed in every style.
func FuzzRead(f *testing.F) {
	for _, pattern := range []string{"testdata/good/*.toml", "testdata/bad/*.toml", "../../testdata/jobs/*.toml"} {
		for _, file := range glob(f, pattern) {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		j, report := Read("job.toml", data, func(string) ([]byte, error) { return data, nil })
		report.Finish()
		if j == nil && report.Errors() == 0 {
			t.Error("no job and no error")
		}
		for _, d := range report.Diagnostics() {
			if d.Message == "" || d.Span.Start > d.Span.End || d.Span.Start < 0 {
				t.Errorf("diagnostic %+v", d)
			}
		}
		printed(t, report)
	})
}

func printed(t *testing.T, report *Report) {
	t.Helper()
	text := human(report)
	for _, r := range text {
		if r < ' ' && r != '\n' {
			t.Errorf("control character %q in %q", r, text)
		}
	}
	if !utf8.ValidString(text) {
		t.Errorf("not UTF-8: %q", text)
	}
	var b bytes.Buffer
	if err := report.JSON(&b); err != nil {
		t.Fatal(err)
	}
	for _, line := range bytes.Split(bytes.TrimSpace(b.Bytes()), []byte("\n")) {
		if !json.Valid(line) {
			t.Errorf("not JSON: %s", line)
		}
	}
}

// TestPositions writes jobs at random, breaks one value in one of the many
// tables of a sort, and wants exactly that place back.
func TestPositions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := &writer{newline: rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "newline")}
		if rapid.Bool().Draw(t, "mark") {
			w.b.WriteString(byteOrderMark)
		}
		w.line("units = \"mm\"")
		w.line("membrane.pitch = 30 # as a dotted key")
		w.line("cable = [{id = \"C\", volts = 240, watts = 600, length = \"60 m\", lead = \"4 m\"}]")
		rooms := rapid.IntRange(1, 4).Draw(t, "rooms")
		outs := rapid.IntRange(1, 4).Draw(t, "keep-outs")
		broken := rapid.IntRange(0, rooms*outs-1).Draw(t, "broken")
		for i := range rooms {
			w.room(t, i)
			for k := range outs {
				w.keepOut(t, i*outs+k == broken)
			}
		}
		_, report := readText(w.b.String())
		ds := report.Diagnostics()
		if len(ds) != 1 || !strings.HasPrefix(ds[0].Message, "clear is -1 mm") {
			t.Fatalf("%s\n%s", w.b.String(), human(report))
		}
		got := report.Position("job.toml", ds[0].Span.Start)
		if got != w.broken {
			t.Fatalf("reported at %v, broken at %v:\n%s", got, w.broken, w.b.String())
		}
	})
}

// A writer writes a job and knows at which line it is, by its own count.
type writer struct {
	b       strings.Builder
	lines   int
	newline string
	broken  Position
}

func (w *writer) line(s string) {
	w.b.WriteString(s + w.newline)
	w.lines++
}

func (w *writer) noise(t *rapid.T) string {
	noise := rapid.SampledFrom([]string{"", "# [[room.keep_out]] clear = -2", "\t# Bäder 浴室"}).Draw(t, "noise")
	if noise != "" {
		w.line(noise)
	}
	return rapid.SampledFrom([]string{"", "\t", "  "}).Draw(t, "indent")
}

func (w *writer) room(t *rapid.T, i int) {
	in := w.noise(t)
	w.line(in + "[[room]]")
	w.line(in + fmt.Sprintf("name = '''Bad %d'''", i))
	w.line(in + "corners = [[0,0], [3000,0], # clear = -3")
	w.line(in + "  [3000, 2_000], [0, 0x7d0],]")
	w.line("thermostat = { wall = \"A\", from = 100 }")
}

func (w *writer) keepOut(t *rapid.T, broken bool) {
	in := w.noise(t)
	w.line(in + "[[ room . \"keep_out\" ]]")
	clear := "40"
	if rapid.Bool().Draw(t, "diameter first") {
		w.line(in + "diameter = 100")
		defer w.line(in + "at = [500, 500]")
	} else {
		w.line(in + "at = [500, 500]")
		defer w.line(in + "diameter = 100")
	}
	if broken {
		clear = "-1"
		w.broken = Position{w.lines + 1, len(in) + len("clear = ") + 1}
	}
	w.line(in + "clear = " + clear)
}
