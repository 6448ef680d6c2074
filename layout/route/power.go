package route

import (
	"math"

	"oxturn/layout/plane"
)

// powerStep is how far apart, in mm, along a run its neighbours are looked for.
const powerStep = 200.0

// Cool reports whether no run of own gives more power than a cap allows together
// with its two neighbours among all: the gaps on its two sides take together nowhere
// less than both mm. Legs no longer than short mm are links, not runs.
func Cool(own, all []plane.Segment, both, short float64) bool { return cool(own, all, both/2, short) }

// cool reports whether no run of own gives more power than the cap together
// with its two neighbours among all, return lanes included: the mean of the
// gaps on its two sides is nowhere less than least mm. Legs no longer than
// short are links, not runs.
func cool(own, all []plane.Segment, least, short float64) bool {
	if least <= 0 {
		return true
	}
	var runs []plane.Segment
	for _, l := range all {
		if l.Length() > short {
			runs = append(runs, l)
		}
	}
	for _, l := range own {
		n := l.Length()
		if n <= short {
			continue
		}
		for d := math.Min(powerStep, n) / 2; d < n; d += powerStep {
			if left, right := beside(l, d, runs); left+right < 2*least-gapSlop {
				return false
			}
		}
	}
	return true
}

// beside returns the distances in mm from the point d mm along l to the
// nearest parallel run on either side, infinite for none.
func beside(l plane.Segment, d float64, runs []plane.Segment) (left, right float64) {
	left, right = math.Inf(1), math.Inf(1)
	at, u := l.At(d), l.B.Sub(l.A).Unit()
	for _, r := range runs {
		a, b := r.A.Sub(at), r.B.Sub(at)
		x0, x1, off := a.Dot(u), b.Dot(u), u.Cross(a)
		if math.Min(x0, x1) > 0 || math.Max(x0, x1) < 0 || math.Abs(off-u.Cross(b)) > 1 {
			continue
		}
		if off > 1 {
			left = math.Min(left, off)
		} else if off < -1 {
			right = math.Min(right, -off)
		}
	}
	return left, right
}

// links is the length in mm up to which a leg is a link between runs.
func (r rules) links() float64 { return 2 * r.far }
