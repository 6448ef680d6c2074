package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestInterrupted stops a run of many jobs with the signal of Ctrl-C: exit
// code 130 at once, whole files, no litter.
func TestInterrupted(t *testing.T) {
	dir := t.TempDir()
	jobs, out := filepath.Join(dir, "jobs"), filepath.Join(dir, "out")
	if err := os.Mkdir(jobs, 0o777); err != nil {
		t.Fatal(err)
	}
	for i := range 40 {
		if err := os.WriteFile(filepath.Join(jobs, fmt.Sprintf("j%02d.toml", i)), []byte(tinyJob), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	p := exec.Command(os.Args[0], "draw", jobs, "-o", out)
	p.Env = append(os.Environ(), asCommand+"=1")
	var said strings.Builder
	p.Stderr = &said
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	waitForFile(t, filepath.Join(out, "j02.pdf"))
	stopped := time.Now()
	p.Process.Signal(syscall.SIGINT)
	p.Wait()
	if code := p.ProcessState.ExitCode(); code != exitInterrupted {
		t.Errorf("exit code %d, want %d\n%s", code, exitInterrupted, said.String())
	}
	if d := time.Since(stopped); d > 5*time.Second {
		t.Errorf("it took %v to stop", d)
	}
	if !strings.HasSuffix(said.String(), "oxturn: interrupted; files are whole, new or as they were\n") {
		t.Errorf("last words: %q", said.String())
	}
	whole(t, out)
}

func waitForFile(t *testing.T, name string) {
	t.Helper()
	for end := time.Now().Add(30 * time.Second); time.Now().Before(end); time.Sleep(time.Millisecond) {
		if _, err := os.Stat(name); err == nil {
			return
		}
	}
	t.Fatalf("%s never came", name)
}

// whole compares the files of every job, all of which are copies of one.
func whole(t *testing.T, out string) {
	t.Helper()
	entries, err := os.ReadDir(out)
	if err != nil {
		t.Fatal(err)
	}
	first := map[string]string{} // by what the name has after the job's
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(out, e.Name()))
		if err != nil {
			t.Fatalf("litter: %v", err)
		}
		suffix := e.Name()[len("j00"):]
		if first[suffix] == "" {
			first[suffix] = string(data)
		}
		if first[suffix] != string(data) {
			t.Errorf("%s is not whole", e.Name())
		}
	}
}
