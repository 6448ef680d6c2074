package camera

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"time"

	"oxturn/layout/photo"
	"oxturn/layout/plane"
)

// A Scene is a floor before it is covered.
type Scene struct {
	Outline plane.Ring
	Cables  [][]plane.Point
	Marks   []plane.Point // crosses drawn on the membrane
	Pitch   float64       // of the pegs, mm
}

// Half widths of what is drawn, and the cell of the scene's own picture, mm.
const (
	cableHalf = 3.5
	markHalf  = 25.0
	cell      = 1.5
)

// Render takes a photo of a scene, with noise of so many grey levels.
func (c *Camera) Render(s Scene, noise float64) *image.RGBA {
	floor := s.drawn()
	r := rand.New(rand.NewPCG(11, 13))
	out := image.NewRGBA(image.Rect(0, 0, c.W, c.H))
	wall := color.RGBA{214, 210, 202, 255}
	for y := range c.H {
		for x := range c.W {
			col := wall
			at, ok := c.Floor(photo.Pixel{X: float64(x) + 0.5, Y: float64(y) + 0.5})
			if ok {
				if got, in := floor.at(at); in {
					col = got
				}
			}
			k := noise * r.NormFloat64()
			add := func(v uint8) uint8 { return uint8(math.Max(0, math.Min(255, float64(v)+k))) }
			out.SetRGBA(x, y, color.RGBA{add(col.R), add(col.G), add(col.B), 255})
		}
	}
	return out
}

// A drawnFloor is a scene from straight above.
type drawnFloor struct {
	bounds plane.Rect
	w, h   int
	cells  []color.RGBA
}

func (f *drawnFloor) at(p plane.Point) (color.RGBA, bool) {
	x, y := int(math.Floor((p.X-f.bounds.Min.X)/cell)), int(math.Floor((p.Y-f.bounds.Min.Y)/cell))
	if x < 0 || y < 0 || x >= f.w || y >= f.h || f.cells[y*f.w+x].A == 0 {
		return color.RGBA{}, false
	}
	return f.cells[y*f.w+x], true
}

func (s Scene) drawn() *drawnFloor {
	f := &drawnFloor{bounds: s.Outline.Bounds()}
	f.w, f.h = int(f.bounds.W()/cell)+1, int(f.bounds.H()/cell)+1
	f.cells = make([]color.RGBA, f.w*f.h)
	middle := func(i int) plane.Point {
		return f.bounds.Min.Add(plane.Pt((float64(i%f.w)+0.5)*cell, (float64(i/f.w)+0.5)*cell))
	}
	for i := range f.cells {
		p := middle(i)
		if !s.Outline.Contains(p) {
			continue
		}
		f.cells[i] = color.RGBA{232, 156, 92, 255}
		if s.Pitch > 0 {
			dx, dy := math.Mod(p.X, s.Pitch)/s.Pitch-0.5, math.Mod(p.Y, s.Pitch)/s.Pitch-0.5
			if dx*dx+dy*dy < 0.09 {
				f.cells[i] = color.RGBA{244, 186, 128, 255}
			}
		}
	}
	for _, path := range s.Cables {
		f.stroke(path, cableHalf, color.RGBA{40, 70, 160, 255})
	}
	for _, m := range s.Marks {
		f.stroke([]plane.Point{m.Sub(plane.Pt(markHalf, 0)), m.Add(plane.Pt(markHalf, 0))}, 2, color.RGBA{A: 255})
		f.stroke([]plane.Point{m.Sub(plane.Pt(0, markHalf)), m.Add(plane.Pt(0, markHalf))}, 2, color.RGBA{A: 255})
	}
	return f
}

func (f *drawnFloor) stroke(path []plane.Point, half float64, col color.RGBA) {
	for _, leg := range plane.Segments(path) {
		b := leg.Bounds()
		x0, x1 := int((b.Min.X-half-f.bounds.Min.X)/cell), int((b.Max.X+half-f.bounds.Min.X)/cell)
		y0, y1 := int((b.Min.Y-half-f.bounds.Min.Y)/cell), int((b.Max.Y+half-f.bounds.Min.Y)/cell)
		for y := max(0, y0); y <= min(y1, f.h-1); y++ {
			for x := max(0, x0); x <= min(x1, f.w-1); x++ {
				p := f.bounds.Min.Add(plane.Pt((float64(x)+0.5)*cell, (float64(y)+0.5)*cell))
				if leg.Distance(p) <= half {
					f.cells[y*f.w+x] = col
				}
			}
		}
	}
}

// Blank is a photo of the camera's size with nothing in it, for what asks for its known points
// alone.
func (c *Camera) Blank(tag Tag) []byte {
	m := image.NewRGBA(image.Rect(0, 0, c.W, c.H))
	for i := range m.Pix {
		m.Pix[i] = 200
	}
	return Encode(m, 20, tag)
}

// sides are where Exif's orientations 1 to 8 have the first row and the first column of what
// is stored (CIPA DC-008, tag 0x0112).
var sides = [9][2]string{{}, {"top", "left"}, {"top", "right"}, {"bottom", "right"}, {"bottom", "left"},
	{"left", "top"}, {"right", "top"}, {"right", "bottom"}, {"left", "bottom"}}

// Stored returns a picture as a camera stores it that was held otherwise.
func Stored(m *image.RGBA, orientation int) *image.RGBA {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	row, col := sides[orientation][0], sides[orientation][1]
	sideways := row == "left" || row == "right"
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if sideways {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	from := func(side string, i int) (x, y int) { // what lies i lines in from a side
		switch side {
		case "left":
			return i, -1
		case "right":
			return w - 1 - i, -1
		case "top":
			return -1, i
		}
		return -1, h - 1 - i
	}
	for r := range out.Rect.Dy() {
		for c := range out.Rect.Dx() {
			x, y := from(row, r)
			x2, y2 := from(col, c)
			out.SetRGBA(c, r, m.RGBAAt(max(x, x2), max(y, y2)))
		}
	}
	return out
}

// A Tag is what a camera writes beside a picture.
type Tag struct {
	Orientation int
	Taken       time.Time
	Place       bool // 51 deg 30' 0.5" N, 0 deg 7' 30" W
	Big         bool // the order of its bytes
}

// Encode writes a JPEG with its tag.
func Encode(m image.Image, quality int, tag Tag) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: quality}); err != nil {
		panic(err) // a buffer never fails
	}
	body := append([]byte("Exif\x00\x00"), tag.tiff()...)
	out := binary.BigEndian.AppendUint16([]byte{0xff, 0xd8, 0xff, 0xe1}, uint16(len(body)+2))
	return append(append(out, body...), b.Bytes()[2:]...)
}

// tiff writes the directories of TIFF 6.0: the main one, that of Exif and that of the place.
func (t Tag) tiff() []byte {
	var order interface {
		binary.ByteOrder
		binary.AppendByteOrder
	} = binary.LittleEndian
	head := "II*\x00"
	if t.Big {
		order, head = binary.BigEndian, "MM\x00*"
	}
	const main, exif, gps = 8, 100, 200
	out := order.AppendUint32([]byte(head), main)
	directory := func(at int, entries ...[]byte) {
		out = append(out, make([]byte, at-len(out))...)
		out = order.AppendUint16(out, uint16(len(entries)))
		for _, e := range entries {
			out = append(out, e...)
		}
		out = order.AppendUint32(out, 0)
	}
	entry := func(tag, kind uint16, count uint32, value uint32) []byte {
		e := order.AppendUint16(order.AppendUint16(nil, tag), kind)
		e = order.AppendUint32(e, count)
		if kind == 3 {
			return append(order.AppendUint16(e, uint16(value)), 0, 0)
		}
		return order.AppendUint32(e, value)
	}
	letter := func(tag uint16, s string) []byte {
		e := order.AppendUint32(order.AppendUint16(order.AppendUint16(nil, tag), 2), 2)
		return append(e, s[0], 0, 0, 0)
	}
	mains := [][]byte{entry(0x0112, 3, 1, uint32(t.Orientation)), entry(0x8769, 4, 1, exif)}
	if t.Place {
		mains = append(mains, entry(0x8825, 4, 1, gps))
	}
	directory(main, mains...)
	const day = exif + 2 + 12 + 4
	if t.Taken.IsZero() {
		directory(exif)
	} else {
		directory(exif, entry(0x9003, 2, 20, day))
		out = append(out, t.Taken.Format("2006:01:02 15:04:05")+"\x00"...)
	}
	if !t.Place {
		return out
	}
	const ratios = gps + 2 + 4*12 + 4
	directory(gps, letter(1, "N"), entry(2, 5, 3, ratios), letter(3, "W"), entry(4, 5, 3, ratios+24))
	for _, v := range []uint32{51, 1, 30, 1, 5, 10, 0, 1, 7, 1, 30, 1} {
		out = order.AppendUint32(out, v)
	}
	return out
}
