package circuit

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
