package page

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"oxturn/layout/language"
)

var (
	sayings  = regexp.MustCompile(`\b(?:say|message)\(("(?:[^"\\]|\\.)*")`)
	literals = regexp.MustCompile("\"(?:[^\"\\\\\n]|\\\\.)*\"|`[^`]*`")
	sentence = regexp.MustCompile(`[A-Za-z]{2,},? [A-Za-z]{2,}`)
	comments = regexp.MustCompile(`(?m)(^|\s)//.*$`)
	inMarkup = regexp.MustCompile(`>([^<>]*[A-Za-z]{2}[^<>]*)<|(?:aria-label|title)="([^"]*)"`)
	entities = regexp.MustCompile(`&[#a-z0-9]+;`)
)

// said are what the page's own scripts say, and the texts of its markup, which words.js puts in
// the reader's language as they stand.
func said(t *testing.T) (out []string) {
	t.Helper()
	for _, m := range sayings.FindAllStringSubmatch(strings.Join(sources(pageScripts...), ""), -1) {
		text, err := strconv.Unquote(m[1])
		if err != nil {
			t.Fatalf("%s: %v", m[1], err)
		}
		out = append(out, text)
	}
	_, body, _ := strings.Cut(sourceFile("page.html"), "<body>")
	for _, m := range inMarkup.FindAllStringSubmatch(body, -1) {
		text := strings.TrimSpace(entities.ReplaceAllString(m[1]+m[2], ""))
		if text != "" && text != "oxturn" && text != "starting" { // replaced at once, by what is said in words
			out = append(out, text)
		}
	}
	return out
}

// TestEveryWordOfThePageHasAnEntry: whatever the page says of itself is in every catalogue, and no
// catalogue has what it does not say.
func TestEveryWordOfThePageHasAnEntry(t *testing.T) {
	all := said(t)
	if len(all) < 250 {
		t.Fatalf("%d messages found", len(all))
	}
	for _, l := range []language.Language{language.Spanish, language.French, language.German} {
		has := l.OnPage()
		for _, m := range all {
			if _, ok := has[m]; !ok {
				t.Errorf("%s has no %q", l.Tag(), m)
			}
		}
		for m := range has {
			if !slices.Contains(all, m) {
				t.Errorf("%s: nobody says %q", l.Tag(), m)
			}
		}
	}
}

// notSaid are texts of two words that nobody reads: classes, attributes, what the job file has.
var notSaid = []string{"use strict", "photo with tape", "plan only", "over moved", "over chosen", "row nudges",
	"script, style", "north 1 m"}

// TestThePageSaysNothingInEnglishAlone: no text of words stands in its scripts but in what is said
// in the reader's language.
func TestThePageSaysNothingInEnglishAlone(t *testing.T) {
	script := strings.Join(sources(pageScripts...), "")
	rest := comments.ReplaceAllString(sayings.ReplaceAllString(script, "say("), "")
	for _, text := range literals.FindAllString(rest, -1) {
		words := sentence.FindString(text)
		if words != "" && !slices.ContainsFunc(notSaid, func(s string) bool { return strings.Contains(text, s) }) &&
			!strings.ContainsAny(text, "[]{}") && text[1] != '#' && text[1] != '.' {
			t.Errorf("the script has %s", text)
		}
	}
}
