package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"oxturn/layout/skip"
)

var builtPage = flag.String("built", "", "a page that is built already, to be tried instead of a new one")

// workshop is where what all tests try is built; it goes when they have ended.
var workshop string

func TestMain(m *testing.M) {
	var err error
	if workshop, err = os.MkdirTemp("", "dist"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	code := m.Run()
	endBrowser()
	os.RemoveAll(workshop)
	os.Exit(code)
}

// built is the page and the command, made once, in the module's own folder.
var built = sync.OnceValues(func() (site, error) {
	s := site{page: *builtPage, command: filepath.Join(workshop, "oxturn")}
	if out, err := exec.Command("go", "build", "-o", s.command, "./cmd/oxturn").CombinedOutput(); err != nil {
		return s, fmt.Errorf("%w\n%s", err, out)
	}
	if s.page != "" {
		return s, nil
	}
	e, err := buildEngine()
	if err != nil {
		return s, err
	}
	s.page = filepath.Join(workshop, "oxturn.html")
	return s, onePage(e, s.page)
})

// builtFor goes to the checkout, where its page and command are built for a test that takes long, for
// it does so much.
func builtFor(t *testing.T, does string) site {
	t.Helper()
	if os.Getenv("OXTURN_REQUIRE_TOOLS") != "1" {
		skip.Test(t, skip.Long, does)
	}
	t.Chdir("../..")
	s, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return s
}
