package setting

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/fonts"
	"oxturn/layout/language"
)

// TestWrap: no line is wider than asked, no word is lost, and the count of
// lines agrees with the lines.
func TestWrap(t *testing.T) {
	ty := NewTypesetter(language.English)
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.StringMatching(`[a-zA-Z0-9äΩ²]{1,18}`), 0, 12).Draw(t, "words"), " ")
		w := rapid.Float64Range(6, 120).Draw(t, "width")
		lines := ty.Wrap(text, w)
		for _, l := range lines {
			if got := fonts.Width(fonts.Lettering, l, Note); got > w+1e-6 {
				t.Fatalf("%q is %.2f wide, more than %.2f", l, got, w)
			}
		}
		if got := strings.ReplaceAll(strings.Join(lines, ""), " ", ""); got != strings.ReplaceAll(text, " ", "") {
			t.Fatalf("%q became %q", text, got)
		}
		if n := ty.Lines(fonts.Lettering, text, Note, w); n != len(lines) {
			t.Fatalf("%q at %.1f: %d lines counted, %d set", text, w, n, len(lines))
		}
	})
}

// TestUnitsStay: a line never ends between a figure and its unit (ISO 80000-1:
// a space, at which nothing is torn apart) while the column has room for both.
func TestUnitsStay(t *testing.T) {
	ty := NewTypesetter(language.English)
	for _, text := range []string{
		"240 V, 552 W, 2.30 A", "58.4 to 67.7 Ω", "4.00 m, 2.50 m", "14.8 W/ft² (159 W/m²), round run 4",
		"tiled 23.2 ft² (2.16 m²), heated 15.1 ft²", "24 min to 50 min",
	} {
		for w := 24.0; w < 60; w += 0.5 {
			for _, l := range ty.Wrap(text, w)[1:] {
				first := strings.TrimRight(strings.Fields(l)[0], ",.;:)")
				for _, unit := range []string{"V", "W", "A", "Ω", "m", "W/ft²", "W/m²", "ft²", "m²", "min"} {
					if first == unit {
						t.Errorf("at %g mm %q parts from its figure: %q", w, unit, ty.Wrap(text, w))
					}
				}
			}
		}
	}
	if got := ty.Wrap("67.7 Ω", 9); len(got) != 2 || got[0] != "67.7" || got[1] != "Ω" {
		t.Errorf("in a column too narrow for both: %q", got)
	}
}

// TestInchesStay: nor between whole inches and their fraction: 2 3/4" is one
// figure (common practice).
func TestInchesStay(t *testing.T) {
	ty := NewTypesetter(language.English)
	for w := 24.0; w < 60; w += 0.5 {
		for _, l := range ty.Wrap(`moved 1'-0 1/16" (306 mm) east, now 0'-3 1/8" (80 mm) from wall B, 5'-2 3/4", or `+
			`2 1/2" more`, w)[1:] {
			if strings.Contains(strings.Fields(l)[0], "/") {
				t.Errorf("at %g mm a fraction begins the line %q", w, l)
			}
		}
	}
}

// TestLettersStay: nor between a wall and its letter.
func TestLettersStay(t *testing.T) {
	ty := NewTypesetter(language.English)
	for w := 20.0; w < 60; w += 0.5 {
		for _, l := range ty.Wrap("Channel crossing P1: 2 from D1 (wall C), 44 from D2 (wall AB). A wall of its own",
			w)[1:] {
			if first := strings.Fields(l)[0]; first == "C)," || first == "AB)." {
				t.Errorf("at %g mm a letter begins the line %q", w, l)
			}
		}
	}
}

func TestNoBreak(t *testing.T) {
	lines := NewTypesetter(language.English).Wrap("one"+NoBreak+"two three", 20)
	if lines[0] != "one two" {
		t.Errorf("%q", lines)
	}
}

// The words of a drawing are explained in the second language once each: a run's name has none of them, nor has its
// decimal sign another there.
func TestKeyOfWords(t *testing.T) {
	ty := NewTypesetter(language.English, language.German)
	key := wordKey([]string{"1.1", "2.14", "run 1.1", "run 2.14", "H1 START", "H2 START"}, ty)
	want := "run = Strang; H1 START = H1 ANFANG; H2 START = H2 ANFANG"
	if got := strings.ReplaceAll(strings.Join(key.Paras, "|"), NoBreak, " "); got != want {
		t.Errorf("the key says %q, not %q", got, want)
	}
}

// A long key is both languages' already: looked for in the second it would take minutes.
func TestLongKeyIsSetAtOnce(t *testing.T) {
	ty := NewTypesetter(language.English, language.German)
	var pairs []string
	for i := range 200 {
		pairs = append(pairs, fmt.Sprintf("H%d START = H%d ANFANG", i, i))
	}
	key := keyOf(pairs, language.English)
	if got := key.both(ty, key.Paras[0]); got != key.Paras[0] {
		t.Errorf("the key is put into the second language: %q", got)
	}
}
