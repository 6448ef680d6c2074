package job

import "testing"

// What people write for an instrument that shows more than 500 is read as ">500".
func TestOverRange(t *testing.T) {
	for _, s := range []string{">500", " > 500 ", "over 500", "Above 500", "more than 500"} {
		if got, over := overRange(s); got != "500" || !over {
			t.Errorf("%q: %q, %v", s, got, over)
		}
	}
	for _, s := range []string{"500", "overt", "under 500", ""} {
		if _, over := overRange(s); over {
			t.Errorf("%q is over the range", s)
		}
	}
}
