package build_test

import (
	"strings"
	"testing"

	"oxturn/layout/internal/trial"
	"oxturn/layout/language"
)

const cured = `[tile]
grout_cure = 7
grouted = 2026-12-05
[[layer]]
kind = "tile"
thickness = 10
[[layer]]
name = "bed"
kind = "mortar"
thickness = 4
cure_days = 14
placed = 2026-12-01
[[layer]]
kind = "membrane"
thickness = 5
placed = 2026-11-20
[[layer]]
kind = "concrete"
thickness = 100
`

// Bed 1 + 14 = 15 December, grout 5 + 7 = 12, the filled membrane, not stated, 20
// November + 28 = 18 December: that decides. The slab is old.
func TestFullUseOfAJob(t *testing.T) {
	p, _ := trial.Said(t, trial.Landing+cured)
	if got := p.FullUse.Words(language.English); got != "2026-12-18, by the membrane" {
		t.Error(got)
	}
	if n := len(p.FullUse.Cures); n != 3 {
		t.Errorf("%d layers cure", n)
	}
}

// A new screed waits 21 days if cement, 7 if calcium sulphate, then takes 3 days
// at 20 to 25 °C (68 to 77 °F) and 4 at the most: EN 1264-4, from memory. An old
// slab is not spoken of.
func TestFirstHeatingOfAScreed(t *testing.T) {
	p, _ := trial.Said(t, trial.Landing+strings.Replace(cured, "kind = \"concrete\"", "kind = \"screed\"", 1))
	want := "new screed: no heat before day 21 if cement, day 7 if calcium sulphate; first 3 days at 20 to 25 °C (68 " +
		"to 77 °F), then 4 days at the most it is to reach (EN 1264-4)"
	if got := p.FullUse.Words(language.English); !strings.HasSuffix(got, "; "+want) {
		t.Error(got)
	}
	if p, _ = trial.Said(t, trial.Landing+cured); strings.Contains(p.FullUse.Words(language.English), "1264") {
		t.Error("a slab is warmed like a screed:", p.FullUse.Words(language.English))
	}
}

// A day that is not written down is not guessed; the wait is said all the same.
func TestFullUseOpen(t *testing.T) {
	p, _ := trial.Said(t, trial.Landing+strings.Replace(cured, "placed = 2026-12-01\n", "", 1))
	got := p.FullUse.Words(language.English)
	if !p.FullUse.Date.IsZero() || !strings.Contains(got, "no day is written down for bed;") || !strings.Contains(got,
		"28 days, for the membrane (not stated, default)") {
		t.Error(got)
	}
	if p, _ = trial.Said(t, trial.Landing); p.FullUse != nil {
		t.Error("no layers, yet", p.FullUse.Words(language.English))
	}
}
