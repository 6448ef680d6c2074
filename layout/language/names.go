package language

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A name that a user gave stands hidden in a text while it is told: as one sign of a private plane, which no
// message has, so that nothing of the name is taken for a word.
const (
	hiddenFrom = 0xF0000
	mostNames  = 30000 // of which each takes two signs: as it is, and as it stands in quotes
)

func isHidden(r rune) bool { return r >= hiddenFrom }

// hide puts a sign in the place of every name.
func (t Teller) hide(text string) string {
	for i, name := range t.names {
		if quoted := strconv.Quote(name); strings.Contains(text, quoted) {
			text = strings.ReplaceAll(text, quoted, `"`+string(rune(hiddenFrom+2*i+1))+`"`)
		}
	}
	for i, name := range t.names {
		if utf8.RuneCountInString(name) > 1 && strings.Contains(text, name) { // no message is one letter
			text = hideWord(text, name, string(rune(hiddenFrom+2*i)))
		}
	}
	return text
}

// hideWord puts a sign in the place of a name where it stands by itself, not within a longer word or figure.
func hideWord(text, name, sign string) string {
	var out strings.Builder
	done := 0
	for {
		at := strings.Index(text[done:], name)
		if at < 0 {
			return out.String() + text[done:]
		}
		from, to := done+at, done+at+len(name)
		before, _ := utf8.DecodeLastRuneInString(text[:from])
		after, _ := utf8.DecodeRuneInString(text[to:])
		out.WriteString(text[done:from])
		if isOfWord(before) || isOfWord(after) || strings.ContainsRune(".,'", after) && startsFigure(text[to+1:]) {
			out.WriteString(name)
		} else {
			out.WriteString(sign)
		}
		done = to
	}
}

func isOfWord(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '_' || r == '-' || r == '\''
}

func startsFigure(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

// shown puts the names back.
func (t Teller) shown(text string) string { return t.shownWhere(text, true) }

// shownWhere puts the names back, those in quotes where they are wanted.
func (t Teller) shownWhere(text string, quoted bool) string {
	if !strings.ContainsFunc(text, isHidden) {
		return text
	}
	var out strings.Builder
	for _, r := range text {
		i := int(r) - hiddenFrom
		switch {
		case i < 0 || i/2 >= len(t.names) || i%2 == 1 && !quoted:
			out.WriteRune(r)
		case i%2 == 0:
			out.WriteString(t.names[i/2])
		default:
			written := strconv.Quote(t.names[i/2])
			out.WriteString(written[1 : len(written)-1])
		}
	}
	return out.String()
}
