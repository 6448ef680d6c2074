package job

import (
	"math"

	"oxturn/layout/plane"
)

// A Side is what things of a room may stand against: a wall, whole with what niches took of
// it, or a face of a partition.
type Side struct {
	Name string // as the key wall has it
	Face string // of a partition: "left" or "right"
	base base
}

// curveStep mm is how long the pieces are in which a curve is told.
const curveStep = 100

// Sides are all that things may stand against, the walls first.
func (r *Room) Sides() []Side {
	var out []Side
	for i, w := range r.Walls {
		if w.Arc == nil || i == 0 || r.Walls[i-1].Arc != w.Arc {
			out = append(out, Side{Name: w.Letter, base: r.baseOf(i)})
		}
	}
	for i := range r.Partitions {
		for _, face := range []string{"left", "right"} {
			out = append(out, Side{r.Partitions[i].Name, face, r.faceOf(i, face)})
		}
	}
	return out
}

// Length is along the curve where it is one.
func (s Side) Length() float64 { return s.base.length() }

// Line is the side as one goes along it, a curve in pieces.
func (s Side) Line() []plane.Point {
	n := 1
	if s.base.arc != nil {
		n = int(math.Ceil(s.Length() / curveStep))
	}
	var out []plane.Point
	for i := range n + 1 {
		p, _, _ := s.base.at(s.Length() * float64(i) / float64(n))
		out = append(out, p)
	}
	return out
}

// Out is square to the side at a place along it, to where things stand.
func (s Side) Out(along float64) plane.Point {
	_, _, out := s.base.at(along)
	return out
}

// Place is so far along the side, and so far out from it.
func (s Side) Place(along, off float64) plane.Point {
	p, _, out := s.base.at(along)
	return p.Add(out.Mul(off))
}

// Off is how far along the side a place lies, and how far out from it.
func (s Side) Off(p plane.Point) (along, off float64) {
	along = s.base.along(p)
	at, _, out := s.base.at(along)
	return along, out.Dot(p.Sub(at))
}
