package build

import (
	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/plane"
)

// losses works out the heat loss of every room that the job encloses.
func losses(p *layout.Plan) {
	for i := range p.Rooms {
		if r := &p.Rooms[i]; r.Job.Loss != nil && len(r.Cables) > 0 {
			p.Losses = append(p.Losses, loss(p, r))
		}
	}
}

func loss(p *layout.Plan, r *layout.Room) layout.RoomLoss {
	out := layout.RoomLoss{Room: r.Job.Name, Loss: enclosed(r)}
	out.Lost = out.Loss.Watts()
	out.Gives, out.Known = gives(p, r)
	out.Covers = heat.Covered(out.Gives, out.Lost)
	return out
}

// enclosed is what a room loses heat through.
func enclosed(r *layout.Room) heat.Loss {
	j := r.Job.Loss
	floor := r.Floor.Area() / plane.SquareMetre
	l := heat.Loss{Volume: floor * j.Height / 1000, Changes: j.Changes, Inside: j.Inside, Outside: j.Outside}
	for _, part := range []heat.Element{
		{Name: "outside walls", Area: j.Walls, U: j.WallsU, Beyond: j.Outside}, {Name: "windows", Area: j.Windows,
			U: j.WindowsU, Beyond: j.Outside},
		{Name: "ceiling", Area: floor, U: j.CeilingU, Beyond: j.Above}, {Name: "floor that is not warmed",
			Area: max(0, floor-r.Warmed()/plane.SquareMetre), U: j.FloorU, Beyond: j.Below},
	} {
		if part.U > 0 && part.Area > 0 {
			l.Elements = append(l.Elements, part)
		}
	}
	return l
}

// gives is what a room's cables give to it, W: what goes up in the cold case to
// what goes up in the hot one, the air being at [warmth] room. Known is false
// without the floor's layers.
func gives(p *layout.Plan, r *layout.Room) (w heat.Range, known bool) {
	for _, c := range r.Cables {
		warm := p.Warmth.Of(c.ID)
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
