package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// call runs a command line in this process.
func call(t *testing.T, args ...string) (out, err string, code int) {
	t.Helper()
	var o, e bytes.Buffer
	code = Run(context.Background(), args, strings.NewReader(""), &o, &e)
	return o.String(), e.String(), code
}

// jobFile writes a job into a folder of the test's own and returns its name.
func jobFile(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return name
}

// TestBrokenJobs breaks a job the ways newcomers do. Each time the message
// must say where, and what to type.
func TestBrokenJobs(t *testing.T) {
	for _, b := range []struct{ what, old, new, place, says, hint string }{
		{"a key mistyped", "pitch = 30", "ptich = 30", ":4:1:", `unknown key "ptich" in [membrane]`,
			"did you mean pitch?"},
		{"no units", "units = \"mm\"\n", "", ":3:9:", "30 has no unit",
			`write units = "mm" or units = "in" at the top`},
		{"a cable that is not there", `["C10"]`, `["C01"]`, ":17:11:", `asks for cable "C01"`, `did you mean "C10"?`},
		{"a quote left open", `"Nook"`, `"Nook`, ":15:8:", "the quoted text is never closed", "write name = \"Nook\""},
		{"a cable too long", "watts = 120\nlength = \"10 m\"\nohms = 120", "watts = 360\nlength = \"30 m\"\nohms = 40",
			":17:10:", "this zone takes 7.9 m to 16.2 m of cable", "add one to [[cable]]"},
		{"a box in the room's middle", "[600, 0]", "[600, 500]", ":20:6:", "is on no wall",
			`write wall = "A" and from = "600 mm"`},
		{"corners out of order", "[1200, 1000], [0, 1000]", "[0, 1000], [1200, 1000]", ":16:20:",
			"cross at (600, 500) mm", "corners 3 and 4 are the wrong way round: swap them"},
		{"walls that do not close", "corners = [[0, 0], [1200, 0], [1200, 1000], [0, 1000]]",
			`walls = ["east 4ft", "north 3ft", "west 4ft", "south 2ft"]`, ":16:9:",
			"end 304.8 mm north of where they began", "if one wall is wrong it is B"},
		{"a lead too short", `lead = "3 m"`, `lead = "1 m"`, ":12:8:", "does not reach the floor",
			"a cable with a longer lead"},
		{"a unit nobody has", `"10 m"`, `"10 furlongs"`, ":10:10:", `"furlongs" is not a unit; use mm, cm, m, ` +
			`in or ft`,
			`write it like length = "60 m"`},
		{"a fixture mistyped", "[room.thermostat]",
			"[[room.fixture]]\nkind = \"vanety\"\nwall = \"C\"\nfrom = 0\n\n[room.thermostat]", ":20:8:",
			`kind cannot be "vanety"`, `did you mean "vanity"?`},
		{"the wrong supply", "[membrane]", "[supply]\nvolts = 240\n\n[membrane]", ":9:1:",
			"made for 120 V but the supply is 240 V", "take a cable made for 240 V"},
		{"no box", "[room.thermostat]\nat = [600, 0]\n", "", ":14:1:", "has no [room.thermostat]",
			"add [room.thermostat]"},
		{"nothing in it", tinyJob, "", "", "the job has no [[room]]", "corners = [[0, 0], [2850, 0]"},
	} {
		if !strings.Contains(tinyJob, b.old) {
			t.Fatalf("%s: the job has no %q", b.what, b.old)
		}
		name := jobFile(t, strings.Replace(tinyJob, b.old, b.new, 1))
		out, said, code := call(t, "check", name)
		if code != exitJob || out != "" {
			t.Errorf("%s: exit code %d, output %q", b.what, code, out)
		}
		for _, want := range []string{name + b.place, b.says, b.hint} {
			if !strings.Contains(said, want) {
				t.Errorf("%s: %q is not in\n%s", b.what, want, said)
			}
		}
		if !strings.Contains(said, "hint:") {
			t.Errorf("%s: no hint in\n%s", b.what, said)
		}
	}
}
