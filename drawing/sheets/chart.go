package sheets

import (
	"math"
	"strconv"

	"oxturn/drawing"
	"oxturn/fonts"
)

// A chart is curves over two axes, told apart by their lines alone.
type chart struct {
	head   string
	across string // what the x axis counts, with its unit
	up     string // the same of the y axis
	curves []curve
	limits []limitLine
}

// A curve is one line of a chart, its points in the axes' units.
type curve struct {
	name string
	pts  []drawing.Pt
}

// A limitLine is a level line with a name.
type limitLine struct {
	name string
	at   float64
}

// limitStroke returns the line of the i-th limit, half as thick as a curve's.
func limitStroke(i int) *drawing.Stroke {
	dashes := [][]float64{{9, 1.5}, {5, 1.2, 1.8, 1.2}, {2.4, 1.2}}
	return &drawing.Stroke{Width: drawing.W025, Dash: append([]float64{}, dashes[i%len(dashes)]...), Butt: true}
}

// Sizes of a chart, mm.
const (
	plotHeight = 40.0
	tickLength = 1.2
	keySample  = 14.0
)

// curveLine returns the line of the i-th curve: the first six differ by their
// dashes, the next by their width as well.
func curveLine(i int) *drawing.Stroke {
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
type chartAxis struct{ lo, hi, step float64 }

// axisFor returns round ends and ticks, about so many, for a range of values.
func axisFor(lo, hi float64, ticks int) chartAxis {
	if !(hi-lo > 1e-9) {
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
	return chartAxis{math.Floor(lo/step+1e-9) * step, math.Ceil(hi/step-1e-9) * step, step}
}

// ticks returns the values at which ticks stand.
func (a chartAxis) ticks() []float64 {
	var out []float64
	for k := 0; a.lo+float64(k)*a.step <= a.hi+1e-9; k++ {
		out = append(out, a.lo+float64(k)*a.step)
	}
	return out
}

// figure writes a tick's value with as many decimals as its step needs.
func (a chartAxis) figure(v float64) string {
	decimals := max(0, int(math.Ceil(-math.Log10(a.step)-1e-9)))
	return strconv.FormatFloat(v+0, 'f', decimals, 64)
}

// axes returns the chart's two axes.
func (c chart) axes() (x, y chartAxis) {
	var box drawing.Box
	first := true
	for _, s := range c.curves {
		for _, p := range s.pts {
			b := drawing.Box{X0: p.X, Y0: p.Y, X1: p.X, Y1: p.Y}
			if !first {
				b = box.Union(b)
			}
			box, first = b, false
		}
	}
	for _, l := range c.limits {
		box.Y0, box.Y1 = math.Min(box.Y0, l.at), math.Max(box.Y1, l.at)
	}
	return axisFor(math.Min(0, box.X0), box.X1, 6), axisFor(box.Y0, box.Y1, 5)
}

func (c chart) height(ty *typesetter, w float64) float64 {
	h := ty.headingHeight(c.head, w) + float64(ty.lines(fonts.Lettering, c.up, note, w))*leading + 1 + plotHeight + 2*leading + 3
	for _, k := range c.keys() {
		h += float64(ty.lines(fonts.Lettering, k.name, note, w-keySample-3)) * leading
	}
	return h
}

func (c chart) set(pg *page, at drawing.Pt, w float64) {
	y := at.Y + setHeading(pg, at, c.head, w)
	for _, l := range pg.ty.wrap(c.up, w) {
		pg.write(drawing.Pt{X: at.X, Y: y + note}, l, note, drawing.Start)
		y += leading
	}
	y++
	xs, ys := c.axes()
	margin := 0.0
	for _, v := range ys.ticks() {
		margin = math.Max(margin, fonts.Width(fonts.Lettering, ys.figure(v), note))
	}
	plot := drawing.Box{X0: at.X + margin + tickLength + 1.2, Y0: y, X1: at.X + w - 4, Y1: y + plotHeight}
	v := chartView{plot, xs, ys}
	v.frame(pg)
	for i, l := range c.limits {
		a, b := v.pt(drawing.Pt{X: xs.lo, Y: l.at}), v.pt(drawing.Pt{X: xs.hi, Y: l.at})
		pg.path(drawing.LayerMarks, l.name, drawing.Polyline(a, b), limitStroke(i), nil)
	}
	for i, s := range c.curves {
		v.curve(pg, s, curveLine(i))
	}
	y = plot.Y1 + leading + tickLength
	pg.write(drawing.Pt{X: plot.X1, Y: y + note + 0.8}, c.across, note, drawing.End)
	c.key(pg, drawing.Pt{X: at.X, Y: y + leading + 0.8}, w)
}

// A keyEntry is one line of a chart's key.
type keyEntry struct {
	name string
	line *drawing.Stroke
}

// keys lists what the key explains: curves, then limits.
func (c chart) keys() []keyEntry {
	var out []keyEntry
	for i, s := range c.curves {
		out = append(out, keyEntry{s.name, curveLine(i)})
	}
	for i, l := range c.limits {
		out = append(out, keyEntry{l.name, limitStroke(i)})
	}
	return out
}

// key explains the lines below the plot.
func (c chart) key(pg *page, at drawing.Pt, w float64) {
	for _, k := range c.keys() {
		mid := at.Y + note/2
		pg.path(drawing.LayerMarks, "", drawing.Polyline(drawing.Pt{X: at.X, Y: mid}, drawing.Pt{X: at.X + keySample, Y: mid}), k.line, nil)
		for _, l := range pg.ty.wrap(k.name, w-keySample-3) {
			pg.write(drawing.Pt{X: at.X + keySample + 3, Y: at.Y + note}, l, note, drawing.Start)
			at.Y += leading
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
		X: v.plot.X0 + (p.X-v.x.lo)/(v.x.hi-v.x.lo)*v.plot.W(),
		Y: v.plot.Y1 - (p.Y-v.y.lo)/(v.y.hi-v.y.lo)*v.plot.H(),
	}
}

// frame draws axes, ticks, their figures and the level lines of the grid.
func (v chartView) frame(pg *page) {
	b := v.plot
	for _, t := range v.y.ticks() {
		p := v.pt(drawing.Pt{X: v.x.lo, Y: t})
		if t > v.y.lo+1e-9 {
			pg.path(drawing.LayerFrame, "", drawing.Polyline(p, drawing.Pt{X: b.X1, Y: p.Y}), &drawing.Stroke{Width: drawing.W013, Colour: drawing.Grey(0.4)}, nil)
		}
		pg.rule(p, p.Sub(drawing.Pt{X: tickLength}), drawing.ThinLine())
		pg.write(p.Add(drawing.Pt{X: -tickLength - 0.8, Y: note / 2}), v.y.figure(t), note, drawing.End)
	}
	for _, t := range v.x.ticks() {
		p := v.pt(drawing.Pt{X: t, Y: v.y.lo})
		pg.rule(p, p.Add(drawing.Pt{Y: tickLength}), drawing.ThinLine())
		pg.write(p.Add(drawing.Pt{Y: tickLength + 0.8 + note}), v.x.figure(t), note, drawing.Middle)
	}
	pg.path(drawing.LayerFrame, "axes", drawing.Polyline(drawing.Pt{X: b.X0, Y: b.Y0}, drawing.Pt{X: b.X0, Y: b.Y1}, drawing.Pt{X: b.X1, Y: b.Y1}), drawing.MediumLine(), nil)
}

func (v chartView) curve(pg *page, c curve, s *drawing.Stroke) {
	pts := make([]drawing.Pt, len(c.pts))
	for i, p := range c.pts {
		pts[i] = v.pt(p)
	}
	pg.path(drawing.LayerMarks, c.name, drawing.Polyline(pts...), s, nil)
}
