package membrane

import (
	"errors"
	"math"

	"oxturn/layout/plane"
)

// A cutter knows the stock in pitches.
type cutter struct {
	pitch       float64
	across      float64 // the pitch across strips, where it is another; else 0
	rows, cells int
}

// row is the pitch across strips.
func (c cutter) row() float64 {
	if c.across > 0 {
		return c.across
	}
	return c.pitch
}

// A strip lies between two heights of the frame; pieces are its lengths.
type strip struct {
	bay       int
	low, high float64
	pieces    []span
}

// An arrangement is one way to lay a room: strips of each bay in one direction.
type arrangement struct {
	frame  frame
	bays   [][]plane.Ring // in the frame
	floors []plane.Region // the bays on the floor
	strips []strip
	cost   float64 // what the strips were chosen by
	extra  float64 // of it, what is not membrane taken
}

// Weights of a strip's cost, which is in mm² of membrane.
const (
	offcutShare  = 0.5  // of the width ripped off a strip: it may serve elsewhere
	seamWeight   = 20   // mm: a metre of seam is worth so much membrane
	doorWeight   = 3000 // the same in a doorway
	acrossWeight = 200  // the same across a strip
	narrowPrice  = 5e6  // of a strip that is too narrow to lay well
)

// sameCost is how little the costs of two divisions differ, mm², by the order of their sums.
const sameCost = 1e-6

// openGap is the shortest stretch of bare subfloor for which a strip is cut in
// two, mm: a shorter one is cut out of the strip.
const openGap = 300.0

// taken is what the price of a strip has in it for membrane.
func (c cutter) taken(s strip) float64 {
	width := s.high - s.low
	return total(s.pieces) * (width + offcutShare*math.Max(0, float64(c.rows)*c.row()-width))
}

// room plans both directions of a room, the cheaper one first; one where pegs lie otherwise along strips than across.
func (c cutter) room(r Room) ([]arrangement, error) {
	bays, err := r.bays()
	if err != nil {
		return nil, err
	}
	var out []arrangement
	turns := 2
	if c.across > 0 {
		turns = 1
	}
	for turn := range turns {
		l := arrangement{frame: frame{r.Origin, r.Angle + float64(turn)*math.Pi/2}, floors: bays}
		var doors []plane.Ring
		for _, d := range r.Doorways {
			doors = append(doors, l.frame.ring(d))
		}
		for i, b := range bays {
			rings := l.frame.rings(b)
			l.bays = append(l.bays, rings)
			strips, cost, err := c.divide(rings, doors)
			if err != nil {
				return nil, err
			}
			for _, s := range strips {
				s.bay = i
				l.strips = append(l.strips, s)
				l.extra -= c.taken(s)
			}
			l.cost += cost
			l.extra += cost
		}
		out = append(out, l)
	}
	if turns == 2 && out[1].cost < out[0].cost-1 {
		out[0], out[1] = out[1], out[0]
	}
	return out, nil
}

var errTooFine = errors.New("the pegs are too fine for a room of this size")

// divide divides a bay of a floor into strips. Every seam lies in a channel,
// so that the strips' widths are whole pitches; among all such divisions the
// one that costs least is found by dynamic programming over the channels.
func (c cutter) divide(rings, doors []plane.Ring) ([]strip, float64, error) {
	lines, err := c.lines(rings)
	if err != nil {
		return nil, 0, err
	}
	n := len(lines) - 1
	rows := make([][]span, n) // shadow of the floor between neighbouring lines
	for i := range rows {
		rows[i] = shadow(rings, lines[i], lines[i+1])
	}
	seams := make([]float64, n) // along the line below each row
	for i := 1; i < n; i++ {
		s := meeting(rings, lines[i])
		seams[i] = seamWeight*total(s) + doorWeight*total(overlap(s, scan(doors, lines[i])))
	}
	least := make([]float64, n+1)
	from := make([]int, n+1)
	usable := float64(c.rows)*c.row() + shortestCut
	for j := 1; j <= n; j++ {
		least[j] = math.Inf(1)
		var floor []span
		for i := j - 1; i >= 0 && lines[j]-lines[i] <= usable; i-- {
			floor = merge(append(append([]span{}, floor...), rows[i]...), openGap)
			if v := least[i] + seams[i] + c.price(floor, lines[j]-lines[i]); v < least[j]-sameCost {
				least[j], from[j] = v, i
			}
		}
	}
	return c.traced(lines, rows, from), least[n], nil
}

// lines returns the heights at which strips may begin and end: the edges of
// the bay and every channel between them.
func (c cutter) lines(rings []plane.Ring) ([]float64, error) {
	var all []plane.Point
	for _, r := range rings {
		all = append(all, r...)
	}
	b := plane.Bounds(all)
	if !(b.H()/c.row() < maxLines) || b.H()/c.row()*float64(c.rows)*float64(len(all)) > maxWork*100 ||
		b.H()/c.row()*float64(min(c.rows, maxLines)) > maxWork {
		return nil, errTooFine
	}
	out := []float64{b.Min.Y}
	for k := math.Floor(b.Min.Y/c.row()) + 1; k*c.row() < b.Max.Y-1; k++ {
		if y := k * c.row(); y > b.Min.Y+1 {
			out = append(out, y)
		}
	}
	return append(out, b.Max.Y), nil
}

// price weighs a strip of a width: what it takes off the stock, its cross
// seams, and whether it is too narrow.
func (c cutter) price(floor []span, width float64) float64 {
	usable := float64(c.rows) * c.row()
	took := width + offcutShare*math.Max(0, usable-width)
	reach := float64(c.cells) * c.pitch
	n := 0.0
	for _, s := range floor {
		n += s.length()*took + acrossWeight*width*math.Max(0, math.Ceil(s.length()/reach-plane.Whit)-1)
	}
	if width < Narrowest {
		n += narrowPrice
	}
	return n
}

// traced follows the best division back from the last line.
func (c cutter) traced(lines []float64, rows [][]span, from []int) []strip {
	var out []strip
	for j := len(lines) - 1; j > 0; j = from[j] {
		var floor []span
		for i := from[j]; i < j; i++ {
			floor = append(floor, rows[i]...)
		}
		s := strip{low: lines[from[j]], high: lines[j]}
		for _, f := range merge(floor, openGap) {
			s.pieces = append(s.pieces, c.divided(f)...)
		}
		out = append([]strip{s}, out...)
	}
	return out
}

// divided cuts a stretch longer than the stock across, at channels, so that no
// rest is too short to lay well.
func (c cutter) divided(s span) []span {
	reach := float64(c.cells) * c.pitch
	var out []span
	for s.length() > reach+shortestCut {
		to := s.from + reach
		if s.to-to < Narrowest && reach > 2*Narrowest {
			to = s.to - Narrowest
		}
		at := math.Floor(to/c.pitch+plane.Hair) * c.pitch
		out = append(out, span{s.from, at})
		s.from = at
	}
	return append(out, s)
}
