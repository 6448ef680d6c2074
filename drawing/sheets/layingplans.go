package sheets

import (
	"fmt"
	"slices"

	"oxturn/drawing/setting"
	"oxturn/layout"
)

// layingPlans draws the two sheets that a room's cable is laid by. What the
// cable plan has no room for stands on the setting out, and what that has none
// for either on the set's notes.
func layingPlans(p *layout.Plan, r *layout.Room) ([]*setting.Page, error) {
	if oneFieldSheet(p) {
		return nil, nil
	}
	plan, err := cablePlan(r).Page(p)
	if err != nil {
		return nil, err
	}
	s := settingOut(r, plan.Later, len(plan.Rest) > 0)
	out, err := s.Page(p)
	if err != nil {
		return nil, err
	}
	parts, into := layingParts(p, r, out.Page)
	if parts != nil {
		s.Draw = withParts(s.Draw, into)
		if out, err = s.Page(p); err != nil {
			return nil, err
		}
	}
	plan.Over, out.Over = plan.Rest, slices.Concat(out.Rest, out.Over, out.Later)
	return append([]*setting.Page{plan.Page, out.Page}, parts...), nil
}

// cablePlanAlone draws the first of them.
func cablePlanAlone(p *layout.Plan, r *layout.Room) ([]*setting.Page, error) {
	if oneFieldSheet(p) {
		return nil, nil
	}
	plan, err := cablePlan(r).Page(p)
	if err != nil {
		return nil, err
	}
	return []*setting.Page{plan.Page}, nil
}

// planLabel is what the sheet is called that shows where everything of a room lies: its field
// sheet, or its cable plan.
func planLabel(p *layout.Plan, r *layout.Room) string {
	id := "cable-plan"
	if oneFieldSheet(p) {
		id = "field-sheet"
	}
	nth := 1 + slices.IndexFunc(p.Rooms, func(o layout.Room) bool { return o.Job.Name == r.Job.Name })
	return fmt.Sprintf("%s-%d", codeOf(id), nth)
}

// oneFieldSheet reports whether a set has one field sheet a room in place of those two.
func oneFieldSheet(p *layout.Plan) bool {
	if wanted := p.Job.Sheet.FieldSheet; wanted != nil {
		return *wanted
	}
	return onSmall(p)
}

// onSmall reports whether a job wants its sheets on A4 or letter.
func onSmall(p *layout.Plan) bool {
	return setting.OnSmall(p.Job)
}

// legendApart takes the legend out of a sheet's blocks where the set has few words to a sheet:
// the one on the set's notes then does for all.
func legendApart(p *layout.Plan, l setting.Legend) (here, on []setting.Block) {
	if onSmall(p) {
		return nil, []setting.Block{l}
	}
	return []setting.Block{l}, nil
}
