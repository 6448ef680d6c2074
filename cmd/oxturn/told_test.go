package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// askedInEach are command lines that print much of what there is to print, for jobs that are well and others.
var askedInEach = []string{
	"check bath.toml", "check kitchen.toml", "check entry.toml", "check long.toml", "check short.toml",
	"check lead.toml", "check none.toml", "check --format csv bath.toml",
	"choose bath.toml --all", "choose tiny.toml --box A", "choose tiny.toml --box X",
	"draw bath.toml --only layout,takeoff -o out", "draw tiny.toml bath.toml --only layout -o out", "draw --only x",
	"compare bath.toml entry.toml", "compare bath.toml tiny.toml",
	"refit bath.toml --runs 11 --mark 11,26", "refit bath.toml --mark 11,20 --once", "refit bath.toml --mark 11,40",
	"refit bath.toml --runs 22 --mark 11,10", "refit bath.toml", "refit bath.toml --run x",
	"probe bath.toml --at 30,40", "probe bath.toml --wall B --from 26in --up 40in", "probe bath.toml --at 30",
	"probe bath.toml", "fault bath.toml --short 19.0", "fault bath.toml --earth 52.9,1221.0,1231.9",
	"fault bath.toml --capacitance 3.15 --whole-capacitance 9.0", "fault bath.toml --echo-time 100 --velocity PE",
}

// driven writes the example jobs, and some of which the cable does not suit, into a folder.
func driven(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	read := map[string]string{}
	for _, name := range []string{"bath.toml", "kitchen.toml", "entry.toml", "cables.toml", "prices.csv"} {
		data, err := os.ReadFile(filepath.Join("../../testdata/jobs", name))
		if err != nil {
			t.Fatal(err)
		}
		read[name] = string(data)
		write(name, read[name])
	}
	length := regexp.MustCompile(`(?m)^length = .*$`)
	write("tiny.toml", tinyJob)
	write("long.toml", length.ReplaceAllString(tinyJob, `length = "60 m"`))
	write("short.toml", length.ReplaceAllString(tinyJob, `length = "5 m"`))
	write("lead.toml", regexp.MustCompile(`(?m)^lead = .*$`).ReplaceAllString(tinyJob, `lead = "1.5 m"`))
	return dir
}

var (
	// asWritten is what stands in an answer as it does in a job file, on a command line or in a standard's name.
	asWritten = regexp.MustCompile(`Upper bath floor|Kitchen floor|Entry hall floor|Bath|tile \+1|tile bed|` +
		`cable, sensors and tests|peg fill, tile and grout|pegged membrane, filled|porcelain tile|` +
		`"(?:[^"\\]|\\.)*"|\[[^\]]*\]|[\w.]+ = \S+|--?[\w-]+|\S*(?:json|toml|csv)\S*|` +
		`\b(?:as laid|for installation)\b`)
	// inEnglish are words that an English message has and none in another language.
	inEnglish = regexp.MustCompile(`(?i)(?:^|[^\pL])(the|is|of|which|with|that|are|has|not|and|its|they|where|write|` +
		`than|may|for|your|look|but|at|from|to|lies|left|between|above|below|cable lies|runs|lead|room|wall|pegs|` +
		`sheet|joint|sensor lead|tile|floor|heat|warm|limit|load|given|allowed|laid|nothing|whole|spare|spacing)` +
		`(?:$|[^\pL])`)
)

// TestNoVerbSaysEnglish: what the verbs print for people in another language has no English word left but those
// that are typed, and names.
func TestNoVerbSaysEnglish(t *testing.T) {
	t.Chdir(driven(t))
	for _, tag := range []string{"es", "fr", "de"} {
		lines := 0
		for _, line := range askedInEach {
			var out, err bytes.Buffer
			args := append(strings.Fields(line), "--language", tag)
			Run(context.Background(), args, strings.NewReader(""), &out, &err)
			for said := range strings.Lines(out.String() + err.String()) {
				lines++
				left := asWritten.ReplaceAllString(said, "")
				if word := inEnglish.FindStringSubmatch(left); word != nil && !alike(tag, word[1]) && !isExcerpt(said) {
					t.Errorf("%s, %s: %q in %q", tag, line, word[1], strings.TrimSpace(said))
				}
			}
		}
		if lines < 300 {
			t.Errorf("%s: %d lines", tag, lines)
		}
	}
}

// alike reports whether an English word is one of the language too.
func alike(tag, word string) bool {
	switch tag {
	case "fr":
		return strings.EqualFold(word, "joint") || strings.EqualFold(word, "limite")
	case "de":
		return strings.EqualFold(word, "warm")
	}
	return false
}

// isExcerpt reports whether a line shows a line of the job file, with its number or a mark below it.
func isExcerpt(line string) bool {
	before, _, found := strings.Cut(line, "|")
	return found && strings.Trim(before, " 0123456789") == ""
}
