package setting

import (
	"math"
	"strconv"

	"oxturn/drawing"
	"oxturn/fonts"
)

// A Chart is curves over two axes, told apart by their lines alone.
type Chart struct {
	Head   string
	Across string // what the x axis counts, with its unit
	Up     string // the same of the y axis
	Curves []Curve
	Limits []LimitLine
}

// A Curve is one line of a chart, its points in the axes' units.
type Curve struct {
	Name string
	Pts  []drawing.Pt
}

// A LimitLine is a level line with a name.
type LimitLine struct {
	Name string
	At   float64
}

// LimitStroke returns the line of the i-th limit, half as thick as a curve's.
func LimitStroke(i int) *drawing.Stroke {
	dashes := [][]float64{{9, 1.5}, {5, 1.2, 1.8, 1.2}, {2.4, 1.2}}
	return &drawing.Stroke{Width: drawing.W025, Dash: append([]float64{}, dashes[i%len(dashes)]...), Butt: true}
}

// Sizes of a chart, mm.
const (
	plotHeight = 40.0
	tickLength = 1.2
	keySample  = 14.0
)

// CurveLine returns the line of the i-th curve: the first six differ by their
// dashes, the next by their width as well.
func CurveLine(i int) *drawing.Stroke {
	dashes := [][]float64{nil, {3.5, 1.2}, {7, 1.2, 0.7, 1.2}, {0.9, 1}, {7, 1.2, 0.7, 1.2, 0.7, 1.2}, {1.8, 0.9}}
	s := &drawing.Stroke{Width: drawing.W050, Butt: true}
	if i%(2*len(dashes)) >= len(dashes) {
		s.Width = drawing.W025
	}
	if d := dashes[i%len(dashes)]; d != nil {
		s.Dash = append([]float64{}, d...)
	}
	return s
}

// An axis is the range of a chart's axis and its ticks.
type chartAxis struct{ Lo, Hi, Step float64 }

// AxisFor returns round ends and ticks, about so many, for a range of values.
func AxisFor(lo, hi float64, ticks int) chartAxis {
	if !(hi-lo > sumSlack) {
		lo, hi = lo-0.5, hi+0.5
	}
	raw := (hi - lo) / float64(ticks)
	step := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, k := range []float64{1, 2, 5, 10} {
		if k*step >= raw-1e-12 {
			step *= k
			break
		}
	}
	return chartAxis{math.Floor(lo/step+sumSlack) * step, math.Ceil(hi/step-sumSlack) * step, step}
}

// Ticks returns the values at which ticks stand.
func (a chartAxis) Ticks() []float64 {
	var out []float64
	for k := 0; a.Lo+float64(k)*a.Step <= a.Hi+sumSlack; k++ {
		out = append(out, a.Lo+float64(k)*a.Step)
	}
	return out
}

// Figure writes a tick's value with as many decimals as its step needs.
func (a chartAxis) Figure(v float64) string {
	decimals := max(0, int(math.Ceil(-math.Log10(a.Step)-sumSlack)))
	return strconv.FormatFloat(v+0, 'f', decimals, 64)
}

// axes returns the chart's two axes.
func (c Chart) axes() (x, y chartAxis) {
	var box drawing.Box
	first := true
	for _, s := range c.Curves {
		for _, p := range s.Pts {
			b := drawing.Box{X0: p.X, Y0: p.Y, X1: p.X, Y1: p.Y}
			if !first {
				b = box.Union(b)
			}
			box, first = b, false
		}
	}
	for _, l := range c.Limits {
		box.Y0, box.Y1 = math.Min(box.Y0, l.At), math.Max(box.Y1, l.At)
	}
	return AxisFor(math.Min(0, box.X0), box.X1, 6), AxisFor(box.Y0, box.Y1, 5)
}

// Height is what the chart takes at a width of w, both mm of paper.
func (c Chart) Height(ty *Typesetter, w float64) float64 {
	h := ty.HeadingHeight(c.Head, w) + float64(ty.Lines(fonts.Lettering, c.Up, Note, w))*Leading + 1 + plotHeight +
		2*Leading + 3
	for _, k := range c.keys() {
		h += float64(ty.Lines(fonts.Lettering, k.name, Note, w-keySample-sampleGap)) * Leading
	}
	return h
}

// Set draws the chart from at, the upper left corner, w mm wide.
func (c Chart) Set(pg *Page, at drawing.Pt, w float64) {
	y := at.Y + SetHeading(pg, at, c.Head, w)
	for _, l := range pg.Ty.Wrap(c.Up, w) {
		pg.Write(drawing.Pt{X: at.X, Y: y + Note}, l, Note, drawing.Start)
		y += Leading
	}
	y++
	plot := c.plot(pg, drawing.Pt{X: at.X, Y: y}, w)
	y = plot.Y1 + Leading + tickLength
	pg.Write(drawing.Pt{X: plot.X1, Y: y + Note + 0.8}, c.Across, Note, drawing.End)
	c.key(pg, drawing.Pt{X: at.X, Y: y + Leading + 0.8}, w)
}

// plot draws the curves between their axes, and returns what these enclose.
func (c Chart) plot(pg *Page, at drawing.Pt, w float64) drawing.Box {
	xs, ys := c.axes()
	margin := 0.0
	for _, v := range ys.Ticks() {
		margin = math.Max(margin, fonts.Width(fonts.Lettering, ys.Figure(v), Note))
	}
	plot := drawing.Box{X0: at.X + margin + tickLength + 1.2, Y0: at.Y, X1: at.X + w - 4, Y1: at.Y + plotHeight}
	v := chartView{plot, xs, ys}
	v.frame(pg)
	for i, l := range c.Limits {
		a, b := v.pt(drawing.Pt{X: xs.Lo, Y: l.At}), v.pt(drawing.Pt{X: xs.Hi, Y: l.At})
		pg.Path(drawing.LayerMarks, l.Name, drawing.Polyline(a, b), LimitStroke(i), nil)
	}
	for i, s := range c.Curves {
		v.curve(pg, s, CurveLine(i))
	}
	return plot
}

// A keyEntry is one line of a chart's key.
type keyEntry struct {
	name string
	line *drawing.Stroke
}

// keys lists what the key explains: curves, then limits.
func (c Chart) keys() []keyEntry {
	var out []keyEntry
	for i, s := range c.Curves {
		out = append(out, keyEntry{s.Name, CurveLine(i)})
	}
	for i, l := range c.Limits {
		out = append(out, keyEntry{l.Name, LimitStroke(i)})
	}
	return out
}

// key explains the lines below the plot.
func (c Chart) key(pg *Page, at drawing.Pt, w float64) {
	for _, k := range c.keys() {
		mid := at.Y + Note/2
		pg.Path(drawing.LayerMarks, "", drawing.Polyline(drawing.Pt{X: at.X, Y: mid}, drawing.Pt{X: at.X + keySample,
			Y: mid}), k.line, nil)
		for _, l := range pg.Ty.Wrap(k.name, w-keySample-sampleGap) {
			pg.Write(drawing.Pt{X: at.X + keySample + sampleGap, Y: at.Y + Note}, l, Note, drawing.Start)
			at.Y += Leading
		}
	}
}

// A chartView maps an axes' values to the paper.
type chartView struct {
	plot drawing.Box
	x, y chartAxis
}

func (v chartView) pt(p drawing.Pt) drawing.Pt {
	return drawing.Pt{
		X: v.plot.X0 + (p.X-v.x.Lo)/(v.x.Hi-v.x.Lo)*v.plot.W(),
		Y: v.plot.Y1 - (p.Y-v.y.Lo)/(v.y.Hi-v.y.Lo)*v.plot.H(),
	}
}

// frame draws axes, ticks, their figures and the level lines of the grid.
func (v chartView) frame(pg *Page) {
	b := v.plot
	for _, t := range v.y.Ticks() {
		p := v.pt(drawing.Pt{X: v.x.Lo, Y: t})
		if t > v.y.Lo+sumSlack {
			pg.Path(drawing.LayerFrame, "", drawing.Polyline(p, drawing.Pt{X: b.X1, Y: p.Y}),
				&drawing.Stroke{Width: drawing.W013, Colour: drawing.Grey(0.4)}, nil)
		}
		pg.rule(p, p.Sub(drawing.Pt{X: tickLength}), drawing.ThinLine())
		pg.Write(p.Add(drawing.Pt{X: -tickLength - 0.8, Y: Note / 2}), pg.Ty.Figure(v.y.Figure(t)), Note, drawing.End)
	}
	for _, t := range v.x.Ticks() {
		p := v.pt(drawing.Pt{X: t, Y: v.y.Lo})
		pg.rule(p, p.Add(drawing.Pt{Y: tickLength}), drawing.ThinLine())
		pg.Write(p.Add(drawing.Pt{Y: tickLength + 0.8 + Note}), pg.Ty.Figure(v.x.Figure(t)), Note, drawing.Middle)
	}
	pg.Path(drawing.LayerFrame, "axes", drawing.Polyline(drawing.Pt{X: b.X0, Y: b.Y0}, drawing.Pt{X: b.X0, Y: b.Y1},
		drawing.Pt{X: b.X1, Y: b.Y1}), drawing.MediumLine(), nil)
}

func (v chartView) curve(pg *Page, c Curve, s *drawing.Stroke) {
	pts := make([]drawing.Pt, len(c.Pts))
	for i, p := range c.Pts {
		pts[i] = v.pt(p)
	}
	pg.Path(drawing.LayerMarks, c.Name, drawing.Polyline(pts...), s, nil)
}
