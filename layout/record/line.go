package record

import (
	"fmt"
	"math"
	"sort"

	"oxturn/layout/plane"
)

// A Line is a cable on the floor: its corner points, start of heat first, each
// with its running length in mm of cable. Running lengths may grow by less
// than the distance between corners, for bends cut them.
type Line struct {
	Points []plane.Point
	Along  []float64
}

// Check reports the first thing that keeps the line from being measured along.
func (l Line) Check() error {
	if len(l.Points) < 2 || len(l.Points) != len(l.Along) {
		return fmt.Errorf("a cable's line has %d corners with %d running lengths; it needs two or more, one each",
			len(l.Points), len(l.Along))
	}
	for i, p := range l.Points {
		if !p.Finite() || math.IsNaN(l.Along[i]-l.Along[i]) {
			return fmt.Errorf("corner %d of the cable's line is not a place with a length", i+1)
		}
		if i > 0 && l.Along[i] <= l.Along[i-1] {
			return fmt.Errorf("the running length does not grow from corner %d to corner %d of the cable's line", i,
				i+1)
		}
	}
	return nil
}

// At returns the place at a running length; beyond either end, the end.
func (l Line) At(along float64) plane.Point {
	i := l.leg(along)
	t := (along - l.Along[i]) / (l.Along[i+1] - l.Along[i])
	return l.Points[i].Lerp(l.Points[i+1], math.Max(0, math.Min(1, t)))
}

// Cut returns the line from one running length to another.
func (l Line) Cut(from, to float64) []plane.Point {
	out := []plane.Point{l.At(from)}
	for i, a := range l.Along {
		if a > from && a < to {
			out = append(out, l.Points[i])
		}
	}
	return append(out, l.At(to))
}

// leg returns the index of the leg that a running length falls on.
func (l Line) leg(along float64) int {
	i := sort.SearchFloat64s(l.Along, along) - 1
	return max(0, min(len(l.Along)-2, i))
}

// A Neighbour is a piece of another run that passes near a stretch and could
// be taken for it.
type Neighbour struct {
	From, To float64 // running lengths, mm
	Gap      float64 // least distance to the stretch, mm
}

// Neighbours returns the pieces of straight runs that come within reach mm of
// the stretch from one running length to another, in the order they are laid.
// Legs no longer than reach are turns, not runs, and are left out, as are the
// legs that the stretch itself lies on.
func (l Line) Neighbours(from, to, reach float64) ([]Neighbour, error) {
	if err := l.Check(); err != nil {
		return nil, err
	}
	if !(from <= to) || !(reach > 0) || math.IsInf(reach, 1) {
		return nil, fmt.Errorf("no stretch from %g to %g mm with a reach of %g mm", from, to, reach)
	}
	stretch := l.Cut(from, to)
	first, last := l.leg(from), l.leg(to)
	var out []Neighbour
	for i := range len(l.Points) - 1 {
		if i >= first && i <= last || l.Points[i].Dist(l.Points[i+1]) <= reach {
			continue
		}
		if n, ok := l.near(i, stretch, reach); ok {
			out = append(out, n)
		}
	}
	return out, nil
}

// near returns the piece of leg i within reach of the stretch. The distance
// to a stretch is not one valley along the leg, so the leg is walked.
func (l Line) near(i int, stretch []plane.Point, reach float64) (Neighbour, bool) {
	const step, most = 10.0, 10_000.0 // mm: below what a hand marks on tile
	n := int(math.Ceil(math.Min(most, l.Points[i].Dist(l.Points[i+1])/step-1e-6)))
	out := Neighbour{Gap: math.Inf(1)}
	for k := range n + 1 {
		t := float64(k) / float64(n)
		d := plane.PathDistance(stretch, l.Points[i].Lerp(l.Points[i+1], t))
		if d > reach {
			continue
		}
		along := l.Along[i] + t*(l.Along[i+1]-l.Along[i])
		if math.IsInf(out.Gap, 1) {
			out.From = along
		}
		out.To = along
		out.Gap = math.Min(out.Gap, d)
	}
	return out, !math.IsInf(out.Gap, 1)
}
