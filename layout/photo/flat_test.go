package photo

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"math"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// TestSampledByHand: on a picture whose colours go up evenly, 40 and 50 a pixel, the mean of
// the places in a pixel is the colour of its middle; at an edge half of them see no further than
// the last pixel, and beyond the picture all is white.
func TestSampledByHand(t *testing.T) {
	src := image.NewRGBA(image.Rect(0, 0, 6, 5))
	for y := range 5 {
		for x := range 6 {
			src.SetRGBA(x, y, color.RGBA{uint8(40 * x), uint8(50 * y), 77, 255})
		}
	}
	// half a pixel of the photo a mm; the photo is twice as wide as what is kept of it, and three
	// times as high
	f := &Fit{size: image.Pt(12, 15), half: 1, unit: 1, model: model{h: [8]float64{0.5, 0, 0, 0, -0.5, 0}}}
	bounds := plane.Rect{Min: plane.Pt(-12, -15), Max: plane.Pt(12, 15)}
	got := func(mm float64, x, y int) [4]byte {
		var to [4]byte
		f.sample(to[:], src, bounds, mm, x, y)
		return to
	}
	across := func(x int) (red byte) { return map[int]byte{0: 5, 5: 195}[x] }
	for y := range 5 { // 6 mm are one of its rows and one and a half of its columns
		row := got(6, 1, y) // columns 1.5 to 3: their middle is at 2.25, less half a pixel
		want := [4]byte{70, byte(50 * y), 77, 255}
		switch y {
		case 0:
			want[1] = 6 // a quarter of a row of 50, of every other place: 6.25
		case 4:
			want[1] = 194 // 193.75
		}
		if row != want {
			t.Errorf("row %d: %v, want %v", y, row, want)
		}
	}
	for x := range 6 { // 4 mm are one of its columns
		want := byte(40 * x)
		if edge := across(x); edge > 0 {
			want = edge
		}
		if c := got(4, x, 3); c[0] != want {
			t.Errorf("column %d: %v, want %d", x, c, want)
		}
	}
	if c := got(4, 6, 3); c != [4]byte{255, 255, 255, 255} {
		t.Errorf("beyond the picture: %v", c)
	}
	if c := got(4, 3, -1); c != [4]byte{255, 255, 255, 255} {
		t.Errorf("above it: %v", c)
	}
	// 16 mm from 16 on: places at 20 and 28 mm, columns 5 and beyond; rows 16 mm from 16 mm: 20
	// and 28 of 30 mm, 3.33 and 4.67 of 5
	if c := got(16, 1, 1); c[0] != (180+255+1)/2 || c[2] != 166 {
		t.Errorf("half of it beyond: %v", c)
	}
}

// TestBetweenFour: the colour in between by its shares, here 1/4 and 3/4.
func TestBetweenFour(t *testing.T) {
	src := image.NewRGBA(image.Rect(0, 0, 2, 2))
	for i, c := range []uint8{16, 32, 64, 240} {
		src.SetRGBA(i%2, i/2, color.RGBA{c, 0, 1, 255})
	}
	for _, c := range []struct {
		x, y float64
		want float64
	}{{0.25, 0.75, 16*0.75*0.25 + 32*0.25*0.25 + 64*0.75*0.75 + 240*0.25*0.75}, {0, 0, 16}, {1, 0, 32}, {0, 1, 64},
		{1, 1, 240}, {-3, 0.5, 40}, {7, -1, 32}, {0.5, 9, 152}, {-0.25, -0.25, 16}} {
		var sum [3]int
		between(&sum, src, c.x, c.y)
		if got := float64(sum[0]) / 65536; got != c.want || sum[1] != 0 || sum[2] != 65536 {
			t.Errorf("at %g, %g: %g and %v, want %g", c.x, c.y, got, sum, c.want)
		}
	}
}

// TestShown: what is shown is found to a sixtieth of what is asked for, from outside.
func TestShown(t *testing.T) {
	f := above(t) // shows 1000 to 1800 by 4400 to 5000 mm
	near := func(got, want plane.Rect) bool { return got.Min.Dist(want.Min) < 1e-6 && got.Max.Dist(want.Max) < 1e-6 }
	rect := func(x, y, x2, y2 float64) plane.Rect { return plane.Rect{Min: plane.Pt(x, y), Max: plane.Pt(x2, y2)} }
	for _, c := range []struct{ asked, want plane.Rect }{
		// columns each 30 mm from 10 on, the 33rd at 1000; rows each 20 mm from 4005 on
		{rect(10, 4005, 1810, 5205), rect(970, 4385, 1810, 5005)},
		{rect(1010, 4410, 1790, 4990), rect(1010, 4410, 1790, 4990)},
		{rect(1005, 3805, 2805, 5005), rect(1005, 4385, 1815, 5005)},
	} {
		if got, ok := f.shown(c.asked); !ok || !near(got, c.want) {
			t.Errorf("of %v: %v, %v, want %v", c.asked, got, ok, c.want)
		}
	}
	for _, none := range []plane.Rect{rect(0, 0, 900, 900), rect(1100, 4500, 1100, 4600),
		rect(1100, 4500, 1200, 4500)} {
		if got, ok := f.shown(none); ok {
			t.Errorf("of %v: %v", none, got)
		}
	}
}

// TestRectifiedFromAbove: seen from straight above a floor is its picture, to scale.
func TestRectifiedFromAbove(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 400, 300))
	draw.Draw(m, m.Rect, image.NewUniform(color.Gray{40}), image.Point{}, draw.Src)
	patch := image.Rect(100, 60, 180, 120) // 1200 to 1360 by 4760 to 4880 mm
	draw.Draw(m, patch, image.NewUniform(color.Gray{210}), image.Point{}, draw.Src)
	p := read(t, pngOf(t, m))
	asked := plane.Rect{Min: plane.Pt(1100, 4600), Max: plane.Pt(1500, 4900)}
	r, ok, err := Rectify(p, above(t), asked, 200)
	if !ok || err != nil || r.W != 200 || r.H != 150 || r.Bounds.Min.Dist(asked.Min) > 1e-6 {
		t.Fatalf("%+v, %v, %v", r, ok, err)
	}
	flat, err := jpeg.Decode(bytes.NewReader(r.JPEG))
	if err != nil || flat.Bounds().Size() != image.Pt(200, 150) {
		t.Fatal(flat.Bounds(), err)
	}
	for y := range 150 {
		for x := range 200 { // 2 mm each
			fx, fy := 1101+2*x, 4899-2*y
			off := max(1200-fx, fx-1360, 4760-fy, fy-4880) // mm outside the patch
			want := 210.0
			if off > 0 {
				want = 40
			}
			got := float64(color.GrayModel.Convert(flat.At(x, y)).(color.Gray).Y)
			if max(off, -off) > 16 && math.Abs(got-want) > 20 {
				t.Fatalf("at %d, %d mm: %g, want %g", fx, fy, got, want)
			}
		}
	}
	strip := plane.Rect{Min: plane.Pt(1100, 4600), Max: plane.Pt(1500, 4600.5)}
	if r, ok, err := Rectify(p, above(t), strip, 100); !ok || err != nil || r.W != 100 || r.H != 1 {
		t.Errorf("a strip: %+v, %v, %v", r, ok, err)
	}
	post := plane.Rect{Min: plane.Pt(1100, 4600), Max: plane.Pt(1100.5, 4900)}
	if r, ok, err := Rectify(p, above(t), post, 100); !ok || err != nil || r.W != 1 || r.H != 100 {
		t.Errorf("a post: %+v, %v, %v", r, ok, err)
	}
}

func pngOf(t *testing.T, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func read(t *testing.T, data []byte) *Picture {
	t.Helper()
	p, err := Read(data)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestTurnedByHand: a picture of three by two, stored in each of Exif's ways: where its first
// row and its first column are to be seen (CIPA DC-008, tag 0x0112).
func TestTurnedByHand(t *testing.T) {
	for o, stored := range map[orientation][]string{
		1: {"abc", "def"},     // row 0 the top, column 0 the left side
		2: {"cba", "fed"},     // the top, the right
		3: {"fed", "cba"},     // the bottom, the right
		4: {"def", "abc"},     // the bottom, the left
		5: {"ad", "be", "cf"}, // the left, the top
		6: {"cf", "be", "ad"}, // the right, the top
		7: {"fc", "eb", "da"}, // the right, the bottom
		8: {"da", "eb", "fc"}, // the left, the bottom
	} {
		src := image.NewRGBA(image.Rect(0, 0, len(stored[0]), len(stored)))
		for y, row := range stored {
			for x, c := range row {
				src.SetRGBA(x, y, color.RGBA{uint8(c), uint8(c) + 1, uint8(c) + 2, 255})
			}
		}
		if o.sideways() != (len(stored) == 3) {
			t.Errorf("orientation %d lies on its side: %v", o, o.sideways())
		}
		got := turned(src, o, image.Pt(3, 2), 3)
		for i, c := range []byte("abcdef") {
			if at := got.RGBAAt(i%3, i/3); at != (color.RGBA{c, c + 1, c + 2, 255}) {
				t.Errorf("orientation %d: %v in place of %c", o, at, c)
			}
		}
	}
}

// TestReducedByHand: a pixel of a smaller picture is the mean of those it takes the place of.
func TestReducedByHand(t *testing.T) {
	src := image.NewRGBA(image.Rect(0, 0, 5, 3))
	for y, row := range [][]uint8{{10, 20, 30, 40, 50}, {11, 21, 31, 41, 51}, {12, 23, 33, 43, 53}} {
		for x, c := range row {
			src.SetRGBA(x, y, color.RGBA{c, 2 * c, 100, 255})
		}
	}
	got := turned(src, upright, image.Pt(5, 3), 2)
	// columns 0 and 1: a sum of 97 over 6; 2 to 4: of 372 over 9
	if got.Rect.Size() != image.Pt(2, 1) || got.RGBAAt(0, 0) != (color.RGBA{16, 32, 100, 255}) ||
		got.RGBAAt(1, 0) != (color.RGBA{41, 83, 100, 255}) {
		t.Errorf("%v: %v and %v", got.Rect, got.RGBAAt(0, 0), got.RGBAAt(1, 0))
	}
	for _, c := range []struct{ w, h, edge, wantW, wantH int }{{5, 3, 5, 5, 3}, {5, 3, 4, 4, 2}, {40, 1, 10, 10, 1},
		{1, 40, 10, 1, 10}, {3, 5, 4, 2, 4}} {
		m := turned(image.NewRGBA(image.Rect(0, 0, c.w, c.h)), upright, image.Pt(c.w, c.h), c.edge)
		if m.Rect.Size() != image.Pt(c.wantW, c.wantH) {
			t.Errorf("%d by %d to %d: %v", c.w, c.h, c.edge, m.Rect)
		}
	}
}

// TestOverWhite: what is half through lets white through, and a part of a picture begins at its
// own corner.
func TestOverWhite(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 4, 4))
	m.SetNRGBA(2, 1, color.NRGBA{100, 0, 0, 128})
	m.SetNRGBA(3, 3, color.NRGBA{7, 8, 9, 255})
	got := rgba(m.SubImage(image.Rect(2, 1, 4, 4)))
	if got.Rect != image.Rect(0, 0, 2, 3) || got.RGBAAt(1, 2) != (color.RGBA{7, 8, 9, 255}) ||
		got.RGBAAt(1, 0) != (color.RGBA{255, 255, 255, 255}) {
		t.Errorf("%v: %v", got.Rect, got.Pix)
	}
	if c := got.RGBAAt(0, 0); c.R < 176 || c.R > 178 || c.G < 126 || c.G > 128 || c.A != 255 {
		t.Errorf("half through: %v", c)
	}
}

// TestSizesOfCopies: the longer edge of a small copy has so many pixels, that of what is looked
// at first as many as are asked for, and smaller pictures stay as large as they are.
func TestSizesOfCopies(t *testing.T) {
	size := func(data []byte, err error) image.Point {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		c, err := jpeg.DecodeConfig(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		return image.Pt(c.Width, c.Height)
	}
	large := read(t, pngOf(t, image.NewGray(image.Rect(0, 0, 2*SmallEdge, 20))))
	if got := size(large.Small(false)); got != image.Pt(SmallEdge, 10) {
		t.Errorf("small: %v", got)
	}
	if got := size(large.Preview(160)); got != image.Pt(160, 1) {
		t.Errorf("looked at first: %v", got)
	}
	little := read(t, pngOf(t, image.NewGray(image.Rect(0, 0, 30, 20))))
	if a, b := size(little.Small(false)), size(little.Preview(100)); a != image.Pt(30, 20) || b != a {
		t.Errorf("a little one: %v and %v", a, b)
	}
}

// jpegOf is a picture of 16 by 8 with segments put in after its start.
func jpegOf(t *testing.T, put ...[]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 16, 8)), nil); err != nil {
		t.Fatal(err)
	}
	out := []byte("\xff\xd8")
	for _, p := range put {
		out = append(out, 0xff, p[0], byte((len(p)+1)>>8), byte(len(p)+1))
		out = append(out, p[1:]...)
	}
	return append(out, b.Bytes()[2:]...)
}

// TestWhichSegmentIsRead: Exif stands in APP1, and so does other text that is not Exif.
func TestWhichSegmentIsRead(t *testing.T) {
	tiff := append([]byte("Exif\x00\x00"), bytesOf(t, bigEndian)...)
	other := append([]byte{0xe1}, "http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta/>"...)
	in := func(marker byte) []byte { return append([]byte{marker}, tiff...) }
	if p := read(t, jpegOf(t, in(0xe1), other)); p.turn != 6 || p.Size != image.Pt(8, 16) || p.Placed == nil {
		t.Errorf("%+v", p)
	}
	if p := read(t, jpegOf(t, in(0xe2))); p.turn != upright || p.Size != image.Pt(16, 8) || p.Placed != nil {
		t.Errorf("APP2: %+v", p)
	}
	p := read(t, jpegOf(t, in(0xe1)))
	want := fmt.Sprintf("oxturn photo 1: 8x16 sha256 %s taken 2026-01-02", p.Sum)
	if got := p.note(false); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got := p.note(true); got != want+" at -33.85852,-71.25000" {
		t.Errorf("%s", got)
	}
	if got := read(t, jpegOf(t)).note(true); strings.Contains(got, "taken") || strings.Contains(got, " at ") {
		t.Errorf("what the camera does not say: %s", got)
	}
}

// TestNotesByHand: what a small copy says it was made from is taken only where it can be so.
func TestNotesByHand(t *testing.T) {
	sum := strings.Repeat("0a", 32)
	for _, c := range []struct {
		note string
		want image.Point // none: it is taken as it is, 16 by 8
		day  string
	}{
		{"oxturn photo 1: 3000x4000 sha256 " + sum, image.Pt(3000, 4000), "0001-01-01"},
		{"oxturn photo 1: 1x1 sha256 " + sum + " taken 2026-02-28", image.Pt(1, 1), "2026-02-28"},
		{"oxturn photo 1: 1x2 sha256 " + sum + " taken 2026-02-29", image.Pt(1, 2), "0001-01-01"},
		{"oxturn photo 1: 12000x10000 sha256 " + sum, image.Pt(12000, 10000), "0001-01-01"},
		{"oxturn photo 1: 12001x10000 sha256 " + sum, image.Point{}, "0001-01-01"},
		{"oxturn photo 1: 0x5 sha256 " + sum, image.Point{}, "0001-01-01"},
		{"oxturn photo 1: 5x0 sha256 " + sum, image.Point{}, "0001-01-01"},
		{"oxturn photo 1: 5x5 sha256 " + sum[1:], image.Point{}, "0001-01-01"},
		{"seen by the door", image.Point{}, "0001-01-01"},
	} {
		p := read(t, jpegOf(t, append([]byte{comment}, c.note...)))
		want := c.want
		if want == (image.Point{}) {
			want = image.Pt(16, 8)
		}
		if p.Size != want || p.small != (c.want != image.Point{}) || p.small != (p.Sum == sum) ||
			p.Taken.Format("2006-01-02") != c.day {
			t.Errorf("%s: %v, small %v, %v", c.note, p.Size, p.small, p.Taken)
		}
	}
	at := func(place string) *Place {
		return read(t, jpegOf(t, []byte("\xfeoxturn photo 1: 3x4 sha256 "+sum+" at "+place))).Placed
	}
	if p := at("-90.00000,180.00000"); p == nil || *p != (Place{-90, 180}) {
		t.Errorf("%v", p)
	}
	if p := at("90.10000,0.00000"); p != nil {
		t.Errorf("%v", *p)
	}
}

// TestSizesThatAreTaken: the two bytes each of height and width come after the length and the
// depth of a frame's segment (ITU-T T.81, B.2.2).
func TestSizesThatAreTaken(t *testing.T) {
	data := jpegOf(t)
	frame := bytes.Index(data, []byte{0xff, 0xc0})
	for _, c := range []struct {
		w, h int
		ok   bool
	}{{1, 1, true}, {1, 9, true}, {9, 1, true}, {12000, 10000, true}, {12001, 10000, false}, {0, 9, false},
		{9, 0, false}, {60000, 60000, false}} {
		b := bytes.Clone(data)
		copy(b[frame+5:], []byte{byte(c.h >> 8), byte(c.h), byte(c.w >> 8), byte(c.w)})
		if p, err := Read(b); (err == nil) != c.ok || c.ok && p.Size != image.Pt(c.w, c.h) {
			t.Errorf("%d by %d: %+v, %v", c.w, c.h, p, err)
		}
	}
	for n, want := range map[int]error{11: ErrForm, 12: ErrHEIC} {
		if _, err := Read([]byte("\x00\x00\x00\x18ftypheic\x00\x00"[:n])); err != want {
			t.Errorf("%d bytes: %v", n, err)
		}
	}
}
