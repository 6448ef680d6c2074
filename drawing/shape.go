package drawing

import (
	"math"

	"oxturn/layout/plane"
)

// Polyline returns the open line through pts.
func Polyline(pts ...Pt) []Seg {
	segs := make([]Seg, len(pts))
	for i, p := range pts {
		segs[i] = Seg{Op: Line, To: p}
	}
	if len(segs) > 0 {
		segs[0].Op = Move
	}
	return segs
}

// Polygon returns the closed line through pts.
func Polygon(pts ...Pt) []Seg {
	if len(pts) == 0 {
		return nil
	}
	return append(Polyline(pts...), Seg{Op: Close})
}

// Rectangle returns the outline of b.
func Rectangle(b Box) []Seg { return Polygon(b.Corners()...) }

// Circle returns a full circle of radius r.
func Circle(c Pt, r float64) []Seg {
	return append(Arc(c, r, 0, 360), Seg{Op: Close})
}

// Arc returns part of a circle as cubic curves that stay within 0.01 mm of it
// up to a radius of 2 m. Degrees are counter-clockwise as the reader sees it,
// 0 to the right; an arc to a smaller angle runs clockwise.
func Arc(c Pt, r, fromDeg, toDeg float64) []Seg {
	at := func(deg float64) Pt { return c.Add(Turned(Pt{X: r, Y: 0}, deg)) }
	n := pieces(r, toDeg-fromDeg)
	segs := []Seg{{Op: Move, To: at(fromDeg)}}
	for i := range n {
		a := fromDeg + (toDeg-fromDeg)*float64(i)/float64(n)
		b := fromDeg + (toDeg-fromDeg)*float64(i+1)/float64(n)
		k := handle(b-a) * r
		segs = append(segs, Seg{
			Op: Curve, To: at(b),
			C1: at(a).Add(Turned(Pt{X: 0, Y: -k}, a)),
			C2: at(b).Add(Turned(Pt{X: 0, Y: k}, b)),
		})
	}
	return segs
}

// largeArc mm of radius need an arc in finer pieces.
const largeArc = 30

// pieces is how many cubics an arc needs. One that spans a quarter turn strays
// by 0.00027 r, one that spans an eighth by 0.0000043 r.
func pieces(r, degrees float64) int {
	span := 90.0
	if r > largeArc {
		span = 45
	}
	return int(math.Ceil(math.Abs(degrees)/span - 1e-6))
}

// handle is the length of a cubic's handles, in radii, that makes it pass
// through the ends and the middle of an arc of so many degrees.
func handle(degrees float64) float64 { return 4.0 / 3 * math.Tan(degrees*math.Pi/720) }

// Rounded returns the open line through pts with every corner rounded to
// radius r. Where two corners are too close for both, each takes at most half
// of the line between them, and its radius is smaller. Points that repeat are
// passed over.
func Rounded(pts []Pt, r float64) []Seg {
	pts = distinct(pts)
	if len(pts) == 0 {
		return nil
	}
	segs := []Seg{{Op: Move, To: pts[0]}}
	for i := 1; i+1 < len(pts); i++ {
		segs = append(segs, corner(pts, i, r)...)
	}
	if n := len(pts) - 1; n > 0 {
		segs = append(segs, Seg{Op: Line, To: pts[n]})
	}
	return segs
}

// sameSpot mm apart two points are one.
const sameSpot = 1e-9

// distinct drops every point that equals the one before it.
func distinct(pts []Pt) []Pt {
	var out []Pt
	for _, p := range pts {
		if len(out) == 0 || p.Dist(out[len(out)-1]) > sameSpot {
			out = append(out, p)
		}
	}
	return out
}

// corner returns the line to the corner at pts[i] and the bend round it.
func corner(pts []Pt, i int, r float64) []Seg {
	p := pts[i]
	u, v := pts[i-1].Sub(p).Unit(), pts[i+1].Sub(p).Unit()
	angle := math.Atan2(u.Cross(v), u.Dot(v)) // from the line back to the line on
	turn := math.Pi - math.Abs(angle)
	if turn < 1e-9 || turn > math.Pi-1e-6 || r <= 0 {
		return []Seg{{Op: Line, To: p}} // straight on, or straight back: no bend fits
	}
	cut := math.Min(r*math.Tan(turn/2), math.Min(reach(pts, i, -1), reach(pts, i, 1)))
	r = cut / math.Tan(turn/2)
	in, out := p.Add(u.Mul(cut)), p.Add(v.Mul(cut))
	inward := Pt{X: -u.Y, Y: u.X}.Mul(math.Copysign(r, angle))
	from := plane.Degrees(math.Atan2(inward.Y, -inward.X))
	bend := Arc(in.Add(inward), r, from, from+math.Copysign(plane.Degrees(turn), angle))
	bend[0], bend[len(bend)-1].To = Seg{Op: Line, To: in}, out
	return bend
}

// reach is how much of the line from pts[i] towards its neighbour a bend may
// use: all of it when the line ends there, else half.
func reach(pts []Pt, i, step int) float64 {
	d := pts[i].Dist(pts[i+step])
	if j := i + step; j == 0 || j == len(pts)-1 {
		return d
	}
	return d / 2
}

// Mapped returns segs with every place, control points too, put through f.
func Mapped(segs []Seg, f func(Pt) Pt) []Seg {
	out := make([]Seg, len(segs))
	for i, s := range segs {
		out[i] = Seg{Op: s.Op, To: f(s.To), C1: f(s.C1), C2: f(s.C2)}
	}
	return out
}
