package say

import (
	"testing"

	"oxturn/layout/plane"
)

// By hand: 1000.4 and 2000.8 mm lie at 1000 and 2001 mm, at 630 and 1260 sixteenths of an
// inch, 39 3/8 and 78 3/4 in; in tenths of a millimetre they are 1000.4 apart.
func TestBetweenIsRoundedWhereItIsMeasured(t *testing.T) {
	for _, c := range []struct {
		f    Figures
		want string
	}{
		{Figures{Units: plane.Millimetres}, "1001"}, {Figures{Units: plane.Inches}, `3'-3 3/8"`},
		{Figures{Units: plane.Millimetres, Both: true}, `1001 (3'-3 3/8")`},
		{Figures{Units: plane.Inches, Both: true}, `3'-3 3/8" (1001)`},
		{Figures{Units: plane.Millimetres}.Fine(), "1000.4"},
	} {
		if got := c.f.Between(1000.4, 2000.8); got != c.want {
			t.Errorf("%+v: %s, want %s", c.f, got, c.want)
		}
	}
}

// A layer of 9.5 mm is 3/8 in, its own system first; 76.2 mm are 3 in.
func TestThicknessAndSpacingInBothSystems(t *testing.T) {
	mm, in := Figures{Units: plane.Millimetres}, Figures{Units: plane.Inches}
	for got, want := range map[string]string{
		mm.Thickness(9.5): `9.5 mm (3/8")`, in.Thickness(9.5): `3/8" (9.5 mm)`,
		mm.Spacing(76.2): "76 mm", in.Spacing(76.2): "3.0 in",
	} {
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// Halves are rounded away from 0, to whole steps of any size.
func TestRoundedToSteps(t *testing.T) {
	for _, c := range []struct{ v, step, want float64 }{{2.5, 1, 3}, {-2.5, 1, -3}, {7, 2, 8}, {0.26, 0.5, 0.5}} {
		if got := Rounded(c.v, c.step); got != c.want {
			t.Errorf("%g to steps of %g: %g, want %g", c.v, c.step, got, c.want)
		}
	}
}
