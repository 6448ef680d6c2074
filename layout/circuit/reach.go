package circuit

import "fmt"

// A Reach is how far a cold lead gets over the floor. All in mm.
type Reach struct {
	Lead  float64 // whole cold lead, by its label
	Rise  float64 // from the floor to the box
	Tail  float64 // wanted inside the box
	Slack float64 // kept on the floor
}

// Floor returns the lead left for the floor, Lead - Rise - Tail - Slack, in
// mm. Negative: the lead does not even come down to the floor.
func (r Reach) Floor() float64 { return r.Lead - r.Rise - r.Tail - r.Slack }

// Check returns an error when travel, in mm over the floor from below the box
// to the start of heat, is more than the lead allows, or when a figure is not
// usable.
func (r Reach) Check(travel float64) error {
	for _, v := range []float64{r.Lead, r.Rise, r.Tail, r.Slack, travel} {
		if !usable(v) {
			return fmt.Errorf("lead reach: %g mm is not a usable length", v)
		}
	}
	switch left := r.Floor(); {
	case left < 0:
		return fmt.Errorf("the lead of %.0f mm does not come down to the floor: rise %.0f, tail %.0f and slack %.0f mm take %.0f mm more than it has",
			r.Lead, r.Rise, r.Tail, r.Slack, -left)
	case !within(travel, left):
		return fmt.Errorf("the start of heat is %.0f mm over the floor from the box, %.0f mm beyond the lead's reach of %.0f mm",
			travel, travel-left, left)
	}
	return nil
}
