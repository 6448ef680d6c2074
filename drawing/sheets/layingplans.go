package sheets

import (
	"slices"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
)

// layingPlans draws the two sheets that a room's cable is laid by. What the
// cable plan has no room for stands on the setting out, and what that has none
// for either on one sheet of notes for both, unless both legends go on there: each
// belongs to its own sheet.
func layingPlans(p *layout.Plan, r *layout.Room) ([]*setting.Page, error) {
	plan, err := cablePlan(r).Page(p)
	if err != nil {
		return nil, err
	}
	out, err := settingOut(r, plan.Later, len(plan.Rest) > 0).Page(p)
	if err != nil {
		return nil, err
	}
	plan.Later = nil
	if plan.LegendOver() && out.LegendOver() {
		first, err := plan.WithNotes()
		if err != nil {
			return nil, err
		}
		second, err := out.WithNotes()
		return append(first, second...), err
	}
	notes, err := plan.Notes(floorplan.IdOf("notes", r), floorplan.TitleOn("Notes", r),
		slices.Concat(plan.Rest, out.Rest))
	return append([]*setting.Page{plan.Page, out.Page}, notes...), err
}
