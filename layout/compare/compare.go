// Package compare says what changed between two plans.
package compare

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// A Change is one thing that differs between two revisions of a job.
type Change struct {
	Room    string // empty: of the whole job
	What    string // "cable", "amps", "sensor S1"...
	How     string // "moved 140 mm east"; empty: Before and After say it
	Before  string
	After   string
	Figures []Figure     // the numbers behind the words
	Moved   float64      // mm, of a place that moved
	At      *plane.Point // where the change is to be seen on the newer plan, nil: nowhere
	Radius  float64      // mm round At that it takes
}

// A Figure is one number of a change. It stands on one side only where the
// other revision has no such thing.
type Figure struct {
	Of     string // "from wall A", "length", "load"
	Unit   string
	Before *float64
	After  *float64
}

// String says the change in a line.
func (c Change) String() string {
	s := c.What + ": "
	if c.Room != "" {
		s = c.Room + ", " + s
	}
	switch {
	case c.Before == "":
		return s + "new: " + c.After
	case c.After == "":
		return s + "no longer there (was " + c.Before + ")"
	case c.How != "":
		return s + c.How + ", now " + c.After + " (was " + c.Before + ")"
	}
	return s + c.Before + " -> " + c.After
}

// Plans lists what changed from one plan to another, in the terms of those
// who ordered and build it: rooms, cable, load, quantities and places. Rooms
// are matched by name.
func Plans(before, after *layout.Plan) []Change {
	u := after.Units()
	d := &diff{units: u, currency: after.Job.Currency}
	d.text("", "status", before.Job.Info.Status.String(), after.Job.Info.Status.String())
	d.text("", "drawing no.", before.Job.Info.Number, after.Job.Info.Number)
	d.text("", "revision", lastLetter(before.Job), lastLetter(after.Job))
	d.settings(before.Job, after.Job)
	for i := range after.Rooms {
		now := &after.Rooms[i]
		was := before.RoomNamed(now.Job.Name)
		if was == nil {
			d.add(Change{What: "room", After: now.Job.Name + ", " + say.AreaBoth(now.Floor.Area(), u),
				Figures: []Figure{d.squares("floor", nil, now.Floor)}})
			continue
		}
		n := len(d.out)
		d.room(was, now)
		d.load(before.LoadOf(now.Job.Name), after.LoadOf(now.Job.Name))
		d.warmth(now.Job.Name, before, after)
		if len(d.out) > n {
			d.bought(was, now)
		}
	}
	for i := range before.Rooms {
		if was := &before.Rooms[i]; after.RoomNamed(was.Job.Name) == nil {
			d.add(Change{What: "room", Before: was.Job.Name + ", " + say.AreaBoth(was.Floor.Area(), u),
				Figures: []Figure{d.squares("floor", was.Floor, nil)}})
		}
	}
	d.quantities(takeoff.Compare(before.TakeOff, after.TakeOff))
	d.cost(before.TakeOff, after.TakeOff)
	d.days(before, after)
	return d.out
}

func lastLetter(j *job.Job) string {
	if n := len(j.Revisions); n > 0 {
		return j.Revisions[n-1].Letter
	}
	return ""
}

// diff gathers changes.
type diff struct {
	units    plane.Units
	currency string
	was, now layout.Tape // of the room compared
	out      []Change
}

func (d *diff) add(c Change) { d.out = append(d.out, c) }

// text compares two wordings, and gives the numbers behind them.
func (d *diff) text(room, what, before, after string, figures ...Figure) {
	if before != after {
		d.add(Change{Room: room, What: what, Before: before, After: after, Figures: figures})
	}
}

// both is a figure that both revisions have.
func both(of, unit string, before, after float64) Figure {
	return Figure{of, unit, &before, &after}
}

// Amounts of change that are not worth saying.
const (
	sameArea  = 0.005e6 // mm²
	samePlace = 5.0     // mm
	samePrice = 0.005   // less than the smallest coin
)

func (d *diff) area(room, what string, before, after plane.Region) {
	if math.Abs(before.Area()-after.Area()) > sameArea {
		d.text(room, what, say.AreaBoth(before.Area(), d.units), say.AreaBoth(after.Area(), d.units),
			d.squares(what, before, after))
	}
}

// squares is the area of two regions; nil: the revision has none.
func (d *diff) squares(of string, before, after plane.Region) Figure {
	f := Figure{Of: of, Unit: "m²"}
	for _, side := range []struct {
		to *(*float64)
		r  plane.Region
	}{{&f.Before, before}, {&f.After, after}} {
		if side.r != nil {
			v := layout.Round(side.r.Area()/plane.SquareMetre, 3)
			*side.to = &v
		}
	}
	return f
}

func (d *diff) length(mm float64) string {
	return say.Whole(mm, d.units)
}

func (d *diff) room(was, now *layout.Room) {
	name := now.Job.Name
	d.now, d.was = layout.NewTape(now.Job, d.units), layout.NewTape(was.Job, d.units)
	if len(d.was.Walls) == len(d.now.Walls) { // letters stand for the same walls: measure from these both times
		d.was.D1, d.was.D2 = d.now.D1, d.now.D2
	}
	d.walls(was.Job, now.Job)
	d.area(name, "floor", was.Floor, now.Floor)
	d.area(name, "tiled", was.Tiled, now.Tiled)
	d.area(name, "heated", was.Heated, now.Heated)
	d.things(was.Job, now.Job)
	d.place(name, "thermostat", &was.Job.Thermostat.At, &now.Job.Thermostat.At)
	d.span(name, "thermostat height", was.Job.Thermostat.Height, now.Job.Thermostat.Height)
	d.text(name, "floor limit", d.degrees(was.Job.Thermostat.Limit), d.degrees(now.Job.Thermostat.Limit),
		ifGiven("floor limit", "°C", was.Job.Thermostat.Limit, now.Job.Thermostat.Limit))
	for i := range max(len(was.Cables), len(now.Cables)) {
		d.cable(name, cableAt(was, i), cableAt(now, i))
	}
	for _, s := range []string{"S1", "S2"} {
		d.place(name, "sensor "+s, sensorTip(was, s), sensorTip(now, s))
	}
}

// span compares two lengths.
func (d *diff) span(room, what string, before, after float64) {
	d.text(room, what, d.length(before), d.length(after), both(what, "mm", layout.Round(before, 1),
		layout.Round(after, 1)))
}

// walls says of each wall, by its letter, how its length changed.
func (d *diff) walls(was, now *job.Room) {
	if len(was.Walls) != len(now.Walls) {
		d.text(now.Name, "walls", fmt.Sprint(len(was.Walls)), fmt.Sprint(len(now.Walls)),
			both("walls", "", float64(len(was.Walls)), float64(len(now.Walls))))
		return
	}
	for i, w := range now.Walls {
		if b := was.Walls[i].Length(); math.Abs(b-w.Length()) > 0.5 {
			mid := w.At(w.Length() / 2)
			d.add(Change{Room: now.Name, What: "wall " + w.Letter, Before: d.length(b), After: d.length(w.Length()),
				At: &mid, Radius: cloudLeast,
				Figures: []Figure{both("length", "mm", layout.Round(b, 1), layout.Round(w.Length(), 1))}})
		}
	}
}

func cableAt(r *layout.Room, i int) *layout.Cable {
	if i < len(r.Cables) {
		return &r.Cables[i]
	}
	return nil
}

func sensorTip(r *layout.Room, name string) *plane.Point {
	for i := range r.Sensors {
		if r.Sensors[i].Name == name {
			return &r.Sensors[i].Tip
		}
	}
	return nil
}

func (d *diff) cable(room string, was, now *layout.Cable) {
	switch {
	case was == nil:
		d.add(Change{Room: room, What: "cable " + now.ID, After: d.label(now), At: &now.Path[0], Radius: cloudLeast})
		return
	case now == nil:
		d.add(Change{Room: room, What: "cable " + was.ID, Before: d.label(was)})
		return
	}
	d.text(room, "evidence of where "+now.ID+" lies", evidence(was).String(), evidence(now).String())
	a, b := was.Label, now.Label
	d.text(room, "cable "+now.ID, d.label(was), d.label(now), both("volts", "V", a.Volts, b.Volts),
		both("watts", "W", a.Watts, b.Watts), both("length", "mm", layout.Round(a.Length, 1),
			layout.Round(b.Length, 1)))
	if math.Abs(was.Spacing-now.Spacing) > 0.5 {
		d.span(room, "spacing of "+now.ID, was.Spacing, now.Spacing)
	}
	d.text(room, "power per area at even spacing of "+now.ID, d.density(was), d.density(now),
		both("power per area", "W/m²", layout.Round(was.Density, 1), layout.Round(now.Density, 1)))
	d.text(room, "runs of "+now.ID, fmt.Sprint(len(was.Runs)), fmt.Sprint(len(now.Runs)),
		both("runs", "", float64(len(was.Runs)), float64(len(now.Runs))))
	d.otherRuns(room, was, now)
	d.place(room, "lead joint of "+now.ID, &was.Path[0], &now.Path[0])
	d.place(room, "half-way mark of "+now.ID, &was.Marks[1].At, &now.Marks[1].At)
	d.place(room, now.EndName()+" of "+now.ID, &was.Path[len(was.Path)-1], &now.Path[len(now.Path)-1])
}

// evidence is how it was found out where a cable lies.
func evidence(c *layout.Cable) job.Evidence {
	if c.Laid.Recorded() {
		return c.Laid.Job.Evidence
	}
	return job.PlanOnly
}

func (d *diff) label(c *layout.Cable) string {
	return fmt.Sprintf("%s, %s, %s, %s", c.Label.ID, say.Volts(c.Label.Volts), say.Watts(c.Label.Watts),
		say.About(c.Label.Length, d.units))
}

func (d *diff) density(c *layout.Cable) string { return say.Density(c.Density, d.units) }

func (d *diff) load(was, now *layout.Load) {
	if was == nil || now == nil {
		return
	}
	words := func(l *layout.Load) string {
		return fmt.Sprintf("%s, %s at %s", say.Amps(l.Amps), say.Watts(l.Watts), say.Volts(l.Volts))
	}
	d.text(now.Room, "load", words(was), words(now), both("amps", "A", layout.Round(was.Amps, 2),
		layout.Round(now.Amps, 2)), both("watts", "W", layout.Round(was.Watts, 1), layout.Round(now.Watts, 1)),
		both("volts", "V", was.Volts, now.Volts))
}

// quantities says what the order changes by: whole packs where there are any.
func (d *diff) quantities(changes []takeoff.Change) {
	for _, q := range changes {
		c := Change{What: "take-off, " + q.Item.String(), Before: d.quantity(q.Before, q.Unit),
			After: d.quantity(q.After, q.Unit), Figures: []Figure{both("quantity", q.Unit, layout.Round(q.Before, 3),
				layout.Round(q.After, 3))}}
		costs := math.Abs(q.Price-q.PriceBefore) >= samePrice
		if q.Packs == 0 && c.Before == c.After && !costs {
			continue // less than the figures printed show
		}
		if q.Packs != 0 {
			c.After += ", " + strings.TrimSpace(fmt.Sprintf("%+d %s", q.Packs, q.PackName)) + " to buy"
			c.Figures = append(c.Figures, both("packs", q.PackName, float64(q.PacksBefore),
				float64(q.PacksBefore+q.Packs)))
		}
		if costs {
			c.Before += ", " + d.money(q.PriceBefore)
			c.After += ", " + d.money(q.Price) + ", " + d.more(q.Price-q.PriceBefore)
			c.Figures = append(c.Figures, both("cost", d.currency, layout.Round(q.PriceBefore, 2),
				layout.Round(q.Price, 2)))
		}
		d.add(c)
	}
}

// quantity writes a figure of the take-off, in US units too where lengths are
// in inches.
func (d *diff) quantity(v float64, unit string) string {
	s := takeoff.Figure(v, unit) + " " + unit
	if us, name := takeoff.US(v, unit); d.units == plane.Inches && name != unit {
		return takeoff.Figure(us, name) + " " + name + " (" + s + ")"
	}
	return s
}
