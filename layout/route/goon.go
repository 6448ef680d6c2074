package route

import (
	"fmt"
	"math"

	"oxturn/layout/plane"
)

// Going on from a part that is already laid: the floor round it is taken out
// of the zone, and the rest of the path starts where a straight piece of
// cable can join it.

// frozen returns the part of cable c that is laid, nil for none.
func (r *room) frozen(c int) []plane.Point {
	if c >= len(r.p.Frozen) || len(r.p.Frozen[c]) < 2 {
		return nil
	}
	return r.p.Frozen[c]
}

// left returns how much of cable c is still to be laid, mm.
func (r *room) left(c int) float64 {
	return r.p.Cables[c].Length - Length(r.frozen(c), r.p.Bend)
}

// free returns zone less the floor within the closest gap of laid cable.
func (r *room) free(zone plane.Region) (plane.Region, error) {
	for c := range r.p.Cables {
		laid := r.frozen(c)
		if laid == nil {
			continue
		}
		band, err := plane.Band(laid, 2*(r.p.near()-gapSlop/2))
		if err == nil {
			zone, err = zone.Less(band)
		}
		if err != nil {
			return nil, fmt.Errorf("floor beside the laid part of cable %s: %w", r.p.Cables[c].ID, err)
		}
	}
	return zone, nil
}

// A joint is the end of a laid part, from where the path goes on.
type joint struct {
	laid []plane.Point
	zone plane.Region // as it was before anything was laid
	most float64      // mm, longest piece that may join the rest to it
}

func (r *room) jointOf(c, zone int) *joint {
	laid := r.frozen(c)
	if laid == nil {
		return nil
	}
	return &joint{laid, r.p.Zones[zone], 2 * r.p.far()}
}

// alongPegs mm off a line of pegs a link lies along it.
const alongPegs = 0.02

// looks places of a link are looked at for whether it stays inside.
const looks = 8

// linkCost is what a peg's length of link costs.
const linkCost = 0.3

// cost is that of joining the laid part to a path that starts at to; infinite
// where no straight piece along the lattice does it.
func (j *joint) cost(g *grid, to plane.Point) float32 {
	end := j.laid[len(j.laid)-1]
	x, y := g.place(end)
	a, b := g.place(to)
	d := to.Sub(end)
	if math.Abs(x-a) > alongPegs && math.Abs(y-b) > alongPegs || d.Norm() > j.most {
		return inf32
	}
	if d.Dot(end.Sub(j.laid[len(j.laid)-2])) < -1e-6*d.Norm() {
		return inf32 // back over what is laid
	}
	for k := 1; k < looks; k++ {
		if j.zone.Depth(end.Lerp(to, float64(k)/looks)) < -edgeSlop {
			return inf32
		}
	}
	return float32(linkCost * d.Norm() / g.pitchY())
}

// join returns the laid part followed by the path. Points in a straight line
// after the laid part are left out; the laid part itself stays as it is.
func (j *joint) join(path []plane.Point) []plane.Point {
	if j == nil {
		return path
	}
	out := append([]plane.Point(nil), j.laid...)
	for _, p := range path {
		k := len(out)
		u, v := out[k-1].Sub(out[k-2]), p.Sub(out[k-1])
		if v.Norm() < 1e-3 {
			continue
		}
		if math.Abs(u.Cross(v)) < 1e-6*u.Norm()*v.Norm() && u.Dot(v) > 0 && k > len(j.laid) {
			out[k-1] = p
			continue
		}
		out = append(out, p)
	}
	return out
}

// kept returns how many points of the path are laid already.
func (j *joint) kept() int {
	if j == nil {
		return 0
	}
	return len(j.laid)
}
