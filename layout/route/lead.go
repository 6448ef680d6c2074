package route

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// leadRoute finds the shortest cold lead from the entry to the end of path at
// start over the floor, crossing neither a heating cable nor an earlier lead nor
// any of the lead joints. It returns nil when there is none.
func (s *strip) leadRoute(floor plane.Region, start plane.Point, cables, leads [][]plane.Point,
	joints []plane.Point) []plane.Point {
	v := &leadView{floor: floor, entry: s.entry, start: start}
	for _, at := range joints {
		if at.Dist(start) > 1e-6 {
			v.lines = append(v.lines, plane.Segments(around(at, jointOff))...)
		}
	}
	for _, c := range cables {
		v.lines = append(v.lines, plane.Segments(c)...)
	}
	for _, c := range leads {
		if len(c) > 1 {
			// leads share the entry
			v.lines = append(v.lines, plane.Segments(append([]plane.Point{plane.Segment{A: c[0], B: c[1]}.At(leadFan)},
				c[1:]...))...)
		}
	}
	for _, l := range v.lines {
		v.boxes = append(v.boxes, plane.Bounds([]plane.Point{l.A, l.B}))
	}
	off := leadOff
	if s.cell == fineCell {
		off = leadThick + 1
	}
	for _, way := range []struct {
		off  float64
		rims plane.Region
	}{{off, floor}, {0, floor}, {0, nil}} { // closer by cable and walls only where there is no other way
		v.off = way.off
		if v.clear(s.entry, start) {
			return []plane.Point{s.entry, start}
		}
		if cells := s.search(floor, v, start, way.rims); cells != nil {
			return v.taut(append(append([]plane.Point{s.entry}, cells...), start))
		}
	}
	return nil
}

// leadOff is how far in mm a lead keeps from heating cable, other leads and
// walls where it can: a cable is some 6 mm thick, and a line on a wall is not seen.
const leadOff = 10.0

// What lies too near to a lead, in mm between the centre lines.
const (
	leadThick = 6.0  // another lead: nearer, one lies on the other
	jointOff  = 13.0 // the lead joint of another, up to 20 mm thick
)

// around returns a square about a point, d mm to each side.
func around(p plane.Point, d float64) []plane.Point {
	r := plane.Rectangle(p.Sub(plane.Pt(d, d)), p.Add(plane.Pt(d, d)))
	return append(r, r[0])
}

// leadFan is how far from the entry, in mm, leads may lie on each other.
const leadFan = 30.0

// A leadView answers whether a straight piece of lead is allowed.
type leadView struct {
	floor        plane.Region
	entry, start plane.Point
	lines        []plane.Segment
	boxes        []plane.Rect // of the lines
	off          float64      // mm to keep from lines and walls
}

// clear reports whether a lead may go straight from a to b.
func (v *leadView) clear(a, b plane.Point) bool {
	seg := plane.Segment{A: a, B: b}
	n := seg.Length()
	if n > 6 { // the ends may lie on a wall's line or on the cable's start
		seg = plane.Segment{A: seg.At(2), B: seg.At(n - 2)}
	}
	least, away := max(1, v.off), v.awayFromEnds(seg)
	box := plane.Bounds([]plane.Point{seg.A, seg.B})
	for i, l := range v.lines {
		if box.Apart(v.boxes[i], least) {
			continue
		}
		switch joins := l.A.Dist(v.start) < 1e-6 || l.B.Dist(v.start) < 1e-6; {
		case !joins && seg.Gap(l) < least, joins && seg.Crosses(l):
			return false
		case joins && away.Length() > 0 && away.Gap(l) < v.off: // beside the run that it leads to
			return false
		}
	}
	for _, r := range v.floor.Rings() {
		for i := range r {
			if e := r.Edge(i); box.Apart(plane.Bounds([]plane.Point{e.A, e.B}), v.off) {
				continue
			} else if seg.Crosses(e) || v.off > 0 && away.Length() > 0 && away.Gap(e) < v.off {
				return false
			}
		}
	}
	return v.floor.Contains(seg.A.Lerp(seg.B, 0.5))
}

// awayFromEnds returns the part of a piece of lead that is to keep off walls
// and the run it leads to: near the entry and the start of heat it comes to them.
func (v *leadView) awayFromEnds(seg plane.Segment) plane.Segment {
	const near = 60.0 // mm
	from, to := 0.0, seg.Length()
	for _, end := range []plane.Point{v.entry, v.start} {
		if d := seg.A.Dist(end); d < near {
			from = max(from, near-d)
		}
		if d := seg.B.Dist(end); d < near {
			to = min(to, seg.Length()-(near-d))
		}
	}
	if from >= to {
		return plane.Segment{}
	}
	return plane.Segment{A: seg.At(from), B: seg.At(to)}
}

// taut leaves out the points that a straight piece can pass by.
func (v *leadView) taut(pts []plane.Point) []plane.Point {
	out := pts[:1:1]
	for i := 0; i < len(pts)-1; {
		j := len(pts) - 1
		for j > i+1 && !v.clear(pts[i], pts[j]) {
			j--
		}
		out = append(out, pts[j])
		i = j
	}
	return out
}

// search goes from start to the entry over floor cells clear of all lines
// and of the rims of off (A*), and returns the cell centres in order from the
// entry.
func (s *strip) search(floor plane.Region, v *leadView, start plane.Point, off plane.Region) []plane.Point {
	open := s.raster(floor)
	s.block(open, v.lines)
	for _, r := range off.Rings() {
		for i := range r {
			s.block(open, []plane.Segment{r.Edge(i)})
		}
	}
	dist := make([]float64, len(open))
	back := make([]int32, len(open))
	for i := range dist {
		dist[i], back[i] = math.Inf(1), -1
	}
	q := &cellQueue{}
	var first []int32
	for i, ok := range open {
		if c := s.centre(i); ok && c.Dist(start) < 3*s.cell && v.clear(c, start) {
			dist[i] = c.Dist(start)
			first = append(first, int32(i))
		}
	}
	if !s.comesTo(open, first) {
		return nil
	}
	for _, i := range first {
		q.push(cellAt{dist[i] + s.centre(int(i)).Dist(s.entry), i})
	}
	for q.Len() > 0 {
		if s.work != nil {
			if *s.work--; *s.work < 0 {
				return nil
			}
		}
		i := int(q.pop().i)
		if c := s.centre(i); c.Dist(s.entry) < nearEntry && v.clear(c, s.entry) {
			return s.cells(back, i)
		}
		s.step(open, dist, back, i, q)
	}
	return nil
}

// nearEntry is within how many mm of the entry a lead goes straight to it.
const nearEntry = 60.0

// comesTo reports whether open cells hang together from any of those given to
// the entry: far sooner than a search that looks for the shortest way in vain.
func (s *strip) comesTo(open []bool, from []int32) bool {
	seen, todo := make([]bool, len(open)), slices.Clone(from)
	for _, i := range todo {
		seen[i] = true
	}
	visit := func(j int) {
		if open[j] && !seen[j] {
			seen[j] = true
			todo = append(todo, int32(j))
		}
	}
	for k := 0; k < len(todo); k++ { // no corner is cut, so that four neighbours say as much as eight
		i := int(todo[k])
		if s.centre(i).Dist(s.entry) < nearEntry {
			return true
		}
		x, y := i%s.nx, i/s.nx
		if x > 0 {
			visit(i - 1)
		}
		if x+1 < s.nx {
			visit(i + 1)
		}
		if y > 0 {
			visit(i - s.nx)
		}
		if y+1 < s.ny {
			visit(i + s.nx)
		}
	}
	return false
}

func (s *strip) cells(back []int32, i int) []plane.Point {
	var out []plane.Point
	for k := int32(i); k >= 0; k = back[k] {
		out = append(out, s.centre(int(k)))
	}
	return slices.Clip(out)
}

// step relaxes the eight neighbours of cell i.
func (s *strip) step(open []bool, dist []float64, back []int32, i int, q *cellQueue) {
	x, y := i%s.nx, i/s.nx
	for b := max(0, y-1); b <= min(s.ny-1, y+1); b++ {
		for a := max(0, x-1); a <= min(s.nx-1, x+1); a++ {
			j := b*s.nx + a
			if !open[j] || !open[y*s.nx+a] || !open[b*s.nx+x] { // no cutting of corners
				continue
			}
			d := dist[i] + s.stride(a-x, b-y)
			if d < dist[j]-1e-9 {
				dist[j], back[j] = d, int32(i)
				q.push(cellAt{d + s.centre(j).Dist(s.entry), int32(j)})
			}
		}
	}
}

// block closes all cells so near a line that two open neighbours can't have
// it between them.
func (s *strip) block(open []bool, lines []plane.Segment) {
	near := 0.72 * s.cell // just over half a diagonal
	for _, l := range lines {
		box := plane.Bounds([]plane.Point{l.A, l.B})
		y0, y1 := int((box.Min.Y-s.origin.Y)/s.cell)-1, int((box.Max.Y-s.origin.Y)/s.cell)+1
		for y := max(0, y0); y <= min(s.ny-1, y1); y++ {
			from, to := withinRow(l, s.centre(y*s.nx).Y, near)
			x0, x1 := int((from-s.origin.X)/s.cell)-1, int((to-s.origin.X)/s.cell)+1
			for x := max(0, x0); x <= min(s.nx-1, x1); x++ {
				if i := y*s.nx + x; open[i] && l.Distance(s.centre(i)) < near {
					open[i] = false
				}
			}
		}
	}
}

// withinRow returns from where to where along x a line lies within d mm of y.
func withinRow(l plane.Segment, y, d float64) (from, to float64) {
	s, t := 0.0, 1.0
	if h := l.B.Y - l.A.Y; math.Abs(h) > 1e-9 {
		a, b := (y-d-l.A.Y)/h, (y+d-l.A.Y)/h
		s, t = max(0, min(1, min(a, b))), max(0, min(1, max(a, b)))
	}
	a, b := l.A.Lerp(l.B, s).X, l.A.Lerp(l.B, t).X
	return min(a, b), max(a, b)
}

// pathLength is the length of a line with sharp corners.
func pathLength(pts []plane.Point) float64 { return Length(pts, 0) }
