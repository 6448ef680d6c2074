package sheets

import (
	"slices"
	"strings"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/job"
)

// cablePlan is the plan of one room's cable.
func cablePlan(r *layout.Room) floorplan.Scene {
	s := floorplan.OfRoom(kindNamed("cable-plan"), r)
	s.Border = func(ratio float64) (left, right, top, bottom float64) {
		return floorplan.Border(floorplan.WallsAlone(r.Job), ratio)
	}
	s.Draw, s.Levels = drawCablePlan, cablePlanLevels
	return s
}

func drawCablePlan(v *floorplan.View) {
	v.Walls()
	v.DrawOpenings()
	v.Zones()
	v.RiseInWall()
	v.Fixtures()
	v.Limit()
	v.LeftBare()
	v.ZoneNames()
	v.Joints()
	plannedLines(v)
	strips(v)
	v.Cables()
	v.Marks()
	v.Sensors()
	v.Thermostat()
	v.DrawDatums()
	short := v.Dimensions(floorplan.WallsAlone(v.Room.Job))
	v.WallLetters()
	v.CornerTags()
	shortWalls(v, short)
	jointCrossings(v)
	revisedPlaces(v)
	callOut(v, ofRise, ofJoints, ofCaps, ofSection)
}

// jointCrossings says which leads pass a movement joint.
func jointCrossings(v *floorplan.View) {
	for _, x := range v.Room.JointCrossings() {
		var leads []string
		for _, lead := range x.Leads {
			leads = append(leads, lead.In(v.Fig.Language))
		}
		v.Remark(v.Fig.Textf("%s: past %s in a sleeve that lets both sides move, or through the wall, as the cable's "+
			"instructions allow.", capital(strings.Join(leads, ", ")), x.Joint))
	}
}

// shortWalls says how many walls have no letter, and where their corners are
// given.
func shortWalls(v *floorplan.View, n int) {
	if n == 0 {
		return
	}
	walls := v.Fig.Textf("%s no letter", shortWords(v, n))
	own := false
	for i, chained := range floorplan.ChainedCorners(floorplan.WallsAlone(v.Room.Job), v.Paper.Ratio) {
		_, numbered := v.CornerName(i)
		own = own || numbered && !chained
	}
	switch {
	case !own:
		v.Remark(walls + ".")
	case n == 1:
		v.Remark(v.Fig.Textf("%s: a corner of it that no chain gives is listed, and numbered where there is room.",
			walls))
	default:
		v.Remark(v.Fig.Textf("%s: their corners that no chain gives are listed as c1, c2 and so on round the room, "+
			"and numbered where there is room.", walls))
	}
}

// shortWords counts the walls that are too short on paper for a letter.
func shortWords(v *floorplan.View, n int) string {
	under := withUnit(v.Fig, floorplan.LetterLeast*v.Paper.Ratio)
	if n == 1 {
		return v.Fig.Textf("One wall under %s has", under)
	}
	return v.Fig.Textf("Walls under %s, %d of them, have", under, n) // no figure first, where notes are numbered
}

// cablePlanLevels returns what stands beside a cable plan. What a drawing
// cannot do without is how to find the points again, the legend, and the
// cautions whose breach destroys the cable at once.
func cablePlanLevels(v *floorplan.View) []setting.Level {
	tables := append(schedule(v.Room, v.Fig, nil, false), areas(v.Room, v.Fig))
	signs, few, all, last := legendOf(v), fewCautions(v, v.Fig.Text("with the setting out or its notes")), allCautions(
		v), lastCautions(v)
	places := append([]setting.Block{v.Locations()}, v.Standing()...)
	corners, changed, revised := v.Corners(), differences(v), revised(v)
	levels := []setting.Level{{Blocks: slices.Concat(places, corners, changed, tables, []setting.Block{signs, notes(v)},
		revised, all)}}
	if len(corners) > 0 {
		levels = append(levels, setting.Level{Blocks: slices.Concat(places, corners, tables,
			[]setting.Block{signs, few, notes(v)}, revised), Rest: changed, Later: last, Gain: 1.15})
	}
	return append(levels,
		setting.Level{Blocks: slices.Concat(places, tables, []setting.Block{signs, few, notes(v)}, revised),
			Rest: changed, Later: slices.Concat(corners, last), Gain: 1.15},
		setting.Level{Blocks: slices.Concat(places, []setting.Block{signs, few, notes(v)}, revised),
			Rest: slices.Concat(tables, changed), Later: slices.Concat(corners, last), Gain: 1.4},
		setting.Level{Blocks: slices.Concat(places[:1], []setting.Block{fewCautions(v, v.Fig.Text("on the sheet of "+
			"notes")), signs,
			notes(v)}, places[1:], corners, tables, revised), Rest: slices.Concat(changed, last), Gain: 1.4,
			Overflow: true},
	)
}

// firstRoom reports whether the view's room is the first of the job: its cable plan
// has for all rooms what need not be said again.
func firstRoom(v *floorplan.View) bool { return v.Plan.Rooms[0].Job == v.Room.Job }

// fewCautions are those that a cable plan has whatever else finds room on it:
// the first of all cautions, and where the others are.
func fewCautions(v *floorplan.View, others string) setting.Block {
	if !firstRoom(v) {
		others = v.Fig.Textf("on the sheets of %s", floorplan.Or(v.Plan.Rooms[0].Job.Name, "the first room"))
	}
	where := v.Fig.Textf("Cautions %d to %d are %s.", firstCautions+1, len(layingCautions(v.Plan)), others)
	return cautionList(v.Plan, v.Fig.Text("Cautions"), where, layingCautions(v.Plan)[:firstCautions]...)
}

// allCautions stand once a job.
func allCautions(v *floorplan.View) []setting.Block {
	if !firstRoom(v) {
		return []setting.Block{fewCautions(v, "")}
	}
	return []setting.Block{cautionList(v.Plan, v.Fig.Text("Cautions"), "", layingCautions(v.Plan)...)}
}

// lastCautions are those that fewCautions leaves out.
func lastCautions(v *floorplan.View) []setting.Block {
	if !firstRoom(v) {
		return nil
	}
	l := cautionList(v.Plan, v.Fig.Text("Cautions"), "", layingCautions(v.Plan)[firstCautions:]...)
	l.Head, l.Number = setting.Continued(l.Head), firstCautions+1
	return []setting.Block{l}
}

// revised is the table of revisions, once a job.
func revised(v *floorplan.View) []setting.Block {
	if !firstRoom(v) || len(v.Plan.Job.Revisions) == 0 {
		return nil
	}
	return []setting.Block{revisions(v.Plan)}
}

// stackedLeads says where cold leads lie on one another, and how they are to be laid
// there.
func stackedLeads(v *floorplan.View) (out []string) {
	tape := layout.NewTape(v.Room.Job, v.Fig.Units)
	for _, s := range v.Room.LeadStacks() {
		if s.Joint {
			out = append(out, v.Fig.Textf("The %s comes over the %s, %s: lay it round the joint, never on it, nor "+
				"on heating cable.", s.Lead, s.On, tape.PlaceIn(s.At, v.Fig.Language)))
			continue
		}
		out = append(out, v.Fig.Textf("The %s and the %s lie on one another over %s about the place %s: lay each "+
			"there in a tube or recess of its own, never on a lead joint or heating cable.",
			s.Lead, s.On, v.Fig.Figure(tape.Length(s.Length)), tape.PlaceIn(s.At, v.Fig.Language)))
	}
	return out
}

// notes returns the notes of a room's sheet: its own remarks, those of the
// job, and what is true of every plan.
func notes(v *floorplan.View) setting.Block {
	l := setting.List{Head: v.Fig.Text("Notes"), Number: 1}
	l.Paras = append(l.Paras, v.Noted...)
	if v.Room.Job.MeasuredTo == "stud" {
		l.Paras = append(l.Paras, v.Fig.Text("Measured to the studs: the walls' finish is still to be taken off."))
	}
	l.Paras = append(append(l.Paras, v.Remarks...), adjusted(v)...)
	if v.SkipsRuns() && !oneFieldSheet(v.Plan) { // else it is with the laying
		l.Paras = append(l.Paras, v.Fig.Text("A run without a number follows the one before it along the cable."))
	}
	if w, hangs := v.Room.Job.BoxWall(); hangs {
		l.Paras = append(l.Paras, v.Fig.Textf("No nail or screw within %s of the lead rise in %s, floor to box.",
			floorplan.RiseWords(v.Fig.Units), w.Within(v.Fig.Language)))
	}
	if bare := v.Room.Bare; !bare.Empty() {
		l.Paras = append(l.Paras, v.Fig.Textf("%s of the floor, dotted, stays without cable: it is cut off from "+
			"the rest.", v.Fig.Area(bare.Area())))
	}
	if cold := v.LeftCold(); !cold.Empty() {
		l.Paras = append(l.Paras, v.Fig.Textf("%s of the floor, dotted, stays without cable as asked.",
			v.Fig.Area(cold.Area())))
	}
	l.Paras = append(l.Paras, stackedLeads(v)...)
	if v.Room.Chosen != nil && !v.Room.Chosen.Why.Empty() && !oneFieldSheet(v.Plan) { // nobody chooses on site
		l.Paras = append(l.Paras, v.Fig.Textf("Cable chosen: %s.", v.Room.Chosen.Why))
	}
	l.Paras = append(l.Paras, wetNotes(v)...)
	l.Paras = append(l.Paras, v.Plan.Job.Notes...)
	if len(v.Plan.TakeOff.Lines) == 0 { // else it says so
		l.Paras = append(l.Paras, v.Fig.Text("Floor warming; no heat-loss calculation by a standard has been made."))
	}
	return l
}

// adjusted says which taped walls are drawn otherwise than typed, so that they close.
func adjusted(v *floorplan.View) []string {
	r := v.Room.Job
	if len(r.Taped) != len(r.Walls) || r.MeasuredTo == "stud" { // else their lining is taken off too
		return nil
	}
	var walls []string
	for i, w := range r.Walls {
		if typed, drawn := v.Fig.Length(r.Taped[i]), v.Fig.Length(w.Length()); typed != drawn {
			walls = append(walls, v.Fig.Textf("%s %s, drawn %s", w.Letter, typed, drawn))
		}
	}
	if walls == nil {
		return nil
	}
	return []string{v.Fig.Textf("Taped walls, typed, made to close: %s.", strings.Join(walls, v.Fig.Joint("; ")))}
}

// wetNotes are the cautions of a shower whose own floor is warmed. A fall of 2 % is
// common practice.
func wetNotes(v *floorplan.View) []string {
	var out []string
	wet := false
	for _, f := range v.Room.Job.Fixtures {
		if !f.Heated {
			continue
		}
		if f.Kind != job.Shower {
			out = append(out, v.Fig.Textf("Cable lies under the %s: only where that stands on legs or hangs, with "+
				"the air below that the cable's instructions ask for, and never boxed in.", v.Fig.Text(f.Name)))
			continue
		}
		if !wet {
			wet = true
			out = append(out, v.Fig.Text("Warmed shower floor: only with cable and membrane whose instructions "+
				"allow wet areas, under the waterproofing they ask for; local rules for wet areas govern. No lead, "+
				"lead joint, sensor or fixing in it, and no cable under its glass or kerb where that is "+
				"screwed down."),
				v.Fig.Text("Lay the falls to the drain (2 %, 1/4 in a foot, is usual) before the membrane, so that "+
					"the cover over the cable is even. Keep clear of the drain and its flange as drawn."))
		}
		for _, c := range v.Room.Cables {
			if end := c.Path[len(c.Path)-1]; f.Outline.Contains(end) {
				out = append(out, v.Fig.Textf("The end of the heating part of %s lies in the %s, for want of "+
					"another place: only where its instructions allow that.", c.ID, v.Fig.Text(f.Name)))
			}
		}
	}
	return out
}
