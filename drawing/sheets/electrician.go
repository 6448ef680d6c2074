package sheets

import (
	"fmt"
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// electrician draws the sheet for rough-in and hook-up: the wall with its box,
// the floor before it, the load, and what the electrician has to settle.
func electrician(p *layout.Plan, r *layout.Room) ([]*page, error) {
	t := r.Job.Thermostat
	if t.Wall < 0 || t.Wall >= len(r.Job.Walls) {
		return nil, nil // the plan could not place a box, and has said so
	}
	s := scene{
		id: "electrician", title: "Electrician's sheet", kind: "Electrical plan", room: r,
		about:  "The wall with the thermostat box and the lead rise, the load, and what the electrician settles",
		bounds: elevationBounds(r), border: elevationBorder, draw: drawElectrician, levels: electricianLevels,
	}
	return s.pages(p)
}

// Sizes of the elevation, mm of wall or floor.
const (
	overBox   = 350  // of wall shown over the box
	leastWall = 1500 // of wall shown at least
	stripDeep = 500  // of floor shown before the wall
	boxSide   = 100  // of the box as drawn: its size is for the electrician
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
	return 12, tierOne + tierPast + 4, 14, planGap + stripDeep/ratio + tierOne + 8
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
		e.path(drawing.LayerFloor, "cut", drawing.Polygon(e.view.Pts(band)...), nil, drawing.Filled(drawing.Poche))
		e.ink.mark(drawing.BoxOf(e.view.Pts(band)...))
	}
	e.lineOn(drawing.LayerWalls, "finished floor", drawing.WallLine(), plane.Pt(0, 0), plane.Pt(n, 0))
	e.lineOn(drawing.LayerWalls, "wall", drawing.WallLine(), e.plan(0, 0), e.plan(n, 0))
	for _, x := range []float64{0, n} {
		e.lineOn(drawing.LayerWalls, "corner", drawing.FixtureLine(), plane.Pt(x, 0), plane.Pt(x, h))
		e.lineOn(drawing.LayerWalls, "corner", drawing.FixtureLine(), e.plan(x, 0), e.plan(x, stripDeep))
	}
	e.lineOn(drawing.LayerWalls, "", drawing.ThinLine(), plane.Pt(0, h), plane.Pt(n, h))
	e.ink.line(e.view.Pts([]plane.Point{{X: 0, Y: h}, {X: 0, Y: 0}, {X: n, Y: 0}, {X: n, Y: h}, {X: 0, Y: h}}), solidInk)
	e.ink.line(e.view.Pts([]plane.Point{e.plan(0, stripDeep), e.plan(0, 0), e.plan(n, 0), e.plan(n, stripDeep)}), solidInk)
	e.uses(signWall)
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
		e.ink.line(e.view.Pts(frame), thinInk)
		name := o.Name
		if name == "" {
			name = o.Kind
		}
		e.nameArea(name, plane.Rectangle(plane.Pt(a, 0), plane.Pt(b, h)), 5)
	}
}

// drawRise draws the box, the leads up to it and the part of the wall that is
// kept free of nails.
func (e elevation) drawRise() {
	t := e.room.Job.Thermostat
	x := e.x(t.At)
	e.riseZone(x, t.Height)
	gap := 30.0
	for i := range e.leads() {
		line := drawing.ColdLeadLine()
		dx := -gap * float64(i+1)
		e.lineOn(drawing.LayerLeads, "cold lead", line, plane.Pt(x+dx, 0), plane.Pt(x+dx, t.Height))
		e.ink.line(e.view.Pts([]plane.Point{{X: x + dx, Y: 0}, {X: x + dx, Y: t.Height}}), cableInk)
		e.uses(signColdLead)
	}
	for i := range e.room.Sensors {
		dx := gap * float64(i+1)
		e.lineOn(drawing.LayerSensors, "sensor lead", drawing.SensorLeadLine(), plane.Pt(x+dx, 0), plane.Pt(x+dx, t.Height))
		e.ink.line(e.view.Pts([]plane.Point{{X: x + dx, Y: 0}, {X: x + dx, Y: t.Height}}), cableInk)
		e.uses(signSensorLead)
	}
	box := plane.Rectangle(plane.Pt(x-boxSide/2, t.Height-boxSide/2), plane.Pt(x+boxSide/2, t.Height+boxSide/2))
	e.path(drawing.LayerMarks, "box", drawing.Polygon(e.view.Pts(box)...), drawing.FixtureLine(), drawing.Filled(drawing.White))
	at := e.view.Pt(plane.Pt(x, t.Height))
	e.ink.mark(drawing.BoxOf(e.view.Pts(box)...))
	e.mark(symbols.Thermostat(at))
	e.uses(signThermostat)
	text := "no nails, " + riseWords(e.fig.units) + " each side"
	l := &label{text: text, height: drawing.H25, rank: 2, note: "No" + text[2:]}
	for _, dx := range []float64{riseHalf, -riseHalf} {
		l.subject = e.view.Pt(plane.Pt(math.Min(math.Max(0, x+dx), e.wall.Length()), t.Height/2))
		l.spots = append(l.spots, tagSpots(l.subject, 0, text)...)
	}
	e.letters.add(l)
}

// riseZone hatches the wall at both sides of the leads, and outlines the whole.
func (e elevation) riseZone(x, height float64) {
	lo, hi := math.Max(0, x-riseHalf), math.Min(e.wall.Length(), x+riseHalf)
	h := math.Max(height, 1)
	band := 30 * float64(1+max(len(e.leads()), len(e.room.Sensors)))
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

// drawFloor draws the strip of floor before the wall, cut where it ends.
func (e elevation) drawFloor() {
	n := e.wall.Length()
	strip := drawing.BoxOf(e.view.Pts([]plane.Point{e.plan(0, 0), e.plan(n, stripDeep)})...)
	draw := func(l drawing.Layer, title string, st *drawing.Stroke, pts []plane.Point) (shown bool) {
		var paper []drawing.Pt
		for _, p := range pts {
			paper = append(paper, e.view.Pt(e.floor(p)))
		}
		for _, piece := range clipped(paper, strip) {
			e.path(l, title, drawing.Polyline(piece...), st, nil)
			e.ink.line(piece, cableInk)
			shown = true
		}
		return shown
	}
	for _, f := range e.room.Job.Fixtures {
		draw(drawing.LayerFixtures, f.Name, drawing.FixtureLine(), append(append([]plane.Point{}, f.Outline...), f.Outline[0]))
	}
	for _, c := range e.room.Cables {
		if draw(drawing.LayerCable, "heating cable "+c.ID, drawing.CableLine(), bent(c.Path, c.BendRadius)) {
			e.uses(signCable)
		}
	}
	for _, l := range e.leads() {
		draw(drawing.LayerLeads, "cold lead", drawing.ColdLeadLine(), l)
	}
	for _, s := range e.room.Sensors {
		draw(drawing.LayerSensors, "lead of sensor "+s.Name, drawing.SensorLeadLine(), s.Lead)
	}
	for _, c := range e.room.Cables {
		if at := e.view.Pt(e.floor(c.Path[0])); strip.Holds(at) {
			e.mark(symbols.LeadJoint(at))
			e.uses(signJoint)
			e.tag(at, 1.4, e.prefix(c.ID)+"START", e.prefix(c.ID)+"START", 1)
		}
	}
	t := e.room.Job.Thermostat
	e.mark(symbols.Thermostat(e.view.Pt(e.plan(e.x(t.At), -poche/2*e.view.Ratio))))
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
	return out
}

// drawSizes dimensions the box: its height, and its place along the wall.
func (e elevation) drawSizes() {
	t := e.room.Job.Thermostat
	n, x := e.wall.Length(), e.x(t.At)
	up := drawing.Pt{Y: -1}
	right := drawing.Pt{X: 1}
	if t.Height > 0 {
		heights := chain{dir: up, out: right, line: e.view.Pt(plane.Pt(n, 0)).X + tierOne - poche, name: "box", mm: []float64{t.Height}}
		heights.feet = []drawing.Pt{e.view.Pt(plane.Pt(n, 0)), e.view.Pt(plane.Pt(x+boxSide, t.Height))}
		heights.draw(e.page, e.fig)
	} else {
		e.remark("The height of the box is not given: to be settled before rough-in.")
	}
	along := chain{dir: right, out: drawing.Pt{Y: 1}, line: e.view.Pt(e.plan(0, stripDeep)).Y + tierOne - poche, name: "along the wall"}
	stations := []float64{0, x, n}
	for _, o := range e.room.Job.Openings {
		if o.Wall == t.Wall {
			stations = append(stations, e.x(e.wall.At(o.From)), e.x(e.wall.At(o.To)))
		}
	}
	stations = distinctSorted(stations, 1.2*e.view.Ratio)
	for i, s := range stations {
		along.feet = append(along.feet, e.view.Pt(e.plan(s, stripDeep)))
		if i > 0 {
			along.mm = append(along.mm, s-stations[i-1])
		}
	}
	along.draw(e.page, e.fig)
}

// electricianLevels returns what stands beside the wall.
func electricianLevels(v *roomView) []level {
	r := v.room
	bs := []block{v.loadTable(), v.toSettle(), wiring{cables: ids(r), sensors: len(r.Sensors)}, v.electricNotes()}
	bs = append(bs, v.circuitTable()...)
	bs = append(bs, schedule(r, v.fig, electrical)...)
	bs = append(bs, lookUp(v.plan)...)
	bs = append(bs, holdPoint(), legendOf(v.used))
	all := append(slices.Clip(bs), cautionList("Cautions", "", aidOnly, ratedVoltage, groundFault, neverCut, cureFirst, fourTests, discharge, inspectFirst))
	few := append(slices.Clip(bs), cautionList("Cautions", "All cautions are with the cable plan.", aidOnly, ratedVoltage, groundFault))
	// a wall and a box are plain at half the scale, so that a second sheet must gain more
	return []level{{blocks: all}, {blocks: few, gain: 1.3}, {blocks: all, gain: 2.1, overflow: true}}
}

func ids(r *layout.Room) []string {
	var out []string
	for _, c := range r.Cables {
		out = append(out, c.ID)
	}
	return out
}

// load returns what the room's thermostat feeds.
func (v *roomView) load() (layout.Load, bool) {
	for i := range v.plan.Load {
		if v.plan.Load[i].Room == v.room.Job.Name {
			return v.plan.Load[i], true
		}
	}
	return layout.Load{}, false
}

// loadTable is what the thermostat feeds, in all.
func (v *roomView) loadTable() block {
	t := table{head: "Load of the thermostat", cols: []column{{wraps: true}, {wraps: true}}}
	l, ok := v.load()
	if !ok {
		t.rows = append(t.rows, row("Load", "not worked out"))
		return t
	}
	s := v.plan.Job.Supply
	supply := "not given; " + fmt.Sprintf("%g V by the label assumed", l.Volts)
	if s.Volts > 0 {
		supply = fmt.Sprintf("%g V, job file", s.Volts)
	}
	contacts := "not given"
	if l.ThermostatAmps > 0 {
		contacts = fmt.Sprintf("%g A, %s", l.ThermostatAmps, v.plan.Job.Spans.Source("supply.thermostat_amps"))
	}
	t.rows = append(t.rows,
		row("Supply", supply),
		row("Cables", countInParallel(len(v.room.Cables))),
		row("Watts in all", fmt.Sprintf("%g W", l.Watts)),
		row("Amps in all", fmt.Sprintf("%.2f A", l.Amps)),
		row("Continuous load, 125"+noBreak+"%", fmt.Sprintf("%.2f A", l.Continuous)),
		row("Ohms, all in parallel", figureOf(l.Total.Ohms, 1)+" Ω"),
		row("Thermostat contacts", contacts),
		row("Leads into the box", v.leadsInBox()),
		row("Sensor", sensorLine(v.plan.Job.Sensor, v.fig)),
	)
	if needs := l.Total.Needs; needs != "" {
		t.rows = append(t.rows, row("Also needed", needs))
	}
	if d, name := v.nearestWet(); name != "" {
		t.rows = append(t.rows, row("Box to the "+name, v.fig.length(d)+" over the floor; look up the local limit"))
	}
	return t
}

// countInParallel says how the cables are joined, where there are several.
func countInParallel(n int) string {
	if n == 1 {
		return "1"
	}
	return fmt.Sprintf("%d, wired in parallel", n)
}

func (v *roomView) leadsInBox() string {
	return fmt.Sprintf("%d cold, %d of sensors; box size by the electrician", len(elevation{roomView: v}.leads()), len(v.room.Sensors))
}

// nearestWet returns how far the box is from the nearest tub or shower, over
// the floor.
func (v *roomView) nearestWet() (mm float64, name string) {
	mm = math.Inf(1)
	for _, f := range v.room.Job.Fixtures {
		if f.Kind != job.Tub && f.Kind != job.Shower {
			continue
		}
		if d := f.Outline.Distance(v.room.Job.Thermostat.At); d < mm {
			mm, name = d, string(f.Kind)
		}
	}
	return mm, name
}

// Rows that the electrician settles and the job may give.
const (
	settleCircuit   = "Circuit no., panel"
	settleBreaker   = "Breaker, A"
	settleConductor = "Conductor"
	settleFault     = "Ground-fault device: thermostat / breaker, class, mA"
)

// toSettle is what no drawing may choose: rows to be filled in by hand, but for
// what the job gives.
func (v *roomView) toSettle() block {
	t := table{head: "For the electrician to settle", tall: 7, cols: []column{{wraps: true}, {wraps: true, least: 26, group: true}}}
	given := v.settled()
	for _, r := range []string{settleCircuit, "Circuit for this load alone?", settleBreaker, settleConductor, settleFault, "Disconnect", "Box and conduit"} {
		t.rows = append(t.rows, row(r, given[r]))
	}
	return t
}

// holdPoint is signed before anything is covered.
func holdPoint() block {
	return table{head: "HOLD: nothing is covered before this is signed", tall: 8, cols: []column{{wraps: true}, {head: "Name", wraps: true, least: 16, group: true}, {head: "Date", least: 15, group: true}, {head: "Signature", wraps: true, least: 18, group: true}}, rows: [][]cell{
		row("Readings", "", "", ""), row("Installer", "", "", ""), row("Electrician", "", "", ""), row("Inspector", "", "", ""),
	}}
}

func (v *roomView) electricNotes() block {
	l := list{head: "Notes", number: 1}
	l.paras = append(l.paras, v.noted...)
	l.paras = append(l.paras, v.remarks...)
	apart := "Cold leads and sensor leads rise apart, each in its own way into the box."
	for _, s := range v.room.Sensors {
		if s.Spare {
			apart += " Cap the lead of the spare sensor " + s.Name + " in the box and label it."
		}
	}
	l.paras = append(l.paras, apart,
		"Nail plates where leads pass a sole plate. The box is not drawn to size.",
		"Breaker, conductor and ground-fault device are the electrician's choice by local rules; this sheet only gives the load.",
		"Leave labels and lead tags in sight until the inspection.",
	)
	return l
}
