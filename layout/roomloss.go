package layout

import (
	"math"

	"oxturn/layout/heat"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A RoomLoss holds what a room's floor gives against what the room loses, both
// as ranges. It says nothing of how warm the room will be.
type RoomLoss struct {
	Room   string
	Loss   heat.Loss
	Lost   heat.Range // W
	Gives  heat.Range // W to the room; without the floor's layers, at most its power
	Known  bool       // the layers are there, so that Gives has a lower end
	Covers heat.Range // share of Lost
}

// Words says the result in one sentence; how is what the floor gives.
func (l RoomLoss) Words(f say.Figures) string {
	us := f.Units == plane.Inches
	day := f.Textf("the room loses %s at %s outside and %s inside", l.Lost.Power(us, f.Language),
		temperature(l.Loss.Outside, us), temperature(l.Loss.Inside, us))
	if !l.Known {
		return day + f.Textf("; the floor's cables have %s, part of which goes down: without the floor's "+
			"layers it is not known how much", say.Watts(math.Round(l.Gives.High)))
	}
	return day + f.Textf("; the warmed floor, left on, gives it %s: that %s", l.Gives.Power(us, f.Language),
		heat.CoveredWords(heat.Covered(l.Gives.Tens(), l.Lost.Tens()), f.Language))
}

// LossWords says in one line what a room loses and what its floor gives; empty where
// the job does not enclose the room.
func (p *Plan) LossWords(r *Room, l language.Language) string {
	for _, of := range p.Losses {
		if of.Room == r.Job.Name {
			return l.Textf("Simplified, and no promise of a room temperature: %s.",
				of.Words(say.Figures{Language: l, Units: p.Units()}))
		}
	}
	return ""
}

func temperature(c float64, us bool) string {
	if us {
		return say.WholeDegrees(c, plane.Inches)
	}
	return say.WholeDegrees(c, plane.Millimetres)
}

// Warmed is the floor in mm² that a room's cables take at their even spacing:
// half a gap beyond the outer runs, so a little more than they lie on.
func (r *Room) Warmed() float64 {
	floor := 0.0
	for _, c := range r.Cables {
		floor += c.Warmed()
	}
	return floor
}

// Warmed is the floor in mm² that one cable takes at its even spacing.
func (c *Cable) Warmed() float64 { return float64(c.Label.Length * c.Spacing) }
