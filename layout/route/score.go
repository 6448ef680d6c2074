package route

import (
	"math"
	"math/bits"
	"slices"

	"oxturn/layout/plane"
)

// The score, smaller is better: a weighted sum of what is left wanting. One
// unit is one per cent of the heated floor gone cold.
const (
	weighBare     = 2.5  // per unit that the widest bare spot exceeds half the ideal spacing
	weighUneven   = 45.0 // per unit of the coefficient of variation of cable per area
	weighShort    = 4.0  // per unit of cable in legs under 500 mm
	weighTurns    = 0.25 // per turn a metre of cable
	weighJogs     = 0.8  // per jog a metre of cable: pegs to count at a place that looks like any other
	weighLead     = 0.20 // per metre of cold lead
	weighEndAvoid = 5.0  // an end where none should lie
	weighEndHigh  = 0.3  // the end cap in good floor though there is low-value floor
	weighCold     = 0.5  // per peg of floor that lies half a spacing beyond mildBare; only while polishing
)

// A field is the heated floor of one zone as a fine raster, to measure how
// well a path covers it. "Heated" is where two lanes can go: the zone opened
// by half the closest gap.
type field struct {
	lattice Lattice
	cell    float64 // mm
	ox, oy  int     // raster coordinates of cell (0, 0)
	nx, ny  int
	words   int
	open    []uint64      // heated cells, a row after the other
	cells   int           // how many
	hangs   float64       // share of them that hangs together through necks of two runs, in the largest part
	spacing float64       // ideal spacing, mm
	pitch   float64       // peg to peg the wider way, mm
	u, v    float64       // cells to a peg, along the lattice's angle and across it
	deep    []plane.Point // places to sample the density at, raster coordinates, by rows
	deepRow []int32       // index of the first of them at or above each raster row
}

// fieldStep is how many cells go into a peg; cells are square where pegs are not.
const fieldStep = 3

// wordBits cells of a row share a word.
const wordBits = 64

// newField measures zone for a cable spaced ideally spacing mm.
func newField(zone plane.Region, l Lattice, closest, spacing float64) *field {
	f := &field{lattice: l, cell: l.wide() / fieldStep, spacing: spacing, pitch: l.wide()}
	f.u, f.v = fieldStep*(l.Pitch/f.pitch), fieldStep*(l.across()/f.pitch)
	rings := make([]plane.Ring, 0, len(zone))
	box := plane.Rect{Min: plane.Pt(math.Inf(1), math.Inf(1)), Max: plane.Pt(math.Inf(-1), math.Inf(-1))}
	for _, r := range zone.Rings() {
		t := make(plane.Ring, len(r))
		for i, p := range r {
			u, v := l.ToPegs(p)
			t[i] = plane.Pt(u*f.u, v*f.v)
		}
		rings = append(rings, t)
		box = box.Union(t.Bounds())
	}
	if len(rings) == 0 {
		return f
	}
	f.ox, f.oy = int(math.Floor(box.Min.X))-1, int(math.Floor(box.Min.Y))-1
	f.nx, f.ny = int(math.Ceil(box.Max.X))-f.ox+2, int(math.Ceil(box.Max.Y))-f.oy+2
	f.words = (f.nx + wordBits - 1) / wordBits
	for _, r := range rings {
		for i := range r {
			r[i] = r[i].Sub(plane.Pt(float64(f.ox)+0.5, float64(f.oy)+0.5))
		}
	}
	f.mark(rings, closest/2/f.cell)
	f.number()
	return f
}

// mark fills in the heated cells and the density samples.
func (f *field) mark(rings []plane.Ring, half float64) {
	in := marked(plane.Scan(rings, f.nx, f.ny), f.nx)
	depth := squaredDistance(in, f.nx, f.ny, false)
	// the edge runs half a cell before the first outside centre; a neck just wide enough for two runs is a cell too
	// narrow where it lies across the cells
	inCore, inLinked := leastSquare(half+0.5), leastSquare(half)
	core, linked := make([]bool, len(in)), make([]bool, len(in))
	for i, d := range depth {
		core[i], linked[i] = d >= inCore, d >= inLinked
	}
	f.hangs = largestPart(linked, f.nx)
	off := squaredDistance(core, f.nx, f.ny, true)
	near, deep := leastSquare(math.Nextafter(half+0.5, math.Inf(1))), leastSquare(discSpacings*f.spacing/f.cell+0.5)
	f.open = make([]uint64, f.words*f.ny)
	for y := range f.ny {
		for x := range f.nx {
			i := y*f.nx + x
			if !in[i] || off[i] >= near {
				continue
			}
			f.cells++
			f.open[y*f.words+x/wordBits] |= 1 << (x % wordBits)
			if (x+sampleShift*y)%samples == 0 && depth[i] >= deep {
				f.deep = append(f.deep, plane.Pt(float64(x), float64(y)))
			}
		}
	}
}

// leastSquare is the least whole number whose root is no less than d.
func leastSquare(d float64) int32 {
	n := int32(max(0, float64(d*d)-2))
	for math.Sqrt(float64(n)) < d {
		n++
	}
	return n
}

// number notes where the density samples of each raster row begin.
func (f *field) number() {
	f.deepRow = make([]int32, f.ny+1)
	k := 0
	for y := range f.deepRow {
		for k < len(f.deep) && f.deep[k].Y < float64(y) {
			k++
		}
		f.deepRow[y] = int32(k)
	}
}

// samplesBy returns the range of the density samples from raster row y0 to row y1 or
// the next.
func (f *field) samplesBy(y0, y1 float64) (from, to int32) {
	lo, hi := max(0, int(y0)), min(f.ny, int(y1)+2)
	if lo >= hi {
		return 0, 0
	}
	return f.deepRow[lo], f.deepRow[hi]
}

// largestPart is the share of the marked cells that are in the largest part of them, the rim
// of a raster being unmarked; 1 where none is.
func largestPart(marks []bool, nx int) float64 {
	type run struct{ a, b, part int } // marked cells a to b-1
	var above, here []run
	var parent, size []int
	find := func(p int) int {
		for parent[p] != p {
			parent[p] = parent[parent[p]]
			p = parent[p]
		}
		return p
	}
	all := 0
	for row := range slices.Chunk(marks, nx) {
		above, here = here, above[:0]
		k := 0
		for x := 0; x < nx; x++ {
			if !row[x] {
				continue
			}
			r := run{x, x, len(parent)}
			for r.b < nx && row[r.b] {
				r.b++
			}
			parent, size = append(parent, r.part), append(size, r.b-r.a)
			for k < len(above) && above[k].b <= r.a {
				k++
			}
			for j := k; j < len(above) && above[j].a < r.b; j++ {
				if p, q := find(above[j].part), find(r.part); p != q {
					parent[q] = p
					size[p] += size[q]
				}
			}
			all += r.b - r.a
			here = append(here, r)
			x = r.b
		}
	}
	if all == 0 {
		return 1
	}
	return float64(slices.Max(size)) / float64(all)
}

// well reports whether a route that covers a share of the floor leaves hardly anything
// cold that can be reached.
func (f *field) well(covered float64) bool { return covered >= wellCovered-(1-f.hangs) }

// squaredDistance returns for every cell the squared distance to the nearest
// cell whose mark equals want (Felzenszwalb and Huttenlocher's two passes of
// lower envelopes). The rim counts as outside.
func squaredDistance(marks []bool, nx, ny int, want bool) []int32 {
	out := make([]int32, len(marks))
	rim := int32(farColumn)
	if !want {
		rim = 0
	}
	before := slices.Repeat([]int32{rim}, nx) // distances in the row before, beyond the first that of the rim
	for y := range ny {
		row, in := out[y*nx:(y+1)*nx], marks[y*nx:(y+1)*nx]
		for x := range row {
			if row[x] = min(before[x]+1, farColumn); in[x] == want {
				row[x] = 0
			}
		}
		before = row
	}
	before = slices.Repeat([]int32{rim}, nx)
	for y := ny - 1; y >= 0; y-- {
		row := out[y*nx : (y+1)*nx]
		for x := range row {
			row[x] = min(row[x], before[x]+1)
		}
		before = row
	}
	e := newEnvelope(nx)
	for y := range ny {
		e.row(out[y*nx:(y+1)*nx], !want)
	}
	return out
}

// farColumn is the distance to a cell where none is in the column.
const farColumn = 1 << 14

// An envelope computes min over q of (x-q)² + f(q)² for every x of a row.
type envelope struct {
	at   []int
	from []float64
	f    []float64
}

func newEnvelope(n int) *envelope {
	return &envelope{make([]int, n+2), make([]float64, n+3), make([]float64, n+2)}
}

// row replaces column distances by squared plane distances. rim: the places
// before the first and after the last have distance 0.
func (e *envelope) row(d []int32, rim bool) {
	n := len(d)
	for i, v := range d {
		e.f[i+1] = float64(v) * float64(v)
	}
	e.f[0], e.f[n+1] = 1<<30, 1<<30
	if rim {
		e.f[0], e.f[n+1] = 0, 0
	}
	k := 0
	e.at[0], e.from[0], e.from[1] = 0, math.Inf(-1), math.Inf(1)
	for q := 1; q < n+2; q++ {
		s := e.meet(q, e.at[k])
		for s <= e.from[k] {
			k--
			s = e.meet(q, e.at[k])
		}
		k++
		e.at[k], e.from[k], e.from[k+1] = q, s, math.Inf(1)
	}
	k = 0
	for i := range d {
		x := float64(i + 1)
		for e.from[k+1] < x {
			k++
		}
		c := x - float64(e.at[k])
		d[i] = int32(min(float64(c*c)+e.f[e.at[k]], 1<<30))
	}
}

// meet is where the parabolas at p and q cross.
func (e *envelope) meet(q, p int) float64 {
	a, b := float64(q), float64(p)
	return (e.f[q] + float64(a*a) - e.f[p] - float64(b*b)) / (2 * (a - b))
}

// A leg is a straight part of a path along or across a raster, as the box round it.
type leg struct{ x0, y0, x1, y1 float64 }

// legBetween returns the leg between two places of a raster.
func legBetween(ax, ay, bx, by float64) leg {
	if ax > bx {
		ax, bx = bx, ax
	}
	if ay > by {
		ay, by = by, ay
	}
	return leg{ax, ay, bx, by}
}

// legs returns the path's legs.
func (f *field) legs(path []plane.Point) []leg {
	out := make([]leg, 0, len(path))
	var last plane.Point
	for i, p := range path {
		u, v := f.lattice.ToPegs(p)
		at := plane.Pt(float64(u*f.u)-float64(f.ox)-0.5, float64(v*f.v)-float64(f.oy)-0.5)
		if i > 0 {
			out = append(out, legBetween(last.X, last.Y, at.X, at.Y))
		}
		last = at
	}
	return out
}

// legsNear returns those legs of a path that come within d mm of the raster.
func (f *field) legsNear(path []plane.Point, d float64) []leg {
	d /= f.cell
	return slices.DeleteFunc(f.legs(path), func(l leg) bool {
		return l.y0-d > float64(f.ny) || l.y1+d < 0 || l.x0-d > float64(f.nx) || l.x1+d < 0
	})
}

// cover returns the cells within reach mm of the legs.
func (f *field) cover(legs []leg, reach float64) []uint64 {
	bit := make([]uint64, len(f.open))
	r := reach / f.cell
	for _, l := range legs {
		for y := max(0, int(math.Ceil(l.y0-r))); y <= min(f.ny-1, int(l.y1+r)); y++ {
			a, b := l.within(float64(y), r)
			f.fill(bit[y*f.words:(y+1)*f.words], a, b)
		}
	}
	return bit
}

// within returns the stretch of raster row y within r of the leg, which is
// taken to lie along or across the rows.
func (l leg) within(y, r float64) (a, b float64) {
	d := 0.0
	if y < l.y0 {
		d = l.y0 - y
	} else if y > l.y1 {
		d = y - l.y1
	}
	w := math.Sqrt(max(0, float64(r*r)-float64(d*d)))
	return l.x0 - w, l.x1 + w
}

// fill sets bits a to b of a row.
func (f *field) fill(row []uint64, a, b float64) {
	i, j := max(0, int(math.Ceil(a))), min(f.nx-1, int(math.Floor(b)))
	if i > j {
		return
	}
	lo, hi := ^uint64(0)<<(i%wordBits), ^uint64(0)>>(wordBits-1-j%wordBits)
	if i/wordBits == j/wordBits {
		row[i/64] |= lo & hi
		return
	}
	row[i/64] |= lo
	for k := i/wordBits + 1; k < j/wordBits; k++ {
		row[k] = ^uint64(0)
	}
	row[j/64] |= hi
}

// covered returns the share of the heated floor within half the ideal spacing
// and half a peg of the legs, and how far the farthest heated cell lies from
// any leg, over half the ideal spacing.
func (f *field) covered(legs []leg) (share, bare float64) {
	if f.cells == 0 {
		return 1, 1
	}
	bit := f.cover(legs, f.spacing/2+f.pitch/2)
	n, far := 0, f.spacing/2+f.pitch/2
	var cold []plane.Point
	for i, o := range f.open {
		m := o &^ bit[i]
		n += bits.OnesCount64(m)
		for ; m != 0; m &= m - 1 {
			cold = append(cold, plane.Pt(float64(i%f.words*wordBits+bits.TrailingZeros64(m)), float64(i/f.words)))
		}
	}
	every := 1 + len(cold)/mostSamples
	for i := 0; i < len(cold); i += every {
		far = max(far, nearest(legs, cold[i])*f.cell)
	}
	return 1 - float64(n)/float64(f.cells), far / (f.spacing / 2)
}

func nearest(legs []leg, p plane.Point) float64 {
	d := math.Inf(1)
	for i := range legs {
		d = min(d, legs[i].squaredTo(p))
	}
	return math.Sqrt(d)
}

// squaredTo is the square of how far p lies from the leg. It is asked millions of times.
func (l *leg) squaredTo(p plane.Point) float64 {
	dx, dy := 0.0, 0.0
	if p.X < l.x0 {
		dx = l.x0 - p.X
	} else if p.X > l.x1 {
		dx = p.X - l.x1
	}
	if p.Y < l.y0 {
		dy = l.y0 - p.Y
	} else if p.Y > l.y1 {
		dy = p.Y - l.y1
	}
	return float64(dx*dx) + float64(dy*dy)
}

// Density is sampled in discs of so many ideal spacings, about every 25th cell, by a step from row to
// row that lays them out like a knight's moves.
const (
	discSpacings = 1.5
	samples      = 25
	sampleShift  = 7
)

// uneven is the coefficient of variation of the length of cable in discs of
// 1.5 ideal spacings that lie wholly in the zone.
func (f *field) uneven(legs []leg) float64 {
	if len(f.deep) < 2 {
		return 0
	}
	r := discSpacings * f.spacing / f.cell
	dens := make([]float64, len(f.deep))
	for _, l := range legs {
		from, to := f.samplesBy(l.y0-r, l.y1+r)
		for k := from; k < to; k++ {
			if p := &f.deep[k]; p.X > l.x0-r && p.X < l.x1+r {
				dens[k] += l.inDisc(*p, r)
			}
		}
	}
	sum, squares := 0.0, 0.0
	for _, n := range dens {
		sum += n
		squares += float64(n * n)
	}
	k := float64(len(f.deep))
	mean := sum / k
	if mean == 0 {
		return 1
	}
	return math.Sqrt(max(0, squares/k-float64(mean*mean))*k/(k-1)) / mean
}

// inDisc is the length of an axis-parallel leg inside a disc.
func (l leg) inDisc(p plane.Point, r float64) float64 {
	a, b, off, mid := l.x0, l.x1, l.y0-p.Y, p.X
	if l.y1-l.y0 > l.x1-l.x0 {
		a, b, off, mid = l.y0, l.y1, l.x0-p.X, p.Y
	}
	if mid+r <= a || mid-r >= b {
		return 0
	}
	h := float64(r*r) - float64(off*off)
	if h <= 0 {
		return 0
	}
	w := math.Sqrt(h)
	return max(0, min(b, mid+w)-max(a, mid-w))
}

// judge scores a path in the zone. A path that can't be as good as limit is
// not looked at to the end: its total is then just no smaller than limit.
func (f *field) judge(path []plane.Point, limit float64) Score {
	legs := f.legs(path)
	total, long, jogs := 0.0, 0.0, 0
	for i := 1; i < len(path); i++ {
		n := path[i-1].Dist(path[i])
		total += n
		if n >= longRun {
			long += n
		}
		if 1 < i && i+1 < len(path) && n < shortRun*f.pitch && turn(path, i-1)*turn(path, i) < 0 {
			jogs++
		}
	}
	s, penalty := alongScore(len(path)-2, jogs, total, long)
	s.Covered, s.Bare = f.covered(legs)
	s.Total = penalty + float64(100*(1-s.Covered)) + float64(weighBare*max(0, s.Bare-bareFrom))
	if s.Total >= limit {
		return s
	}
	s.Evenness = f.uneven(legs)
	s.Total += float64(weighUneven * s.Evenness)
	return s
}

// alongScore is what a path of total mm with long mm in long legs is penalised for: its
// turns, its jogs and its short legs.
func alongScore(turns, jogs int, total, long float64) (s Score, penalty float64) {
	s.Turns, s.Straight = turns, long/total
	return s, float64(weighShort*(1-s.Straight)) +
		(float64(weighTurns*float64(turns))+float64(weighJogs*float64(jogs)))/(total/1000)
}
