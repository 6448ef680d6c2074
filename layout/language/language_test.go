package language

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var verb = regexp.MustCompile(`%(?:\[(\d+)\])?[-+0-9.]*([a-z])`)

// verbs are what a format asks for, by the number of the value.
func verbs(format string) map[string]string {
	out := map[string]string{}
	for i, m := range verb.FindAllStringSubmatch(strings.ReplaceAll(format, "%%", ""), -1) {
		number := m[1]
		if number == "" {
			number = string(rune('1' + i))
		}
		out[number] = m[2]
	}
	return out
}

// TestCatalogues: every language has the same messages, each takes the values of the English
// one and joins to what stands beside it as that does.
func TestCatalogues(t *testing.T) {
	cataloguesAlike(t, Language.Entries)
	cataloguesAlike(t, Language.Spoken)
	cataloguesAlike(t, Language.OnPage)
}

func cataloguesAlike(t *testing.T, of func(Language) map[string]string) {
	t.Helper()
	keys := slices.Sorted(maps.Keys(of(Spanish)))
	for _, l := range []Language{Spanish, French, German} {
		entries := of(l)
		if got := slices.Sorted(maps.Keys(entries)); !slices.Equal(got, keys) {
			for _, k := range append(missing(got, keys), missing(keys, got)...) {
				t.Errorf("%s and es: only one has %q", l.Tag(), k)
			}
		}
		for key, said := range entries {
			if strings.Contains(key, "%") && !maps.Equal(verbs(key), verbs(said)) {
				t.Errorf("%s: %q takes other values than %q", l.Tag(), said, key)
			}
			if strings.HasPrefix(key, " ") != strings.HasPrefix(said, " ") ||
				strings.HasSuffix(key, " ") != strings.HasSuffix(said, " ") || strings.TrimSpace(said) == "" {
				t.Errorf("%s: %q for %q", l.Tag(), said, key)
			}
		}
	}
}

func missing(from, of []string) (out []string) {
	for _, k := range of {
		if !slices.Contains(from, k) {
			out = append(out, k)
		}
	}
	return out
}

// A message with values of each kind, and a count of one and of several: plurals by CLDR.
func TestInTheReadersLanguage(t *testing.T) {
	for _, c := range []struct {
		got, want string
	}{
		{English.Textf("%d cables in parallel", 2), "2 cables in parallel"},
		{Spanish.Text("heating cable"), "cable calefactor"},
		{Spanish.Text("of a language that has no entry"), "of a language that has no entry"},
		{Say("a joint on %s", "J1").String(), "a joint on J1"},
		{Say("whole tiles at %s", Say("wall %s", "A")).In(English), "whole tiles at wall A"},
		{Say("%s to %s", "1", Say("wall %s", "B")).In(German), "1 bis Wand\u00a0B"},
		{Say("of a language that has no entry: 50 %").In(French), "of a language that has no entry: 50 %"},
		{German.Within("Notizen"), "Notizen"}, {French.Within("Étage"), "étage"}, {French.Within(""), ""},
		{English.Figure("12.5 Ω"), "12.5 Ω"}, {French.Figure("12.5 Ω"), "12,5 Ω"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	if l, ok := Named("fr"); l != French || !ok {
		t.Errorf("fr: %v, %v", l, ok)
	}
	if l, ok := Named("it"); l != English || ok {
		t.Errorf("it: %v, %v", l, ok)
	}
}

// What was put together in English is told again with its values, those that are messages too.
func TestRetold(t *testing.T) {
	for _, c := range []struct {
		of         Language
		text, want string
	}{
		{English, "did you mean \"Bath\"?", "did you mean \"Bath\"?"},
		{German, "did you mean \"Bath\"?", "war \"Bath\" gemeint?"},
		{French, "the thermostat of room \"Bath\" is on no wall",
			"le thermostat de la pièce \"Bath\" n'est sur aucun mur"},
		{Spanish, "closest = 5 is more than widest = 4", "closest = 5 es más que widest = 4"},
		{German, "there is no cable H9 in room \"Bath\"", "in Raum \"Bath\" gibt es kein Kabel H9"},
		{German, "wall \"x\": \"y\" is not a number", "Wand \"x\": \"y\" ist keine Zahl"},
		{German, "no message of ours", "no message of ours"}, {German, "", ""},
		{Spanish, "the tolerance of cable \"A\" runs from -5 % to 10 %",
			"la tolerancia del cable \"A\" va de -5 % a 10 %"},
		{French, "write the unit with each: [\"5ft\", \"8ft\"], or [\"5in\", \"8in\"] where that is meant",
			"écrire l'unité avec chacun\u00a0: [\"5ft\", \"8ft\"], ou [\"5in\", \"8in\"] si c'est voulu"},
	} {
		if got := c.of.Retold(c.text); got != c.want {
			t.Errorf("%s: %q, want %q", c.of.Tag(), got, c.want)
		}
	}
}
