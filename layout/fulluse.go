package layout

import (
	"strings"
	"time"

	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/say"
)

// A FullUse is how long the floor's layers ask for before it is used in full.
type FullUse struct {
	Cures []record.Cure // top to bottom, the grout first
	Date  time.Time     // of the first day, zero while a layer's own day is open
	By    string        // the layer that decides Date
	Open  []string      // layers whose day is not written down

	Screed string // the uppermost screed by name; "": none
}

// Longest returns the layer that asks for the most days, the first of equals.
func (f *FullUse) Longest() record.Cure {
	out := f.Cures[0]
	for _, c := range f.Cures {
		if c.Wait() > out.Wait() {
			out = c
		}
	}
	return out
}

// Words says when the floor may be used in full, what decides it, and how a new
// screed is first warmed.
func (f *FullUse) Words(l language.Language) string {
	if f.Screed == "" {
		return f.when(l)
	}
	return f.when(l) + l.Joint("; ") + firstHeating(f.Screed, l)
}

// firstHeating words how a screed is first warmed.
func firstHeating(screed string, l language.Language) string {
	return l.Textf("new %s: no heat before day %d if cement, day %d if calcium sulphate; first %d days at %s "+
		"(%s), then %d days at the most it is to reach (EN 1264-4)",
		l.Text(screed), record.CementScreed, record.SulphateScreed, record.LowDays,
		say.WholeDegreesRange(record.LowLeast, record.LowMost, plane.Millimetres),
		say.WholeDegreesRange(record.LowLeast, record.LowMost, plane.Inches), record.FullDays)
}

func (f *FullUse) when(l language.Language) string {
	if len(f.Open) == 0 {
		return l.Textf("%s, by the %s", f.Date.Format("2006-01-02"), l.Text(f.By))
	}
	c := f.Longest()
	words := l.Textf("open: no day is written down for %s; the longest wait is %d days, for the %s",
		strings.Join(l.Texts(f.Open), l.Joint("; ")), c.Wait(), l.Text(c.Layer))
	if c.Days == 0 {
		words += l.Text(" (not stated, default)")
	}
	return words
}
