package sheets

import (
	"strings"
	"testing"

	"oxturn/drawing"
)

// TestNumbersKeepOffJoints: a run's number on a movement joint could be one of
// either side. The kitchen has a joint that runs end at on both sides.
func TestNumbersKeepOffJoints(t *testing.T) {
	set := example(t, "kitchen").set
	for _, id := range []string{"cable-plan", "setting-out"} {
		s := sheet(t, set, id)
		tried := 0
		for _, it := range s.Items {
			p, ok := it.(*drawing.Path)
			if !ok || !strings.HasPrefix(p.Title, "movement joint") {
				continue
			}
			for _, number := range patches(s) {
				tried++
				if number.Touches(p.Segs[0].To, p.Segs[1].To) {
					t.Errorf("%s: a number stands on the joint, at %.0f", id, number.Centre())
				}
			}
		}
		if tried == 0 {
			t.Errorf("%s: no joint and number was tried", id)
		}
	}
}
