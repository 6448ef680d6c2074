package sheets

import (
	"regexp"
	"strings"
	"testing"
)

var (
	powerPerArea = regexp.MustCompile(`\d[\s\x{a0}]*W/(ft²|m²)`)
	// what a power per area may be over: an area, the gap between runs, or the runs themselves
	itsArea = regexp.MustCompile(`over [\d.]+[\s\x{a0}](ft²|m²)|apart,|, round run |at (an )?even spacing|over the ` +
		`heated floor`)
)

// Every power per area on a sheet stands beside what it is over: a reader who
// divides watts by another area gets another figure.
func TestPowerPerAreaStandsBesideItsArea(t *testing.T) {
	for _, name := range examples {
		n := 0
		for _, s := range example(t, name).set {
			texts := s.Texts()
			for i, x := range texts {
				if !powerPerArea.MatchString(x.Text) || strings.Contains(x.Text, "q = ") { // a formula's units
					continue
				}
				n++
				var around []string // a cell's lines follow one another
				for _, o := range texts[max(0, i-1):min(len(texts), i+4)] {
					around = append(around, o.Text)
				}
				if !itsArea.MatchString(strings.Join(around, " ")) {
					t.Errorf("%s, %s: %q stands beside no area: %q", name, s.ID, x.Text, around)
				}
			}
		}
		if n == 0 {
			t.Errorf("%s: no power per area on any sheet", name)
		}
	}
}
