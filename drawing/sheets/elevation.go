package sheets

import (
	"math"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/plane"
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
const planGap = 2*poche + 8.5

func elevationHeight(r *layout.Room) float64 {
	return math.Max(leastWall, r.Job.Thermostat.Height+overBox)
}

func elevationBounds(r *layout.Room) plane.Rect {
	w := r.Job.Walls[r.Job.Thermostat.Wall]
	return plane.Rect{Min: plane.Pt(0, 0), Max: plane.Pt(w.Length(), elevationHeight(r))}
}

func elevationBorder(ratio float64) (left, right, top, bottom float64) {
	return 12, tierOne + tierPast + 4, 10, planGap + stripDeep/ratio + tierOne + 4
}

// An elevation maps a wall, seen from the room, to the view: x to the right,
// the floor at height 0, the plan of the floor below it.
type elevation struct {
	*roomView
	wall plane.Segment
	flip bool // the wall runs to the left as seen from the room
}

// plan returns the place in the view of what lies x along the wall and so many
// mm of floor before it.
func (e elevation) plan(x, before float64) plane.Point {
	return plane.Pt(x, -planGap*e.view.Ratio-before)
}

// x returns how far right of the wall's left end, as seen from the room, a
// place of the floor lies.
func (e elevation) x(p plane.Point) float64 {
	d := e.wall.B.Sub(e.wall.A).Unit().Dot(p.Sub(e.wall.A))
	if e.flip {
		return e.wall.Length() - d
	}
	return d
}

// place returns the place of the floor x right of the wall's left end and so
// many mm before the wall.
func (e elevation) place(x, before float64) plane.Point {
	if e.flip {
		x = e.wall.Length() - x
	}
	return e.wall.At(x).Sub(e.outward(e.wall).Mul(before))
}

// floor returns where a place of the floor lies in the plan below.
func (e elevation) floor(p plane.Point) plane.Point {
	in := e.outward(e.wall).Mul(-1)
	return e.plan(e.x(p), in.Dot(p.Sub(e.wall.A)))
}

func drawElectrician(v *roomView) {
	t := v.room.Job.Thermostat
	e := elevation{v, v.room.Job.Walls[t.Wall].Segment, v.out > 0}
	letter := v.room.Job.Walls[t.Wall].Letter
	e.drawWall()
	e.drawDoors()
	e.drawRise()
	e.drawFloor()
	e.drawSizes()
	v.viewTitle(drawing.Pt{X: v.view.Pt(plane.Pt(0, 0)).X, Y: v.view.Pt(plane.Pt(0, elevationHeight(v.room))).Y - 4}, "Wall "+letter+" seen from the room")
	v.viewTitle(v.view.Pt(plane.Pt(0, 0)).Add(drawing.Pt{Y: poche + 6}), "Floor before wall "+letter)
}

func (e elevation) drawWall() {
	n, h := e.wall.Length(), elevationHeight(e.room)
	t := poche * e.view.Ratio
	for _, y := range []float64{0, e.plan(0, -t).Y} {
		band := plane.Rectangle(plane.Pt(0, y-t), plane.Pt(n, y))
		e.sign(signWall, drawing.LayerFloor, "cut", drawing.Polygon(e.view.Pts(band)...), nil, drawing.Filled(drawing.Poche))
		e.ink.mark(drawing.BoxOf(e.view.Pts(band)...))
	}
	e.lineOn(drawing.LayerWalls, "finished floor", drawing.WallLine(), plane.Pt(0, 0), plane.Pt(n, 0))
	e.lineOn(drawing.LayerWalls, "wall", drawing.WallLine(), e.plan(0, 0), e.plan(n, 0))
	for _, x := range []float64{0, n} {
		e.lineOn(drawing.LayerWalls, "corner", drawing.FixtureLine(), plane.Pt(x, 0), plane.Pt(x, h))
	}
	e.breakLine(e.view.Pt(plane.Pt(0, h)), e.view.Pt(plane.Pt(n, h)))
	e.ink.line(e.view.Pts([]plane.Point{{X: 0, Y: h}, {X: 0, Y: 0}, {X: n, Y: 0}, {X: n, Y: h}, {X: 0, Y: h}}), solidInk)
	e.ink.line(e.view.Pts([]plane.Point{e.plan(0, stripDeep), e.plan(0, 0), e.plan(n, 0), e.plan(n, stripDeep)}), solidInk)
}

// drawDoors draws doors and openings of the wall; a window's heights are not
// known, so that it only shows in the plan.
func (e elevation) drawDoors() {
	for _, o := range e.room.Job.Openings {
		if o.Wall != e.room.Job.Thermostat.Wall {
			continue
		}
		a, b := e.x(e.wall.At(o.From)), e.x(e.wall.At(o.To))
		if a > b {
			a, b = b, a
		}
		t := poche * e.view.Ratio
		gap := plane.Rectangle(e.plan(a, 0), e.plan(b, -t))
		e.path(drawing.LayerWalls, o.Name, drawing.Polygon(e.view.Pts(gap)...), drawing.FixtureLine(), drawing.Filled(drawing.White))
		if o.Kind == "window" {
			continue
		}
		h := math.Min(doorHigh, elevationHeight(e.room))
		frame := []plane.Point{{X: a}, {X: a, Y: h}, {X: b, Y: h}, {X: b}}
		e.lineOn(drawing.LayerFixtures, o.Name, drawing.FixtureLine(), frame...)
		e.ink.line(e.view.Pts(frame), solidInk)
		name := o.Name
		if name == "" {
			name = o.Kind
		}
		e.nameIn(name, plane.Rectangle(plane.Pt(a, 0), plane.Pt(b, h)))
	}
}

// nameIn asks for a name inside an outline of the view, where it has room.
func (e elevation) nameIn(name string, outline plane.Ring) {
	if strings.TrimSpace(name) == "" {
		return
	}
	rings := [][]drawing.Pt{e.view.Pts(outline)}
	box := drawing.BoxOf(rings[0]...)
	l := &label{text: name, height: drawing.H25, rank: 5, subject: box.Centre(), option: true}
	size := l.sample(spot{}).Box()
	for _, c := range gridIn(box, size.W(), size.H()) {
		if holdsBox(rings, c, size.W(), size.H()) {
			l.spots = append(l.spots, spot{at: centredOn(c, size), cost: 0.08 * c.Dist(box.Centre())})
		}
	}
	e.letters.add(l)
}

// drawRise draws the box, the leads up to it and the part of the wall that is
// kept free of nails.
func (e elevation) drawRise() {
	t := e.room.Job.Thermostat
	x := e.x(t.At)
	e.riseZone(x, t.Height)
	for i := range e.leads() {
		dx := -e.gap() * float64(i+1)
		up := e.view.Pts([]plane.Point{{X: x + dx, Y: 0}, {X: x + dx, Y: t.Height}})
		e.sign(signColdLead, drawing.LayerLeads, "cold lead", drawing.Polyline(up...), drawing.ColdLeadLine(), nil)
		e.ink.line(up, cableInk)
	}
	for i := range e.room.Sensors {
		dx := e.gap() * float64(i+1)
		up := e.view.Pts([]plane.Point{{X: x + dx, Y: 0}, {X: x + dx, Y: t.Height}})
		e.sign(signSensorLead, drawing.LayerSensors, "sensor lead", drawing.Polyline(up...), drawing.SensorLeadLine(), nil)
		e.ink.line(up, cableInk)
	}
	half := math.Max(boxSide/2, e.band())
	box := plane.Rectangle(plane.Pt(x-half, t.Height-boxSide/2), plane.Pt(x+half, t.Height+boxSide/2))
	e.path(drawing.LayerMarks, "box", drawing.Polygon(e.view.Pts(box)...), drawing.FixtureLine(), drawing.Filled(drawing.White))
	at := e.view.Pt(plane.Pt(x, t.Height))
	e.ink.mark(drawing.BoxOf(e.view.Pts(box)...))
	e.mark(signThermostat, symbols.Thermostat(at))
	e.nameRise(x, t.Height)
}

// gap is the distance at which leads beside each other are drawn, mm of wall: to
// be told apart, and within most of the part without nails.
func (e elevation) gap() float64 {
	return math.Min(math.Max(leadGap, 1.2*e.view.Ratio), 0.7*layout.RiseHalf(e.fig.units)/e.places())
}

// band is how far to either side of the box's middle leads rise.
func (e elevation) band() float64 { return e.gap() * e.places() }

// places is how many gaps the leads of either side take.
func (e elevation) places() float64 {
	return 0.5 + float64(max(len(e.leads()), len(e.room.Sensors)))
}

// nameRise says at its side how wide the part of the wall without nails is.
func (e elevation) nameRise(x, height float64) {
	text := "no nails, " + riseWords(e.fig.units) + " each side"
	l := &label{text: text, height: drawing.H25, rank: 2, note: "No" + text[2:] + " of the leads.", mark: inTwoLines}
	size := l.box(spot{})
	for _, side := range []float64{1, -1} {
		edge := math.Min(math.Max(0, x+side*layout.RiseHalf(e.fig.units)), e.wall.Length())
		for i, share := range []float64{0.5, 0.65, 0.35, 0.8, 0.2} {
			at := e.view.Pt(plane.Pt(edge, share*height))
			l.subject = at
			cost := 0.3 * float64(i)
			l.spots = append(l.spots, spot{at: at.Add(drawing.Pt{X: side * (1 + size.W()/2)}), cost: cost})
			for far := 6.0; far < 70; far += 4 {
				end := at.Add(drawing.Pt{X: side * far})
				l.spots = append(l.spots, spot{at: end.Add(drawing.Pt{X: side * (0.8 + size.W()/2)}), cost: cost, leader: []drawing.Pt{at, end}})
			}
		}
	}
	e.letters.add(l)
}

// inTwoLines writes text about its centre in two lines, as alike as its words
// allow.
func inTwoLines(at drawing.Pt, text string) []drawing.Item {
	ws := fields(text)
	cut, least := 0, math.Inf(1)
	width := func(ws []string) float64 { return fonts.Width(fonts.Lettering, strings.Join(ws, " "), drawing.H25) }
	for i := range ws {
		if w := math.Max(width(ws[:i]), width(ws[i:])); w < least {
			cut, least = i, w
		}
	}
	var out []drawing.Item
	for k, line := range [][]string{ws[:cut], ws[cut:]} {
		p := at.Add(drawing.Pt{Y: float64(k)*leading - (leading-drawing.H25)/2})
		out = append(out, &drawing.Text{Layer: drawing.LayerText, At: p, Text: strings.Join(line, " "), Height: drawing.H25, Anchor: drawing.Middle})
	}
	return out
}

// riseZone hatches the wall at both sides of the leads, and outlines the whole.
func (e elevation) riseZone(x, height float64) {
	half := layout.RiseHalf(e.fig.units)
	lo, hi := math.Max(0, x-half), math.Min(e.wall.Length(), x+half)
	h := math.Max(height, 1)
	band := e.band()
	for _, z := range [][2]float64{{lo, x - band}, {x + band, hi}} {
		if z[1] > z[0] {
			e.hatched(plane.FromRing(plane.Rectangle(plane.Pt(z[0], 0), plane.Pt(z[1], h))), signRise, "lead rise")
		}
	}
	e.lineOn(drawing.LayerHatch, "lead rise", drawing.ThinLine(), plane.Pt(lo, 0), plane.Pt(lo, h), plane.Pt(hi, h), plane.Pt(hi, 0))
}

// leads returns the cold leads that come up to the box.
func (e elevation) leads() (all [][]plane.Point) {
	for _, c := range e.room.Cables {
		all = append(all, c.ColdLead)
		if c.Return != nil {
			all = append(all, c.Return)
		}
	}
	return all
}

// drawFloor draws the strip of floor before the wall, broken off where the floor
// goes on.
func (e elevation) drawFloor() {
	strip := e.strip()
	draw := func(s sign, l drawing.Layer, title string, st *drawing.Stroke, pts []plane.Point) (shown bool) {
		parts := e.partsIn(strip, pts)
		for _, piece := range parts {
			e.sign(s, l, title, drawing.Polyline(piece...), st, nil)
		}
		return len(parts) > 0
	}
	e.drawEnds()
	for _, s := range e.room.Job.Stands() {
		if draw(signStand, drawing.LayerFixtures, s.Name, drawing.FixtureLine(), append(append([]plane.Point{}, s.Outline...), s.Outline[0])) {
			e.nameInStrip(s.Name, s.Outline)
		}
	}
	for i, m := range e.room.Job.Joints {
		line := []plane.Point{m.A, m.B}
		if draw(signMovement, drawing.LayerFloor, "movement joint", drawing.JointLine(), line) {
			at := e.partsIn(strip, line)[0]
			name := layout.JointName(i, len(e.room.Job.Joints))
			e.tag(at[0].Lerp(at[len(at)-1], 0.5), 1, name, name, 3)
		}
	}
	for _, c := range e.room.Cables {
		draw(signCable, drawing.LayerCable, "heating cable "+c.ID, drawing.CableLine(), bent(c.Path, c.BendRadius))
	}
	for _, l := range e.leads() {
		draw(signColdLead, drawing.LayerLeads, "cold lead", drawing.ColdLeadLine(), l)
	}
	for _, s := range e.room.Sensors {
		draw(signSensorLead, drawing.LayerSensors, "lead of sensor "+s.Name, drawing.SensorLeadLine(), s.Lead)
		if at := e.view.Pt(e.floor(s.Tip)); strip.Holds(at) {
			e.sensorTip(s, at)
		}
	}
	e.drawStarts()
	e.jointCrossings()
	t := e.room.Job.Thermostat
	e.mark(signThermostat, symbols.Thermostat(e.view.Pt(e.plan(e.x(t.At), -poche/2*e.view.Ratio))))
}

// partsIn returns the parts of a line of the floor that lie in a box of the plan,
// and keeps lettering off them.
func (e elevation) partsIn(b drawing.Box, pts []plane.Point) [][]drawing.Pt {
	var paper []drawing.Pt
	for _, p := range pts {
		paper = append(paper, e.view.Pt(e.floor(p)))
	}
	parts := clipped(paper, b)
	for _, piece := range parts {
		e.ink.line(piece, cableInk)
	}
	return parts
}

// strip is where the floor before the wall lies on paper.
func (e elevation) strip() drawing.Box {
	return drawing.BoxOf(e.view.Pts([]plane.Point{e.plan(0, 0), e.plan(e.wall.Length(), stripDeep)})...)
}

// drawEnds draws what the strip of floor ends at: other walls of the room, and
// break lines where the floor goes on.
func (e elevation) drawEnds() {
	strip := e.strip()
	wide := strip
	wide.X0 -= endSlack / e.view.Ratio
	wide.X1 += endSlack / e.view.Ratio
	for i, w := range e.room.Job.Walls {
		if i == e.room.Job.Thermostat.Wall {
			continue
		}
		from, shown := 0.0, strip
		if math.Abs(w.B.Sub(w.A).Unit().Dot(e.wall.B.Sub(e.wall.A).Unit())) < nearlySquare {
			shown = wide
		}
		for _, g := range append(e.gaps(i), [2]float64{w.Length(), w.Length()}) {
			for _, piece := range e.partsIn(shown, []plane.Point{w.At(from), w.At(g[0])}) {
				e.sign(signWall, drawing.LayerWalls, "wall "+w.Letter, drawing.Polyline(piece...), drawing.WallLine(), nil)
			}
			for _, piece := range e.partsIn(shown, []plane.Point{w.At(g[0]), w.At(g[1])}) {
				e.path(drawing.LayerWalls, "opening", drawing.Polyline(piece...), drawing.FixtureLine(), nil)
			}
			from = g[1]
		}
	}
	e.breakLine(drawing.Pt{X: strip.X0, Y: strip.Y1}, drawing.Pt{X: strip.X1, Y: strip.Y1})
	for _, x := range []float64{0, e.wall.Length()} {
		for _, open := range e.goesOn(x) {
			e.breakLine(e.view.Pt(e.plan(x, open[0])), e.view.Pt(e.plan(x, open[1])))
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
		if !e.room.Job.Outline.Contains(e.place(beyond, d+step/2)) {
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
	shown := make(plane.Ring, len(outline))
	for i, p := range outline {
		shown[i] = e.floor(p)
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
	for _, c := range e.room.Cables {
		at := e.view.Pt(e.floor(c.Path[0]))
		if !e.strip().Holds(at) {
			elsewhere = append(elsewhere, e.prefix(c.ID)+"START")
			continue
		}
		e.mark(signJoint, symbols.LeadJoint(at))
		e.tag(at, 1.4, e.prefix(c.ID)+"START", e.prefix(c.ID)+"START", 1)
	}
	if len(elsewhere) > 0 {
		e.remark(strings.Join(elsewhere, ", ") + ": outside the floor shown, see the cable plan.")
	}
}

// bent returns a path with its corners rounded, as points.
func bent(path []plane.Point, radius float64) []plane.Point {
	var pts []drawing.Pt
	for _, p := range path {
		pts = append(pts, drawing.Pt{X: p.X, Y: p.Y})
	}
	var out []plane.Point
	for _, l := range drawing.Flatten(drawing.Rounded(pts, radius), 1) {
		for _, p := range l {
			out = append(out, plane.Pt(p.X, p.Y))
		}
	}
	return out
}

// leastPiece is what a line that only touches a box may leave of itself, mm.
const leastPiece = 0.01

// clipped returns the parts of a line that lie in a box.
func clipped(line []drawing.Pt, b drawing.Box) [][]drawing.Pt {
	var out [][]drawing.Pt
	for i := 1; i < len(line); i++ {
		p, q, ok := clipPiece(line[i-1], line[i], b)
		if !ok {
			continue
		}
		if n := len(out); n > 0 && out[n-1][len(out[n-1])-1] == p {
			out[n-1] = append(out[n-1], q)
		} else {
			out = append(out, []drawing.Pt{p, q})
		}
	}
	return slices.DeleteFunc(out, func(part []drawing.Pt) bool {
		return !slices.ContainsFunc(part, func(p drawing.Pt) bool { return p.Dist(part[0]) > leastPiece })
	})
}

// drawSizes dimensions the box: its height, and its place along the wall.
func (e elevation) drawSizes() {
	t := e.room.Job.Thermostat
	n, x := e.wall.Length(), e.x(t.At)
	up := drawing.Pt{Y: -1}
	right := drawing.Pt{X: 1}
	if t.Height > 0 {
		heights := chain{dir: up, out: right, line: e.view.Pt(plane.Pt(n, 0)).X + tierOne - poche, name: "box", at: []float64{0, t.Height}}
		heights.feet = []drawing.Pt{e.view.Pt(plane.Pt(n, 0)), e.view.Pt(plane.Pt(x+e.band(), t.Height))}
		heights.draw(e.page, e.fig)
	} else {
		e.remark("The height of the box is not given: to be settled before rough-in.")
	}
	along := chain{dir: right, out: drawing.Pt{Y: 1}, line: e.view.Pt(e.plan(0, stripDeep)).Y + tierOne - poche, name: "along the wall"}
	stations := []station{{along: 0, weight: endWeight}, {along: n, weight: endWeight}, {along: x, weight: boxWeight}}
	for _, o := range e.room.Job.Openings {
		if o.Wall == t.Wall {
			stations = append(stations, station{along: e.x(e.wall.At(o.From)), weight: openingWeight}, station{along: e.x(e.wall.At(o.To)), weight: openingWeight})
		}
	}
	zero := e.zero()
	for _, s := range spaced(stations, stationGap*e.view.Ratio) {
		along.feet = append(along.feet, e.view.Pt(e.plan(s.along, stripDeep)))
		along.at = append(along.at, s.along-zero)
	}
	along.draw(e.page, e.fig)
}

// zero returns where along the wall its figures count from, as on the plans: the
// datum that is square to it, else the wall's left end.
func (e elevation) zero() float64 {
	for _, d := range e.datums() {
		if math.Abs(e.outward(d).Dot(e.outward(e.wall))) < square {
			return e.x(d.A)
		}
	}
	return 0
}
