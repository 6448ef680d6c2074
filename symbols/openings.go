package symbols

import "oxturn/drawing"

// Openings are drawn from the start of the opening: x along the wall from 0 to
// width, the room's face of the wall at y = 0, its other face at y = -thick.

const leafThick = 40 // of a door leaf, mm

// Door is a leaf standing open at a right angle and the arc it swings along,
// with its jambs. into: it swings into the room; atEnd: its hinge is at the
// end of the opening, not the start.
func Door(width, thick float64, into, atEnd bool) []Shape {
	leaf := min(leafThick, width/4)
	shapes := []Shape{
		edge(rect(0, 0, leaf, width)),
		fine(arc(0, 0, width, 0, 90)...),
	}
	if atEnd {
		shapes = mapped(shapes, func(p drawing.Pt) drawing.Pt { return drawing.Pt{X: width - p.X, Y: p.Y} })
	}
	if !into {
		shapes = mapped(shapes, func(p drawing.Pt) drawing.Pt { return drawing.Pt{X: p.X, Y: -thick - p.Y} })
	}
	return append(shapes, Jambs(width, thick)...)
}

func mapped(shapes []Shape, f func(drawing.Pt) drawing.Pt) []Shape {
	out := make([]Shape, len(shapes))
	for i, s := range shapes {
		s.Segs = drawing.Mapped(s.Segs, f)
		out[i] = s
	}
	return out
}

// lapMost mm a leaf laps over its frame, drawn.
const lapMost = 50

// SlidingDoor is two leaves, one behind the other, that lap in the middle.
func SlidingDoor(width, thick float64) []Shape {
	leaf, lap, mid := min(leafThick, thick/3), min(lapMost, width/8), -thick/2
	return append([]Shape{
		edge(rect(0, mid, width/2+lap, mid+leaf)),
		edge(rect(width/2-lap, mid-leaf, width, mid)),
	}, Jambs(width, thick)...)
}

// CasedOpening is an opening without a door: its head, above the cut, dashed.
func CasedOpening(width, thick float64) []Shape {
	return append([]Shape{
		{Segs: line(0, 0, width, 0), Stroke: drawing.HiddenLine()},
		{Segs: line(0, -thick, width, -thick), Stroke: drawing.HiddenLine()},
	}, Jambs(width, thick)...)
}

// Threshold is the sill across an opening.
func Threshold(width, thick float64) []Shape {
	return []Shape{edge(rect(0, -thick, width, 0)), fine(line(0, -thick/2, width, -thick/2)...)}
}

// glassThick mm thick is glass drawn at most.
const glassThick = 12

// Window is a frame with its glass.
func Window(width, thick float64) []Shape {
	g := min(glassThick, thick/6)
	return append([]Shape{
		edge(rect(0, -thick, width, 0)),
		fine(line(0, -thick/2+g, width, -thick/2+g)...), fine(line(0, -thick/2-g, width, -thick/2-g)...),
	}, Jambs(width, thick)...)
}

// Jambs are the cut ends of the wall on both sides of an opening.
func Jambs(width, thick float64) []Shape {
	return []Shape{
		{Segs: line(0, 0, 0, -thick), Stroke: drawing.WallLine()},
		{Segs: line(width, 0, width, -thick), Stroke: drawing.WallLine()},
	}
}
