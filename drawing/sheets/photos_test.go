package sheets

import (
	"bytes"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/pdf"
	"oxturn/drawing/svg"
	"oxturn/layout"
	"oxturn/layout/plane"
)

// photographed is the example with photos, planned.
func photographed(t *testing.T) *layout.Plan {
	t.Helper()
	j, err := readJob("../../testdata/photos/hall.toml")
	if err != nil {
		t.Fatal(err)
	}
	p, err := planned(j)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestPhotoSheet: each photo stands there as it was taken and in the floor's plane, with the
// run that it moves; the sheet keeps the rules of all sheets.
func TestPhotoSheet(t *testing.T) {
	p := photographed(t)
	pages, err := photoSheets(p)
	if err != nil || len(pages) != 1 {
		t.Fatalf("%d pages, %v", len(pages), err)
	}
	set := numbered(pages)
	checkSheets(t, set)
	var pictures []*drawing.Image
	for _, it := range set[0].Items {
		if m, ok := it.(*drawing.Image); ok {
			pictures = append(pictures, m)
		}
	}
	if len(pictures) != 4 {
		t.Fatalf("%d pictures", len(pictures))
	}
	for i, m := range pictures {
		c, err := jpeg.DecodeConfig(bytes.NewReader(m.JPEG))
		if wide := m.Box.W() / m.Box.H(); err != nil || math.Abs(wide/(float64(c.Width)/float64(c.Height))-1) > 0.01 {
			t.Errorf("picture %d is drawn %.3f wide to its height, and is %d by %d: %v", i, wide, c.Width, c.Height,
				err)
		}
	}
	var words []string
	for _, x := range set[0].Texts() {
		words = append(words, x.Text)
	}
	for _, want := range []string{"Seen in the photos", "1 hall-1.jpg, 2026-12-02, Hall", "8"} {
		if !slices.Contains(words, want) {
			t.Errorf("%q is not on the sheet: %q", want, words)
		}
	}
	sum := p.PhotosOf(&p.Rooms[0])[0].Picture.Sum
	if !strings.Contains(strings.Join(words, " "), "SHA-256 "+sum[:12]) {
		t.Errorf("the sum %s is not on the sheet", sum)
	}
}

// TestCableLiesOnThePhoto: the line over a picture in the floor's plane is on the cable that is
// seen there, the moved run too: below it the picture is dark.
func TestCableLiesOnThePhoto(t *testing.T) {
	p := photographed(t)
	ph, c := p.PhotosOf(&p.Rooms[0])[0], &p.Rooms[0].Cables[0]
	flat, err := ph.Flat()
	if err != nil {
		t.Fatal(err)
	}
	pic, err := jpeg.Decode(bytes.NewReader(flat.JPEG))
	if err != nil {
		t.Fatal(err)
	}
	dark := func(at plane.Point) float64 {
		x := int((at.X - flat.Bounds.Min.X) / flat.Bounds.W() * float64(flat.W))
		y := int((flat.Bounds.Max.Y - at.Y) / flat.Bounds.H() * float64(flat.H))
		least := 255.0
		for dy := -1; dy <= 1; dy++ { // a pixel is 2.4 mm
			r, _, _, _ := pic.At(x, y+dy).RGBA()
			least = math.Min(least, float64(r>>8))
		}
		return least
	}
	for _, r := range c.Runs {
		on, off := 0.0, 0.0
		const n = 30
		for k := range n {
			at := r.From.Lerp(r.To, 0.1+0.4*float64(k)/n) // the half of it that is nearer to one end
			on += dark(at) / n
			off += dark(at.Add(plane.Pt(0, 40))) / n
		}
		if on > off-12 {
			t.Errorf("run %d: %.0f on it, %.0f beside it", r.Number, on, off)
		}
	}
}

// TestNoPhotosNoSheet: sets of jobs without photos are as they were.
func TestNoPhotosNoSheet(t *testing.T) {
	pages, err := photoSheets(example(t, examples[0]).plan)
	if err != nil || pages != nil {
		t.Errorf("%d pages, %v", len(pages), err)
	}
}

// TestPicturesInOtherPrograms: the pictures of the sheet are in its SVG, inside, and in its PDF
// as they are, byte for byte.
func TestPicturesInOtherPrograms(t *testing.T) {
	pages, err := photoSheets(photographed(t))
	if err != nil {
		t.Fatal(err)
	}
	set := numbered(pages)
	var a, b bytes.Buffer
	if err := svg.Write(&a, set[0]); err != nil {
		t.Fatal(err)
	}
	if err := pdf.Write(&b, set, pdf.Info{}); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(a.String(), `href="data:image/jpeg;base64,/9j/`); n != 4 {
		t.Errorf("%d pictures in the SVG", n)
	}
	for _, it := range set[0].Items {
		if m, ok := it.(*drawing.Image); ok && !bytes.Contains(b.Bytes(), m.JPEG) {
			t.Errorf("%s is not in the PDF as it is", m.Title)
		}
	}
	kept, err := os.ReadFile(filepath.FromSlash("../../testdata/photos/hall-1.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(kept, []byte("Exif")) || bytes.Contains(b.Bytes(), []byte("Exif")) {
		t.Error("what the camera wrote is in the PDF, or was never in the photo")
	}
}
