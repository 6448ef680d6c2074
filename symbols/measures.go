package symbols

import (
	"strconv"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout/plane"
)

// North is a plain arrow with an N at its head, 15 mm long, its middle at at.
// degrees is where north lies, clockwise from the sheet's up.
func North(at drawing.Pt, degrees float64) []drawing.Item {
	const tipUp, tailDown, headHalf, headLong, letterUp = 5, 7.5, 1.5, 4.5, 7.2 // mm
	up := drawing.Turned(drawing.Pt{Y: -1}, -degrees)
	tip, tail, wing := at.Add(up.Mul(tipUp)), at.Sub(up.Mul(tailDown)), side(up).Mul(headHalf)
	head := tip.Sub(up.Mul(headLong))
	shaft := stroked(drawing.LayerMarks, drawing.MediumLine(), tail, head)
	point := solid(drawing.LayerMarks, drawing.Black, tip, head.Add(wing), head.Sub(wing))
	shaft.Title, point.Title = "north", "north"
	return []drawing.Item{
		shaft, point,
		letters(drawing.LayerMarks, at.Add(up.Mul(letterUp)), "N"),
	}
}

// barHeight is that of a scale bar's blocks, mm on paper.
const barHeight = 1.5

// ScaleBar is a bar of alternate blocks, its left end at at and its figures
// above, between 40 and 100 mm long for every standard ratio. Figures are
// floor lengths: feet or inches for Inches, else m or mm.
func ScaleBar(at drawing.Pt, ratio float64, u plane.Units, most float64) []drawing.Item {
	step, count, figure := division(ratio, u, most)
	var items []drawing.Item
	for i := range count {
		b := drawing.Box{X0: at.X + float64(i)*step, Y0: at.Y, X1: at.X + float64(i+1)*step, Y1: at.Y + barHeight}
		block := &drawing.Path{Layer: drawing.LayerMarks, Segs: drawing.Rectangle(b), Stroke: drawing.ThinLine(),
			Fill: drawing.Filled(drawing.White)}
		if i%2 == 0 {
			block.Fill = drawing.Filled(drawing.Black)
		}
		items = append(items, block)
	}
	for i := 0; i <= count; i++ {
		p := at.Add(drawing.Pt{X: float64(i) * step, Y: -1 - drawing.H25/2})
		items = append(items, letters(drawing.LayerMarks, p, figure(i)))
	}
	items[0].(*drawing.Path).Title = "scale bar"
	return items
}

// mostParts parts at most a scale bar has.
const mostParts = 5

// leastPart mm on paper is the least that one part of a scale bar takes.
const leastPart = 20

// division chooses a round floor length whose block is at least 20 mm on
// paper, and as many blocks as stay within most mm, 5 at most. The last figure
// carries the unit.
func division(ratio float64, u plane.Units, most float64) (step float64, count int, figure func(i int) string) {
	sizes, unit, name := []float64{1, 2, 5, 10, 20, 50, 100, 200, 500}, 1.0, "mm"
	if ratio >= 10 {
		sizes, unit, name = []float64{0.5, 1, 2, 5, 10, 20, 50, 100}, 1000, "m"
	}
	if u == plane.Inches {
		sizes, unit, name = []float64{1, 2, 3, 6}, plane.Inch, "in"
		if ratio > 6*plane.Inch/20 {
			sizes, unit, name = []float64{1, 2, 5, 10, 20, 50, 100}, plane.Foot, "ft"
		}
	}
	size := sizes[len(sizes)-1]
	for _, s := range sizes {
		if s*unit/ratio >= leastPart {
			size = s
			break
		}
	}
	step = size * unit / ratio
	count = max(1, min(mostParts, int(most/step)))
	return step, count, func(i int) string {
		s := strconv.FormatFloat(float64(i)*size, 'f', -1, 64)
		if i == count {
			s += " " + name
		}
		return s
	}
}

// CheckLine is the line that tells whether a print is true to size: from at to
// the right, ticks above 100 mm apart, ticks below 4 in apart, each named.
func CheckLine(at drawing.Pt) []drawing.Item {
	const metric, inches, tick = 100, 4 * plane.Inch, 1.5
	x := func(d, y float64) drawing.Pt { return at.Add(drawing.Pt{X: d, Y: y}) }
	line := func(pts ...drawing.Pt) *drawing.Path {
		p := stroked(drawing.LayerMarks, drawing.ThinLine(), pts...)
		p.Stroke.Butt = true
		return p
	}
	name := func(d, y float64, s string) *drawing.Text {
		t := letters(drawing.LayerMarks, x(d, y), s)
		t.Face = fonts.Lettering
		return t
	}
	base := line(x(0, 0), x(inches, 0))
	base.Title = "check line"
	return []drawing.Item{
		base,
		line(x(0, 0), x(0, -tick)), line(x(metric, 0), x(metric, -tick)),
		line(x(0, 0), x(0, tick)), line(x(inches, 0), x(inches, tick)),
		name(metric/2, -1-drawing.H25/2, "100 mm"),
		name(inches/2, 1+drawing.H25/2, "4 in"),
	}
}
