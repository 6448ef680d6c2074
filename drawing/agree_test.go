package drawing_test

import (
	"bytes"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/internal/outside"
	"oxturn/drawing/internal/specimen"
	"oxturn/drawing/pdf"
	"oxturn/drawing/svg"
)

// agreement renders a in SVG and b in PDF by two programs that share no code,
// and returns the share of squares of 4 pixels at 150 dpi (0.7 mm) whose
// darkness differs by more than a quarter.
func agreement(t *testing.T, a, b *drawing.Sheet) float64 {
	t.Helper()
	var left, right bytes.Buffer
	if err := svg.Write(&left, a); err != nil {
		t.Fatal(err)
	}
	if err := pdf.Write(&right, []*drawing.Sheet{b}, pdf.Info{}); err != nil {
		t.Fatal(err)
	}
	share, worst := outside.Differing(outside.RasterSVG(t, left.Bytes(), "150"), outside.RasterPDF(t, right.Bytes(),
		"150"), 4, 0.25)
	t.Logf("%.5f of the squares differ, the worst by %.2f", share, worst)
	return share
}

// paths returns the sheet without its lettering, which a renderer of SVG sets
// in whatever face the machine has.
func paths(s *drawing.Sheet) *drawing.Sheet {
	out := *s
	out.Items = nil
	for _, it := range s.Items {
		if p, ok := it.(*drawing.Path); ok {
			out.Items = append(out.Items, p)
		}
	}
	return &out
}

func TestWritersAgree(t *testing.T) {
	s := specimen.Sheet()
	if share := agreement(t, paths(s), paths(s)); share > 0.0002 {
		t.Errorf("without lettering %.5f of the squares differ", share)
	}
	if !strings.Contains(string(outside.Run(t, "fc-list", ":family=Go")), "Go") {
		t.Log("the face is not installed here: lettering is not compared")
		return
	}
	if share := agreement(t, s, s); share > 0.002 {
		t.Errorf("with lettering %.5f of the squares differ", share)
	}
}

// The comparison must see a line that is half a millimetre off, or is lost.
func TestComparisonSeesAFault(t *testing.T) {
	s, moved := paths(specimen.Sheet()), paths(specimen.Sheet())
	for i, it := range moved.Items {
		if p := it.(*drawing.Path); p.Title == "cable H1" {
			q := *p
			q.Segs = drawing.Mapped(p.Segs, func(p drawing.Pt) drawing.Pt { return p.Add(drawing.Pt{Y: 0.5}) })
			moved.Items[i] = &q
		}
	}
	if share := agreement(t, s, moved); share <= 0.0002 {
		t.Errorf("a cable half a millimetre off went unseen: %.5f", share)
	}
}
