package plane

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"github.com/peterstace/simplefeatures/geom"
)

// A Polygon is a counter-clockwise outer ring less its clockwise holes.
type Polygon struct {
	Outer Ring
	Holes []Ring
}

// A Region is a set of polygons that do not overlap, in a fixed order (by
// lowest, then leftmost corner). The zero value is empty.
type Region []Polygon

// FromRing returns the region inside one simple ring.
func FromRing(r Ring) Region {
	if len(r) < 3 {
		return nil
	}
	return Region{{Outer: r.CCW()}}
}

// Clone returns the region on memory of its own.
func (r Region) Clone() Region {
	out := slices.Clone(r)
	for i, p := range out {
		out[i] = Polygon{Outer: slices.Clone(p.Outer), Holes: slices.Clone(p.Holes)}
		for k, h := range p.Holes {
			out[i].Holes[k] = slices.Clone(h)
		}
	}
	return out
}

// Empty reports whether nothing is in the region.
func (r Region) Empty() bool { return len(r) == 0 }

// Area returns the area in mm².
func (r Region) Area() float64 {
	a := 0.0
	for _, p := range r {
		a += p.Outer.Area()
		for _, h := range p.Holes {
			a -= h.Area()
		}
	}
	return a
}

// Perimeter returns the length of all boundaries, holes included.
func (r Region) Perimeter() float64 {
	n := 0.0
	for _, ring := range r.Rings() {
		n += ring.Perimeter()
	}
	return n
}

// Rings returns every boundary ring, holes included.
func (r Region) Rings() []Ring {
	var out []Ring
	for _, p := range r {
		out = append(out, p.Outer)
		out = append(out, p.Holes...)
	}
	return out
}

// Bounds returns the smallest box that holds the region.
func (r Region) Bounds() Rect {
	var pts []Point
	for _, p := range r {
		pts = append(pts, p.Outer...)
	}
	return Bounds(pts)
}

// Contains reports whether p is inside; on the line it may go either way.
func (r Region) Contains(p Point) bool {
	in := false
	for _, ring := range r.Rings() {
		if ring.Contains(p) {
			in = !in
		}
	}
	return in
}

// Distance returns the distance from p to the nearest boundary.
func (r Region) Distance(p Point) float64 {
	d := math.Inf(1)
	for _, ring := range r.Rings() {
		d = min(d, ring.Distance(p))
	}
	return d
}

// Depth is how far p lies inside the region; negative outside.
func (r Region) Depth(p Point) float64 {
	if r.Contains(p) {
		return r.Distance(p)
	}
	return -r.Distance(p)
}

// quadSegments is the number of chords per quarter circle in an offset's round
// corner: at a 150 mm clearance a chord then cuts 0.3 mm off the true arc.
const quadSegments = 16

// Grow returns all points within d of the region, with round corners; a
// negative d shrinks it by -d. The chords of a grown corner stay inside the
// true arc by at most 0.2 % of d: callers who need the full distance add that.
func (r Region) Grow(d float64) (Region, error) {
	if d == 0 || r.Empty() {
		return r, nil
	}
	g, err := geom.Buffer(r.geometry(), d, geom.BufferQuadSegments(quadSegments))
	if err != nil {
		return nil, fmt.Errorf("offset by %g mm: %w", d, err)
	}
	return fromGeometry(g), nil
}

// Opened returns the region without what is narrower than w: what is left when it
// is shrunk by half of that is grown again. It is grown by twice as much and cut
// back to the region, so that corners down to 60 degrees keep their tips.
func (r Region) Opened(w float64) (Region, error) {
	core, err := r.Grow(-w / 2)
	if err != nil || core.Empty() {
		return nil, err
	}
	wide, err := core.Grow(w)
	if err != nil {
		return nil, err
	}
	return r.Meet(wide)
}

// Union returns the points in any of the regions, their corners rounded to
// grid.
func Union(rs ...Region) (Region, error) {
	var gs []geom.Geometry
	for _, r := range rs {
		if r = r.onGrid(); !r.Empty() {
			gs = append(gs, r.geometry())
		}
	}
	if len(gs) == 0 {
		return nil, nil
	}
	g, err := geom.UnionMany(gs)
	if err != nil {
		return nil, fmt.Errorf("union of regions: %w", err)
	}
	return fromGeometry(g), nil
}

// Less returns the points of r that are not in s.
func (r Region) Less(s Region) (Region, error) {
	if r.Empty() || s.Empty() {
		return r, nil
	}
	out, err := sound(geom.Difference, r, s, r.Area()-overlap(r, s))
	if err != nil {
		return nil, fmt.Errorf("difference of regions: %w", err)
	}
	return out, nil
}

// Meet returns the points in both r and s.
func (r Region) Meet(s Region) (Region, error) {
	if r.Empty() || s.Empty() {
		return nil, nil
	}
	out, err := sound(geom.Intersection, r, s, overlap(r, s))
	if err != nil {
		return nil, fmt.Errorf("intersection of regions: %w", err)
	}
	return out, nil
}

// sound does what geom does with two regions, and holds the area to what it must be, mm²:
// where sides of both lie on one another but for the last bits, geom now and then takes the
// regions to be apart. Then it does so once more with corners rounded to grid.
func sound(do func(a, b geom.Geometry) (geom.Geometry, error), r, s Region, area float64) (out Region, err error) {
	allowed := fewSlivers*sliverArea + float64(trueTo*(r.Perimeter()+s.Perimeter()))
	for range 2 {
		g, err := do(r.geometry(), s.geometry())
		if err != nil {
			return nil, err
		}
		if out = fromGeometry(g); math.Abs(out.Area()-area) <= allowed {
			return out, nil
		}
		r, s = r.onGrid(), s.onGrid()
	}
	return nil, fmt.Errorf("%g mm² came out of %g", out.Area(), area)
}

// Band returns all points within half of width of the open line through pts,
// with round ends.
func Band(pts []Point, width float64) (Region, error) {
	xs := make([]float64, 0, 2*len(pts))
	for _, p := range pts {
		xs = append(xs, p.X, p.Y)
	}
	line := geom.NewLineString(geom.NewSequence(xs, geom.DimXY))
	g, err := geom.Buffer(line.AsGeometry(), width/2, geom.BufferQuadSegments(quadSegments))
	if err != nil {
		return nil, fmt.Errorf("band of %g mm: %w", width, err)
	}
	return fromGeometry(g), nil
}

// What may be gained or lost where regions are taken from each other: so many pieces that are
// left out as noise, and so wide a strip along sides, mm. No floor is measured to that.
const (
	fewSlivers = 4
	trueTo     = 5e-3
)

// cornerGrid is what corners are rounded to before regions are united, mm, and where their
// difference would go wrong. Polygons that meet along sides which differ by the last bits
// of a float64 are otherwise now and then dropped whole by geom.UnionMany.
const cornerGrid = 1e-4

// onGrid returns r with its corners rounded; what that leaves nothing of goes.
func (r Region) onGrid() Region {
	var out Region
	for _, p := range r {
		outer := p.Outer.onGrid()
		if len(outer) < 3 {
			continue
		}
		q := Polygon{Outer: outer}
		for _, h := range p.Holes {
			if h = h.onGrid(); len(h) >= 3 {
				q.Holes = append(q.Holes, h)
			}
		}
		out = append(out, q)
	}
	return out
}

func (r Ring) onGrid() Ring {
	var out Ring
	for _, p := range r {
		q := Point{float64(math.Round(p.X/cornerGrid)*cornerGrid) + 0,
			float64(math.Round(p.Y/cornerGrid)*cornerGrid) + 0}
		if len(out) == 0 || out[len(out)-1] != q {
			out = append(out, q)
		}
	}
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	return out
}

func (r Region) geometry() geom.Geometry {
	polys := make([]geom.Polygon, len(r))
	for i, p := range r {
		rings := [][]float64{closed(p.Outer)}
		for _, h := range p.Holes {
			rings = append(rings, closed(h))
		}
		polys[i] = geom.NewPolygonXY(rings...)
	}
	return geom.NewMultiPolygon(polys).AsGeometry()
}

func closed(r Ring) []float64 {
	xs := make([]float64, 0, 2*len(r)+2)
	for _, p := range r {
		xs = append(xs, p.X, p.Y)
	}
	return append(xs, r[0].X, r[0].Y)
}

// sliverArea is the area in mm² below which a piece left by a set operation is
// rounding noise, not floor.
const sliverArea = 1.0

func fromGeometry(g geom.Geometry) Region {
	var out Region
	for _, g := range g.Dump() {
		if !g.IsPolygon() {
			continue
		}
		p := g.MustAsPolygon()
		if p.IsEmpty() || p.Area() < sliverArea {
			continue
		}
		out = append(out, fromPolygon(p))
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := out[i].Outer.Bounds().Min, out[j].Outer.Bounds().Min
		return a.Y < b.Y || a.Y == b.Y && a.X < b.X
	})
	return out
}

func fromPolygon(p geom.Polygon) Polygon {
	out := Polygon{Outer: fromLine(p.ExteriorRing()).CCW()}
	for i := range p.NumInteriorRings() {
		h := fromLine(p.InteriorRingN(i)).CCW()
		cw := make(Ring, len(h))
		for k, q := range h {
			cw[len(h)-1-k] = q
		}
		out.Holes = append(out.Holes, cw)
	}
	return out
}

func fromLine(l geom.LineString) Ring {
	seq := l.Coordinates()
	n := seq.Length() - 1 // the last point repeats the first
	r := make(Ring, n)
	for i := range n {
		xy := seq.GetXY(i)
		r[i] = Point{xy.X, xy.Y}
	}
	return r
}
