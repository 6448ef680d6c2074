package tiling

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout/plane"
)

// Joints returns the middles of the joints between tiles, as far as they lie in the floor.
func (l Layout) Joints() (out []plane.Segment) {
	half := l.Joint / 2
	_ = l.each(l.Floor, func(c cell) { // counted before, so that it can be
		if c.filling() == emptyCell {
			return
		}
		low, far := c.at.Sub(plane.Pt(half, half)), c.at.Add(c.size).Add(plane.Pt(half, half))
		// every joint is the left or the lower one of a tile
		for _, s := range [...]plane.Segment{{A: low, B: plane.Pt(far.X, low.Y)}, {A: low, B: plane.Pt(low.X, far.Y)}} {
			out = append(out, inside(l.Floor, plane.Segment{A: l.onFloor(s.A), B: l.onFloor(s.B)})...)
		}
	})
	return out
}

// inside returns the pieces of a line in a region, from its start on.
func inside(r plane.Region, s plane.Segment) (out []plane.Segment) {
	way := s.B.Sub(s.A)
	ts := []float64{0, 1}
	for _, ring := range r.Rings() {
		for i := range ring {
			e := ring.Edge(i)
			side := e.B.Sub(e.A)
			d := way.Cross(side)
			if math.Abs(d) < plane.Hair {
				continue
			}
			t, u := e.A.Sub(s.A).Cross(side)/d, e.A.Sub(s.A).Cross(way)/d
			if t > 0 && t < 1 && u >= 0 && u <= 1 {
				ts = append(ts, t)
			}
		}
	}
	slices.Sort(ts)
	for i := 1; i < len(ts); i++ {
		a, b := s.A.Lerp(s.B, ts[i-1]), s.A.Lerp(s.B, ts[i])
		if a.Dist(b) < narrowestCut || !r.Contains(a.Lerp(b, 0.5)) {
			continue
		}
		if n := len(out); n > 0 && out[n-1].B == a {
			out[n-1].B = b
			continue
		}
		out = append(out, plane.Segment{A: a, B: b})
	}
	return out
}

// A Start is how a tiler begins: two lines to be struck on the floor.
type Start struct {
	Along, Across plane.Segment // on joints of the tile, as long as the floor is there
	At            plane.Point   // where they cross
	Second        plane.Point   // another crossing of joints on the first, as far off as may be
}

// Start returns the lines by which a layout is set out, near the middle of the floor. ok is
// false where no joints cross on it.
func (l Layout) Start() (s Start, ok bool) {
	mid := l.Floor.Bounds().Centre()
	crossings := l.crossings()
	slices.SortStableFunc(crossings, func(a, b plane.Point) int { return cmp.Compare(a.Dist(mid), b.Dist(mid)) })
	way := plane.Pt(1, 0)
	if l.Woven { // the line that the zigzag runs along
		way = plane.Pt(math.Sqrt2/2, math.Sqrt2/2)
	}
	way = way.Rotate(l.Angle)
	for _, at := range crossings {
		s = Start{Along: l.lineAt(at, way), Across: l.lineAt(at, way.Left()), At: at, Second: at}
		for _, c := range crossings {
			on := math.Abs(c.Sub(at).Cross(way)) < narrowestCut && s.Along.Distance(c) < narrowestCut
			if on && c.Dist(at) > s.Second.Dist(at) {
				s.Second = c
			}
		}
		if s.Second != at && s.Across.Length() > narrowestCut {
			return s, true
		}
	}
	return Start{}, false
}

// crossings are the corners of tiles, in the middle of their joints, that lie well inside the
// floor; of rows that are moved every second one has them where the start line is.
func (l Layout) crossings() (out []plane.Point) {
	half := l.Joint / 2
	_ = l.each(l.Floor, func(c cell) {
		if c.crosswise || c.row%2 != 0 && l.Shift != 0 {
			return
		}
		if at := l.onFloor(c.at.Sub(plane.Pt(half, half))); l.Floor.Depth(at) > 10*narrowestCut {
			out = append(out, at)
		}
	})
	return out
}

// lineAt is the piece of the floor's line through a point.
func (l Layout) lineAt(at, way plane.Point) plane.Segment {
	box := l.Floor.Bounds()
	reach := way.Mul(box.W() + box.H())
	for _, s := range inside(l.Floor, plane.Segment{A: at.Sub(reach), B: at.Add(reach)}) {
		if s.Distance(at) < narrowestCut {
			return s
		}
	}
	return plane.Segment{A: at, B: at}
}
