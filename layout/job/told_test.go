package job

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/gocode"
	"oxturn/layout/language"
)

var (
	asTyped = regexp.MustCompile(`photo with tape|"(?:[^"\\]|\\.)*"|\[[^\]]*\]|[\w.]+ = \S+`)
	english = regexp.MustCompile(`(?:^|[^\pL])(the|is|of|which|with|that|are|has|not|and|its|` +
		`they|where|write|than|may|for|your|look|but)(?:$|[^\pL])`)
)

// TestToldInEachLanguage: what is wrong with the job files kept for it is said without an English word but those
// of the file.
func TestToldInEachLanguage(t *testing.T) {
	var files []string
	for _, folder := range []string{"bad", "awkward"} {
		found, err := filepath.Glob(filepath.Join("testdata", folder, "*.toml"))
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, found...)
	}
	said := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		_, r := Read(filepath.Base(file), data, func(name string) ([]byte, error) {
			return os.ReadFile(filepath.Join(filepath.Dir(file), name))
		})
		for _, d := range r.Diagnostics() {
			texts := []string{d.Message, d.Hint}
			for _, n := range d.Notes {
				texts = append(texts, n.Message)
			}
			for _, text := range texts {
				said++
				for _, l := range []language.Language{language.Spanish, language.French, language.German} {
					if told := l.Retold(text); english.MatchString(asTyped.ReplaceAllString(told, "")) {
						t.Errorf("%s, %s: %q of %q", filepath.Base(file), l.Tag(), told, text)
					}
				}
			}
		}
	}
	if said < 300 {
		t.Errorf("%d texts", said)
	}
}

// saysAt are the functions that say what is wrong, and which of their arguments are texts.
var saysAt = map[string][]int{"errorf": {1, 2}, "Errorf": {0, 1, 2}, "Warnf": {2, 3}, "with": {1, 3}, "New": {0}}

// TestEveryErrorHasAnEntry: whatever this package says of a file, and what it says to do, is in every catalogue of
// what the command says.
func TestEveryErrorHasAnEntry(t *testing.T) {
	said := map[string]bool{}
	for _, folder := range []string{".", "tree", "../plane"} {
		files, err := filepath.Glob(filepath.Join(folder, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(file, func(n ast.Node) bool {
				for _, text := range textsSaid(n) {
					said[strings.ReplaceAll(text, "%w", "%v")] = true
				}
				return true
			})
		}
	}
	if len(said) < 300 {
		t.Fatalf("%d messages found", len(said))
	}
	for _, l := range []language.Language{language.Spanish, language.French, language.German} {
		has := l.Spoken()
		for text := range said {
			if _, ok := has[text]; !ok {
				t.Errorf("%s has no %q", l.Tag(), text)
			}
		}
	}
}

// ofOurs are texts for whoever changes the program.
var ofOurs = []string{"%g mm² came out of %g", "band of %g mm: %w", "offset by %g mm: %w", "difference of regions: %w",
	"intersection of regions: %w", "union of regions: %w"}

// textsSaid are the texts with words that a call says.
func textsSaid(n ast.Node) (out []string) {
	call, ok := n.(*ast.CallExpr)
	if !ok {
		return nil
	}
	of, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return nil
	}
	for _, i := range saysAt[of.Sel.Name] {
		if i >= len(call.Args) {
			continue
		}
		text, ok := gocode.Text(call.Args[i])
		if ok && words.MatchString(verbs.ReplaceAllString(text, "")) && !slices.Contains(ofOurs, text) {
			out = append(out, text)
		}
	}
	return out
}

var (
	verbs = regexp.MustCompile(`%(\[\d\])?[-+0-9.]*[a-z]`)
	words = regexp.MustCompile(`\pL{2,}.* \pL`)
)
