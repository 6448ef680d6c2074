package sheets

import (
	"slices"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/plane"
)

// fieldSheets draws the one sheet that a room's cable is laid by, where the job wants it
// in place of cable plan and setting out.
func fieldSheets(p *layout.Plan, r *layout.Room) ([]*setting.Page, error) {
	if !oneFieldSheet(p) {
		return nil, nil
	}
	s := cablePlan(r)
	s.Kind, s.Draw, s.Levels = kindNamed("field-sheet"), drawFieldSheet, fieldSheetLevels
	pages, err := s.Alone(p)
	if err != nil {
		return nil, err
	}
	parts, into := layingParts(p, r, pages[0])
	if parts != nil {
		s.Draw = withParts(s.Draw, into)
		if pages, err = s.Alone(p); err != nil {
			return nil, err
		}
	}
	return append(pages, parts...), nil
}

func drawFieldSheet(v *floorplan.View) {
	drawCablePlan(v)
	pegs(v)
	if laidIn(v.Plan, v.Room) == nil {
		diagonals(v)
	}
	callOut(v, ofCrossing)
	clearances(v)
}

// fieldSheetLevels returns what stands beside the plan: the runs first, the points and the
// signs that are looked for on the floor, then what is read before work begins.
func fieldSheetLevels(v *floorplan.View) []setting.Level {
	runs := runLists(v)
	places := slices.Concat([]setting.Block{crossing(v)}, points(v), []setting.Block{legendOf(v)})
	rules := allCautions(v)
	if laying := layingRules(v); laying != nil {
		rules = append(rules, setting.List{Head: v.Fig.Text("Laying"), Number: 1, Paras: laying})
	}
	more := slices.Concat(lookedUp(v.Plan, v.Standing()), v.Corners(), []setting.Block{notes(v)},
		schedule(v.Room, v.Fig, onField, onSmall(v.Plan)),
		differences(v), revised(v))
	if len(v.Plan.TakeOff.Lines) == 0 { // else it begins with them
		more = append(more, areas(v.Room, v.Fig))
	}
	all := slices.Concat(runs, places, rules, more)
	enlarged := enlargedOf(v)
	return []setting.Level{
		{Blocks: slices.Concat(all, enlarged)},
		{Blocks: all, Rest: enlarged, Must: len(runs), Gain: 1.1, Overflow: true},
		{Blocks: all, Rest: enlarged, Gain: setting.Never, Overflow: true},
	}
}

// lookedUp sets tables in fine print on small paper: the plan has their figures as dimensions.
func lookedUp(p *layout.Plan, blocks []setting.Block) []setting.Block {
	for i, b := range blocks {
		if t, ok := b.(setting.Table); ok && onSmall(p) {
			t.Fine = true
			blocks[i] = t
		}
	}
	return blocks
}

// points are where everything lies that is looked for on the floor: in one table where figures
// are short enough for a column of small paper.
func points(v *floorplan.View) []setting.Block {
	if v.Fig.Units == plane.Inches {
		return []setting.Block{markList(v), v.Locations()}
	}
	return []setting.Block{pointList(v)}
}

// pointList says of every point that is looked for on the floor where it lies and, on a cable,
// where along it.
func pointList(v *floorplan.View) setting.Block {
	t := setting.Table{Head: v.Fig.Text("Points"), Cols: []setting.Column{
		{Head: v.Fig.Text("Point"), Wraps: true}, {Head: "D1", Align: setting.Decimal}, {Head: "D2",
			Align: setting.Decimal},
		{Head: v.Fig.Textf("Used, %s", v.Fig.LongUnit()), Align: setting.Decimal}, {Head: v.Fig.Text("On run"),
			Align: setting.Decimal},
		{Head: v.Fig.Text("Pegs into it"), Align: setting.Decimal}}}
	add := func(name string, at plane.Point, along ...string) {
		a, b := "-", "-"
		if v.Datums().Both() {
			a, b = v.Offsets(at)
		}
		t.Rows = append(t.Rows, setting.Row(append([]string{name, floorplan.UnbrokenWords(a),
			floorplan.UnbrokenWords(b)},
			along...)...))
	}
	add(v.Fig.Text("Lead rise"), v.Room.Job.Thermostat.At, "", "", "")
	for i := range v.Room.Cables {
		for _, m := range laidMarks(v, &v.Room.Cables[i]) {
			add(m.name, m.at, m.used, m.run, m.pegs)
		}
	}
	for _, s := range v.Room.Sensors {
		add(floorplan.SensorName(v.Fig, s), s.Tip, "", "", "")
	}
	return v.Signed(t)
}
