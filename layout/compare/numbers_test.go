package compare

import "testing"

func TestNumbers(t *testing.T) {
	for want, all := range map[string][]int{"": nil, "3": {3}, "1, 2": {1, 2}, "1 to 3": {1, 2, 3},
		"2, 5 to 7, 9, 10": {2, 5, 6, 7, 9, 10}} {
		if got := numbers(all); got != want {
			t.Errorf("%v: %q, want %q", all, got, want)
		}
	}
}
