package language

import (
	"fmt"
	"strings"
	"testing"
)

// hostile are names that read as messages, or as parts of them, and one that hides.
var hostile = []string{"the rest", "wall A", "START", "tub", "the thermostat", "room", "is", "of", "", " ", "%s",
	"%d pegs", "2.5 m", "12", "no fit", "cold lead; the box", "Bath: the rest", "is on no wall",
	"Küche \"Süd\"", "a\nb", "in", "m",
	"tub overlaps vanity on wall A", "there is no cable H9", "\U000F0001", "and", "it", "(the box)", "line \\ slash"}

// plain has no-break spaces as any.
var plain = strings.NewReplacer("\u00a0", " ")

// TestNamesAreNeverTold: whatever a user calls a room, a fixture and a cable, it stands in what is told as it was
// typed, and what is said of it is told as of one with a plain name.
func TestNamesAreNeverTold(t *testing.T) {
	says := []struct {
		form   string
		quoted bool
		told   [4]string
	}{
		{"the thermostat of room %q is on no wall", true, [4]string{
			Spanish: "el termostato del cuarto %q no está en ninguna pared",
			French:  "le thermostat de la pièce %q n'est sur aucun mur",
			German:  "der Thermostat von Raum %q ist an keiner Wand"}},
		{"there is no cable H9 in room %q", true, [4]string{
			Spanish: "no hay cable H9 en el cuarto %q",
			French:  "il n'y a pas de câble H9 dans la pièce %q", German: "in Raum %q gibt es kein Kabel H9"}},
		{"%s overlaps vanity on wall A", false, [4]string{
			Spanish: "%s se encima con vanity en pared A",
			French:  "%s chevauche vanity sur mur A", German: "%s überschneidet sich mit vanity auf Wand A"}},
	}
	for _, l := range []Language{Spanish, French, German} {
		for _, name := range hostile {
			told := l.Keeping([]string{name, "vanity"})
			for _, s := range says {
				shown := name
				if s.quoted {
					shown = fmt.Sprintf("%q", name)
				}
				got := told.Retold(fmt.Sprintf(s.form, name))
				if !strings.Contains(got, shown) {
					t.Errorf("%s: %q is not in %q", l.Tag(), shown, got)
				}
				if strings.ContainsAny(name, "\U000F0001\n") || strings.TrimSpace(name) == "" {
					continue // what is no name, and what is written in several lines
				}
				got, want := plain.Replace(got), plain.Replace(fmt.Sprintf(s.told[l], name))
				if got != want && name != "wall A" { // which is a wall in the third
					t.Errorf("%s: %q, want %q", l.Tag(), got, want)
				}
			}
		}
	}
}

// A text that begins as a name of the job does, but is a message, is told as that.
func TestAMessageThatBeginsAsAName(t *testing.T) {
	told := Spanish.Keeping([]string{"the length", "the room"})
	got, want := told.Retold("the length may be 3.5 m at most"), "el largo puede ser 3,5 m como máximo"
	if got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// Keys of the job file stand in messages as they are typed; alone, as what a column is called, the same words are
// told.
func TestKeysAreNotTold(t *testing.T) {
	for text, want := range map[string]string{
		"lead is text in quotes, not 4": "lead es texto entre comillas, no 4",
		"spacing is here":               "spacing está aquí",
		"spacing":                       "separación",
		"30 mm (default)":               "30 mm (por defecto)",
	} {
		if got := Spanish.Retold(text); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestDecimalSigns(t *testing.T) {
	told := German.Keeping([]string{"Raum 2.5 m", "A"})
	for text, want := range map[string]string{
		"12.5 mm":              "12,5 mm",
		"57.8 to 66.9 Ω":       "57,8 bis 66,9 Ω",
		"-0.1 % / +1.5 %":      "-0,1 % / +1,5 %",
		"2.89":                 "2,89",
		"1.98 A":               "1,98 A",
		"NEC 2023, 424.46":     "NEC 2023, 424.46",
		"308.2.1":              "308.2.1",
		"from = 12.5 mm":       "from = 12.5 mm",
		`write "2.5 mm"`:       `"2.5 mm" schreiben`,
		"[2.5, 3.5]":           "[2.5, 3.5]",
		"bath-2.5.toml":        "bath-2.5.toml",
		"Raum 2.5 m: 2.5 m":    "Raum 2.5 m: 2,5 m",
		"--lead-ohms 0.12 ohm": "--lead-ohms 0.12 ohm",
	} {
		if got := told.Retold(text); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
