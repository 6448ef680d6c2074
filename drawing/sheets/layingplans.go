package sheets

import (
	"slices"

	"oxturn/layout"
)

// layingPlans draws the two sheets that a room's cable is laid by. What the
// cable plan has no room for stands on the setting out, and what that has none
// for either on one sheet of notes for both, unless both legends go on there: each
// belongs to its own sheet.
func layingPlans(p *layout.Plan, r *layout.Room) ([]*page, error) {
	plan, err := cablePlan(r).page(p)
	if err != nil {
		return nil, err
	}
	out, err := settingOut(r, plan.later, len(plan.rest) > 0).page(p)
	if err != nil {
		return nil, err
	}
	plan.later = nil
	if plan.legendOver() && out.legendOver() {
		first, err := plan.withNotes()
		if err != nil {
			return nil, err
		}
		second, err := out.withNotes()
		return append(first, second...), err
	}
	notes, err := plan.notes(idOf("notes", r), titleOn("Notes", r), slices.Concat(plan.rest, out.rest))
	return append([]*page{plan.page, out.page}, notes...), err
}
