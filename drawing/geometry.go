package drawing

import (
	"oxturn/layout/plane"
)

// Inside reports whether p lies inside rings, by the even-odd rule.
func Inside(rings [][]Pt, p Pt) bool {
	in := false
	for _, r := range rings {
		in = in != plane.Inside(r, p)
	}
	return in
}

// Touches reports whether the straight piece from p to q has a point in b.
func (b Box) Touches(p, q Pt) bool {
	if p.X < b.X0 && q.X < b.X0 || p.X > b.X1 && q.X > b.X1 || p.Y < b.Y0 && q.Y < b.Y0 || p.Y > b.Y1 && q.Y > b.Y1 {
		return false // most of those asked for lie apart
	}
	_, _, ok := b.Clip(p, q)
	return ok
}

// Clip returns the part of the straight piece from p to q that lies in b,
// by cutting it at the box's sides in turn.
func (b Box) Clip(p, q Pt) (from, to Pt, ok bool) {
	t0, t1 := 0.0, 1.0
	clip := func(d, lo, hi float64) bool { // lo <= d t <= hi
		if d == 0 {
			return lo <= 0 && hi >= 0
		}
		u, v := lo/d, hi/d
		if u > v {
			u, v = v, u
		}
		t0, t1 = max(t0, u), min(t1, v)
		return t0 <= t1
	}
	ok = clip(q.X-p.X, b.X0-p.X, b.X1-p.X) && clip(q.Y-p.Y, b.Y0-p.Y, b.Y1-p.Y)
	from, to = p, q
	if t0 > 0 {
		from = p.Lerp(q, t0)
	}
	if t1 < 1 {
		to = p.Lerp(q, t1)
	}
	return from, to, ok
}
