// Package outside lets tests ask programs that others wrote: renderers and
// checkers. A test that needs one that is not installed is skipped, or fails
// when OXTURN_REQUIRE_TOOLS is 1.
package outside

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"oxturn/layout/skip"
)

// Run runs a program and returns what it prints. It fails the test when the
// program fails.
func Run(t testing.TB, name string, args ...string) []byte {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		skip.Test(t, skip.NoProgram, name)
	}
	var out, errs bytes.Buffer
	cmd := exec.Command(name, args...)
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %v: %v\n%s%s", name, args, err, out.Bytes(), errs.Bytes())
	}
	return out.Bytes()
}

// File writes data to a new file of that name and returns its path.
func File(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// RasterSVG renders a picture at so many dots per inch.
func RasterSVG(t testing.TB, svg []byte, dpi string) *image.Gray {
	t.Helper()
	return Decode(t, Run(t, "rsvg-convert", "-d", dpi, "-p", dpi, File(t, "in.svg", svg)))
}

// RasterPDF renders the first page at so many dots per inch.
func RasterPDF(t testing.TB, pdf []byte, dpi string) *image.Gray {
	t.Helper()
	return Decode(t, Run(t, "pdftoppm", "-r", dpi, "-png", "-gray", "-f", "1", "-l", "1", "-singlefile",
		File(t, "in.pdf", pdf)))
}

// Decode reads a PNG picture as grey.
func Decode(t testing.TB, data []byte) *image.Gray {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if g, ok := img.(*image.Gray); ok {
		return g
	}
	g := image.NewGray(img.Bounds())
	if c, ok := img.(*image.NRGBA); ok && c.Opaque() {
		greyed(g, c)
		return g
	}
	draw.Draw(g, g.Bounds(), img, g.Bounds().Min, draw.Src)
	return g
}

// greyed is draw.Draw for pictures in colour that hide what is below, several times as
// fast: it weighs red, green and blue as color.GrayModel does.
func greyed(g *image.Gray, c *image.NRGBA) {
	for i := range g.Pix {
		p := c.Pix[4*i : 4*i+3]
		g.Pix[i] = uint8((19595*257*uint32(p[0]) + 38470*257*uint32(p[1]) + 7471*257*uint32(p[2]) + 1<<15) >> 24)
	}
}

// Dark returns how dark a pixel is, 0 white to 1 black. Places outside are white.
func Dark(img *image.Gray, x, y int) float64 {
	if !(image.Point{X: x, Y: y}).In(img.Rect) {
		return 0
	}
	return 1 - float64(img.Pix[img.PixOffset(x, y)])/255
}

// Differing returns the share of cells, squares of size x size pixels, whose
// mean darkness differs by more than limit between a and b, and the worst.
func Differing(a, b *image.Gray, size int, limit float64) (share, worst float64) {
	box := a.Bounds().Union(b.Bounds())
	cells, bad := 0, 0
	for y := box.Min.Y; y < box.Max.Y; y += size {
		for x := box.Min.X; x < box.Max.X; x += size {
			d := mean(a, x, y, size) - mean(b, x, y, size)
			d = max(d, -d)
			worst = max(worst, d)
			cells++
			if d > limit {
				bad++
			}
		}
	}
	return float64(bad) / float64(cells), worst
}

func mean(img *image.Gray, x0, y0, size int) float64 {
	sum := 0.0
	for y := y0; y < y0+size; y++ {
		for x := x0; x < x0+size; x++ {
			sum += Dark(img, x, y)
		}
	}
	return sum / float64(size*size)
}
