package compare

import (
	"fmt"
	"strings"

	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// warmth compares how warm the floor over each cable gets at most, what a room loses and
// gets, and what its energy comes to.
func (d *diff) warmth(room string, was, now *layout.Plan) {
	for _, c := range now.RoomNamed(room).Cables {
		a, b := atMost(was, c.ID), atMost(now, c.ID)
		d.text(room, c.ID+", surface over a cable at most", d.degrees(a), d.degrees(b),
			ifGiven("surface over a cable at most", "°C", a, b))
	}
	d.text(room, "heat loss", d.loss(was, room), d.loss(now, room))
	d.text(room, "energy a month", use(was, room), use(now, room))
}

// atMost is how warm the surface over a cable gets left on, °C; 0 where that is not known.
func atMost(p *layout.Plan, cable string) float64 {
	if run := p.Warmth.Of(cable); run != nil {
		return p.Warmth.Warmest + run.Hot.Steady.OverCable
	}
	return 0
}

func (d *diff) degrees(celsius float64) string {
	if celsius == 0 {
		return ""
	}
	return say.Degrees(celsius, d.units)
}

// loss is what a room loses and what its floor gives it.
func (d *diff) loss(p *layout.Plan, room string) string {
	us := d.units == plane.Inches
	for _, l := range p.Losses {
		if l.Room == room {
			return fmt.Sprintf("%s, its floor gives %s", l.Lost.Power(us, language.English), l.Gives.Power(us,
				language.English))
		}
	}
	return ""
}

// use is what a room's energy comes to in a month, with its price where there is a tariff.
func use(p *layout.Plan, room string) string {
	if p.Warmth == nil {
		return ""
	}
	for _, u := range p.Warmth.Use {
		if u.Room != room {
			continue
		}
		out := u.Month.Words().String() + " kWh"
		if u.PerHourPrice > 0 {
			out += ", " + strings.TrimSpace(u.MonthPrice.Words().String()+" "+p.Job.Energy.Currency)
		}
		return out
	}
	return ""
}
