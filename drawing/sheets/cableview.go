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

// cables draws the heating cables at their true bends with all their marks.
func (v *roomView) cables() {
	for i := range v.room.Cables {
		c := &v.room.Cables[i]
		if len(c.Path) < 2 {
			continue
		}
		segs := drawing.Rounded(v.view.Pts(c.Path), v.view.Len(c.BendRadius))
		s := cableSign(i)
		v.sign(s, drawing.LayerCable, "heating cable "+c.ID, segs, drawing.CableLine(), nil)
		if core := s.core(); core != nil {
			v.path(drawing.LayerCable, "", segs, core, nil)
		}
		v.ink.segs(segs, cableInk)
	}
	for i := range v.room.Cables {
		c := &v.room.Cables[i]
		if len(c.Path) < 2 {
			continue
		}
		v.coldLead(c.ColdLead, "cold lead "+c.ID)
		v.coldLead(c.Return, "second cold lead "+c.ID)
	}
}

// marks draws what is to be seen on the cables: start, end, shares of the
// length, direction and run numbers.
func (v *roomView) marks() {
	for i := range v.room.Cables {
		c := &v.room.Cables[i]
		if len(c.Path) < 2 {
			continue
		}
		v.cableEnds(c)
		v.shares(c)
		v.arrows(c)
		v.runNumbers(c)
	}
}

func (v *roomView) coldLead(lead []plane.Point, title string) {
	if len(lead) < 2 {
		return
	}
	segs := drawing.Polyline(v.view.Pts(lead)...)
	v.sign(signColdLead, drawing.LayerLeads, title, segs, drawing.ColdLeadLine(), nil)
	v.ink.segs(segs, cableInk)
}

// mark draws the symbol of a sign and keeps lettering off it.
func (v *roomView) mark(s sign, items []drawing.Item) {
	v.fixed(items)
	v.uses(s)
}

// fixed draws what says itself what it is and keeps lettering off it.
func (v *roomView) fixed(items []drawing.Item) {
	v.add(items...)
	v.ink.items(items)
}

// tag asks for a tag beside a mark.
func (v *roomView) tag(at drawing.Pt, reach float64, text, note string, rank int) {
	v.letters.add(&label{text: text, height: drawing.H25, rank: rank, subject: at, note: note, spots: tagSpots(at, reach, text)})
}

func (v *roomView) cableEnds(c *layout.Cable) {
	n := len(c.Path)
	first, last := v.view.Pt(c.Path[0]), v.view.Pt(c.Path[n-1])
	v.mark(signJoint, symbols.LeadJoint(first))
	pre := v.prefix(c.ID)
	v.tag(first, 1.4, pre+"START", pre+"START, lead joint: "+v.placeWords(c.Path[0]), 1)
	end := "end cap"
	if c.Return != nil {
		v.mark(signJoint, symbols.LeadJoint(last))
		end = "second lead joint"
	} else {
		v.mark(signEnd, symbols.Bar(last, last.Sub(v.view.Pt(c.Path[n-2])), symbols.EndBar))
	}
	v.tag(last, 1.6, pre+"END", pre+"END, "+end+": "+v.placeWords(c.Path[n-1]), 1)
}

// shares draws the quarter, half and three-quarter marks.
func (v *roomView) shares(c *layout.Cable) {
	for _, m := range c.Marks {
		at, dir := v.view.Pt(m.At), v.heading(c, m.At)
		length, s, rank := symbols.QuarterBar, signQuarter, 3
		if m.Name == "1/2" {
			length, s, rank = symbols.HalfwayBar, signHalf, 1
		}
		v.mark(s, symbols.Bar(at, dir, length))
		v.tag(at, 1, v.prefix(c.ID)+m.Name, fmt.Sprintf("%s%s mark: %s", v.prefix(c.ID), m.Name, v.placeWords(m.At)), rank)
	}
}

// legAt returns the leg of a path that p lies on: the index of its end.
func legAt(path []plane.Point, p plane.Point) int {
	best, least := 1, math.Inf(1)
	for i := 1; i < len(path); i++ {
		if d := (plane.Segment{A: path[i-1], B: path[i]}).Distance(p); d < least {
			best, least = i, d
		}
	}
	return best
}

// heading returns the cable's direction at p, on paper.
func (v *roomView) heading(c *layout.Cable, p plane.Point) drawing.Pt {
	i := legAt(c.Path, p)
	return paperDir(c.Path[i].Sub(c.Path[i-1]).Unit())
}

// arrowLeast is the shortest leg on paper that gets an arrow, mm: long enough
// not to be the link of a turn.
const arrowLeast = 15.0

// arrows draws the direction of laying on the first run and after each
// quarter.
func (v *roomView) arrows(c *layout.Cable) {
	from := []int{1}
	for _, m := range c.Marks {
		from = append(from, legAt(c.Path, m.At)+1)
	}
	for _, i := range from {
		for ; i < len(c.Path); i++ {
			a, b := v.view.Pt(c.Path[i-1]), v.view.Pt(c.Path[i])
			if a.Dist(b) >= arrowLeast {
				v.mark(signArrow, symbols.DirectionArrow(a.Lerp(b, 0.5), b.Sub(a)))
				break
			}
		}
	}
}

// runNumbers asks for the number of every run at the end where it begins; of
// every fifth run, and the first and last, where the runs lie too close.
func (v *roomView) runNumbers(c *layout.Cable) {
	step := 1
	if v.view.Len(c.Spacing)*2 < symbols.RunCircle+2.4 {
		step = 5
	}
	for i, r := range c.Runs {
		if step > 1 && i > 0 && i < len(c.Runs)-1 && r.Number%step != 0 {
			continue
		}
		v.runNumber(r, c.RunName(r.Number), step == 1)
	}
}

// runNumber asks for the number of a run. Before it a number over the cable of
// another run would be read as that one's, so that alone allows none there.
func (v *roomView) runNumber(r layout.Run, name string, alone bool) {
	a, b := v.view.Pt(r.From), v.view.Pt(r.To)
	u := b.Sub(a).Unit()
	l := &label{text: name, height: drawing.H25, rank: 5, subject: a, mark: symbols.RunNumber, of: signRun, option: true}
	most := 0.0
	if alone {
		most = overCable
	}
	if before := (spot{at: a.Sub(u.Mul(symbols.RunCircle/2 + 0.8)), most: most}); !v.onJoint(l.box(before)) {
		l.spots = append(l.spots, before)
	}
	// on the run itself its own cable is no loss
	for _, d := range []float64{4, 6, 8, 11, 15, 20} {
		if d < a.Dist(b)-4 {
			for _, s := range []spot{
				{at: a.Add(u.Mul(d)), cost: 2 - overCable + 0.6*d}, {at: b.Sub(u.Mul(d)), cost: 5 - overCable + 0.6*d},
			} {
				if !v.onJoint(l.box(s)) {
					l.spots = append(l.spots, s)
				}
			}
		}
	}
	v.letters.add(l)
}

// skipsRuns reports whether a run is drawn without its number on a sheet that
// numbers runs.
func (v *roomView) skipsRuns() bool {
	if v.letters == nil || v.room == nil {
		return false
	}
	numbered, runs := 0, 0
	for _, l := range v.letters.labels {
		if l.of == signRun && l.at >= 0 {
			numbered++
		}
	}
	for _, c := range v.room.Cables {
		runs += len(c.Runs)
	}
	return numbered > 0 && numbered < runs
}

// onJoint reports whether a box touches a movement joint: a number there could be
// one of either side.
func (v *roomView) onJoint(b drawing.Box) bool {
	return slices.ContainsFunc(v.room.Job.Joints, func(m job.Joint) bool {
		return crossesBox(v.view.Pt(m.A), v.view.Pt(m.B), b.Grow(textGap))
	})
}

// sensors draws the sensors with their leads.
func (v *roomView) sensors() {
	for _, s := range v.room.Sensors {
		if len(s.Lead) > 1 {
			segs := drawing.Polyline(v.view.Pts(s.Lead)...)
			v.sign(signSensorLead, drawing.LayerSensors, "lead of sensor "+s.Name, segs, drawing.SensorLeadLine(), nil)
			v.ink.segs(segs, cableInk)
		}
	}
	for _, s := range v.room.Sensors {
		v.sensorTip(s, v.view.Pt(s.Tip))
	}
}

// sensorTip marks a sensor and names it.
func (v *roomView) sensorTip(s layout.Sensor, at drawing.Pt) {
	if s.Spare {
		v.mark(signSpare, symbols.SpareSensor(at, ""))
	} else {
		v.mark(signSensor, symbols.Sensor(at, ""))
	}
	v.tag(at, 1.2, s.Name, "sensor "+s.Name+": "+v.placeWords(s.Tip), 1)
}

// thermostat draws the box in the wall with its height.
func (v *roomView) thermostat() {
	t := v.room.Job.Thermostat
	if t.Wall < 0 || t.Wall >= len(v.room.Job.Walls) {
		return
	}
	out := paperDir(v.outward(v.room.Job.Walls[t.Wall].Segment))
	at := v.view.Pt(t.At).Add(out.Mul(poche / 2))
	v.mark(signThermostat, symbols.Thermostat(at))
	text := "+" + v.fig.length(t.Height)
	if t.Height <= 0 {
		text = "height?"
		v.remark("The height of the thermostat box is not given: to be settled before rough-in.")
	}
	l := &label{text: text, height: drawing.H25, rank: 1, subject: at, note: "thermostat box: " + text + " above the floor"}
	edge := at.Add(out.Mul(symbols.ThermostatSize / 2))
	size := l.sample(spot{}).Box()
	l.spots = append(tagSpots(edge, 0.6, text)[:4:4], leaderSpots(edge, 0, size, 30)...)
	v.letters.add(l)
}
