package tube

import (
	"math"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// asBeside pegs apart at most two runs have a middle.
const asBeside = 8

// midways returns the lines halfway between neighbouring runs.
func midways(r *layout.Room, pitch float64) []midway {
	var out []midway
	for n := range r.Cables {
		c := &r.Cables[n]
		legs := longLegs(c.Path, 2*sensorInside)
		for i := range legs {
			for k := i + 1; k < len(legs); k++ {
				if m := between(legs, i, k, asBeside*pitch); m != nil {
					m.cable = c
					out = append(out, *m)
				}
			}
		}
	}
	return out
}

func longLegs(path []plane.Point, least float64) []plane.Segment {
	var out []plane.Segment
	for i := 1; i < len(path); i++ {
		if s := (plane.Segment{A: path[i-1], B: path[i]}); s.Length() >= least {
			out = append(out, s)
		}
	}
	return out
}

// A midway is a line of points halfway between two parallel legs.
type midway struct {
	line  plane.Segment
	gap   float64
	cable *layout.Cable
}

// parallel is the sine below which two runs go one way.
const parallel = 1e-3

// between returns the midway line of legs i and k where they face each other
// over some length, and no third leg lies between them.
func between(legs []plane.Segment, i, k int, widest float64) *midway {
	a, b := legs[i], legs[k]
	u, v := a.B.Sub(a.A).Unit(), b.B.Sub(b.A).Unit()
	if math.Abs(u.Cross(v)) > parallel {
		return nil
	}
	aside := u.Cross(b.A.Sub(a.A)) // to the left of a
	gap := math.Abs(aside)
	if gap < 1 || gap > widest {
		return nil
	}
	s, t := b.A.Sub(a.A).Dot(u), b.B.Sub(a.A).Dot(u)
	lo, hi := math.Max(0, math.Min(s, t)), math.Min(a.Length(), math.Max(s, t))
	if hi-lo < sensorInside {
		return nil
	}
	off := u.Left().Mul(aside / 2)
	m := &midway{line: plane.Segment{A: a.At(lo).Add(off), B: a.At(hi).Add(off)}, gap: gap}
	mid := m.line.A.Lerp(m.line.B, 0.5)
	for n, c := range legs {
		if n != i && n != k && c.Distance(mid) < gap/2-1 {
			return nil
		}
	}
	return m
}
