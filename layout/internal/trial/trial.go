// Package trial has jobs for tests, and what reads and lays them out.
package trial

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/module"
	"oxturn/layout/job"
)

// Landing is a floor of 1.2 m², one cable of 240 W at 120 V: 2 A.
const Landing = `units = "mm"
[membrane]
pitch = 30
[[room]]
name = "Landing"
corners = [[0, 0], [1200, 0], [1200, 1000], [0, 1000]]
cables = ["C"]
[room.thermostat]
wall = "A"
from = 600
[[cable]]
id = "C"
volts = 120
watts = 240
length = "10 m"
lead = "3 m"
`

const Hand = `
units = "mm"
[membrane]
pitch = 30
[spacing]
closest = 2
widest = 5
[clearance]
wall = 75
fixture = 50
[[cable]]
id = "C"
volts = 240
watts = 260
length = "26 m"
lead = "4 m"
[[room]]
name = "Bath"
corners = [[0,0],[1600,0],[1600,2400],[0,2400]]
cables = ["C"]
[[room.fixture]]
kind = "tub"
outline = [[0,1640],[1600,1640],[1600,2400],[0,2400]]
[room.thermostat]
at = [800, 0]
`

// Read reads a job that must be free of errors.
func Read(t testing.TB, name string, data []byte) *job.Job {
	t.Helper()
	open := func(n string) ([]byte, error) { return os.ReadFile(module.Testdata(t, "jobs", n)) }
	j, report := job.Read(name, data, open)
	if report.Errors() > 0 {
		var b bytes.Buffer
		report.Human(&b, false)
		t.Fatalf("%s", b.String())
	}
	return j
}

var builtPlans = map[string]*layout.Plan{}

// Example lays out an example, which must fit; once for all tests, which only read it.
func Example(t testing.TB, name string) *layout.Plan {
	t.Helper()
	if builtPlans[name] == nil {
		builtPlans[name] = ExampleAgain(t, name)
	}
	return builtPlans[name]
}

func ExampleAgain(t testing.TB, name string) *layout.Plan {
	t.Helper()
	data, err := os.ReadFile(module.Testdata(t, "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	p, found := build.Plan(Read(t, name, data))
	for _, d := range found {
		if d.Severity == job.Error {
			t.Fatalf("%s: %s", name, d.Message)
		}
	}
	return p
}

// Said lays out a job and returns what is said of it, by ID; errors have
// none.
func Said(t testing.TB, text string) (*layout.Plan, map[string][]string) {
	t.Helper()
	j, report := job.Read("job.toml", []byte(text), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	p, found := build.Plan(j)
	said := map[string][]string{}
	for _, d := range found {
		said[d.ID] = append(said[d.ID], d.Message)
	}
	return p, said
}

// Laid lays out a job that must be free of errors.
func Laid(t testing.TB, text string) *layout.Plan {
	t.Helper()
	j, report := job.Read("job.toml", []byte(text), nil)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	p, ds := build.Plan(j)
	for _, d := range ds {
		if d.Severity == job.Error {
			t.Fatal(d.Message)
		}
	}
	return p
}

// Errors returns the messages of the errors.
func Errors(found []job.Diagnostic) string {
	var out []string
	for _, d := range found {
		if d.Severity == job.Error {
			out = append(out, d.Message)
		}
	}
	return strings.Join(out, "\n")
}

// OnlyErrors returns the errors.
func OnlyErrors(found []job.Diagnostic) (out []job.Diagnostic) {
	for _, d := range found {
		if d.Severity == job.Error {
			out = append(out, d)
		}
	}
	return out
}

// Examples are the job files of the examples.
var Examples = []string{"bath.toml", "kitchen.toml", "entry.toml"}

// HandPlan lays out Hand with more added to it, beside the layout file of
// Hand itself, issued.json.
func HandPlan(t testing.TB, status, more string) (*layout.Plan, []job.Diagnostic) {
	t.Helper()
	return HandPlanWith(t, status, more, nil)
}

// HandPlanWith is HandPlan beside other files too.
func HandPlanWith(t testing.TB, status, more string, files map[string][]byte) (*layout.Plan, []job.Diagnostic) {
	t.Helper()
	plain, _ := build.Plan(Read(t, "hand.toml", []byte(Hand)))
	var issued bytes.Buffer
	if err := plain.WriteFile(&issued); err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(Hand, "units = \"mm\"", "units = \"mm\"\n[job]\nstatus = \""+status+"\"", 1) + more
	j, report := job.Read("hand.toml", []byte(text), func(name string) ([]byte, error) {
		if data := files[name]; data != nil {
			return data, nil
		}
		return issued.Bytes(), nil
	})
	if report.Errors() > 0 {
		var b bytes.Buffer
		report.Human(&b, false)
		return nil, []job.Diagnostic{{Message: b.String()}}
	}
	return build.Plan(j)
}

// Record begins a record of the cable of Hand.
const Record = "\n[[as_laid]]\nroom = \"Bath\"\nevidence = \"measured by hand\"\n"
