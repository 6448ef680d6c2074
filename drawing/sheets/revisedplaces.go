package sheets

import (
	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/signs"
	"oxturn/symbols"
)

// revisedPlaces asks for the triangles of the revisions by what they changed.
func revisedPlaces(v *floorplan.View) {
	for _, r := range v.Room.Job.Revised {
		at := v.Paper.Pt(r.At)
		l := &lettering.Label{Text: r.Letter, Height: drawing.H25, Rank: 5, Subject: at, Mark: symbols.RevisionTriangle,
			Of: signs.Revised, Note: v.Fig.Textf("Changed by revision %s: %s", r.Letter, v.PlaceWords(r.At))}
		size := drawing.BoxOfItems(symbols.RevisionTriangle(drawing.Pt{}, r.Letter))
		l.Spots = append([]lettering.Spot{{At: at}}, floorplan.LeaderSpots(at, 0, size, 40)...)
		v.Letters.Add(l)
	}
}
