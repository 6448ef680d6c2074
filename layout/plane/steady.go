package plane

import "math"

// Processors do not agree in the last bits of an angle's functions, nor in
// x*y + z, which some round once and some twice. A route may hang on such a
// bit, and one job must give one floor everywhere: angles go through the
// functions here, and a product that is added to something stands in float64()
// wherever a choice depends on it, unless it is exact, such as twice a number.

// steadyParts is the last place that machines agree on.
const steadyParts = 1e12

// steady rounds to far below what matters and far above what processors differ by.
func steady(x float64) float64 { return math.Round(x*steadyParts) / steadyParts }

// Sincos returns the sine and the cosine of an angle in radians to 12 places.
func Sincos(a float64) (sin, cos float64) {
	sin, cos = math.Sincos(a)
	return steady(sin), steady(cos)
}

// Atan2 returns the angle of (x, y) in radians to 12 places.
func Atan2(y, x float64) float64 { return steady(math.Atan2(y, x)) }

// Tan returns the tangent of an angle in radians to 12 places.
func Tan(a float64) float64 { return steady(math.Tan(a)) }

// What rounding leaves of lengths that are the same.
const (
	Hair = 1e-6 // mm: nearer than that is at the same place
	Whit = 1e-9 // that a count or a share may be off a whole one
)

// sameCorner is how far apart in mm corners may lie that are one.
const sameCorner = 1e-9

// Degrees returns an angle in radians in degrees.
func Degrees(radians float64) float64 { return radians * 180 / math.Pi }

// Radians returns an angle in degrees in radians.
func Radians(degrees float64) float64 { return degrees * math.Pi / 180 }
