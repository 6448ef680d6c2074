package probe

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// chordSag is how far the chords of a bend may lie inside it, mm.
const chordSag = 0.05

// rounded returns the centre line of a cable with its corners as bends of
// radius r, as short chords, and the running length at each point. Where a leg
// is too short for its bends they are made tighter to fit.
func rounded(path []plane.Point, r float64) (line []plane.Point, along []float64) {
	for i, p := range path {
		if i == 0 || i == len(path)-1 {
			line = append(line, p)
			continue
		}
		before, after := path[i-1].Dist(p), p.Dist(path[i+1])
		if i > 1 {
			before /= 2 // the other half is the bend's before it
		}
		if i+2 < len(path) {
			after /= 2
		}
		line = append(line, bend(path[i-1], p, path[i+1], r, min(before, after))...)
	}
	line = slices.CompactFunc(line, func(a, b plane.Point) bool { return a.Dist(b) < 1e-6 })
	along = make([]float64, len(line))
	for i := 1; i < len(line); i++ {
		along[i] = along[i-1] + line[i-1].Dist(line[i])
	}
	return line, along
}

// bend returns the chords of the arc that rounds the corner b and begins and
// ends at most reach from it.
func bend(a, b, c plane.Point, r, reach float64) []plane.Point {
	u, v := b.Sub(a).Unit(), c.Sub(b).Unit()
	turn := plane.Atan2(u.Cross(v), u.Dot(v))
	half := plane.Tan(math.Abs(turn) / 2)
	t := min(r*half, reach)
	r = t / half
	if math.Abs(turn) < 1e-9 || math.Abs(turn) > math.Pi-plane.Hair || !(r > chordSag) {
		return []plane.Point{b} // straight on, straight back, or no bend to speak of
	}
	n := max(1, int(math.Ceil(math.Abs(turn)/(2*math.Acos(max(0, 1-chordSag/r))))))
	side := math.Copysign(1, turn)
	from := b.Sub(u.Mul(t))
	centre := from.Add(u.Left().Mul(side * r))
	out := make([]plane.Point, n+1)
	for k := range out {
		out[k] = centre.Add(from.Sub(centre).Rotate(turn * float64(k) / float64(n)))
	}
	return out
}

// head returns the first mm of a line.
func head(line []plane.Point, mm float64) []plane.Point {
	var out []plane.Point
	for i, p := range line {
		if i == 0 {
			out = append(out, p)
			continue
		}
		s := plane.Segment{A: line[i-1], B: p}
		if s.Length() >= mm {
			return append(out, s.At(mm))
		}
		mm -= s.Length()
		out = append(out, p)
	}
	return out
}

func backward(line []plane.Point) []plane.Point {
	out := slices.Clone(line)
	slices.Reverse(out)
	return out
}
