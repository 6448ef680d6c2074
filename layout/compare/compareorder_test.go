package compare_test

import (
	"strings"
	"testing"

	"oxturn/layout/internal/trial"
)

const (
	layered = "units = \"mm\"\ncurrency = \"CHF\"\n[tile]\ngrout_cure = 2\ngrouted = 2026-12-05\n[[layer]]\n" +
		"name = \"bed\"\nkind = \"mortar\"\nthickness = 6\ncure_days = 7\nplaced = 2026-12-03\n"
	lead = "lead = \"4 m\"\n"
)

// A change order says what money and days are by, and whether the cable that is there
// already still serves. The sums are redone by hand: 372 less 310 is 62, and seven
// days more for one layer are seven days.
func TestChangeOrder(t *testing.T) {
	from := strings.Replace(trial.Hand, "units = \"mm\"\n", layered, 1)
	from = strings.Replace(from, lead, lead+"price = 310\n", 1)
	for name, c := range map[string]struct {
		old, new string
		want     []string
	}{
		"dearer cable": {"price = 310", "price = 372",
			[]string{"310.00 CHF -> 1 each, 372.00 CHF, +62.00 CHF", "\ncost: 310.00 CHF -> 372.00 CHF, +62.00 CHF; "}},
		"longer cure": {"cure_days = 7", "cure_days = 14",
			[]string{"earliest full use: 7 days later, now 2026-12-17, by the bed (was 2026-12-10, by the bed)"}},
		"shorter cure": {"cure_days = 7", "cure_days = 6", []string{"earliest full use: a day sooner, now 2026-12-09"}},
		"the tub moved": {"[[0,1640],[1600,1640]", "[[0,1650],[1600,1650]",
			[]string{"Bath, cable already bought: C -> still serves"}},
		"other figures": {"watts = 260", "watts = 300", []string{"Bath, cable already bought: C -> the same by name, " +
			"but not by its figures"}},
		"another cable": {"id = \"C\"\nvolts = 240\nwatts = 260", "id = \"D\"\nvolts = 240\nwatts = 260",
			[]string{"Bath, cable already bought: C -> no longer serves: D is to be bought, and C is left over"}},
	} {
		to := strings.Replace(from, c.old, c.new, 1)
		if name == "another cable" {
			to = strings.Replace(to, `cables = ["C"]`, `cables = ["D"]`, 1)
		}
		if to == from {
			t.Fatalf("%s: nothing to replace", name)
		}
		got := lines(changed(t, from, to))
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%s: want %q in\n%s", name, w, got)
			}
		}
		if moved := strings.Contains(got, "lie otherwise"); moved != (name == "the tub moved") {
			t.Errorf("%s: runs lie otherwise: %v\n%s", name, moved, got)
		}
	}
}
