package circuit

import "testing"

const foot = 304.8

// A 10 ft lead to a box 60 in up, 8 in tail and 4 in slack, leaves 4 ft; 15 ft
// leaves 9 ft. Plain arithmetic.
func TestReachOverTheFloor(t *testing.T) {
	for lead, want := range map[float64]float64{10: 4, 15: 9} {
		r := Reach{Lead: lead * foot, Rise: 5 * foot, Tail: 8 * 25.4, Slack: 4 * 25.4}
		near(t, "floor", r.Floor()/foot, want, 1e-9)
	}
}

// A lead that does not come down to the floor has less than none left.
func TestLeadTooShortForTheWall(t *testing.T) {
	near(t, "floor", Reach{Lead: 1000, Rise: 1200, Tail: 200, Slack: 100}.Floor(), -500, 0)
}
