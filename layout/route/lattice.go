package route

import (
	"math"
	"sort"

	"oxturn/layout/plane"
)

// ToWorld returns the floor point at lattice coordinates (u, v): u pegs along
// the lattice's angle, v pegs to the left of it.
func (l Lattice) ToWorld(u, v float64) plane.Point {
	return l.Origin.Add(l.Offset(u, v))
}

// Offset is how far on the floor u pegs along the lattice's angle and v to the left of it lead.
func (l Lattice) Offset(u, v float64) plane.Point {
	return plane.Pt(u*l.Pitch, v*l.across()).Rotate(l.Angle)
}

// ToPegs returns the lattice coordinates of a floor point.
func (l Lattice) ToPegs(p plane.Point) (u, v float64) {
	q := p.Sub(l.Origin).Rotate(-l.Angle)
	return q.X / l.Pitch, q.Y / l.across()
}

// across is peg to peg across the angle.
func (l Lattice) across() float64 {
	if l.Across > 0 {
		return l.Across
	}
	return l.Pitch
}

// Pegs is peg to peg along one of the lattice's axes, the one that is nearer to a direction.
func (l Lattice) Pegs(along plane.Point) float64 {
	if l.Across > 0 {
		if d := along.Rotate(-l.Angle); math.Abs(d.Y) > math.Abs(d.X) {
			return l.Across
		}
	}
	return l.Pitch
}

// Tight is the smaller of the lattice's two pitches, mm.
func (l Lattice) Tight() float64 { return min(l.Pitch, l.across()) }

// wide is the larger of the two.
func (l Lattice) wide() float64 { return max(l.Pitch, l.Across) }

// chooseLattice lays the pegs along the longest walls, and shifts them so
// that as much clearance line as can be has a line of pegs on it.
func chooseLattice(p Problem) Lattice {
	if p.Lattice != nil {
		return *p.Lattice
	}
	l := Lattice{Angle: Angle(p), Pitch: p.Pitch}
	if p.Uneven != nil {
		l.Across, l.Loose = p.Uneven.Across, p.Uneven.Held > 0
	}
	l.Origin = plane.Pt(shift(p.Zones, l, false), shift(p.Zones, l, true)).Rotate(l.Angle)
	return l
}

// mainAngle is the direction modulo a quarter turn in which most wall lies.
func mainAngle(walls []plane.Segment, zones []plane.Region) float64 {
	if len(walls) == 0 {
		for _, z := range zones {
			for _, r := range z.Rings() {
				for i := range r {
					walls = append(walls, r.Edge(i))
				}
			}
		}
	}
	best, most := 0.0, -1.0
	for _, w := range walls {
		if a := wallAngle(w); alongside(walls, a) > most+1 {
			best, most = a, alongside(walls, a)
		}
	}
	return best
}

// wallAngle is a wall's direction modulo a quarter turn.
func wallAngle(w plane.Segment) float64 {
	v := w.B.Sub(w.A)
	return quarter(plane.Atan2(v.Y, v.X))
}

// alongside is the length of wall within a few degrees of angle a or across
// it, walls that lie truer counting more, long walls more than the sum of
// their parts.
func alongside(walls []plane.Segment, a float64) float64 {
	n := 0.0
	for _, w := range walls {
		d := math.Abs(wallAngle(w) - a)
		d = math.Min(d, math.Pi/2-d)
		n += float64(w.Length() * w.Length() / 1000 * math.Max(0, 1-d/alongTurn))
	}
	return n
}

// A face is a stretch of clearance line that lies along the lattice.
type face struct {
	at     float64 // mm across the lattice lines, of its point farthest into the zone
	length float64
	up     bool // the zone lies on the side of greater coordinates
}

// What counts as along a line of pegs, radians; how far inside a clearance line pegs begin, and how far
// before a line something still lies on it, mm.
const (
	alongTurn = 0.05
	hair      = 0.05
	onFace    = 0.3
)

// sameLeftOver is how little two offsets' floors left over differ, mm², by rounding alone.
const sameLeftOver = 1e-6

// shift returns the offset in mm, across the rows (v true) or along them, that
// leaves the least floor between the clearance lines and the first peg lines.
func shift(zones []plane.Region, l Lattice, v bool) float64 {
	faces, pitch := facesOf(zones, l, v), l.Pitch
	if v {
		pitch = l.across()
	}
	best, least := 0.0, math.Inf(1)
	for _, f := range faces {
		at := f.at + hair
		if !f.up {
			at = f.at - hair
		}
		if c := leftOver(faces, at, pitch); c < least-sameLeftOver {
			best, least = at, c
		}
	}
	return best
}

// leftOver is the floor in mm² between the faces and the peg lines at offset.
// The square of the width counts: a whole peg lost at one wall is worse than
// half a peg at two.
func leftOver(faces []face, offset, pitch float64) float64 {
	n := 0.0
	for _, f := range faces {
		d := offset - f.at
		if !f.up {
			d = -d
		}
		d -= float64(math.Floor((d+onFace)/pitch) * pitch)
		n += f.length * d * d / pitch
	}
	return n
}

// facesOf collects the edges of the zones that lie within three degrees of
// the lattice lines.
func facesOf(zones []plane.Region, l Lattice, v bool) []face {
	var out []face
	for _, z := range zones {
		for _, r := range z.Rings() {
			for i := range r {
				if f, ok := faceOf(r.Edge(i), l.Angle, v); ok {
					out = append(out, f)
				}
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].length > out[j].length })
	return out[:min(len(out), 60)]
}

func faceOf(e plane.Segment, angle float64, v bool) (face, bool) {
	a, b := e.A.Rotate(-angle), e.B.Rotate(-angle)
	if !v { // along the rows: look at the upright edges
		a, b = plane.Pt(-a.Y, a.X), plane.Pt(-b.Y, b.X)
	}
	d := b.Sub(a)
	if math.Abs(d.Y) > alongTurn*math.Abs(d.X) {
		return face{}, false
	}
	f := face{length: math.Abs(d.X), up: d.X > 0}
	f.at = math.Max(a.Y, b.Y)
	if !f.up {
		f.at = math.Min(a.Y, b.Y)
	}
	return f, true
}
