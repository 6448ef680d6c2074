package sheets

import (
	"fmt"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// buildUp draws a section through the floor: its layers to scale, the cable and
// the sensor in the one that holds them, and the heights that follow. A job
// without layers has none.
func buildUp(p *layout.Plan) ([]*page, error) {
	total := thickness(p.Job.BuildUp)
	if total <= 0 {
		return nil, nil
	}
	u := figuresOf(p.Job).units
	s := scene{
		id: "build-up", title: "Build-up", kind: "Section",
		about:  "A section through the floor with its layers and heights",
		bounds: plane.Rect{Min: plane.Pt(0, -total), Max: plane.Pt(sectionWide, 0)},
		border: sectionBorder, draw: drawSection, levels: sectionLevels, scales: sectionScales(u),
	}
	return s.pages(p)
}

// sectionWide is how much of the floor the section shows, mm.
const sectionWide = 180.0

// sectionBorder leaves room for the overall height at the left, and for the
// names of the layers at the right.
func sectionBorder(float64) (left, right, top, bottom float64) { return 24, 92, 16, 26 }

// sectionScales are those that suit a section: full size and a few steps down.
func sectionScales(u plane.Units) []drawing.Scale {
	var out []drawing.Scale
	for _, s := range drawing.ScalesFor(u) {
		if s.Ratio >= 1 && s.Ratio <= 20 {
			out = append(out, s)
		}
	}
	return out
}

func thickness(layers []job.Layer) float64 {
	n := 0.0
	for _, l := range layers {
		n += l.Thickness
	}
	return n
}

// materialOf returns the hatch of a kind of layer.
func materialOf(kind string) (drawing.Pattern, bool) {
	switch kind {
	case "tile":
		return drawing.HatchTile, true
	case "mortar", "membrane":
		return drawing.HatchMortar, true
	case "board":
		return drawing.HatchInsulation, true
	case "wood":
		return drawing.HatchWood, true
	case "concrete", "screed":
		return drawing.HatchConcrete, true
	}
	return 0, false
}

func drawSection(v *roomView) {
	y := 0.0
	for i, l := range v.plan.Job.BuildUp {
		v.layer(i, l, y)
		y -= l.Thickness
	}
	right := v.view.Pt(plane.Pt(sectionWide, 0)).X
	v.layerNames(right)
	v.sectionCable()
	v.sectionHeight(y)
}

// layer draws one layer, its top at height y.
func (v *roomView) layer(i int, l job.Layer, y float64) {
	b := drawing.BoxOf(v.view.Pt(plane.Pt(0, y)), v.view.Pt(plane.Pt(sectionWide, y-l.Thickness)))
	if p, ok := materialOf(l.Kind); ok {
		v.add(drawing.Hatch([][]drawing.Pt{b.Corners()}, p)...)
	}
	st := drawing.FixtureLine()
	if i == 0 {
		st = drawing.WallLine()
	}
	for k, edge := range []float64{b.Y0, b.Y1} {
		if k > 0 {
			st = drawing.FixtureLine()
		}
		line := []drawing.Pt{{X: b.X0, Y: edge}, {X: b.X1, Y: edge}}
		v.path(drawing.LayerWalls, l.Name, drawing.Polyline(line...), st, nil)
		v.ink.line(line, solidInk)
	}
	v.ink.hatch([][]drawing.Pt{b.Corners()})
	for _, x := range []float64{b.X0, b.X1} { // cut edges
		v.thin(drawing.LayerWalls, drawing.Pt{X: x, Y: b.Y0}, drawing.Pt{X: x, Y: b.Y1})
	}
}

// nameRow is the distance of the names of layers, mm.
const nameRow = 5.4

// layerNames writes the layers at the right, a leader from each: in rows, since
// layers may be thinner than lettering.
func (v *roomView) layerNames(right float64) {
	layers := v.plan.Job.BuildUp
	tops := make([]float64, len(layers))
	y, last := 0.0, v.view.Pt(plane.Pt(0, 0)).Y-12
	for i, l := range layers {
		tops[i] = v.view.Pt(plane.Pt(0, y-l.Thickness/2)).Y
		y -= l.Thickness
		row := max(tops[i], last+nameRow)
		last = row
		start := drawing.Pt{X: right, Y: tops[i]}
		end := drawing.Pt{X: right + 12, Y: row}
		v.thin(drawing.LayerDims, start.Sub(drawing.Pt{X: 3}), start, end, end.Add(drawing.Pt{X: 2}))
		v.path(drawing.LayerDims, "", drawing.Circle(start.Sub(drawing.Pt{X: 3}), 0.5), nil, drawing.Filled(drawing.Black))
		name := l.Name
		if name == "" {
			name = l.Kind
		}
		text := &drawing.Text{Layer: drawing.LayerText, At: end.Add(drawing.Pt{X: 3, Y: drawing.H25 / 2}), Text: itoa(i+1) + "  " + v.shortened(name, 48) + ", " + v.thickness(l.Thickness), Height: drawing.H25}
		v.mark([]drawing.Item{text})
	}
}

// shortened cuts a name to w mm; the table beside the section has it whole.
func (v *roomView) shortened(name string, w float64) string {
	lines := v.ty.wrap(name, w)
	if len(lines) > 1 {
		return lines[0] + "..."
	}
	return name
}

// thickness writes a thickness in both systems: millimetres to a tenth, inches
// to a sixteenth.
func (v *roomView) thickness(mm float64) string {
	m, in := trimFigure(mm)+" mm", v.fig.fine().feetInches(mm)
	if v.fig.units == plane.Inches {
		return in + " (" + m + ")"
	}
	return m + " (" + in + ")"
}

// holds returns the layer that holds the cable, and the height of its top; -1
// for none.
func (v *roomView) holds() (i int, top float64) {
	for i, l := range v.plan.Job.BuildUp {
		if l.Kind == "membrane" {
			return i, top
		}
		top -= l.Thickness
	}
	return -1, 0
}

// drawnCable is the diameter a cable is drawn with when the label gives none,
// mm.
const drawnCable = 5.0

// sectionCable draws the runs of cable in the membrane, and the sensor midway
// between two.
func (v *roomView) sectionCable() {
	i, top := v.holds()
	if i < 0 {
		v.remark("No layer is a membrane: where the cable lies in the section is not shown.")
		return
	}
	spacing, d := 90.0, drawnCable
	for _, r := range v.plan.Rooms {
		for _, c := range r.Cables {
			if c.Spacing > 0 {
				spacing = c.Spacing
			}
			if c.Label.Diameter > 0 {
				d = c.Label.Diameter
			}
		}
	}
	l := v.plan.Job.BuildUp[i]
	d = min(d, l.Thickness)
	y := top - l.Thickness/2
	n := 0
	for x := spacing / 2; x+d < sectionWide; x += spacing {
		v.sectionDot(plane.Pt(x, y), d/2, "heating cable", drawing.HeatRed)
		n++
	}
	v.uses(signCable)
	above := drawing.Pt{Y: -9}
	v.pointTo(v.view.Pt(plane.Pt(spacing/2, y)), v.view.Pt(plane.Pt(spacing/2, 0)).Add(above), "cable", drawing.End)
	if n > 1 {
		at := plane.Pt(spacing, y)
		v.sectionDot(at, min(2.5, l.Thickness/2), "sensor", drawing.SensorBlue)
		v.pointTo(v.view.Pt(at), v.view.Pt(plane.Pt(spacing, 0)).Add(above), "sensor in its tube", drawing.Start)
	}
}

func (v *roomView) sectionDot(at plane.Point, r float64, title string, c drawing.Colour) {
	p := v.view.Pt(at)
	segs := drawing.Circle(p, max(0.6, v.view.Len(r)))
	v.path(drawing.LayerCable, title, segs, &drawing.Stroke{Width: drawing.W035, Colour: drawing.White}, drawing.Filled(c))
}

// pointTo writes a name above the section with a leader down to what it names.
func (v *roomView) pointTo(at, above drawing.Pt, text string, a drawing.Anchor) {
	v.thin(drawing.LayerDims, at, above)
	t := &drawing.Text{Layer: drawing.LayerText, At: above.Add(drawing.Pt{Y: -1}), Text: text, Height: drawing.H25, Anchor: a}
	v.mark([]drawing.Item{t})
}

// sectionHeight dimensions the whole, and what stands over the layer that
// carries the floor.
func (v *roomView) sectionHeight(bottom float64) {
	carried := 0.0
	for _, l := range v.plan.Job.BuildUp {
		if carries(l.Kind) {
			break
		}
		carried += l.Thickness
	}
	left := v.view.Pt(plane.Pt(0, 0)).X
	up, out := drawing.Pt{Y: -1}, drawing.Pt{X: -1}
	draw := func(line float64, low float64, name string) {
		c := chain{dir: up, out: out, line: -left + line, mm: []float64{-low}, name: name}
		c.feet = []drawing.Pt{v.view.Pt(plane.Pt(0, low)), v.view.Pt(plane.Pt(0, 0))}
		c.draw(v.page, v.fig.fine())
	}
	if carried > 0 && carried < -bottom {
		draw(8, -carried, "height over the subfloor")
	}
	draw(18, bottom, "whole height")
}

// carries reports whether a layer is the structure the new floor stands on.
func carries(kind string) bool { return kind == "wood" || kind == "concrete" }

func sectionLevels(v *roomView) []level {
	bs := append([]block{v.layerTable(), v.sectionNotes()}, jointDetailOf(v.plan)...)
	bs = append(bs, warmthBlocks(v.plan)...)
	return []level{{blocks: bs}, {blocks: bs, gain: never, overflow: true}}
}

// layerTable lists the layers from the top with the height each reaches.
func (v *roomView) layerTable() block {
	t := table{head: "Layers, top to bottom", cols: []column{{head: "No.", align: decimal}, {head: "Layer", wraps: true, least: 28}, {head: "mm", align: decimal}, {head: "in", align: decimal}, {head: "Top at, " + v.fig.units.String(), align: decimal}}}
	y := thickness(v.plan.Job.BuildUp)
	for i, l := range v.plan.Job.BuildUp {
		name := l.Name
		if name == "" {
			name = l.Kind
		}
		t.rows = append(t.rows, row(itoa(i+1), name, fmt.Sprintf("%.1f", l.Thickness), v.fig.fine().feetInches(l.Thickness), v.topAt(y)))
		y -= l.Thickness
	}
	return t
}

// topAt writes the height that a layer reaches, its unit in the head.
func (v *roomView) topAt(mm float64) string {
	if v.fig.units == plane.Inches {
		return v.fig.fine().feetInches(mm)
	}
	return fmt.Sprintf("%.1f", mm)
}

func (v *roomView) sectionNotes() block {
	l := list{head: "Notes", number: 1}
	l.paras = append(l.paras, v.noted...)
	l.paras = append(l.paras, v.remarks...)
	carried := 0.0
	for _, layer := range v.plan.Job.BuildUp {
		if carries(layer.Kind) {
			break
		}
		carried += layer.Thickness
	}
	l.paras = append(l.paras,
		fmt.Sprintf("The finished floor stands %s over the subfloor: compare with door leaves, thresholds and the toilet's flange ring.", v.thickness(carried)),
		"Thicknesses are those of the job file; no tolerance of the trade is taken off.",
		"The cable, its lead joint and its end cap are bedded in full, without voids.",
	)
	joints := 0
	for _, r := range v.plan.Rooms {
		joints += len(r.Job.Joints)
	}
	if joints > 0 {
		l.paras = append(l.paras, "At a movement joint tile, bed and membrane are cut through and the gap is filled with sealant; no cable crosses it.")
	}
	return l
}
