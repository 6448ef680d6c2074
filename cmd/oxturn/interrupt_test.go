package main

import (
	"context"
	"fmt"
	"io"
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

// TestInterruptedWaiting stops verbs that wait for a job that nobody writes.
func TestInterruptedWaiting(t *testing.T) {
	for _, args := range [][]string{{"draw", "-"}, {"check", "-"}, {"choose", "-"}, {"compare", "-", "-"}} {
		ctx, stop := context.WithCancel(context.Background())
		never, _ := io.Pipe()
		code := make(chan int)
		go func() { code <- Run(ctx, args, never, io.Discard, io.Discard) }()
		stop()
		select {
		case got := <-code:
			if got != exitInterrupted {
				t.Errorf("%v: exit code %d, want %d", args, got, exitInterrupted)
			}
		case <-time.After(10 * time.Second):
			t.Errorf("%v: it waits on", args)
		}
	}
}

// TestOutputLost has a full device at the other end of verbs that print.
func TestOutputLost(t *testing.T) {
	full := writerFunc(func([]byte) (int, error) { return 0, syscall.ENOSPC })
	for _, args := range [][]string{{"help", "units"}, {"explain", "W103"}, {"version"}, {"schema"},
		{"completion", "zsh"},
		{"probe", "../../testdata/jobs/bath.toml", "--from", "A 2ft", "--from", "B 14in"}} {
		var said strings.Builder
		if code := Run(context.Background(), args, nil, full, &said); code != exitUsage ||
			!strings.Contains(said.String(), "no space left") {
			t.Errorf("%v: exit code %d, said %q", args, code, said.String())
		}
	}
}

type writerFunc func([]byte) (int, error)

func (f writerFunc) Write(p []byte) (int, error) { return f(p) }

func waitForFile(t *testing.T, name string) {
	t.Helper()
	for end := time.Now().Add(testPatience); time.Now().Before(end); time.Sleep(time.Millisecond) {
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
		if suffix == ".pdf" { // it has its job's name in it
			if _, err := unpacked(data); err != nil {
				t.Errorf("%s is not whole: %v", e.Name(), err)
			}
			continue
		}
		if first[suffix] == "" {
			first[suffix] = string(data)
		}
		if first[suffix] != string(data) {
			t.Errorf("%s is not whole", e.Name())
		}
	}
}
