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
	keys := slices.Sorted(maps.Keys(Spanish.Entries()))
	for _, l := range []Language{Spanish, French, German} {
		entries := l.Entries()
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
