package setting

import (
	"slices"
	"strings"
	"testing"

	"oxturn/layout/language"
)

// TestKeyOfWordsHasNoNumbers: the number of a run is no word, whatever the decimal sign of the second language.
func TestKeyOfWordsHasNoNumbers(t *testing.T) {
	key := wordKey([]string{"1.4", "tub", "2.10", "H1 START"}, NewTypesetter(language.English, language.Spanish))
	want := []string{"tub = bañera; H1 START = H1 INICIO"} // of the catalogue
	got := []string{strings.ReplaceAll(strings.Join(key.Paras, "|"), NoBreak, " ")}
	if !slices.Equal(got, want) {
		t.Errorf("the key of words is %q, not %q", got, want)
	}
}
