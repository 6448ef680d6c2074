package sheets

import (
	"strings"

	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
)

// notesID is the kind of the sheets that take what the drawings have no room for.
const notesID = "notes"

// setNotes sets what the drawings of a set had no room for together, on as few sheets
// as that takes. One legend does for all of them: a sign means the same on every sheet.
func setNotes(p *layout.Plan, pages []*setting.Page) ([]*setting.Page, error) {
	var blocks []setting.Block
	var used []signs.Sign
	var first *setting.Page
	for _, pg := range pages {
		for _, b := range pg.Over {
			if first == nil {
				first = pg
			}
			if l, ok := setting.Unmeasured(b).(setting.Legend); ok {
				used = append(used, l.Signs...)
				continue
			}
			blocks = append(blocks, setting.Of(b, sheetName(p, pg), len(p.Rooms) > 1))
		}
	}
	if first == nil {
		return nil, nil
	}
	if len(used) > 0 {
		l := setting.LegendOf(lettering.Without(used, plainer[1]))
		l.Head = setting.Continued(l.Head)
		blocks = append(blocks, l)
	}
	return first.Notes(notesID, kindNamed(notesID).Title, blocks)
}

// sheetName is what notes call the sheet that they are of: without its room where there
// is one only.
func sheetName(p *layout.Plan, pg *setting.Page) string {
	name, _, _ := strings.Cut(pg.Sheet.Title, " - ")
	if len(p.Rooms) > 1 {
		name = pg.Sheet.Title
	}
	return name
}
