package sheets

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout/language"
)

// A tester is a *testing.T or a *rapid.T.
type tester interface {
	Helper()
	Error(args ...any)
	Errorf(format string, args ...any)
}

// checkSheets holds sheets to the rules that every sheet obeys.
func checkSheets(t tester, sheets []*drawing.Sheet) {
	t.Helper()
	for _, s := range sheets {
		if err := s.Check(); err != nil {
			t.Error(err)
		}
		checkLettering(t, s)
		checkInside(t, s)
		checkOverCable(t, s)
		checkTitleBlock(t, s)
		checkLines(t, s)
		checkDimensions(t, s)
	}
}

// unrounded is a figure as no tape or meter gives it.
var unrounded = regexp.MustCompile(`\d\.\d{5}`)

// overhang is how far a text may reach into the line over it, mm: the accent of a capital does.
func overhang(text string) float64 {
	if strings.ContainsAny(text, "ÀÂÄÉÈÊÎÑÓÔÖÚÛÜ") {
		return 0.4
	}
	return 0.01
}

// checkLettering: nothing below 2.5 mm but fine print on small paper, no figure that was not rounded, and no lettering
// on other lettering.
func checkLettering(t tester, s *drawing.Sheet) {
	t.Helper()
	all := s.Texts()
	boxes := make([]drawing.Box, len(all))
	for i, a := range all {
		boxes[i] = a.Box()
		if a.Height < 2.5 && !(a.Height == drawing.H18 && setting.IsSmall(s.Paper)) {
			t.Errorf("%s: %q is %.2f mm high", s.ID, a.Text, a.Height)
		}
		if unrounded.MatchString(a.Text) {
			t.Errorf("%s: %q has a figure that is not rounded", s.ID, a.Text)
		}
		for k, b := range all[:i] {
			if boxes[i].Grow(-overhang(a.Text)).Meets(boxes[k]) {
				t.Errorf("%s: %q at %.1f lies on %q at %.1f", s.ID, a.Text, boxes[i], b.Text, boxes[k])
			}
		}
	}
}

// checkInside: nothing leaves the frame but the frame's own marks, and lettering
// outside the title block keeps 4 mm off it.
func checkInside(t tester, s *drawing.Sheet) {
	t.Helper()
	frame := s.Paper.Frame().Grow(0.36)
	for _, it := range s.Items {
		if layerOf(it) != drawing.LayerFrame && !frame.Contains(drawing.BoxOfItem(it)) {
			t.Errorf("%s: %s leaves the frame: %.1f", s.ID, describe(it), drawing.BoxOfItem(it))
		}
	}
	title := titleOf(s).Grow(0.36)
	for _, tx := range s.Texts() {
		if b := tx.Box(); !title.Contains(b) && !s.Paper.Frame().Grow(-4).Contains(b) {
			t.Errorf("%s: %q is closer than 4 mm to the frame: %.1f", s.ID, tx.Text, b)
		}
	}
}

// titleOf returns the box of a sheet's title block.
func titleOf(s *drawing.Sheet) drawing.Box {
	for _, it := range s.Items {
		if p, ok := it.(*drawing.Path); ok && p.Title == "title block" {
			return p.Box()
		}
	}
	return drawing.Box{}
}

func layerOf(it drawing.Item) drawing.Layer {
	switch it := it.(type) {
	case *drawing.Path:
		return it.Layer
	case *drawing.Text:
		return it.Layer
	case *drawing.Image:
		return it.Layer
	}
	return ""
}

func describe(it drawing.Item) string {
	switch it := it.(type) {
	case *drawing.Text:
		return "text " + it.Text
	case *drawing.Path:
		return "path " + it.Title + " on " + string(it.Layer)
	case *drawing.Image:
		return "image " + it.Title
	}
	return "?"
}

// checkOverCable: lettering stands on cable only with a knock-out, or on a
// white patch of its own mark.
func checkOverCable(t tester, s *drawing.Sheet) {
	t.Helper()
	var wires [][]drawing.Pt
	white := patches(s)
	for _, it := range s.Items {
		p, ok := it.(*drawing.Path)
		if !ok {
			continue
		}
		if p.Layer == drawing.LayerCable || p.Layer == drawing.LayerLeads {
			wires = append(wires, drawing.Flatten(p.Segs, 0.1)...)
		}
	}
	for _, tx := range s.Texts() {
		if tx.Knockout > 0 || onPatch(white, tx.Box()) {
			continue
		}
		for _, w := range wires {
			for i := 1; i < len(w); i++ {
				if tx.Box().Touches(w[i-1], w[i]) {
					t.Errorf("%s: %q stands on cable without a knock-out", s.ID, tx.Text)
				}
			}
		}
	}
}

// patches returns the white grounds of marks that carry lettering.
func patches(s *drawing.Sheet) (white []drawing.Box) {
	for _, it := range s.Items {
		if p, ok := it.(*drawing.Path); ok && p.Fill != nil && *p.Fill == drawing.White &&
			(p.Layer == drawing.LayerMarks || strings.HasPrefix(p.Title, "detail ")) {
			white = append(white, p.Box())
		}
	}
	return white
}

func onPatch(white []drawing.Box, b drawing.Box) bool {
	for _, w := range white {
		if w.Grow(0.3).Contains(b) {
			return true
		}
	}
	return false
}

// checkLines: every line is of the series of ISO 128-2 but for the dots and
// bands that hatch, which are no lines.
func checkLines(t tester, s *drawing.Sheet) {
	t.Helper()
	series := []float64{0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1}
	for _, it := range s.Items {
		p, ok := it.(*drawing.Path)
		if ok && p.Stroke != nil && !slices.Contains(series, p.Stroke.Width) && p.Layer != drawing.LayerHatch {
			t.Errorf("%s: a line of %v mm", s.ID, p.Stroke.Width)
		}
	}
}

// checkDimensions: no line of the drawing, be it a wall, a tick of a peg row, a
// dimension line or a leader, runs through lettering, but through a knock-out
// that hides it.
func checkDimensions(t tester, s *drawing.Sheet) {
	t.Helper()
	var boxes []drawing.Box
	var said []string
	white := patches(s)
	for _, tx := range s.Texts() {
		if tx.Knockout == 0 && !onPatch(white, tx.Box()) {
			boxes, said = append(boxes, tx.Box().Grow(-0.05)), append(said, tx.Text)
		}
	}
	for _, it := range s.Items {
		p, ok := it.(*drawing.Path)
		if !ok || p.Stroke == nil || !slices.Contains(drawn, p.Layer) {
			continue
		}
		for _, line := range drawing.Flatten(p.Segs, 0.1) {
			for i := 1; i < len(line); i++ {
				for k, b := range boxes {
					if b.Touches(line[i-1], line[i]) {
						t.Errorf("%s: a line on layer %s runs through %q", s.ID, p.Layer, said[k])
					}
				}
			}
		}
	}
}

// drawn are the layers whose lines lettering does not stand on. Cable, leads and
// hatches have checks of their own.
var drawn = []drawing.Layer{drawing.LayerDims, drawing.LayerWalls, drawing.LayerMembrane, drawing.LayerFixtures}

// checkTitleBlock: the mandatory fields of ISO 7200 (legal owner, number, date,
// sheet, title, approval, creator, document type), the status, the words
// beside the check line, and the place in the frame's lower right corner.
func checkTitleBlock(t tester, s *drawing.Sheet) {
	t.Helper()
	// its line is up to 1 mm wide
	if f, b := s.Paper.Frame(), titleOf(s); math.Abs(b.X1-f.X1) > 0.5 || math.Abs(b.Y1-f.Y1) > 0.5 {
		t.Errorf("%s: the title block ends at (%.1f, %.1f), the frame at (%.1f, %.1f)", s.ID, b.X1, b.Y1, f.X1, f.Y1)
	}
	var all strings.Builder
	for _, tx := range s.Texts() {
		all.WriteString(tx.Text + "\n")
	}
	for _, want := range []string{"Contractor", "Drawing no.", "Date", "Sheet", "Title", "Approved", "Drawn",
		"Document type", "Scale", "Units", "Rev.", "100 mm", "4 in", figuredGovern(s)} {
		if s.Ratio == 0 && slices.Contains([]string{"100 mm", "4 in", figuredGovern(s), "Scale"}, want) {
			continue // nothing on it is to be measured
		}
		if !strings.Contains(all.String(), readIn(s).Text(want)) {
			t.Errorf("%s: %q is missing", s.ID, want)
		}
	}
	if !slices.ContainsFunc([]string{"PROPOSAL", "FOR INSTALLATION", "AS LAID"}, func(status string) bool {
		return strings.Contains(all.String(), readIn(s).Text(status))
	}) {
		t.Errorf("%s: no status", s.ID)
	}
}

// readIn is the language of a sheet.
func readIn(s *drawing.Sheet) language.Language {
	l, _ := language.Named(s.Language)
	return l
}

// figuredGovern begins the sentence beside the check line.
func figuredGovern(s *drawing.Sheet) string {
	words := strings.Fields(readIn(s).Text("Figured dimensions govern. Print at 100" + setting.NoBreak + "%."))
	return strings.Join(words[:2], " ")
}

// dump writes sheets out in full.
func dump(set []*drawing.Sheet) string {
	var b strings.Builder
	for _, s := range set {
		fmt.Fprintf(&b, "%s %v %g\n", s.ID, s.Paper, s.Ratio)
		for _, it := range s.Items {
			switch it := it.(type) {
			case *drawing.Path:
				fmt.Fprintf(&b, "%s %q %v\n", it.Layer, it.Title, it.Segs)
			case *drawing.Text:
				fmt.Fprintf(&b, "%+v\n", *it)
			}
		}
	}
	return b.String()
}
