package signs

import (
	"math"

	"oxturn/drawing"
)

// BandWidth is the width of a band under cable, mm: the cable's own line stands
// inside it.
const BandWidth = 3.0

// StretchBand lies under the cable where the fault must be.
func StretchBand() *drawing.Stroke {
	return &drawing.Stroke{Width: BandWidth, Colour: drawing.Grey(0.4)}
}

// MistakenBand lies under runs that could be taken for it.
func MistakenBand() *drawing.Stroke {
	return &drawing.Stroke{Width: BandWidth / 2, Dash: []float64{1, 1.5}, Colour: drawing.Grey(0.4), Butt: true}
}

// LaidBand lies under cable that is laid: lighter than that of a fault.
func LaidBand() *drawing.Stroke {
	return &drawing.Stroke{Width: BandWidth, Colour: drawing.Grey(0.22)}
}

// CloudLine returns a closed line of bumps so wide along a ring that runs
// counter-clockwise to the reader.
func CloudLine(ring []drawing.Pt, bump float64) []drawing.Seg {
	closed := append(append([]drawing.Pt{}, ring...), ring[0])
	total := 0.0
	for i := 1; i < len(closed); i++ {
		total += closed[i].Dist(closed[i-1])
	}
	n := max(6, int(math.Round(total/bump)))
	stops := along(closed, total/float64(n), n)
	segs := []drawing.Seg{{Op: drawing.Move, To: stops[0]}}
	for i := range n {
		a, b := stops[i], stops[(i+1)%n]
		d := b.Sub(a)
		out := drawing.Pt{X: -d.Y, Y: d.X}.Mul(0.66) // two thirds of a chord: a half circle as one cubic
		segs = append(segs, drawing.Seg{Op: drawing.Curve, To: b, C1: a.Add(out), C2: b.Add(out)})
	}
	return append(segs, drawing.Seg{Op: drawing.Close})
}

// along returns n points a step apart on a line.
func along(line []drawing.Pt, step float64, n int) []drawing.Pt {
	out := []drawing.Pt{line[0]}
	left := step
	for i := 1; i < len(line) && len(out) < n; i++ {
		a, b := line[i-1], line[i]
		for d := a.Dist(b); d >= left && len(out) < n; d = a.Dist(b) {
			a = a.Lerp(b, left/d)
			out = append(out, a)
			left = step
		}
		left -= a.Dist(b)
	}
	for len(out) < n {
		out = append(out, line[len(line)-1])
	}
	return out
}

// BelowLine is for cable that is shown faintly under something else.
func BelowLine() *drawing.Stroke {
	return &drawing.Stroke{Width: drawing.W050, Colour: drawing.Grey(0.45)}
}

// CutGrey fills tiles that are cut: lighter than walls.
var CutGrey = drawing.Grey(0.08)
