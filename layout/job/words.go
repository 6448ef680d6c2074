package job

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/layout/job/tree"
)

// A meant is what a word of the trade is written as where the file has another.
type meant struct {
	kind string // of a fixture or an opening
	say  string // what else there is to say, empty for nothing
}

// fixtureWords are words for what stands on the floor that are no kinds: a
// sink is drawn as the cabinet it is let into. Each is read as its kind, which is
// said once; none of them is in the list of kinds.
var fixtureWords = map[string]meant{
	"sink": {kind: "vanity"}, "basin": {kind: "vanity"}, "washbasin": {kind: "vanity"}, "lavatory": {kind: "vanity"},
	"washstand": {kind: "vanity"}, "hand basin": {kind: "vanity"}, "bathroom sink": {kind: "vanity"},
	"kitchen sink": {kind: "cabinet"}, "water closet": {kind: "toilet"}, "loo": {kind: "toilet"},
	"soaker": {kind: "tub"}, "bath tub": {kind: "tub"}, "shower tray": {kind: "shower"},
	"shower stall": {kind: "shower"},
	"base cabinet": {kind: "cabinet"}, "vanity unit": {kind: "vanity"}, "worktop": {kind: "cabinet"},
	"countertop": {kind: "cabinet"}, "freezer": {kind: "appliance"}, "kitchen island": {kind: "island"},
	"tumble dryer": {kind: "appliance"}, "boiler": {kind: "appliance"}, "water heater": {kind: "appliance"},
	"wc": {kind: "toilet"}, "commode": {kind: "toilet"}, "bidet": {kind: "toilet", say: "with the name it has"},
	"bath": {kind: "tub"}, "bathtub": {kind: "tub"}, "whirlpool": {kind: "tub"},
	"closet": {kind: "cabinet"}, "linen closet": {kind: "cabinet"}, "cupboard": {kind: "cabinet"},
	"wardrobe": {kind: "cabinet"}, "bench": {kind: "cabinet", say: "on legs it takes heated = true"},
	"shelf":     {kind: "cabinet"},
	"peninsula": {kind: "cabinet"}, "counter": {kind: "cabinet"}, "pantry": {kind: "cabinet"},
	"fridge": {kind: "appliance"}, "refrigerator": {kind: "appliance"}, "range": {kind: "appliance"},
	"oven": {kind: "appliance"}, "dishwasher": {kind: "appliance",
		say: "under a worktop it may lie in its cabinet"}, "washer": {kind: "appliance"},
	"dryer": {kind: "appliance"}, "washing machine": {kind: "appliance"}, "cooker": {kind: "appliance"},
	"post": {kind: "column"}, "pillar": {kind: "column"}, "pipe": {kind: "column"}, "riser": {kind: "column"},
	"fireplace": {kind: "hearth"}, "stove": {kind: "appliance", say: "hearth for a wood stove on a slab"},
	"woodstove": {kind: "hearth"}, "wood stove": {kind: "hearth"},
	"vent": {kind: "register"}, "grille": {kind: "register"}, "floor drain": {kind: "drain"},
	"gully": {kind: "drain"},
}

// openingWords are words for openings.
var openingWords = map[string]string{"door": "door", "doorway": "opening", "doors": "door", "window": "window",
	"windows": "window", "arch": "opening", "passage": "opening"}

// patternWords are words for how tiles are laid.
var patternWords = map[string]string{"brick": "offset", "running bond": "offset", "staggered": "offset",
	"half bond": "offset", "stack": "straight", "stacked": "straight", "grid": "straight", "diamond": "diagonal",
	"diagonally": "diagonal"}

// statusWords are words for how far a job is, paperWords for sizes of paper.
var (
	statusWords = map[string]string{"installation": "for installation", "construction": "for installation",
		"for construction": "for installation", "issued for construction": "for installation", "as built": "as laid",
		"built": "as laid", "laid": "as laid", "as installed": "as laid", "draft": "proposal", "quote": "proposal"}
	paperWords = map[string]string{"11x17": "tabloid", "11 x 17": "tabloid", "17x11": "tabloid", "ledger": "tabloid",
		"ansi b": "tabloid", "8.5x11": "letter", "8.5 x 11": "letter", "ansi a": "letter", "us letter": "letter",
		"a4 landscape": "A4", "a3 landscape": "A3"}
)

// keyWords are words for keys of the job file, by what they are written as.
var keyWords = map[string]string{
	"obstacle":  "room.keep_out",
	"obstacles": "room.keep_out",
	"no_go":     "room.keep_out",
	"void":      "room.keep_out",
	"box":       "room.thermostat",
	"control":   "room.thermostat",
	"expansion": "room.joint",
	"screw":     "room.fixing",
	"zone":      "room.zone",
	"alcove":    "room.niche",
	"recess":    "room.niche",
	"curve":     "room.arc",
	"bow":       "room.arc",
	"stud wall": "room.partition",
	"half wall": "room.partition",
	"divider":   "room.partition",
	"floor":     "room",
	"wire":      "cable",
	"breaker":   "circuit",
}

// inOtherWords says what to write for a word of the trade that is no key where
// it stands, "" for words it does not know.
func (rd *reader) inOtherWords(name, path string) string {
	word := strings.ReplaceAll(strings.ToLower(name), "_", " ")
	if word == "heated" && strings.HasPrefix(path, "room") {
		return heatedHint
	}
	if (word == "centre" || word == "center") && path == "room.thermostat" {
		return "write from: of a box it is measured to its middle"
	}
	if matWords[strings.TrimSuffix(word, "s")] {
		return matHint
	}
	for _, w := range []string{word, strings.TrimSuffix(word, "s")} {
		if kind, ok := openingWords[w]; ok && placesThings(path) {
			return writeKind("[[room.opening]]", kind, "")
		}
		if f, ok := fixtureWords[w]; ok && placesThings(path) {
			return writeKind("[[room.fixture]]", f.kind, f.say)
		}
		for _, u := range usualFixtures {
			if string(u.kind) == w && placesThings(path) {
				return writeKind("[[room.fixture]]", w, "")
			}
		}
	}
	if k, ok := rd.schema.byPath[keyWords[word]]; ok && keyWords[word] != "" && placesThings(path) && k.Path != path {
		return "write " + k.Header() + " for it"
	}
	return ""
}

// matWords are what cable that comes fixed to a mat is called.
var matWords = map[string]bool{"mat": true, "heating mat": true, "cable mat": true, "mesh mat": true, "mesh": true,
	"prefabricated mat": true}

// matHint: a mat's spacing is fixed where it was made, so that there is no route to look for.
const matHint = "mats with cable fixed to them are out of scope: loose cable is laid here, on the pegs of a " +
	"membrane; write [[cable]] for the cable, [membrane] for what it lies on"

// heatedHint: no cable lies below what stands on the floor.
const heatedHint = "what stands on the floor has no cable below it: leave out what is to be warmed, such as a " +
	"shower's tiled floor, or write heated = true in that shower, or in a vanity or cabinet on legs; heat = true is " +
	"for what gives off heat itself, " +
	"such as a stove, and draws no cable either"

// placesThings reports whether a table of a path, or the top of a file, is
// where things of a room are likely to be written.
func placesThings(path string) bool { return path == "" || path == "room" }

func writeKind(header, kind, say string) string {
	out := fmt.Sprintf("write %s with kind = %q, below its [[room]]", header, kind)
	if say != "" {
		out += "; " + say
	}
	return out
}

// plainWord writes a word of the trade as the lists have it.
func plainWord(word string) string {
	return strings.ReplaceAll(strings.ReplaceAll(strings.ToLower(strings.TrimSpace(word)), "_", " "), "-", " ")
}

// otherWord returns what a word of the trade is read as where a key has another
// for it, "" for none.
func otherWord(k Key, word string) string {
	word = plainWord(word)
	switch k.Path {
	case "room.fixture.kind":
		return fixtureWord(word)
	case "tile.pattern":
		return patternWords[word]
	case "room.opening.kind":
		return openingWords[word]
	case "job.status":
		return statusWords[word]
	case "sheet.size":
		return paperWords[word]
	case "room.fixture.shape", "room.keep_out.shape", "room.low.shape":
		return shapeWords[word]
	}
	return ""
}

// fixtureWord is the kind that a word is read as: its own, or that of its last words, as in
// double sink and base cabinets; "" where none is known.
func fixtureWord(word string) string {
	for ; word != ""; _, word, _ = strings.Cut(word, " ") {
		word = strings.TrimSpace(word)
		for _, one := range []string{word, strings.TrimSuffix(word, "s"), strings.TrimSuffix(word, "es")} {
			if f, ok := fixtureWords[one]; ok {
				return f.kind
			}
			if slices.Contains(fixtureNames(), one) {
				return one
			}
		}
	}
	return ""
}

// sayOnce says as what a word is read, at the first of its kind in a file.
func (rd *reader) sayOnce(n *tree.Node, k Key, word, read string) {
	word = strings.TrimSpace(word)
	if rd.readAsOther[word] {
		return
	}
	rd.readAsOther[word] = true
	hint := fmt.Sprintf("write %s = %q", k.Name(), read)
	if k.Path == "room.fixture.kind" {
		hint += fmt.Sprintf(" and name = %q", word)
		if say := fixtureWords[plainWord(word)].say; say != "" {
			hint += "; " + say
		}
	}
	rd.report.Warnf("W009", rd.span(n.Span), hint, "%s %q is read as %q", k.Name(), word, read)
}

// kindMeant says where a thing is written whose kind is no fixture's, "" where
// none is known.
func kindMeant(k Key, word string) string {
	if kind, ok := openingWords[plainWord(word)]; ok && k.Path == "room.fixture.kind" {
		return writeKind("[[room.opening]]", kind, "")
	}
	return ""
}

// shapeWords are words for shapes.
var shapeWords = map[string]string{"neo angle": "neo-angle", "neoangle": "neo-angle", "pentagon": "neo-angle",
	"quarter circle": "quadrant", "quarter round": "quadrant", "round": "quadrant", "corner": "diagonal",
	"angled": "diagonal", "rectangular": "rectangle", "square": "rectangle"}

// keySpellings are other spellings of keys.
var keySpellings = map[string]string{"center": "centre", "colour": "color", "to end": "to_end", "to-end": "to_end",
	"rough-in": "rough_in", "roughin": "rough_in", "sill": "threshold", "setback": "off", "heated_floor": "heated"}

// spelling returns how a key of a table is written that a file spells otherwise, ""
// where it does not know it.
func (rd *reader) spelling(name, path string) string {
	for _, to := range []string{keySpellings[strings.ToLower(name)], strings.ReplaceAll(name, "-", "_")} {
		if _, ok := rd.schema.byPath[join(path, to)]; ok && to != "" {
			return to
		}
	}
	return ""
}
