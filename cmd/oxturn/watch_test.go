package main

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"oxturn/drawing/web/preview"
	"oxturn/layout/job"
)

// A watched is a job that oxturn watch looks at while a test runs.
type watched struct {
	t    *testing.T
	job  string // its file
	url  string
	stop func() int // ends it as Ctrl-C does and returns the exit code
}

// startWatch watches the tiny job in a folder of its own.
func startWatch(t *testing.T, flags ...string) *watched {
	t.Helper()
	w := &watched{t: t, job: filepath.Join(t.TempDir(), "nook.toml")}
	w.save(tinyJob)
	ctx, cancel := context.WithCancel(context.Background())
	out, in := io.Pipe()
	done := make(chan int, 1)
	go func() {
		done <- Run(ctx, append([]string{"watch", w.job, "--no-open", "--poll", "20ms"}, flags...),
			strings.NewReader(""), in, io.Discard)
		in.Close()
	}()
	w.stop = func() int {
		cancel()
		code := <-done
		done <- code
		return code
	}
	t.Cleanup(func() { w.stop() })
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	w.url = strings.TrimSpace(line)
	return w
}

func (w *watched) save(text string) {
	w.t.Helper()
	if err := os.WriteFile(w.job, []byte(text), 0o644); err != nil {
		w.t.Fatal(err)
	}
}

// testPatience is how long a test waits for what must come: long, as other work on the
// machine or the race detector may hold it up, and as only a failure takes all of it.
const testPatience = 3 * time.Minute

// until waits for the page's state to be as wanted.
func (w *watched) until(what string, want func(preview.State) bool) preview.State {
	w.t.Helper()
	var st preview.State
	for end := time.Now().Add(testPatience); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		answer, err := http.Get(w.url + "state")
		if err != nil {
			w.t.Fatal(err)
		}
		err = json.NewDecoder(answer.Body).Decode(&st)
		answer.Body.Close()
		if err == nil && want(st) {
			return st
		}
	}
	w.t.Fatalf("%s: never; the state is %d sheets, stale %v, problems %+v", what, len(st.Sheets), st.Stale, st.Problems)
	return st
}

func drawn(st preview.State) bool { return len(st.Sheets) > 0 && !st.Stale && len(st.Problems) == 0 }

// TestWatch edits, breaks, mends, replaces, half-saves, deletes and recreates
// the job: the page's state follows each time.
func TestWatch(t *testing.T) {
	w := startWatch(t)
	first := w.until("drawn at once", drawn)
	if len(first.Tables) != 3 || len(first.Tables[0].Rows) == 0 || len(first.Cables) != 1 ||
		first.PDFName != "nook.pdf" {
		t.Errorf("tables %d, cables %+v, PDF %q", len(first.Tables), first.Cables, first.PDFName)
	}
	w.save(strings.Replace(tinyJob, "pitch", "ptich", 1))
	st := w.until("broken", func(st preview.State) bool { return st.Stale && len(st.Problems) > 0 })
	if p := st.Problems[0]; p.Place != w.job+":4:1" || p.Line != "ptich = 30" || p.Start != 0 || p.Length != 5 ||
		p.Hint != "did you mean pitch?" {
		t.Errorf("problem %+v", p)
	}
	if len(st.Sheets) != len(first.Sheets) {
		t.Error("the last good drawing is gone")
	}
	w.save(strings.Replace(tinyJob, "Nook", "Niche", 1))
	w.until("mended", func(st preview.State) bool {
		return drawn(st) && strings.HasSuffix(st.Sheets[0].Title,
			"Niche")
	})

	w.replace(tinyJob)
	w.until("replaced by another file", func(st preview.State) bool {
		return drawn(st) &&
			strings.HasSuffix(st.Sheets[0].Title, "Nook")
	})

	if err := os.Remove(w.job); err != nil {
		t.Fatal(err)
	}
	w.until("deleted", func(st preview.State) bool {
		return st.Stale && strings.Contains(st.Problems[0].Message, "there is no file")
	})
	w.save("")
	w.save(tinyJob)
	w.until("recreated", drawn)
	if code := w.stop(); code != exitInterrupted {
		t.Errorf("exit code %d", code)
	}
}

// replace saves as many editors do: a new file is moved into the old one's
// place, here with its size and time.
func (w *watched) replace(text string) {
	w.t.Helper()
	info, err := os.Stat(w.job)
	if err != nil {
		w.t.Fatal(err)
	}
	other := w.job + "~new"
	if err := os.WriteFile(other, []byte(text), 0o644); err != nil {
		w.t.Fatal(err)
	}
	if err := os.Chtimes(other, info.ModTime(), info.ModTime()); err != nil {
		w.t.Fatal(err)
	}
	if err := os.Rename(other, w.job); err != nil {
		w.t.Fatal(err)
	}
}

// TestWatchCatalogue draws again when the catalogue comes, and writes the
// files of each good drawing.
func TestWatchCatalogue(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	w := startWatch(t, "-o", out)
	w.until("drawn", drawn)
	i := strings.Index(tinyJob, "[[cable]]")
	j := strings.Index(tinyJob, "[[room]]")
	w.save("catalogue = \"cables.toml\"\n" + tinyJob[:i] + tinyJob[j:])
	w.until("no catalogue", func(st preview.State) bool {
		return st.Stale && strings.Contains(st.Problems[0].Message, "catalogue")
	})
	if err := os.WriteFile(filepath.Join(filepath.Dir(w.job), "cables.toml"), []byte("units = \"mm\"\n"+tinyJob[i:j]),
		0o644); err != nil {
		t.Fatal(err)
	}
	w.until("catalogue there", drawn)
	if _, err := os.Stat(filepath.Join(out, "nook.pdf")); err != nil {
		t.Error(err)
	}
}

// TestHalfSaved looks at a file that is empty for a moment and then grows in
// steps, and at one that is gone and comes back.
func TestHalfSaved(t *testing.T) {
	name := filepath.Join(t.TempDir(), "job.toml")
	write := func(text string) {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	w := &watcher{names: []string{name}}
	looks := func(n int, what string) {
		for i := range n {
			if w.rested(w.look()) {
				t.Fatalf("%s: taken for whole at look %d", what, i+1)
			}
		}
	}
	taken := func(what string) {
		gone, cancel := context.WithCancel(context.Background())
		defer cancel()
		if !w.changed(gone, time.Millisecond) {
			t.Fatalf("%s: not taken", what)
		}
		looks(2*mostMisses, what+", and unchanged since")
	}
	write("a")
	taken("at once")
	write("")
	looks(mostMisses, "empty")
	for i := range 10 {
		write(strings.Repeat("b", i+2))
		looks(1, "growing")
	}
	taken("grown")
	if err := os.Remove(name); err != nil {
		t.Fatal(err)
	}
	looks(mostMisses, "gone")
	write("c")
	looks(1, "back")
	taken("back")
	os.Remove(name)
	taken("gone for good")
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	if w.changed(ended, time.Millisecond) {
		t.Error("it returned though nothing changed")
	}
}

// TestFollow reads a catalogue with a job: it is no change that it was read, but
// one when it is saved.
func TestFollow(t *testing.T) {
	dir := t.TempDir()
	name, catalogue := filepath.Join(dir, "job.toml"), filepath.Join(dir, "cables.toml")
	for _, n := range []string{name, catalogue} {
		if err := os.WriteFile(n, []byte("a"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	w := &watcher{names: []string{name}}
	w.changed(context.Background(), time.Millisecond)
	o := &opened{name: name, open: opener(name)}
	for _, n := range []string{"cables.toml", "missing.toml", "cables.toml"} {
		o.read(n)
	}
	w.follow(o.stamps())
	for range 2 * mostMisses {
		if w.rested(w.look()) {
			t.Fatal("reading was taken for a change")
		}
	}
	if err := os.WriteFile(catalogue, []byte("ab"), 0o644); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if w.rested(w.look()) {
			t.Error("a change is drawn before it has rested")
		}
	}
	if len(w.look()) != 3 {
		t.Errorf("a file that is not there is waited for: %v", w.look())
	}
	for range mostMisses {
		w.rested(w.look())
	}
	if !w.rested(w.look()) {
		t.Error("the saved catalogue is no change")
	}
	w.follow(nil)
	if len(w.look()) != 1 {
		t.Errorf("still followed: %v", w.look())
	}
}

func TestLineOf(t *testing.T) {
	text := "\ufeffunits = \"mm\"\r\nname = \"Köche\" # ü\r\n"
	at := strings.Index(text, "\"K")
	line, start, length := lineOf(text, spanAt(at, len("\"Köche\"")))
	if line != "name = \"Köche\" # ü" || start != 7 || length != 7 {
		t.Errorf("%q %d %d", line, start, length)
	}
	line, start, length = lineOf(text, spanAt(3, 5))
	if line != "units = \"mm\"" || start != 0 || length != 5 {
		t.Errorf("%q %d %d", line, start, length)
	}
}

func spanAt(start, length int) job.Span {
	return job.Span{File: "job.toml", Start: start, End: start + length}
}
