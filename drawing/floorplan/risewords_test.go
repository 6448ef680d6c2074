package floorplan

import (
	"testing"

	"oxturn/layout/plane"
)

// 6 in is 152.4 mm.
func TestRiseWordsAreWhole(t *testing.T) {
	for u, want := range map[plane.Units]string{plane.Inches: "6 in", plane.Millimetres: "150 mm"} {
		if got := RiseWords(u); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
