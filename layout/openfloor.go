package layout

import "oxturn/layout/plane"

// openFloor is heated floor with the pieces of all its cables.
type openFloor struct {
	region plane.Region
	pieces []plane.Segment
	step   float64 // mm between two looks
}

// open reports whether nothing but heated floor lies between a stretch of a
// run and its neighbour, off to the left of it or, where negative, to the
// right, for as long as a neighbour counts. A fixture or a turn of cable there
// means that the two runs leave no gap.
func (o openFloor) open(run plane.Segment, s stretch, off float64) bool {
	u := run.B.Sub(run.A).Unit()
	across := plane.Pt(-u.Y, u.X).Mul(off)
	free := 0.0
	for d := s.from; d <= s.to; d += o.step {
		at := run.At(d)
		if !o.clear(at, at.Add(across)) {
			free = 0
			continue
		}
		if free += o.step; free >= besideFor {
			return true
		}
	}
	return false
}

// clear reports whether a line from one run to another comes by no other piece
// of cable and leaves the heated floor nowhere.
func (o openFloor) clear(a, b plane.Point) bool {
	line := plane.Segment{A: a, B: b}
	inner := plane.Segment{A: line.At(o.step), B: line.At(line.Length() - o.step)} // clear of the two runs
	for _, p := range o.pieces {
		if p.Gap(inner) <= o.step/2 {
			return false
		}
	}
	for d := o.step; d < line.Length(); d += o.step {
		if !o.region.Contains(line.At(d)) {
			return false
		}
	}
	return true
}
