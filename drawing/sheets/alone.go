package sheets

import (
	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout"
)

// A Numbering is how the sheets of a set are numbered and called, and on which its details
// stand: all that a sheet has of the others.
type Numbering struct {
	places  map[string]numberedPlace // by the sheets' IDs
	details map[int]string           // labels of sheets
	index   []indexed                // without the cover
}

// An aloneFunc draws a kind of sheet as a set has it that is numbered as one before it.
type aloneFunc func(*layout.Plan, Numbering) ([]*setting.Page, error)

// lone is one that takes nothing of other sheets.
func lone(draw drawFunc) aloneFunc {
	return func(p *layout.Plan, _ Numbering) ([]*setting.Page, error) { return draw(p) }
}

type numberedPlace struct {
	label string
	n     int
}

func numberingOf(pages []*setting.Page) Numbering {
	out := Numbering{places: map[string]numberedPlace{}, details: setting.DetailSheets(pages)}
	follow := 0 // the cover
	for i, pg := range pages {
		out.places[pg.Sheet.ID] = numberedPlace{pg.Sheet.Label, i + 1}
		if kindNamed(coverID).Has(pg.Sheet.ID) {
			follow = i + 1
		}
	}
	out.index = indexOf(pages[follow:])
	return out
}

// Alone draws one sheet without the others, for a reader who waits for it, of a plan that
// build.Quantify has completed. It is the sheet that Set draws of the same plan if that is numbered
// as a set before it was; nil where it rests on the others or that set did not have it.
func Alone(p *layout.Plan, id string, before Numbering) (*drawing.Sheet, error) {
	place, known := before.places[id]
	if !known {
		return nil, nil
	}
	for _, k := range registry() {
		if k.alone == nil || !k.Has(id) {
			continue
		}
		pages, err := k.alone(p, before)
		if err != nil {
			return nil, err
		}
		uniqueIDs(pages)
		for _, pg := range pages {
			if pg.Sheet.ID == id {
				pg.Sheet.Label = place.label
				setting.NameSheets([]*setting.Page{pg}, before.details)
				numberPage(pg, place.n, len(before.places))
				return pg.Sheet, nil
			}
		}
	}
	return nil, nil
}
