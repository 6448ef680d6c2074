package figures

import (
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// What a file names a room cannot steer the terminal that the report is read on.
func TestTextOfAFileDoesNotSteer(t *testing.T) {
	r := &Report{units: plane.Millimetres, Rooms: []Room{{Name: "\x1b[2J\u202eBath"}}}
	var b strings.Builder
	if err := r.WriteText(&b); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "Room \ufffd[2J\ufffdBath\n") || strings.ContainsAny(b.String(), "\x1b\u202e") {
		t.Errorf("%q", b.String())
	}
}
