package sheets

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing/signs"
	"oxturn/fonts"
	"oxturn/layout/gocode"
	"oxturn/layout/language"
)

// languages are those with a catalogue.
var languages = []language.Language{language.Spanish, language.French, language.German}

// TestEveryMessageHasAnEntry: whatever the code puts into the reader's language, and every sign
// and kind of sheet, has an entry in every catalogue.
func TestEveryMessageHasAnEntry(t *testing.T) {
	said := messages(t, "../../drawing", "../../layout")
	for s := signs.Cable; s < signs.Count; s++ {
		said[s.Words()] = true
	}
	for _, k := range Kinds() {
		said[k.Title], said[k.Form] = true, true
	}
	if len(said) < 500 {
		t.Fatalf("%d messages found", len(said))
	}
	for _, l := range languages {
		has := l.Entries()
		for _, m := range slices.Sorted(maps.Keys(said)) {
			if _, ok := has[m]; !ok {
				t.Errorf("%s has no %q", l.Tag(), m)
			}
		}
	}
}

// TestEveryLetterIsInTheFaces: whatever stands in a catalogue can be set, bold and not.
func TestEveryLetterIsInTheFaces(t *testing.T) {
	for _, l := range languages {
		all, err := os.ReadFile("../../layout/language/" + l.Tag() + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range fonts.Faces() {
			if gone := fonts.Missing(f, strings.ReplaceAll(string(all), "\n", "")); gone != nil {
				t.Errorf("%s: %s has no %q", l.Tag(), f.Name(), string(gone))
			}
		}
	}
}

// saysAt are the functions that put a text into the reader's language, with the argument that is
// the text: language's own, and those of the take-off and of the test record that hand it on.
var saysAt = map[string]int{"Text": 0, "Textf": 0, "Say": 0, "ask": 0, "note": 0, "say": 2}

// messages are the texts that the code of some folders hands on to be said.
func messages(t *testing.T, folders ...string) map[string]bool {
	t.Helper()
	out, files := map[string]bool{}, token.NewFileSet()
	add := func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok || len(call.Args) == 0 {
			return true
		}
		of, ok := call.Fun.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		at, says := saysAt[of.Sel.Name]
		if !says || at >= len(call.Args) {
			return true
		}
		m, ok := gocode.Text(call.Args[at])
		if ok && strings.HasSuffix(of.Sel.Name, "Of") {
			meaning, _ := gocode.Text(call.Args[0])
			m = meaning + "|" + m
		}
		if ok && m != "" {
			out[m] = true
		}
		return true
	}
	for _, folder := range folders {
		err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(files, path, nil, parser.SkipObjectResolution)
			if err == nil {
				ast.Inspect(file, add)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// drawnIn are the languages that an example is drawn in: the longest words beside the most
// fixtures, all three on the smallest paper.
var drawnIn = map[string][]language.Language{"bath": languages, "kitchen": {language.German},
	"entry": {language.French}}

// TestSheetsInEachLanguage: the rules of sheets hold in every language, and no sheet has an
// English word left but names.
func TestSheetsInEachLanguage(t *testing.T) {
	for _, name := range examples {
		job, err := os.ReadFile(exampleFile(name))
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range drawnIn[name] {
			t.Run(name+" "+l.Tag(), func(t *testing.T) {
				p, err := plannedFile(exampleFile(name))
				if err != nil {
					t.Fatal(err)
				}
				p.Job.Language = l
				if name != "entry" {
					p.Job.Sheet.Size = map[string]string{"bath": "letter", "kitchen": "A4"}[name]
				}
				d, err := draw(p)
				if err != nil {
					t.Fatal(err)
				}
				d.checked(t)
				foreign(t, d, l, string(job))
			})
		}
	}
}

var (
	word  = regexp.MustCompile(`\p{L}{4,}`)
	verbs = regexp.MustCompile(`%(\[\d\])?[-+0-9.]*[a-z]`)
)

// foreign holds the words of a set against those of the catalogue and of the job.
func foreign(t *testing.T, d drawnSet, l language.Language, job string) {
	t.Helper()
	known := map[string]bool{}
	add := func(text string) {
		for _, w := range word.FindAllString(strings.ToLower(text), -1) {
			known[w] = true
		}
	}
	add(job)
	add("tabloid letter arch ansi class table method") // papers, and where standards are cited
	entries, said := l.Entries(), map[string]bool{}
	for _, text := range entries {
		said[text] = true
	}
	for _, said := range entries {
		add(verbs.ReplaceAllString(said, " "))
	}
	for _, s := range d.set {
		for _, x := range s.Texts() {
			if _, is := entries[x.Text]; is && !said[x.Text] && !known[strings.ToLower(x.Text)] && len(x.Text) > 3 {
				t.Errorf("%s: %q stays English", s.ID, x.Text)
			}
			for _, w := range word.FindAllString(strings.ToLower(x.Text), -1) {
				if !known[w] {
					t.Errorf("%s: %q in %q", s.ID, w, x.Text)
				}
			}
		}
	}
}

// TestSheetsInTwoLanguages: the rules of sheets hold where cautions, headings and legend stand in
// two languages, on small and on large paper, the longest two words in German and French; every
// caution is in both, with which of them governs.
func TestSheetsInTwoLanguages(t *testing.T) {
	for _, k := range []struct {
		size       string
		lead, also language.Language
	}{{"letter", language.English, language.Spanish}, {"A4", language.English, language.Spanish},
		{"A2", language.English, language.Spanish}, {"A4", language.German, language.French}} {
		t.Run(k.size+" "+k.lead.Tag(), func(t *testing.T) {
			p, err := plannedFile(exampleFile("bath"))
			if err != nil {
				t.Fatal(err)
			}
			p.Job.Language, p.Job.Also, p.Job.Sheet.Size = k.lead, []language.Language{k.also}, k.size
			p.Job.Governs = k.lead
			d, err := draw(p)
			if err != nil {
				t.Fatal(err)
			}
			d.checked(t)
			if k.lead != language.English {
				return
			}
			var all strings.Builder
			for _, s := range d.set {
				for _, x := range s.Texts() {
					all.WriteString(x.Text + " ")
				}
			}
			for c := aidOnly; c <= finishLimits; c++ {
				english := c.text(p.Job.Region(), p.Job.Figures())
				spanish := p.Job.Figures()
				spanish.Language = language.Spanish
				if both := english + " / " + c.text(p.Job.Region(), spanish); strings.Contains(all.String(), english) &&
					!strings.Contains(all.String(), both) {
					t.Errorf("without its translation: %s", english)
				}
			}
			for _, want := range []string{"English governs. / Rige el texto inglés.", "Cautions / Precauciones",
				"Legend / Leyenda", "DO NOT DRILL / NO TALADRAR",
				"Not yet laid: mark every change. / Aún sin tender: marcar cada cambio."} {
				if !strings.Contains(all.String(), want) {
					t.Errorf("no %q", want)
				}
			}
			if band := "FOR INSTALLATION / PARA INSTALAR"; k.size == "A2" && !strings.Contains(all.String(), band) {
				t.Errorf("no %q", band)
			}
		})
	}
}
