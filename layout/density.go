package layout

import (
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// OverServed is a cable's power over the heated floor that it serves, W/m²; 0 where
// that is not known.
func (c *Cable) OverServed() float64 {
	if area := c.Share.Area(); area > 0 {
		return c.Label.Watts / (area / plane.SquareMetre)
	}
	return 0
}

// AtEven is the floor in mm² that Density is over: the cable's length times its
// even spacing, so half a gap beyond the outer runs is counted in.
func (c *Cable) AtEven() float64 { return c.Label.Length * c.Spacing }

// Judged is the power per area in W/m² that the job's limit is held against: over
// the floor that the limit is over, the smaller of both where the job does not
// say, or over three neighbouring runs if that is more.
func (c *Cable) Judged() float64 {
	switch c.Gaps.MostOver {
	case job.OverEven:
		return max(c.Density, c.Gaps.Densest)
	case job.OverHeated:
		return max(c.OverServed(), c.Gaps.Densest)
	}
	return max(c.Density, c.OverServed(), c.Gaps.Densest)
}

// AtLimit is by which share a power per area may miss its limit and still keep to
// it: what rounding leaves.
const AtLimit = 1e-3

// Keeps reports whether a cable keeps to the job's limit of power per area; it
// does where there is none.
func (c *Cable) Keeps() bool { return c.Gaps.Most == 0 || c.Judged() <= c.Gaps.Most*(1+AtLimit) }

// LimitOver says in words what a limit of power per area is over, by the job's
// own word for it.
func LimitOver(over string) string {
	switch over {
	case job.OverEven:
		return "at even spacing"
	case job.OverHeated:
		return "over the heated floor"
	}
	return "at even spacing and over the heated floor"
}
