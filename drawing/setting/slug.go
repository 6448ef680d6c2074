package setting

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// spelling are Latin letters that no accent can be taken off, and the German ones
// whose spelling without dots has an e.
var spelling = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "æ", "ae", "œ", "oe", "ø", "oe",
	"ł", "l",
	"đ", "d", "ð", "d", "þ", "th", "ı", "i")

// Slug turns a name into part of a file's name, the same on every system. Latin
// letters lose their accents, as zip tools and old shells garble those; letters
// of other scripts stay, since nothing else would tell two rooms apart.
func Slug(s string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(spelling.Replace(norm.NFC.String(strings.ToLower(s)))) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.Mn, r) && !latinAccent(r):
			b.WriteRune(r)
		case unicode.Is(unicode.Mn, r):
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	return norm.NFC.String(strings.TrimSuffix(b.String(), "-"))
}

// latinAccent reports whether a mark is one that Latin letters carry.
func latinAccent(r rune) bool { return r >= '\u0300' && r <= '\u036f' }
