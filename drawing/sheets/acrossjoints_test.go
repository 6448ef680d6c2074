package sheets

import (
	"testing"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// TestJointWordsAgree: where a lead passes a movement joint the build-up does not
// say that no cable does, as the cable plan says how it passes.
func TestJointWordsAgree(t *testing.T) {
	room := layout.Room{Job: &job.Room{Joints: []job.Joint{{Segment: plane.Segment{A: plane.Pt(100, 0),
		B: plane.Pt(100, 500)}}}}}
	for want, lead := range map[string][]plane.Point{
		"no cable crosses it": {plane.Pt(0, 50), plane.Pt(90, 50)},
		"no heating cable crosses it, a lead or tube only as on CP-1": {plane.Pt(0, 50), plane.Pt(200, 50)},
	} {
		room.Cables = []layout.Cable{{ID: "H1", ColdLead: lead}}
		if got := acrossJoints(&layout.Plan{Job: &job.Job{}, Rooms: []layout.Room{room}}); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := acrossJoints(&layout.Plan{Job: &job.Job{}, Rooms: []layout.Room{{Job: &job.Room{}}}}); got != "" {
		t.Errorf("no joint: %q", got)
	}
}
