package build

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// A neck is where the way over a zone is narrowest.
type neck struct {
	at    plane.Point
	width float64 // mm that are left for the centre lines of cable, the clearances off
}

// leftWide are the pieces of a zone that are left at least so many mm wide, drawn
// in by half of it; one that is too narrow leaves none.
func leftWide(zone plane.Region, width float64) plane.Region {
	inner, err := zone.Grow(-width / 2)
	if err != nil {
		return nil
	}
	return inner
}

// pieceBy returns the index of the piece that p lies in or nearest to, -1 for none,
// and how far p lies from it.
func pieceBy(inner plane.Region, p plane.Point) (at int, off float64) {
	at, off = -1, math.Inf(1)
	for i := range inner {
		d := max(0, -inner[i:i+1].Depth(p))
		if d < off {
			at, off = i, d
		}
	}
	return at, off
}

// neckWithin mm: a neck is found no closer.
const neckWithin = 0.2

// neckTo finds what keeps two runs side by side, so many mm apart, from a spot
// of a zone: a neck on the way from the floor about home. narrow: the floor at
// the spot is itself too narrow. Neither where two runs can come there.
func neckTo(zone plane.Region, home, spot plane.Point, two float64) (n *neck, narrow bool) {
	inner := leftWide(zone, two)
	mine, off := pieceBy(inner, spot)
	if mine < 0 || off > two {
		return nil, true
	}
	apart := func(width float64) (inner plane.Region, a, b int) {
		inner = leftWide(zone, width)
		a, _ = pieceBy(inner, spot)
		b, _ = pieceBy(inner, home)
		return inner, a, b
	}
	wide := two
	if _, a, b := apart(wide); a == b {
		return nil, false
	}
	for least := 0.0; wide-least > neckWithin; {
		mid := (least + wide) / 2
		if _, a, b := apart(mid); a == b {
			least = mid
		} else {
			wide = mid
		}
	}
	inner, a, b := apart(wide)
	return &neck{between(inner[a:a+1], inner[b:b+1]), wide}, false
}

// between is the middle of the shortest way between two regions.
func between(a, b plane.Region) (at plane.Point) {
	least := math.Inf(1)
	for _, pair := range [2][2]plane.Region{{a, b}, {b, a}} {
		for _, ring := range pair[0].Rings() {
			for _, p := range ring {
				for _, other := range pair[1].Rings() {
					for i := range other {
						if q, _ := other.Edge(i).Nearest(p); q.Dist(p) < least {
							least, at = q.Dist(p), p.Lerp(q, 0.5)
						}
					}
				}
			}
		}
	}
	return at
}

// besideNeck names what stands on the two sides of a neck.
func besideNeck(r *layout.Room, n *neck) string {
	type side struct {
		name string
		to   plane.Point // from the neck
	}
	var sides []side
	add := func(name string, line []plane.Point) {
		at, _, _, _ := plane.Nearest(line, n.at)
		sides = append(sides, side{name, at.Sub(n.at)})
	}
	for _, w := range r.Job.Walls {
		add("wall "+w.Letter, []plane.Point{w.A, w.B})
	}
	for _, s := range r.Job.Stands() {
		add(s.Name, append(s.Outline[:len(s.Outline):len(s.Outline)], s.Outline[0]))
	}
	for _, m := range r.Job.Joints {
		add("movement joint "+m.Name, []plane.Point{m.A, m.B})
	}
	slices.SortStableFunc(sides, func(a, b side) int { return cmp.Compare(a.to.Norm(), b.to.Norm()) })
	for _, s := range sides[1:] {
		if s.to.Dot(sides[0].to) < 0 {
			return sides[0].name + " and " + s.name
		}
	}
	return sides[0].name
}

// cutOffBy says what parts a zone from the rest of the floor.
func cutOffBy(r *layout.Room, zone plane.Region) string {
	for _, m := range r.Job.Joints {
		for _, ring := range zone.Rings() {
			for i := range ring {
				if ring.Edge(i).Gap(m.Segment) < m.Clear+2 {
					return fmt.Sprintf("movement joint %s cuts it off from the rest", m.Name)
				}
			}
		}
	}
	return "what stands about leaves cable no way from the rest, with its clearances"
}
