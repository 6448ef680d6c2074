// Package camera makes photos of floors that never were, with known truth, for tests: a
// pinhole with a lens term above the floor.
package camera

import (
	"math"

	"oxturn/layout/photo"
	"oxturn/layout/plane"
)

// A Camera is a phone held over a floor.
type Camera struct {
	At    plane.Point // over this place
	Up    float64     // so high, mm
	To    plane.Point // pointed at this place of the floor
	Roll  float64     // radians clockwise
	Focal float64     // px
	W, H  int         // px
	Lens  float64     // k of package photo
}

// axes are the ways to the right in the picture, down in it, and into the scene.
func (c *Camera) axes() (right, down, into [3]float64) {
	into = unit([3]float64{c.To.X - c.At.X, c.To.Y - c.At.Y, -c.Up})
	right = unit(cross(into, [3]float64{0, 0, 1}))
	down = cross(into, right)
	s, k := math.Sincos(c.Roll)
	for i := range right {
		right[i], down[i] = k*right[i]+s*down[i], k*down[i]-s*right[i]
	}
	return right, down, into
}

// Pixel returns where a place of the floor, so much above it, is in the picture.
func (c *Camera) Pixel(p plane.Point, above float64) photo.Pixel {
	right, down, into := c.axes()
	d := [3]float64{p.X - c.At.X, p.Y - c.At.Y, above - c.Up}
	deep := inner(d, into)
	half := c.half()
	a, b := c.Focal*inner(d, right)/deep/half, c.Focal*inner(d, down)/deep/half
	bent := half * (1 + c.Lens*(a*a+b*b))
	return photo.Pixel{X: float64(c.W)/2 + a*bent, Y: float64(c.H)/2 + b*bent}
}

// Floor returns the place of the floor seen at a pixel; ok is false above the horizon.
func (c *Camera) Floor(p photo.Pixel) (at plane.Point, ok bool) {
	right, down, into := c.axes()
	half := c.half()
	u, v := (p.X-float64(c.W)/2)/half, (p.Y-float64(c.H)/2)/half
	a, b := u, v
	for range 40 { // the lens by fixed point, which this test camera's terms allow
		bent := 1 + c.Lens*(a*a+b*b)
		a, b = u/bent, v/bent
	}
	var d [3]float64
	for i := range d {
		d[i] = into[i] + (a*right[i]+b*down[i])*half/c.Focal
	}
	if d[2] >= 0 {
		return plane.Point{}, false
	}
	t := c.Up / -d[2]
	return plane.Pt(c.At.X+t*d[0], c.At.Y+t*d[1]), true
}

func (c *Camera) half() float64 { return math.Hypot(float64(c.W), float64(c.H)) / 2 }

func inner(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func unit(a [3]float64) [3]float64 {
	n := math.Sqrt(inner(a, a))
	return [3]float64{a[0] / n, a[1] / n, a[2] / n}
}
