package sheets

import (
	"fmt"
	"math"

	"oxturn/drawing"
	"oxturn/symbols"
)

// Parts of a dimension, mm on paper (ISO 129-1).
const (
	extensionGap = 1.0 // between the object and its extension line
	overrun      = 1.5 // of the extension line past the dimension line
	arrowTail    = 3.5 // line behind an arrow that stands outside
	textRise     = 0.9 // dimension line to the foot of its text
	shortest     = 2*symbols.ArrowLength + 1
)

// A chain is dimensions end to end along one line. Its points are the feet of
// the extension lines; they are measured along dir.
type chain struct {
	feet []drawing.Pt
	dir  drawing.Pt // unit, along the chain as it is read: to the right or upwards
	out  drawing.Pt // unit, from the feet towards the line
	line float64    // where the line lies, along out
	at   []float64  // where its points lie on the floor, mm from the datum
	name string     // for a note when a figure finds no place
	rank int
}

// ends returns the chain's points on its dimension line.
func (c chain) ends() []drawing.Pt {
	pts := make([]drawing.Pt, len(c.feet))
	for i, f := range c.feet {
		pts[i] = f.Add(c.out.Mul(c.line - f.Dot(c.out)))
	}
	return pts
}

// draw draws the chain's lines and asks for its figures to be placed.
func (c chain) draw(pg *page, f figures) {
	pts := c.ends()
	k := pg.letters.ink
	for i, p := range pts {
		a := c.feet[i].Add(c.out.Mul(extensionGap))
		b := p.Add(c.out.Mul(overrun))
		if b.Sub(a).Dot(c.out) > 0 {
			for _, piece := range k.besideMarks(a, b) {
				pg.thin(drawing.LayerDims, piece...)
			}
			k.line([]drawing.Pt{a, b}, extensionInk)
		}
	}
	pg.thin(drawing.LayerDims, pts...)
	k.line(pts, solidInk)
	for i := 1; i < len(pts); i++ {
		c.arrows(pg, pts, i)
		pg.letters.add(c.figure(pts[i-1], pts[i], i, f.between(c.at[i-1], c.at[i])))
	}
}

// arrows draws the ends of part i: arrows inside where they fit; where they do
// not, outside at the ends of the chain and dots within it.
func (c chain) arrows(pg *page, pts []drawing.Pt, i int) {
	a, b := pts[i-1], pts[i]
	u := b.Sub(a).Unit()
	if a.Dist(b) >= shortest {
		pg.arrowhead(a, u.Mul(-1))
		pg.arrowhead(b, u)
		return
	}
	if i == 1 {
		pg.outsideArrow(a, u)
	} else if pts[i-2].Dist(a) < shortest {
		pg.dot(a)
	}
	if i == len(pts)-1 {
		pg.outsideArrow(b, u.Mul(-1))
	}
}

// arrowhead draws an arrowhead and keeps lettering off it.
func (pg *page) arrowhead(p, u drawing.Pt) {
	pg.add(symbols.Arrowhead(p, u)...)
	back, wing := p.Sub(u.Mul(symbols.ArrowLength)), drawing.Pt{X: -u.Y, Y: u.X}.Mul(symbols.ArrowLength/6)
	pg.letters.ink.line([]drawing.Pt{p, back.Add(wing), back.Sub(wing), p}, solidInk)
}

func (pg *page) outsideArrow(p, u drawing.Pt) {
	pg.arrowhead(p, u)
	tail := p.Sub(u.Mul(symbols.ArrowLength + arrowTail))
	pg.thin(drawing.LayerDims, p, tail)
	pg.letters.ink.line([]drawing.Pt{p, tail}, solidInk)
}

func (pg *page) dot(p drawing.Pt) {
	pg.path(drawing.LayerDims, "", drawing.Circle(p, 0.5), nil, drawing.Filled(drawing.Black))
}

// figure is the label of part i: above its line, else farther out or in with a
// leader.
func (c chain) figure(a, b drawing.Pt, i int, text string) *label {
	l := &label{text: text, height: drawing.H25, rank: c.rank, note: fmt.Sprintf("%s, part %d: %s", c.name, i, text)}
	mid := a.Lerp(b, 0.5)
	l.subject = mid
	upright := math.Abs(c.dir.Y) > math.Abs(c.dir.X) && math.Abs(c.dir.X) < 1e-6
	level := math.Abs(c.dir.Y) < 1e-6
	switch {
	case level:
		l.spots = lineSpots(mid, drawing.Pt{X: 1}, drawing.Pt{Y: -1}, 0, c.out)
	case upright:
		l.spots = lineSpots(mid, drawing.Pt{Y: -1}, drawing.Pt{X: -1}, 90, c.out)
	default:
		l.spots = slantSpots(mid, c.out, l)
	}
	return l
}

// lineSpots returns the spots of a figure along a level or upright dimension
// line: along is the way it is read, up is the side its text stands on.
func lineSpots(mid, along, up drawing.Pt, angle float64, out drawing.Pt) []spot {
	spots := []spot{{at: mid.Add(up.Mul(textRise)), angle: angle}}
	side := 1.0
	if up.Dot(out) < 0 {
		side = -1
	}
	for _, row := range []float64{1, -1, 2, -2, 3} {
		for _, shift := range []float64{0, 5, -5, 10, -10, 15, -15, 20, -20, 26, -26} {
			rise := row * side * 4.3
			if rise < 0 {
				rise -= drawing.H25
			}
			at := mid.Add(up.Mul(rise)).Add(along.Mul(shift))
			foot := at.Sub(up.Mul(0.6))
			if rise < 0 {
				foot = at.Add(up.Mul(drawing.H25 + 0.6))
			}
			spots = append(spots, spot{
				at: at, angle: angle,
				cost: 2*math.Abs(row) + 0.1*math.Abs(shift), leader: []drawing.Pt{mid, foot},
			})
		}
	}
	return spots
}

// slantSpots returns the spots of a figure beside a slanting dimension line:
// it is written level, clear of the line.
func slantSpots(mid, out drawing.Pt, l *label) []spot {
	size := l.sample(spot{}).Box()
	reach := math.Abs(out.X)*size.W()/2 + math.Abs(out.Y)*size.H()/2 + 1
	var spots []spot
	for _, side := range []float64{1, -1} {
		for _, far := range []float64{0, 2, 5, 9, 14} {
			for _, shift := range []float64{0, 4, -4, 8, -8} {
				along := drawing.Pt{X: -out.Y, Y: out.X}
				c := mid.Add(out.Mul(side * (reach + far))).Add(along.Mul(shift))
				s := spot{at: centredOn(c, size), cost: far + 0.2*math.Abs(shift)}
				if side < 0 {
					s.cost += 2
				}
				if far > 2 {
					s.leader = []drawing.Pt{mid, c.Sub(out.Mul(side * (reach - 0.6)))}
				}
				spots = append(spots, s)
			}
		}
	}
	return spots
}
