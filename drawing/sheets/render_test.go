package sheets

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/internal/outside"
	"oxturn/drawing/pdf"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/drawing/svg"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// svgOf writes a sheet as SVG.
func svgOf(t *testing.T, s *drawing.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Write(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pdfOf writes sheets as one PDF.
func pdfOf(t *testing.T, set ...*drawing.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, set, pdf.Info{}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// board sets samples side by side on one sheet, each in a cell of so many mm,
// renders it in grey at 300 dpi, and returns the cells.
func board(t *testing.T, n int, w, h float64, draw func(pg *setting.Page, i int, b drawing.Box)) []*image.Gray {
	t.Helper()
	const dpi = 300
	paper := drawing.Paper{W: w + 2, H: float64(n)*(h+2) + 2}
	pg := setting.NewPage(&layout.Plan{Job: &job.Job{}}, paper)
	cells := make([]drawing.Box, n)
	for i := range cells {
		cells[i] = drawing.Box{X0: 1, Y0: 1 + float64(i)*(h+2), X1: 1 + w, Y1: 1 + float64(i)*(h+2) + h}
		draw(pg, i, cells[i])
	}
	img := outside.RasterSVG(t, svgOf(t, pg.Sheet), fmt.Sprint(dpi))
	px := func(mm float64) int { return int(math.Round(mm * dpi / 25.4)) }
	out := make([]*image.Gray, n)
	for i, c := range cells {
		at := image.Rect(px(c.X0)-4, px(c.Y0)-4, px(c.X0)+px(w)+4, px(c.Y0)+px(h)+4)
		out[i] = image.NewGray(image.Rect(0, 0, at.Dx(), at.Dy()))
		for y := range at.Dy() {
			for x := range at.Dx() {
				out[i].Pix[out[i].PixOffset(x, y)] = uint8(255 * (1 - outside.Dark(img, at.Min.X+x, at.Min.Y+y)))
			}
		}
	}
	return out
}

// A pair of entries that no legend holds both of: the same band says "could be
// taken for it" on a fault's sheet and "to be laid otherwise" on a refit's.
var apart = map[[2]signs.Sign]bool{{signs.Mistaken, signs.Anew}: true}

// TestSignsDifferInGrey: colour is never the only cue. The samples of every two
// entries of a legend differ on a black-and-white printer, by an eighth of black
// in more than 1 % of the squares of a third of a millimetre.
func TestSignsDifferInGrey(t *testing.T) {
	cells := board(t, int(signs.Count), setting.SwatchW, setting.SwatchH, func(pg *setting.Page, i int,
		b drawing.Box) {
		pg.Add(signs.Sign(i).Sample(b)...)
	})
	for a := range cells {
		for b := range cells[:a] {
			share, _ := outside.Differing(cells[a], cells[b], 4, 0.12)
			if share < 0.01 && !apart[[2]signs.Sign{signs.Sign(b), signs.Sign(a)}] {
				t.Errorf("%q and %q differ in %.4f of their squares", signs.Sign(b).Words(), signs.Sign(a).Words(),
					share)
			}
		}
	}
}

// A rhythm is how a line's sample looks in grey: its width, in how many pieces the
// ink along its middle lies, and the longest and shortest of them, in pixels.
type rhythm struct{ width, pieces, longest, shortest int }

// rhythmOf measures a cell of a board that shows a line alone; ok is false for any
// other sign.
func rhythmOf(cell *image.Gray) (r rhythm, ok bool) {
	size := cell.Bounds().Size()
	inked := func(x, y int) bool { return outside.Dark(cell, x, y) > 0.1 }
	top, bottom := size.Y, -1
	for y := range size.Y {
		for x := range size.X {
			if inked(x, y) {
				top, bottom = min(top, y), max(bottom, y)
			}
		}
	}
	const most = 12 // pixels at 300 dpi: 1 mm
	if r.width = bottom - top + 1; bottom < 0 || r.width > most {
		return r, false
	}
	r.shortest = size.X
	run := 0
	for x := range size.X {
		if inked(x, (top+bottom)/2) {
			run++
			continue
		}
		if run > 0 {
			r.pieces, r.longest, r.shortest = r.pieces+1, max(r.longest, run), min(r.shortest, run)
		}
		run = 0
	}
	return r, true
}

// chain reports whether a line has dashes and dots.
func (r rhythm) chain() bool { return r.longest > 4*r.shortest }

// alike reports whether two lines could be taken for each other: neither the number
// of their pieces nor their longest differs by half, and one is not clearly more than
// twice as wide as the other, which is the least step between lines of one pattern
// (ISO 128-2). Chains are told apart by their dots.
func (r rhythm) alike(o rhythm) bool {
	if r.chain() && o.chain() && r.pieces != o.pieces {
		return false
	}
	near := func(a, b int, by float64) bool { return float64(max(a, b)) < by*float64(min(a, b)) }
	return near(r.pieces, o.pieces, 1.5) && near(r.longest, o.longest, 1.5) && near(r.width, o.width, 2.5)
}

// unlike are lines of one rhythm that no legend holds both of: seams are on
// membrane plans, which show no lead, and strips on plans for laying, not on tile plans.
var unlike = map[[2]signs.Sign]bool{{signs.ColdLead, signs.Seam}: true, {signs.Strip, signs.Below}: true}

// TestLinesDifferByRhythm: whatever its colour, a line of a legend is known by its
// dashes, which a glance takes in, and not by a pixel more or less of width.
func TestLinesDifferByRhythm(t *testing.T) {
	cells := board(t, int(signs.Count), setting.SwatchW, setting.SwatchH, func(pg *setting.Page, i int,
		b drawing.Box) {
		pg.Add(signs.Sign(i).Sample(b)...)
	})
	lines := map[signs.Sign]rhythm{}
	for i, c := range cells {
		if r, ok := rhythmOf(c); ok {
			lines[signs.Sign(i)] = r
		}
	}
	for _, s := range []signs.Sign{signs.Cable, signs.ColdLead, signs.SensorLead, signs.Limit, signs.Movement,
		signs.Seam, signs.Planned} {
		if _, ok := lines[s]; !ok {
			t.Errorf("%q is not read as a line", s.Words())
		}
	}
	for a, x := range lines {
		for b, y := range lines {
			if a < b && x.alike(y) && !unlike[[2]signs.Sign{a, b}] {
				t.Errorf("%q and %q look alike: %+v, %+v", a.Words(), b.Words(), x, y)
			}
		}
	}
}

// TestNoTwoSignsShareAHatch: what the samples of two hatches differ in may be no
// more than where on the sheet they begin, so that patterns are compared too.
func TestNoTwoSignsShareAHatch(t *testing.T) {
	seen := map[drawing.Pattern]signs.Sign{}
	for s := signs.Cable; s < signs.Count; s++ {
		p, ok := s.Pattern()
		if other, twice := seen[p]; ok && twice {
			t.Errorf("%q and %q are hatched alike", other.Words(), s.Words())
		}
		if ok {
			seen[p] = s
		}
	}
}

// TestHatchesAreLegible: at the size they are plotted, hatches leave paper
// between their lines, ink enough to be seen, and are told apart by pattern.
func TestHatchesAreLegible(t *testing.T) {
	patterns := []drawing.Pattern{
		drawing.HatchFixture, drawing.HatchUndecided, drawing.HatchFixing, drawing.HatchRise, drawing.HatchUnheated,
		drawing.HatchJoint,
		drawing.HatchTile, drawing.HatchMortar, drawing.HatchInsulation, drawing.HatchWood, drawing.HatchConcrete,
	}
	cells := board(t, len(patterns), 24, 12, func(pg *setting.Page, i int, b drawing.Box) {
		pg.Add(drawing.Hatch([][]drawing.Pt{b.Corners()}, patterns[i])...)
	})
	for a, img := range cells {
		ink, white := 0.0, 0
		size := img.Bounds().Size()
		for y := range size.Y {
			for x := range size.X {
				ink += outside.Dark(img, x, y)
				if outside.Dark(img, x, y) < 0.05 {
					white++
				}
			}
		}
		all := float64(size.X * size.Y)
		if share := ink / all; share < 0.005 || share > 0.4 || float64(white)/all < 0.5 {
			t.Errorf("%v: %.3f ink, %.3f paper", patterns[a], share, float64(white)/all)
		}
		for b := range a {
			if share, _ := outside.Differing(img, cells[b], 4, 0.25); share < 0.02 {
				t.Errorf("%v and %v differ in %.4f of their squares", patterns[b], patterns[a], share)
			}
		}
	}
}

// linesOnly returns a sheet without its lettering, which a renderer of SVG sets
// in whatever face the machine has.
func linesOnly(s *drawing.Sheet) *drawing.Sheet {
	out := *s
	out.Items = nil
	for _, it := range s.Items {
		if p, ok := it.(*drawing.Path); ok {
			out.Items = append(out.Items, p)
		}
	}
	return &out
}

// stacked sets documents one below the other in one, so that a renderer is
// started once for all of them. It returns how far down each begins, mm.
func stacked(t *testing.T, set []*drawing.Sheet) (doc []byte, tops []float64) {
	t.Helper()
	var b bytes.Buffer
	w, h := 0.0, 0.0
	for _, s := range set {
		tops = append(tops, h)
		h += math.Ceil(s.Paper.H/25.4) * 25.4 // a whole number of pixels
		w = math.Max(w, s.Paper.W)
	}
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%gmm" height="%gmm">`, w, h)
	for i, s := range set {
		data := string(svgOf(t, s))
		data = data[strings.Index(data, "<svg"):]
		b.WriteString(strings.Replace(data, "<svg", fmt.Sprintf(`<svg y="%gmm"`, tops[i]), 1))
	}
	b.WriteString("</svg>")
	return b.Bytes(), tops
}

// cutOut copies w x h pixels from a picture.
func cutOut(img *image.Gray, y, w, h int) *image.Gray {
	out := image.NewGray(image.Rect(0, 0, w, h))
	for r := range h {
		for x := range w {
			out.Pix[out.PixOffset(x, r)] = uint8(math.Round(255 * (1 - outside.Dark(img, x, y+r))))
		}
	}
	return out
}

// differing renders each sheet of a as SVG and its fellow of b as PDF, by two
// programs that share no code, and returns the share of the squares of a
// millimetre whose darkness differs by more than a quarter, sheet by sheet.
func differing(t *testing.T, a, b []*drawing.Sheet) []float64 {
	t.Helper()
	const dpi = 72
	dir := t.TempDir()
	outside.Run(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-png", "-gray", outside.File(t, "set.pdf", pdfOf(t, b...)),
		filepath.Join(dir, "page"))
	pages, err := filepath.Glob(filepath.Join(dir, "*.png"))
	if err != nil || len(pages) != len(b) {
		t.Fatalf("%d pages of %d, %v", len(pages), len(b), err)
	}
	doc, tops := stacked(t, a)
	all := outside.RasterSVG(t, doc, fmt.Sprint(dpi))
	shares := make([]float64, len(a))
	for i := range a {
		data, err := os.ReadFile(pages[i])
		if err != nil {
			t.Fatal(err)
		}
		right := outside.Decode(t, data)
		left := cutOut(all, int(math.Round(tops[i]*dpi/25.4)), right.Bounds().Dx(), right.Bounds().Dy())
		shares[i], _ = outside.Differing(left, right, 3, 0.25)
	}
	return shares
}

// agree is the share of squares up to which two pictures are taken for alike:
// renderers share out a thin line between pixels unlike, and one of them
// stretches a page to whole pixels.
const agree = 0.013

// TestFormatsAgree: a sheet of every kind, and every cable plan of the examples, looks
// alike in SVG and in PDF. The comparison itself must see a cable that lies a millimetre off.
func TestFormatsAgree(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range examples {
		var set []*drawing.Sheet
		for _, s := range example(t, name).set {
			if kind := kindIDOf(t, s.ID); !seen[kind] || kind == wholeSheet {
				seen[kind] = true
				set = append(set, s)
			}
		}
		if !strings.Contains(string(outside.Run(t, "fc-list", ":family=Go")), "Go") {
			for i := range set {
				set[i] = linesOnly(set[i])
			}
		}
		plan := set[slices.IndexFunc(set, func(s *drawing.Sheet) bool { return kindIDOf(t, s.ID) == wholeSheet })]
		moved := append([]*drawing.Sheet{withCableMoved(plan)}, set...)
		shares := differing(t, append([]*drawing.Sheet{plan}, set...), moved)
		if shares[0] < agree {
			t.Errorf("%s: a cable 1 mm off went unseen: %.5f", name, shares[0])
		}
		for i, s := range set {
			if shares[i+1] > agree {
				t.Errorf("%s: %.5f of the squares differ", s.ID, shares[i+1])
			}
		}
	}
}

// withCableMoved returns a sheet whose heating cable lies 1 mm off.
func withCableMoved(s *drawing.Sheet) *drawing.Sheet {
	out := *s
	out.Items = nil
	for _, it := range s.Items {
		if p, ok := it.(*drawing.Path); ok && p.Layer == drawing.LayerCable {
			q := *p
			q.Segs = drawing.Mapped(p.Segs, func(p drawing.Pt) drawing.Pt { return p.Add(drawing.Pt{X: 1, Y: 1}) })
			it = &q
		}
		out.Items = append(out.Items, it)
	}
	return &out
}

// ends returns where the ink of a picture lies along one axis: the mean of
// the first and of the last stretch of inked columns or rows, in pixels.
func ends(img *image.Gray, across bool) (first, last float64) {
	size := img.Bounds().Size()
	n, m := size.X, size.Y
	if !across {
		n, m = m, n
	}
	var groups []float64
	sum, weight := 0.0, 0.0
	for i := range n {
		d := 0.0
		for k := range m {
			x, y := i, k
			if !across {
				x, y = k, i
			}
			d = math.Max(d, outside.Dark(img, x, y))
		}
		if d > 0.05 {
			sum, weight = sum+d*(float64(i)+0.5), weight+d
		} else if weight > 0 {
			groups = append(groups, sum/weight)
			sum, weight = 0, 0
		}
	}
	if len(groups) == 0 {
		return 0, 0
	}
	return groups[0], groups[len(groups)-1]
}

// TestScaleTrueOnPaper measures the rendered page in both formats: the sample's
// two short walls are 8 ft apart, and its two long ones 5 ft, within 0.2 % at
// the scale that the sheet names.
func TestScaleTrueOnPaper(t *testing.T) {
	const dpi = 150
	s := sheet(t, sampleSet(t, plane.Inches), "cable-plan")
	for _, c := range []struct {
		walls  [2]string
		across bool
		feet   float64
	}{{[2]string{"wall B", "wall D"}, true, 8}, {[2]string{"wall A", "wall C"}, false, 5}} {
		only := *s
		only.Items = nil
		for _, it := range s.Items {
			if p, ok := it.(*drawing.Path); ok && (p.Title == c.walls[0] || p.Title == c.walls[1]) {
				only.Items = append(only.Items, p)
			}
		}
		want := c.feet * plane.Foot / s.Ratio
		for format, img := range map[string]*image.Gray{
			"SVG": outside.RasterSVG(t, svgOf(t, &only), fmt.Sprint(dpi)),
			"PDF": outside.RasterPDF(t, pdfOf(t, &only), fmt.Sprint(dpi)),
		} {
			first, last := ends(img, c.across)
			if got := (last - first) * 25.4 / dpi; math.Abs(got-want) > 0.002*want {
				t.Errorf("%s: %v ft measure %.3f mm at 1:%g, want %.3f", format, c.feet, got, s.Ratio, want)
			}
		}
	}
}
