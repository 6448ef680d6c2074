package route

import (
	"reflect"
	"strings"
	"testing"
	"time"
)

// twoCables is an L with two cables to share it.
func twoCables(t *testing.T) Problem {
	p := roomOf(t, outline(1, 2600, 2400), nil, 75, nil)
	n := lengthFor(p, p.Zones[0], 3.3) / 2
	p.Cables = []Cable{{ID: "H1", Length: n}, {ID: "H2", Length: n * 0.95}}
	return p
}

// TestSlowedSearchFindsTheSame has the search wait whenever it asks whether it
// is still wanted: what is found must not hang on time.
func TestSlowedSearchFindsTheSame(t *testing.T) {
	quick := twoCables(t)
	want, err := Solve(quick)
	if err != nil {
		t.Fatal(err)
	}
	slow, asked := quick, make(chan bool, 1<<20)
	slow.Stop = func() bool {
		asked <- true
		time.Sleep(time.Millisecond)
		return false
	}
	got, err := Solve(slow)
	if err != nil {
		t.Fatal(err)
	}
	if len(asked) < 20 {
		t.Fatalf("asked only %d times: the search was hardly slowed", len(asked))
	}
	if !reflect.DeepEqual(got, want) {
		t.Error("a slowed search finds other routes")
	}
}

// TestSpentStepsGiveTheBestSoFar lays a room in ever fewer steps: what comes
// is sound and what was given up is said, or the refusal says why there is none.
func TestSpentStepsGiveTheBestSoFar(t *testing.T) {
	p := twoCables(t)
	all := StepsFor(p.Zones, p.Pitch, 2, 1)
	had := all.left
	p.Steps = all
	if _, err := Solve(p); err != nil || len(all.GivenUp()) > 0 {
		t.Fatalf("%v, given up: %v", err, all.GivenUp())
	}
	used := had - all.left
	if used <= 0 {
		t.Fatal("no steps were counted")
	}
	found, refused := 0, 0
	for n := 2 * used; n > 0; n /= 2 {
		p.Steps = &Steps{left: n}
		routes, err := Solve(p)
		switch spent := len(p.Steps.GivenUp()) > 0; {
		case err == nil && spent:
			found++
		case err != nil && (!spent || !strings.Contains(err.Error(), "steps")):
			t.Errorf("%d steps: %v, given up: %v", n, err, p.Steps.GivenUp())
		case err != nil:
			refused++
		}
		if err == nil {
			if bad := broken(p, routes); bad != nil {
				t.Errorf("%d steps: %v", n, bad)
			}
		}
	}
	t.Logf("of %d steps: %d found, %d refused", used, found, refused)
	if found == 0 || refused == 0 {
		t.Errorf("%d times a plan in spite of spent steps, %d refusals", found, refused)
	}
}

// What is only tried spends and gives up nothing of a plan's steps.
func TestCopyOfSteps(t *testing.T) {
	own := &Steps{left: 7}
	tried := own.Copy()
	tried.left = 0
	if !tried.spent("a look") || own.spent("a look") || own.left != 7 || own.GivenUp() != nil {
		t.Errorf("%+v, %+v", own, tried)
	}
	if (*Steps)(nil).Copy() != nil {
		t.Error("a copy of none is some")
	}
}
