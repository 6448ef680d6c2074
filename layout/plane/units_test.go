package plane

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		in   string
		bare Units
		want float64
	}{
		{"9ft 4-1/2in", NoUnits, 9*304.8 + 4.5*25.4},
		{"9ft 4 1/2in", NoUnits, 9*304.8 + 4.5*25.4},
		{"9' 4 1/2\"", NoUnits, 9*304.8 + 4.5*25.4},
		{"9'-4 1/2\"", NoUnits, 9*304.8 + 4.5*25.4},
		{"9ft 4", NoUnits, 9*304.8 + 4*25.4},
		{"9 feet", NoUnits, 9 * 304.8},
		{"1/2 in", NoUnits, 12.7},
		{"3/4\"", NoUnits, 19.05},
		{"2.85 m", NoUnits, 2850},
		{"2.85m", Inches, 2850},
		{"28.5cm", NoUnits, 285},
		{"2850mm", NoUnits, 2850},
		{"2850", Millimetres, 2850},
		{"96", Inches, 2438.4},
		{"-2ft", NoUnits, -609.6},
		{"0 mm", NoUnits, 0},
		{"1 millimetres", NoUnits, 1},
		{"2 metres", NoUnits, 2000},
		{"9ft-4in", NoUnits, 9*304.8 + 4*25.4},
		{"0ft 9", NoUnits, 9 * 25.4},
		{"9-9/10in", NoUnits, 9.9 * 25.4},
		{"9 0/2in", NoUnits, 9 * 25.4},
		{"9 9/9in", NoUnits, 10 * 25.4},
		{"1ft 0in", NoUnits, 304.8},
		{" 5 FT 6 IN ", NoUnits, 66 * 25.4},
		{"9’ 4½”", NoUnits, 9*304.8 + 4.5*25.4},
		{"¾in", NoUnits, 19.05},
		{"⅓ ft", NoUnits, 101.6},
		{"5⅔in", NoUnits, 17.0 / 3 * 25.4},
		{"2ft ⅛in", NoUnits, 609.6 + 25.4/8},
		{"1 3\u20444 in", NoUnits, 1.75 * 25.4},
		{"1/3 ft", NoUnits, 101.6},
		{"2/3 m", NoUnits, 2000.0 / 3},
		{"4\u20131/2in", NoUnits, 4.5 * 25.4},
		{"2.85\u00a0m", NoUnits, 2850},
	} {
		got, err := ParseLength(c.in, c.bare)
		if err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("ParseLength(%q, %v) = %v, %v; want %v", c.in, c.bare, got, err, c.want)
		}
	}
}

func TestParseLengthSaysWhy(t *testing.T) {
	for _, c := range []struct {
		in   string
		bare Units
		want string
	}{
		{"", NoUnits, "an empty length"},
		{"2850", NoUnits, "it has no unit, and the file names none"},
		{"9 furlongs", NoUnits, `"furlongs" is not a unit`},
		{"4in 9ft", NoUnits, "only feet and inches go together"},
		{"2m 3", NoUnits, "the last figure has no unit"},
		{"2ft 3ft", NoUnits, "only feet and inches go together"},
		{"2m 3in", NoUnits, "only feet and inches go together"},
		{"4 : mm", NoUnits, "is not a unit"},
		{"4.5 1/2 in", NoUnits, "unit"},
		{"2m 50mm", NoUnits, "only feet and inches go together"},
		{"1/0 in", NoUnits, "a fraction over zero"},
		{"ft", NoUnits, "a figure is missing"},
		{"1,250 mm", Millimetres, "decimals take a point"},
		{"1,250,5 mm", Millimetres, "more than one point or comma"},
		{"12,", Inches, "decimals take a point"},
		{"1.250,5 m", Millimetres, "more than one point or comma"},
		{"1.2.3 mm", NoUnits, "is not a number"},
		{"--4 mm", NoUnits, "a figure is missing"},
	} {
		if _, err := ParseLength(c.in, c.bare); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("ParseLength(%q, %v): error %v; want it to say %q", c.in, c.bare, err, c.want)
		}
	}
}

// Values worked out by hand to the nearest 1/16 in, fractions reduced, with
// the carry into feet that naive rounding misses.
func TestFormatFeetInches(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		want string
	}{
		{0.5 * Inch, `0'-0 1/2"`},
		{11.96 * Inch, `0'-11 15/16"`},
		{11.97 * Inch, `1'-0"`},
		{35.9999 * Inch, `3'-0"`},
		{100.4375 * Inch, `8'-4 7/16"`},
		{1000, `3'-3 3/8"`},
		{2438.4, `8'-0"`},
		{3000, `9'-10 1/8"`},
		{-304.8, `-1'-0"`},
		{-0.1, `0'-0"`},
		{0, `0'-0"`},
		{0.5, `0'-0"`},
		{0.9, `0'-0 1/16"`},
		{-0.9, `-0'-0 1/16"`},
	} {
		if got := FormatFeetInches(c.mm); got != c.want {
			t.Errorf("FormatFeetInches(%v) = %s; want %s", c.mm, got, c.want)
		}
	}
}

// What a drawing prints must read back to within half of a sixteenth.
func TestFeetInchesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-30000, 30000).Draw(t, "mm")
		s := FormatFeetInches(mm)
		back, err := ParseLength(s, NoUnits)
		if err != nil || math.Abs(back-mm) > Inch/32+1e-6 {
			t.Fatalf("%v mm prints as %s and reads as %v (%v)", mm, s, back, err)
		}
	})
}

func TestFormatLengthMillimetres(t *testing.T) {
	for mm, want := range map[float64]string{2850: "2850", 2850.5: "2851", -0.2: "0", 91.2: "91"} {
		if got := FormatLength(mm, Millimetres); got != want {
			t.Errorf("FormatLength(%v) = %s; want %s", mm, got, want)
		}
	}
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"9ft 4-1/2in", "2.85 m", "1/2\"", "-", "''", "9'-", strings.Repeat("9", 308) + "ft"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, u := range []Units{NoUnits, Millimetres, Inches} {
			if v, err := ParseLength(s, u); err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Errorf("%q reads as %g", s, v)
			}
		}
	})
}

// A decimal comma is a decimal point (ISO 80000-1, 7.3.2, takes either as the
// decimal sign), but where three digits could be thousands.
func TestDecimalCommas(t *testing.T) {
	for text, want := range map[string]float64{"2,85 m": 2850, "12,5in": 317.5, "0,125 m": 125, "9ft 4,5in": 2857.5,
		"28,5cm": 285, "1,25 m": 1250, "1,2500 m": 1250} {
		if got, err := ParseLength(text, Millimetres); err != nil || math.Abs(got-want) > 1e-9 {
			t.Errorf("%q is %g (%v), want %g", text, got, err, want)
		}
	}
}
