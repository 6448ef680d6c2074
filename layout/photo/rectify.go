package photo

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"

	"oxturn/layout/plane"
)

// A Rectified picture lies in the floor's plane.
type Rectified struct {
	JPEG   []byte
	W, H   int        // px
	Bounds plane.Rect // of the floor: the upper left corner is its least x and its most y
}

// edgeWhite is what lies beyond a picture.
const edgeWhite = 0xff

// Rectify turns what a picture shows of a piece of floor into its plane, its longer edge no
// longer than so many px; ok is false where it shows none of it.
func Rectify(p *Picture, f *Fit, bounds plane.Rect, edge int) (r *Rectified, ok bool, err error) {
	drawn, err := p.Drawn()
	if err != nil {
		return nil, false, err
	}
	if bounds, ok = f.shown(bounds); !ok {
		return nil, false, nil
	}
	mm := math.Max(bounds.W(), bounds.H()) / float64(edge)
	w, h := max(1, int(bounds.W()/mm)), max(1, int(bounds.H()/mm))
	src := rgba(drawn)
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			f.sample(out.Pix[out.PixOffset(x, y):], src, bounds, mm, x, y)
		}
	}
	var b bytes.Buffer
	err = jpeg.Encode(&b, out, &jpeg.Options{Quality: DrawnQuality})
	return &Rectified{JPEG: b.Bytes(), W: w, H: h, Bounds: bounds}, err == nil, err
}

// perPixel is by how many places each way a pixel is sampled, so that what is nearer to the
// camera keeps no stairs.
const perPixel = 2

// A place between pixels is counted in 256ths each way, a colour between four in 65536ths.
const (
	partBits   = 8
	parts      = 1 << partBits
	colourBits = 2 * partBits
	opaque     = 0xff
)

// sample sets a pixel to the mean of some places of the floor in it.
func (f *Fit) sample(to []byte, src *image.RGBA, bounds plane.Rect, mm float64, x, y int) {
	wide, high := float64(src.Rect.Dx())/float64(f.size.X), float64(src.Rect.Dy())/float64(f.size.Y)
	var sum [3]int
	for k := range perPixel * perPixel {
		fx := float64(x) + (float64(k%perPixel)+0.5)/perPixel
		fy := float64(y) + (float64(k/perPixel)+0.5)/perPixel
		at, ok := f.Image(plane.Pt(bounds.Min.X+float64(fx*mm), bounds.Max.Y-float64(fy*mm)))
		if !ok || !f.Holds(at) {
			for i := range sum {
				sum[i] += edgeWhite << colourBits
			}
			continue
		}
		between(&sum, src, at.X*wide-0.5, at.Y*high-0.5)
	}
	for i := range sum {
		to[i] = byte((sum[i]/(perPixel*perPixel) + 1<<(colourBits-1)) >> colourBits)
	}
	to[3] = opaque
}

// between adds the colour between four pixels, in 65536ths, from its place in 256ths: whole
// numbers, so that every machine has the same.
func between(sum *[3]int, src *image.RGBA, x, y float64) {
	fx, fy := int(math.Floor(x*parts)), int(math.Floor(y*parts))
	x0, y0, ax, ay := fx>>partBits, fy>>partBits, fx&(parts-1), fy&(parts-1)
	w, h := src.Rect.Dx(), src.Rect.Dy()
	for k := range 4 {
		px, py := min(max(x0+k&1, 0), w-1), min(max(y0+k>>1, 0), h-1)
		wx, wy := parts-ax, parts-ay
		if k&1 == 1 {
			wx = ax
		}
		if k>>1 == 1 {
			wy = ay
		}
		at := src.PixOffset(px, py)
		for i := range sum {
			sum[i] += int(src.Pix[at+i]) * wx * wy
		}
	}
}

// shownStep is how far apart a piece of floor is looked at to find what of it is shown, as
// a share of its edges.
const shownStep = 1.0 / 60

// shown returns what of a piece of floor a picture has, as a rectangle.
func (f *Fit) shown(b plane.Rect) (plane.Rect, bool) {
	var seen []plane.Point
	n := int(1 / shownStep)
	for i := range n + 1 {
		for k := range n + 1 {
			p := plane.Pt(b.Min.X+float64(b.W()*float64(i)/float64(n)), b.Min.Y+float64(b.H()*float64(k)/float64(n)))
			if at, ok := f.Image(p); ok && f.Holds(at) {
				seen = append(seen, p)
			}
		}
	}
	if len(seen) < 2 {
		return plane.Rect{}, false
	}
	part := plane.Bounds(seen)
	step := plane.Pt(b.W()*shownStep, b.H()*shownStep)
	out := plane.Rect{Min: part.Min.Sub(step), Max: part.Max.Add(step)}
	out.Min = plane.Pt(math.Max(out.Min.X, b.Min.X), math.Max(out.Min.Y, b.Min.Y))
	out.Max = plane.Pt(math.Min(out.Max.X, b.Max.X), math.Min(out.Max.Y, b.Max.Y))
	return out, out.W() > 0 && out.H() > 0
}
