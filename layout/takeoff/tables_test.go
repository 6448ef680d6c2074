package takeoff

import (
	"oxturn/layout/internal/published"
	"oxturn/layout/plane"
)

var (
	table = published.Table
	near  = published.Near
)

// rect is a floor of w x h mm with a corner at the origin.
func rect(w, h float64) plane.Region {
	return plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(w, h)))
}
