package sheets

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// buildUp draws a section through the floor: its layers to scale, the cable and
// the sensor in the one that holds them, and the heights that follow. A job
// without layers has none, and on small paper they stand with the details.
func buildUp(p *layout.Plan) ([]*setting.Page, error) {
	if thickness(p.Job.BuildUp) <= 0 || onSmall(p) {
		return nil, nil
	}
	cut := sectionOf(p)
	s := floorplan.Scene{
		Kind:   kindNamed("build-up"),
		Bounds: plane.Rect{Min: plane.Pt(0, cut.bottom()), Max: plane.Pt(cut.wide, 0)},
		Border: cut.border, Draw: cut.draw, Levels: sectionLevels, Scales: sectionScales(p),
	}
	return s.Alone(p)
}

// layersAside is a page that is never drawn, with what small paper says of a job's layers for its
// details: the edge of the floor shows them in section. It is nil on other paper, and without layers.
func layersAside(p *layout.Plan) *setting.Page {
	if thickness(p.Job.BuildUp) <= 0 || !onSmall(p) {
		return nil
	}
	pg := setting.NewPage(p, drawing.Paper{})
	pg.Name = p.Job.Language.Text(kindNamed("build-up").Title)
	v := &floorplan.View{Page: pg, Fig: p.Job.Figures()}
	if sectionOf(p).holds < 0 {
		v.Remark(notShown(v))
	}
	pg.Over = sectionBlocks(v)
	return pg
}

// noMembrane is said of layers of which none can hold cable.
const noMembrane = "No layer is a membrane: where the cable lies in the section is not shown."

// noBed is the same where strips hold the cable.
const noBed = "No layer is mortar or screed: where the cable lies in the section is not shown."

// notShown says why the section does not show the cable.
func notShown(v *floorplan.View) string {
	if v.Plan.Job.Strips != nil {
		return v.Fig.Text(noBed)
	}
	return v.Fig.Text(noMembrane)
}

// sectionWide is how much of the floor the section shows at least, mm.
const sectionWide = 180.0

// A layer thicker than breakOver mm is shown brokenTo mm thick, between break
// lines: thin layers could not be read beside a slab.
const (
	breakOver = 60.0
	brokenTo  = 40.0
)

// A section is the floor cut through, as it is shown.
type section struct {
	layers   []sectionLayer
	names    []string
	holds    int     // index of the layer that holds the cable, -1: none
	wide     float64 // mm of floor
	pitch    float64 // peg to peg
	spacing  float64 // between the runs shown, in whole pegs
	diameter float64 // of the cable
	strips   bool    // the cable lies on strips, at the foot of that layer
}

// A sectionLayer is a layer with the height of its top, 0 being the surface,
// and the thickness it is shown with.
type sectionLayer struct {
	job.Layer
	top, shown float64
}

// broken reports whether the layer is shown thinner than it is.
func (l sectionLayer) broken() bool { return l.shown < l.Thickness }

func (l sectionLayer) bottom() float64 { return l.top - l.shown }

func (s section) bottom() float64 { return s.layers[len(s.layers)-1].bottom() }

// sectionOf cuts a job's floor: wide enough for two runs of cable with the
// sensor between them, as far apart as the job lays them on average.
func sectionOf(p *layout.Plan) section {
	s := section{holds: p.Job.Holding(), wide: sectionWide, pitch: p.PegsAcross(), spacing: 90,
		diameter: heat.DefaultDiameter, strips: p.Job.Strips != nil}
	ty, fig := setting.NewTypesetter(p.Job.Language), p.Job.Figures()
	for i, l := range p.Job.BuildUp {
		s.names = append(s.names, strconv.Itoa(i+1)+"  "+shortened(ty, layerName(l, fig.Language), 48)+", "+
			fig.Thickness(l.Thickness))
		top := 0.0
		if i > 0 {
			top = s.bottom()
		}
		shown := l.Thickness
		if shown > breakOver {
			shown = brokenTo
		}
		s.layers = append(s.layers, sectionLayer{l, top, shown})
	}
	for _, r := range p.Rooms {
		for _, c := range r.Cables {
			if c.Spacing > 0 {
				s.spacing = c.Spacing
			}
			if c.Label.Diameter > 0 {
				s.diameter = c.Label.Diameter
			}
		}
	}
	if s.pitch > 0 {
		s.spacing = s.pitch * math.Max(2, math.Round(s.spacing/s.pitch))
	}
	s.wide = math.Max(s.wide, 2*s.spacing)
	return s
}

// nameLead is from the section to the names of its layers, mm on paper.
const nameLead = 15.0

// border leaves room for the overall height at the left, and for the names of
// the layers at the right.
func (s section) border(ratio float64) (left, right, top, bottom float64) {
	for _, n := range s.names {
		right = math.Max(right, fonts.Width(fonts.Lettering, n, drawing.H25))
	}
	rows := s.nameRows(ratio)
	return 24, nameLead + right + 2, 16, math.Max(rows[len(rows)-1]+s.bottom()/ratio, 0) + 4
}

// sectionScales are those that suit a section: full size and a few steps down.
func sectionScales(p *layout.Plan) []drawing.Scale {
	var out []drawing.Scale
	for _, s := range drawing.ScalesFor(p.Job.Figures().Units) {
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

func (s section) draw(v *floorplan.View) {
	for i, l := range s.layers {
		s.drawLayer(v, i, l)
	}
	s.drawSides(v)
	s.drawNames(v)
	switch {
	case s.holds < 0:
		v.Remark(notShown(v))
	case s.strips:
		s.drawStrip(v)
		s.drawCable(v)
	default:
		s.drawPegs(v)
		s.drawCable(v)
	}
	s.drawHeights(v)
}

// breakGap is the white between the break lines of a layer, mm on paper, and
// breakPast how far they lead past the section.
const (
	breakGap  = 2.0
	breakPast = 2.5
)

// boxes returns where a layer lies on paper: in two parts where it is broken.
func (s section) boxes(v *floorplan.View, l sectionLayer) []drawing.Box {
	b := drawing.BoxOf(v.Paper.Pt(plane.Pt(0, l.top)), v.Paper.Pt(plane.Pt(s.wide, l.bottom())))
	if !l.broken() {
		return []drawing.Box{b}
	}
	upper, lower := b, b
	upper.Y1, lower.Y0 = b.Centre().Y-breakGap/2, b.Centre().Y+breakGap/2
	return []drawing.Box{upper, lower}
}

func (s section) drawLayer(v *floorplan.View, i int, l sectionLayer) {
	for _, b := range s.boxes(v, l) {
		if p, ok := materialOf(l.Kind); ok {
			v.Add(drawing.Hatch([][]drawing.Pt{b.Corners()}, p)...)
		}
		v.Ink.Hatch([][]drawing.Pt{b.Corners()})
	}
	if l.broken() {
		boxes := s.boxes(v, l)
		for _, y := range []float64{boxes[0].Y1, boxes[1].Y0} {
			v.BreakLine(drawing.Pt{X: boxes[0].X0 - breakPast, Y: y}, drawing.Pt{X: boxes[0].X1 + breakPast, Y: y})
		}
	}
	for _, height := range []float64{l.top, l.bottom()} {
		st := drawing.FixtureLine()
		if i == 0 && height == l.top {
			st = drawing.WallLine()
		}
		line := v.Paper.Pts([]plane.Point{{X: 0, Y: height}, {X: s.wide, Y: height}})
		v.Path(drawing.LayerWalls, l.Name, drawing.Polyline(line...), st, nil)
		v.Ink.Line(line, lettering.SolidInk)
	}
}

// drawSides draws the ends of the section, where the floor goes on.
func (s section) drawSides(v *floorplan.View) {
	for _, x := range []float64{0, s.wide} {
		from := v.Paper.Pt(plane.Pt(x, 0))
		for _, l := range s.layers {
			if l.broken() {
				boxes := s.boxes(v, l)
				v.BreakLine(from, drawing.Pt{X: from.X, Y: boxes[0].Y1})
				from.Y = boxes[1].Y0
			}
		}
		v.BreakLine(from, v.Paper.Pt(plane.Pt(x, s.bottom())))
	}
}

// nameRow is the distance of the names of layers, mm.
const nameRow = 5.4

// nameRows are how far below the surface the names of the layers stand, mm on paper: each
// beside its layer's upper part, or lower where that is thinner than lettering.
func (s section) nameRows(ratio float64) (rows []float64) {
	for i, l := range s.layers {
		at := (l.shown/2 - l.top) / ratio
		if l.broken() {
			at = (l.shown/4-l.top)/ratio - breakGap/4
		}
		if i > 0 {
			at = math.Max(at, rows[i-1]+nameRow)
		}
		rows = append(rows, at)
	}
	return rows
}

// drawNames writes the layers at the right, a leader from each.
func (s section) drawNames(v *floorplan.View) {
	right := v.Paper.Pt(plane.Pt(s.wide, 0))
	rows := s.nameRows(v.Paper.Ratio)
	for i, l := range s.layers {
		start := drawing.Pt{X: right.X, Y: s.boxes(v, l)[0].Centre().Y}
		row := right.Y + rows[i]
		end := drawing.Pt{X: right.X + nameLead - 1, Y: row}
		v.Thin(drawing.LayerDims, start.Sub(drawing.Pt{X: 3}), start, end.Sub(drawing.Pt{X: 2}), end)
		v.Path(drawing.LayerDims, "", drawing.Circle(start.Sub(drawing.Pt{X: 3}), 0.5), nil,
			drawing.Filled(drawing.Black))
		text := &drawing.Text{Layer: drawing.LayerText, At: end.Add(drawing.Pt{X: 1, Y: drawing.H25 / 2}),
			Text: s.names[i], Height: drawing.H25}
		v.Fixed([]drawing.Item{text})
	}
}

// layerName is what a layer is called: by its kind where it has no name.
func layerName(l job.Layer, reader language.Language) string {
	word := floorplan.Or(l.Name, l.Kind)
	if word == "insulation" && reader != language.English { // which elsewhere is that of a conductor
		word = "thermal insulation"
	}
	return reader.Text(word)
}

// shortened cuts a name to w mm; the table beside the section has it whole.
func shortened(ty *setting.Typesetter, name string, w float64) string {
	lines := ty.Wrap(name, w)
	if len(lines) > 1 {
		return lines[0] + "..."
	}
	return name
}

// stripHigh is the height of a strip as drawn, mm: its foot, that the cable is clipped to.
const stripHigh = 1.0

// drawStrip draws the strip that the cable is clipped to, along the section since it lies across the runs.
func (s section) drawStrip(v *floorplan.View) {
	low := s.layers[s.holds].bottom()
	strip := drawing.BoxOf(v.Paper.Pt(plane.Pt(0, low+stripHigh)), v.Paper.Pt(plane.Pt(s.wide, low)))
	v.Sign(signs.Strip, drawing.LayerMembrane, v.Fig.Text("strip"), drawing.Rectangle(strip), drawing.ThinLine(),
		drawing.Filled(drawing.Grey(0.4)))
}

// cableAt is the height of the cable's middle: that of the membrane, or on its strips at the foot of its bed.
func (s section) cableAt() float64 {
	l := s.layers[s.holds]
	if s.strips {
		return min(l.bottom()+stripHigh+s.diameter/2, l.top-l.shown/2)
	}
	return l.top - l.shown/2
}

// drawCable draws the runs of cable in what holds them, and the sensor midway
// between two.
func (s section) drawCable(v *floorplan.View) {
	l := s.layers[s.holds]
	y := s.cableAt()
	for x := s.spacing / 2; x < s.wide; x += s.spacing {
		sectionDot(v, plane.Pt(x, y), min(s.diameter, l.shown)/2, v.Fig.Text("heating cable"), drawing.HeatRed)
	}
	v.Uses(signs.Cable)
	above := drawing.Pt{Y: -9}
	pointTo(v, v.Paper.Pt(plane.Pt(s.spacing/2, y)), v.Paper.Pt(plane.Pt(s.spacing/2, 0)).Add(above),
		v.Fig.Text("cable"),
		drawing.End)
	at := plane.Pt(s.spacing, y)
	sectionDot(v, at, min(sensorRadius, l.shown/2), v.Fig.Text("sensor"), drawing.SensorBlue)
	pointTo(v, v.Paper.Pt(at), v.Paper.Pt(plane.Pt(s.spacing, 0)).Add(above), v.Fig.Text("sensor in its tube"),
		drawing.Start)
}

// sensorRadius is that of the sensor in its tube as drawn, mm.
const sensorRadius = 2.5

// drawPegs draws the pegs between the channels in which cable lies; for the
// sensor's tube one is cut away where it stands in the way.
func (s section) drawPegs(v *floorplan.View) {
	l := s.layers[s.holds]
	if v.Paper.Len(s.pitch) < leastPitch {
		return
	}
	box := s.boxes(v, l)[0]
	channels := v.Paper.Pt(plane.Pt(s.spacing/2, 0)).X
	tube := v.Paper.Pt(plane.Pt(s.spacing, 0)).X
	for _, b := range pegsIn(box, channels, v.Paper.Len(s.pitch)) {
		if r := max(0.6, v.Paper.Len(sensorRadius)); tube+r < b.X0 || tube-r > b.X1 {
			v.Path(drawing.LayerMembrane, "peg", drawing.Rectangle(b), drawing.ThinLine(),
				drawing.Filled(drawing.Grey(0.4)))
		}
	}
}

// leastPitch is the distance of pegs below which a section leaves them out, mm
// on paper.
const leastPitch = 2.0

// pegsIn returns the pegs of a membrane that lies in box, a channel between
// two of them lying at x.
func pegsIn(box drawing.Box, x, pitch float64) []drawing.Box {
	var out []drawing.Box
	for at := x + pitch/2 - pitch*math.Ceil((x-box.X0)/pitch+1); at < box.X1+pitch; at += pitch {
		b := drawing.Box{X0: math.Max(at-0.28*pitch, box.X0), Y0: box.Y0 + 0.1*box.H(),
			X1: math.Min(at+0.28*pitch, box.X1), Y1: box.Y1}
		if b.W() > 0.5 {
			out = append(out, b)
		}
	}
	return out
}

func sectionDot(v *floorplan.View, at plane.Point, r float64, title string, c drawing.Colour) {
	p := v.Paper.Pt(at)
	segs := drawing.Circle(p, max(0.6, v.Paper.Len(r)))
	v.Path(drawing.LayerCable, title, segs, &drawing.Stroke{Width: drawing.W035, Colour: drawing.White},
		drawing.Filled(c))
}

// pointTo writes a name above the section with a leader down to what it names.
func pointTo(v *floorplan.View, at, above drawing.Pt, text string, a drawing.Anchor) {
	v.Thin(drawing.LayerDims, at, above)
	t := &drawing.Text{Layer: drawing.LayerText, At: above.Add(drawing.Pt{Y: -1}), Text: text, Height: drawing.H25,
		Anchor: a}
	v.Fixed([]drawing.Item{t})
}

// drawHeights dimensions the whole, and what stands over the layer that carries
// the floor.
func (s section) drawHeights(v *floorplan.View) {
	left := v.Paper.Pt(plane.Pt(0, 0)).X
	draw := func(line, mm, low float64, name string) {
		c := floorplan.Chain{Dir: drawing.Pt{Y: -1}, Out: drawing.Pt{X: -1}, Line: -left + line, At: []float64{0, mm},
			Name: name}
		c.Feet = []drawing.Pt{v.Paper.Pt(plane.Pt(0, low)), v.Paper.Pt(plane.Pt(0, 0))}
		c.Draw(v.Page, v.Fig.Fine())
	}
	layers := v.Plan.Job.BuildUp
	if carried, n := overSubfloor(layers); carried > 0 && n < len(layers) {
		draw(8, carried, s.layers[n].top, v.Fig.Text("height over the subfloor"))
	}
	draw(18, thickness(layers), s.bottom(), v.Fig.Text("whole height"))
}

// overSubfloor returns the thickness of the layers that stand on what carries
// the floor, and how many they are.
func overSubfloor(layers []job.Layer) (mm float64, n int) {
	for _, l := range layers {
		if carries(l.Kind) {
			break
		}
		mm += l.Thickness
		n++
	}
	return mm, n
}

// carries reports whether a layer is the structure the new floor stands on.
func carries(kind string) bool { return kind == "wood" || kind == "concrete" }

func sectionLevels(v *floorplan.View) []setting.Level {
	bs := sectionBlocks(v)
	// a section so small that its layers run together is worth a second sheet
	return []setting.Level{{Blocks: bs}, {Blocks: bs, Gain: 2.5, Overflow: true}}
}

// sectionBlocks are what stands beside a section: what finds no room goes to the notes, words rather
// than pictures.
func sectionBlocks(v *floorplan.View) []setting.Block {
	bs := append([]setting.Block{layerTable(v)}, warmFloors(v.Plan)...)
	if !onSmall(v.Plan) { // a picture more where paper is larger
		bs = append(bs, cutaways(v.Plan)...)
	}
	bs = append(bs, detailBlocks(v.Plan, nil, ofSection)...)
	if notes := sectionNotes(v); len(notes.Paras) > 0 {
		bs = append(bs, notes)
	}
	bs = append(bs, warmthBlocks(v.Plan)...)
	return append(bs, lossBlocks(v.Plan)...)
}

// layerTable lists the layers from the top with the height each reaches, and below each the
// figures that warmth is worked out from, with their source.
func layerTable(v *floorplan.View) setting.Block {
	t := setting.Table{Head: v.Fig.Text("Layers, top to bottom"), Fine: onSmall(v.Plan), Cols: []setting.Column{
		{Head: v.Fig.Text("No."), Align: setting.Decimal},
		{Head: v.Fig.Text("Layer"), Wraps: true, Least: 28}, {Head: "mm", Align: setting.Decimal}, {Head: "in",
			Align: setting.Decimal}, {Head: v.Fig.Textf("Top at, %s", v.Fig.Units.String()), Align: setting.Decimal}}}
	layers := v.Plan.Job.BuildUp
	for i, l := range layers {
		t.Rows = append(t.Rows, setting.Row(strconv.Itoa(i+1), layerName(l, v.Fig.Language),
			v.Fig.TrimFigure(l.Thickness),
			v.Fig.Fine().FeetInches(l.Thickness), topAt(v, thickness(layers[i:])), conducts(v.Fig, v.Plan.Warmth, i)))
	}
	if w := v.Plan.Warmth; w != nil && w.Problem == "" && w.Board > 0 {
		if m, ok := heat.DefaultMaterial("board"); ok {
			t.Rows = append(t.Rows, setting.Row("", v.Fig.Text("board compared with"), v.Fig.TrimFigure(w.Board),
				v.Fig.Fine().FeetInches(w.Board), "", layerFigures(v.Fig, m.Layer(w.Board))))
		}
	}
	if onSmall(v.Plan) {
		carried, _ := overSubfloor(layers)
		t.Rows = append(t.Rows, setting.Row("", v.Fig.Text("all over the subfloor"), v.Fig.TrimFigure(carried),
			v.Fig.Fine().FeetInches(carried), "", v.Fig.Textf("compare with %s", heightsToCompare(v.Plan))))
	}
	return t
}

// topAt writes the height that a layer reaches, its unit in the head.
func topAt(v *floorplan.View, mm float64) string {
	if v.Fig.Units == plane.Inches {
		return v.Fig.Fine().FeetInches(mm)
	}
	return v.Fig.TrimFigure(mm)
}

// heightsToCompare are what the floor's height has to suit.
func heightsToCompare(p *layout.Plan) string {
	for _, r := range p.Rooms {
		if slices.ContainsFunc(r.Job.Fixtures, func(f job.Fixture) bool { return f.Flange != nil }) {
			return p.Job.Language.Text("door leaves, thresholds and the toilet's flange ring")
		}
	}
	return p.Job.Language.Text("door leaves and thresholds")
}

// thicknessNote says what the layers' thicknesses are taken from.
func thicknessNote(f say.Figures) string {
	return f.Text("Thicknesses by the job file, each rounded, no tolerance taken off.")
}

func sectionNotes(v *floorplan.View) setting.List {
	l := setting.List{Head: v.Fig.Text("Notes"), Number: 1}
	l.Paras = append(l.Paras, v.Noted...)
	l.Paras = append(l.Paras, v.Remarks...)
	if onSmall(v.Plan) {
		if w := v.Plan.Warmth; w == nil || w.Problem != "" { // else it is with what its figures rest on
			l.Paras = append(l.Paras, thicknessNote(v.Fig))
		}
		return l
	}
	carried, _ := overSubfloor(v.Plan.Job.BuildUp)
	l.Paras = append(l.Paras, v.Fig.Textf("The finished floor stands %s over the subfloor: compare with %s.",
		v.Fig.Thickness(carried), heightsToCompare(v.Plan)))
	l.Paras = append(l.Paras, thicknessNote(v.Fig))
	if from := figureSources(v.Fig, v.Plan.Warmth); from != "" {
		l.Paras = append(l.Paras, from)
	}
	return l
}

// acrossJoints says what passes the movement joints of a plan, as its rooms' plans
// do; empty where it has no joint.
func acrossJoints(p *layout.Plan) string {
	joints := 0
	var crossed []string
	for i := range p.Rooms {
		joints += len(p.Rooms[i].Job.Joints)
		if len(p.Rooms[i].JointCrossings()) > 0 {
			crossed = append(crossed, planLabel(p, &p.Rooms[i]))
		}
	}
	switch {
	case joints == 0:
		return ""
	case crossed == nil:
		return p.Job.Language.Text("no cable crosses it")
	}
	return p.Job.Language.Textf("no heating cable crosses it, a lead or tube only as on %s",
		strings.Join(crossed, ", "))
}
