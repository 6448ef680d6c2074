package sheets

import (
	"slices"

	"oxturn/drawing"
)

// The readers of a set, by the words that draw --for takes.
const (
	installer = "installer"
	estimator = "estimator"
	wirer     = "electrician"
	owner     = "owner"
)

// Readers returns the readers that sheets are drawn for, in the order of the work.
func Readers() []string { return []string{installer, estimator, wirer, owner} }

// An entry of the registry: whatever goes by the kind of a sheet reads it there,
// the set and its order, labels, titles, whom a sheet is for, and help.
type registered struct {
	Kind
	draw part // nil: it comes with another kind, or its verb draws it
}

// Kinds returns every kind of sheet in the order of a set; after them those
// that only a verb asks for.
func Kinds() []Kind {
	var out []Kind
	for _, r := range registry() {
		out = append(out, r.Kind)
	}
	return out
}

// registry has a line for every kind of sheet.
func registry() []registered {
	return []registered{
		{Kind{"key-plan", "KP", "Key plan", "Key plan", "All rooms of the job at one scale, with their names and loads",
			[]string{installer, estimator, wirer}, ""}, keyPlan},
		{Kind{"cable-plan", "CP", "Cable plan", "Cable plan",
			"Where the heating cable, its leads and the sensors lie, with the dimensions to find them again",
			Readers(), ""}, eachRoom(layingPlans)},
		{Kind{"setting-out", "SO", "Setting out", "Setting-out plan",
			"How the cable is laid run by run, in pegs, with the length used at the end of every run",
			[]string{installer}, ""}, nil},
		{Kind{"notes", "NT", "Notes", "Notes", "What the two before it have no room for", Readers(), ""}, nil},
		{Kind{"membrane", "MB", "Membrane", "Membrane cut plan",
			"How the pegged membrane is cut and laid, piece by piece, with its seams",
			[]string{installer, estimator}, ""}, eachRoom(membranePlan)},
		{Kind{"build-up", "BU", "Build-up", "Section", "A section through the floor with its layers and heights",
			[]string{installer, estimator}, ""}, buildUp},
		{Kind{"electrician", "EL", "Electrician's sheet", "Electrical plan",
			"The wall with the thermostat box and the lead rise, the load, and what the electrician settles",
			[]string{wirer}, ""}, eachRoom(electrician)},
		{Kind{"take-off", "TO", "Take-off", "Take-off", "What to buy, each line with the area or length it is based on",
			[]string{estimator}, ""}, takeOff},
		{Kind{"test-record", "TR", "Test record", "Test record", "The readings to take at each stage, with their limits",
			[]string{installer, wirer, owner}, ""}, allRecords},
		{Kind{"owner-map", "OM", "Owner's map", "Owner's map",
			"Where cable lies in the floor and where none does, for whoever wants to drill years later",
			[]string{owner}, ""}, eachRoom(ownerMap)},
		{Kind{"changes", "CH", "Changes", "Changes", "What changed since the revision before, in clouds", Readers(), "compare"}, nil},
		{Kind{"fault", "FA", "Fault on cable", "Fault plan",
			"The stretch of cable within which a fault must lie, the tiles over it and the runs it could be taken for",
			[]string{wirer, owner}, "fault"}, nil},
		{Kind{"refit", "RF", "Refit of", "Refit plan",
			"The rest of a partly laid cable as planned anew: what is laid stays, what changes is marked",
			[]string{installer}, "refit"}, nil},
	}
}

// kindNamed returns the kind of an ID that the list has.
func kindNamed(id string) Kind {
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
		if k.has(id) {
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
			if k.has(s.ID) && slices.Contains(k.Readers, reader) {
				some = append(some, s)
				break
			}
		}
	}
	return some, true
}
