package sheets

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/language"
)

// TestSecondLanguageAsInItsOwnSet: what a sheet says in a second language, found from the first alone, is what a set
// in that language says itself; and next to nothing that it says is left in the first alone. All jobs of a folder:
// go test -v ./drawing/sheets -run SecondLanguage -jobs FOLDER.
func TestSecondLanguageAsInItsOwnSet(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(*jobsIn, "*.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range append(files, exampleFile("bath")) {
		t.Run(filepath.Base(file), func(t *testing.T) { secondLanguage(t, file) })
	}
}

func secondLanguage(t *testing.T, file string) {
	t.Helper()
	sets := map[language.Language]map[string]string{}
	for _, l := range append([]language.Language{language.English}, languages...) {
		p, err := plannedFile(file)
		if err != nil {
			t.Log(err) // what is refused is not drawn
			return
		}
		p.Job.Language = l
		sets[l] = saidOn(t, p)
	}
	words := regexp.MustCompile(`\p{L}{4,}`)
	for _, pair := range [][2]language.Language{{language.English, language.Spanish}, {language.English,
		language.French}, {language.English, language.German}, {language.German, language.French},
		{language.Spanish, language.English}} {
		asked, left, wrong := 0, 0, 0
		for _, text := range sets[pair[0]] {
			_, alike := sets[pair[1]][unplaced(text)]
			other := pair[0].Also(text, pair[1])
			if !words.MatchString(text) || alike || pair[0] != language.English && !strings.Contains(text, " ") {
				continue // a name, or the job's own words; or one word for what is two in another language
			}
			asked++
			switch {
			case other == "":
				left++
				if testing.Verbose() {
					t.Logf("%s: left alone: %s", pair[1].Tag(), text)
				}
			case sets[pair[1]][unplaced(other)] == "":
				wrong++
				t.Logf("%s to %s: %q: %q", pair[0].Tag(), pair[1].Tag(), text, other)
			}
		}
		t.Logf("%s to %s: %d of %d texts left alone", pair[0].Tag(), pair[1].Tag(), left, asked)
		if wrong > 0 && pair[0] == language.English || wrong*20 > asked { // others have one word for two
			t.Errorf("%s to %s: %d texts are said otherwise than in a set of its own", pair[0].Tag(), pair[1].Tag(),
				wrong)
		}
		if left*20 > asked { // a twentieth at most
			t.Errorf("%s to %s: %d of %d texts stand in the first language alone", pair[0].Tag(), pair[1].Tag(), left,
				asked)
		}
	}
}

// saidOn is what stands in the blocks of a set, but for entries with figures: headings, paragraphs, heads of columns
// and words.
func saidOn(t *testing.T, p *layout.Plan) map[string]string {
	t.Helper()
	pages, err := setPages(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	add := func(text string) { out[unplaced(text)] = text }
	for _, pg := range pages {
		if pg.Sheet.ID == takeOffID {
			continue // its items are with or without what they rest on, as there is room
		}
		for _, b := range slices.Concat(pg.Blocks, pg.Over) {
			switch b := setting.Unmeasured(b).(type) {
			case setting.List:
				add(strings.TrimSuffix(b.Head, " (continued)"))
				for _, para := range b.Paras {
					add(para)
				}
			case setting.Table:
				add(strings.TrimSuffix(b.Head, " (continued)"))
				for _, c := range b.Cols {
					add(c.Head)
				}
				for _, r := range b.Rows {
					for k, c := range r[:min(len(r), len(b.Cols))] {
						if b.Cols[k].Wraps && (k == 0 || !strings.ContainsAny(c.Text, "0123456789")) {
							add(c.Text)
						}
					}
				}
			}
		}
	}
	return out
}

// unplaced is a text without what its place in a line gives it.
func unplaced(text string) string {
	return strings.ToLower(strings.ReplaceAll(text, setting.NoBreak, " "))
}
