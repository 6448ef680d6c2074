package sheets

import (
	"slices"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/symbols"
)

// A sign is something a legend explains. Whoever draws one does so with a function
// that is told which, so that it is in the legend of its sheet: page.sign,
// roomView.mark and hatched, or a label's sign. Words alone need no entry.
type sign int

// The signs, in the order of a legend.
const (
	wordsOnly sign = iota // no sign: words say what it is
	signCable
	signSecond
	signThird
	signArrow
	signRun
	signHalf
	signQuarter
	signJoint
	signEnd
	signColdLead
	signThermostat
	signSensor
	signSpare
	signSensorLead
	signLimit
	signFixture
	signUndecided
	signFixing
	signRise
	signJointStrip
	signUnheated
	signMovement
	signStand
	signToFix
	signWall
	signDoor
	signSliding
	signCased
	signThreshold
	signWindow
	signDatum
	signNote
	signSeam
	signPeg
	signCrossing
	signFault
	signMistaken
	signTile
	signCloud
	signLaid
	signAnew
	signPlanned
	signCount
)

// words returns what a legend says of s.
func (s sign) words() string {
	return [signCount]string{
		signCable:      "heating cable",
		signSecond:     "heating cable, the second",
		signThird:      "heating cable, the third",
		signArrow:      "direction of laying",
		signRun:        "number of the run",
		signHalf:       "half of the cable",
		signQuarter:    "quarter, three quarters",
		signJoint:      "lead joint: heat begins",
		signEnd:        "end cap",
		signColdLead:   "cold lead",
		signThermostat: "thermostat box, height above floor",
		signSensor:     "floor sensor, wired",
		signSpare:      "spare sensor, not wired",
		signSensorLead: "sensor lead in its tube",
		signLimit:      "edge of heated area: no drilling",
		signFixture:    "fixture: no cable",
		signUndecided:  "not decided: no cable",
		signFixing:     "kept free for a fixing",
		signRise:       "lead rise: no nails up to the box",
		signJointStrip: "kept free along a joint",
		signUnheated:   "floor without cable",
		signMovement:   "movement joint",
		signStand:      "fixture, by its name",
		signToFix:      "fixing to come, by its name",
		signWall:       "wall (thickness not to scale)",
		signDoor:       "door and its swing",
		signSliding:    "sliding or pocket door",
		signCased:      "opening without a door",
		signThreshold:  "threshold",
		signWindow:     "window",
		signDatum:      "datum: face measured from",
		signNote:       "see the numbered note",
		signSeam:       "seam of the membrane",
		signPeg:        "row of pegs",
		signCrossing:   "channel crossing P1",
		signFault:      "stretch with the fault, likeliest place barred",
		signMistaken:   "runs that could be taken for it",
		signTile:       "tile over the stretch: row R, column C",
		signCloud:      "changed; triangle: its revision",
		signLaid:       "laid: stays as it lies",
		signAnew:       "new: not as planned",
		signPlanned:    "where the plan had cable",
	}[s]
}

// cableSign returns the sign of a room's cable i: up to three cables have lines of
// their own, which grey keeps apart; a fourth is drawn as the first again.
func cableSign(i int) sign { return signCable + sign(i%3) }

// core is the light line inside that of a second or third cable; nil: it has none.
func (s sign) core() *drawing.Stroke {
	switch s {
	case signSecond:
		return drawing.CableCore()
	case signThird:
		return drawing.CableDashes()
	}
	return nil
}

// A swatch is the box a sign is shown in, mm.
const (
	swatchW = 13.0
	swatchH = 4.6
)

// sampled shortens the long dashes of a chain line so that a sample w mm long
// shows its dots once, in the middle: cut anywhere, one with two dots would look
// like one with one.
func sampled(st *drawing.Stroke, w float64) *drawing.Stroke {
	if len(st.Dash) < 4 {
		return st
	}
	out := *st
	out.Dash = append([]float64{}, st.Dash...)
	out.Dash[0] = (w - sum(st.Dash[1:])) / 2
	return &out
}

// show draws a sample of s in the box at the left of its words.
func (s sign) show(pg *page, b drawing.Box) {
	c := b.Centre()
	line := func(l drawing.Layer, st *drawing.Stroke) {
		pg.path(l, "", drawing.Polyline(drawing.Pt{X: b.X0, Y: c.Y}, drawing.Pt{X: b.X1, Y: c.Y}), sampled(st, b.W()), nil)
	}
	right := drawing.Pt{X: 1}
	cable := func() { line(drawing.LayerCable, drawing.CableLine()) }
	switch s {
	case signCable, signSecond, signThird:
		cable()
		if core := s.core(); core != nil {
			line(drawing.LayerCable, core)
		}
	case signArrow:
		cable()
		pg.add(symbols.DirectionArrow(c.Add(drawing.Pt{X: 1}), right)...)
	case signRun:
		cable()
		pg.add(symbols.RunNumber(c, "5")...)
	case signHalf:
		cable()
		pg.add(symbols.Bar(c, right, symbols.HalfwayBar)...)
	case signQuarter:
		cable()
		pg.add(symbols.Bar(c, right, symbols.QuarterBar)...)
	case signJoint:
		pg.path(drawing.LayerLeads, "", drawing.Polyline(drawing.Pt{X: b.X0, Y: c.Y}, c), drawing.ColdLeadLine(), nil)
		pg.path(drawing.LayerCable, "", drawing.Polyline(c, drawing.Pt{X: b.X1, Y: c.Y}), drawing.CableLine(), nil)
		pg.add(symbols.LeadJoint(c)...)
	case signEnd:
		pg.path(drawing.LayerCable, "", drawing.Polyline(drawing.Pt{X: b.X0, Y: c.Y}, c), drawing.CableLine(), nil)
		pg.add(symbols.Bar(c, right, symbols.EndBar)...)
	case signColdLead:
		line(drawing.LayerLeads, drawing.ColdLeadLine())
	case signThermostat:
		pg.add(symbols.Thermostat(c)...)
	case signSensor:
		pg.add(symbols.Sensor(c, "")...)
	case signSpare:
		pg.add(symbols.SpareSensor(c, "")...)
	case signSensorLead:
		line(drawing.LayerSensors, drawing.SensorLeadLine())
	case signDatum:
		pg.add(symbols.Datum(c.Sub(drawing.Pt{X: 1.3}), right, "")...)
	case signNote:
		pg.add(noteMark(c, "1")...)
	default:
		s.showArea(pg, b)
	}
}

// showArea draws the sample of a sign of the room itself.
func (s sign) showArea(pg *page, b drawing.Box) {
	c := b.Centre()
	line := func(l drawing.Layer, st *drawing.Stroke) {
		pg.path(l, "", drawing.Polyline(drawing.Pt{X: b.X0, Y: c.Y}, drawing.Pt{X: b.X1, Y: c.Y}), sampled(st, b.W()), nil)
	}
	switch s {
	case signLimit:
		line(drawing.LayerFloor, drawing.ClearanceLine())
	case signMovement:
		line(drawing.LayerFloor, drawing.JointLine())
	case signSeam:
		line(drawing.LayerMembrane, drawing.SeamLine())
	case signPeg:
		for x := b.X0; x <= b.X1; x += 3 {
			pg.thin(drawing.LayerMembrane, drawing.Pt{X: x, Y: c.Y - 1}, drawing.Pt{X: x, Y: c.Y + 1})
		}
	case signWall:
		pg.path(drawing.LayerFloor, "", drawing.Rectangle(b), nil, drawing.Filled(drawing.Poche))
		pg.path(drawing.LayerWalls, "", drawing.Polyline(drawing.Pt{X: b.X0, Y: b.Y1}, drawing.Pt{X: b.X1, Y: b.Y1}), drawing.WallLine(), nil)
	case signDoor:
		h := b.H()
		hinge := drawing.Pt{X: c.X - h/2, Y: b.Y1}
		pg.path(drawing.LayerWalls, "", drawing.Polyline(hinge, hinge.Add(drawing.Pt{Y: -h})), drawing.FixtureLine(), nil)
		pg.path(drawing.LayerWalls, "", drawing.Arc(hinge, h, 0, 90), drawing.ThinLine(), nil)
	case signSliding, signCased, signThreshold, signWindow:
		s.showOpening(pg, b)
	case signStand:
		pg.path(drawing.LayerFixtures, "", drawing.Rectangle(b.Grow(-drawing.W035/2)), drawing.FixtureLine(), nil)
		pg.write(centredOn(c, (&drawing.Text{Text: "name", Height: note}).Box()), "name", note, drawing.Middle)
	case signToFix:
		pg.add(symbols.FixingPoint(drawing.Pt{X: b.X0 + 2, Y: c.Y})...)
		pg.path(drawing.LayerFixtures, "", drawing.Polyline(drawing.Pt{X: b.X0 + 6, Y: c.Y}, drawing.Pt{X: b.X1, Y: c.Y}), drawing.FixtureLine(), nil)
	case signCrossing:
		pg.add(symbols.ChannelCrossing(c)...)
	case signFault:
		line(drawing.LayerHatch, stretchBand())
		line(drawing.LayerCable, drawing.CableLine())
		pg.rule(drawing.Pt{X: c.X, Y: b.Y0}, drawing.Pt{X: c.X, Y: b.Y1}, drawing.WallLine())
	case signMistaken:
		line(drawing.LayerHatch, mistakenBand())
		line(drawing.LayerCable, drawing.CableLine())
	case signLaid:
		line(drawing.LayerHatch, laidBand())
		line(drawing.LayerCable, drawing.CableLine())
	case signAnew:
		line(drawing.LayerHatch, mistakenBand())
		line(drawing.LayerCable, drawing.CableLine())
	case signPlanned:
		line(drawing.LayerCable, drawing.HiddenLine())
	case signCloud:
		ring := b.Grow(-1.2).Corners()
		slices.Reverse(ring)
		pg.path(drawing.LayerMarks, "", cloud(ring, 2), drawing.MediumLine(), nil)
	case signTile:
		pg.path(drawing.LayerFloor, "", drawing.Rectangle(b), drawing.MarkLine(), nil)
		pg.write(centredOn(c, (&drawing.Text{Text: "R2 C5", Height: note}).Box()), "R2 C5", note, drawing.Middle)
	default:
		if p, ok := s.pattern(); ok {
			pg.add(drawing.Hatch([][]drawing.Pt{b.Corners()}, p)...)
			pg.path(drawing.LayerFixtures, "", drawing.Rectangle(b), drawing.ThinLine(), nil)
		}
	}
}

// showOpening draws the sample of an opening without a swing: its plan, in
// millimetres of paper instead of floor.
func (s sign) showOpening(pg *page, b drawing.Box) {
	const thick = 2.4
	at := drawing.Pt{X: b.X0, Y: b.Centre().Y - thick/2}
	shapes := map[sign]func(width, thick float64) []symbols.Shape{
		signSliding: symbols.SlidingDoor, signCased: symbols.CasedOpening, signThreshold: symbols.Threshold, signWindow: symbols.Window,
	}[s](b.W(), thick)
	for _, sh := range shapes {
		segs := drawing.Mapped(sh.Segs, func(p drawing.Pt) drawing.Pt { return drawing.Pt{X: at.X + p.X, Y: at.Y - p.Y} })
		pg.path(drawing.LayerWalls, "", segs, sh.Stroke, sh.Fill)
	}
}

// pattern returns the hatch of s.
func (s sign) pattern() (drawing.Pattern, bool) {
	switch s {
	case signFixture:
		return drawing.HatchFixture, true
	case signUndecided:
		return drawing.HatchUndecided, true
	case signFixing:
		return drawing.HatchFixing, true
	case signRise:
		return drawing.HatchRise, true
	case signJointStrip:
		return drawing.HatchJoint, true
	case signUnheated:
		return drawing.HatchUnheated, true
	}
	return 0, false
}

// noteMark is the number of a note of the column, in a square so that it is
// not taken for a run.
func noteMark(at drawing.Pt, number string) []drawing.Item {
	b := drawing.Box{X0: at.X - 2, Y0: at.Y - 2, X1: at.X + 2, Y1: at.Y + 2}
	return []drawing.Item{
		&drawing.Path{Layer: drawing.LayerMarks, Segs: drawing.Rectangle(b), Stroke: drawing.ThinLine(), Fill: drawing.Filled(drawing.White)},
		&drawing.Text{Layer: drawing.LayerText, At: at.Add(drawing.Pt{Y: drawing.H25 / 2}), Text: number, Height: drawing.H25, Anchor: drawing.Middle},
	}
}

// A legend explains the signs a sheet uses, and no others.
type legend struct {
	head  string
	signs []sign
	mute  bool // the heading is not set, as in a list
}

// shown is the heading as it is set.
func (l legend) shown() string { return list{head: l.head, mute: l.mute}.shown() }

// legendOf puts signs in the legend's order.
func legendOf(used []sign) legend {
	l := legend{head: "Legend"}
	for s := signCable; s < signCount; s++ {
		for _, u := range used {
			if u == s {
				l.signs = append(l.signs, s)
			}
		}
	}
	return l
}

func (l legend) entry(ty *typesetter, s sign, w float64) (h float64) {
	return max(swatchH+0.5, float64(ty.lines(fonts.Lettering, s.words(), note, w-swatchW-3))*leading+0.9)
}

func (l legend) height(ty *typesetter, w float64) float64 {
	h := ty.headingHeight(l.shown(), w)
	for _, s := range l.signs {
		h += l.entry(ty, s, w)
	}
	return h
}

func (l legend) split(ty *typesetter, w, h float64) (fits, rest block) {
	used, n := ty.headingHeight(l.shown(), w), 0
	for n < len(l.signs) {
		e := l.entry(ty, l.signs[n], w)
		if used+e > h {
			break
		}
		used += e
		n++
	}
	switch {
	case n == len(l.signs):
		return l, nil
	case n < 4:
		return nil, l
	case n == len(l.signs)-1 && n > 4: // one sign alone would look forgotten
		n--
	}
	return legend{l.head, l.signs[:n], l.mute}, legend{head: continued(l.head), signs: l.signs[n:]}
}

func (l legend) set(pg *page, at drawing.Pt, w float64) {
	y := at.Y + setHeading(pg, at, l.shown(), w)
	for _, s := range l.signs {
		s.show(pg, drawing.Box{X0: at.X, Y0: y, X1: at.X + swatchW, Y1: y + swatchH})
		for i, t := range pg.ty.wrap(s.words(), w-swatchW-3) {
			pg.write(drawing.Pt{X: at.X + swatchW + 3, Y: y + 3.55 + float64(i)*leading}, t, note, drawing.Start)
		}
		y += l.entry(pg.ty, s, w)
	}
}
