package language

import (
	"strings"
	"testing"
)

// TestOneClauseUnknown: a long text of which one clause is no message is given up soon, and the same whatever was asked
// for before; every way to part such a text once took minutes.
func TestOneClauseUnknown(t *testing.T) {
	known := "Dry layers in full contact; nothing on the floor. Estimates for comparing, not promises. "
	text := strings.Repeat(known+"Hob, left: 3, by us; so said. ", 24)
	p := pairs()[English][Spanish]
	if said := English.Also(text, Spanish); said != "" {
		t.Errorf("a text with clauses that are no message is %q", said)
	}
	if n := len(p.found); n != 4000 { // there are many more
		t.Errorf("%d parts of a text of %d letters were looked for, not 4000 at most", n, len(text))
	}
	if said := English.Also(known, Spanish); !strings.HasPrefix(said, "Capas secas") {
		t.Errorf("after it, a text of two messages is %q", said)
	}
}

// TestSentencesBeginWithACapital: a message that stands small in a catalogue is a sentence after another.
func TestSentencesBeginWithACapital(t *testing.T) {
	text := "Dry layers in full contact; nothing on the floor. Cable at mid-height of the filled membrane."
	said := English.Also(text, French)
	if _, second, two := strings.Cut(said, ". "); !two || !strings.HasPrefix(second, "Câble") {
		t.Errorf("%q is %q", text, said)
	}
}

// TestCompoundUnits: figures with units of several parts are found again in the other language.
func TestCompoundUnits(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"At least, for output and warm-up: soil that has settled, to outside air 10 °C colder than the room, " +
			"through 1.04 Btu/(h ft² °F)", "1,04 Btu/(h ft² °F)"},
		{"ISO 13370, slab on ground: soil 2 W/(m K), characteristic dimension 4 m, outer walls 300 mm thick, " +
			"0.983 m²K/W below the slab", "0,983 m²K/W"},
		{"surface to room: q = 0.434 (mean surface - air)^1.1 in W/ft² and °F (EN 1264-2); 1.23 Btu/(h ft² °F) " +
			"where the floor is colder than the air (ISO 11855-2)", "W/ft² y °F"},
	} {
		if said := English.Also(c.text, Spanish); !strings.Contains(said, c.want) {
			t.Errorf("%q\nis %q, without %q", c.text, said, c.want)
		}
	}
}
