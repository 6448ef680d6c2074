package route

import (
	"math"

	"oxturn/layout/plane"
)

// A passage is a stretch of rows between walls, from one row up, that parts the floor when it is left free: so many
// pegs of the floor hang on its lower side.
type passage struct {
	y    int
	span span
	low  int
}

// doorCut is a cut across one passage only, where rows are parted by walls so that a cut along all of one leaves
// chambers on the wrong side: of the passages that part the floor in two, that whose parts come nearest to what the
// shares are to have.
func (r *room) doorCut(g *grid, region plane.Region, p parting, low bool, gap int) cutFloor {
	part := p.la / (p.la + p.lb)
	best, least := passage{}, math.Inf(1)
	for _, one := range g.passages(gap) {
		share := float64(one.low) / float64(g.free)
		if !low {
			share = 1 - share
		}
		if off := math.Abs(share - part); off < least {
			best, least = one, off
		}
	}
	if math.IsInf(least, 1) {
		return cutFloor{cost: least}
	}
	a, b := r.parted(g, region, best, gap)
	if !low {
		a, b = b, a
	}
	return cutFloor{a, b, r.cutCost(a, b, p)}
}

// parted returns the parts of a region below a passage and above it, nil where it leaves no two.
func (r *room) parted(g *grid, region plane.Region, at passage, gap int) (under, over plane.Region) {
	x0, x1 := float64(at.span.a)-0.5, float64(at.span.b)+0.5
	y0, y1 := float64(at.y), float64(at.y+gap)
	rest, err := region.Less(plane.FromRing(plane.Ring{g.world(x0, y0), g.world(x1, y0), g.world(x1, y1),
		g.world(x0, y1)}))
	if err != nil {
		return nil, nil
	}
	foot := g.world(float64(at.span.a+at.span.b)/2, y0-0.5)
	for _, piece := range rest {
		if piece := (plane.Region{piece}); piece.Contains(foot) {
			under = append(under, piece...)
		} else {
			over = append(over, piece...)
		}
	}
	return under, over
}

// passages are those between walls that part the floor, so many rows high, each of a width that changes by no more
// than a peg over them.
func (g *grid) passages(gap int) (out []passage) {
	first := make([]int, len(g.rows)+1) // the number of a row's first span
	for y, row := range g.rows {
		first[y+1] = first[y] + len(row)
	}
	for y := 1; y+gap+1 < len(g.rows); y++ {
		for i, s := range g.rows[y] {
			wide, ok := g.straightUp(y, i, gap)
			if !ok {
				continue
			}
			if low, apart := g.hanging(first, y, i, gap); apart && low > 0 {
				out = append(out, passage{y, span{s.a - wide, s.b + wide}, low})
			}
		}
	}
	return out
}

// straightUp reports whether one span lies over span i of row y in each of the next rows, and by how many pegs theirs
// lie beyond it.
func (g *grid) straightUp(y, i, gap int) (wide int, ok bool) {
	s := g.rows[y][i]
	for k := y + 1; k <= y+gap; k++ {
		n := 0
		for _, o := range g.rows[k] {
			if o.a <= s.b && s.a <= o.b {
				wide = max(wide, s.a-o.a, o.b-s.b)
				n++
			}
		}
		if n != 1 {
			return 0, false
		}
	}
	return wide, wide <= 1
}

// hanging counts the pegs that hang on the lower side of a passage from span i of row y up, and reports whether its
// upper side does not.
func (g *grid) hanging(first []int, y, i, gap int) (pegs int, apart bool) {
	s := g.rows[y][i]
	shut := func(k int, o span) bool { return k > y && k <= y+gap && o.a <= s.b && s.a <= o.b }
	seen := make([]bool, first[len(g.rows)])
	seen[first[y]+i] = true
	for todo := [][2]int{{y, i}}; len(todo) > 0; {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		from := g.rows[at[0]][at[1]]
		if pegs += from.width() + 1; at[0] == y+gap+1 && from.a <= s.b && s.a <= from.b {
			return 0, false
		}
		for _, k := range []int{at[0] - 1, at[0] + 1} {
			if k < 0 || k >= len(g.rows) {
				continue
			}
			for n, o := range g.rows[k] {
				if o.a <= from.b && from.a <= o.b && !seen[first[k]+n] && !shut(k, o) {
					seen[first[k]+n] = true
					todo = append(todo, [2]int{k, n})
				}
			}
		}
	}
	return pegs, true
}
