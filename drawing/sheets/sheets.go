// Package sheets draws a plan as a set of sheets, one kind of sheet a file.
//
// A sheet is a frame with a field for the drawing, a column or a strip of
// blocks (tables, legend, notes), and a title block at the lower right. Blocks
// are set in rows; lettering in the field is placed by one solver; nothing is
// placed by hand.
package sheets

import (
	"fmt"

	"oxturn/drawing"
	"oxturn/layout"
)

// Set draws all sheets of a plan, in the order of the work. An error says
// which sheet cannot be drawn as asked and by how much; the plan must be one
// that layout.Build has no errors for.
func Set(p *layout.Plan) ([]*drawing.Sheet, error) {
	for _, r := range p.Rooms {
		if len(r.Job.Outline) < 3 {
			return nil, fmt.Errorf("room %q has no outline to draw", r.Job.Name)
		}
	}
	var pages []*page
	for _, part := range []func(*layout.Plan) ([]*page, error){
		keyPlan, eachRoom(cablePlan), eachRoom(settingOut), eachRoom(membranePlan), buildUp, eachRoom(electrician), takeOff, allRecords, eachRoom(ownerMap),
	} {
		pg, err := part(p)
		if err != nil {
			return nil, err
		}
		pages = append(pages, pg...)
	}
	return numbered(pages), nil
}

// eachRoom draws a kind of sheet for every room.
func eachRoom(draw func(*layout.Plan, *layout.Room) ([]*page, error)) func(*layout.Plan) ([]*page, error) {
	return func(p *layout.Plan) ([]*page, error) {
		var out []*page
		for i := range p.Rooms {
			pg, err := draw(p, &p.Rooms[i])
			if err != nil {
				return nil, err
			}
			out = append(out, pg...)
		}
		return out, nil
	}
}

// numbered draws the title blocks, now that the number of sheets is known, and
// makes the sheets' names unlike.
func numbered(pages []*page) []*drawing.Sheet {
	seen := map[string]int{}
	var out []*drawing.Sheet
	for i, pg := range pages {
		pg.title.n, pg.title.of = i+1, len(pages)
		pg.title.set(pg, drawing.Pt{X: pg.titleAt.X0, Y: pg.titleAt.Y0}, pg.titleAt.W())
		if n := seen[pg.sheet.ID]; n > 0 {
			seen[pg.sheet.ID]++
			pg.sheet.ID = fmt.Sprintf("%s-%d", pg.sheet.ID, n+1)
		}
		seen[pg.sheet.ID]++
		out = append(out, pg.sheet)
	}
	return out
}
