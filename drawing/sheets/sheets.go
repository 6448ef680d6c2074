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

// Set draws all sheets of a plan. An error says which sheet cannot be drawn as
// asked and by how much; the plan must be one that layout.Build has no errors
// for.
func Set(p *layout.Plan) ([]*drawing.Sheet, error) {
	var pages []*page
	for i := range p.Rooms {
		if len(p.Rooms[i].Job.Outline) < 3 {
			return nil, fmt.Errorf("room %q has no outline to draw", p.Rooms[i].Job.Name)
		}
		for _, draw := range []func(*layout.Plan, *layout.Room) ([]*page, error){cablePlan, settingOut} {
			pg, err := draw(p, &p.Rooms[i])
			if err != nil {
				return nil, err
			}
			pages = append(pages, pg...)
		}
	}
	if len(p.TakeOff.Lines) > 0 {
		pg, err := takeOff(p)
		if err != nil {
			return nil, err
		}
		pages = append(pages, pg...)
	}
	return numbered(pages), nil
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
