package layout

import (
	"fmt"

	"oxturn/layout/heat"
	"oxturn/layout/plane"
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
func (l RoomLoss) Words(u plane.Units) string {
	us := u == plane.Inches
	day := fmt.Sprintf("the room loses %s at %s outside and %s inside", l.Lost.Power(us), temperature(l.Loss.Outside, us), temperature(l.Loss.Inside, us))
	if !l.Known {
		return day + fmt.Sprintf("; the floor's cables have %.0f W, part of which goes down: without the floor's layers it is not known how much", l.Gives.High)
	}
	return day + fmt.Sprintf("; the warmed floor, left on, gives it %s: that %s", l.Gives.Power(us), heat.CoveredWords(l.Covers))
}

func temperature(c float64, us bool) string {
	if us {
		return fmt.Sprintf("%.0f °F", c*1.8+32)
	}
	return fmt.Sprintf("%.0f °C", c)
}

// losses works out the heat loss of every room that the job encloses.
func (p *Plan) losses() {
	for i := range p.Rooms {
		if r := &p.Rooms[i]; r.Job.Loss != nil && len(r.Cables) > 0 {
			p.Losses = append(p.Losses, p.loss(r))
		}
	}
}

func (p *Plan) loss(r *Room) RoomLoss {
	out := RoomLoss{Room: r.Job.Name, Loss: enclosed(r)}
	out.Lost = out.Loss.Watts()
	out.Gives, out.Known = p.gives(r)
	out.Covers = heat.Covered(out.Gives, out.Lost)
	return out
}

// enclosed is what a room loses heat through.
func enclosed(r *Room) heat.Loss {
	j := r.Job.Loss
	floor := r.Floor.Area() / 1e6
	l := heat.Loss{Volume: floor * j.Height / 1000, Changes: j.Changes, Inside: j.Inside, Outside: j.Outside}
	for _, part := range []heat.Part{
		{Name: "outside walls", Area: j.Walls, U: j.WallsU, Beyond: j.Outside}, {Name: "windows", Area: j.Windows, U: j.WindowsU, Beyond: j.Outside},
		{Name: "ceiling", Area: floor, U: j.CeilingU, Beyond: j.Above}, {Name: "floor that is not warmed", Area: max(0, floor-r.Warmed()/1e6), U: j.FloorU, Beyond: j.Below},
	} {
		if part.U > 0 && part.Area > 0 {
			l.Parts = append(l.Parts, part)
		}
	}
	return l
}

// Warmed is the floor in mm² that a room's cables take at their even spacing:
// half a gap beyond the outer runs, so a little more than they lie on.
func (r *Room) Warmed() float64 {
	floor := 0.0
	for _, c := range r.Cables {
		floor += float64(c.Label.Length * c.Spacing)
	}
	return floor
}

// gives is what a room's cables give to it, W: what goes up in the cold case to
// what goes up in the hot one, the air being at [warmth] room. Known is false
// without the floor's layers.
func (p *Plan) gives(r *Room) (w heat.Range, known bool) {
	for _, c := range r.Cables {
		warm := p.Warmth.of(c.ID)
		if warm == nil {
			w.High += c.Label.Watts
			continue
		}
		known = true
		w.Low += max(0, float64(c.Label.Watts*warm.Cold.Steady.UpShare))
		w.High += float64(c.Label.Watts * warm.Hot.Steady.UpShare)
	}
	return w, known
}

// of returns the states over a cable, nil where they are not known.
func (w *Warmth) of(cable string) *Warm {
	if w == nil {
		return nil
	}
	for i := range w.Runs {
		for _, id := range w.Runs[i].Cables {
			if id == cable {
				return &w.Runs[i]
			}
		}
	}
	return nil
}
