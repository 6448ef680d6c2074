package job

import (
	"fmt"
	"strings"
)

// A meant is what a word of the trade is written as where the file has another.
type meant struct {
	kind string // of a fixture or an opening
	say  string // what else there is to say, empty for nothing
}

// fixtureWords are words for what stands on the floor that are no kinds: a
// sink is drawn as the cabinet it is let into. None of them are in the list of
// kinds, so that each has one name.
var fixtureWords = map[string]meant{
	"sink": {kind: "vanity"}, "basin": {kind: "vanity"}, "washbasin": {kind: "vanity"}, "lavatory": {kind: "vanity"},
	"washstand": {kind: "vanity"},
	"wc":        {kind: "toilet"}, "commode": {kind: "toilet"}, "bidet": {kind: "toilet", say: "with the name it has"},
	"bath": {kind: "tub"}, "bathtub": {kind: "tub"}, "whirlpool": {kind: "tub"},
	"closet": {kind: "cabinet"}, "linen closet": {kind: "cabinet"}, "cupboard": {kind: "cabinet"},
	"wardrobe": {kind: "cabinet"}, "bench": {kind: "cabinet"}, "shelf": {kind: "cabinet"},
	"peninsula": {kind: "cabinet"}, "counter": {kind: "cabinet"}, "pantry": {kind: "cabinet"},
	"fridge": {kind: "appliance"}, "refrigerator": {kind: "appliance"}, "range": {kind: "appliance"},
	"oven": {kind: "appliance"}, "dishwasher": {kind: "appliance",
		say: "below a worktop it is part of the cabinet run"}, "washer": {kind: "appliance"},
	"dryer": {kind: "appliance"}, "washing machine": {kind: "appliance"}, "cooker": {kind: "appliance"},
	"post": {kind: "column"}, "pillar": {kind: "column"}, "pipe": {kind: "column"}, "riser": {kind: "column"},
	"fireplace": {kind: "hearth"}, "stove": {kind: "hearth", say: "appliance for a cooker"},
	"woodstove": {kind: "hearth"},
	"vent":      {kind: "register"}, "grille": {kind: "register"}, "floor drain": {kind: "drain"},
	"gully": {kind: "drain"},
}

// openingWords are words for openings.
var openingWords = map[string]string{"door": "door", "doorway": "opening", "doors": "door", "window": "window",
	"windows": "window", "arch": "opening", "passage": "opening"}

// patternWords are words for how tiles are laid.
var patternWords = map[string]string{"brick": "offset", "running bond": "offset", "staggered": "offset",
	"half bond": "offset", "stack": "straight", "stacked": "straight", "grid": "straight", "diamond": "diagonal",
	"diagonally": "diagonal"}

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
	"zone":      "room",
	"floor":     "room",
	"mat":       "membrane",
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

// heatedHint: no cable lies below what stands on the floor.
const heatedHint = "what stands on the floor has no cable below it: leave out what is to be warmed, such as a " +
	"shower's tiled floor; heat = true is for what gives off heat itself, such as a stove, and draws no cable either"

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

// kindMeant says which kind of thing a word stands for, "" where none is known.
func kindMeant(k Key, word string) string {
	word = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(word)), "_", " ")
	switch k.Path {
	case "room.fixture.kind":
		if f, ok := fixtureWords[word]; ok {
			hint := fmt.Sprintf("write kind = %q and name = %q", f.kind, word)
			if f.say != "" {
				hint += "; " + f.say
			}
			return hint
		}
		if kind, ok := openingWords[word]; ok {
			return writeKind("[[room.opening]]", kind, "")
		}
	case "tile.pattern":
		if pattern, ok := patternWords[word]; ok {
			return fmt.Sprintf("write pattern = %q", pattern)
		}
	case "room.opening.kind":
		if kind, ok := openingWords[word]; ok {
			return fmt.Sprintf("write kind = %q", kind)
		}
	}
	return ""
}
