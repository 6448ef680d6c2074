package say

import "testing"

// No figure is written with a power of ten, just below a round one either.
func TestDigits(t *testing.T) {
	for v, want := range map[float64]string{0.35221: "0.352", 11.36: "11.4", 999.4: "999", 999.5: "1000",
		999.96: "1000", 1076.4: "1076", -1076.4: "-1076", -999.96: "-1000", 150000: "150000", 0: "0"} {
		if got := Digits(v, 3); got != want {
			t.Errorf("%g: %s, want %s", v, got, want)
		}
	}
	if got := Digits(99.6, 2) + Digits(99.4, 2) + Digits(12345, 4) + Digits(1234.4, 4); got != "10099123451234" {
		t.Error(got)
	}
}
