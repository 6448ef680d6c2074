package route

import (
	"math"

	"oxturn/layout/plane"
)

// A tally keeps count of what a set of legs covers, so that the score after
// one leg is moved costs little.
type tally struct {
	f       *field
	reach   float64   // cells
	hits    []uint8   // legs that reach each cell
	cold    []uint64  // heated cells that none reaches
	bare    int       // how many
	radius  float64   // of a density sample, cells
	dens    []float64 // length of cable in each sample's disc
	sum     float64   // of dens
	squares float64
}

func newTally(f *field) *tally {
	return &tally{
		f: f, reach: (f.spacing/2 + f.pitch/2) / f.cell, hits: make([]uint8, f.nx*f.ny),
		cold: append([]uint64(nil), f.open...), bare: f.cells,
		radius: 1.5 * f.spacing / f.cell, dens: make([]float64, len(f.deep)),
	}
}

// swap counts some legs out and others in, but for those common to both at the
// beginning and the end.
func (t *tally) swap(out, in []leg) {
	if m, n := len(out), len(in); m > 0 && n > 0 { // the end cap gives way at nearly every push
		t.change(out[m-1], in[n-1])
		out, in = out[:m-1], in[:n-1]
	}
	for len(out) > 0 && len(in) > 0 && out[0] == in[0] {
		out, in = out[1:], in[1:]
	}
	for len(out) > 0 && len(in) > 0 && out[len(out)-1] == in[len(in)-1] {
		out, in = out[:len(out)-1], in[:len(in)-1]
	}
	if len(out) > 0 && len(in) > 0 { // most pushes draw the legs beside them out or in
		t.change(out[0], in[0])
		out, in = out[1:], in[1:]
	}
	if m, n := len(out), len(in); m > 0 && n > 0 {
		t.change(out[m-1], in[n-1])
		out, in = out[:m-1], in[:n-1]
	}
	for len(out) > 0 && len(in) > 0 { // and move the one between by a peg or two
		t.change(out[0], in[0])
		out, in = out[1:], in[1:]
	}
	for _, l := range out {
		t.add(l, -1)
	}
	for _, l := range in {
		t.add(l, 1)
	}
}

// change counts leg l out and leg m in.
func (t *tally) change(l, m leg) {
	switch {
	case l == m:
	case l.x0 == l.x1 && m.x0 == m.x1 && l.x0 == m.x0:
		// upright: out below what both share, and above it
		t.trade(l, m)
	case l.y1+t.reach >= m.y0-t.reach && m.y1+t.reach >= l.y0-t.reach && l.level() == m.level():
		t.shift(l, m)
	default:
		t.add(l, -1)
		t.add(m, 1)
	}
}

func (l leg) level() bool { return l.y0 == l.y1 }

// shift changes leg l to m beside it: of the cells of a row only those that one of them
// reaches change.
func (t *tally) shift(l, m leg) {
	box := leg{min(l.x0, m.x0), min(l.y0, m.y0), max(l.x1, m.x1), max(l.y1, m.y1)}
	for y := max(0, int(math.Ceil(box.y0-t.reach))); y <= min(t.f.ny-1, int(box.y1+t.reach)); y++ {
		a, b := t.cells(l, y)
		c, d := t.cells(m, y)
		if b < c || d < a {
			t.mark(y, a, b, -1)
			t.mark(y, c, d, 1)
			continue
		}
		t.mark(y, a, c-1, -1)
		t.mark(y, c, a-1, 1)
		t.mark(y, d+1, b, -1)
		t.mark(y, b+1, d, 1)
	}
	if l.y0 == m.y0 && l.level() { // on one row only about the ends that differ
		if l.x0 == m.x0 {
			box.x0 = min(l.x1, m.x1)
		} else if l.x1 == m.x1 {
			box.x1 = max(l.x0, m.x0)
		}
	}
	t.weigh(box, func(p plane.Point) float64 { return m.inDisc(p, t.radius) - l.inDisc(p, t.radius) })
}

// trade changes upright leg l to m in the same raster column.
func (t *tally) trade(l, m leg) {
	lo, hi := max(l.y0, m.y0), min(l.y1, m.y1)
	if hi-lo < 2*max(t.reach, t.radius)+3 { // else a sample, whose rows weigh rounds outwards, is weighed twice
		t.add(l, -1)
		t.add(m, 1)
		return
	}
	for _, part := range [...][2]float64{{min(l.y0, m.y0), lo}, {hi, max(l.y1, m.y1)}} {
		if part[0] == part[1] {
			continue
		}
		for y := max(0, int(math.Ceil(part[0]-t.reach))); y <= min(t.f.ny-1, int(part[1]+t.reach)); y++ {
			a, b := t.cells(l, y)
			t.mark(y, a, b, -1)
			a, b = t.cells(m, y)
			t.mark(y, a, b, 1)
		}
		t.weigh(leg{l.x0, part[0], l.x0, part[1]}, func(p plane.Point) float64 {
			return m.inDisc(p, t.radius) - l.inDisc(p, t.radius)
		})
	}
}

// add counts a leg in, or out again with by = -1.
func (t *tally) add(l leg, by int) {
	for y := max(0, int(math.Ceil(l.y0-t.reach))); y <= min(t.f.ny-1, int(l.y1+t.reach)); y++ {
		a, b := t.cells(l, y)
		t.mark(y, a, b, by)
	}
	t.weigh(l, func(p plane.Point) float64 { return l.inDisc(p, t.radius) * float64(by) })
}

// cells returns the cells of raster row y within reach of a leg; none when
// the first is past the last.
func (t *tally) cells(l leg, y int) (a, b int) {
	if float64(y) < l.y0-t.reach || float64(y) > l.y1+t.reach {
		return 0, -1
	}
	from, to := l.within(float64(y), t.reach)
	return max(0, int(math.Ceil(from))), min(t.f.nx-1, int(math.Floor(to)))
}

// weigh adds to the samples whose discs reach a box.
func (t *tally) weigh(box leg, more func(plane.Point) float64) {
	from, to := t.f.samplesBy(box.y0-t.radius, box.y1+t.radius)
	left, right := box.x0-t.radius, box.x1+t.radius
	for k := from; k < to; k++ {
		p := t.f.deep[k]
		if p.X <= left || p.X >= right {
			continue
		}
		if n := more(p); n != 0 {
			t.squares += float64(n * (2*t.dens[k] + n))
			t.dens[k] += n
			t.sum += n
		}
	}
}

// mark counts cells a to b of row y.
func (t *tally) mark(y, a, b, by int) {
	row := t.hits[y*t.f.nx : (y+1)*t.f.nx]
	for x := a; x <= b; x++ {
		was := row[x]
		row[x] = was + uint8(by)
		if was == 0 || row[x] == 0 {
			t.flip(y, x, by)
		}
	}
}

// flip takes a cell out of the cold ones, or back in.
func (t *tally) flip(y, x, by int) {
	i, m := y*t.f.words+x/wordBits, uint64(1)<<(x%wordBits)
	if t.f.open[i]&m == 0 {
		return
	}
	t.cold[i] ^= m
	t.bare -= by
}

// covered is the share of the heated floor that the legs counted in reach.
func (t *tally) covered() float64 { return 1 - float64(t.bare)/float64(max(1, t.f.cells)) }

// uneven is the field's measure of the legs counted in.
func (t *tally) uneven() float64 {
	k := float64(len(t.dens))
	if k < 2 || t.sum <= 0 {
		return 0
	}
	mean := t.sum / k
	return math.Sqrt(max(0, t.squares/k-float64(mean*mean))*k/(k-1)) / mean
}
