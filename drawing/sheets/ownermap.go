package sheets

import (
	"fmt"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
)

// ownerMap draws the page that stays with the house: where cable is and where
// none is, and a label for the panel.
func ownerMap(p *layout.Plan, r *layout.Room) ([]*page, error) {
	s := roomScene(r)
	s.id, s.title, s.kind = "owner-map", "Owner's map", "Owner's map"
	s.about = "Where cable lies in the floor and where none does, for whoever wants to drill years later"
	s.draw, s.levels = drawOwnerMap, ownerMapLevels
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
	v.dimensions()
	v.wallLetters()
}

// bare dots the floor in which no cable is planned: what is inside the walls
// and outside the heated area.
func (v *roomView) bare() {
	rest, err := v.room.Floor.Less(v.room.Heated)
	if err != nil {
		return
	}
	rings := v.view.Rings(rest)
	v.add(drawing.Hatch(rings, drawing.HatchUnheated)...)
	v.ink.hatch(rings)
	v.uses(signUnheated)
}

// ownerMapLevels returns what stands beside the map.
func ownerMapLevels(v *roomView) []level {
	bs := []block{v.mayIDrill(), panelLabel{v.labelLines()}, v.locations(), legendOf(v.used), v.keeping()}
	return []level{{blocks: bs}, {blocks: bs, gain: never, overflow: true}}
}

// evidence says what the map is worth.
func evidence(record string) string {
	if record != "" {
		return "This map is recorded as laid: " + record + ". It gives distances from the faces D1 and D2; take that error off every one of them."
	}
	return "THIS IS A PLAN, NOT A RECORD. The cable may lie elsewhere. No hole may be judged by it: have the cable located first, whatever it shows."
}

// mayIDrill is the question the map is kept for.
func (v *roomView) mayIDrill() block {
	l := list{head: "Before you drill, screw or cut", number: 1}
	l.paras = append(l.paras, evidence(recordOf(v.plan, []layout.Room{*v.room})),
		"Switch off at the panel, and make sure it is off.",
		"Never drill or screw inside the dashed line, nor near the leads, sensors, START or END: all of them are in the floor.",
		fmt.Sprintf("Keep nails and screws %s away from the lead rise in the wall, from the floor up to the box.", riseWords(v.fig.units)),
		"Try glue, a hinge-pin stop or a wall stop first. Where dots are shown no cable is planned; have it checked before making a hole.",
		"If the ground-fault device trips, leave it off and call an electrician. Never by-pass it.",
	)
	return l
}

// keeping is how to live with the floor.
func (v *roomView) keeping() block {
	l := list{head: "Living with the floor", number: 1}
	l.paras = append(l.paras, v.noted...)
	l.paras = append(l.paras,
		"Nothing that lies flat over the heated area: no thick rugs, mattresses or furniture without legs.",
		"After a power cut look at the thermostat's programme again.",
		"Keep this map, the test records and the photographs at the panel.",
	)
	return l
}

// labelLines is what the panel label says.
func (v *roomView) labelLines() []string {
	lines := []string{"ELECTRIC CABLE IN FLOOR", "DO NOT DRILL"}
	if v.room.Job.Name != "" {
		lines = append(lines, v.room.Job.Name)
	}
	if l, ok := v.load(); ok {
		lines = append(lines, fmt.Sprintf("%g V, %g W, %.2f A", l.Volts, l.Watts, l.Amps))
	}
	number := v.plan.Job.Info.Number
	if number == "" {
		number = "________"
	}
	return append(lines, "Circuit ______", "Drawing "+number+", rev. "+lastRevision(v.plan), "Status: "+statusWords(v.plan.Job.Info.Status))
}

// A panelLabel is a label to cut out and stick inside the panel's door.
type panelLabel struct{ lines []string }

const labelRow = 6.0

func (l panelLabel) height(*typesetter, float64) float64 {
	return headRow + float64(len(l.lines))*labelRow + 6
}

func (l panelLabel) set(pg *page, at drawing.Pt, w float64) {
	setHeading(pg, at, "Panel label, to cut out", w)
	b := drawing.Box{X0: at.X, Y0: at.Y + headRow, X1: at.X + min(w, 90), Y1: at.Y + l.height(pg.ty, w)}
	pg.path(drawing.LayerFrame, "cut here", drawing.Rectangle(b), drawing.HiddenLine(), nil)
	for i, t := range l.lines {
		p := drawing.Pt{X: b.Centre().X, Y: b.Y0 + 3 + float64(i+1)*labelRow - 1.5}
		face, height := fonts.Lettering, note
		if i < 2 {
			face, height = fonts.LetteringBold, heading
		}
		t = pg.ty.wrapIn(face, t, height, b.W()-2*pad)[0]
		pg.writeIn(face, p, t, height, drawing.Middle)
	}
}
