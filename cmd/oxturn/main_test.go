package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// asCommand makes the test program behave as oxturn, for tests that kill it.
const asCommand = "OXTURN_TEST_AS_COMMAND"

func TestMain(m *testing.M) {
	if os.Getenv(asCommand) != "" {
		main()
	}
	testscript.Main(m, map[string]func(){"oxturn": main})
}

// TestScripts runs the command the way a user does: testdata/script.
func TestScripts(t *testing.T) {
	jobs, err := filepath.Abs("../../testdata/jobs")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("JOBS", jobs)
			e.Setenv("NO_COLOR", "")
			e.Setenv("GITHUB_ACTIONS", "")
			return os.WriteFile(filepath.Join(e.WorkDir, "tiny.toml"), []byte(tinyJob), 0o644)
		},
		Condition: have,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits, "xml": parseXML, "pdf": checkPDF, "count": countFiles, "sametree": sameTree,
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

// exits runs a command and compares its exit code: exits 2 oxturn draw.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var ee *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &ee) {
		got = ee.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
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
