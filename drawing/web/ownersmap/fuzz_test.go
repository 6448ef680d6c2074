package ownersmap

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

var (
	anyTag       = regexp.MustCompile(`(?s)<([/!]?[a-zA-Z][^\s>/]*)((?:\s+[^\s=>"]+(?:="[^"]*")?)*)\s*/?>`)
	anyAttribute = regexp.MustCompile(`([^\s="]+)(?:="[^"]*")?`)
	scriptOf     = regexp.MustCompile(`(?s)(<script[^>]*>)(.*?)(</script>)`)
)

// FuzzText puts any text in every place where a job's text goes: the page has
// the elements and attributes that it has otherwise, and none more, no angle
// bracket is left in its text, and its data can be read.
func FuzzText(f *testing.F) {
	for _, s := range []string{"Bath", `"><script>x</script>`, "</script>", "<!--", "' onload='x", "a\x00b\xff",
		"&lt;&#34;", "{{.}}", "\u2028`${1}`", "=", "\r\n"} {
		f.Add(s)
	}
	plain := tags(write(f, samplePlan(plane.Millimetres, job.AsLaid, "Bath")))
	f.Fuzz(func(t *testing.T, s string) {
		if s == "" {
			return // what is not said is left out
		}
		page := write(t, samplePlan(plane.Millimetres, job.AsLaid, s))
		if got := tags(page); !slices.Equal(got, plain) {
			t.Errorf("%q: the page's elements are\n%v, want\n%v", s, got, plain)
		}
		rest := anyTag.ReplaceAllString(scriptOf.ReplaceAllString(page, "$1$3"), "")
		if _, rest, _ = strings.Cut(rest, "</style>"); strings.ContainsAny(rest, "<>") {
			t.Errorf("%q leaves an angle bracket: %s", s, rest)
		}
		scripts := scriptOf.FindAllStringSubmatch(page, -1)
		if len(scripts) != 3 || !json.Valid([]byte(scripts[0][2])) || !json.Valid([]byte(scripts[1][2])) {
			t.Errorf("%q: %d scripts, or data that is not JSON", s, len(scripts))
		}
	})
}

// tags are the elements of a page in their order, each with the names of its
// attributes.
func tags(page string) []string {
	var out []string
	for _, m := range anyTag.FindAllStringSubmatch(scriptOf.ReplaceAllString(page, "$1$3"), -1) {
		tag := m[1]
		for _, a := range anyAttribute.FindAllStringSubmatch(m[2], -1) {
			tag += " " + a[1]
		}
		out = append(out, tag)
	}
	return out
}
