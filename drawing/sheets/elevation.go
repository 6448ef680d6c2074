package sheets

import (
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/symbols"
)

// Sizes of the elevation, mm of wall or floor.
const (
	overBox   = 200  // of wall shown over the box
	leastWall = 1200 // of wall shown at least
	stripDeep = 500  // of floor shown before the wall
	boxSide   = 100  // of the box as drawn at least: its size is for the electrician
	leadGap   = 20   // between the leads that rise to it, as drawn
	doorHigh  = 2032 // of a door as drawn, where nothing says otherwise
)

// planGap is the paper between the finished floor of the elevation and the wall
// of the plan below it: both cut bands, and the title of the plan.
const planGap = 2*floorplan.Poche + 8.5

func elevationHeight(r *layout.Room) float64 {
	return math.Max(leastWall, r.Job.Thermostat.Height+overBox)
}

func elevationBounds(r *layout.Room) plane.Rect {
	w, _ := r.Job.BoxWall()
	return plane.Rect{Min: plane.Pt(0, 0), Max: plane.Pt(w.Line.Length(), elevationHeight(r))}
}

// elevationBorder leaves room for heights beside the wall, for its title over it, which may be the
// wider, and for the floor below.
func elevationBorder(r *layout.Room, f say.Figures) func(ratio float64) (left, right, top, bottom float64) {
	on, _ := r.Job.BoxWall()
	title := (&drawing.Text{Text: elevationTitle(f, on), Height: setting.Heading, Face: fonts.LetteringBold}).Box().W()
	return func(ratio float64) (left, right, top, bottom float64) {
		right = math.Max(floorplan.TierOne+floorplan.TierPast+4, title-on.Line.Length()/ratio)
		return 12, right, 10, planGap + stripDeep/ratio + floorplan.TierOne + 4
	}
}

// An elevation maps what the box hangs on, seen from the room, to the view: x to the right,
// the floor at height 0, the plan of the floor below it. A curve is unrolled, with the floor
// before it.
type elevation struct {
	*floorplan.View
	on   job.BoxWall
	wall plane.Segment // its line
	flip bool          // the wall runs to the left as seen from the room
}

// plan returns the place in the view of what lies x along the wall and so many
// mm of floor before it.
func (e elevation) plan(x, before float64) plane.Point {
	return plane.Pt(x, -planGap*e.Paper.Ratio-before)
}

// x returns how far right of the wall's left end, as seen from the room, a
// place of the floor lies.
func (e elevation) x(p plane.Point) float64 {
	d, _ := e.on.Off(p)
	return e.rightOf(d)
}

// rightOf is x of what lies so far along the wall from its start.
func (e elevation) rightOf(along float64) float64 {
	if e.flip {
		return e.wall.Length() - along
	}
	return along
}

// place returns the place of the floor x right of the wall's left end and so
// many mm before the wall.
func (e elevation) place(x, before float64) plane.Point {
	return e.on.Before(e.rightOf(x), before)
}

// floor returns where a place of the floor lies in the plan below.
func (e elevation) floor(p plane.Point) plane.Point {
	along, before := e.on.Off(p)
	return e.plan(e.rightOf(along), before)
}

func drawElectrician(v *floorplan.View) {
	e := elevationOf(v)
	e.drawWall()
	e.drawDoors()
	e.drawRise()
	e.drawFloor()
	e.drawSizes()
	v.ViewTitle(drawing.Pt{X: v.Paper.Pt(plane.Pt(0, 0)).X, Y: v.Paper.Pt(plane.Pt(0, elevationHeight(v.Room))).Y - 4},
		elevationTitle(v.Fig, e.on))
	v.ViewTitle(v.Paper.Pt(plane.Pt(0, 0)).Add(drawing.Pt{Y: floorplan.Poche + 6}), v.Fig.Textf("Floor before %s",
		e.on.Within(v.Fig.Language)))
}

// elevationOf turns what the box hangs on so that its right is the right of who faces it.
func elevationOf(v *floorplan.View) elevation {
	w, _ := v.Room.Job.BoxWall()
	return elevation{v, w, w.Line, w.Line.B.Sub(w.Line.A).Cross(w.In) > 0}
}

// elevationTitle says what is seen, and from where.
func elevationTitle(f say.Figures, on job.BoxWall) string {
	name := capital(on.Name(f.Language))
	switch {
	case on.Thickness > 0:
		return f.Textf("%s seen from the %s", name, f.Text(job.WindOf(on.In)))
	case on.Curved():
		return f.Textf("%s seen from the room, unrolled", name)
	}
	return f.Textf("%s seen from the room", name)
}

func (e elevation) drawWall() {
	n, h := e.wall.Length(), elevationHeight(e.Room)
	t := floorplan.Poche * e.Paper.Ratio
	for _, y := range []float64{0, e.plan(0, -t).Y} {
		band := plane.Rectangle(plane.Pt(0, y-t), plane.Pt(n, y))
		e.Sign(signs.Wall, drawing.LayerFloor, "cut", drawing.Polygon(e.Paper.Pts(band)...), nil,
			drawing.Filled(drawing.Poche))
		e.Ink.Mark(drawing.BoxOf(e.Paper.Pts(band)...))
	}
	e.LineOn(drawing.LayerWalls, e.Fig.Text("finished floor"), drawing.WallLine(), plane.Pt(0, 0), plane.Pt(n, 0))
	e.LineOn(drawing.LayerWalls, e.Fig.Text("wall"), drawing.WallLine(), e.plan(0, 0), e.plan(n, 0))
	for _, x := range []float64{0, n} {
		e.LineOn(drawing.LayerWalls, e.Fig.Text("corner"), drawing.FixtureLine(), plane.Pt(x, 0), plane.Pt(x, h))
	}
	e.BreakLine(e.Paper.Pt(plane.Pt(0, h)), e.Paper.Pt(plane.Pt(n, h)))
	e.Ink.Line(e.Paper.Pts([]plane.Point{{X: 0, Y: h}, {X: 0, Y: 0}, {X: n, Y: 0}, {X: n, Y: h}, {X: 0, Y: h}}),
		lettering.SolidInk)
	e.Ink.Line(e.Paper.Pts([]plane.Point{e.plan(0, stripDeep), e.plan(0, 0), e.plan(n, 0), e.plan(n, stripDeep)}),
		lettering.SolidInk)
}

// drawDoors draws doors and openings of the wall; a window's heights are not
// known, so that it only shows in the plan.
func (e elevation) drawDoors() {
	for _, o := range e.on.Openings {
		a, b := e.rightOf(o.From), e.rightOf(o.To)
		if a > b {
			a, b = b, a
		}
		t := floorplan.Poche * e.Paper.Ratio
		gap := plane.Rectangle(e.plan(a, 0), e.plan(b, -t))
		e.Path(drawing.LayerWalls, o.Name, drawing.Polygon(e.Paper.Pts(gap)...), drawing.FixtureLine(),
			drawing.Filled(drawing.White))
		if o.Kind == "window" {
			continue
		}
		h := math.Min(doorHigh, elevationHeight(e.Room))
		frame := []plane.Point{{X: a}, {X: a, Y: h}, {X: b, Y: h}, {X: b}}
		e.LineOn(drawing.LayerFixtures, o.Name, drawing.FixtureLine(), frame...)
		e.Ink.Line(e.Paper.Pts(frame), lettering.SolidInk)
		e.nameIn(e.Fig.Text(floorplan.Or(o.Name, o.Kind)), plane.Rectangle(plane.Pt(a, 0), plane.Pt(b, h)))
	}
}

// nameIn asks for a name inside an outline of the view, where it has room.
func (e elevation) nameIn(name string, outline plane.Ring) {
	if strings.TrimSpace(name) == "" {
		return
	}
	rings := [][]drawing.Pt{e.Paper.Pts(outline)}
	box := drawing.BoxOf(rings[0]...)
	l := &lettering.Label{Text: name, Height: drawing.H25, Rank: 5, Subject: box.Centre(), Option: true}
	size := l.Sample(lettering.Spot{}).Box()
	for _, c := range floorplan.GridIn(box, size.W(), size.H()) {
		if floorplan.HoldsBox(rings, c, size.W(), size.H()) {
			l.Spots = append(l.Spots, lettering.Spot{At: lettering.CentredOn(c, size),
				Cost: 0.08 * c.Dist(box.Centre())})
		}
	}
	e.Letters.Add(l)
}

// drawRise draws the box, the leads up to it and the part of the wall that is
// kept free of nails.
func (e elevation) drawRise() {
	t := e.Room.Job.Thermostat
	x := e.x(t.At)
	e.riseZone(x, t.Height)
	for i := range e.leads() {
		dx := -e.gap() * float64(i+1)
		up := e.Paper.Pts([]plane.Point{{X: x + dx, Y: 0}, {X: x + dx, Y: t.Height}})
		e.Sign(signs.ColdLead, drawing.LayerLeads, "cold lead", drawing.Polyline(up...), drawing.ColdLeadLine(), nil)
		e.Ink.Line(up, lettering.CableInk)
	}
	for i := range e.Room.Sensors {
		dx := e.gap() * float64(i+1)
		up := e.Paper.Pts([]plane.Point{{X: x + dx, Y: 0}, {X: x + dx, Y: t.Height}})
		e.Sign(signs.SensorLead, drawing.LayerSensors, "sensor lead", drawing.Polyline(up...), drawing.SensorLeadLine(),
			nil)
		e.Ink.Line(up, lettering.CableInk)
	}
	half := math.Max(boxSide/2, e.band())
	box := plane.Rectangle(plane.Pt(x-half, t.Height-boxSide/2), plane.Pt(x+half, t.Height+boxSide/2))
	e.Path(drawing.LayerMarks, "box", drawing.Polygon(e.Paper.Pts(box)...), drawing.FixtureLine(),
		drawing.Filled(drawing.White))
	at := e.Paper.Pt(plane.Pt(x, t.Height))
	e.Ink.Mark(drawing.BoxOf(e.Paper.Pts(box)...))
	e.Mark(signs.Thermostat, symbols.Thermostat(at))
	e.nameRise(x, t.Height)
}

// gap is the distance at which leads beside each other are drawn, mm of wall: to
// be told apart, and within most of the part without nails.
func (e elevation) gap() float64 {
	return math.Min(math.Max(leadGap, 1.2*e.Paper.Ratio), 0.7*layout.RiseHalf(e.Fig.Units)/e.places())
}

// band is how far to either side of the box's middle leads rise.
func (e elevation) band() float64 { return e.gap() * e.places() }

// places is how many gaps the leads of either side take.
func (e elevation) places() float64 {
	return 0.5 + float64(max(len(e.leads()), len(e.Room.Sensors)))
}

// nameRise says at its side how wide the part of the wall without nails is.
func (e elevation) nameRise(x, height float64) {
	text := e.Fig.Textf("no nails, %s each side", floorplan.RiseWords(e.Fig.Units))
	e.Says(text)
	l := &lettering.Label{Text: text, Height: drawing.H25, Rank: 2, Note: e.Fig.Textf("No nails, %s each side of "+
		"the leads.", floorplan.RiseWords(e.Fig.Units)),
		Mark: inTwoLines}
	size := l.Box(lettering.Spot{})
	for _, side := range []float64{1, -1} {
		edge := math.Min(math.Max(0, x+side*layout.RiseHalf(e.Fig.Units)), e.wall.Length())
		for i, share := range []float64{0.5, 0.65, 0.35, 0.8, 0.2} {
			at := e.Paper.Pt(plane.Pt(edge, share*height))
			l.Subject = at
			cost := 0.3 * float64(i)
			l.Spots = append(l.Spots, lettering.Spot{At: at.Add(drawing.Pt{X: side * (1 + size.W()/2)}), Cost: cost})
			for far := 6.0; far < 70; far += 4 {
				end := at.Add(drawing.Pt{X: side * far})
				l.Spots = append(l.Spots, lettering.Spot{At: end.Add(drawing.Pt{X: side * (0.8 + size.W()/2)}),
					Cost: cost, Leader: []drawing.Pt{at, end}})
			}
		}
	}
	e.Letters.Add(l)
}

// inTwoLines writes text about its centre in two lines, as alike as its words
// allow.
func inTwoLines(at drawing.Pt, text string) []drawing.Item {
	ws := setting.Fields(text)
	cut, least := 0, math.Inf(1)
	width := func(ws []string) float64 { return fonts.Width(fonts.Lettering, strings.Join(ws, " "), drawing.H25) }
	for i := range ws {
		if w := math.Max(width(ws[:i]), width(ws[i:])); w < least {
			cut, least = i, w
		}
	}
	var out []drawing.Item
	for k, line := range [][]string{ws[:cut], ws[cut:]} {
		p := at.Add(drawing.Pt{Y: float64(k)*setting.Leading - (setting.Leading-drawing.H25)/2})
		out = append(out, &drawing.Text{Layer: drawing.LayerText, At: p, Text: strings.Join(line, " "),
			Height: drawing.H25, Anchor: drawing.Middle})
	}
	return out
}

// riseZone hatches the wall at both sides of the leads, and outlines the whole.
func (e elevation) riseZone(x, height float64) {
	half := layout.RiseHalf(e.Fig.Units)
	lo, hi := math.Max(0, x-half), math.Min(e.wall.Length(), x+half)
	h := math.Max(height, 1)
	band := e.band()
	for _, z := range [][2]float64{{lo, x - band}, {x + band, hi}} {
		if z[1] > z[0] {
			e.Hatched(plane.FromRing(plane.Rectangle(plane.Pt(z[0], 0), plane.Pt(z[1], h))), signs.Rise, "lead rise")
		}
	}
	e.LineOn(drawing.LayerHatch, e.Fig.Text("lead rise"), drawing.ThinLine(), plane.Pt(lo, 0), plane.Pt(lo, h),
		plane.Pt(hi, h),
		plane.Pt(hi, 0))
}

// leads returns the cold leads that come up to the box.
func (e elevation) leads() (all [][]plane.Point) {
	for _, c := range e.Room.Cables {
		for _, end := range c.Joined() {
			all = append(all, end.Lead)
		}
	}
	return all
}

// drawFloor draws the strip of floor before the wall, broken off where the floor
// goes on.
func (e elevation) drawFloor() {
	strip := e.strip()
	draw := func(s signs.Sign, l drawing.Layer, title string, st *drawing.Stroke, pts []plane.Point) (shown bool) {
		pieces := e.piecesIn(strip, pts)
		for _, piece := range pieces {
			e.Sign(s, l, title, drawing.Polyline(piece...), st, nil)
		}
		return len(pieces) > 0
	}
	e.drawEnds()
	for _, s := range e.Room.Job.Stands() {
		if draw(signs.Stand, drawing.LayerFixtures, s.Name, drawing.FixtureLine(),
			append(append([]plane.Point{}, s.Outline...), s.Outline[0])) {
			e.nameInStrip(e.Fig.Text(s.Name), s.Outline)
		}
	}
	for i, m := range e.Room.Job.Joints {
		line := []plane.Point{m.A, m.B}
		if draw(signs.Movement, drawing.LayerFloor, e.Fig.Text("movement joint"), drawing.JointLine(), line) {
			at := e.piecesIn(strip, line)[0]
			name := layout.JointName(i, len(e.Room.Job.Joints))
			e.Tag(at[0].Lerp(at[len(at)-1], 0.5), 1, name, name, 3)
		}
	}
	for _, c := range e.Room.Cables {
		draw(signs.Cable, drawing.LayerCable, e.Fig.Textf("heating cable %s", c.ID), drawing.CableLine(), bent(c.Path,
			c.BendRadius))
	}
	for _, l := range e.leads() {
		draw(signs.ColdLead, drawing.LayerLeads, e.Fig.Text("cold lead"), drawing.ColdLeadLine(), l)
	}
	for _, s := range e.Room.Sensors {
		draw(signs.SensorLead, drawing.LayerSensors, e.Fig.Textf("lead of sensor %s", s.Name),
			drawing.SensorLeadLine(), s.Lead)
		if at := e.Paper.Pt(e.floor(s.Tip)); strip.Holds(at) {
			e.SensorTip(s, at)
		}
	}
	e.drawStarts()
	t := e.Room.Job.Thermostat
	e.Mark(signs.Thermostat, symbols.Thermostat(e.Paper.Pt(e.plan(e.x(t.At), -floorplan.Poche/2*e.Paper.Ratio))))
}

// piecesIn returns the parts of a line of the floor that lie in a box of the plan,
// and keeps lettering off them.
func (e elevation) piecesIn(b drawing.Box, pts []plane.Point) [][]drawing.Pt {
	var paper []drawing.Pt
	for _, p := range e.dense(pts) {
		paper = append(paper, e.Paper.Pt(e.floor(p)))
	}
	pieces := b.Pieces(paper)
	for _, piece := range pieces {
		e.Ink.Line(piece, lettering.CableInk)
	}
	return pieces
}

// dense puts points between those of a line where it is to be unrolled with a curve.
func (e elevation) dense(pts []plane.Point) (out []plane.Point) {
	const step = 25.0 // mm
	if !e.on.Curved() {
		return pts
	}
	for i, p := range pts {
		if i > 0 {
			n := math.Ceil(pts[i-1].Dist(p) / step)
			for k := 1.0; k < n; k++ {
				out = append(out, pts[i-1].Lerp(p, k/n))
			}
		}
		out = append(out, p)
	}
	return out
}

// letter is that of the wall that the box hangs on.
func (e elevation) letter() string { return e.Room.Job.Walls[e.Room.Job.Thermostat.Wall].Letter }

// strip is where the floor before the wall lies on paper.
func (e elevation) strip() drawing.Box {
	return drawing.BoxOf(e.Paper.Pts([]plane.Point{e.plan(0, 0), e.plan(e.wall.Length(), stripDeep)})...)
}

// drawEnds draws what the strip of floor ends at: other walls of the room, and
// break lines where the floor goes on.
func (e elevation) drawEnds() {
	strip := e.strip()
	wide := strip
	wide.X0 -= endSlack / e.Paper.Ratio
	wide.X1 += endSlack / e.Paper.Ratio
	for i, w := range e.Room.Job.Walls {
		if e.on.Thickness == 0 && (i == e.Room.Job.Thermostat.Wall || e.on.Curved() && w.Letter == e.letter()) {
			continue
		}
		from, shown := 0.0, strip
		if math.Abs(w.B.Sub(w.A).Unit().Dot(e.wall.B.Sub(e.wall.A).Unit())) < nearlySquare {
			shown = wide
		}
		for _, g := range append(e.Gaps(i), [2]float64{w.Length(), w.Length()}) {
			for _, piece := range e.piecesIn(shown, []plane.Point{w.At(from), w.At(g[0])}) {
				e.Sign(signs.Wall, drawing.LayerWalls, "wall "+w.Letter, drawing.Polyline(piece...), drawing.WallLine(),
					nil)
			}
			for _, piece := range e.piecesIn(shown, []plane.Point{w.At(g[0]), w.At(g[1])}) {
				e.Path(drawing.LayerWalls, "opening", drawing.Polyline(piece...), drawing.FixtureLine(), nil)
			}
			from = g[1]
		}
	}
	e.BreakLine(drawing.Pt{X: strip.X0, Y: strip.Y1}, drawing.Pt{X: strip.X1, Y: strip.Y1})
	for _, x := range []float64{0, e.wall.Length()} {
		for _, open := range e.goesOn(x) {
			e.BreakLine(e.Paper.Pt(e.plan(x, open[0])), e.Paper.Pt(e.plan(x, open[1])))
		}
	}
}

// endSlack is how far past the end of the wall another wall may lie and still be
// shown as the end of the strip, mm, and nearlySquare the cosine of its angle up
// to which it is one: corners are seldom quite square.
const (
	endSlack     = 15.0
	nearlySquare = 0.05
)

// goesOn returns where along the side of the strip at x the floor goes on past
// it, as distances from the wall.
func (e elevation) goesOn(x float64) (open [][2]float64) {
	const step = 10.0
	beyond := x - endSlack
	if x > 0 {
		beyond = x + endSlack
	}
	for d := 0.0; d < stripDeep; d += step {
		if !e.Room.Job.Outline.Contains(e.place(beyond, d+step/2)) {
			continue
		}
		if n := len(open); n > 0 && open[n-1][1] == d {
			open[n-1][1] = d + step
		} else {
			open = append(open, [2]float64{d, d + step})
		}
	}
	return open
}

// nameInStrip names a fixture in the part of it that the strip shows.
func (e elevation) nameInStrip(name string, outline plane.Ring) {
	var shown plane.Ring
	for _, p := range e.dense(outline) {
		shown = append(shown, e.floor(p))
	}
	strip := plane.FromRing(plane.Rectangle(e.plan(0, stripDeep), e.plan(e.wall.Length(), 0)))
	part, err := plane.FromRing(shown).Meet(strip)
	if err != nil {
		return // it is drawn, only not named
	}
	for _, r := range part.Rings() {
		e.nameIn(name, r)
	}
}

// drawStarts marks where heat begins, and notes of which cables it does so
// outside the strip.
func (e elevation) drawStarts() {
	var elsewhere []string
	for _, c := range e.Room.Cables {
		at := e.Paper.Pt(e.floor(c.Path[0]))
		if !e.strip().Holds(at) {
			elsewhere = append(elsewhere, e.Fig.Textf("%sSTART", e.Prefix(c.ID)))
			continue
		}
		e.Mark(signs.Joint, symbols.LeadJoint(at))
		e.Tag(at, 1.4, e.Fig.Textf("%sSTART", e.Prefix(c.ID)), e.Fig.Textf("%sSTART", e.Prefix(c.ID)), 1)
	}
	if len(elsewhere) > 0 {
		e.Remark(e.Fig.Textf("%s: outside the floor shown, see %s.", strings.Join(elsewhere, ", "),
			planLabel(e.Plan, e.Room)))
	}
}

// bent returns a path with its corners rounded, as points.
func bent(path []plane.Point, radius float64) []plane.Point {
	var pts []drawing.Pt
	for _, p := range path {
		pts = append(pts, drawing.Pt(p))
	}
	var out []plane.Point
	for _, l := range drawing.Flatten(drawing.Rounded(pts, radius), 1) {
		for _, p := range l {
			out = append(out, plane.Pt(p.X, p.Y))
		}
	}
	return out
}

// drawSizes dimensions the box: its height, and its place along the wall.
func (e elevation) drawSizes() {
	t := e.Room.Job.Thermostat
	n, x := e.wall.Length(), e.x(t.At)
	up := drawing.Pt{Y: -1}
	right := drawing.Pt{X: 1}
	if t.Height > 0 {
		heights := floorplan.Chain{Dir: up, Out: right, Line: e.Paper.Pt(plane.Pt(n, 0)).X +
			floorplan.TierOne - floorplan.Poche, Name: e.Fig.Text("box"), At: []float64{0, t.Height}}
		heights.Feet = []drawing.Pt{e.Paper.Pt(plane.Pt(n, 0)), e.Paper.Pt(plane.Pt(x+e.band(), t.Height))}
		heights.Draw(e.Page, e.Fig)
	} else {
		e.Remark(e.Fig.Text("The height of the box is not given: to be settled before rough-in."))
	}
	along := floorplan.Chain{Dir: right, Out: drawing.Pt{Y: 1}, Line: e.Paper.Pt(e.plan(0, stripDeep)).Y +
		floorplan.TierOne - floorplan.Poche, Name: e.Fig.Text("along the wall")}
	stations := []floorplan.Station{{Along: 0, Weight: floorplan.EndWeight}, {Along: n, Weight: floorplan.EndWeight},
		{Along: x, Weight: floorplan.BoxWeight}}
	for _, o := range e.on.Openings {
		stations = append(stations, floorplan.Station{Along: e.rightOf(o.From), Weight: floorplan.OpeningWeight},
			floorplan.Station{Along: e.rightOf(o.To), Weight: floorplan.OpeningWeight})
	}
	zero := e.zero()
	for _, s := range floorplan.Spaced(stations, floorplan.StationGap*e.Paper.Ratio) {
		along.Feet = append(along.Feet, e.Paper.Pt(e.plan(s.Along, stripDeep)))
		along.At = append(along.At, s.Along-zero)
	}
	along.Draw(e.Page, e.Fig)
}

// zero returns where along the wall its figures count from, as on the plans: the
// datum that is square to it, else the wall's left end.
func (e elevation) zero() float64 {
	for _, d := range e.Datums().There() {
		if e.on.Curved() {
			break
		}
		if math.Abs(e.Outward(d.Segment).Dot(e.Outward(e.wall))) < floorplan.Square {
			return e.x(d.A)
		}
	}
	return 0
}
