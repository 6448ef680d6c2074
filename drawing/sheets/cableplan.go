package sheets

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// cablePlan is the plan of one room's cable.
func cablePlan(r *layout.Room) scene {
	s := roomScene(kindNamed("cable-plan"), r)
	s.border = func(ratio float64) (left, right, top, bottom float64) { return border(wallsAlone(r.Job), ratio) }
	s.draw, s.levels = drawCablePlan, cablePlanLevels
	return s
}

func drawCablePlan(v *roomView) {
	v.walls()
	v.drawOpenings()
	v.zones()
	v.riseInWall()
	v.fixtures()
	v.limit()
	v.leftBare()
	v.joints()
	v.plannedLines()
	v.cables()
	v.marks()
	v.sensors()
	v.thermostat()
	v.drawDatums()
	short := v.dimensions(wallsAlone(v.room.Job))
	v.wallLetters()
	v.cornerTags()
	v.shortWalls(short)
	v.jointCrossings()
}

// jointCrossings says which leads pass a movement joint.
func (v *roomView) jointCrossings() {
	for _, x := range v.room.JointCrossings() {
		words := strings.Join(x.Leads, ", ")
		v.remark(fmt.Sprintf("%s%s: past %s in a sleeve that lets both sides move, or through the wall, as the cable's instructions allow.", strings.ToUpper(words[:1]), words[1:], x.Joint))
	}
}

// shortWalls says how many walls have no letter, and where their corners are
// given.
func (v *roomView) shortWalls(n int) {
	if n == 0 {
		return
	}
	walls := v.shortWords(n) + " no letter"
	own := false
	for i, chained := range chainedCorners(wallsAlone(v.room.Job), v.view.Ratio) {
		_, numbered := v.cornerName(i)
		own = own || numbered && !chained
	}
	switch {
	case !own:
		v.remark(walls + ".")
	case n == 1:
		v.remark(walls + ": a corner of it that no chain gives is listed, and numbered where there is room.")
	default:
		v.remark(walls + ": their corners that no chain gives are listed as c1, c2 and so on round the room, and numbered where there is room.")
	}
}

// shortWords counts the walls that are too short on paper for a letter.
func (v *roomView) shortWords(n int) string {
	under := v.fig.withUnit(letterLeast * v.view.Ratio)
	if n == 1 {
		return fmt.Sprintf("One wall under %s has", under)
	}
	return fmt.Sprintf("Walls under %s, %d of them, have", under, n) // no figure first, where notes are numbered
}

// cablePlanLevels returns what stands beside a cable plan. What a drawing
// cannot do without is how to find the points again, the legend, and the
// cautions whose breach destroys the cable at once.
func cablePlanLevels(v *roomView) []level {
	tables := append(schedule(v.room, v.fig, nil), areas(v.room, v.fig.units))
	signs, few, all, last := legendOf(v.used), v.fewCautions("with the setting out or its notes"), v.allCautions(), v.lastCautions()
	places := append([]block{v.locations()}, v.standing()...)
	corners, changed, revised := v.corners(), v.differences(), v.revised()
	levels := []level{{blocks: slices.Concat(places, corners, changed, tables, []block{signs, v.notes()}, revised, all)}}
	if len(corners) > 0 {
		levels = append(levels, level{blocks: slices.Concat(places, corners, tables, []block{signs, few, v.notes()}, revised), rest: changed, later: last, gain: 1.3})
	}
	return append(levels,
		level{blocks: slices.Concat(places, tables, []block{signs, few, v.notes()}, revised), rest: changed, later: slices.Concat(corners, last), gain: 1.3},
		level{blocks: slices.Concat(places, []block{signs, few, v.notes()}, revised), rest: slices.Concat(tables, changed), later: slices.Concat(corners, last), gain: 1.9},
		level{blocks: slices.Concat(places[:1], []block{v.fewCautions("on the sheet of notes"), signs, v.notes()}, places[1:], corners, tables, revised), rest: slices.Concat(changed, last), gain: 1.9, overflow: true},
	)
}

// firstRoom reports whether the view's room is the first of the job: its cable plan
// has for all rooms what need not be said again.
func (v *roomView) firstRoom() bool { return v.plan.Rooms[0].Job == v.room.Job }

// fewCautions are those that a cable plan has whatever else finds room on it:
// the first of all cautions, and where the others are.
func (v *roomView) fewCautions(others string) block {
	if !v.firstRoom() {
		others = "on the sheets of " + or(v.plan.Rooms[0].Job.Name, "the first room")
	}
	where := fmt.Sprintf("Cautions %d to %d are %s.", firstCautions+1, len(layingCautions()), others)
	return cautionList(v.plan, "Cautions", where, layingCautions()[:firstCautions]...)
}

// allCautions stand once a job.
func (v *roomView) allCautions() []block {
	if !v.firstRoom() {
		return []block{v.fewCautions("")}
	}
	return []block{cautionList(v.plan, "Cautions", "", layingCautions()...)}
}

// lastCautions are those that fewCautions leaves out.
func (v *roomView) lastCautions() []block {
	if !v.firstRoom() {
		return nil
	}
	l := cautionList(v.plan, "Cautions", "", layingCautions()[firstCautions:]...)
	l.head, l.number = continued(l.head), firstCautions+1
	return []block{l}
}

// revised is the table of revisions, once a job.
func (v *roomView) revised() []block {
	if !v.firstRoom() {
		return nil
	}
	return []block{revisions(v.plan)}
}

// stackedLeads says where cold leads lie on one another, and how they are to be laid
// there.
func (v *roomView) stackedLeads() (out []string) {
	tape := layout.NewTape(v.room.Job, v.fig.units)
	for _, s := range v.room.LeadStacks() {
		if s.Joint {
			out = append(out, fmt.Sprintf("The %s comes over the %s, %s: lay it round the joint, never on it, nor on heating cable.", s.Lead, s.On, tape.Place(s.At)))
			continue
		}
		out = append(out, fmt.Sprintf("The %s and the %s lie on one another over %s about the place %s: lay each there in a tube or recess of its own, never on a lead joint or heating cable.",
			s.Lead, s.On, tape.Length(s.Length), tape.Place(s.At)))
	}
	return out
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
	if v.skipsRuns() {
		l.paras = append(l.paras, "A run without a number follows the one before it along the cable.")
	}
	if t := v.room.Job.Thermostat; t.Wall >= 0 && t.Wall < len(v.room.Job.Walls) {
		l.paras = append(l.paras, fmt.Sprintf("Lead rise in wall %s: no nail or screw within %s of it to either side, floor and wall, up to the box.", v.room.Job.Walls[t.Wall].Letter, riseWords(v.fig.units)))
	}
	if bare := v.room.Bare; !bare.Empty() {
		l.paras = append(l.paras, fmt.Sprintf("%s of the floor, dotted, stays without cable: it is cut off from the rest.", plane.FormatArea(bare.Area(), v.fig.units)))
	}
	l.paras = append(l.paras, v.stackedLeads()...)
	if v.room.Chosen != nil && v.room.Chosen.Why != "" {
		l.paras = append(l.paras, "Cable chosen: "+strings.TrimSuffix(v.room.Chosen.Why, ".")+".")
	}
	if len(v.room.Cables) > 0 {
		l.paras = append(l.paras, "Even spacing: runs spread evenly over the heated area and half a gap round it.")
	}
	l.paras = append(l.paras, v.plan.Job.Notes...)
	l.paras = append(l.paras, "Floor warming; no heat-loss calculation by a standard has been made.")
	return l
}
