package sheets

import (
	"slices"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
)

// fieldSheets draws the one sheet that a room's cable is laid by, where the job wants it
// in place of cable plan and setting out.
func fieldSheets(p *layout.Plan, r *layout.Room) ([]*setting.Page, error) {
	if !oneFieldSheet(p) {
		return nil, nil
	}
	s := cablePlan(r)
	s.Kind, s.Draw, s.Levels = kindNamed("field-sheet"), drawFieldSheet, fieldSheetLevels
	return s.Alone(p)
}

func drawFieldSheet(v *floorplan.View) {
	drawCablePlan(v)
	pegs(v)
	callOut(v, ofCrossing)
}

// fieldSheetLevels returns what stands beside the plan: the runs first, the points and the
// signs that are looked for on the floor, then what is read before work begins.
func fieldSheetLevels(v *floorplan.View) []setting.Level {
	runs := runLists(v)
	places := []setting.Block{crossing(v), markList(v), setting.LegendOf(v.Used), v.Locations()}
	rules := allCautions(v)
	if laying := layingRules(v); laying != nil {
		rules = append(rules, setting.List{Head: "Laying", Number: 1, Paras: laying})
	}
	more := slices.Concat(v.Standing(), v.Corners(), []setting.Block{notes(v)}, schedule(v.Room, v.Fig, nil),
		differences(v), revised(v))
	if len(v.Plan.TakeOff.Lines) == 0 { // else it begins with them
		more = append(more, areas(v.Room, v.Fig.Units))
	}
	all := slices.Concat(runs, places, rules, more)
	enlarged := enlargedOf(v)
	return []setting.Level{
		{Blocks: slices.Concat(all, enlarged)},
		{Blocks: all, Rest: enlarged, Must: len(runs), Gain: 1.1, Overflow: true},
		{Blocks: all, Rest: enlarged, Gain: setting.Never, Overflow: true},
	}
}
