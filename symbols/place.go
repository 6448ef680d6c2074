package symbols

import (
	"oxturn/drawing"
	"oxturn/layout/plane"
)

// A Shape is one path of an outline, in floor mm of its own: the origin is the
// back left corner, or the start of the opening; x runs along the back or the
// wall, y into the room.
type Shape struct {
	Segs   []drawing.Seg
	Stroke *drawing.Stroke // nil: no line
	Fill   *drawing.Colour // nil: not filled
}

// A Frame says where an outline stands on the floor: its origin, and where its
// x and y point, both of length 1.
type Frame struct{ O, X, Y plane.Point }

// OnLeft returns the frame along s with y to its left, for a wall or back edge
// with the room on its left.
func OnLeft(s plane.Segment) Frame {
	u := s.B.Sub(s.A).Unit()
	return Frame{s.A, u, u.Left()}
}

// OnRight returns the frame along s with y to its right.
func OnRight(s plane.Segment) Frame {
	f := OnLeft(s)
	f.Y = f.Y.Mul(-1)
	return f
}

// Floor returns the place on the floor of a place in the outline.
func (f Frame) Floor(p drawing.Pt) plane.Point {
	return f.O.Add(f.X.Mul(p.X)).Add(f.Y.Mul(p.Y))
}

// Items puts shapes on paper. The first one carries the title.
func Items(shapes []Shape, f Frame, v drawing.View, layer drawing.Layer, title string) []drawing.Item {
	var items []drawing.Item
	for i, s := range shapes {
		p := &drawing.Path{Layer: layer, Stroke: s.Stroke, Fill: s.Fill}
		p.Segs = drawing.Mapped(s.Segs, func(p drawing.Pt) drawing.Pt { return v.Pt(f.Floor(p)) })
		if i == 0 {
			p.Title = title
		}
		items = append(items, p)
	}
	return items
}

// edge is a visible outline, hiding the floor below it.
func edge(segs []drawing.Seg) Shape {
	return Shape{Segs: segs, Stroke: drawing.FixtureLine()}
}

// fine is a detail inside an outline.
func fine(segs ...drawing.Seg) Shape {
	return Shape{Segs: segs, Stroke: drawing.ThinLine()}
}

func rect(x0, y0, x1, y1 float64) []drawing.Seg {
	return drawing.Rectangle(drawing.Box{X0: x0, Y0: y0, X1: x1, Y1: y1})
}

func line(x0, y0, x1, y1 float64) []drawing.Seg {
	return drawing.Polyline(drawing.Pt{X: x0, Y: y0}, drawing.Pt{X: x1, Y: y1})
}

// arc is counter-clockwise with y up, the way outlines are written.
func arc(x, y, r, from, to float64) []drawing.Seg {
	return drawing.Arc(drawing.Pt{X: x, Y: y}, r, -from, -to)
}

func circle(x, y, r float64) []drawing.Seg {
	return drawing.Circle(drawing.Pt{X: x, Y: y}, r)
}

// oval is an ellipse with half axes a and b.
func oval(x, y, a, b float64) []drawing.Seg {
	return drawing.Mapped(drawing.Circle(drawing.Pt{}, 1), func(p drawing.Pt) drawing.Pt {
		return drawing.Pt{X: x + p.X*a, Y: y + p.Y*b}
	})
}

// softRect is a rectangle with round corners.
func softRect(x0, y0, x1, y1, r float64) []drawing.Seg {
	r = min(r, (x1-x0)/2, (y1-y0)/2)
	var segs []drawing.Seg
	segs = append(segs, arc(x0+r, y0+r, r, 180, 270)...)
	segs = append(segs, arc(x1-r, y0+r, r, 270, 360)...)
	segs = append(segs, arc(x1-r, y1-r, r, 0, 90)...)
	segs = append(segs, arc(x0+r, y1-r, r, 90, 180)...)
	for i := range segs[1:] {
		if segs[i+1].Op == drawing.Move {
			segs[i+1].Op = drawing.Line
		}
	}
	return append(segs, drawing.Seg{Op: drawing.Close})
}
