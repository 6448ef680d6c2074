package sheets

import (
	"math"

	"oxturn/drawing"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// outSwing is how far a door that opens outwards is drawn open, degrees: its
// swing matters less to the floor than the paper that a right angle would
// take.
const outSwing = 30

// drawOpenings draws doorways, doors and windows.
func (v *roomView) drawOpenings() {
	for _, o := range v.room.Job.Openings {
		if o.Wall >= 0 && o.Wall < len(v.room.Job.Walls) {
			v.opening(o)
		}
	}
}

func (v *roomView) opening(o job.Opening) {
	w := v.room.Job.Walls[o.Wall].Segment
	a, b := w.At(math.Min(o.From, o.To)), w.At(math.Max(o.From, o.To))
	width, thick := a.Dist(b), poche*v.view.Ratio
	out := v.outward(w).Mul(thick)
	v.ink.line(v.view.Pts([]plane.Point{a, a.Add(out), b.Add(out), b}), solidInk)
	draw := func(s sign, shapes []symbols.Shape) {
		v.stand(s, shapes, v.along(plane.Segment{A: a, B: b}), drawing.LayerWalls, o.Name)
	}
	if o.Kind == "window" {
		draw(signWindow, symbols.Window(width, thick))
		return
	}
	if o.Threshold {
		draw(signThreshold, symbols.Threshold(width, thick))
	}
	switch {
	case o.Swing == "in":
		draw(signDoor, symbols.Door(width, thick, true, o.Hinge == "end"))
	case o.Swing == "out":
		draw(signDoor, symbols.Jambs(width, thick))
		v.outDoor(o, a.Add(out), b.Add(out), out)
	case o.Swing == "slide":
		draw(signSliding, symbols.SlidingDoor(width, thick))
	case o.Threshold:
		draw(signThreshold, symbols.Jambs(width, thick))
	default:
		draw(signCased, symbols.CasedOpening(width, thick))
	}
}

// along returns the frame of a piece of wall, its y into the room.
func (v *roomView) along(s plane.Segment) symbols.Frame {
	if v.out > 0 {
		return symbols.OnLeft(s)
	}
	return symbols.OnRight(s)
}

// stand puts the outline of a sign on the floor; its thin lines may be lettered
// over.
func (v *roomView) stand(s sign, shapes []symbols.Shape, f symbols.Frame, l drawing.Layer, title string) {
	for _, it := range symbols.Items(shapes, f, v.view, l, title) {
		v.add(it)
		v.ink.segs(it.(*drawing.Path).Segs, thinInk)
	}
	v.uses(s)
}

// outDoor draws the leaf and the sweep of a door that opens outwards, from the
// outer face of the wall.
func (v *roomView) outDoor(o job.Opening, a, b, out plane.Point) {
	hinge, shut := a, b
	if o.Hinge == "end" {
		hinge, shut = b, a
	}
	leaf, turn := shut.Sub(hinge), outSwing*math.Pi/180
	if leaf.Rotate(turn).Dot(out) < 0 {
		turn = -turn
	}
	tip := hinge.Add(leaf.Rotate(turn))
	v.lineOn(drawing.LayerWalls, o.Name, drawing.FixtureLine(), hinge, tip)
	from := math.Atan2(leaf.Y, leaf.X) * 180 / math.Pi
	arc := drawing.Arc(v.view.Pt(hinge), v.view.Len(leaf.Norm()), from, from+turn*180/math.Pi)
	v.path(drawing.LayerWalls, "", arc, drawing.ThinLine(), nil)
	v.ink.segs(arc, thinInk)
	v.ink.line(v.view.Pts([]plane.Point{hinge, tip}), thinInk)
}

// lineOn draws a straight line of the floor.
func (v *roomView) lineOn(l drawing.Layer, title string, s *drawing.Stroke, pts ...plane.Point) {
	v.path(l, title, drawing.Polyline(v.view.Pts(pts)...), s, nil)
}

// swingRoom is how far doors that open outwards reach beyond the poché, mm on
// paper.
func swingRoom(r *job.Room, ratio float64) float64 {
	most := 0.0
	for _, o := range r.Openings {
		if o.Swing == "out" {
			most = math.Max(most, math.Abs(o.To-o.From)*math.Sin(outSwing*math.Pi/180)/ratio)
		}
	}
	return most
}
