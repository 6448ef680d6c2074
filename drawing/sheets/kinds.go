package sheets

import (
	"slices"

	"oxturn/drawing"
	"oxturn/drawing/setting"
)

// The readers of a set, by the words that draw --for takes.
const (
	installerReader = "installer"
	estimatorReader = "estimator"
	wirerReader     = "electrician"
	ownerReader     = "owner"
	// HandedOver reads what goes with a floor that is recorded as laid.
	HandedOver = "handover"
)

// Readers returns the readers that sheets are drawn for, in the order of the work.
func Readers() []string {
	return []string{installerReader, estimatorReader, wirerReader, ownerReader, HandedOver}
}

// An entry of the registry: whatever goes by the kind of a sheet reads it there,
// the set and its order, labels, titles, whom a sheet is for, and help.
type registered struct {
	setting.Kind
	draw  drawFunc  // nil: it comes with another kind, or its verb draws it
	alone aloneFunc // draws it before the rest of a set, of a plan that nothing is foreseen of; nil: it rests on that
}

// Kinds returns every kind of sheet in the order of a set; after them those
// that only a verb asks for.
func Kinds() []setting.Kind {
	var out []setting.Kind
	for _, r := range registry() {
		out = append(out, r.Kind)
	}
	return out
}

// registry has a line for every kind of sheet.
func registry() []registered {
	return []registered{
		{Kind: setting.Kind{ID: coverID, Code: "CO", Title: "Proposal", Form: "Proposal",
			About:   "What is offered: scope, price with tax, options and terms",
			Readers: []string{estimatorReader, ownerReader}}, alone: coverAlone},
		{Kind: setting.Kind{ID: "key-plan", Code: "KP", Title: "Key plan", Form: "Key plan",
			About:   "All rooms of the job at one scale, with their names and loads",
			Readers: []string{installerReader, estimatorReader, wirerReader}}, draw: keyPlan, alone: lone(keyPlan)},
		{Kind: setting.Kind{ID: "field-sheet", Code: "FS", Title: "Field sheet", Form: "Laying plan",
			About:   "The next two in one, on A4 and letter",
			Readers: Readers()}, draw: eachRoom(fieldSheets), alone: lone(eachRoom(fieldSheets))},
		{Kind: setting.Kind{ID: "cable-plan", Code: "CP", Title: "Cable plan", Form: "Cable plan",
			About:   "Where cable, leads and sensors lie, and how to find them again",
			Readers: Readers()}, draw: eachRoom(layingPlans), alone: lone(eachRoom(cablePlanAlone))},
		{Kind: setting.Kind{ID: "setting-out", Code: "SO", Title: "Setting out", Form: "Setting-out plan",
			About:   "How cable is laid run by run, in pegs, with the length used",
			Readers: []string{installerReader}}, alone: lone(eachRoom(layingPlans))},
		{Kind: setting.Kind{ID: partsID, Code: "LP", Title: "Laying plan, part", Form: "Laying plan",
			About:   "A floor too large for its paper again, in parts between match lines",
			Readers: []string{installerReader}}, alone: lone(eachRoom(layingPlans))},
		{Kind: setting.Kind{ID: detailsID, Code: "DT", Title: "Details", Form: "Details",
			About:   "Laying in pictures, what plans call out enlarged, and notes",
			Readers: Readers()}},
		{Kind: setting.Kind{ID: "membrane", Code: "MB", Title: "Membrane", Form: "Membrane cut plan",
			About:   "How the pegged membrane is cut and laid, piece by piece",
			Readers: []string{installerReader, estimatorReader}}, draw: eachRoom(membraneAndTile),
			alone: lone(eachRoom(membraneAndTile))},
		{Kind: setting.Kind{ID: "tile-plan", Code: "TP", Title: "Tile plan", Form: "Tile plan",
			About:   "How the tile is set out over the cable, and what is cut",
			Readers: []string{installerReader, estimatorReader}}, alone: lone(eachRoom(membraneAndTile))},
		{Kind: setting.Kind{ID: "covering", Code: "MT", Title: "Membrane and tile", Form: "Cut and tile plan",
			About:   "The two before it in one, on A4 and letter",
			Readers: []string{installerReader, estimatorReader}}, alone: lone(eachRoom(membraneAndTile))},
		{Kind: setting.Kind{ID: "build-up", Code: "BU", Title: "Build-up", Form: "Section",
			About:   "A section through the floor with its layers; on A4 and letter the details have it",
			Readers: []string{installerReader, estimatorReader}}, draw: buildUp},
		{Kind: setting.Kind{ID: "electrician", Code: "EL", Title: "Electrician's sheet", Form: "Electrical plan",
			About:   "The wall with box and lead rise, the load, what is to be settled",
			Readers: []string{wirerReader}}, draw: eachRoom(electrician), alone: lone(eachRoom(electrician))},
		{Kind: setting.Kind{ID: notesID, Code: "NT", Title: "Notes", Form: "Notes",
			About:   "What the drawings before it have no room for",
			Readers: Readers()}},
		{Kind: setting.Kind{ID: takeOffID, Code: "TO", Title: "Take-off", Form: "Take-off",
			About:   "What to buy, each line with the area or length it is based on",
			Readers: []string{estimatorReader}}},
		{Kind: setting.Kind{ID: recordID, Code: "TR", Title: "Test record", Form: "Test record",
			About:   "The readings to take at each stage, with their limits",
			Readers: []string{installerReader, wirerReader, ownerReader, HandedOver}},
			draw: allRecords, alone: lone(allRecords)},
		{Kind: setting.Kind{ID: "owner-map", Code: "OM", Title: "Owner's map", Form: "Owner's map",
			About:   "Where cable lies and where none does, for whoever drills later",
			Readers: []string{ownerReader, HandedOver}}, draw: eachRoom(ownerMap), alone: lone(eachRoom(ownerMap))},
		{Kind: setting.Kind{ID: photosID, Code: "PH", Title: "Photos before covering", Form: "Photo record",
			About:   "Photos of the floor with the cable drawn over them",
			Readers: []string{ownerReader, HandedOver}}, draw: photoSheets},
		{Kind: setting.Kind{ID: "hand-over", Code: "HO", Title: "Hand-over", Form: "Hand-over record",
			About:   "Papers there and missing, materials, days of cure, testers",
			Readers: []string{ownerReader, HandedOver}}, draw: handOver},
		{Kind: setting.Kind{ID: "changes", Code: "CH", Title: "Changes", Form: "Changes",
			About:   "What changed since the revision before, in clouds",
			Readers: Readers(), Verb: "compare"}},
		{Kind: setting.Kind{ID: "fault", Code: "FA", Title: "Fault on cable", Form: "Fault plan",
			About: "The stretch of cable within which a fault must lie, the tiles over it and the runs it could be " +
				"taken for",
			Readers: []string{wirerReader, ownerReader}, Verb: "fault"}},
		{Kind: setting.Kind{ID: "refit", Code: "RF", Title: "Refit of", Form: "Refit plan",
			About:   "The rest of a partly laid cable as planned anew: what is laid stays, what changes is marked",
			Readers: []string{installerReader}, Verb: "refit"}},
	}
}

// Priced reports whether the sheets of a reader show what things cost; those of all
// together do.
func Priced(reader string) bool { return reader == "" || reader == estimatorReader }

// kindNamed returns the kind of an ID that the list has.
func kindNamed(id string) setting.Kind {
	for _, k := range Kinds() {
		if k.ID == id {
			return k
		}
	}
	panic("no kind of sheet " + id) // a slip in this package: every sheet drawn in a test comes by here
}

// codeOf returns the letters for a sheet.
func codeOf(id string) string {
	for _, k := range Kinds() {
		if k.Has(id) {
			return k.Code
		}
	}
	return ""
}

// For returns the sheets of a set that one of Readers needs. ok is false for
// any other reader. The sheets keep their numbers in the whole set.
func For(set []*drawing.Sheet, reader string) (some []*drawing.Sheet, ok bool) {
	if !slices.Contains(Readers(), reader) {
		return nil, false
	}
	for _, s := range set {
		for _, k := range Kinds() {
			if k.Has(s.ID) && slices.Contains(k.Readers, reader) {
				some = append(some, s)
				break
			}
		}
	}
	return some, true
}
