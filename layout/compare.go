package layout

import (
	"fmt"
	"math"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// A Change is one thing that differs between two revisions of a job.
type Change struct {
	Room   string // empty: of the whole job
	What   string // "cable", "amps", "sensor S1"...
	Before string
	After  string
	Moved  float64      // mm, of a place that moved
	At     *plane.Point // where the change is to be seen on the newer plan, nil: nowhere
	Radius float64      // mm round At that it takes
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
	}
	return s + c.Before + " -> " + c.After
}

// Compare lists what changed from one plan to another, in the terms of those
// who ordered and build it: rooms, cable, load, quantities and places. Rooms
// are matched by name.
func Compare(before, after *Plan) []Change {
	u := after.Job.Units
	d := &diff{units: u}
	d.text("", "status", before.Job.Info.Status.String(), after.Job.Info.Status.String())
	d.text("", "drawing no.", before.Job.Info.Number, after.Job.Info.Number)
	d.text("", "revision", lastLetter(before.Job), lastLetter(after.Job))
	d.settings(before.Job, after.Job)
	for i := range after.Rooms {
		now := &after.Rooms[i]
		was := before.roomNamed(now.Job.Name)
		if was == nil {
			d.add(Change{What: "room", After: now.Job.Name + ", " + plane.FormatArea(now.Floor.Area(), u)})
			continue
		}
		d.room(was, now)
		d.load(before.loadOf(now.Job.Name), after.loadOf(now.Job.Name))
	}
	for i := range before.Rooms {
		if was := &before.Rooms[i]; after.roomNamed(was.Job.Name) == nil {
			d.add(Change{What: "room", Before: was.Job.Name + ", " + plane.FormatArea(was.Floor.Area(), u)})
		}
	}
	d.quantities(takeoff.Compare(before.TakeOff, after.TakeOff))
	return d.out
}

func lastLetter(j *job.Job) string {
	if n := len(j.Revisions); n > 0 {
		return j.Revisions[n-1].Letter
	}
	return ""
}

func (p *Plan) roomNamed(name string) *Room {
	for i := range p.Rooms {
		if p.Rooms[i].Job.Name == name {
			return &p.Rooms[i]
		}
	}
	return nil
}

func (p *Plan) loadOf(room string) *Load {
	for i := range p.Load {
		if p.Load[i].Room == room {
			return &p.Load[i]
		}
	}
	return nil
}

// diff gathers changes.
type diff struct {
	units plane.Units
	out   []Change
}

func (d *diff) add(c Change) { d.out = append(d.out, c) }

func (d *diff) text(room, what, before, after string) {
	if before != after {
		d.add(Change{Room: room, What: what, Before: before, After: after})
	}
}

// Amounts of change that are not worth saying.
const (
	sameArea  = 0.005e6 // mm²
	samePlace = 5.0     // mm
)

func (d *diff) area(room, what string, before, after float64) {
	if math.Abs(before-after) > sameArea {
		d.add(Change{Room: room, What: what, Before: plane.FormatArea(before, d.units), After: plane.FormatArea(after, d.units)})
	}
}

// Sizes of a cloud round what changed, mm of floor: that of a thing goes by its
// own size, within bounds that leave the rest of the plan to be read.
const (
	cloudLeast = 120.0
	cloudMost  = 350.0
)

func cloudOf(ring plane.Ring) float64 {
	b := ring.Bounds()
	return max(cloudLeast, min(cloudMost, b.W()/2, b.H()/2))
}

// place compares where something is; nil: it is not there.
func (d *diff) place(room, what string, before, after *plane.Point) {
	switch {
	case before == nil && after == nil:
	case before == nil:
		d.add(Change{Room: room, What: what, After: d.point(*after), At: after, Radius: cloudLeast})
	case after == nil:
		d.add(Change{Room: room, What: what, Before: d.point(*before), At: before, Radius: cloudLeast})
	default:
		if off := before.Dist(*after); off > samePlace {
			d.add(Change{Room: room, What: what, Before: d.point(*before), After: d.point(*after) + ", moved " + d.length(off) + " " + compass(after.Sub(*before)), Moved: off, At: after, Radius: cloudLeast})
		}
	}
}

func (d *diff) point(p plane.Point) string {
	return "(" + d.length(p.X) + ", " + d.length(p.Y) + ")"
}

func (d *diff) length(mm float64) string {
	if d.units == plane.Inches {
		return plane.FormatFeetInches(mm)
	}
	return fmt.Sprintf("%.0f mm", mm)
}

func (d *diff) room(was, now *Room) {
	name := now.Job.Name
	d.walls(was.Job, now.Job)
	d.area(name, "floor", was.Floor.Area(), now.Floor.Area())
	d.area(name, "tiled", was.Tiled.Area(), now.Tiled.Area())
	d.area(name, "heated", was.Heated.Area(), now.Heated.Area())
	d.things(was.Job, now.Job)
	d.place(name, "thermostat", &was.Job.Thermostat.At, &now.Job.Thermostat.At)
	d.text(name, "thermostat height", d.length(was.Job.Thermostat.Height), d.length(now.Job.Thermostat.Height))
	for i := range max(len(was.Cables), len(now.Cables)) {
		d.cable(name, cableAt(was, i), cableAt(now, i))
	}
	for _, s := range []string{"S1", "S2"} {
		d.place(name, "sensor "+s, was.sensorTip(s), now.sensorTip(s))
	}
}

// walls says of each wall, by its letter, how its length changed.
func (d *diff) walls(was, now *job.Room) {
	if len(was.Walls) != len(now.Walls) {
		d.text(now.Name, "walls", fmt.Sprint(len(was.Walls)), fmt.Sprint(len(now.Walls)))
		return
	}
	for i, w := range now.Walls {
		if b := was.Walls[i].Length(); math.Abs(b-w.Length()) > 0.5 {
			mid := w.At(w.Length() / 2)
			d.add(Change{Room: now.Name, What: "wall " + w.Letter, Before: d.length(b), After: d.length(w.Length()), At: &mid, Radius: cloudLeast})
		}
	}
}

// things compares fixtures, keep-outs, fixings, joints and openings by name.
func (d *diff) things(was, now *job.Room) {
	type outline struct {
		name string
		ring plane.Ring
	}
	list := func(r *job.Room) (out []outline) {
		for _, f := range r.Fixtures {
			out = append(out, outline{f.Name, f.Outline})
		}
		for _, k := range r.KeepOuts {
			out = append(out, outline{k.Name, k.Outline})
		}
		for _, x := range r.Fixings {
			out = append(out, outline{x.Name, x.Line})
		}
		for _, m := range r.Joints {
			out = append(out, outline{m.Name, plane.Ring{m.A, m.B}})
		}
		for _, o := range r.Openings {
			if o.Wall >= 0 && o.Wall < len(r.Walls) {
				w := r.Walls[o.Wall].Segment
				out = append(out, outline{o.Name, plane.Ring{w.At(o.From), w.At(o.To)}})
			}
		}
		return out
	}
	before := map[string]plane.Ring{}
	for _, o := range list(was) {
		before[o.name] = o.ring
	}
	seen := map[string]bool{}
	for _, o := range list(now) {
		ring, there := before[o.name]
		seen[o.name] = true
		c := o.ring.Bounds().Centre()
		switch {
		case !there:
			d.add(Change{Room: now.Name, What: o.name, After: "at " + d.point(c), At: &c, Radius: cloudOf(o.ring)})
		default:
			if off := farthestCorner(ring, o.ring); off > samePlace {
				d.add(Change{Room: now.Name, What: o.name, Before: "at " + d.point(ring.Bounds().Centre()), After: "at " + d.point(c) + ", up to " + d.length(off) + " off", Moved: off, At: &c, Radius: cloudOf(o.ring)})
			}
		}
	}
	for _, o := range list(was) {
		if c := o.ring.Bounds().Centre(); !seen[o.name] {
			d.add(Change{Room: now.Name, What: o.name, Before: "at " + d.point(c), At: &c, Radius: cloudOf(o.ring)})
		}
	}
}

// farthestCorner is how far the corners of two outlines are apart at the most.
func farthestCorner(a, b plane.Ring) float64 {
	off := 0.0
	for _, pair := range [2][2]plane.Ring{{a, b}, {b, a}} {
		for _, p := range pair[0] {
			near := math.Inf(1)
			for _, q := range pair[1] {
				near = math.Min(near, p.Dist(q))
			}
			off = math.Max(off, near)
		}
	}
	return off
}

func cableAt(r *Room, i int) *Cable {
	if i < len(r.Cables) {
		return &r.Cables[i]
	}
	return nil
}

func (r *Room) sensorTip(name string) *plane.Point {
	for i := range r.Sensors {
		if r.Sensors[i].Name == name {
			return &r.Sensors[i].Tip
		}
	}
	return nil
}

func (d *diff) cable(room string, was, now *Cable) {
	switch {
	case was == nil:
		d.add(Change{Room: room, What: "cable " + now.ID, After: d.label(now), At: &now.Path[0], Radius: cloudLeast})
		return
	case now == nil:
		d.add(Change{Room: room, What: "cable " + was.ID, Before: d.label(was)})
		return
	}
	d.text(room, "cable "+now.ID, d.label(was), d.label(now))
	if math.Abs(was.Spacing-now.Spacing) > 0.5 {
		d.text(room, "spacing of "+now.ID, d.length(was.Spacing), d.length(now.Spacing))
	}
	d.text(room, "power per area of "+now.ID, d.density(was), d.density(now))
	d.text(room, "runs of "+now.ID, fmt.Sprint(len(was.Runs)), fmt.Sprint(len(now.Runs)))
	d.place(room, "lead joint of "+now.ID, &was.Path[0], &now.Path[0])
	d.place(room, "half-way mark of "+now.ID, &was.Marks[1].At, &now.Marks[1].At)
	d.place(room, "end cap of "+now.ID, &was.Path[len(was.Path)-1], &now.Path[len(now.Path)-1])
}

func (d *diff) label(c *Cable) string {
	return fmt.Sprintf("%s, %g V, %g W, %s", c.Label.ID, c.Label.Volts, c.Label.Watts, length(c.Label.Length, d.units))
}

func (d *diff) density(c *Cable) string {
	if d.units == plane.Inches {
		return fmt.Sprintf("%.1f W/ft²", c.Density*plane.Foot*plane.Foot/1e6)
	}
	return fmt.Sprintf("%.0f W/m²", c.Density)
}

func (d *diff) load(was, now *Load) {
	if was == nil || now == nil {
		return
	}
	say := func(l *Load) string { return fmt.Sprintf("%.2f A, %.0f W at %.0f V", l.Amps, l.Watts, l.Volts) }
	d.text(now.Room, "load", say(was), say(now))
}

// quantities says what the order changes by: whole packs where there are any.
func (d *diff) quantities(changes []takeoff.Change) {
	for _, q := range changes {
		c := Change{What: "take-off, " + q.Item, Before: d.quantity(q.Before, q.Unit), After: d.quantity(q.After, q.Unit)}
		if q.Packs != 0 {
			c.After += fmt.Sprintf(", %+d to buy", q.Packs)
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
