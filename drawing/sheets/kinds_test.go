package sheets

import (
	"slices"
	"testing"

	"oxturn/layout/plane"
)

// TestKindsAreWhole: no kind of sheet goes without a label of its own, a title,
// words on what it shows and somebody who needs it.
func TestKindsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range Kinds() {
		if k.ID == "" || k.Code == "" || k.Title == "" || k.Form == "" || k.About == "" {
			t.Errorf("kind %q lacks a word: %+v", k.ID, k)
		}
		if seen[k.ID] || seen[k.Code] {
			t.Errorf("%s or %s stands for two kinds", k.ID, k.Code)
		}
		seen[k.ID], seen[k.Code] = true, true
		if len(k.Readers) == 0 {
			t.Errorf("nobody needs %s", k.ID)
		}
		for _, r := range k.Readers {
			if !slices.Contains(Readers(), r) {
				t.Errorf("%s is for %q, who is no reader", k.ID, r)
			}
		}
	}
}

// TestEverySheetHasItsKind: what is drawn is in the list, notes and sheets that
// run over with it.
func TestEverySheetHasItsKind(t *testing.T) {
	set := sampleSet(t, plane.Millimetres)
	drawn := map[string]bool{}
	for _, s := range set {
		drawn[codeOf(s.ID)] = true
	}
	if drawn[""] {
		t.Error("a sheet is of no kind")
	}
	for _, want := range []string{"CP", "SO", "EL", "TO", "TR", "OM"} {
		if !drawn[want] {
			t.Errorf("no sheet %s is drawn", want)
		}
	}
}
