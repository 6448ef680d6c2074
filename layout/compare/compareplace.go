package compare

import (
	"math"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

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
	c := Change{Room: room, What: what, At: after, Radius: cloudLeast, Figures: d.fromWalls(before, after)}
	if before != nil {
		c.Before = d.was.Place(*before)
	}
	if after != nil {
		c.After = d.now.Place(*after)
	}
	switch {
	case before == nil && after == nil:
		return
	case after == nil:
		c.At = before
	case before != nil:
		if c.Moved = before.Dist(*after); c.Moved <= samePlace {
			return
		}
		c.How = d.moved(after.Sub(*before))
	}
	d.add(c)
}

// moved says how far something was moved and to which side of the sheet.
func (d *diff) moved(by plane.Point) string {
	return "moved " + d.now.Length(by.Norm()) + " to the " + layout.SideOfSheet(by)
}

// fromWalls are the distances of a place from the two datum walls.
func (d *diff) fromWalls(before, after *plane.Point) []Figure {
	var out []Figure
	off := func(t layout.Tape, wall int, p *plane.Point) *float64 {
		if p == nil || wall >= len(t.Walls) {
			return nil
		}
		v := layout.Round(t.Walls[wall].FromWall(*p), 1)
		return &v
	}
	d1, d2 := d.now.Datums()
	for _, wall := range []int{d1, d2} {
		out = append(out, Figure{"from wall " + d.now.Walls[wall].Letter, "mm", off(d.was, wall, before),
			off(d.now, wall, after)})
	}
	return out
}

// An outline is that of something by name; that of a point or a line too.
type outline struct {
	name string
	ring plane.Ring
}

// outlines are those of a room's fixtures, keep-outs, fixings, joints and
// openings.
func outlines(r *job.Room) (out []outline) {
	for _, s := range r.Stands() {
		out = append(out, outline{s.Name, s.Outline})
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

// things compares what a room has by name.
func (d *diff) things(was, now *job.Room) {
	before := map[string]plane.Ring{}
	for _, o := range outlines(was) {
		before[o.name] = o.ring
	}
	seen := map[string]bool{}
	for _, o := range outlines(now) {
		seen[o.name] = true
		d.thing(now.Name, o.name, before[o.name], o.ring)
	}
	for _, o := range outlines(was) {
		if !seen[o.name] {
			d.thing(now.Name, o.name, o.ring, nil)
		}
	}
}

// sameSize is what a thing that only moved may differ by, mm.
const sameSize = 1.0

// thing compares an outline; nil: it is not there.
func (d *diff) thing(room, what string, before, after plane.Ring) {
	if len(before) == 0 || len(after) == 0 {
		c := Change{Room: room, What: what}
		if len(after) > 0 {
			at := after.Bounds().Centre()
			c.After, c.At, c.Radius, c.Figures = thing(d.now, after, true), &at, cloudOf(after), d.fromWalls(nil, &at)
		} else {
			at := before.Bounds().Centre()
			c.Before, c.At, c.Radius, c.Figures = thing(d.was, before, true), &at, cloudOf(before), d.fromWalls(&at,
				nil)
		}
		d.add(c)
		return
	}
	off := farthestCorner(before, after)
	if off <= samePlace {
		return
	}
	a, b := before.Bounds(), after.Bounds()
	from, to := a.Centre(), b.Centre()
	c := Change{Room: room, What: what, Moved: off, At: &to, Radius: cloudOf(after), Figures: d.fromWalls(&from, &to)}
	resized := math.Abs(a.W()-b.W()) > sameSize || math.Abs(a.H()-b.H()) > sameSize ||
		farthestCorner(plane.Moved(before, to.Sub(from)), after) > samePlace
	if resized {
		c.How = "changed by up to " + d.now.Length(off)
		c.Figures = append(c.Figures, both("east-west", "mm", layout.Round(a.W(), 1), layout.Round(b.W(), 1)),
			both("north-south", "mm", layout.Round(a.H(), 1), layout.Round(b.H(), 1)))
	} else {
		c.How = d.moved(to.Sub(from))
	}
	c.Before, c.After = thing(d.was, before, resized), thing(d.now, after, resized)
	d.add(c)
}

// thing says where an outline lies, and how large it is.
func thing(t layout.Tape, ring plane.Ring, sized bool) string {
	b := ring.Bounds()
	size := ""
	switch {
	case !sized || len(ring) < 2:
	case len(ring) == 2:
		size = t.Length(ring[0].Dist(ring[1])) + " long, "
	default:
		size = t.Length(b.W()) + " x " + t.Length(b.H()) + ", "
	}
	if len(ring) < 2 {
		return t.Place(b.Centre())
	}
	return size + "its middle " + t.Place(b.Centre())
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
