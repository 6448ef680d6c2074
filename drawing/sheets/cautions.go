package sheets

import (
	"slices"

	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/say"
)

// A caution is one of the warnings a sheet may print.
type caution int

// The cautions.
const (
	aidOnly caution = iota
	ratedVoltage
	groundFault
	neverCut
	neverCoiled
	cureFirst
	everyStage
	dischargeMeter
	notUnder
	noDrilling
	sensorTube
	inspectFirst
	finishLimits
)

// text words a caution as the region does, in a sheet's own units.
func (c caution) text(in circuit.Region, f say.Figures) string {
	return [...]string{
		f.Text("Design aid: local code and the cable's instructions come first; installer, licensed electrician " +
			"and inspector decide."),
		f.Text("Only the label's voltage: double gives 4 times the power and destroys the cable."),
		f.Text(in.Protect) + " " + f.Text(in.Series),
		f.Text("Never cut, splice or cross heating cable; trim only the cold lead, as instructed. Lead joint and " +
			"end cap lie in mortar under tile, never in a wall or box."),
		f.Text("Never energise cable on its spool or coiled."),
		f.Text("Energise only once mortar, compound and grout have cured: the longest time stated, else 28 days."),
		f.Text("Measure conductor and insulation at every stage, in writing. Outside the limits: stop, find the " +
			"cause."),
		f.Text("Insulation tests: disconnect thermostat and sensor first. The tester's voltage is dangerous."),
		f.Text("No heating cable under built-ins without clearance, in walls, over movement joints, in closets " +
			"where code forbids it."),
		f.Textf("No drilling or nailing into the heated area. Photograph the layout; plan, records and label stay "+
			"at the %s.", f.Text(in.Panel)),
		f.Text("Sensor replaceable in its own tube, midway between runs, away from other heat."),
		f.Text("Inspection before covering."),
		f.Textf("Floor surface: at most %s occupied, %s bath, %s edge zone, and the covering's own limit. No thick "+
			"rugs or mattresses.", f.Degrees(heat.OccupiedLimit.Celsius),
			f.Degrees(heat.BathroomLimit.Celsius),
			f.Degrees(heat.EdgeLimit.Celsius)),
	}[c]
}

// cautionList returns the block of the given cautions, with a last line without
// a number that may be empty.
func cautionList(p *layout.Plan, head, last string, cs ...caution) setting.List {
	l := setting.List{Head: head, Number: 1}
	for _, c := range cs {
		l.Paras = append(l.Paras, p.Job.Both(func(f say.Figures) string { return c.text(p.Job.Region(), f) }))
	}
	if last != "" {
		l.Paras, l.Bare = append(l.Paras, last), 1
	}
	return governed(p, l)
}

// governed ends cautions in two languages with which of them holds.
func governed(p *layout.Plan, l setting.List) setting.List {
	if len(p.Job.Also) > 0 {
		l.Paras = append(l.Paras, p.Job.Both(func(f say.Figures) string { return f.Governs(p.Job.Governs) }))
		l.Bare++
	}
	return l
}

// layingCautions concern whoever lays and covers the cable: first those whose breach
// destroys it at once. Those of the wiring and of tests stand on the sheets of that work;
// where a plan has no box, and so no sheet for its wiring, they stand here.
func layingCautions(p *layout.Plan) []caution {
	cs := []caution{aidOnly, neverCut, neverCoiled, inspectFirst, cureFirst, notUnder, noDrilling, sensorTube,
		finishLimits}
	if !wired(p) {
		cs = append(cs, wiringCautions()...)
	}
	return cs
}

// firstCautions is how many of them every cable plan has.
const firstCautions = 4

// wiringCautions concern whoever connects the cable.
func wiringCautions() []caution { return []caution{ratedVoltage, groundFault} }

// wired reports whether every room has a box, and with it a sheet for its wiring.
func wired(p *layout.Plan) bool {
	return !slices.ContainsFunc(p.Rooms, func(r layout.Room) bool { return !hasBox(r.Job) })
}

// hasBox reports whether a room's thermostat has a place on a wall or partition.
func hasBox(r *job.Room) bool {
	_, hangs := r.BoxWall()
	return hangs
}
