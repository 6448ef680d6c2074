package layout_test

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/layout/internal/trial"
)

// The kitchen's box hangs east of its movement joint at x = 2050: the cable to
// the west has a lead that passes it, the other has not, by the job's figures.
func TestLeadsThatPassAJoint(t *testing.T) {
	r := &trial.Example(t, "kitchen.toml").Rooms[0]
	found := r.JointCrossings()
	if len(found) != 1 || found[0].Joint != "MJ" {
		t.Fatalf("%+v", found)
	}
	for _, c := range r.Cables {
		west := c.Path[0].X < 2050
		if got := strings.Contains(fmt.Sprint(found[0].Leads), "cold lead of "+c.ID); got != west {
			t.Errorf("%s begins at x = %.0f: %v", c.ID, c.Path[0].X, found[0].Leads)
		}
	}
	if none := trial.Example(t, "bath.toml").Rooms[0].JointCrossings(); none != nil {
		t.Errorf("bath: %+v", none)
	}
}
