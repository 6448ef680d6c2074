package sheets

import (
	"math"
	"strings"
	"testing"

	"oxturn/drawing"
)

// A measure is what a sheet costs its reader.
type measure struct {
	id    string
	words int     // on the whole sheet, its title block among them
	blank float64 // share of the frame without ink boxes
	ratio float64
	way   string
}

// measures returns what every sheet of a set costs.
func measures(set []*drawing.Sheet) []measure {
	var out []measure
	for _, s := range set {
		m := measure{id: s.ID, blank: blankShare(s), ratio: s.Ratio, way: "portrait"}
		if s.Paper.W > s.Paper.H {
			m.way = "landscape"
		}
		for _, t := range s.Texts() {
			m.words += len(strings.Fields(t.Text))
		}
		out = append(out, m)
	}
	return out
}

// blankCell is the side of the squares that blankShare counts, mm: what lies
// farther from ink than a line of lettering with its leading is blank.
const blankCell = 8.0

// blankShare is the share of squares inside the frame that no box of lettering and
// no line or area of a drawing touches. What a wall, a fixture or a form's box
// encloses is taken as used.
func blankShare(s *drawing.Sheet) float64 {
	f := s.Paper.Frame()
	nx, ny := int(math.Ceil(f.W()/blankCell)), int(math.Ceil(f.H()/blankCell))
	inked := make([]bool, nx*ny)
	mark := func(b drawing.Box) {
		for y := max(0, int((b.Y0-f.Y0)/blankCell)); y < ny && f.Y0+float64(y)*blankCell < b.Y1; y++ {
			for x := max(0, int((b.X0-f.X0)/blankCell)); x < nx && f.X0+float64(x)*blankCell < b.X1; x++ {
				inked[y*nx+x] = true
			}
		}
	}
	for _, it := range s.Items {
		p, ok := it.(*drawing.Path)
		if ok && (p.Title == "frame" || p.Layer == drawing.LayerFrame && p.Box().W() < 1 && p.Box().H() < 1) {
			continue
		}
		if !ok || encloses(p) {
			mark(drawing.BoxOfItem(it))
			continue
		}
		for _, line := range drawing.Flatten(p.Segs, 0.5) {
			for i := 1; i < len(line); i++ {
				mark(drawing.BoxOf(line[i-1], line[i]))
			}
		}
	}
	free := 0
	for _, in := range inked {
		if !in {
			free++
		}
	}
	return float64(free) / float64(len(inked))
}

// encloses reports whether a path is the edge of something.
func encloses(p *drawing.Path) bool {
	return p.Fill != nil || p.Title == "title block" || p.Layer == drawing.LayerWalls ||
		p.Layer == drawing.LayerFixtures
}

// mostBlank is the share of a sheet that may be blank.
const mostBlank = 0.6

// TestSetsAreShort: sets take no more sheets and words than they did when they were last
// shortened, no sheet is blank for the most part, and all sheets of one paper lie one way.
// With -v it prints what every sheet costs.
func TestSetsAreShort(t *testing.T) {
	for _, c := range []struct {
		name         string
		sheets, most int
	}{{"bath on letter", 8, 3700}, {"kitchen on A4", 10, 5270}, {"entry", 9, 3660}} {
		set := example(t, c.name).set
		words := 0
		for _, m := range measures(set) {
			words += m.words
			t.Logf("%-20s %-9s 1:%-4g %4d words %3.0f %% blank", m.id, m.way, m.ratio, m.words, 100*m.blank)
			if m.blank > mostBlank {
				t.Errorf("%s: %.0f %% of %s is blank", c.name, 100*m.blank, m.id)
			}
			if strings.Contains(c.name, " on ") && m.way != "portrait" {
				t.Errorf("%s: %s lies on its side", c.name, m.id)
			}
		}
		t.Logf("%s: %d sheets, %d words", c.name, len(set), words)
		if len(set) > c.sheets || words > c.most {
			t.Errorf("%s: %d sheets with %d words, were %d with %d", c.name, len(set), words, c.sheets, c.most)
		}
	}
}

// TestHandedOverSetsAreFull: no sheet of a floor that is recorded as laid is blank for the most part on the
// paper of binders, whatever spills over.
func TestHandedOverSetsAreFull(t *testing.T) {
	p, err := plannedFile("../../testdata/laid/bath.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, paper := range []string{"A4", "letter"} {
		p.Job.Sheet.Size = paper
		set, err := Set(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range measures(set) {
			if m.blank > mostBlank {
				t.Errorf("%s: %.0f %% of %s is blank", paper, 100*m.blank, m.id)
			}
		}
	}
}
