package sheets

import (
	"slices"
	"strings"

	"oxturn/drawing"
)

// A Kind is one kind of sheet. Whatever goes by the kind of a sheet reads it
// here: the set and its order, labels, titles, whom a sheet is for, and help.
type Kind struct {
	ID      string   // the IDs of its sheets begin with it
	Code    string   // the letters of their labels
	Title   string   // what its sheets are called; a room's name comes behind
	Form    string   // the document type in the title block
	About   string   // what it shows, in a sentence without its full stop
	Readers []string // who needs it, of Readers; never empty
	Verb    string   // the verb that draws it; empty: draw, as one of the set

	draw part // nil: it comes with another kind, or its verb draws it
}

// The readers of a set, by the words that draw --for takes.
const (
	installer = "installer"
	estimator = "estimator"
	wirer     = "electrician"
	owner     = "owner"
)

// Readers returns the readers that sheets are drawn for, in the order of the work.
func Readers() []string { return []string{installer, estimator, wirer, owner} }

// Kinds returns every kind of sheet in the order of a set; after them those
// that only a verb asks for.
func Kinds() []Kind {
	return []Kind{
		{"key-plan", "KP", "Key plan", "Key plan", "All rooms of the job at one scale, with their names and loads",
			[]string{installer, estimator, wirer}, "", keyPlan},
		{"cable-plan", "CP", "Cable plan", "Cable plan",
			"Where the heating cable, its leads and the sensors lie, with the dimensions to find them again",
			Readers(), "", eachRoom(layingPlans)},
		{"setting-out", "SO", "Setting out", "Setting-out plan",
			"How the cable is laid run by run, in pegs, with the length used at the end of every run",
			[]string{installer}, "", nil},
		{"notes", "NT", "Notes", "Notes", "What the two before it have no room for", Readers(), "", nil},
		{"membrane", "MB", "Membrane", "Membrane cut plan",
			"How the pegged membrane is cut and laid, piece by piece, with its seams",
			[]string{installer, estimator}, "", eachRoom(membranePlan)},
		{"build-up", "BU", "Build-up", "Section", "A section through the floor with its layers and heights",
			[]string{installer, estimator}, "", buildUp},
		{"electrician", "EL", "Electrician's sheet", "Electrical plan",
			"The wall with the thermostat box and the lead rise, the load, and what the electrician settles",
			[]string{wirer}, "", eachRoom(electrician)},
		{"take-off", "TO", "Take-off", "Take-off", "What to buy, each line with the area or length it is based on",
			[]string{estimator}, "", takeOff},
		{"test-record", "TR", "Test record", "Test record", "The readings to take at each stage, with their limits",
			[]string{installer, wirer, owner}, "", allRecords},
		{"owner-map", "OM", "Owner's map", "Owner's map",
			"Where cable lies in the floor and where none does, for whoever wants to drill years later",
			[]string{owner}, "", eachRoom(ownerMap)},
		{"changes", "CH", "Changes", "Changes", "What changed since the revision before, in clouds", Readers(), "compare", nil},
		{"fault", "FA", "Fault on cable", "Fault plan",
			"The stretch of cable within which a fault must lie, the tiles over it and the runs it could be taken for",
			[]string{wirer, owner}, "fault", nil},
		{"refit", "RF", "Refit of", "Refit plan",
			"The rest of a partly laid cable as planned anew: what is laid stays, what changes is marked",
			[]string{installer}, "refit", nil},
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

// has reports whether a sheet, by its ID, is of the kind.
func (k Kind) has(id string) bool { return id == k.ID || strings.HasPrefix(id, k.ID+"-") }

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
