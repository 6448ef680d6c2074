package say

import (
	"testing"

	"oxturn/layout/plane"
)

// Runs of 12 W/m that lie 117.1 mm apart give 102.5 W/m²; by whole millimetres it is
// 102.6. An inch is 25.4 mm by definition.
func TestApartIsFineEnoughToRedoTheHeat(t *testing.T) {
	for _, c := range []struct {
		mm    float64
		units plane.Units
		want  string
	}{
		{92.46, plane.Millimetres, "92.5 mm"}, {120, plane.Millimetres, "120 mm"},
		{88.138, plane.Inches, "3.47 in"}, {60.96, plane.Inches, "2.4 in"}, {76.2, plane.Inches, "3 in"},
	} {
		if got := (Figures{Units: c.units}).Apart(c.mm); got != c.want {
			t.Errorf("%g mm: %s, want %s", c.mm, got, c.want)
		}
	}
}
