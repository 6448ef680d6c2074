package drawing

import (
	"math"
	"slices"
)

// shortestPiece is the length in mm below which a clipped piece is not worth ink.
const shortestPiece = 1e-3

// insideSpans returns the parts of the line from a to b that lie inside rings
// by the even-odd rule, as shares of the way, in order.
//
// A corner counts as lying on the left of the line when it is on the line.
// Both sides that meet in a corner see it alike, so that a line through a
// corner, or along a side, still has an even number of crossings.
func insideSpans(rings [][]Pt, a, b Pt) [][2]float64 {
	d := b.Sub(a)
	length := d.X*d.X + d.Y*d.Y
	if length == 0 {
		return nil
	}
	var ts []float64
	for _, ring := range rings {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			dp, dq := d.Cross(p.Sub(a)), d.Cross(q.Sub(a))
			if (dp >= 0) != (dq >= 0) {
				at := p.Lerp(q, dp/(dp-dq)).Sub(a)
				ts = append(ts, (at.X*d.X+at.Y*d.Y)/length)
			}
		}
	}
	slices.Sort(ts)
	var spans [][2]float64
	for i := 0; i+1 < len(ts); i += 2 {
		lo, hi := math.Max(ts[i], 0), math.Min(ts[i+1], 1)
		if (hi-lo)*math.Sqrt(length) > shortestPiece {
			spans = append(spans, [2]float64{lo, hi})
		}
	}
	return spans
}

// clipLine returns the parts of an open line that lie inside rings.
func clipLine(rings [][]Pt, line []Pt) [][]Pt {
	var out [][]Pt
	joined := false // the last piece runs up to the end of the segment before
	for i := 0; i+1 < len(line); i++ {
		a, b := line[i], line[i+1]
		spans := insideSpans(rings, a, b)
		for j, s := range spans {
			from, to := a.Lerp(b, s[0]), a.Lerp(b, s[1])
			if j == 0 && joined && s[0] == 0 {
				out[len(out)-1] = append(out[len(out)-1], to)
				continue
			}
			out = append(out, []Pt{from, to})
		}
		joined = len(spans) > 0 && spans[len(spans)-1][1] == 1
	}
	return out
}

// within reports whether a disc of radius r about p lies inside rings, by the
// even-odd rule.
func within(rings [][]Pt, p Pt, r float64) bool {
	for _, ring := range rings {
		for i, a := range ring {
			if (Straight{A: a, B: ring[(i+1)%len(ring)]}).Distance(p) < r {
				return false
			}
		}
	}
	return Inside(rings, p)
}
