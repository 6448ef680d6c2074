package sheets

import (
	"testing"

	"oxturn/drawing/setting"
)

// Spellings: DIN 5007 part 2 for German; French and Spanish file names drop
// their accents by common practice.
func TestSlug(t *testing.T) {
	for name, want := range map[string]string{
		"Küche": "kueche", "Ku\u0308che": "kueche", "ÖSTLICHES BAD": "oestliches-bad", "Straße": "strasse",
		"Salle d'eau, 1er étage": "salle-d-eau-1er-etage", "Cœur": "coeur", "Garçonnière": "garconniere",
		"Baño pequeño": "bano-pequeno",
		"Łazienka":     "lazienka", "Håndvask": "handvask", "Ванная": "ванная", "浴室 2": "浴室-2", "../..\\CON:*?": "con",
		"...": "", "Bath  #1": "bath-1",
	} {
		if got := setting.Slug(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}
