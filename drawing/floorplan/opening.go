package floorplan

import (
	"math"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/signs"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// outSwing is how far a door that opens outwards is drawn open, degrees: its
// swing matters less to the floor than the paper that a right angle would
// take.
const outSwing = 30

// DrawOpenings draws doorways, doors and windows.
func (v *View) DrawOpenings() {
	for _, o := range v.Room.Job.Openings {
		if o.Wall >= 0 && o.Wall < len(v.Room.Job.Walls) {
			v.opening(o)
		}
	}
	for _, p := range v.Room.Job.Partitions {
		v.doorways(p)
	}
}

// doorways draws what is open in a partition.
func (v *View) doorways(p job.Partition) {
	side := p.B.Sub(p.A).Unit().Left().Mul(p.Thickness / 2)
	face := plane.Segment{A: p.A.Add(side), B: p.B.Add(side)}
	for _, o := range p.Openings {
		s, shapes := doorSign(o, p.Thickness)
		v.stand(s, shapes, symbols.OnLeft(plane.Segment{A: face.At(o.From), B: face.At(o.To)}), drawing.LayerWalls,
			o.Name)
	}
}

// doorSign is what an opening of a partition is drawn with.
func doorSign(o job.Opening, thick float64) (signs.Sign, []symbols.Shape) {
	width := o.To - o.From
	switch o.Swing {
	case "in", "out":
		return signs.Door, symbols.Door(width, thick, o.Swing == "in", o.Hinge == "end")
	case "slide":
		return signs.Sliding, symbols.SlidingDoor(width, thick)
	}
	return signs.Cased, symbols.CasedOpening(width, thick)
}

func (v *View) opening(o job.Opening) {
	w := v.Room.Job.Walls[o.Wall].Segment
	a, b := w.At(math.Min(o.From, o.To)), w.At(math.Max(o.From, o.To))
	width, thick := a.Dist(b), Poche*v.Paper.Ratio
	out := v.Outward(w).Mul(thick)
	v.Ink.Line(v.Paper.Pts([]plane.Point{a, a.Add(out), b.Add(out), b}), lettering.SolidInk)
	draw := func(s signs.Sign, shapes []symbols.Shape) {
		v.stand(s, shapes, v.along(plane.Segment{A: a, B: b}), drawing.LayerWalls, o.Name)
	}
	if o.Kind == "window" {
		draw(signs.Window, symbols.Window(width, thick))
		return
	}
	if o.Threshold {
		draw(signs.Threshold, symbols.Threshold(width, thick))
	}
	switch {
	case o.Swing == "in":
		draw(signs.Door, symbols.Door(width, thick, true, o.Hinge == "end"))
	case o.Swing == "out":
		draw(signs.Door, symbols.Jambs(width, thick))
		v.outDoor(o, a.Add(out), b.Add(out), out)
	case o.Swing == "slide":
		draw(signs.Sliding, symbols.SlidingDoor(width, thick))
	case o.Threshold:
		draw(signs.Threshold, symbols.Jambs(width, thick))
	default:
		draw(signs.Cased, symbols.CasedOpening(width, thick))
	}
}

// along returns the frame of a piece of wall, its y into the room.
func (v *View) along(s plane.Segment) symbols.Frame {
	if v.Out > 0 {
		return symbols.OnLeft(s)
	}
	return symbols.OnRight(s)
}

// stand puts the outline of a sign on the floor; its thin lines may be lettered
// over.
func (v *View) stand(s signs.Sign, shapes []symbols.Shape, f symbols.Frame, l drawing.Layer, title string) {
	for _, it := range symbols.Items(shapes, f, v.Paper, l, title) {
		v.Add(it)
		v.Ink.Segs(it.(*drawing.Path).Segs, lettering.ThinInk)
	}
	v.Uses(s)
}

// outDoor draws the leaf and the sweep of a door that opens outwards, from the
// outer face of the wall.
func (v *View) outDoor(o job.Opening, a, b, out plane.Point) {
	hinge, shut := a, b
	if o.Hinge == "end" {
		hinge, shut = b, a
	}
	leaf, turn := shut.Sub(hinge), plane.Radians(outSwing)
	if leaf.Rotate(turn).Dot(out) < 0 {
		turn = -turn
	}
	tip := hinge.Add(leaf.Rotate(turn))
	v.LineOn(drawing.LayerWalls, o.Name, drawing.FixtureLine(), hinge, tip)
	on := v.Paper.Turned(leaf)
	from := plane.Degrees(math.Atan2(on.Y, on.X))
	arc := drawing.Arc(v.Paper.Pt(hinge), v.Paper.Len(leaf.Norm()), from, from+plane.Degrees(turn))
	v.Path(drawing.LayerWalls, "", arc, drawing.ThinLine(), nil)
	v.Ink.Segs(arc, lettering.ThinInk)
	v.Ink.Line(v.Paper.Pts([]plane.Point{hinge, tip}), lettering.ThinInk)
}

// LineOn draws a straight line of the floor.
func (v *View) LineOn(l drawing.Layer, title string, s *drawing.Stroke, pts ...plane.Point) {
	v.Path(l, title, drawing.Polyline(v.Paper.Pts(pts)...), s, nil)
}

// swingRoom is how far doors that open outwards reach beyond the poché, mm on
// paper.
func swingRoom(r *job.Room, ratio float64) float64 {
	most := 0.0
	for _, o := range r.Openings {
		if o.Swing == "out" {
			most = math.Max(most, math.Abs(o.To-o.From)*math.Sin(plane.Radians(outSwing))/ratio)
		}
	}
	return most
}
