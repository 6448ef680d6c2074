package sheets

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// Which languages and papers TestSetsOfAFolderInEachLanguage goes over; "+" joins two of one sheet. All of them:
// go test ./drawing/sheets -run InEachLanguage -jobs FOLDER -languages es,fr,de,en+es,de+fr -papers A4,letter
var (
	languagesOf = flag.String("languages", "de", "hold the rules of sheets in these languages, such as fr or en+es")
	papersOf    = flag.String("papers", "letter", "and on these papers")
	unitsOf     = flag.String("units", "", "and in these units, such as mm,in; those of the job where none are given")
)

// TestSetsOfAFolderInEachLanguage: the rules of sheets hold in any language for jobs that were not drawn up for
// them, and no English word stays.
func TestSetsOfAFolderInEachLanguage(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(*jobsIn, "*.toml"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no jobs in %s: %v", *jobsIn, err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			p, err := plannedFile(file)
			if err != nil {
				t.Log(err) // what is refused is not drawn
				return
			}
			for _, tags := range strings.Split(*languagesOf, ",") {
				read := languagesNamed(t, tags)
				p.Job.Language, p.Job.Also, p.Job.Governs = read[0], read[1:], read[0]
				for _, paper := range strings.Split(*papersOf, ",") {
					for _, units := range strings.Split(*unitsOf, ",") {
						t.Run(strings.TrimSpace(tags+" "+paper+" "+units), func(t *testing.T) {
							p.Job.Sheet.Size = paper
							if units != "" {
								p.Job.Sheet.Units = unitsNamed(t, units)
							}
							d, err := draw(p)
							if err != nil {
								t.Fatal(err)
							}
							d.checked(t)
							if len(read) == 1 {
								foreign(t, d, read[0], string(text))
							}
						})
					}
				}
			}
		})
	}
}

// languagesNamed are those of tags such as "en+es".
func languagesNamed(t *testing.T, tags string) (out []language.Language) {
	t.Helper()
	for _, tag := range strings.Split(tags, "+") {
		l, ok := language.Named(tag)
		if !ok {
			t.Fatalf("no language %q", tag)
		}
		out = append(out, l)
	}
	return out
}

// unitsNamed are those of a word such as "mm".
func unitsNamed(t *testing.T, name string) plane.Units {
	t.Helper()
	for _, u := range []plane.Units{plane.Millimetres, plane.Inches} {
		if u.String() == name {
			return u
		}
	}
	t.Fatalf("no units %q", name)
	return plane.Millimetres
}
