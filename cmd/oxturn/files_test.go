package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"oxturn/layout/skip"
)

// set is a job's files, all filled with one letter.
func set(letter byte) []file {
	var out []file
	for i := range 5 {
		out = append(out, file{fmt.Sprintf("job-%d.svg", i), bytes.Repeat([]byte{letter}, 200<<10)})
	}
	return out
}

// letters returns the first byte of each file in a folder, and fails for one
// that is not whole. Staging folders count as "litter".
func letters(t *testing.T, dir string) (got string, litter int) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), stagePrefix) {
			litter++
			continue
		}
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		if len(data) != 200<<10 || strings.Trim(string(data), string(data[:1])) != "" {
			t.Fatalf("%s is not whole: %d bytes", e.Name(), len(data))
		}
		got += string(data[:1])
	}
	return got, litter
}

// TestWriterProcess is no test: it is the program that TestKilled kills. It
// writes without end, a new letter each time.
func TestWriterProcess(t *testing.T) {
	dir := os.Getenv("OXTURN_TEST_WRITE_TO")
	if dir == "" {
		skip.Test(t, skip.OtherProcess, "TestKilled")
	}
	for i := 0; ; i++ {
		o := folder{dir: dir}
		if err := o.write(set('a' + byte(i%26))); err != nil {
			t.Fatal(err)
		}
	}
}

// TestKilled kills a writing process at a dozen moments: what is in the folder
// is whole each time, and the next run leaves no litter.
func TestKilled(t *testing.T) {
	dir := t.TempDir()
	if err := (&folder{dir: dir}).write(set('A')); err != nil {
		t.Fatal(err)
	}
	littered := 0
	for i := range 12 {
		p := exec.Command(os.Args[0], "-test.run=^TestWriterProcess$")
		p.Env = append(os.Environ(), "OXTURN_TEST_WRITE_TO="+dir)
		if err := p.Start(); err != nil {
			t.Fatal(err)
		}
		waitForStage(t, dir)
		time.Sleep(time.Duration(i) * 500 * time.Microsecond)
		p.Process.Kill()
		p.Wait()
		got, litter := letters(t, dir)
		if len(got) != 5 {
			t.Fatalf("%d files after a kill, want 5", len(got))
		}
		littered += litter
		if err := (&folder{dir: dir}).write(set('A')); err != nil {
			t.Fatal(err)
		}
		if got, litter := letters(t, dir); got != "AAAAA" || litter != 0 {
			t.Fatalf("after the next run: files %s, %d staging folders", got, litter)
		}
	}
	if littered == 0 {
		t.Error("no kill came in the middle of writing, so this test tried nothing")
	}
}

// waitForStage waits until a process is in the middle of writing.
func waitForStage(t *testing.T, dir string) {
	t.Helper()
	for end := time.Now().Add(testPatience); time.Now().Before(end); time.Sleep(200 * time.Microsecond) {
		if found, _ := filepath.Glob(filepath.Join(dir, stagePrefix+"*")); len(found) > 0 {
			return
		}
	}
	t.Fatal("the process never began to write")
}

// TestTwoRuns writes two jobs of one name into one folder at once: the files
// of one of them are there in the end, never a mixture.
func TestTwoRuns(t *testing.T) {
	dir := t.TempDir()
	for range 10 {
		var wg sync.WaitGroup
		for _, letter := range []byte("xyz") {
			wg.Go(func() {
				if err := (&folder{dir: dir}).write(set(letter)); err != nil {
					t.Error(err)
				}
			})
		}
		wg.Wait()
		if got, litter := letters(t, dir); got != strings.Repeat(got[:1], 5) || litter != 0 {
			t.Fatalf("files %s, %d staging folders", got, litter)
		}
	}
}

// TestUnchangedFilesStay leaves files with the same bytes alone, so that what
// watches them is not woken.
func TestUnchangedFilesStay(t *testing.T) {
	dir := t.TempDir()
	o := &folder{dir: dir}
	if err := o.write(set('A')); err != nil {
		t.Fatal(err)
	}
	old := time.Date(2020, 1, 2, 3, 4, 5, 0, time.UTC)
	name := filepath.Join(dir, "job-0.svg")
	if err := os.Chtimes(name, old, old); err != nil {
		t.Fatal(err)
	}
	if err := o.write(set('A')); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(name); err != nil || !info.ModTime().Equal(old) {
		t.Errorf("an unchanged file was written again: %v %v", info.ModTime(), err)
	}
}

// TestNamesStayInTheFolder tries names that lead elsewhere.
func TestNamesStayInTheFolder(t *testing.T) {
	for _, name := range []string{"../x", "/tmp/x", "a/b", `a\b`, "..", ".", "", "a\nb", "a\x00b",
		strings.Repeat("n", 300)} {
		dir := filepath.Join(t.TempDir(), "out")
		if err := (&folder{dir: dir}).write([]file{{name, []byte("x")}}); err == nil {
			t.Errorf("%q was written", name)
		}
		if _, err := os.Stat(dir); err == nil {
			t.Errorf("%q: the folder was made", name)
		}
	}
	for path, want := range map[string]string{
		"a/bath.toml": "bath", "..": "job", "-": "job", ".toml": "job", "bath.v2.toml": "bath.v2", "bath": "bath",
		"a\nb.toml": "job", "/": "job",
	} {
		if got := baseName(path); got != want {
			t.Errorf("baseName(%q) = %q, want %q", path, got, want)
		}
	}
}

// TestClosedFolder writes nothing once a run is interrupted.
func TestClosedFolder(t *testing.T) {
	o := &folder{dir: filepath.Join(t.TempDir(), "out")}
	o.close()
	if err := o.write(set('A')); err == nil {
		t.Error("written after an interruption")
	}
}
