package route

import (
	"math"

	"oxturn/layout/plane"
)

// Judge scores a path over the whole floor that its cable serves, as a route is
// scored that is laid there from the start: for one that was laid otherwise, or
// that goes on from a part laid before. Places at its ends, which are a
// problem's, do not count. The closest gap is in mm.
func Judge(path []plane.Point, floor plane.Region, l Lattice, closest, length float64) Score {
	f := newField(floor, l, closest, ideal(floor, length))
	return f.judge(path, math.Inf(1))
}
