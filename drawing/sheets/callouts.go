package sheets

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// ringSize is the radius of the ring about what is called out, mm on paper.
const ringSize = 3.2

// callOut asks for the bubbles of the details of some kinds, each with a leader to what its
// detail shows of the view's room.
func callOut(v *floorplan.View, kinds ...detailOf) {
	for _, d := range detailsOf(v.Plan) {
		if !slices.Contains(kinds, d.of) || d.of == ofCrossing && d.room.Job.Name != v.Room.Job.Name {
			continue
		}
		switch d.of {
		case ofCrossing:
			if p, ok := first(v); ok {
				bubble(v, d, ring(v, p), ringSize, true)
			}
		case ofRise:
			if w, hangs := v.Room.Job.BoxWall(); hangs {
				bubble(v, d, v.BoxAt(w), symbols.ThermostatSize/2+0.4, true)
			}
		case ofJoints, ofCaps:
			if len(v.Room.Cables) > 0 { // its detail names the other cables
				at := v.Room.Cables[0].Ends()[int(d.of-ofJoints)].At
				bubble(v, d, ring(v, at), ringSize, false)
			}
		case ofSection:
			if a, b, ok := cutOf(v, d); ok {
				cut(v, a, b)
				bubble(v, d, b, 0, true)
			}
		}
	}
}

// ring draws a ring about a place of the floor.
func ring(v *floorplan.View, p plane.Point) drawing.Pt {
	at := v.Paper.Pt(p)
	segs := drawing.Circle(at, ringSize)
	v.Path(drawing.LayerDims, "called out", segs, drawing.ThinLine(), nil)
	v.Ink.Segs(segs, lettering.ThinInk)
	return at
}

// bubble asks for a bubble off a place that is called out, in one line where that is all there is
// room for. Its leader crosses one run at most, and a wall only where what it leads to stands at one.
func bubble(v *floorplan.View, d detail, at drawing.Pt, reach float64, atWall bool) {
	as := func(w, h float64, mark func(int, drawing.Pt) []drawing.Item) *lettering.Label {
		l := &lettering.Label{Text: strconv.Itoa(d.number), Rank: 4, Subject: at,
			Note: d.name + v.Fig.Joint(": ") + setting.DetailAt(d.number, v.Fig.Language),
			Mark: func(at drawing.Pt, _ string) []drawing.Item { return mark(d.number, at) }}
		size := drawing.Box{X0: -w / 2, Y0: -h / 2, X1: w / 2, Y1: h / 2}
		for _, s := range floorplan.LeaderSpots(at, reach, size, 60) {
			from, to := s.Leader[0], s.Leader[1]
			if v.Ink.Crossings(from, to, lettering.CableInk) > 1 ||
				!atWall && v.Ink.Crossed(from, to, lettering.SolidInk) {
				continue
			}
			s.Most = lettering.OverCable
			l.Spots = append(l.Spots, s)
		}
		return l
	}
	low := drawing.BoxOfItems(v.LowCallout(d.number, drawing.Pt{}))
	l := as(symbols.CalloutSize, symbols.CalloutSize, v.Callout)
	l.Instead = as(low.W(), low.H(), v.LowCallout)
	v.Letters.Add(l)
}

// cutReach is how far a section's mark reaches to either side of what is cut, mm on paper.
const cutReach = 2.6

// cut draws the mark of a section: a short thick line from a to b, the way that it looks at
// both ends.
func cut(v *floorplan.View, a, b drawing.Pt) {
	v.Path(drawing.LayerDims, "section", drawing.Polyline(a, b), &drawing.Stroke{Width: drawing.W050}, nil)
	v.Ink.Line([]drawing.Pt{a, b}, lettering.SolidInk)
	look := b.Sub(a).Unit().Left()
	for _, p := range []drawing.Pt{a, b} {
		v.Fixed(symbols.Arrowhead(p.Add(look.Mul(symbols.ArrowLength)), look))
	}
}

// cutOf returns where a section cuts the view's room: across its first movement joint, a
// little off the joint's end, or across the edge of its longest wall that has floor before it.
func cutOf(v *floorplan.View, d detail) (a, b drawing.Pt, ok bool) {
	r := v.Room.Job
	if f, isJoint := d.figure.(jointDetail); isJoint && !f.wall {
		if len(r.Joints) == 0 {
			return a, b, false
		}
		j := r.Joints[0]
		p, q := v.Paper.Pt(j.A), v.Paper.Pt(j.B)
		if box := v.Paper.Pt(r.Thermostat.At); box.Dist(p) < box.Dist(q) { // there is more on the drawing
			p, q = q, p
		}
		u := q.Sub(p).Unit()
		at := p.Add(u.Mul(math.Min(6, p.Dist(q)/2)))
		return at.Sub(u.Left().Mul(cutReach)), at.Add(u.Left().Mul(cutReach)), true
	}
	walls := make([]int, len(r.Walls))
	for i := range walls {
		walls[i] = i
	}
	slices.SortStableFunc(walls, func(i, j int) int { return cmp.Compare(r.Walls[j].Length(), r.Walls[i].Length()) })
	for _, i := range walls {
		w := r.Walls[i]
		out := v.Paper.Dir(v.Outward(w.Segment))
		for _, t := range []float64{0.25, 0.75, 0.4, 0.6, 0.12, 0.88} {
			p := w.At(w.Length() * t)
			far := p.Dist(r.Thermostat.At) > 12*v.Paper.Ratio || !hasBox(r)
			if inside := p.Sub(v.Outward(w.Segment).Mul(edgeFloor)); far && v.StandsAt(i, w.Length()*t) &&
				v.Room.Tiled.Contains(inside) {
				at := v.Paper.Pt(p)
				return at.Sub(out.Mul(cutReach)), at.Add(out.Mul(cutReach)), true
			}
		}
	}
	return a, b, false
}

// edgeFloor is how far off a wall there must be tile for its edge to be cut there, mm.
const edgeFloor = 40.0
