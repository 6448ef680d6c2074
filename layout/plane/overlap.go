package plane

import (
	"cmp"
	"slices"
)

// A sideOf is a side of one of two regions, from its left end to its right.
type sideOf struct {
	Segment
	of int // the region: 0 or 1
}

// overlap returns the area in both r and s, mm². It cuts them into upright slabs at every
// corner and crossing: no two sides cross inside one, so that the order of the sides at
// its middle holds for all of it, and what is off by the last bits is as narrow as that.
func overlap(r, s Region) (area float64) {
	all := append(sides(r, 0), sides(s, 1)...)
	slices.SortFunc(all, func(a, b sideOf) int { return cmp.Compare(a.A.X, b.A.X) })
	xs := cuts(all)
	var here []sideOf
	for i := 1; i < len(xs); i++ {
		for len(all) > 0 && all[0].A.X <= xs[i-1] {
			here, all = append(here, all[0]), all[1:]
		}
		here = slices.DeleteFunc(here, func(e sideOf) bool { return e.B.X < xs[i] })
		area += float64(common(here, (xs[i-1]+xs[i])/2) * (xs[i] - xs[i-1]))
	}
	return area
}

// sides are those of a region but for upright ones, which bound no slab.
func sides(r Region, of int) (out []sideOf) {
	for _, ring := range r.Rings() {
		for i := range ring {
			e := ring.Edge(i)
			if e.A.X > e.B.X {
				e.A, e.B = e.B, e.A
			}
			if e.A.X < e.B.X {
				out = append(out, sideOf{e, of})
			}
		}
	}
	return out
}

// cuts are the places across of all corners, and of all crossings of sides, which come in
// the order of their left ends.
func cuts(all []sideOf) (xs []float64) {
	for i, e := range all {
		xs = append(xs, e.A.X, e.B.X)
		for _, f := range all[i+1:] {
			if f.A.X > e.B.X {
				break
			}
			if f.of != e.of {
				if p, ok := e.Intersection(f.Segment); ok {
					xs = append(xs, p.X)
				}
			}
		}
	}
	slices.Sort(xs)
	return slices.Compact(xs)
}

// common is how much of the upright line at x lies between sides of both regions.
func common(here []sideOf, x float64) (length float64) {
	type crossed struct {
		y  float64
		of int
	}
	var at []crossed
	for _, e := range here {
		share := (x - e.A.X) / (e.B.X - e.A.X)
		at = append(at, crossed{e.A.Y + float64(share*(e.B.Y-e.A.Y)), e.of})
	}
	slices.SortFunc(at, func(a, b crossed) int { return cmp.Compare(a.y, b.y) })
	var inside [2]bool
	for i, c := range at {
		if inside[0] && inside[1] {
			length += c.y - at[i-1].y
		}
		inside[c.of] = !inside[c.of]
	}
	return length
}
