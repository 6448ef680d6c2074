// Package photo measures a floor in a photo of it: from points known both in the picture
// and on the floor it finds how the one maps to the other, says how far off a place read
// from the picture may be, and turns the picture into the floor's plane. It knows no files:
// a picture comes as the bytes of one.
//
// The map is a homography, h, of the floor's plane, with one term, k, for a lens whose
// magnification changes with the distance r from the middle of the picture:
//
//	w = h6 x + h7 y + 1,  a = (h0 x + h1 y + h2) / w,  b = (h3 x + h4 y + h5) / w
//	u = a (1 + k r²),  v = b (1 + k r²),  r² = a² + b²
//
// x and y are the floor about the middle of the known points, u and v the picture about its
// own middle in halves of its diagonal. It begins with the direct linear transformation and
// goes on with least squares of the distances in the picture.
package photo

import (
	"image"
	"math"

	"oxturn/layout/plane"
)

// A Pixel is a place in a picture as it is seen upright: px from its upper left corner, x
// right and y down.
type Pixel = plane.Vec[picturePlane]

type picturePlane struct{}

// A Pair is one place known both ways.
type Pair struct {
	Image Pixel
	Floor plane.Point
}

// A Fit is how a picture shows a floor.
type Fit struct {
	Pairs     []Pair
	Off       []Pixel // of each pair: where the picture has it less where the fit does
	OffFloor  []float64
	Sigma     float64 // px, of one coordinate of one point; 0 where nothing is left over to tell
	Free      int     // how many coordinates are left over for that
	Lens      float64 // k, 0 where it was not looked for
	LensKnown bool

	size   image.Point
	model  model
	middle plane.Point // of the known points
	unit   float64     // mm of floor to one of the model's
	half   float64     // px to one of the model's
	spread [][]float64 // of the parameters, in squares of sigma
	sigma  float64     // in the model's units, as a band is worked out by it
}

// Points that are asked for, and from how many on the lens is looked for: it takes one
// figure of two for each point beyond four.
const (
	FewestPairs = 4
	LensPairs   = 7
)

// Known points are read no better than this, whatever their residuals: half a pixel; and
// where four leave no residual, each coordinate by a tape to 3 mm, 1/8 in (common practice).
const (
	leastSigma   = 0.5
	assumedSigma = 3.0
)

// Image returns where in the picture a place of the floor is; ok is false where the camera
// has it behind itself, or beyond what the lens term holds for.
func (f *Fit) Image(p plane.Point) (at Pixel, ok bool) {
	x, y := f.own(p)
	s := f.model.at(x, y)
	if !s.front() {
		return Pixel{}, false
	}
	return f.pixel(s.u, s.v), true
}

// Floor returns the place of the floor that a pixel shows; ok is false above the horizon.
func (f *Fit) Floor(p Pixel) (at plane.Point, ok bool) {
	u, v := f.normal(p)
	x, y, ok := f.model.back(u, v)
	if !ok {
		return plane.Point{}, false
	}
	return f.middle.Add(plane.Pt(x, y).Mul(f.unit)), true
}

// Holds reports whether a pixel is in the picture.
func (f *Fit) Holds(p Pixel) bool {
	return p.X >= 0 && p.Y >= 0 && p.X <= float64(f.size.X) && p.Y <= float64(f.size.Y)
}

// A cable of this width, mm, is told in a picture where it is a pixel wide.
const seenWidth = 6.0

// Sees reports whether the picture shows a place of the floor closely enough for a cable there
// to be told; across is the way across the cable, of length 1.
func (f *Fit) Sees(p, across plane.Point) bool {
	at, ok := f.Image(p)
	a, okA := f.Image(p.Add(across.Mul(seenWidth / 2)))
	b, okB := f.Image(p.Sub(across.Mul(seenWidth / 2)))
	return ok && okA && okB && f.Holds(at) && a.Dist(b) >= 1
}

// RMS returns the root mean square of the residuals on the floor, mm.
func (f *Fit) RMS() float64 {
	sum := 0.0
	for _, d := range f.OffFloor {
		sum += float64(d * d)
	}
	return math.Sqrt(sum / float64(len(f.OffFloor)))
}

// own turns a place into the model's.
func (f *Fit) own(p plane.Point) (x, y float64) {
	d := p.Sub(f.middle)
	return d.X / f.unit, d.Y / f.unit
}

func (f *Fit) normal(p Pixel) (u, v float64) {
	return (p.X - float64(f.size.X)/2) / f.half, (p.Y - float64(f.size.Y)/2) / f.half
}

func (f *Fit) pixel(u, v float64) Pixel {
	return Pixel{X: float64(u*f.half) + float64(f.size.X)/2, Y: float64(v*f.half) + float64(f.size.Y)/2}
}
