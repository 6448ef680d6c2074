package build_test

import (
	"bytes"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
)

// What a layout file has is there before quantities, reserves and shifts are.
func TestLayIsEnoughForTheLayoutFile(t *testing.T) {
	j := trial.Read(t, "hand.toml", []byte(trial.Hand))
	p, _ := build.Lay(j, build.Search{})
	if len(p.TakeOff.Lines) > 0 || len(p.Shifts) > 0 || p.Rooms[0].Cables[0].Reserves != nil {
		t.Error("what is laid comes with what only sheets and quantities ask for")
	}
	var before, after bytes.Buffer
	if err := p.WriteFile(&before); err != nil {
		t.Fatal(err)
	}
	build.Complete(p)
	if len(p.TakeOff.Lines) == 0 || len(p.Shifts) == 0 || p.Rooms[0].Cables[0].Reserves == nil {
		t.Error("a whole plan lacks quantities, shifts or reserves")
	}
	if err := p.WriteFile(&after); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(before.Bytes(), after.Bytes()) {
		t.Error("completing a plan changes its layout file")
	}
}
