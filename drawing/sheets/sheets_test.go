package sheets

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/pdf"
	"oxturn/drawing/setting"
	"oxturn/layout/plane"
)

// write leaves the sheets as a PDF in the directory that OXTURN_SHEETS names,
// for looking at.
func write(t *testing.T, name string, sheets []*drawing.Sheet) {
	t.Helper()
	dir := os.Getenv("OXTURN_SHEETS")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name+".pdf"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := pdf.Write(f, sheets, pdf.Info{Title: name}); err != nil {
		t.Fatal(err)
	}
}

func TestSetOfSample(t *testing.T) {
	for _, u := range []plane.Units{plane.Millimetres, plane.Inches} {
		d := sample(t, u)
		d.checked(t)
		write(t, "sample-"+u.String(), d.set)
	}
}

// TestPapers draws the sample on papers of all kinds, with both units: the smallest and a
// large one both ways up.
func TestPapers(t *testing.T) {
	for name, ways := range map[string][]string{"A4": {"portrait", "landscape"}, "letter": {"portrait"},
		"A3": {"landscape"}, "tabloid": {"portrait"}, "arch D": {"portrait", "landscape"}} {
		paper, _ := drawing.PaperNamed(name)
		for _, way := range ways {
			p := samplePlan(t, plane.Millimetres)
			p.Job.Sheet.Size, p.Job.Sheet.Orientation, p.Job.Sheet.Both = paper.Name, way, true
			sheets, err := Set(p)
			if err != nil {
				t.Errorf("%s %s: %v", paper.Name, way, err)
				continue
			}
			write(t, "sample-"+setting.Slug(paper.Name)+"-"+way, sheets)
			checkSheets(t, sheets)
			binder := setting.FormPaper(p.Job)[0].Name // TestOneTray has which
			for _, s := range sheets {
				form := slices.Contains([]string{"TO", "TR", "DT"}, codeOf(s.ID))
				if form && (codeOf(s.ID) != "DT" || !setting.IsSmall(paper)) {
					if s.Paper.Name != binder || s.Paper.W > s.Paper.H {
						t.Errorf("%s %s: the form %s is on %v", paper.Name, way, s.ID, s.Paper)
					}
					continue
				}
				if strings.HasPrefix(s.ID, "owner-map") { // on what is handed over, whatever the set is drawn on
					if s.Paper.Name != binder || strings.HasSuffix(s.ID, "notes") {
						t.Errorf("%s %s: the owner's map is on %v, %s", paper.Name, way, s.Paper, s.ID)
					}
					continue
				}
				if codeOf(s.ID) == "NT" && s.Paper.Name == binder { // as little as one such sheet holds
					continue
				}
				if s.Paper.Name != paper.Name || (s.Paper.W > s.Paper.H) != (way == "landscape") {
					t.Errorf("%s %s: drawn on %v", paper.Name, way, s.Paper)
				}
			}
		}
	}
}

// TestAskedScale: the scale asked for is used, and one that cannot fit is an
// error with the figures.
func TestAskedScale(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	p.Job.Sheet.Scale, p.Job.Sheet.Ratio = "1:50", 50
	sheets, err := Set(p)
	if err != nil || sheets[0].Ratio != 50 {
		t.Errorf("asked for 1:50, got 1:%g, %v", sheets[0].Ratio, err)
	}
	p.Job.Sheet.Scale, p.Job.Sheet.Ratio = "1:2", 2
	p.Job.Sheet.Size = "A4"
	_, err = Set(p)
	var r *setting.Refusal
	if !errors.As(err, &r) || r.Key != "sheet.scale" || !strings.Contains(err.Error(), "1:2 ") ||
		!strings.Contains(err.Error(), "A4") {
		t.Errorf("a scale that cannot fit: %v", err)
	}
}
