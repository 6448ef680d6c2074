package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"image/draw"
	"image/jpeg"
	"image/png"
)

// An orientation is how a picture was stored, by the number that Exif gives it: 1 is
// upright, 6 is what a phone stores that is held upright, a quarter turn off.
type orientation int

const upright orientation = 1

// Those from here on lie on their side, width and height exchanged.
const (
	mirroredLeft orientation = iota + 5
	turnedRight
	mirroredRight
	turnedLeft
)

// sideways reports whether width and height are exchanged.
func (o orientation) sideways() bool { return o >= mirroredLeft }

// stored returns where a pixel of the upright picture, w by h, is stored.
func (o orientation) stored(x, y, w, h int) (int, int) {
	switch o {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case mirroredLeft:
		return y, x
	case turnedRight:
		return y, w - 1 - x
	case mirroredRight:
		return h - 1 - y, w - 1 - x
	case turnedLeft:
		return h - 1 - y, x
	}
	return x, y
}

// SmallEdge is the longer edge of a small copy, px: a pixel takes 2 to 3 mm of a bath's floor.
const SmallEdge = 1600

// smallQuality and DrawnQuality are of a small copy, and of pictures drawn from one.
const (
	smallQuality = 82
	DrawnQuality = 78
)

// reduced returns a small copy that says nothing of itself yet; a small copy stays as it is.
func (p *Picture) reduced() ([]byte, error) {
	if p.small {
		return p.data, nil
	}
	all, err := p.unpack()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = jpeg.Encode(&b, turned(rgba(all), p.turn, p.Size, SmallEdge), &jpeg.Options{Quality: smallQuality})
	return b.Bytes(), err
}

// Preview returns the picture, upright, its longer edge no longer than so many px, as JPEG.
func (p *Picture) Preview(edge int) ([]byte, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if made := p.previews[edge]; made != nil {
		return made, nil
	}
	made, err := p.preview(edge)
	if err == nil {
		p.previews = map[int][]byte{edge: made} // one size is drawn at a time
	}
	return made, err
}

func (p *Picture) preview(edge int) ([]byte, error) {
	drawn, err := p.Drawn()
	if err != nil {
		return nil, err
	}
	src := rgba(drawn)
	var b bytes.Buffer
	err = jpeg.Encode(&b, turned(src, upright, src.Rect.Size(), edge), &jpeg.Options{Quality: DrawnQuality})
	return b.Bytes(), err
}

func (p *Picture) unpack() (image.Image, error) {
	if p.format == "png" {
		return png.Decode(bytes.NewReader(p.data))
	}
	return jpeg.Decode(bytes.NewReader(p.data))
}

// Drawn is the picture as it is drawn from: its small copy, so that this gives the same
// drawings.
func (p *Picture) Drawn() (image.Image, error) {
	small, err := p.copied()
	if err != nil {
		return nil, err
	}
	return jpeg.Decode(bytes.NewReader(small))
}

// Small returns a small copy as JPEG, upright, which says of itself what it was made from
// and nothing else of what its camera wrote; where it was taken only if that is asked for.
func (p *Picture) Small(place bool) ([]byte, error) {
	small, err := p.copied()
	if err != nil {
		return nil, err
	}
	return noted(small, p.note(place))
}

// longestComment is what a segment of a JPEG holds, two bytes of length with it, in round figures.
const longestComment = 0xfff0

// noted puts a comment into a JPEG, in the place of any that it has.
func noted(data []byte, text string) ([]byte, error) {
	if len(data) < 4 || len(text) > longestComment {
		return nil, errors.New("no JPEG to put a comment into")
	}
	out := append([]byte{0xff, 0xd8, 0xff, comment}, binary.BigEndian.AppendUint16(nil, uint16(len(text)+2))...)
	out = append(out, text...)
	at := 2
	for _, s := range segments(data) {
		if s.marker != comment {
			out = append(out, s.whole...)
		}
		at += len(s.whole)
	}
	return append(out, data[at:]...), nil
}

// turned returns a picture upright, of a size as seen so, its longer edge no longer than edge:
// each pixel the mean of those that it takes the place of.
func turned(src *image.RGBA, turn orientation, size image.Point, edge int) *image.RGBA {
	w, h := size.X, size.Y
	sw, sh := w, h
	if long := max(w, h); long > edge {
		sw, sh = max(1, w*edge/long), max(1, h*edge/long)
	}
	out := image.NewRGBA(image.Rect(0, 0, sw, sh))
	for y := range sh {
		for x := range sw {
			meanOf(out.Pix[out.PixOffset(x, y):], src, turn, image.Rect(x*w/sw, y*h/sh, (x+1)*w/sw, (y+1)*h/sh), w, h)
		}
	}
	return out
}

// meanOf sets a pixel to the mean of those in a box of an upright picture.
func meanOf(to []byte, src *image.RGBA, turn orientation, box image.Rectangle, w, h int) {
	var sum [3]int
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			at := src.PixOffset(turn.stored(x, y, w, h))
			sum[0] += int(src.Pix[at])
			sum[1] += int(src.Pix[at+1])
			sum[2] += int(src.Pix[at+2])
		}
	}
	n := box.Dx() * box.Dy()
	for i := range sum {
		to[i] = byte((sum[i] + n/2) / n)
	}
	to[3] = opaque
}

// rgba returns a picture over white, from its own corner.
func rgba(m image.Image) *image.RGBA {
	b := m.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(out, out.Bounds(), m, b.Min, draw.Over)
	return out
}
