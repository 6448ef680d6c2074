package photo_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"strings"
	"testing"
	"time"

	"oxturn/layout/internal/camera"
	"oxturn/layout/photo"
	"oxturn/layout/plane"
)

// quarters is a picture of 96 by 64 pixels whose quarters are red, green, blue and grey, from
// the upper left one round by the right.
func quarters() *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, 96, 64))
	for y := range 64 {
		for x := range 96 {
			c := []color.RGBA{{200, 20, 20, 255}, {20, 200, 20, 255}, {120, 120, 120, 255}, {20, 20, 200, 255}}
			m.SetRGBA(x, y, c[x/48+2*(y/32)])
		}
	}
	return m
}

var taken = time.Date(2026, 12, 2, 15, 4, 5, 0, time.UTC)

// TestOrientations: however a camera stored a picture it is read as it is seen.
func TestOrientations(t *testing.T) {
	for o := 1; o <= 8; o++ {
		data := camera.Encode(camera.Stored(quarters(), o), 95, camera.Tag{Orientation: o, Big: o%2 == 0})
		p, err := photo.Read(data)
		if err != nil || p.Size != image.Pt(96, 64) {
			t.Errorf("orientation %d: %v, %v", o, p, err)
			continue
		}
		m, err := p.Drawn()
		if err != nil {
			t.Fatal(err)
		}
		want := quarters()
		for _, at := range []image.Point{{20, 12}, {70, 12}, {70, 50}, {20, 50}} {
			r, g, b, _ := m.At(at.X, at.Y).RGBA()
			w := want.RGBAAt(at.X, at.Y)
			off := math.Abs(float64(r>>8)-float64(w.R)) + math.Abs(float64(g>>8)-float64(w.G)) +
				math.Abs(float64(b>>8)-float64(w.B))
			if off > 30 {
				t.Errorf("orientation %d: %d %d %d at %v, want %v", o, r>>8, g>>8, b>>8, at, w)
			}
		}
	}
}

// TestWhatTheCameraWrote: day and place are read in either order of bytes, and copies keep
// the place only where that is asked for.
func TestWhatTheCameraWrote(t *testing.T) {
	for _, big := range []bool{false, true} {
		data := camera.Encode(quarters(), 90, camera.Tag{Orientation: 1, Taken: taken, Place: true, Big: big})
		p, err := photo.Read(data)
		if err != nil {
			t.Fatal(err)
		}
		// 51° 30' 0.5" north, 0° 7' 30" west
		if p.Taken.Format(time.DateOnly) != "2026-12-02" || p.Placed == nil ||
			math.Abs(p.Placed.North-(51.5+0.5/3600)) > 1e-9 || math.Abs(p.Placed.East+0.125) > 1e-9 {
			t.Errorf("big %v: %v, %+v", big, p.Taken, p.Placed)
		}
		for _, keep := range []bool{false, true} {
			small, err := p.Small(keep)
			if err != nil {
				t.Fatal(err)
			}
			if bytes.Contains(small, []byte("Exif")) || bytes.Contains(small, []byte("51.5001")) != keep {
				t.Errorf("kept %v: %.120q", keep, small)
			}
			again, err := photo.Read(small)
			if err != nil || (again.Placed != nil) != keep || again.Sum != p.Sum || !again.Taken.Equal(p.Taken) ||
				again.Size != p.Size {
				t.Errorf("kept %v: %+v, %v", keep, again, err)
			}
			if last, err := again.Small(keep); err != nil || !bytes.Equal(last, small) {
				t.Errorf("kept %v: a copy of the copy is another: %v", keep, err)
			}
		}
		if p.Sum != fmt.Sprintf("%x", sha256.Sum256(data)) {
			t.Error("the sum is of something else")
		}
	}
}

// TestSmallCopy: no edge is longer than that of a small copy, and what is drawn from the copy
// is drawn from the photo.
func TestSmallCopy(t *testing.T) {
	c := phone
	c.W, c.H, c.Focal = c.W/2, c.H/2, c.Focal/2
	m := c.Render(camera.Scene{Outline: plane.Rectangle(plane.Pt(0, 0), plane.Pt(1500, 2400)), Pitch: 30.48}, 2)
	large, err := photo.Read(camera.Encode(camera.Stored(m, 6), 80, camera.Tag{Orientation: 6}))
	if err != nil {
		t.Fatal(err)
	}
	if large.Size != image.Pt(1500, 2000) {
		t.Fatalf("the photo is %v", large.Size)
	}
	data, err := large.Small(false)
	if err != nil {
		t.Fatal(err)
	}
	conf, err := jpeg.DecodeConfig(bytes.NewReader(data))
	if err != nil || conf.Width != 1200 || conf.Height != photo.SmallEdge {
		t.Errorf("the copy is %d by %d: %v", conf.Width, conf.Height, err)
	}
	small, err := photo.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	f := fit(t, large.Size, pairsOf(c, known))
	bounds := plane.Rect{Max: plane.Pt(1500, 2400)}
	a, okA, errA := photo.Rectify(large, f, bounds, 200)
	b, okB, errB := photo.Rectify(small, f, bounds, 200)
	if !okA || !okB || errA != nil || errB != nil || !bytes.Equal(a.JPEG, b.JPEG) {
		t.Errorf("from photo and copy: %v %v, %v %v, or their pictures differ", okA, okB, errA, errB)
	}
}

// TestRectified: what was drawn at a place of the floor is there in the floor's plane.
func TestRectified(t *testing.T) {
	c := camera.Camera{At: plane.Pt(700, -500), Up: 1700, To: plane.Pt(760, 900), Focal: 725, W: 750, H: 1000,
		Lens: -0.03}
	marks := []plane.Point{{X: 400, Y: 500}, {X: 1100, Y: 700}, {X: 700, Y: 1500}}
	m := c.Render(camera.Scene{Outline: plane.Rectangle(plane.Pt(0, 0), plane.Pt(1500, 2400)), Marks: marks}, 0)
	p, err := photo.Read(camera.Encode(m, 95, camera.Tag{Orientation: 1}))
	if err != nil {
		t.Fatal(err)
	}
	f := fit(t, image.Pt(750, 1000), pairsOf(c, known))
	flat, ok, err := photo.Rectify(p, f, plane.Rect{Max: plane.Pt(1500, 2400)}, 1200)
	if !ok || err != nil {
		t.Fatal(ok, err)
	}
	pic, err := jpeg.Decode(bytes.NewReader(flat.JPEG))
	if err != nil || pic.Bounds().Dx() != flat.W || pic.Bounds().Dy() != flat.H {
		t.Fatal(err)
	}
	grey := func(at plane.Point) float64 {
		x := int((at.X - flat.Bounds.Min.X) / flat.Bounds.W() * float64(flat.W))
		y := int((flat.Bounds.Max.Y - at.Y) / flat.Bounds.H() * float64(flat.H))
		return float64(color.GrayModel.Convert(pic.At(x, y)).(color.Gray).Y)
	}
	for _, at := range marks {
		if on, off := grey(at), grey(at.Add(plane.Pt(12, 12))); on > 110 || off < 130 {
			t.Errorf("the cross at %v: %.0f on it, %.0f beside it", at, on, off)
		}
	}
	if _, ok, _ := photo.Rectify(p, f, plane.Rect{Min: plane.Pt(5000, 0), Max: plane.Pt(6000, 1000)}, 100); ok {
		t.Error("floor that is not in the picture is shown")
	}
}

func TestNoPhotos(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, quarters()); err != nil {
		t.Fatal(err)
	}
	if p, err := photo.Read(b.Bytes()); err != nil || p.Size != image.Pt(96, 64) {
		t.Errorf("a PNG: %+v, %v", p, err)
	}
	for _, c := range []struct{ data, want string }{
		{"", "neither a JPEG nor a PNG"}, {"GIF89a", "neither a JPEG nor a PNG"},
		{"\x00\x00\x00\x18ftypheic\x00\x00", "HEIC"},
		{"\x00\x00\x00\x18ftypisom\x00\x00", "neither a JPEG nor a PNG"}, // a film
		{"\xff\xd8\xff\xe0\x00\x10JFIF", "cannot be read as a picture"},
		{string(b.Bytes()[:20]), "cannot be read as a picture"},
		{hugePNG(), "it has 65536 x 65536 pixels, and 120 million are taken at most"},
	} {
		if _, err := photo.Read([]byte(c.data)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v, want %q", c.data, err, c.want)
		}
	}
	cut := camera.Encode(quarters(), 90, camera.Tag{Orientation: 1})
	p, err := photo.Read(cut[:len(cut)-40])
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.Drawn(); err == nil {
		t.Error("a picture cut off is drawn")
	}
}

// hugePNG is the head of a picture of 4 thousand million pixels.
func hugePNG() string {
	head := "IHDR\x00\x01\x00\x00\x00\x01\x00\x00\x08\x02\x00\x00\x00"
	sum := binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE([]byte(head)))
	return "\x89PNG\r\n\x1a\n\x00\x00\x00\r" + head + string(sum)
}

// FuzzRead: whatever a file says, it is a picture or an error.
func FuzzRead(f *testing.F) {
	data := camera.Encode(quarters(), 30, camera.Tag{Orientation: 6, Taken: taken, Place: true})
	p, err := photo.Read(data)
	if err != nil {
		f.Fatal(err)
	}
	small, err := p.Small(true)
	if err != nil {
		f.Fatal(err)
	}
	for _, seed := range [][]byte{data, small, data[:100], {}} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := photo.Read(data)
		if err != nil {
			return
		}
		if p.Size.X < 1 || p.Size.Y < 1 || p.Size.X*p.Size.Y > photo.MostPixels {
			t.Errorf("a picture of %v", p.Size)
		}
		if p.Placed != nil && !(math.Abs(p.Placed.North) <= 180 && math.Abs(p.Placed.East) <= 180) {
			t.Errorf("taken at %+v", *p.Placed)
		}
	})
}
