package sheets

import (
	"fmt"
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
)

// electrician draws the sheet for rough-in and hook-up: the wall with its box,
// the floor before it, the load, and what the electrician has to settle.
func electrician(p *layout.Plan, r *layout.Room) ([]*page, error) {
	t := r.Job.Thermostat
	if t.Wall < 0 || t.Wall >= len(r.Job.Walls) {
		return nil, nil // the plan could not place a box, and has said so
	}
	s := scene{
		Kind: kindNamed("electrician"), room: r,
		bounds: elevationBounds(r), border: elevationBorder, draw: drawElectrician, levels: electricianLevels,
	}
	return s.pages(p)
}

// electricianLevels returns what stands beside the wall.
func electricianLevels(v *roomView) []level {
	r := v.room
	bs := []block{v.loadTable(), v.toSettle(), wiring{cables: ids(r), sensors: len(r.Sensors)}, v.electricNotes()}
	bs = append(bs, v.circuitTable()...)
	bs = append(bs, schedule(r, v.fig, electrical)...)
	bs = append(bs, lookUp(v.plan)...)
	bs = append(bs, holdPoint(), legendOf(v.used))
	all := append(slices.Clip(bs), cautionList(v.plan, "Cautions", "", aidOnly, ratedVoltage, groundFault, neverCut, cureFirst, everyStage, discharge, inspectFirst))
	few := append(slices.Clip(bs), cautionList(v.plan, "Cautions", "The others are on the cable plan or the sheets after it.", aidOnly, ratedVoltage, groundFault))
	// a wall and a box are plain one scale smaller, so that a second sheet must gain more
	return []level{{blocks: all}, {blocks: few, gain: 1.3}, {blocks: all, gain: 2.6, overflow: true}}
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
	ohms := "Ohms"
	if len(v.room.Cables) > 1 {
		ohms += ", all in parallel"
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
		row(ohms, figureOf(l.Total.Ohms, 1)+" Ω"),
		row("Thermostat contacts", contacts),
		row("Leads into the box", v.leadsInBox()),
		row("Sensor", sensorLine(v.plan.Job.Sensor, v.fig)),
	)
	if in := v.plan.Job.Region(); in.Derated() {
		t.rows = slices.Insert(t.rows, 4, row(fmt.Sprintf("Continuous load, %.0f%s%%", 100*in.Continuous.Value, noBreak), fmt.Sprintf("%.2f A, %s", l.Continuous, wholeStandards(in.Continuous.Source))))
	}
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
	settleBreaker   = "breaker" // printed as the region calls it
	settleConductor = "Conductor"
	settleFault     = "Protection of people: at thermostat / at panel, class, mA"
)

// toSettle is what no drawing may choose: rows to be filled in by hand, but for
// what the job gives.
func (v *roomView) toSettle() block {
	t := table{head: "For the electrician to settle", tall: 7, cols: []column{{wraps: true}, {wraps: true, least: 26, group: true}}}
	given, in := v.settled(), v.plan.Job.Region()
	for _, r := range []string{settleCircuit, "Circuit for this load alone?", settleBreaker, settleConductor, settleFault, "Disconnect", "Box and conduit"} {
		name := r
		if r == settleBreaker {
			name = capital(in.Breaker) + ", A"
		}
		t.rows = append(t.rows, row(name, given[r]))
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
	l, in := list{head: "Notes", number: 1}, v.plan.Job.Region()
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
		capital(in.Breaker)+", conductor and "+in.Fault+" are the electrician's choice by local rules; this sheet only gives the load.",
		"Leave labels and lead tags in sight until the inspection.",
	)
	return l
}
