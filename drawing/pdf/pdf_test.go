package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"io"
	"math"
	"strconv"
	"strings"
	"sync"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/internal/outside"
	"oxturn/drawing/internal/specimen"
	"oxturn/fonts"
)

var info = Info{Title: "Bath – warm floor", Author: "A. Author", Creator: "oxturn"}

func write(t testing.TB, sheets ...*drawing.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, sheets, info); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// sheetOf is a sheet of 4 x 2 inches, 288 x 144 points.
func sheetOf(items ...drawing.Item) *drawing.Sheet {
	return &drawing.Sheet{ID: "p", Title: "Page", Paper: drawing.Paper{Name: "small", W: 101.6, H: 50.8}, Items: items}
}

func TestSameSheetsSameBytes(t *testing.T) {
	want := write(t, specimen.Sheet(), sheetOf())
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			if !bytes.Equal(write(t, specimen.Sheet(), sheetOf()), want) {
				t.Error("two documents of the same sheets differ")
			}
		})
	}
	all.Wait()
}

func TestCheckedByAnotherProgram(t *testing.T) {
	for name, sheets := range map[string][]*drawing.Sheet{
		"specimen": {specimen.Sheet()},
		"empty":    {sheetOf()},
		"three":    {sheetOf(), specimen.Sheet(), sheetOf(&drawing.Text{Text: "last", Height: 5})},
	} {
		t.Run(name, func(t *testing.T) {
			outside.Run(t, "qpdf", "--check", outside.File(t, "in.pdf", write(t, sheets...)))
		})
	}
}

func TestTextCanBeFound(t *testing.T) {
	path := outside.File(t, "in.pdf", write(t, specimen.Sheet()))
	got := string(outside.Run(t, "pdftotext", path, "-"))
	for _, want := range []string{"TITLE 5 mm Bold", `9'-4 1/2"`, "½ ¼ ¾", "Ω Å é ș <&>", "turned 90 gjq", "100 mm",
		"S2"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not found in\n%s", want, got)
		}
	}
}

func TestFacesAreSubsets(t *testing.T) {
	got := string(outside.Run(t, "pdffonts", outside.File(t, "in.pdf", write(t, specimen.Sheet()))))
	for _, face := range []string{"OXTURA+Go-Regular", "OXTURB+Go-Bold"} {
		found := false
		for _, line := range strings.Split(got, "\n") {
			// name, type, encoding, then: embedded, subset, has a Unicode map
			found = found || strings.HasPrefix(line, face) && strings.Contains(line, "yes yes yes")
		}
		if !found {
			t.Errorf("%s is not an embedded subset:\n%s", face, got)
		}
	}
	if n := len(write(t, specimen.Sheet())); n > 60_000 {
		t.Errorf("a specimen takes %d bytes", n)
	}
	plain := string(outside.Run(t, "pdffonts", outside.File(t, "plain.pdf",
		write(t, sheetOf(&drawing.Text{Text: "x", Height: 5})))))
	if strings.Contains(plain, "Bold") {
		t.Error("a face that is not used is embedded")
	}
}

func TestPagesAndInfo(t *testing.T) {
	path := outside.File(t, "in.pdf", write(t, sheetOf(), specimen.Sheet()))
	got := tidy(string(outside.Run(t, "pdfinfo", "-f", "1", "-l", "2", path)))
	for _, want := range []string{"Title: Bath – warm floor", "Author: A. Author", "Creator: oxturn", "Pages: 2",
		"Page 1 size: 288 x 144 pts", "Page 2 size: 1190.55 x 841.89 pts (A3)"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %s", want, got)
		}
	}
	if strings.Contains(got, "CreationDate") {
		t.Error("the document holds a date")
	}
}

// Every bookmark must lead to the top edge of its own page.
func TestBookmarks(t *testing.T) {
	data := string(write(t, sheetOf(), specimen.Sheet(), sheetOf()))
	for _, height := range []string{"144.00", "841.88", "144.00"} {
		i := strings.Index(data, "/XYZ 90 "+height)
		if i < 0 {
			t.Fatalf("no bookmark at height %s", height)
		}
		data = data[i+1:]
	}
}

// A missing character must be seen on paper, not dropped.
func TestMissingCharactersShow(t *testing.T) {
	path := outside.File(t, "in.pdf", write(t,
		sheetOf(&drawing.Text{Text: "浴 1", Height: 5, At: drawing.Pt{X: 20, Y: 20}})))
	if got := string(outside.Run(t, "pdftotext", path, "-")); !strings.Contains(got, "□") {
		t.Errorf("reads %q", got)
	}
}

func TestBadSheetsAreAnError(t *testing.T) {
	bad := sheetOf(&drawing.Path{Segs: drawing.Polyline(drawing.Pt{X: math.NaN()})})
	for name, sheets := range map[string][]*drawing.Sheet{"none": nil, "NaN": {sheetOf(), bad}} {
		var b bytes.Buffer
		if err := Write(&b, sheets, info); err == nil || b.Len() > 0 {
			t.Errorf("%s: error %v, %d bytes", name, err, b.Len())
		}
	}
	if err := Write(full{}, []*drawing.Sheet{sheetOf()}, info); err == nil || !strings.Contains(err.Error(),
		"disk full") {
		t.Errorf("error %v", err)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

// ticks returns the middle of every upright line that crosses a band of rows,
// in pixels.
func ticks(img *image.Gray, y0, y1, x0, x1 int) []float64 {
	var found []float64
	sum, weight := 0.0, 0.0
	for x := x0; x <= x1; x++ {
		d := 0.0
		for y := y0; y < y1; y++ {
			d += outside.Dark(img, x, y) / float64(y1-y0)
		}
		if d > 0.05 {
			sum, weight = sum+d*(float64(x)+0.5), weight+d
			continue
		}
		if weight > 0 {
			found = append(found, sum/weight)
		}
		sum, weight = 0, 0
	}
	return found
}

// The check line on the rendered page: 100 mm within 0.2 mm, and 4 in.
func TestCheckLineIsTrueToSize(t *testing.T) {
	const dpi = 200
	px := func(mm float64) int { return int(mm / 25.4 * dpi) }
	img := outside.RasterPDF(t, write(t, specimen.Sheet()), strconv.Itoa(dpi))
	for _, c := range []struct {
		name   string
		y0, y1 float64
		want   float64
	}{
		{"ticks above", specimen.CheckStart.Y - 0.85, specimen.CheckStart.Y - 0.3, 100},
		{"ticks below", specimen.CheckStart.Y + 0.4, specimen.CheckStart.Y + 0.9, 101.6},
	} {
		at := ticks(img, px(c.y0), px(c.y1), px(25), px(140))
		if len(at) != 2 {
			t.Fatalf("%s: %d of them", c.name, len(at))
		}
		if got := (at[1] - at[0]) * 25.4 / dpi; math.Abs(got-c.want) > 0.1 {
			t.Errorf("%s are %.3f mm apart, want %v", c.name, got, c.want)
		}
	}
}

// 2.5 mm lettering must measure 2.5 mm on paper, in both faces.
func TestCapitalsAreTrueToSize(t *testing.T) {
	const dpi = 1200
	for _, f := range fonts.Faces() {
		for _, h := range []float64{drawing.H25, drawing.H50} {
			s := sheetOf(&drawing.Text{Text: "H", Height: h, Face: f, At: drawing.Pt{X: 2, Y: 8}})
			s.Paper.W, s.Paper.H = 10, 10
			img := outside.RasterPDF(t, write(t, s), strconv.Itoa(dpi))
			rows := 0.0
			for y := range img.Bounds().Dy() {
				best := 0.0
				for x := range img.Bounds().Dx() {
					best = max(best, outside.Dark(img, x, y))
				}
				rows += best
			}
			if got := rows * 25.4 / dpi; math.Abs(got-h) > 0.05 {
				t.Errorf("%s: capitals of %v mm measure %.3f", f.Name(), h, got)
			}
		}
	}
}

// A turned text must cover its box, and nothing else be inked.
func TestTurnedTextFillsItsBox(t *testing.T) {
	const dpi = 300
	for _, angle := range []float64{0, 90, 45, -90} {
		text := &drawing.Text{Text: "Hgj 12", Height: 5, Angle: angle, Anchor: drawing.Middle,
			At: drawing.Pt{X: 50, Y: 25}}
		img := outside.RasterPDF(t, write(t, sheetOf(text)), strconv.Itoa(dpi))
		var ink []drawing.Pt
		for y := range img.Bounds().Dy() {
			for x := range img.Bounds().Dx() {
				if outside.Dark(img, x, y) > 0.5 {
					ink = append(ink, drawing.Pt{X: (float64(x) + 0.5) * 25.4 / dpi,
						Y: (float64(y) + 0.5) * 25.4 / dpi})
				}
			}
		}
		got, box := drawing.BoxOf(ink...), text.Box()
		if !box.Grow(0.15).Contains(got) {
			t.Errorf("at %v degrees: ink %v leaves the box %v", angle, got, box)
		}
		if angle != 45 && !got.Grow(1).Contains(box) {
			t.Errorf("at %v degrees: box %v is much larger than the ink %v", angle, box, got)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	s := []*drawing.Sheet{specimen.Sheet()}
	b.ReportAllocs()
	for b.Loop() {
		if err := Write(io.Discard, s, info); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleWrite() {
	s := &drawing.Sheet{ID: "square", Title: "Square", Paper: drawing.Paper{W: 20, H: 20}, Items: []drawing.Item{
		&drawing.Path{Layer: drawing.LayerWalls, Segs: drawing.Rectangle(drawing.Box{X0: 5, Y0: 5, X1: 15, Y1: 15}),
			Stroke: drawing.WallLine()},
	}}
	var b bytes.Buffer
	err := Write(&b, []*drawing.Sheet{s}, Info{Title: "Square"})
	fmt.Println(err, b.String()[:8])
	// Output: <nil> %PDF-1.7
}
