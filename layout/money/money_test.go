package money

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Sums by hand that binary fractions get wrong: 1.005 is rounded up, three times 0.1 is
// 0.3, and 8.25 % of 200.00 are 16.50.
func TestSumsByHand(t *testing.T) {
	for _, c := range []struct {
		got  Cents
		want string
	}{
		{Times(1.005, 1), "1.01"}, {Times(0.1, 3), "0.30"}, {Times(3.4, 2.64), "8.98"}, {Times(-1.005, 1), "-1.01"},
		{Times(19.99, 100), "1999.00"}, {Of(200).Share(0.0825), "16.50"}, {Of(0.1).Share(0.05), "0.01"},
		{Of(-0.1).Share(0.05), "-0.01"}, {Of(0.004), "0.00"}, {Of(1e9), "1000000000.00"}, {Of(math.NaN()), "0.00"},
		{Of(math.Inf(1)), "0.00"}, {Of(-0.05), "-0.05"}, {Cents(7), "0.07"}, {Cents(-1234), "-12.34"},
	} {
		if c.got.String() != c.want {
			t.Errorf("%s, want %s", c.got, c.want)
		}
	}
	if Of(12.34).Float() != 12.34 {
		t.Errorf("%g", Of(12.34).Float())
	}
}

// Whole cents times whole numbers are whole cents, reckoned as integers.
func TestWholeCents(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cents, n := rapid.Int64Range(0, 1e8).Draw(t, "cents"), rapid.Int64Range(0, 1e4).Draw(t, "n")
		if got := Times(float64(cents)/100, float64(n)); int64(got) != cents*n {
			t.Fatalf("%d cents times %d: %s", cents, n, got)
		}
	})
}
