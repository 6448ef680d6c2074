package drawing

import "math"

// The palette. Nothing is told by colour alone: all of it prints as black,
// white or grey and keeps its meaning.
var (
	Black = Colour{0, 0, 0}
	White = Colour{255, 255, 255}
	// HeatRed is the heating cable on a screen. Its lightness is that of a 15 %
	// grey, so that a grey printer gives a line as good as black.
	HeatRed = Colour{0x80, 0, 0}
	// SensorBlue is the sensor and its lead on a screen, as dark as HeatRed.
	SensorBlue = Colour{0, 0x20, 0x80}
)

// brightest is a channel without any black.
const brightest = 255

// Grey returns the grey with so much black in it: 0 is white, 1 is black.
func Grey(share float64) Colour {
	v := uint8(math.Round(brightest * (1 - math.Max(0, math.Min(1, share)))))
	return Colour{v, v, v}
}

// Poche is the grey that fills cut walls.
var Poche = Grey(0.15)

// Lightness returns how light c is on a grey printer, 0 black to 1 white, by
// the luma weights of ITU-R BT.601.
func (c Colour) Lightness() float64 {
	const red, green, blue = 0.299, 0.587, 0.114
	return (red*float64(c.R) + green*float64(c.G) + blue*float64(c.B)) / brightest
}

// Filled returns a pointer to c, for Path.Fill.
func Filled(c Colour) *Colour { return &c }
