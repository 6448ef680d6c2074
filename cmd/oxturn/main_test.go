package main

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// asCommand makes the test program behave as oxturn, for tests that kill it.
const asCommand = "OXTURN_TEST_AS_COMMAND"

func TestMain(m *testing.M) {
	if os.Getenv(asCommand) != "" {
		main()
	}
	spendMemory()
	testscript.Main(m, map[string]func(){"oxturn": main})
}

// TestScripts runs the command the way a user does: testdata/script.
func TestScripts(t *testing.T) {
	jobs, err := filepath.Abs("../../testdata/jobs")
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("NO_COLOR", "")
	t.Setenv("GITHUB_ACTIONS", "")
	scripts, err := filepath.Abs("testdata/script") // some lines run in another folder
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: scripts,
		Setup: func(e *testscript.Env) error {
			e.Setenv("JOBS", jobs)
			e.Setenv("NO_COLOR", "")
			e.Setenv("GITHUB_ACTIONS", "")
			return os.WriteFile(filepath.Join(e.WorkDir, "tiny.toml"), []byte(tinyJob), 0o644)
		},
		Condition: have,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"runs": runs, "exits": exits, "setfrom": setFrom, "xml": parseXML, "pdf": checkPDF, "count": countFiles,
			"sametree": sameTree,
		},
	})
}

// tinyJob is a whole job that is drawn in a moment.
const tinyJob = `units = "mm"

[membrane]
pitch = 30

[[cable]]
id = "C10"
volts = 120
watts = 120
length = "10 m"
ohms = 120
lead = "3 m"

[[room]]
name = "Nook"
corners = [[0, 0], [1200, 0], [1200, 1000], [0, 1000]]
cables = ["C10"]

[room.thermostat]
at = [600, 0]
`

// have is the condition [have:PROGRAM]. Where all tools are required a missing
// one is an error.
func have(cond string) (bool, error) {
	name, ok := strings.CutPrefix(cond, "have:")
	if !ok {
		return false, fmt.Errorf("unknown condition %s", cond)
	}
	_, err := exec.LookPath(name)
	if err != nil && os.Getenv("OXTURN_REQUIRE_TOOLS") != "" {
		return false, err
	}
	return err == nil, nil
}

// runs is exec of oxturn, in this process: runs oxturn check a.toml.
func runs(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 || args[0] != "oxturn" {
		ts.Fatalf("usage: runs oxturn VERB...")
	}
	if code := here(ts, args[1:]); code != exitOK {
		ts.Fatalf("exit code %d", code)
	}
}

// exits runs a command and compares its exit code: exits 2 oxturn draw, in this process,
// or exits 2 exec oxturn draw, where the environment or the standard input is another.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	switch args[1] {
	case "oxturn":
		got = here(ts, args[2:])
	case "exec":
		got = there(ts, args[2:])
	default:
		got = there(ts, args[1:])
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// setFrom sets a variable of the script to the text of a file: setfrom CODE code.
func setFrom(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: setfrom NAME FILE")
	}
	ts.Setenv(args[0], strings.TrimSpace(ts.ReadFile(args[1])))
}

// scriptFolder is held by the script whose folder this process is in.
var scriptFolder sync.Mutex

// here runs oxturn in this process, which saves starting one for each line of a script.
func here(ts *testscript.TestScript, args []string) (code int) {
	scriptFolder.Lock()
	defer scriptFolder.Unlock()
	back, err := os.Getwd()
	ts.Check(err)
	ts.Check(os.Chdir(ts.MkAbs(".")))
	defer os.Chdir(back)
	return Run(context.Background(), args, strings.NewReader(""), ts.Stdout(), ts.Stderr())
}

// there runs a command as a process of its own.
func there(ts *testscript.TestScript, args []string) int {
	err := ts.Exec(args[0], args[1:]...)
	var ee *exec.ExitError
	if errors.As(err, &ee) {
		return ee.ExitCode()
	}
	ts.Check(err)
	return 0
}

// parseXML reads files as XML to their ends.
func parseXML(ts *testscript.TestScript, _ bool, args []string) {
	for _, name := range matches(ts, args) {
		d := xml.NewDecoder(bytes.NewReader([]byte(ts.ReadFile(name))))
		for {
			_, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				ts.Fatalf("%s: %v", name, err)
			}
		}
	}
}

// checkPDF has qpdf look at files; it passes them where there is no qpdf.
func checkPDF(ts *testscript.TestScript, _ bool, args []string) {
	if _, err := exec.LookPath("qpdf"); err != nil {
		if os.Getenv("OXTURN_REQUIRE_TOOLS") != "" {
			ts.Fatalf("qpdf is not installed")
		}
		ts.Logf("qpdf is not installed: PDF not checked")
		return
	}
	for _, name := range matches(ts, args) {
		ts.Check(ts.Exec("qpdf", "--check", name))
	}
}

// countFiles compares how many files match: count 3 out/*.svg.
func countFiles(ts *testscript.TestScript, _ bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	found, err := filepath.Glob(ts.MkAbs(args[1]))
	ts.Check(err)
	if len(found) != want {
		ts.Fatalf("%d files %s, want %d: %v", len(found), args[1], want, found)
	}
}

// matches expands patterns; none found is a failure.
func matches(ts *testscript.TestScript, patterns []string) []string {
	var out []string
	for _, p := range patterns {
		found, err := filepath.Glob(ts.MkAbs(p))
		ts.Check(err)
		if len(found) == 0 {
			ts.Fatalf("nothing matches %s", p)
		}
		out = append(out, found...)
	}
	return out
}

// sameTree compares two folders byte for byte, hidden files too.
func sameTree(ts *testscript.TestScript, _ bool, args []string) {
	a, b := contents(ts, args[0]), contents(ts, args[1])
	for name, data := range a {
		if other, ok := b[name]; !ok || other != data {
			ts.Fatalf("%s differs between %s and %s", name, args[0], args[1])
		}
	}
	if len(a) != len(b) || len(a) == 0 {
		ts.Fatalf("%d files in %s, %d in %s", len(a), args[0], len(b), args[1])
	}
}

func contents(ts *testscript.TestScript, dir string) map[string]string {
	out := map[string]string{}
	entries, err := os.ReadDir(ts.MkAbs(dir))
	ts.Check(err)
	for _, e := range entries {
		out[e.Name()] = ts.ReadFile(filepath.Join(ts.MkAbs(dir), e.Name()))
	}
	return out
}
