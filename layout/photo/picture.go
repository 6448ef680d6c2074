package photo

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"math"
	"slices"
	"sync"
	"time"

	"oxturn/layout/pattern"
)

// A Picture is a photo as it came.
type Picture struct {
	Size   image.Point // px, upright: what pixels of known points are counted in
	Taken  time.Time   // the day, by the camera; zero: it does not say
	Placed *Place      // where on earth, by the camera; nil: it does not say
	Sum    string      // SHA-256 of the file as it came, in hex

	data   []byte
	format string
	turn   orientation
	small  bool                   // it is a small copy already
	copied func() ([]byte, error) // the small one

	mu       sync.Mutex
	previews map[int][]byte // by their longer edge, px
}

// A Place is one on earth, in degrees, north and east.
type Place struct{ North, East float64 }

func (p Place) sound() bool { return math.Abs(p.North) <= 90 && math.Abs(p.East) <= 180 }

// MostPixels is the size of a picture that is still unpacked.
const MostPixels = 120_000_000

// Errors of what is no photo to work with.
var (
	ErrForm = errors.New("it is neither a JPEG nor a PNG picture")
	ErrHEIC = errors.New("it is a HEIC picture, as some phones keep them; have the phone or a viewer save it as " +
		"JPEG, and count pixels in that")
)

// heicBrands are the kinds of file that phones keep HEIC pictures in (ISO/IEC 23008-12, brands of
// HEVC-coded images and of images in general).
var heicBrands = []string{"heic", "heix", "heim", "heis", "hevc", "hevx", "hevm", "hevs", "mif1", "msf1"}

// isHEIC reports whether a file says that it is one: films and others begin alike but for the brand.
func isHEIC(data []byte) bool {
	const box, brand, end = 4, 8, 12
	return len(data) >= end && string(data[box:brand]) == "ftyp" &&
		slices.Contains(heicBrands, string(data[brand:end]))
}

// Read reads what a photo says of itself, without unpacking it.
func Read(data []byte) (*Picture, error) {
	p := &Picture{data: data, turn: upright, Sum: fmt.Sprintf("%x", sha256.Sum256(data))}
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xd8")):
		p.format = "jpeg"
	case bytes.HasPrefix(data, []byte("\x89PNG")):
		p.format = "png"
	case isHEIC(data):
		return nil, ErrHEIC
	default:
		return nil, ErrForm
	}
	c, err := p.config()
	if err != nil {
		return nil, fmt.Errorf("it cannot be read as a picture: %w", err)
	}
	if c.Width < 1 || c.Height < 1 || c.Width*c.Height > MostPixels {
		return nil, fmt.Errorf("it has %d x %d pixels, and %d million are taken at most", c.Width, c.Height,
			MostPixels/1_000_000)
	}
	p.Size = image.Pt(c.Width, c.Height)
	if p.format == "jpeg" {
		p.readSegments()
	}
	p.copied = sync.OnceValues(p.reduced)
	return p, nil
}

func (p *Picture) config() (image.Config, error) {
	if p.format == "png" {
		return png.DecodeConfig(bytes.NewReader(p.data))
	}
	return jpeg.DecodeConfig(bytes.NewReader(p.data))
}

// readSegments takes what the segments of a JPEG say beside its pixels.
func (p *Picture) readSegments() {
	for _, s := range segments(p.data) {
		switch {
		case s.marker == app1 && bytes.HasPrefix(s.body, exifHead):
			e := readExif(s.body[len(exifHead):])
			p.turn, p.Taken, p.Placed = e.turn, e.taken, e.place
		case s.marker == comment:
			p.readNote(string(s.body))
		}
	}
	if p.turn.sideways() {
		p.Size = image.Pt(p.Size.Y, p.Size.X)
	}
}

// A small copy says of itself what it was made from, in a comment.
const (
	noteForm = "oxturn photo 1: %dx%d sha256 %s"
	dayForm  = "2006-01-02"
)

var noteParts = pattern.Of(`^oxturn photo 1: (\d{1,6})x(\d{1,6}) sha256 ([0-9a-f]{64})(?: taken (\d{4}-\d\d-\d\d))?` +
	`(?: at (-?\d+\.\d+),(-?\d+\.\d+))?$`)

// note is that comment.
func (p *Picture) note(place bool) string {
	s := fmt.Sprintf(noteForm, p.Size.X, p.Size.Y, p.Sum)
	if !p.Taken.IsZero() {
		s += " taken " + p.Taken.Format(dayForm)
	}
	if place && p.Placed != nil {
		s += fmt.Sprintf(" at %.5f,%.5f", p.Placed.North, p.Placed.East)
	}
	return s
}

// readNote takes a small copy for what it was made from.
func (p *Picture) readNote(s string) {
	m := noteParts().FindStringSubmatch(s)
	if m == nil {
		return
	}
	var w, h int
	fmt.Sscan(m[1], &w)
	fmt.Sscan(m[2], &h)
	if w < 1 || h < 1 || w*h > MostPixels {
		return
	}
	p.Size, p.Sum, p.small, p.turn = image.Pt(w, h), m[3], true, upright
	if day, err := time.Parse(dayForm, m[4]); err == nil {
		p.Taken = day
	}
	place := Place{}
	if n, _ := fmt.Sscan(m[5]+" "+m[6], &place.North, &place.East); n == 2 && place.sound() {
		p.Placed = &place
	}
}
