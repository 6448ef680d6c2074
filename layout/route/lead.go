package route

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A leadWish is a lead to be drawn: where to, and what it may not cross.
type leadWish struct {
	start plane.Point
	shut  taken
	off   float64 // mm to keep from lines
	rim   float64 // and from walls
	over  int32   // what a step over another lead costs beside its own; 0: there is none
}

// keepsOff are the distances that leads are tried with, mm: nearer to cable and walls only
// where there is no other way, and nearer to walls before they come beside heating cable.
var keepsOff = [...]struct {
	off, rim float64
	rims     taken
}{
	{leadOff, leadOff, byRim}, {leadThick + 1, leadThick + 1, byRim}, {4, 4, byRim},
	{leadThick + 1, 0, 0}, {4, 0, 0}, {0, 0, byRim}, {0, 0, 0},
}

// leadRoute finds the shortest cold lead from the entry to a start of heat that
// crosses no heating cable nor any of off, which may have byLead and byJoint. With over
// it may go over other leads where each step of that costs so much. It returns nil when
// there is none.
func (g *leadGround) leadRoute(start plane.Point, off taken, over int32) []plane.Point {
	var shut [2][]node // where searches off walls and up to them began in vain
	for _, way := range keepsOff {
		if g.cell == fineCell && way.off > leadThick+1 {
			continue
		}
		w := &leadWish{start: start, shut: off | byCable | byLying | way.rims, off: way.off, rim: way.rim,
			over: over}
		if g.clear(g.entry, start, w) {
			return []plane.Point{g.entry, start}
		}
		first := g.firstCells(w)
		in := &shut[min(way.rims, 1)]
		if slices.Equal(first, *in) {
			continue
		}
		if !g.comesTo(first, w) {
			*in = first
			continue
		}
		if cells := g.search(first, w); cells != nil {
			return g.taut(slices.Concat([]plane.Point{g.entry}, cells, []plane.Point{start}), w)
		}
	}
	return nil
}

// vastCells cells are searched more coarsely.
const vastCells = 1_000_000

// vast reports whether a floor has so many cells that leads are looked for outside
// the cables' shares first, and in fine cells only there.
func (g *leadGround) vast() bool { return g.nx*g.ny > vastCells }

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

// sameSpot mm apart two points of a lead are one.
const sameSpot = 1e-6

// clear reports whether a lead may go straight from a to b.
func (g *leadGround) clear(a, b plane.Point, w *leadWish) bool {
	seg := plane.Segment{A: a, B: b}
	n := seg.Length()
	if n > 6 { // the ends may lie on a wall's line or on the cable's start
		seg = plane.Segment{A: seg.At(2), B: seg.At(n - 2)}
	}
	away := g.awayFromEnds(seg, w)
	box := seg.Bounds()
	return g.eachNear(seg, func(l *groundLine) bool {
		least := max(1, w.off)
		if l.what == byLead {
			least = max(leadThick, w.off)
		}
		switch joins := l.A.Dist(w.start) < sameSpot || l.B.Dist(w.start) < sameSpot; {
		case l.what == byRim:
			return box.Apart(l.box, w.rim) ||
				!seg.Crosses(l.Segment) && !(w.rim > 0 && away.Length() > 0 && away.Gap(l.Segment) < w.rim)
		case l.what&w.shut == 0 || box.Apart(l.box, least) || w.owns(l):
			return true
		case joins: // the run that it leads to, and what is beside it
			return !seg.Crosses(l.Segment) && !(away.Length() > 0 && away.Gap(l.Segment) < w.off)
		default:
			return seg.Gap(l.Segment) >= least
		}
	}) && g.floor.Contains(seg.A.Lerp(seg.B, 0.5))
}

// owns reports whether a line goes round the lead's own joint.
func (w *leadWish) owns(l *groundLine) bool {
	return l.what == byJoint && l.at.Dist(w.start) <= sameSpot
}

// awayFromEnds returns the part of a piece of lead that is to keep off walls
// and the run it leads to: near the entry and the start of heat it comes to them.
func (g *leadGround) awayFromEnds(seg plane.Segment, w *leadWish) plane.Segment {
	const near = 60.0 // mm
	from, to := 0.0, seg.Length()
	for _, end := range []plane.Point{g.entry, w.start} {
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
func (g *leadGround) taut(pts []plane.Point, w *leadWish) []plane.Point {
	pts = knots(pts)
	out := pts[:1:1]
	for i := 0; i < len(pts)-1; {
		j := len(pts) - 1
		for j > i+1 && !g.clear(pts[i], pts[j], w) {
			j--
		}
		out = append(out, pts[j])
		i = j
	}
	return out
}

// mostKnots bounds the points on straight pieces that a lead may bend at.
const mostKnots = 200

// knots keeps the ends and corners of a way, and of the points between them so
// many that they lie close.
func knots(pts []plane.Point) []plane.Point {
	every := 1 + len(pts)/mostKnots
	out := pts[:1:1]
	for i := 1; i < len(pts); i++ {
		last := i+1 == len(pts)
		if last || i%every == 0 || math.Abs(pts[i].Sub(pts[i-1]).Cross(pts[i+1].Sub(pts[i]))) > 1e-6 {
			out = append(out, pts[i])
		}
	}
	return out
}

// leadSteps are those to the eight neighbours of a cell, and what they cost.
var leadSteps = [8]struct {
	dx, dy int
	cost   int32
}{{1, 0, straightStep}, {0, 1, straightStep}, {-1, 0, straightStep}, {0, -1, straightStep},
	{1, 1, slantingStep}, {-1, 1, slantingStep}, {-1, -1, slantingStep}, {1, -1, slantingStep}}

// Steps cost thousandths of a cell.
const straightStep, slantingStep = 1000, 1414

// search goes from the first cells at the start to the entry over open cells (A*), and
// returns the cell centres in order from the entry.
func (g *leadGround) search(first []node, w *leadWish) []plane.Point {
	ex, ey := g.cellOf(g.entry)
	still := func(x, y int) int32 {
		dx, dy := abs(x-ex), abs(y-ey)
		return int32(straightStep*max(dx, dy) + (slantingStep-straightStep)*min(dx, dy))
	}
	g.stamp++
	q := &heap[cellAt]{}
	for _, c := range first {
		cost := int32(g.centre(c.x, c.y).Dist(w.start) / g.cell * straightStep)
		*g.noteAt(c.x, c.y) = note{cost: cost, stamp: g.stamp, back: -1}
		q.push(cellAt{cost + still(c.x, c.y), cost, int32(c.y*g.nx + c.x)})
	}
	for len(*q) > 0 {
		if !g.look() {
			return nil
		}
		c := q.pop()
		x, y := int(c.i)%g.nx, int(c.i)/g.nx
		if c.cost > g.noteAt(x, y).cost {
			continue
		}
		if at := g.centre(x, y); at.Dist(g.entry) < nearEntry && g.comesIn(at, w) {
			return g.way(x, y)
		}
		var open [8]bool
		for k, s := range leadSteps {
			if k >= 4 && !(open[k-4] && open[(k-3)%4]) { // no cutting of corners
				continue
			}
			if open[k] = g.open(x+s.dx, y+s.dy, w); !open[k] {
				continue
			}
			n := g.noteAt(x+s.dx, y+s.dy)
			if cost := c.cost + s.cost + g.overLead(x+s.dx, y+s.dy, w); n.stamp != g.stamp || cost < n.cost {
				n.cost, n.stamp, n.back = cost, g.stamp, int8(k)
				q.push(cellAt{cost + still(x+s.dx, y+s.dy), cost, int32((y+s.dy)*g.nx + x + s.dx)})
			}
		}
	}
	return nil
}

// overLead is what a step to a cell costs more for another lead there.
func (g *leadGround) overLead(x, y int, w *leadWish) int32 {
	if w.over == 0 {
		return 0
	}
	if t, i := g.tileAt(x, y); t.taken[i]&byLead == 0 {
		return 0
	}
	return w.over
}

// comesIn reports whether a lead may go straight from a place close to the entry to it;
// where it may go over leads, it may from beside their fan.
func (g *leadGround) comesIn(at plane.Point, w *leadWish) bool {
	return g.clear(at, g.entry, w) || w.over > 0 && at.Dist(g.entry) < leadFan+g.cell && g.clear(at, g.entry, w.free())
}

// free is the wish of a lead that other leads do not matter to.
func (w *leadWish) free() *leadWish {
	f := *w
	f.shut &^= byLead
	return &f
}

// nearEntry is within how many mm of the entry a lead goes straight to it.
const nearEntry = 60.0

// look counts a cell looked at; false when there are no looks left.
func (g *leadGround) look() bool {
	g.looks++
	if g.work == nil {
		return true
	}
	*g.work--
	return *g.work >= 0
}

func (g *leadGround) cellOf(p plane.Point) (x, y int) {
	return int(math.Floor((p.X - g.origin.X) / g.cell)), int(math.Floor((p.Y - g.origin.Y) / g.cell))
}

// noteAt returns what searches noted of a cell.
func (g *leadGround) noteAt(x, y int) *note {
	t, i := g.tileAt(x, y)
	if t.notes == nil {
		t.notes = new([tileSide * tileSide]note)
	}
	return &t.notes[i]
}

// open reports whether a lead may go through a cell.
func (g *leadGround) open(x, y int, w *leadWish) bool {
	if x < 0 || y < 0 || x >= g.nx || y >= g.ny {
		return false
	}
	t, i := g.tileAt(x, y)
	c := t.taken[i]
	if c&onFloor == 0 {
		return false
	}
	shut := w.shut
	if w.over > 0 {
		shut &^= byLead
	}
	switch c & shut {
	case 0:
		return true
	case byJoint:
		return g.byOwnJoint(x, y, w)
	}
	return false
}

// byOwnJoint reports whether the only lead joint by a cell is the lead's own.
func (g *leadGround) byOwnJoint(x, y int, w *leadWish) bool {
	at := g.centre(x, y)
	if at.Dist(w.start) > 2*jointOff+g.cell {
		return false
	}
	return g.eachNear(plane.Segment{A: at, B: at}, func(l *groundLine) bool {
		return l.what != byJoint || w.owns(l) || l.Distance(at) >= halfDiagonal*g.cell
	})
}

// firstCells returns the open cells at the start of heat.
func (g *leadGround) firstCells(w *leadWish) (out []node) {
	cx, cy := g.cellOf(w.start)
	from := w
	if w.over > 0 {
		from = w.free()
	}
	for y := cy - 3; y <= cy+3; y++ {
		for x := cx - 3; x <= cx+3; x++ {
			if at := g.centre(x, y); at.Dist(w.start) < 3*g.cell && g.open(x, y, w) && g.clear(at, w.start, from) {
				out = append(out, node{x, y})
			}
		}
	}
	return out
}

// comesTo reports whether open cells hang together from any of those given to
// the entry: far sooner than a search that looks for the shortest way in vain.
// It spreads from both sides, since the one that is shut in is soon through.
func (g *leadGround) comesTo(from []node, w *leadWish) bool {
	var todo [2][]node
	g.stamp++
	met := false
	visit := func(side, x, y int) {
		if !g.open(x, y, w) {
			return
		}
		t, i := g.tileAt(x, y)
		f := t.floodOf(g.stamp)
		row, bit := i/tileSide, uint64(1)<<(i%tileSide)
		met = met || f.by[1-side][row]&bit != 0
		if f.by[side][row]&bit == 0 {
			f.by[side][row] |= bit
			todo[side] = append(todo[side], node{x, y})
		}
	}
	for _, c := range from {
		visit(0, c.x, c.y)
	}
	ex, ey := g.cellOf(g.entry)
	k := int(nearEntry/g.cell) + 1
	for y := ey - k; y <= ey+k; y++ {
		for x := ex - k; x <= ex+k; x++ {
			if g.centre(x, y).Dist(g.entry) < nearEntry {
				visit(1, x, y)
			}
		}
	}
	for k := 0; !met && k < len(todo[0]) && k < len(todo[1]); k++ {
		if !g.look() {
			return false
		}
		for side := range todo {
			c := todo[side][k]
			for _, s := range leadSteps[:4] { // no corner is cut, so that four neighbours say as much as eight
				visit(side, c.x+s.dx, c.y+s.dy)
			}
		}
	}
	return met
}

// way returns the cell centres from a cell back to where the search began.
func (g *leadGround) way(x, y int) []plane.Point {
	var out []plane.Point
	for {
		out = append(out, g.centre(x, y))
		k := g.noteAt(x, y).back
		if k < 0 {
			return out
		}
		x, y = x-leadSteps[k].dx, y-leadSteps[k].dy
	}
}

// A cellAt is a cell with what the way by it costs at least, and the way to it.
type cellAt struct {
	all, cost int32
	i         int32
}

// before puts the cheapest way first, of equals the one that is nearly there.
func (a cellAt) before(b cellAt) bool {
	if a.all != b.all {
		return a.all < b.all
	}
	if a.cost != b.cost {
		return a.cost > b.cost
	}
	return a.i < b.i
}

// pathLength is the length of a line with sharp corners.
func pathLength(pts []plane.Point) float64 { return Length(pts, 0) }
