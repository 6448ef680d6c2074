package build_test

import (
	"testing"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// TestCableFoundElsewhere: floor in which a cable was found is never counted as
// floor without cable, wherever the plan had meant it to lie.
func TestCableFoundElsewhere(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(2000, 1000)))
	r := layout.Room{Floor: floor, Heated: plane.FromRing(plane.Rectangle(plane.Pt(100, 100), plane.Pt(1900, 900)))}
	path := []plane.Point{{X: 70, Y: 120}, {X: 70, Y: 880}, {X: 160, Y: 880}, {X: 160, Y: 120}}
	r.Cables = []layout.Cable{{Path: path, Laid: &layout.Laid{Whole: true, Error: 25, FingerRoom: 10,
		Job: &job.Laid{Evidence: job.ByHand}}}}
	bare, err := r.WithoutCable()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		at   plane.Point
		bare bool
	}{{plane.Pt(70, 500), false}, {plane.Pt(36, 500), false}, {plane.Pt(34, 500), true}, {plane.Pt(1950, 500),
		true}, {plane.Pt(1000, 500), false}} {
		if bare.Contains(c.at) != c.bare {
			t.Errorf("%v: without cable %v, want %v", c.at, !c.bare, c.bare)
		}
	}
	r.Cables[0].Laid = nil
	if bare, err = r.WithoutCable(); err != nil || !bare.Contains(plane.Pt(70, 500)) {
		t.Errorf("a plan's edge counts as floor with cable, %v", err)
	}
}
