package setting

import (
	"oxturn/drawing"
	"oxturn/drawing/lettering"
)

// Sizes of a break line, mm: a thin line with a zigzag in its middle where what
// is drawn goes on (ISO 128-2, line 01.1).
const (
	BreakWide  = 1.0 // of the zigzag to either side
	breakLong  = 2.4 // of the zigzag along the line
	breakShort = 6.0 // length below which a line has no room for one
)

// BreakLine draws the line from a to b where a drawing is broken off.
func (pg *Page) BreakLine(a, b drawing.Pt) {
	line := []drawing.Pt{a, b}
	if a.Dist(b) >= breakShort {
		u := b.Sub(a).Unit()
		side := drawing.Pt{X: -u.Y, Y: u.X}.Mul(BreakWide)
		mid := a.Lerp(b, 0.5)
		line = []drawing.Pt{a, mid.Sub(u.Mul(breakLong / 2)), mid.Sub(u.Mul(breakLong / 4)).Add(side),
			mid.Add(u.Mul(breakLong / 4)).Sub(side), mid.Add(u.Mul(breakLong / 2)), b}
	}
	pg.Path(drawing.LayerWalls, "break line", drawing.Polyline(line...), drawing.ThinLine(), nil)
	if pg.Letters != nil {
		pg.Letters.Ink.Line(line, lettering.ThinInk)
	}
}
