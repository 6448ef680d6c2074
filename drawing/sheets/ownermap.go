package sheets

import (
	"fmt"
	"slices"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/probe"
)

// ownerMap draws the page that stays with the house: where cable is and where
// none is, and a label for the panel.
func ownerMap(p *layout.Plan, r *layout.Room) ([]*page, error) {
	s := roomScene(kindNamed("owner-map"), r)
	s.border = func(ratio float64) (left, right, top, bottom float64) { return overallBorder(r.Job, ratio) }
	s.draw, s.levels, s.handOver = drawOwnerMap, ownerMapLevels, true
	return s.pages(p)
}

func drawOwnerMap(v *roomView) {
	v.walls()
	v.drawOpenings()
	v.bare()
	v.riseInWall()
	v.fixtures()
	v.limit()
	v.joints()
	v.cables()
	for i := range v.room.Cables {
		if c := &v.room.Cables[i]; len(c.Path) > 1 {
			v.cableEnds(c)
		}
	}
	v.sensors()
	v.thermostat()
	v.drawDatums()
	v.overall()
	if short := v.wallLetters(); short > 0 {
		v.remark(v.shortWords(short) + " no letter here.")
	}
}

// overall dimensions a room's length and width; the rest is in the table of places.
func (v *roomView) overall() {
	if walls := slantingDatums(v.room.Job); walls != nil {
		for _, w := range walls {
			v.slant(w)
		}
		return
	}
	for _, l := range overallLadders(v.room.Job) {
		v.ladder(l, v.room.Job.Outline.Bounds())
	}
}

// bare dots the floor without cable.
func (v *roomView) bare() {
	if rest, err := v.room.WithoutCable(); err == nil {
		v.dotted(rest)
	}
}

// ownerMapLevels returns what stands beside the map.
func ownerMapLevels(v *roomView) []level {
	drill := v.mayIDrill()
	drill.paras = append(drill.paras, "A protective device that trips stays off: call an electrician.")
	label, places := panelLabel{v.labelLines()}, v.places(true, false)
	var notes []block
	if texts := slices.Concat(v.noted, v.remarks, probe.Untested(v.room)); len(texts) > 0 {
		notes = []block{list{head: "Notes", number: 1, paras: texts}}
	}
	beside := func(bs ...block) []block { return append(bs, notes...) }
	living, terse := whole{v.keeping()}, legendOf(without(v.used, plainer[1]))
	all := beside(drill, label, places, legendOf(v.used), living)
	levels := []level{{blocks: all}} // what stands named on the map goes first, how to live with the floor last
	for _, plain := range plainer {
		legend := legendOf(without(v.used, plain))
		levels = append(levels,
			level{blocks: beside(drill, label, places, legend, living), gain: 1.3},
			level{blocks: beside(drill, label, legend, places, living), gain: 1.3}, // the legend fills what the table leaves of a column
		)
	}
	for _, bs := range [][]block{
		{drill, label, v.places(true, true), terse, living}, {drill, label, terse, v.places(true, true), living},
		{drill, label, places, terse, living}, {drill, label, terse, places, living},
	} {
		levels = append(levels, level{blocks: beside(bs...), gain: never})
	}
	return append(levels, level{blocks: all, gain: never, overflow: true})
}

// plainer are the signs that the legend of a map leaves out, step by step, where one
// page has no room for them or holds a larger drawing without: what anyone knows,
// and what has its name beside it. Nothing of the cable is ever left out.
var plainer = []func(sign) bool{
	known,
	func(s sign) bool { return known(s) || named(s) },
}

// known reports whether anyone knows a sign without being told.
func known(s sign) bool {
	return slices.Contains([]sign{signWall, signDoor, signSliding, signCased, signThreshold, signWindow}, s)
}

// named reports whether a sign has its name beside it.
func named(s sign) bool { return s == signStand || s == signToFix }

// evidence says what the map is worth.
func evidence(record string) string {
	if record != "" {
		return "Recorded AS LAID: " + record + ". Take that off every distance from D1 and D2."
	}
	return "THIS IS A PLAN, NOT A RECORD: the cable may lie elsewhere. Have it located before any hole."
}

// mayIDrill is the question the map is kept for.
func (v *roomView) mayIDrill() list {
	record := recordOf(v.plan, []layout.Room{*v.room})
	near := "leads, sensors, START or END"
	if record != "" { // what was found need not lie inside the line
		near = "cable, " + near
	}
	l := list{head: "Before you drill", number: 1, paras: []string{
		evidence(record),
		"Switch off at the panel; make sure it is off.",
		fmt.Sprintf("No hole inside the dashed line, nor near %s.", near),
		fmt.Sprintf("No nail or screw within %s of the lead rise, floor to box.", riseWords(v.fig.units)),
		"Try glue first. Have dotted floor checked too.",
	}}
	if deep, from := v.plan.Cover(); deep > 0 {
		by := ""
		if from == job.FromDefault {
			by = " (default)"
		}
		l.paras = append(l.paras, fmt.Sprintf("No depth is free of risk: cable lies from about %s down%s.", v.fig.spacing(deep), by))
	}
	return l
}

// keeping is how to live with the floor.
func (v *roomView) keeping() block {
	l := list{head: "Living with the floor", number: 1, paras: probe.Living()}
	if heat := v.plan.LossWords(v.room); heat != "" {
		l.paras = append(l.paras, heat)
	}
	return l
}

// labelLines is what the panel label says.
func (v *roomView) labelLines() []string {
	lines := []string{"ELECTRIC CABLE IN THE FLOOR", "DO NOT DRILL"}
	circuit := or(v.settled()[settleCircuit], "______")
	if name := v.room.Job.Name; name != "" {
		lines = append(lines, name+", circuit "+circuit)
	} else {
		lines = append(lines, "Circuit "+circuit)
	}
	if l, ok := v.load(); ok {
		lines = append(lines, fmt.Sprintf("%g V, %g W, %.2f A", l.Volts, l.Watts, l.Amps))
	}
	number := v.plan.Job.Info.Number
	if number == "" {
		number = "________"
	}
	return append(lines, "Drawing "+number+", rev. "+lastRevision(v.plan), "Plan "+v.plan.Code+", "+statusWords(v.plan.Job.Info.Status))
}

// A panelLabel is a label to cut out and stick inside the panel's door.
type panelLabel struct{ lines []string }

// labelWidth is the width of a label at most, mm: what fits inside the door of a
// small panel.
const labelWidth = 90

// line returns how line i of a label is lettered.
func (l panelLabel) line(i int) (face fonts.Face, height float64) {
	if i < 2 {
		return fonts.LetteringBold, heading
	}
	return fonts.Lettering, note
}

// wrapped breaks line i to the label's width, into lines about alike.
func (l panelLabel) wrapped(ty *typesetter, i int, w float64) []string {
	face, height := l.line(i)
	w = min(w, labelWidth) - 4*pad
	lines := ty.wrapIn(face, l.lines[i], height, w)
	for next := lines; len(lines) > 1 && len(next) == len(lines); next = ty.wrapIn(face, l.lines[i], height, w) {
		lines = next
		w -= pad
	}
	return lines
}

func (l panelLabel) height(ty *typesetter, w float64) float64 {
	h := ty.headingHeight(labelHead, w) + 5
	for i := range l.lines {
		_, height := l.line(i)
		h += float64(len(l.wrapped(ty, i, w))) * height * 1.7
	}
	return h
}

const labelHead = "Panel label: cut out"

func (l panelLabel) set(pg *page, at drawing.Pt, w float64) {
	y := at.Y + setHeading(pg, at, labelHead, w)
	b := drawing.Box{X0: at.X, Y0: y, X1: at.X + min(w, labelWidth), Y1: at.Y + l.height(pg.ty, w)}
	pg.path(drawing.LayerFrame, "cut here", drawing.Rectangle(b), drawing.HiddenLine(), nil)
	y += 2
	for i := range l.lines {
		face, height := l.line(i)
		for _, t := range l.wrapped(pg.ty, i, w) {
			y += height * 1.7
			pg.writeIn(face, drawing.Pt{X: b.Centre().X, Y: y - 0.4*height}, t, height, drawing.Middle)
		}
	}
}
