package sheets

import (
	"fmt"
	"math"
	"slices"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/say"
)

// electrician draws the sheet for rough-in and hook-up: the wall with its box,
// the floor before it, the load, and what the electrician has to settle.
func electrician(p *layout.Plan, r *layout.Room) ([]*setting.Page, error) {
	if !hasBox(r.Job) {
		return nil, nil // the plan could not place a box, and has said so
	}
	s := floorplan.Scene{
		Kind: kindNamed("electrician"), Room: r,
		Bounds: elevationBounds(r), Border: elevationBorder(r, p.Job.Figures()), Draw: drawElectrician,
		Levels: electricianLevels,
	}
	return s.Alone(p)
}

// electricianLevels returns what stands beside the wall.
func electricianLevels(v *floorplan.View) []setting.Level {
	r := v.Room
	bs := []setting.Block{cautionList(v.Plan, v.Fig.Text("Cautions"), "", wiringCautions()...), loadTable(v),
		toSettle(v), wiring{from: v.Fig.Text(v.Plan.Job.Region().Panel), cables: ids(r),
			sensors: len(r.Sensors)}, electricNotes(v)}
	legend, rest := legendApart(v.Plan, legendOf(v))
	if rest == nil { // else the whole schedule is on the notes
		bs = append(bs, schedule(r, v.Fig, electrical, false)...)
	}
	bs = append(append(bs, lookUp(v.Plan)...), legend...)
	// a wall and a box are plain one scale smaller, so that a second sheet must gain more
	return []setting.Level{{Blocks: bs, Rest: rest}, {Blocks: bs, Rest: rest, Gain: 2.6, Overflow: true}}
}

func ids(r *layout.Room) []string {
	var out []string
	for _, c := range r.Cables {
		out = append(out, c.ID)
	}
	return out
}

// loadTable is what the thermostat feeds, in all.
func loadTable(v *floorplan.View) setting.Block {
	t := setting.Table{Head: v.Fig.Text("Load and circuit"), Cols: []setting.Column{{Wraps: true}, {Wraps: true}}}
	l := v.Plan.LoadOf(v.Room.Job.Name)
	if l == nil {
		t.Rows = append(t.Rows, setting.Row(v.Fig.Text("Load"), v.Fig.Text("not worked out")))
		return t
	}
	s := v.Plan.Job.Supply
	supply := v.Fig.Textf("not given; %s by the label assumed", v.Fig.Volts(l.Volts))
	if s.Volts > 0 {
		supply = v.Fig.Textf("%s, job file", v.Fig.Volts(s.Volts))
	}
	contacts := v.Fig.Text("not given")
	if l.Contacts > 0 {
		contacts = fmt.Sprintf("%s, %s", v.Fig.AmpsGiven(l.Contacts),
			v.Fig.Text(v.Plan.Job.Spans.Source("supply.thermostat_amps").String()))
	}
	t.Rows = append(t.Rows,
		setting.Row(v.Fig.Text("Supply"), supply),
		setting.Row(v.Fig.Text("Load in all"), fmt.Sprintf("%s, %s, %s, %s", v.Fig.Watts(l.Watts), v.Fig.Amps(l.Amps),
			orDash(l.Ohms, v.Fig.Ohms),
			countInParallel(v.Fig, len(v.Room.Cables)))),
		setting.Row(v.Fig.Text("Thermostat contacts"), contacts),
		setting.Row(v.Fig.Text("Leads into the box"), leadsInBox(v)),
		setting.Row(v.Fig.Text("Of a cold lead"), leadTakes(v)),
		setting.Row(v.Fig.Text("Sensor"), sensorLine(v.Plan.Job.Sensor, v.Fig)),
	)
	if limit := floorLimit(v); limit != "" {
		t.Rows = append(t.Rows, setting.Row(v.Fig.Text("Floor limit to set"), limit))
	}
	if in := v.Plan.Job.Region(); in.Derated() {
		t.Rows = slices.Insert(t.Rows, 2,
			setting.Row(v.Fig.Textf("Continuous load, %s", floorplan.UnbrokenWords(v.Fig.Percent(in.Continuous.Value))),
				v.Fig.Amps(l.Continuous)+", "+wholeStandards(in.Continuous.Source)))
	}
	if needs := l.Needs; needs != "" {
		t.Rows = append(t.Rows, setting.Row(v.Fig.Text("Also needed"), needs))
	}
	if d, name := nearestWet(v); name != "" {
		t.Rows = append(t.Rows, setting.Row(v.Fig.Textf("Box to the %s", name),
			v.Fig.Textf("%s; look up the local limit", v.Fig.Length(d))))
	}
	t.Rows = append(t.Rows, circuitRows(v)...)
	return t
}

// floorLimit is what the thermostat is to keep the floor below, "" where nothing
// asks for it.
func floorLimit(v *floorplan.View) string {
	if set := v.Room.Job.Thermostat.Limit; set > 0 {
		return v.Fig.Textf("%s, job file", degrees(v.Fig, set))
	}
	if c := v.Plan.Warmth.Comfort(v.Room); c != nil && c.Over() {
		return v.Fig.Textf("%s at most, %s, %s", degrees(v.Fig, c.Limit.Celsius), c.Limit.Name,
			wholeStandards(c.Limit.Source))
	}
	return ""
}

// countInParallel says how the cables are joined, where there are several.
func countInParallel(f say.Figures, n int) string {
	if n == 1 {
		return f.Text("1 cable")
	}
	return f.Textf("%d cables in parallel", n)
}

// leadTakes says what a cold lead loses before it reaches over the floor.
func leadTakes(v *floorplan.View) string {
	t := v.Room.Job.Thermostat
	return v.Fig.Textf("%s rise, %s tail, %s slack off the floor", v.Fig.Length(t.Height),
		v.Fig.Length(t.Tail), v.Fig.Length(t.Slack))
}

func leadsInBox(v *floorplan.View) string {
	return v.Fig.Textf("%d cold, %d of sensors", len(elevation{View: v}.leads()),
		len(v.Room.Sensors))
}

// nearestWet returns how far the box is from the nearest tub or shower, over
// the floor.
func nearestWet(v *floorplan.View) (mm float64, name string) {
	mm = math.Inf(1)
	for _, f := range v.Room.Job.Fixtures {
		if f.Kind != job.Tub && f.Kind != job.Shower {
			continue
		}
		if d := f.Outline.Distance(v.Room.Job.Thermostat.At); d < mm {
			mm, name = d, v.Fig.Text(string(f.Kind))
		}
	}
	return mm, name
}

// Rows that the electrician settles and the job may give.
const (
	settleCircuit   = "Circuit no." // and the panel, as the region calls it
	settleBreaker   = "breaker"     // printed as the region calls it
	settleConductor = "Conductor"
	settleFault     = "Protection of people" // where, as the region calls it
)

// toSettle is what no drawing may choose: rows to be filled in by hand, but for
// what the job gives.
func toSettle(v *floorplan.View) setting.Block {
	t := setting.Table{Head: v.Fig.Text("For the electrician to settle"), Tall: 7, Cols: []setting.Column{{Wraps: true},
		{Wraps: true, Least: 26, Group: true}}}
	given, in := settled(v), v.Plan.Job.Region()
	for _, r := range []string{settleCircuit, "Circuit for this load alone?", settleBreaker, settleConductor,
		settleFault, "Disconnect", "Box and conduit"} {
		t.Rows = append(t.Rows, setting.Row(settledName(v.Fig, r, in), given[r]))
	}
	return t
}

// settledName words a row for the electrician as the region does.
func settledName(f say.Figures, row string, in circuit.Region) string {
	switch row {
	case settleCircuit:
		return f.Text(row) + ", " + f.Text(in.Panel)
	case settleBreaker:
		return capital(f.Text(in.Breaker)) + ", A"
	case settleFault:
		return f.Textf("%s: at thermostat / at %s, class, mA", f.Text(row), f.Text(in.Panel))
	}
	return f.Text(row)
}

func electricNotes(v *floorplan.View) setting.Block {
	l := setting.List{Head: v.Fig.Text("Notes"), Number: 1}
	l.Paras = append(l.Paras, v.Noted...)
	l.Paras = append(l.Paras, v.Remarks...)
	if v.Room.Job.Thermostat.Height > 0 {
		l.Paras = append(l.Paras, v.Fig.Text("Box height: its middle over finished floor."))
	}
	apart := v.Fig.Text("Cold and sensor leads rise and enter the box apart.")
	for _, s := range v.Room.Sensors {
		if s.Spare {
			apart += v.Fig.Textf(" Cap and label %s.", s.Name)
		}
	}
	l.Paras = append(l.Paras, apart,
		v.Fig.Text("Nail plates at the sole plate; labels and lead tags in sight until inspected."))
	return l
}
