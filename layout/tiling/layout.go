package tiling

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// A Room is a floor to be tiled, with all that a layout has regard for.
type Room struct {
	Tiled  plane.Region
	Edge   float64       // mm kept free for sealant along the floor's edge
	Sides  []Side        // of the tiled floor, as far as they are straight
	Joints []Joint       // movement joints
	First  plane.Segment // where the tiler began, as in Number; zero: the layout is to be proposed
}

// A Side is a straight piece of the tiled floor's edge.
type Side struct {
	plane.Segment
	Name  language.Message // "wall A", "tub"
	Seen  float64          // how much a cut along it is seen: 1 along a plain wall
	Entry bool             // a doorway: whoever comes in sees the first row there
}

// A Joint is a movement joint, on which tiles part.
type Joint struct {
	plane.Segment
	Name  string
	Width float64 // mm
}

// A Layout is one way to set out the tile of a room, and what it costs.
type Layout struct {
	Grid
	Count
	Along, Across language.Message // how it begins along the rows and across them
	UnderHalf     int              // cut pieces narrower than half a tile
	Slivers       int              // cut pieces that are hard to cut, and break: see sliver
	AtJoints      int              // tiles that a movement joint cuts
	Narrowest     float64          // mm of the narrowest cut piece; 0: nothing is cut to a width
	Recorded      bool             // as the tiler set it out; else proposed
	Numbers       *Numbered
	Floor         plane.Region // the tiled floor less the sealed joint along its edge

	cost float64
}

// Bought is how many tiles are bought for a layout and how many boxes those are, with a
// share for breakage; no boxes where a box is not known.
func (l Layout) Bought(t job.Tile) (tiles, boxes int) {
	tiles = Bought(l.Tiles(), t.Breakage)
	if t.PerBox > 0 {
		boxes = (tiles + t.PerBox - 1) / t.PerBox
	}
	return tiles, boxes
}

// Bought is so many tiles with a share for breakage, whole.
func Bought(tiles int, breakage float64) int {
	return int(math.Ceil(float64(tiles)*(1+breakage) - plane.Whit))
}

// sliver is the width under which a cut piece is a sliver, mm: 2 in, of a small tile a
// quarter (common practice).
func sliver(tile float64) float64 { return min(2*plane.Inch, tile/4) }

// mostLayouts is how many layouts are compared on paper.
const mostLayouts = 4

// maxWork is how many cells are looked at for one room, over all layouts tried.
const maxWork = 20000

// Layouts sets out the tile of a room in several ways and returns those worth
// comparing, the one to take first: as recorded, and then it is alone; else by the job's
// start, or balanced. No layout and no error: the pattern is not known.
func Layouts(room Room, t job.Tile) ([]Layout, error) {
	floor := withoutSlivers(room.Tiled)
	if inner, err := floor.Grow(-room.Edge); err == nil && !inner.Empty() {
		floor = inner
	}
	base := mainAngle(floor)
	g, ok := gridFor(t, base)
	if !ok || floor.Empty() {
		return nil, nil
	}
	if recorded, ok := asRecorded(room, t); ok {
		l, err := room.survey(recorded, floor)
		l.Recorded = true
		if n, ok := Number(room.Tiled, t, room.First); ok {
			l.Numbers = &n
		}
		return []Layout{l}, err
	}
	if g.Angle = longerWay(floor, base, g.Angle); g.Length < narrowestCut || g.Width < narrowestCut {
		_, err := g.Count(floor)
		return nil, err
	}
	all, err := room.weighed(g, floor, t)
	return numberedAll(best(all), floor), err
}

// asRecorded is the grid that a tiler wrote down.
func asRecorded(room Room, t job.Tile) (Grid, bool) {
	n, ok := Number(room.Tiled, t, room.First)
	return n.Grid, ok
}

// longerWay turns a grid's rows along the longer side of the floor's box.
func longerWay(floor plane.Region, base, angle float64) float64 {
	if box := plane.FaceOf(floor, plane.Point{}, base).Bounds(); box.H() > box.W() {
		return angle + math.Pi/2
	}
	return angle
}

// weighed surveys the grid from every pair of starts, as far as the work goes.
func (room Room) weighed(g Grid, floor plane.Region, t job.Tile) ([]Layout, error) {
	along, across := room.starts(g, floor, t)
	box := plane.FaceOf(floor, plane.Point{}, g.Angle).Bounds()
	cells := (box.W()/(g.Length+g.Joint) + 1) * (box.H()/(g.Width+g.Joint) + 1)
	for float64(len(along)*len(across))*cells > maxWork && len(along)+len(across) > 2 {
		if len(along) > len(across) {
			along = along[:len(along)-1]
		} else {
			across = across[:len(across)-1]
		}
	}
	var out []Layout
	for _, x := range along {
		for _, y := range across {
			g.Origin = plane.Pt(x.at, y.at).Rotate(g.Angle)
			l, err := room.survey(g, floor)
			if err != nil {
				return nil, err
			}
			l.Along, l.Across = x.words, y.words
			out = append(out, l)
		}
	}
	return out, nil
}

// sameCost is how little the costs of two layouts differ by the order of their sums.
const sameCost = 1e-9

// best are the layouts worth comparing, the one to take first: no tile cut by a movement
// joint where that can be had, then no cut under half a tile (ANSI A108.02, 4.3.2: usually
// no cuts smaller than half size), else by what the cuts are and where they are seen. What
// has the same figures as one before it is left out.
func best(all []Layout) (out []Layout) {
	slices.SortStableFunc(all, func(a, b Layout) int {
		if kept := cmp.Or(cmp.Compare(min(a.AtJoints, 1), min(b.AtJoints, 1)),
			cmp.Compare(min(a.UnderHalf, 1), min(b.UnderHalf, 1))); kept != 0 || math.Abs(a.cost-b.cost) < sameCost {
			return kept
		}
		return cmp.Compare(a.cost, b.cost)
	})
	for _, l := range all {
		same := func(o Layout) bool {
			return o.Cut == l.Cut && o.UnderHalf == l.UnderHalf && o.Tiles() == l.Tiles() &&
				o.AtJoints == l.AtJoints && math.Abs(o.Narrowest-l.Narrowest) < narrowestCut
		}
		if len(out) < mostLayouts && !slices.ContainsFunc(out, same) {
			out = append(out, l)
		}
	}
	return out
}

func numberedAll(all []Layout, floor plane.Region) []Layout {
	floor = withoutSlivers(floor)
	for i := range all {
		if n, ok := all[i].Grid.numberedOn(floor, plane.Point{}); ok && !all[i].Woven {
			all[i].Numbers = &n
		}
	}
	return all
}

// What a cut costs against a tile bought, by how it looks; a cut at a plain wall counts
// once, where it is seen more or less by its side's Seen.
const (
	anyCut      = 0.25 // and as much again the nearer it comes to nothing
	underHalf   = 1.0  // likewise
	sliverCosts = 2.0
	jointCosts  = 3.0 // a tile cut in the middle of the floor, in two
	tileCosts   = 0.2
)

// survey counts a layout and weighs its cuts.
func (room Room) survey(g Grid, floor plane.Region) (Layout, error) {
	l := Layout{Grid: g, Floor: floor}
	var t tally
	err := g.each(floor, func(c cell) {
		how := t.add(c)
		if how == emptyCell {
			return
		}
		if room.atJoint(g, c, &l) && how == wholeCell {
			t.Whole, t.Cut = t.Whole-1, t.Cut+1
		}
		if how == cutCell {
			room.weigh(g, c, &l)
		}
	})
	l.Count = t.counted()
	l.cost += tileCosts * float64(l.Tiles())
	if err != nil {
		return Layout{}, fmt.Errorf("laying out the tile: %w", err)
	}
	return l, nil
}

// weigh adds what a cut piece costs: along each axis that it is cut by.
func (room Room) weigh(g Grid, c cell, l *Layout) {
	box, far := c.inner(), c.at.Add(c.size)
	before := l.cost
	mid := box.Centre()
	wide := c.wide()
	room.weighWidth(g, l, wide.X, c.size.X, plane.Pt(box.Min.X, mid.Y), plane.Pt(box.Max.X, mid.Y),
		box.Min.X > c.at.X+narrowestCut, box.Max.X < far.X-narrowestCut)
	room.weighWidth(g, l, wide.Y, c.size.Y, plane.Pt(mid.X, box.Min.Y), plane.Pt(mid.X, box.Max.Y),
		box.Min.Y > c.at.Y+narrowestCut, box.Max.Y < far.Y-narrowestCut)
	if l.cost == before { // notched, and as wide as a tile both ways
		l.cost += anyCut * room.seen(g.onFloor(mid))
	}
}

// weighWidth adds what a piece costs that is so wide of a tile's width, with the points
// where it is cut, as far as it is.
func (room Room) weighWidth(g Grid, l *Layout, wide, tile float64, low, high plane.Point, atLow, atHigh bool) {
	seen := 0.0
	if atLow {
		seen = room.seen(g.onFloor(low))
	}
	if atHigh {
		seen = max(seen, room.seen(g.onFloor(high)))
	}
	if atLow || atHigh {
		l.cut(wide, tile, g.Joint, seen)
	}
}

// cut notes a piece cut to a width in mm of a tile's.
func (l *Layout) cut(wide, tile, joint, seen float64) {
	thin := 2 - wide/tile
	cost := anyCut * thin
	if wide < (tile-joint)/2-narrowestCut { // two halves of a tile have a joint between them
		l.UnderHalf++
		cost += underHalf * thin
	}
	if wide < sliver(tile) {
		l.Slivers++
		cost += sliverCosts
	}
	if l.Narrowest == 0 || wide < l.Narrowest {
		l.Narrowest = wide
	}
	l.cost += cost * seen
}

// curvedCut mm, and the joint at the edge, is how near a cut that runs along no wall has to pass one.
const curvedCut = 50.0

// seen is how much a cut is seen at a place: by the side of the floor it is at.
func (room Room) seen(at plane.Point) float64 {
	near, seen := curvedCut+room.Edge, 1.0 // what lies along no side is a curve, or round a thing
	for _, s := range room.Sides {
		if d := s.Distance(at); d < near-plane.Hair {
			near, seen = d, s.Seen
		}
	}
	return seen
}

// atJoint reports whether a movement joint cuts a cell's tile, and weighs both pieces.
func (room Room) atJoint(g Grid, c cell, l *Layout) bool {
	for _, j := range room.Joints {
		a, b := j.A.Sub(g.Origin).Rotate(-g.Angle), j.B.Sub(g.Origin).Rotate(-g.Angle)
		in := j.Width/2 + g.Joint/2 + 2*narrowestCut // the joint takes that much of the tile beside it
		low, high := c.at.Add(plane.Pt(in, in)), c.at.Add(c.size).Sub(plane.Pt(in, in))
		if low.X >= high.X || low.Y >= high.Y || !through(plane.Segment{A: a, B: b}, low, high) {
			continue
		}
		l.AtJoints++
		l.cost += jointCosts
		switch box := c.reach(); {
		case math.Abs(a.X-b.X) < 2*narrowestCut:
			l.cut(min(a.X-box.Min.X, box.Max.X-a.X), c.size.X, g.Joint, 1)
		case math.Abs(a.Y-b.Y) < 2*narrowestCut:
			l.cut(min(a.Y-box.Min.Y, box.Max.Y-a.Y), c.size.Y, g.Joint, 1)
		}
		return true
	}
	return false
}

// through reports whether a line goes through the inside of a box.
func through(s plane.Segment, low, high plane.Point) bool {
	box := plane.Rectangle(low, high)
	if box.Contains(s.A) || box.Contains(s.B) {
		return true
	}
	return slices.ContainsFunc([]int{0, 1, 2, 3}, func(i int) bool { return box.Edge(i).Crosses(s) })
}

// A Piece is one tile's place with the floor in it.
type Piece struct {
	Tile  plane.Ring   // its corners as if it were not cut
	Floor []plane.Ring // what of the floor it covers; edges may run back on themselves
	Cut   bool
	Wide  plane.Point // of the piece, along the rows and across them, mm
	Row   int         // the grid's own number, where it is in rows
}

// Pieces returns every tile of a layout.
func (l Layout) Pieces() (out []Piece) {
	_ = l.each(l.Floor, func(c cell) { // counted before, so that it can be
		how := c.filling()
		if how == emptyCell {
			return
		}
		p := Piece{Tile: l.tile(c.at, c.size), Cut: how == cutCell, Wide: c.wide(), Row: c.row}
		for _, ring := range c.floor {
			turned := make(plane.Ring, len(ring))
			for i, q := range ring {
				turned[i] = l.onFloor(q)
			}
			p.Floor = append(p.Floor, turned)
		}
		out = append(out, p)
	})
	return out
}
