package floorplan

import (
	"fmt"
	"math"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/layout/say"
	"oxturn/symbols"
)

// Parts of a dimension, mm on paper (ISO 129-1).
const (
	extensionGap       = 1.0 // between the object and its extension line
	extensionPast      = 1.5 // of the extension line past the dimension line
	arrowTail          = 3.5 // line behind an arrow that stands outside
	textRise           = 0.9 // dimension line to the foot of its text
	leastBetweenArrows = 2*symbols.ArrowLength + 1
)

// A Chain is dimensions end to end along one line. Its points are the feet of
// the extension lines; they are measured along dir.
type Chain struct {
	Feet []drawing.Pt
	Dir  drawing.Pt // unit, along the chain as it is read: to the right or upwards
	Out  drawing.Pt // unit, from the feet towards the line
	Line float64    // where the line lies, along out
	At   []float64  // where its points lie on the floor, mm from the datum
	Name string     // for a note when a figure finds no place
	rank int
}

// ends returns the chain's points on its dimension line.
func (c Chain) ends() []drawing.Pt {
	pts := make([]drawing.Pt, len(c.Feet))
	for i, f := range c.Feet {
		pts[i] = f.Add(c.Out.Mul(c.Line - f.Dot(c.Out)))
	}
	return pts
}

// Draw draws the chain's lines and asks for its figures to be placed.
func (c Chain) Draw(pg *setting.Page, f say.Figures) {
	pts := c.ends()
	k := pg.Letters.Ink
	for i, p := range pts {
		a := c.Feet[i].Add(c.Out.Mul(extensionGap))
		b := p.Add(c.Out.Mul(extensionPast))
		if b.Sub(a).Dot(c.Out) > 0 {
			for _, piece := range k.BesideMarks(a, b) {
				pg.Thin(drawing.LayerDims, piece...)
			}
			k.Line([]drawing.Pt{a, b}, lettering.ExtensionInk)
		}
	}
	pg.Thin(drawing.LayerDims, pts...)
	k.Line(pts, lettering.SolidInk)
	for i := 1; i < len(pts); i++ {
		c.arrows(pg, pts, i)
		if a, b, ok := pg.Letters.Field.Clip(pts[i-1], pts[i]); ok { // else another sheet shows it
			pg.Letters.Add(c.figure(a, b, f.Textf("part %d", i), f.Between(c.At[i-1], c.At[i])))
		}
	}
}

// arrows draws the ends of part i: arrows inside where they fit; where they do
// not, outside at the ends of the chain and dots within it.
func (c Chain) arrows(pg *setting.Page, pts []drawing.Pt, i int) {
	a, b := pts[i-1], pts[i]
	u := b.Sub(a).Unit()
	if a.Dist(b) >= leastBetweenArrows {
		arrowhead(pg, a, u.Mul(-1))
		arrowhead(pg, b, u)
		return
	}
	if i == 1 {
		outsideArrow(pg, a, u)
	} else if pts[i-2].Dist(a) < leastBetweenArrows {
		dot(pg, a)
	}
	if i == len(pts)-1 {
		outsideArrow(pg, b, u.Mul(-1))
	}
}

// arrowhead draws an arrowhead and keeps lettering off it.
func arrowhead(pg *setting.Page, p, u drawing.Pt) {
	pg.Add(symbols.Arrowhead(p, u)...)
	back, wing := p.Sub(u.Mul(symbols.ArrowLength)), drawing.Pt{X: -u.Y, Y: u.X}.Mul(symbols.ArrowLength/6)
	pg.Letters.Ink.Line([]drawing.Pt{p, back.Add(wing), back.Sub(wing), p}, lettering.SolidInk)
}

func outsideArrow(pg *setting.Page, p, u drawing.Pt) {
	arrowhead(pg, p, u)
	tail := p.Sub(u.Mul(symbols.ArrowLength + arrowTail))
	pg.Thin(drawing.LayerDims, p, tail)
	pg.Letters.Ink.Line([]drawing.Pt{p, tail}, lettering.SolidInk)
}

func dot(pg *setting.Page, p drawing.Pt) {
	pg.Path(drawing.LayerDims, "", drawing.Circle(p, 0.5), nil, drawing.Filled(drawing.Black))
}

// figure is the label of a part: above its line, else farther out or in with a
// leader.
func (c Chain) figure(a, b drawing.Pt, part, text string) *lettering.Label {
	l := &lettering.Label{Text: text, Height: drawing.H25, Rank: c.rank,
		Note: fmt.Sprintf("%s, %s: %s", c.Name, part, text)}
	mid := a.Lerp(b, 0.5)
	l.Subject = mid
	upright := math.Abs(c.Dir.Y) > math.Abs(c.Dir.X) && math.Abs(c.Dir.X) < 1e-6
	level := math.Abs(c.Dir.Y) < 1e-6
	switch {
	case level:
		l.Spots = lineSpots(mid, drawing.Pt{X: 1}, drawing.Pt{Y: -1}, 0, c.Out)
	case upright:
		l.Spots = lineSpots(mid, drawing.Pt{Y: -1}, drawing.Pt{X: -1}, 90, c.Out)
	default:
		l.Spots = slantSpots(mid, c.Out, l)
	}
	return l
}

// lineSpots returns the spots of a figure along a level or upright dimension
// line: along is the way it is read, up is the side its text stands on.
func lineSpots(mid, along, up drawing.Pt, angle float64, out drawing.Pt) []lettering.Spot {
	spots := []lettering.Spot{{At: mid.Add(up.Mul(textRise)), Angle: angle}}
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
			spots = append(spots, lettering.Spot{
				At: at, Angle: angle,
				Cost: 2*math.Abs(row) + 0.1*math.Abs(shift), Leader: []drawing.Pt{mid, foot},
			})
		}
	}
	return spots
}

// slantSpots returns the spots of a figure beside a slanting dimension line:
// it is written level, clear of the line.
func slantSpots(mid, out drawing.Pt, l *lettering.Label) []lettering.Spot {
	size := l.Sample(lettering.Spot{}).Box()
	reach := math.Abs(out.X)*size.W()/2 + math.Abs(out.Y)*size.H()/2 + 1
	var spots []lettering.Spot
	for _, side := range []float64{1, -1} {
		for _, far := range []float64{0, 2, 5, 9, 14} {
			for _, shift := range []float64{0, 4, -4, 8, -8} {
				along := drawing.Pt{X: -out.Y, Y: out.X}
				c := mid.Add(out.Mul(side * (reach + far))).Add(along.Mul(shift))
				s := lettering.Spot{At: lettering.CentredOn(c, size), Cost: far + 0.2*math.Abs(shift)}
				if side < 0 {
					s.Cost += 2
				}
				if far > 2 {
					s.Leader = []drawing.Pt{mid, c.Sub(out.Mul(side * (reach - 0.6)))}
				}
				spots = append(spots, s)
			}
		}
	}
	return spots
}
