package sheets

import (
	"fmt"

	"oxturn/layout"
)

// cablePlan draws the plan of one room's cable.
func cablePlan(p *layout.Plan, r *layout.Room) ([]*page, error) {
	s := roomScene(r)
	s.id, s.title, s.kind = "cable-plan", "Cable plan", "Cable plan"
	s.about = "Where the heating cable, its leads and the sensors lie, with the dimensions to find them again"
	s.draw, s.levels = drawCablePlan, cablePlanLevels
	return s.pages(p)
}

func drawCablePlan(v *roomView) {
	v.walls()
	v.drawOpenings()
	v.zones()
	v.riseInWall()
	v.fixtures()
	v.limit()
	v.joints()
	v.cables()
	v.marks()
	v.sensors()
	v.thermostat()
	v.drawDatums()
	short := v.dimensions()
	v.wallLetters()
	if short > 0 {
		v.remark(fmt.Sprintf("%d short walls (under %s) are neither lettered nor dimensioned one by one.", short, v.fig.length(letterLeast*v.view.Ratio)))
	}
}

// cablePlanLevels returns what stands beside a cable plan. What a drawing
// cannot do without is how to find the points again, the legend, and the
// cautions whose breach destroys the cable at once.
func cablePlanLevels(v *roomView) []level {
	tables := append(schedule(v.room, v.fig, nil), areas(v.room, v.fig.units))
	all := cautionList("Cautions", "", layingCautions()...)
	few := cautionList("Cautions", "All cautions are on the sheet of notes.", neverCut, neverCoiled, ratedVoltage, inspectFirst)
	signs, rev := legendOf(v.used), revisions(v.plan)
	full := append([]block{v.locations()}, v.differences()...)
	full = append(append(full, tables...), signs, v.notes(), rev, all)
	short := []block{v.locations()}
	short = append(append(short, tables...), signs, few, v.notes())
	return []level{
		{blocks: full},
		{blocks: short, rest: append(v.differences(), all, rev), gain: 1.3},
		{blocks: []block{v.locations(), signs, few, v.notes()}, rest: append(append(tables, v.differences()...), all, rev), gain: 1.9},
		{blocks: append([]block{v.locations(), few, signs, v.notes()}, tables...), rest: append(v.differences(), all, rev), gain: 1.9, overflow: true},
	}
}

// notes returns the notes of a room's sheet: its own remarks, those of the
// job, and what is true of every plan.
func (v *roomView) notes() block {
	l := list{head: "Notes", number: 1}
	l.paras = append(l.paras, v.noted...)
	if v.room.Job.MeasuredTo == "stud" {
		l.paras = append(l.paras, "Measured to the studs: the walls' finish is still to be taken off.")
	}
	l.paras = append(l.paras, v.remarks...)
	if t := v.room.Job.Thermostat; t.Wall >= 0 && t.Wall < len(v.room.Job.Walls) {
		l.paras = append(l.paras, fmt.Sprintf("Lead rise in wall %s: no nail or screw within %s of it to either side, floor and wall, up to the box.", v.room.Job.Walls[t.Wall].Letter, riseWords(v.fig.units)))
	}
	if v.room.Chosen != nil && v.room.Chosen.Why != "" {
		l.paras = append(l.paras, "Cable chosen: "+v.room.Chosen.Why)
	}
	l.paras = append(l.paras, v.plan.Job.Notes...)
	l.paras = append(l.paras, "Floor warming; no heat-loss calculation has been made.")
	return l
}
