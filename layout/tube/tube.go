// Package tube finds places for floor sensors midway between two runs, and ways for
// their tubes from the box, clear of heating cable and lead joints.
package tube

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// obstacleKind is what a tube keeps off.
type obstacleKind int

const (
	nearCable     obstacleKind = iota
	nearLeadJoint              // a ring about it, which no tube crosses
	nearWall                   // and the rims of what stands on the floor
	nearLead                   // cold leads and other tubes
	nearJoint                  // movement joints
	obstacleKinds
)

// yields reports whether tubes come near to it at the foot of the box.
func (m obstacleKind) yields() bool { return m != nearCable && m != nearLeadJoint }

// margins are distances from each kind of obstacle, mm.
type margins [obstacleKinds]float64

// nearer returns the smaller of each two margins.
func (m margins) nearer(n margins) margins {
	for i := range m {
		m[i] = min(m[i], n[i])
	}
	return m
}

// An obstacle is a line that a tube keeps off.
type obstacle struct {
	plane.Segment
	what obstacleKind
	box  plane.Rect
}

// tubeFloor is the floor that tubes are laid on, and what they keep off.
type tubeFloor struct {
	foot  plane.Point
	off   margins // distance kept where there is room for it, mm
	lines []obstacle
}

const (
	tubeOff  = 10.0 // mm kept off walls: a line on a wall is not seen
	tubeLead = 15.0 // mm kept off leads and other tubes, centre to centre: a tube is some 12 mm thick, a lead 6 mm
	footFan  = 30.0 // mm from the foot of the box that leads and tubes may lie on each other
	footNear = 60.0 // mm from the foot that they come near to each other and to the wall
)

// What a straightened tube asks for beside its length, in mm.
const (
	bendCost  = 60.0  // a bend
	sharpCost = 400.0 // as much as a bend of a half turn asks more: one of a quarter turn asks no more
	jointCost = 1.0   // each mm within a joint's clearance
)

func (f *tubeFloor) add(what obstacleKind, pts []plane.Point) {
	for _, s := range plane.Segments(pts) {
		f.lines = append(f.lines, obstacle{s, what, s.Bounds()})
	}
}

// clear reports whether a straight piece of tube crosses nothing and keeps so
// far off everything.
func (f *tubeFloor) clear(s plane.Segment, off *margins) bool {
	box := s.Bounds()
	out, away := f.beyondFoot(s, 2), f.beyondFoot(s, footNear)
	for i := range f.lines {
		l := &f.lines[i]
		d := off[l.what]
		if box.Apart(l.box, d) {
			continue
		}
		whole, rest := s, s
		if l.what.yields() {
			whole, rest = out, away
		}
		if whole.Crosses(l.Segment) || rest != (plane.Segment{}) && rest.Gap(l.Segment) < d {
			return false
		}
	}
	return true
}

// beyondFoot returns the part of a piece that lies d mm and more from the foot
// of the box, where it begins or ends near there.
func (f *tubeFloor) beyondFoot(s plane.Segment, d float64) plane.Segment {
	n := s.Length()
	from, to := max(0, d-s.A.Dist(f.foot)), n-max(0, d-s.B.Dist(f.foot))
	if from >= to {
		return plane.Segment{}
	}
	return plane.Segment{A: s.At(from), B: s.At(to)}
}

// boxSlack times what is wanted from a line is looked at.
const boxSlack = 1.2

// asItLies of the distance at which a tube must pass a line is kept from it.
const asItLies = 0.85

// marginsAt returns how far a tube through p is to keep from each kind of obstacle: off, or
// a little less than p does itself.
func (f *tubeFloor) marginsAt(p plane.Point) margins {
	m, atFoot := f.off, p.Dist(f.foot) < footNear
	at := plane.Rect{Min: p, Max: p}
	for i := range f.lines {
		if l := &f.lines[i]; !(atFoot && l.what.yields()) && !at.Apart(l.box, boxSlack*m[l.what]) {
			m[l.what] = min(m[l.what], asItLies*l.Distance(p))
		}
	}
	return m
}

// costOf is the cost of a straight piece: its length, and more within the
// clearance of a joint.
func (f *tubeFloor) costOf(s plane.Segment) float64 {
	n := s.Length()
	cost := n
	for i := range f.lines {
		if l := &f.lines[i]; l.what == nearJoint {
			const pieces = 16
			for k := range pieces {
				if l.Distance(s.A.Lerp(s.B, (float64(k)+0.5)/pieces)) < f.off[nearJoint]-1 {
					cost += float64(jointCost * n / pieces)
				}
			}
		}
	}
	return cost
}

// bend is the cost of a bend at b.
func bend(a, b, c plane.Point) float64 {
	u, v := b.Sub(a).Unit(), c.Sub(b).Unit()
	cos := u.Dot(v)
	if cos > 1-1e-9 {
		return 0
	}
	return bendCost + float64(sharpCost*max(0, -cos))
}

// bends is the cost of the bends at both ends of a piece; nil: there is none.
func bends(prev *plane.Point, s plane.Segment, next *plane.Point) (cost float64) {
	if prev != nil {
		cost += bend(*prev, s.A, s.B)
	}
	if next != nil {
		cost += bend(s.A, s.B, *next)
	}
	return cost
}

// straighten replaces a way of many small steps by few straight pieces, which
// come no nearer to anything than the way does, or keep their full distance.
// before and after are where the tube comes from and goes on to; nil: it ends.
func (f *tubeFloor) straighten(way []plane.Point, before, after *plane.Point) []plane.Point {
	keep := make([]margins, len(way)) // what the way keeps from point i-1 to point i
	for i := range way {
		keep[i] = f.marginsAt(way[i])
	}
	at := knots(way)
	cost, from := make([]float64, len(at)), make([]int, len(at))
	for j := 1; j < len(at); j++ {
		cost[j] = math.Inf(1)
		least := keep[at[j]]
		for i := j - 1; i >= 0; i-- {
			for k := at[i]; k < at[i+1]; k++ {
				least = least.nearer(keep[k])
			}
			prev, next := before, after
			if i > 0 {
				prev = &way[at[from[i]]]
			}
			if j < len(at)-1 {
				next = nil
			}
			s := plane.Segment{A: way[at[i]], B: way[at[j]]}
			c := cost[i] + s.Length() + bends(prev, s, next)
			if c >= cost[j] {
				continue
			}
			if c += f.costOf(s) - s.Length(); c < cost[j] && (i == j-1 || f.clear(s, &least)) {
				cost[j], from[j] = c, i
			}
		}
	}
	var out []plane.Point
	for j := len(at) - 1; j > 0; j = from[j] {
		out = append(out, way[at[j]])
	}
	out = append(out, way[0])
	slices.Reverse(out)
	return out
}

// pointsKept points of a way at most are tried as corners.
const pointsKept = 40

// knots picks the points of a way that a straight piece may begin at: its
// corners, and others so that it has a few dozen.
func knots(way []plane.Point) []int {
	every := max(1, len(way)/pointsKept)
	at := []int{0}
	for i := 1; i < len(way); i++ {
		corner := i+1 == len(way) || math.Abs(way[i].Sub(way[i-1]).Unit().Cross(way[i+1].Sub(way[i]).Unit())) > 1e-6
		if corner || i%every == 0 {
			at = append(at, i)
		}
	}
	return at
}

// tube draws the tube to a place: straight pieces from the foot of the box to
// the mouth of the gap, square over what it must cross, then midway between the
// two runs to the tip.
func (f *tubeFloor) tube(p sensorPlace) []plane.Point {
	way := append([]plane.Point{f.foot}, f.toMouth(p)...)
	var out []plane.Point
	from := 0
	for i := 1; i < len(way); i++ {
		a, b, ok := f.square(way[i-1], way[i])
		if !ok {
			continue
		}
		last := i
		for ; last+1 < len(way); last++ { // along the line that it crosses
			if _, d, ok := f.square(way[last], way[last+1]); ok {
				b = d
			} else {
				break
			}
		}
		over := []plane.Point{a, b}
		if s := (plane.Segment{A: a, B: b}); last > i && !f.passable(s, nearLead, nearJoint) {
			over = way[i-1 : last+1 : last+1]
		}
		out = append(out, f.straighten(append(way[from:i:i], over[0]), lastOf(out), &over[1])...)
		out = append(out, over[1:len(over)-1]...)
		way[last], from = over[len(over)-1], last
		i = last
	}
	out = append(out, f.straighten(way[from:], lastOf(out), &p.tip)...)
	return plane.Corners(append(out, p.tip))
}

func lastOf(pts []plane.Point) *plane.Point {
	if len(pts) == 0 {
		return nil
	}
	return &pts[len(pts)-1]
}

// toMouth returns the way up to where it enters between the two runs of the
// gap: the end of the midway line, or further in where cable or a fixture
// stands half across the gap there; the whole way where it never comes to that
// line.
func (f *tubeFloor) toMouth(p sensorPlace) []plane.Point {
	n := len(p.way)
	for n > 0 && p.inGap(p.way[n-1]) {
		n--
	}
	before := f.foot
	if n > 0 {
		before = p.way[n-1]
	}
	mouth := p.line.A
	if before.Dist(p.line.B) < before.Dist(mouth) {
		mouth = p.line.B
	}
	off := margins{nearCable: 0.8 * min(f.off[nearCable], p.gap/2), nearWall: tubeOff / 2}
	for in := (plane.Segment{A: mouth, B: p.tip}); ; in.A = in.At(min(p.gap/4, in.Length())) {
		if f.clear(plane.Segment{A: before, B: in.A}, &off) && f.clear(in, &off) {
			return append(f.toMiddle(p, p.way[:n:n], in.A, &off), in.A)
		}
		if in.Length() < 1 {
			return p.way[:max(1, len(p.way)-1)]
		}
	}
}

// toMiddle shifts the last straight piece of a way to the mouth of a gap to the
// very middle of it, as far as that keeps off everything.
func (f *tubeFloor) toMiddle(p sensorPlace, way []plane.Point, mouth plane.Point, off *margins) []plane.Point {
	out := slices.Clone(way)
	u := p.line.B.Sub(p.line.A).Unit()
	next := mouth
	for k := len(way) - 1; k >= 0; k-- {
		q := way[k].Sub(mouth)
		to := mouth.Add(u.Mul(u.Dot(q)))
		if math.Abs(u.Cross(q)) > p.gap/4 || !f.clear(plane.Segment{A: to, B: next}, off) {
			break
		}
		if k > 0 && !f.clear(plane.Segment{A: way[k-1], B: to}, off) {
			break
		}
		out[k], next = to, to
	}
	return out
}

// inGap reports whether a point lies between the two runs.
func (m *midway) inGap(p plane.Point) bool {
	u, q := m.line.B.Sub(m.line.A), p.Sub(m.line.A)
	along := u.Unit().Dot(q)
	return along >= 0 && along <= u.Norm() && math.Abs(u.Unit().Cross(q)) < m.gap/2
}

// square returns the ends of a piece that crosses square what a step from a to
// b crosses, a joint with its clearance on both sides where there is room for
// it; ok is false when the step crosses nothing.
func (f *tubeFloor) square(a, b plane.Point) (from, to plane.Point, ok bool) {
	step := plane.Segment{A: a, B: b}
	for i := range f.lines {
		l := &f.lines[i]
		if l.what != nearLead && l.what != nearJoint || !step.Meets(l.Segment) {
			continue
		}
		at, meets := step.Intersection(l.Segment)
		if !meets {
			return a, b, true
		}
		n := l.B.Sub(l.A).Unit().Left()
		if n.Dot(b.Sub(a)) < 0 {
			n = n.Mul(-1)
		}
		for _, share := range []float64{1, 0.7, 0.4} {
			d := n.Mul(share * f.off[l.what])
			s := plane.Segment{A: at.Sub(d), B: at.Add(d)}
			if f.passable(s, l.what) && f.passable(plane.Segment{A: a, B: s.A}, nearLead, nearJoint) &&
				f.passable(plane.Segment{A: s.B, B: b}, nearLead, nearJoint) {
				return s.A, s.B, true
			}
		}
		return a, b, true
	}
	return a, b, false
}

// passable reports whether a piece keeps off everything but what it is to pass.
func (f *tubeFloor) passable(s plane.Segment, over ...obstacleKind) bool {
	box := s.Bounds()
	for i := range f.lines {
		l := &f.lines[i]
		if !box.Apart(l.box, tubeOff/2) && !slices.Contains(over, l.what) && s.Gap(l.Segment) < tubeOff/2 {
			return false
		}
	}
	return true
}
