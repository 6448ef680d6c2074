package main

import (
	"context"
	"errors"
	"os"
	"testing"
	"time"

	"oxturn/layout/build"
	"oxturn/layout/job"
)

// TestGivenUpWorkEnds holds that work nobody waits for is told so, and that
// the search for routes then ends well before it would by itself.
func TestGivenUpWorkEnds(t *testing.T) {
	ended := make(chan bool)
	err := within(context.Background(), time.Millisecond, func(stop func() bool) {
		for !stop() {
			time.Sleep(time.Millisecond)
		}
		ended <- true
	})
	if !errors.Is(err, errTime) {
		t.Errorf("%v, want %v", err, errTime)
	}
	select {
	case <-ended:
	case <-time.After(10 * time.Second):
		t.Error("the work was never told to stop")
	}
}

func TestStoppedSearchGivesNoPlan(t *testing.T) {
	s, err := readSource(context.Background(), os.Stdin, "../../testdata/jobs/bath.toml", "")
	if err != nil {
		t.Fatal(err)
	}
	j, report := job.Read(s.name, s.data, s.open)
	if j == nil {
		t.Fatal(report.Diagnostics())
	}
	plan, found := build.Lay(j, build.Search{Stop: func() bool { return true }})
	if len(plan.Rooms[0].Cables) > 0 || len(found) == 0 {
		t.Errorf("%d cables, %d diagnostics from a search that was stopped at once", len(plan.Rooms[0].Cables),
			len(found))
	}
}
