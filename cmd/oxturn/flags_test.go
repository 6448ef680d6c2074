package main

import (
	"strings"
	"testing"
)

// TestColoured follows the rules of no-color.org and bixense.com/clicolors.
func TestColoured(t *testing.T) {
	for _, c := range []struct {
		when     string
		terminal bool
		env      string
		want     bool
	}{
		{"auto", true, "", true},
		{"auto", false, "", false},
		{"auto", true, "NO_COLOR=1", false},
		{"auto", true, "TERM=dumb", false},
		{"auto", false, "FORCE_COLOR=1", true},
		{"auto", false, "CLICOLOR_FORCE=1", true},
		{"auto", false, "CLICOLOR_FORCE=0", false},
		{"auto", false, "FORCE_COLOR=1 NO_COLOR=1", false},
		{"always", false, "NO_COLOR=1", true},
		{"never", true, "FORCE_COLOR=1", false},
	} {
		env := func(name string) string {
			for _, f := range strings.Fields(c.env) {
				if v, ok := strings.CutPrefix(f, name+"="); ok {
					return v
				}
			}
			return ""
		}
		if got := coloured(c.when, c.terminal, env); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// TestHelpNamesEveryFlag compares each verb's help with the flags it takes: a
// flag in the help must be known.
func TestHelpNamesEveryFlag(t *testing.T) {
	for _, v := range verbs() {
		for _, f := range helpFlags(v) {
			_, said, _ := call(t, v.name, f.name)
			if strings.Contains(said, "there is no flag") {
				t.Errorf("%s: its help has %s: %s", v.name, f.name, said)
			}
		}
		if n := strings.Count(v.help, "\n"); n > 45 {
			t.Errorf("%s: its help has %d lines, more than a screen", v.name, n)
		}
		for _, line := range strings.Split(v.help, "\n") {
			if len([]rune(line)) > 80 {
				t.Errorf("%s: its help has a line of %d characters: %s", v.name, len(line), line)
			}
		}
	}
}

func TestDidYouMean(t *testing.T) {
	for word, want := range map[string]string{"chekc": `; did you mean "check"?`, "x": "", "zzzzzz": "",
		"draw": `; did you mean "draw"?`} {
		if got := didYouMean(word, verbNames()); got != want {
			t.Errorf("%s: %q", word, got)
		}
	}
}
