package main

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"oxturn/layout/language"
	"oxturn/layout/skip"
	"oxturn/symbols"
)

// asked watches a job with an answer to the question of whether others may follow, and
// returns what it has said once that holds.
func asked(t *testing.T, answer string, all []lanAddress, until func(string) bool) (said *shared) {
	t.Helper()
	return askedIn(t, language.English, answer, all, until)
}

func askedIn(t *testing.T, l language.Language, answer string, all []lanAddress,
	until func(string) bool) (said *shared) {
	t.Helper()
	name := filepath.Join(t.TempDir(), "nook.toml")
	if err := os.WriteFile(name, []byte(tinyJob), 0o644); err != nil {
		t.Fatal(err)
	}
	said = &shared{}
	s := &session{commandLine: &commandLine{console: &console{In: strings.NewReader(answer), Out: io.Discard,
		Err: said, Language: l}, jobFlags: jobFlags{timeLimit: noLimit}},
		name: name, poll: 20 * time.Millisecond, reached: all}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan int, 1)
	go func() { done <- s.serve(ctx, &watchOrder{lan: true}, false) }()
	t.Cleanup(func() { cancel(); <-done })
	for end := time.Now().Add(testPatience); !until(said.text()); time.Sleep(10 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("it says\n%s", said.text())
		}
	}
	return said
}

// beyond stands for a network: the loopback interface has addresses beside its usual one.
var beyond = []lanAddress{{"wlan0", "127.0.0.2"}}

var invitation = regexp.MustCompile(`on the phone: (http://127\.0\.0\.[23]:\d+/join/[A-Z2-7]{26})\n`)

// Without a yes nobody beyond this machine is let in.
func TestLANAsksFirst(t *testing.T) {
	for _, answer := range []string{"", "\n", "n\n", "no\n", "yesterday\n", "2\n"} {
		said := asked(t, answer, beyond, func(said string) bool { return strings.Contains(said, "drawn in") }).text()
		if !strings.Contains(said, "is not encrypted") || !strings.Contains(said, "Listen at 127.0.0.2? [y/N]") ||
			!strings.Contains(said, "nobody beyond this machine is let in") || invitation.MatchString(said) {
			t.Errorf("the answer %q: %s", answer, said)
		}
	}
	two := append(beyond, lanAddress{"eth0", "127.0.0.3"})
	said := asked(t, "y\n", two, func(said string) bool { return strings.Contains(said, "drawn in") }).text()
	if invitation.MatchString(said) {
		t.Errorf("it was not said at which of two addresses: %s", said)
	}
	said = asked(t, "2\n", two, invitation.MatchString).text()
	if !strings.Contains(said, "on the phone: http://127.0.0.3:") {
		t.Errorf("the second of two addresses: %s", said)
	}
}

// The question is put in the reader's language, and a yes of that language is one.
func TestLANAsksInEachLanguage(t *testing.T) {
	for l, want := range map[language.Language][4]string{
		language.Spanish: {"s", "no va cifrado", "en el teléfono: ", "[s/N]"},
		language.French:  {"oui", "pas chiffré", "sur le téléphone : ", "[o/N]"},
		language.German:  {"j", "nicht verschlüsselt", "auf dem Telefon: ", "[j/N]"},
	} {
		said := askedIn(t, l, want[0]+"\n", beyond, func(said string) bool {
			return strings.Contains(said, want[2]+"http://127.0.0.2:")
		}).text()
		if !strings.Contains(said, want[1]) || !strings.Contains(said, want[3]) {
			t.Errorf("%s: %s", l.Tag(), said)
		}
	}
}

// The code lets the device in that reads it, and the next code is another.
func TestLANLetsIn(t *testing.T) {
	said := asked(t, "y\n", beyond, func(said string) bool {
		return strings.Contains(said, "drawn in") && invitation.MatchString(said)
	})
	address := invitation.FindStringSubmatch(said.text())[1]
	base, _, _ := strings.Cut(address, "/join/")
	answer, err := http.Get(base + "/state")
	if err != nil || answer.StatusCode != http.StatusForbidden {
		t.Fatalf("without a code: %v %v", answer, err)
	}
	answer.Body.Close()
	r, _ := http.NewRequest("POST", address, nil)
	joined, err := http.DefaultTransport.RoundTrip(r)
	if err != nil || joined.StatusCode != http.StatusSeeOther || len(joined.Cookies()) != 1 {
		t.Fatalf("with it: %v %v", joined, err)
	}
	joined.Body.Close()
	r, _ = http.NewRequest("GET", base+"/state", nil)
	r.AddCookie(joined.Cookies()[0])
	answer, err = http.DefaultClient.Do(r)
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Fatalf("inside: %v %v", answer, err)
	}
	body, _ := io.ReadAll(answer.Body)
	answer.Body.Close()
	if !strings.Contains(string(body), "nook.toml") {
		t.Errorf("inside: %s", body)
	}
	for end := time.Now().Add(testPatience); len(invitation.FindAllString(said.text(), -1)) < 2; {
		if time.Now().After(end) {
			t.Fatalf("there is no second code: %s", said.text())
		}
		time.Sleep(10 * time.Millisecond)
	}
	all := invitation.FindAllString(said.text(), -1)
	if !strings.Contains(said.text(), "let in: 127.0.0.1\n") || all[0] == all[1] {
		t.Errorf("it says %s", said.text())
	}
}

func TestLANWithoutANetwork(t *testing.T) {
	var said bytes.Buffer
	at := &console{In: strings.NewReader("y\n"), Out: io.Discard, Err: &said}
	s := &session{commandLine: &commandLine{console: at}}
	if code := s.serve(context.Background(), &watchOrder{lan: true}, false); code != exitUsage ||
		!strings.Contains(said.String(), "no address in a network") {
		t.Errorf("%d: %s", code, &said)
	}
}

// A reader of codes reads what the terminal shows, in either way (zbarimg).
func TestTerminalCode(t *testing.T) {
	const text = "http://192.168.178.123:54321/join/ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	rows, err := symbols.CodeRows(text)
	if err != nil {
		t.Fatal(err)
	}
	for _, colours := range []bool{false, true} {
		shown := regexp.MustCompile("\x1b[^m]*m").ReplaceAllString(terminalCode(rows, colours), "")
		lines := strings.Split(strings.TrimSuffix(shown, "\n"), "\n")
		const cell = 4
		m := image.NewGray(image.Rect(0, 0, cell*len([]rune(lines[0])), 2*cell*len(lines)))
		for y, line := range lines {
			for x, r := range []rune(line) {
				lit := map[rune][2]bool{'█': {true, true}, '▀': {true, false}, '▄': {false, true}, ' ': {}}[r]
				for half, on := range lit {
					if on == colours { // ink is black where colours are given
						continue
					}
					for i := range cell * cell {
						m.SetGray(x*cell+i%cell, (2*y+half)*cell+i/cell, color.Gray{Y: 255})
					}
				}
			}
		}
		if widest := len([]rune(lines[0])); widest > 80 {
			t.Errorf("it is %d columns wide", widest)
		}
		if _, err := exec.LookPath("zbarimg"); err != nil {
			skip.Test(t, skip.NoProgram, err)
		}
		name := filepath.Join(t.TempDir(), "code.png")
		var b bytes.Buffer
		if err := png.Encode(&b, m); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		read, err := exec.Command("zbarimg", "-q", "--raw", name).Output()
		if err != nil || strings.TrimSpace(string(read)) != text {
			t.Errorf("with colours %v it reads %q: %v", colours, read, err)
		}
	}
}
