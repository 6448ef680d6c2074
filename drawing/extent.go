package drawing

import "math"

// PathBox returns the smallest box that holds the line through segs, its
// curves followed exactly and its width left out; the zero Box for none.
func PathBox(segs []Seg) Box {
	var pts []Pt
	var from Pt
	for _, s := range segs {
		if s.Op == Close {
			continue
		}
		pts = append(pts, s.To)
		if s.Op == Curve {
			pts = append(pts, extremes(from, s)...)
		}
		from = s.To
	}
	return BoxOf(pts...)
}

// Box returns what the path covers, the width of its line included.
func (p *Path) Box() Box {
	b := PathBox(p.Segs)
	if p.Stroke != nil {
		b = b.Grow(p.Stroke.Width / 2)
	}
	return b
}

// BoxOfItem returns what an item covers.
func BoxOfItem(it Item) Box {
	switch it := it.(type) {
	case *Path:
		return it.Box()
	case *Text:
		return it.Box()
	case *Image:
		return it.Box
	}
	return Box{}
}

// at returns the point of the curve from a at parameter t, 0 to 1.
func (s Seg) at(a Pt, t float64) Pt {
	u := 1 - t
	return a.Mul(u * u * u).Add(s.C1.Mul(3 * u * u * t)).Add(s.C2.Mul(3 * u * t * t)).Add(s.To.Mul(t * t * t))
}

// extremes returns the points of a curve where it turns back in x or y.
func extremes(a Pt, s Seg) []Pt {
	var pts []Pt
	for _, t := range append(turns(a.X, s.C1.X, s.C2.X, s.To.X), turns(a.Y, s.C1.Y, s.C2.Y, s.To.Y)...) {
		pts = append(pts, s.at(a, t))
	}
	return pts
}

// turns returns where in (0, 1) the derivative of a cubic is zero.
func turns(p0, p1, p2, p3 float64) []float64 {
	a, b, c := p3-3*p2+3*p1-p0, 2*(p2-2*p1+p0), p1-p0
	var ts []float64
	for _, t := range roots(a, b, c) {
		if t > 0 && t < 1 {
			ts = append(ts, t)
		}
	}
	return ts
}

// roots returns the real roots of a t² + b t + c.
func roots(a, b, c float64) []float64 {
	if math.Abs(a) < 1e-12 {
		if b == 0 {
			return nil
		}
		return []float64{-c / b}
	}
	d := b*b - 4*a*c
	if d < 0 {
		return nil
	}
	// the form without cancellation
	q := -(b + math.Copysign(math.Sqrt(d), b)) / 2
	if q == 0 {
		return []float64{0}
	}
	return []float64{q / a, c / q}
}

// Flatten returns the lines of segs as points, each curve as straight pieces
// no more than tolerance mm from it. A closed line repeats its first point.
func Flatten(segs []Seg, tolerance float64) [][]Pt {
	var lines [][]Pt
	var line []Pt
	for _, s := range segs {
		switch {
		case s.Op == Move || len(line) == 0:
			if len(line) > 1 {
				lines = append(lines, line)
			}
			line = []Pt{s.To}
		case s.Op == Curve:
			line = append(line, flatCurve(line[len(line)-1], s, tolerance)...)
		case s.Op == Close:
			line = append(line, line[0])
		default:
			line = append(line, s.To)
		}
	}
	if len(line) > 1 {
		lines = append(lines, line)
	}
	return lines
}

// flatCurve returns points along a curve, its start left out. The number of
// pieces is from the bound on a cubic's second difference.
func flatCurve(a Pt, s Seg, tolerance float64) []Pt {
	d1 := a.Sub(s.C1.Mul(2)).Add(s.C2)
	d2 := s.C1.Sub(s.C2.Mul(2)).Add(s.To)
	bend := math.Max(d1.Dist(Pt{}), d2.Dist(Pt{}))
	n := max(1, int(math.Ceil(math.Sqrt(0.75*bend/tolerance))))
	pts := make([]Pt, n)
	for i := range pts {
		pts[i] = s.at(a, float64(i+1)/float64(n))
	}
	return pts
}

// BoxOfItems returns what the items cover together; the zero Box for none.
func BoxOfItems(items []Item) Box {
	if len(items) == 0 {
		return Box{}
	}
	b := BoxOfItem(items[0])
	for _, it := range items[1:] {
		b = b.Union(BoxOfItem(it))
	}
	return b
}
