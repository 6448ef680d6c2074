package main

import (
	"bytes"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"oxturn/layout/skip"
)

// A shared is a buffer that two goroutines use.
type shared struct {
	mu sync.Mutex
	bytes.Buffer
}

func (s *shared) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.Buffer.Write(p)
}

func (s *shared) text() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.Buffer.String()
}

// TestWaitLine comes within half a second, makes room for what is printed
// meanwhile, and is gone at the end, whatever else was told.
func TestWaitLine(t *testing.T) {
	var out shared
	l := newWaitLine(&out, "a\x1bjob")
	for begun := time.Now(); out.text() == ""; time.Sleep(5 * time.Millisecond) {
		if time.Since(begun) > 10*time.Second {
			t.Fatal("nothing is told")
		}
	}
	l.tell(strings.Repeat("long ", 40))
	l.beside(func() { out.Write([]byte("a result\n")) })
	l.tell("more")
	l.end()
	got := out.text()
	for i, line := range strings.Split(got, "\r\x1b[K") {
		if n := len([]rune(line)); n > 79 {
			t.Errorf("part %d has %d letters: %q", i, n, line)
		}
	}
	if !strings.HasPrefix(got, "\r\x1b[Ka\\x1bjob") || !strings.Contains(got, "\r\x1b[Ka result\n\r\x1b[Kmore") ||
		!strings.HasSuffix(got, "\r\x1b[K") {
		t.Errorf("%q", got)
	}
	l.write()
	if out.text() != got {
		t.Error("told after the end")
	}
	if waitBefore > 300*time.Millisecond {
		t.Error("half a second is promised, and starting takes some of it")
	}
}

// TestNothingIsToldToAPipe: what is not a terminal never sees the line.
func TestNothingIsToldToAPipe(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	defer w.Close()
	for _, to := range []*console{{Err: w}, {Err: &bytes.Buffer{}}} {
		if l := waiting(to, "job"); l != nil {
			t.Error("told")
		}
	}
	var none *waitLine
	printed := false
	none.tell("more")
	none.beside(func() { printed = true })
	none.end()
	if !printed {
		t.Error("what is printed beside no line is lost")
	}
}

// TestWaitingOnATerminal has script(1) make one: the line is there while three pairs of
// cables are laid in a hall of 90 m², and wiped before the table.
func TestWaitingOnATerminal(t *testing.T) {
	program, err := exec.LookPath("script")
	if err != nil {
		skip.Test(t, skip.NoProgram, err)
	}
	dir := t.TempDir()
	if err := os.WriteFile(dir+"/hall.toml", []byte(slowHall), 0o644); err != nil {
		t.Fatal(err)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, "-qec", self+" choose hall.toml", os.DevNull)
	cmd.Dir, cmd.Env = dir, append(os.Environ(), asCommand+"=1", "TERM=xterm")
	got, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, got)
	}
	if !regexp.MustCompile(`^(\r\x1b\[K[^\r\n]+)+\r\x1b\[KHall: `).Match(got) {
		t.Errorf("%.300q", got)
	}
}

const slowHall = `units = "mm"
[membrane]
pitch = 30
[spacing]
widest = 6
[[room]]
name = "Hall"
corners = [[0, 0], [10000, 0], [10000, 7000], [7000, 7000], [7000, 10000], [0, 10000]]
[room.thermostat]
wall = "A"
from = "1 m"
[[cable]]
id = "L"
volts = 230
length = "440 m"
watts = 5200
lead = "8 m"
[[cable]]
id = "K"
volts = 230
length = "400 m"
watts = 4700
lead = "8 m"
`
