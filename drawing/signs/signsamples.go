package signs

import (
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/symbols"
)

// A sampler draws a sample of a sign in a box.
type sampler = func(b drawing.Box) []drawing.Item

// rightwards is how samples of marks that point are turned.
var rightwards = drawing.Pt{X: 1}

func line(l drawing.Layer, s *drawing.Stroke, pts ...drawing.Pt) drawing.Item {
	return &drawing.Path{Layer: l, Segs: drawing.Polyline(pts...), Stroke: s}
}

func rectangle(l drawing.Layer, b drawing.Box, s *drawing.Stroke, fill *drawing.Colour) drawing.Item {
	return &drawing.Path{Layer: l, Segs: drawing.Rectangle(b), Stroke: s, Fill: fill}
}

func leftOf(b drawing.Box) drawing.Pt  { return drawing.Pt{X: b.X0, Y: b.Centre().Y} }
func rightOf(b drawing.Box) drawing.Pt { return drawing.Pt{X: b.X1, Y: b.Centre().Y} }

// lineSample is a line across the box.
func lineSample(l drawing.Layer, st *drawing.Stroke) sampler {
	return func(b drawing.Box) []drawing.Item {
		return []drawing.Item{line(l, sampled(st, b.W()), leftOf(b), rightOf(b))}
	}
}

// sampled shortens the long dashes of a chain line so that a sample w mm long
// shows its dots once, in the middle: cut anywhere, one with two dots would look
// like one with one.
func sampled(st *drawing.Stroke, w float64) *drawing.Stroke {
	if len(st.Dash) < 4 {
		return st
	}
	out := *st
	out.Dash = append([]float64{}, st.Dash...)
	out.Dash[0] = w
	for _, d := range st.Dash[1:] {
		out.Dash[0] -= d
	}
	out.Dash[0] /= 2
	return &out
}

// cableSample is a cable across the box, with a core or without.
func cableSample(core *drawing.Stroke) sampler {
	return func(b drawing.Box) []drawing.Item {
		items := lineSample(drawing.LayerCable, drawing.CableLine())(b)
		if core != nil {
			items = append(items, lineSample(drawing.LayerCable, core)(b)...)
		}
		return items
	}
}

// markSample is a mark in the middle of the box.
func markSample(mark func(c drawing.Pt) []drawing.Item) sampler {
	return func(b drawing.Box) []drawing.Item { return mark(b.Centre()) }
}

// over is a mark in the middle over another sample.
func over(under sampler, mark func(c drawing.Pt) []drawing.Item) sampler {
	return func(b drawing.Box) []drawing.Item { return append(under(b), mark(b.Centre())...) }
}

func barOf(length float64) func(c drawing.Pt) []drawing.Item {
	return func(c drawing.Pt) []drawing.Item { return symbols.Bar(c, rightwards, length) }
}

func jointSample(b drawing.Box) []drawing.Item {
	c := b.Centre()
	return append([]drawing.Item{
		line(drawing.LayerLeads, drawing.ColdLeadLine(), leftOf(b), c), line(drawing.LayerCable, drawing.CableLine(), c,
			rightOf(b)),
	}, symbols.LeadJoint(c)...)
}

func endSample(b drawing.Box) []drawing.Item {
	c := b.Centre()
	return append([]drawing.Item{line(drawing.LayerCable, drawing.CableLine(), leftOf(b), c)},
		symbols.Bar(c, rightwards, symbols.EndBar)...)
}

func hatchSample(p drawing.Pattern) sampler {
	return func(b drawing.Box) []drawing.Item {
		return append(drawing.Hatch([][]drawing.Pt{b.Corners()}, p), rectangle(drawing.LayerFixtures, b,
			drawing.ThinLine(), nil))
	}
}

func pegSample(b drawing.Box) []drawing.Item {
	var items []drawing.Item
	for x, y := b.X0, b.Centre().Y; x <= b.X1; x += 3 {
		items = append(items, line(drawing.LayerMembrane, drawing.ThinLine(), drawing.Pt{X: x, Y: y - 1},
			drawing.Pt{X: x, Y: y + 1}))
	}
	return items
}

func wallSample(b drawing.Box) []drawing.Item {
	return []drawing.Item{
		rectangle(drawing.LayerFloor, b, nil, drawing.Filled(drawing.Poche)),
		line(drawing.LayerWalls, drawing.WallLine(), drawing.Pt{X: b.X0, Y: b.Y1}, drawing.Pt{X: b.X1, Y: b.Y1}),
	}
}

func doorSample(b drawing.Box) []drawing.Item {
	h := b.H()
	hinge := drawing.Pt{X: b.Centre().X - h/2, Y: b.Y1}
	return []drawing.Item{
		line(drawing.LayerWalls, drawing.FixtureLine(), hinge, hinge.Add(drawing.Pt{Y: -h})),
		&drawing.Path{Layer: drawing.LayerWalls, Segs: drawing.Arc(hinge, h, 0, 90), Stroke: drawing.ThinLine()},
	}
}

// openingSample is the plan of an opening without a swing, in millimetres of
// paper instead of floor.
func openingSample(plan func(width, thick float64) []symbols.Shape) sampler {
	const thick = 2.4
	return func(b drawing.Box) []drawing.Item {
		at := leftOf(b).Sub(drawing.Pt{Y: thick / 2})
		var items []drawing.Item
		for _, sh := range plan(b.W(), thick) {
			segs := drawing.Mapped(sh.Segs, func(p drawing.Pt) drawing.Pt {
				return drawing.Pt{X: at.X + p.X,
					Y: at.Y - p.Y}
			})
			items = append(items, &drawing.Path{Layer: drawing.LayerWalls, Segs: segs, Stroke: sh.Stroke,
				Fill: sh.Fill})
		}
		return items
	}
}

// lettered is a text in the middle of the box.
func lettered(b drawing.Box, words string) drawing.Item {
	t := &drawing.Text{Layer: drawing.LayerText, Text: words, Height: drawing.H25, Anchor: drawing.Middle}
	c := b.Centre()
	t.At = drawing.Pt{X: c.X, Y: c.Y - (&drawing.Text{Text: words, Height: drawing.H25}).Box().Centre().Y}
	return t
}

func standSample(b drawing.Box) []drawing.Item {
	return []drawing.Item{rectangle(drawing.LayerFixtures, b.Grow(-drawing.W035/2), drawing.FixtureLine(), nil),
		lettered(b, "name")}
}

func fixingSample(b drawing.Box) []drawing.Item {
	y := b.Centre().Y
	return append(symbols.FixingPoint(drawing.Pt{X: b.X0 + 2, Y: y}), line(drawing.LayerFixtures, drawing.FixtureLine(),
		drawing.Pt{X: b.X0 + 6, Y: y}, rightOf(b)))
}

// bandSample is a cable over a band that marks it.
func bandSample(band *drawing.Stroke) sampler {
	return func(b drawing.Box) []drawing.Item {
		return append(lineSample(drawing.LayerHatch, band)(b), cableSample(nil)(b)...)
	}
}

func faultSample(b drawing.Box) []drawing.Item {
	x := b.Centre().X
	return append(bandSample(StretchBand())(b), line(drawing.LayerFrame, drawing.WallLine(), drawing.Pt{X: x, Y: b.Y0},
		drawing.Pt{X: x, Y: b.Y1}))
}

func tileSample(b drawing.Box) []drawing.Item {
	return []drawing.Item{rectangle(drawing.LayerFloor, b, drawing.MarkLine(), nil), lettered(b, "R2 C5")}
}

func cutTileSample(b drawing.Box) []drawing.Item {
	return []drawing.Item{rectangle(drawing.LayerFloor, b, drawing.ThinLine(), drawing.Filled(CutGrey))}
}

func coveringSample(b drawing.Box) []drawing.Item {
	return []drawing.Item{rectangle(drawing.LayerMarks, b.Grow(-drawing.W070/2), drawing.WallLine(), nil)}
}

func cloudSample(b drawing.Box) []drawing.Item {
	ring := b.Grow(-1.2).Corners()
	slices.Reverse(ring)
	return []drawing.Item{&drawing.Path{Layer: drawing.LayerMarks, Segs: CloudLine(ring, 2),
		Stroke: drawing.MediumLine()}}
}

// revisedSample is a triangle as low as the box, and so without its letter.
func revisedSample(b drawing.Box) []drawing.Item {
	c, h := b.Centre(), b.H()
	pts := []drawing.Pt{{X: c.X - h/math.Sqrt(3), Y: b.Y1}, {X: c.X, Y: b.Y0}, {X: c.X + h/math.Sqrt(3), Y: b.Y1}}
	return []drawing.Item{&drawing.Path{Layer: drawing.LayerMarks, Segs: drawing.Polygon(pts...),
		Stroke: drawing.MarkLine()}}
}

// NoteMark is the number of a note of the column, in a square so that it is
// not taken for a run.
func NoteMark(at drawing.Pt, number string) []drawing.Item {
	b := drawing.Box{X0: at.X - 2, Y0: at.Y - 2, X1: at.X + 2, Y1: at.Y + 2}
	return []drawing.Item{
		&drawing.Path{Layer: drawing.LayerMarks, Segs: drawing.Rectangle(b), Stroke: drawing.ThinLine(),
			Fill: drawing.Filled(drawing.White)},
		&drawing.Text{Layer: drawing.LayerText, At: at.Add(drawing.Pt{Y: drawing.H25 / 2}), Text: number,
			Height: drawing.H25, Anchor: drawing.Middle},
	}
}
