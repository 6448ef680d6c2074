package build

import (
	"math"
	"slices"
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// takeOff counts what the whole job needs.
func takeOff(p *layout.Plan) {
	p.TakeOff = takeoff.Compute(takeOffInput(p))
	p.TakeOff.Questions = append(p.TakeOff.Questions, openElectrics(p)...)
	if len(p.Job.BuildUp) == 0 {
		p.TakeOff.Questions = append(p.TakeOff.Questions,
			language.Say("Build-up: the job gives no layers, so that the height at the door, surface temperature and "+
				"warm-up are open."))
	}
	for _, c := range p.Job.Prices {
		if !takeoff.Known(c.Code) {
			p.TakeOff.Questions = append(p.TakeOff.Questions,
				language.Say("Price file: no take-off has the code %q; its price is not used.", c.Code))
		}
	}
}

// openElectrics asks for what the job does not say of the supply and the
// sensor, where something is to be ordered by it.
func openElectrics(p *layout.Plan) []language.Message {
	var out []language.Message
	if len(p.Load) == 0 {
		return nil
	}
	if p.Job.Supply.Volts == 0 {
		var volts []string
		for _, l := range p.Load {
			if v := say.Volts(l.Volts); !slices.Contains(volts, v) {
				volts = append(volts, v)
			}
		}
		out = append(out, language.Say("Supply: its voltage is not given; %s is assumed from the label. Settle it "+
			"before a cable is ordered.", language.Figure(strings.Join(volts, ", "))))
	}
	if len(layout.ExpectedSensor(p.Job.Sensor)) == 0 {
		out = append(out, language.Say("Sensor: its kind is not given. It must be the one that the thermostat "+
			"reads."))
	}
	return out
}

// takeOffInput states the whole job as the take-off wants it.
func takeOffInput(p *layout.Plan) takeoff.Input {
	in := takeoff.Input{
		Status: p.Job.Info.Status, Units: p.Job.Units,
		Membrane: p.Job.Membrane, Tile: p.Job.Tile, Materials: p.Job.Materials,
		Cut: cutPlan(p, p.Membrane), Prices: map[string]float64{},
	}
	if l, ok := p.Job.Bed(); ok {
		in.Bed = l.Thickness
	}
	for _, l := range p.Job.BuildUp {
		if l.Kind == "board" {
			in.Boards = append(in.Boards, l.Name)
		}
	}
	for i := range p.Rooms {
		if len(p.Rooms[i].Cables) > 0 {
			in.Rooms = append(in.Rooms, quantities(p, i))
		}
	}
	for _, l := range p.Job.Labour {
		in.Labour = append(in.Labour, takeoff.Labour{Phase: l.Phase, Heated: l.Heated, PerHour: l.PerHour,
			Fixed: l.Fixed, HourCost: l.HourCost, Crew: l.Crew, Visits: l.Visits, VisitCost: l.VisitCost})
	}
	for i := range p.Rooms {
		for _, s := range p.Rooms[i].Strips(p.Job) {
			in.Strips = append(in.Strips, s.Length())
		}
	}
	for _, c := range p.Job.Prices {
		in.Prices[c.Code] = c.Price
	}
	return in
}

// quantities states one room as the take-off wants it.
func quantities(p *layout.Plan, i int) takeoff.Room {
	r := &p.Rooms[i]
	out := takeoff.Room{
		Name: r.Job.Name, Floor: r.Floor.Area(), Heated: r.Heated.Area(), Tiled: r.Tiled,
		Thermostat: thermostat(r, p), Uncounted: r.NoTiles,
	}
	if len(r.Tiles) > 0 {
		out.Tiles = &r.Tiles[0]
	}
	for _, m := range r.Job.Joints {
		out.Joints = append(out.Joints, takeoff.Joint{Name: m.Name, Length: onTile(r, m.Segment), Width: m.Width,
			WidthSource: m.Spans.Source("width")})
	}
	for _, o := range r.Job.Openings {
		if o.Kind != "window" && !o.Threshold {
			out.Doorways = append(out.Doorways, math.Abs(o.To-o.From))
		}
	}
	for _, c := range r.Cables {
		out.Cables = append(out.Cables, takeoff.Cable{Name: c.ID, Label: c.Label})
	}
	for _, f := range r.Job.Fixtures {
		if f.Heated && f.Kind == job.Shower {
			out.Questions = append(out.Questions,
				language.Say("%s: waterproofing of its warmed floor and the band round "+
					"its drain are not in this list. By others?", f.Name))
		}
		if f.Undecided {
			out.Undecided = append(out.Undecided, f.Name)
		}
	}
	if !r.Bare.Empty() {
		out.Questions = append(out.Questions,
			language.Say("%s of the floor stays without cable, cut off from the rest: is that wanted?",
				language.Figure(say.AreaBoth(r.Bare.Area(), p.Job.Units))))
	}
	return out
}

func thermostat(r *layout.Room, p *layout.Plan) *takeoff.Thermostat {
	comfort := p.Warmth.Comfort(r)
	t := &takeoff.Thermostat{Rise: r.Job.Thermostat.Height, Limits: r.Job.Thermostat.Limit > 0 || comfort != nil &&
		comfort.Over()}
	for _, c := range r.Cables {
		t.ColdLeads += len(c.Joined())
		for _, end := range c.Joined() {
			t.LeadOnFloor += plane.PathLength(end.Lead)
		}
	}
	for _, s := range r.Sensors {
		if s.Spare {
			t.Spares++
		} else {
			t.Sensors++
		}
		t.SensorTube += plane.PathLength(s.Lead)
	}
	if l := p.LoadOf(r.Job.Name); l != nil {
		t.Relay = l.Needs != ""
		t.Kind = language.Say("%s, contacts for %s", language.Figure(say.Volts(l.Volts)),
			language.Figure(say.AmpsGiven(p.Job.Supply.ThermostatAmps)))
		if kind := p.Job.Sensor.Family.Name; kind != "" {
			t.Kind = language.Joined(", ", t.Kind, language.Say("reading a sensor %s", kind))
		}
	}
	return t
}
