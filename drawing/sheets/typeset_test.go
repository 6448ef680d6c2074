package sheets

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/fonts"
)

// TestWrap: no line is wider than asked, no word is lost, and the count of
// lines agrees with the lines.
func TestWrap(t *testing.T) {
	ty := newTypesetter()
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.StringMatching(`[a-zA-Z0-9äΩ²]{1,18}`), 0, 12).Draw(t, "words"), " ")
		w := rapid.Float64Range(6, 120).Draw(t, "width")
		lines := ty.wrap(text, w)
		for _, l := range lines {
			if got := fonts.Width(fonts.Lettering, l, note); got > w+1e-6 {
				t.Fatalf("%q is %.2f wide, more than %.2f", l, got, w)
			}
		}
		if got := strings.ReplaceAll(strings.Join(lines, ""), " ", ""); got != strings.ReplaceAll(text, " ", "") {
			t.Fatalf("%q became %q", text, got)
		}
		if n := ty.lines(fonts.Lettering, text, note, w); n != len(lines) {
			t.Fatalf("%q at %.1f: %d lines counted, %d set", text, w, n, len(lines))
		}
	})
}

func TestNoBreak(t *testing.T) {
	lines := newTypesetter().wrap("one"+noBreak+"two three", 20)
	if lines[0] != "one two" {
		t.Errorf("%q", lines)
	}
}
