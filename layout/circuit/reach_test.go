package circuit

import (
	"math"
	"strings"
	"testing"
)

const foot = 304.8

// A 10 ft lead to a box 60 in up, 8 in tail and 4 in slack, leaves 4 ft; 15 ft
// leaves 9 ft. Plain arithmetic.
func TestReachOverTheFloor(t *testing.T) {
	for lead, want := range map[float64]float64{10: 4, 15: 9} {
		r := Reach{Lead: lead * foot, Rise: 5 * foot, Tail: 8 * 25.4, Slack: 4 * 25.4}
		near(t, "floor", r.Floor()/foot, want, 1e-9)
		if err := r.Check(want * foot); err != nil {
			t.Errorf("exactly at its reach: %v", err)
		}
		if err := r.Check(want*foot + 1); err == nil {
			t.Error("1 mm beyond its reach: no error")
		}
	}
}

func TestLeadTooShortForTheWall(t *testing.T) {
	err := Reach{Lead: 1000, Rise: 1200, Tail: 200, Slack: 100}.Check(0)
	if err == nil || !strings.Contains(err.Error(), "500 mm more than it has") {
		t.Errorf("got %v", err)
	}
	if (Reach{Lead: math.NaN()}).Check(0) == nil || (Reach{Lead: 4000, Slack: -1}).Check(0) == nil {
		t.Error("unusable figures: no error")
	}
}
