package takeoff

import (
	"slices"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/money"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// underlays adds what is bought only when the job file gives it a pack:
// primer, insulation board and seam band. seams is in mm.
func (b *builder) underlays(seams float64) {
	m := b.in.Materials
	area := b.in.tiled() / plane.SquareMetre
	if p := m.Primer; p.Coverage > 0 {
		l := Line{Code: "primer", Item: language.Say("Primer"), Basis: b.tiledBasis(), Waste: p.Waste, PackName: "can"}
		l.call(p)
		b.cover(&l, p, area)
		b.add(l, p.Price)
	} else if p.Pack > 0 {
		b.ask("Primer: area that a pack covers.")
	}
	if p := m.Board; p.Pack > 0 {
		b.packed(Line{Code: "board", Item: language.Say("Insulation board under the membrane"), Basis: b.tiledBasis(),
			Net:  area,
			Unit: "m²", PackName: "board"}, p)
	} else if len(b.in.Boards) > 0 {
		b.ask("In the section but not in this list: %s. Size of a pack, or by others?", strings.Join(b.in.Boards, ", "))
	}
	if p := m.Band; p.Pack > 0 {
		length := b.in.edge() + seams
		b.packed(Line{Code: "band", Item: language.Say("Seam and corner band"),
			Basis: b.lengthBasis(language.Say("tile edge and membrane seams"),
				length),
			Net: length / 1000, Unit: "m", PackName: "roll"}, p)
	}
}

// packed adds a line whose net figure is in the pack's own unit.
func (b *builder) packed(l Line, p job.Product) {
	l.call(p)
	l.Waste, l.Pack = p.Waste, p.Pack
	l.note("size of a pack: %s", p.Source)
	if p.Unit != "" && p.Unit != l.Unit {
		b.ask("%s: a pack of %g %s; it must be in %s.", l.Item, p.Pack, p.Unit, l.Unit)
		l.Pack, l.PackName = 0, ""
	}
	b.add(l, p.Price)
}

// cables adds one line for every kind of cable.
func (b *builder) cables() {
	type kind struct {
		label job.Cable
		names []string
	}
	var kinds []kind
	find := func(label job.Cable) *kind {
		for i := range kinds {
			if kinds[i].label.ID == label.ID {
				return &kinds[i]
			}
		}
		kinds = append(kinds, kind{label: label})
		return &kinds[len(kinds)-1]
	}
	for _, r := range b.in.Rooms {
		for _, c := range r.Cables {
			k := find(c.Label)
			k.names = append(k.names, c.Name)
		}
	}
	for _, k := range kinds {
		c := k.label
		b.add(Line{Code: "cable " + c.ID, Item: language.Say("Heating cable %s", c.ID), Net: float64(len(k.names)),
			Unit: "each",
			Pack: 1,
			Basis: language.Say("%s: %s, %s, %s; heated area only", join(k.names), language.Figure(say.Volts(c.Volts)),
				language.Figure(say.Watts(c.Watts)),
				b.longWords(c.Length)),
			Note: language.Say("no return once unwound")}, c.Price)
	}
	if len(kinds) == 0 {
		b.ask("Heating cable: none is settled yet.")
	}
}

// controls adds what goes to the box: thermostat, relay, sensors, boxes, tube
// and nail plates.
func (b *builder) controls() {
	var limits language.Message
	var boxes, relays, leads, sensors, spares int
	var rise, tube, onFloor float64
	var kinds []language.Message
	var seen []string
	for _, r := range b.in.Rooms {
		t := r.Thermostat
		if t == nil {
			continue
		}
		boxes++
		if t.Limits {
			limits = language.Say("with a floor limit")
		}
		if t.Relay {
			relays++
		}
		leads += t.ColdLeads
		sensors += t.Sensors
		spares += t.Spares
		rise += t.Rise
		tube += t.SensorTube
		onFloor += t.LeadOnFloor
		if kind := t.Kind.String(); !slices.Contains(seen, kind) {
			kinds, seen = append(kinds, t.Kind), append(seen, kind)
		}
	}
	b.each("thermostat", language.Say("Thermostat with floor sensor input"), boxes,
		language.Joined("; ", slices.Concat([]language.Message{language.Say("one a room")}, kinds,
			[]language.Message{limits})...))
	b.each("relay", language.Say("Relay or second thermostat"), relays,
		language.Say("the load is more than a thermostat's contacts carry"))
	b.each("sensor", language.Say("Floor sensor"), sensors, language.Say("wired"))
	b.each("spare-sensor", language.Say("Spare floor sensor"), spares, language.Say("not wired"))
	b.each("box", language.Say("Deep box for the thermostat"), boxes,
		language.Say("cold leads %d, of sensors %d; electrician to size", leads, sensors+spares))
	b.length("conduit", language.Say("Conduit in the wall"), 2*rise, language.Say("twice the lead rise"))
	b.length("sensor-tube", language.Say("Tube for the sensors"), tube, language.Say("on the floor"))
	b.tape(tube + onFloor)
	b.each("nail-plate", language.Say("Nail plate"), 2*boxes, language.Say("one a path through the plate"))
}

// each adds a line counted one by one; none when n is 0.
func (b *builder) each(code string, item language.Message, n int, basis language.Message) {
	if n != 0 {
		b.add(Line{Code: code, Item: item, Basis: basis, Net: float64(n), Unit: "each", Pack: 1}, 0)
	}
}

// length adds a line cut to length, in mm; none when it is 0.
func (b *builder) length(code string, item language.Message, mm float64, basis language.Message) {
	if mm != 0 {
		l := Line{Code: code, Item: item, Basis: b.lengthBasis(basis, mm), Net: mm / 1000, Unit: "m", Waste: cutWaste}
		b.priceByUnit(&l)
		b.add(l, 0)
	}
}

// priceByUnit prices a line that is not sold by the pack, where the price
// file gives its price: of the unit that the job's sheets have it in.
func (b *builder) priceByUnit(l *Line) {
	p, ok := b.in.Prices[l.Code]
	if !ok {
		return
	}
	n, unit := l.Net*(1+l.Waste), l.Unit
	if b.in.Units == plane.Inches {
		n, unit = US(n, unit)
	}
	l.Each, l.Price = p, cost(p, written(n, unit))
}

// cost is a price for so many, in whole cents; what is no price is left for price to ask
// about.
func cost(price, n float64) float64 {
	if !usable(price) || !usable(n) || !usable(price*n) {
		return price * n
	}
	return money.Times(price, n).Float()
}

// labour adds a line for every phase of work, at the job file's own rates.
func (b *builder) labour() {
	for _, w := range b.in.Labour {
		mm2, what := b.in.tiled(), language.Say("tiled area")
		if w.Heated {
			mm2, what = b.in.heated(), language.Say("heated area")
		}
		hours := w.Fixed
		if w.PerHour > 0 {
			hours += mm2 / plane.SquareMetre / w.PerHour
		}
		l := Line{Code: "labour " + w.Phase, Item: language.Say("Labour: %s", w.Phase), Basis: b.basis(what, mm2),
			Net:  hours,
			Unit: "h"}
		l.note("%s, job file", b.rate(w))
		if w.Crew > 1 {
			l.note("a crew of %d is %s h at it", w.Crew, language.Figure(Figure(crewHours(hours, w.Crew), "h")))
		}
		l.Each, l.Price = w.HourCost, cost(w.HourCost, written(hours, "h"))
		b.priceByUnit(&l)
		b.add(l, 0)
	}
}

// rate words how fast a phase of work goes.
func (b *builder) rate(w Labour) language.Message {
	var parts []language.Message
	if w.PerHour > 0 {
		parts = append(parts, language.Say("%s an hour", b.both(w.PerHour, "m²")))
	}
	if w.Fixed > 0 || w.PerHour <= 0 {
		parts = append(parts, language.Say("%s h fixed", language.Figure(say.Plain(w.Fixed))))
	}
	if len(parts) == 2 {
		return language.Say("%s and %s", parts[0], parts[1])
	}
	return parts[0]
}
