package floorplan

import (
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// Cables draws the heating cables at their true bends with all their marks.
func (v *View) Cables() {
	for i := range v.Room.Cables {
		if c := &v.Room.Cables[i]; len(c.Path) >= 2 {
			v.cable(c, signs.OfCable(i))
		}
	}
	for i := range v.Room.Cables {
		c := &v.Room.Cables[i]
		if len(c.Path) < 2 {
			continue
		}
		for _, end := range c.Joined() {
			v.coldLead(end.Lead, v.Fig.Text(end.LeadName)+" "+c.ID)
		}
	}
}

func (v *View) cable(c *layout.Cable, s signs.Sign) {
	segs := drawing.Rounded(v.Paper.Pts(c.Path), v.Paper.Len(c.BendRadius))
	v.Sign(s, drawing.LayerCable, "heating cable "+c.ID, segs, drawing.CableLine(), nil)
	if core := s.Core(); core != nil {
		v.Path(drawing.LayerCable, "", segs, core, nil)
	}
	v.Ink.Segs(segs, lettering.CableInk)
}

// Marks draws what is to be seen on the cables: start, end, shares of the
// length, direction and run numbers.
func (v *View) Marks() {
	for i := range v.Room.Cables {
		c := &v.Room.Cables[i]
		if len(c.Path) < 2 {
			continue
		}
		v.CableEnds(c)
		v.shares(c)
		v.arrows(c)
		v.RunNumbers(c)
	}
}

func (v *View) coldLead(lead []plane.Point, title string) {
	if len(lead) < 2 {
		return
	}
	segs := drawing.Polyline(v.Paper.Pts(lead)...)
	v.Sign(signs.ColdLead, drawing.LayerLeads, title, segs, drawing.ColdLeadLine(), nil)
	v.Ink.Segs(segs, lettering.CableInk)
}

// Mark draws the symbol of a sign and keeps lettering off it.
func (v *View) Mark(s signs.Sign, items []drawing.Item) {
	v.Fixed(items)
	v.Uses(s)
}

// Fixed draws what says itself what it is and keeps lettering off it.
func (v *View) Fixed(items []drawing.Item) {
	v.Add(items...)
	v.Ink.Items(items)
}

// Tag asks for a tag beside a mark.
func (v *View) Tag(at drawing.Pt, reach float64, text, note string, rank int) {
	v.Letters.Add(&lettering.Label{Text: text, Height: drawing.H25, Rank: rank, Subject: at, Note: note,
		Spots: TagSpots(at, reach, text)})
}

// CableEnds marks where the heat of a cable begins and ends.
func (v *View) CableEnds(c *layout.Cable) { v.endsWhere(c, func(plane.Point) bool { return true }) }

// EndsIn is CableEnds of all cables, for those ends that lie in a piece of the drawing.
func (v *View) EndsIn(b drawing.Box) {
	for i := range v.Room.Cables {
		v.endsWhere(&v.Room.Cables[i], func(p plane.Point) bool { return b.Holds(v.Paper.Pt(p)) })
	}
}

func (v *View) endsWhere(c *layout.Cable, shown func(plane.Point) bool) {
	for i, end := range c.Ends() {
		if !shown(end.At) {
			continue
		}
		at, tag := v.Paper.Pt(end.At), v.Prefix(c.ID)+v.Fig.Text(end.Tag)
		if end.Capped() {
			v.Mark(signs.End, symbols.Bar(at, at.Sub(v.Paper.Pt(c.Path[len(c.Path)-2])), symbols.EndBar))
		} else {
			v.Mark(signs.Joint, symbols.LeadJoint(at))
		}
		v.Tag(at, [...]float64{1.4, 1.6}[i], tag,
			tag+", "+v.Fig.Text(end.Name)+v.Fig.Joint(": ")+v.PlaceWords(end.At), 1)
	}
}

// shares draws the quarter, half and three-quarter marks.
func (v *View) shares(c *layout.Cable) {
	for _, m := range c.Marks {
		at, dir := v.Paper.Pt(m.At), v.Heading(c, m.At)
		length, s, rank := symbols.QuarterBar, signs.Quarter, 3
		if m.Name == "1/2" {
			length, s, rank = symbols.HalfwayBar, signs.Half, 1
		}
		v.Mark(s, symbols.Bar(at, dir, length))
		v.Tag(at, 1, v.Prefix(c.ID)+m.Name, v.Fig.Textf("%s%s mark: %s", v.Prefix(c.ID), m.Name, v.PlaceWords(m.At)),
			rank)
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

// Heading returns the cable's direction at p, on paper.
func (v *View) Heading(c *layout.Cable, p plane.Point) drawing.Pt {
	i := legAt(c.Path, p)
	return v.Paper.Dir(c.Path[i].Sub(c.Path[i-1]).Unit())
}

// arrowLeast is the shortest leg on paper that gets an arrow, mm: long enough
// not to be the link of a turn.
const arrowLeast = 15.0

// arrows draws the direction of laying on the first run and after each
// quarter.
func (v *View) arrows(c *layout.Cable) {
	from := []int{1}
	for _, m := range c.Marks {
		from = append(from, legAt(c.Path, m.At)+1)
	}
	for _, i := range from {
		for ; i < len(c.Path); i++ {
			a, b := v.Paper.Pt(c.Path[i-1]), v.Paper.Pt(c.Path[i])
			if a.Dist(b) >= arrowLeast {
				v.Mark(signs.Arrow, symbols.DirectionArrow(a.Lerp(b, 0.5), b.Sub(a)))
				break
			}
		}
	}
}

// RunNumbers asks for the number of every run at the end where it begins; of
// every fifth run, and the first and last, where the runs lie too close.
func (v *View) RunNumbers(c *layout.Cable) {
	step := 1
	if v.Paper.Len(c.Spacing)*2 < symbols.RunCircle+2.4 {
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
func (v *View) runNumber(r layout.Run, name string, alone bool) {
	seen, from, ok := v.seen(plane.Segment{A: r.From, B: r.To})
	if !ok {
		return
	}
	a, b := v.Paper.Pt(seen.A), v.Paper.Pt(seen.B)
	u := b.Sub(a).Unit()
	l := &lettering.Label{Text: name, Height: drawing.H25, Rank: 5, Subject: a, Mark: symbols.RunNumber, Of: signs.Run,
		Option: true}
	most := 0.0
	if alone {
		most = lettering.OverCable
	}
	before := lettering.Spot{At: a.Sub(u.Mul(symbols.RunCircle/2 + 0.8)), Most: most}
	if from == 0 && !v.onJoint(l.Box(before)) {
		l.Spots = append(l.Spots, before)
	}
	// on the run itself its own cable is no loss
	for _, d := range []float64{4, 6, 8, 11, 15, 20} {
		if d < a.Dist(b)-4 {
			for _, s := range []lettering.Spot{
				{At: a.Add(u.Mul(d)), Cost: 2 - lettering.OverCable + 0.6*d},
				{At: b.Sub(u.Mul(d)), Cost: 5 - lettering.OverCable + 0.6*d},
			} {
				if !v.onJoint(l.Box(s)) {
					l.Spots = append(l.Spots, s)
				}
			}
		}
	}
	v.Letters.Add(l)
}

// SkipsRuns reports whether a run is drawn without its number on a sheet that
// numbers runs.
func (v *View) SkipsRuns() bool {
	if v.Letters == nil || v.Room == nil {
		return false
	}
	numbered, runs := 0, 0
	for _, l := range v.Letters.Labels {
		if l.Of == signs.Run && l.At >= 0 {
			numbered++
		}
	}
	for _, c := range v.Room.Cables {
		runs += len(c.Runs)
	}
	return numbered > 0 && numbered < runs
}

// onJoint reports whether a box touches a movement joint: a number there could be
// one of either side.
func (v *View) onJoint(b drawing.Box) bool {
	return slices.ContainsFunc(v.Room.Job.Joints, func(m job.Joint) bool {
		return b.Grow(lettering.TextGap).Touches(v.Paper.Pt(m.A), v.Paper.Pt(m.B))
	})
}

// Sensors draws the sensors with their leads.
func (v *View) Sensors() {
	for _, s := range v.Room.Sensors {
		if len(s.Lead) > 1 {
			segs := drawing.Polyline(v.Paper.Pts(s.Lead)...)
			v.Sign(signs.SensorLead, drawing.LayerSensors, "lead of sensor "+s.Name, segs, drawing.SensorLeadLine(),
				nil)
			v.Ink.Segs(segs, lettering.CableInk)
		}
	}
	for _, s := range v.Room.Sensors {
		v.SensorTip(s, v.Paper.Pt(s.Tip))
	}
}

// SensorTip marks a sensor and names it.
func (v *View) SensorTip(s layout.Sensor, at drawing.Pt) {
	if s.Spare {
		v.Mark(signs.Spare, symbols.SpareSensor(at, ""))
	} else {
		v.Mark(signs.Sensor, symbols.Sensor(at, ""))
	}
	v.Tag(at, 1.2, s.Name, v.Fig.Textf("sensor %s: %s", s.Name, v.PlaceWords(s.Tip)), 1)
}

// BoxAt is the middle of the box on paper, in what it hangs on.
func (v *View) BoxAt(w job.BoxWall) drawing.Pt {
	return v.Paper.Pt(v.Room.Job.Thermostat.At.Sub(w.In.Mul(v.ThickOf(w) / 2)))
}

// Thermostat draws the box in the wall with its height.
func (v *View) Thermostat() {
	t := v.Room.Job.Thermostat
	w, hangs := v.Room.Job.BoxWall()
	if !hangs {
		return
	}
	at, out := v.BoxAt(w), v.Paper.Dir(w.In.Mul(-1))
	v.Mark(signs.Thermostat, symbols.Thermostat(at))
	text := "+" + v.Fig.Length(t.Height)
	if t.Height <= 0 {
		text = v.Fig.Text("height?")
		v.Remark(v.Fig.Text("The height of the thermostat box is not given: to be settled before rough-in."))
	}
	l := &lettering.Label{Text: text, Height: drawing.H25, Rank: 1, Subject: at, Note: v.Fig.Textf("thermostat "+
		"box: %s above the floor", text)}
	edge := at.Add(out.Mul(symbols.ThermostatSize / 2))
	size := l.Sample(lettering.Spot{}).Box()
	beside, _ := spotsBeside(edge, 0.6, text)
	l.Spots = append(beside[:4:4], LeaderSpots(edge, 0, size, 30)...)
	v.Letters.Add(l)
}
