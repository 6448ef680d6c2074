package probe

import (
	"errors"
	"fmt"
	"math"

	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// A Piece is a stretch of something that lies under a tile, or may, within the
// error of its record; by a plan, that is planned there.
type Piece struct {
	Thing
	From, To float64 // running length of cable; both 0 where it is not counted
	Run      int     // number of the run; 0: not counted
}

// An Under is what lies under one tile.
type Under struct {
	Place  tiling.Place
	Corner plane.Ring // of what of the tile lies inside the walls
	Pieces []Piece
	Answer Answer // for the tile as a whole
}

// tileStep is how finely lines are walked to see what lies under a tile, mm.
const tileStep = 2.0

// Under answers for a whole tile.
func (m *Map) Under(p tiling.Place) (Under, error) {
	if m.Tiling == nil {
		return Under{}, errors.New(m.NoTiles)
	}
	ring := m.Tiling.Piece(p, m.Outline)
	if _, known := m.Tiling.Outline(p); known && ring == nil {
		return Under{}, fmt.Errorf("tile row %d, column %d lies outside the walls of room %q", p.Row, p.Column, m.Room)
	}
	if ring == nil {
		if p.Row >= 1 && p.Row <= len(m.Tiling.Rows) {
			return Under{}, fmt.Errorf("row %d of room %q has tiles 1 to %d", p.Row, m.Room,
				m.Tiling.Rows[p.Row-1].Count)
		}
		return Under{}, fmt.Errorf("room %q has rows 1 to %d", m.Room, len(m.Tiling.Rows))
	}
	u := Under{Place: p, Corner: ring}
	for _, t := range m.Things {
		reach := t.Half
		if m.NoReason == "" {
			reach += t.Error
		}
		u.Pieces = append(u.Pieces, under(t, ring, reach)...)
	}
	centre := ring.Bounds().Centre()
	u.Answer = m.answer(centre, func(t Thing) (plane.Point, float64, int, float64) {
		return nearestToRing(ring,
			t.Line)
	})
	u.Answer.Tile, u.Answer.Whole, u.Answer.Inside = &p, true, true
	m.judge(&u.Answer)
	return u, nil
}

// TileFact says which tile an answer is about, and where its middle is.
func (m *Map) TileFact(u Under) Fact {
	return Fact{"tile", m.Textf("row %d, column %d; its middle is %s", u.Place.Row, u.Place.Column,
		m.Spot(Answer{Spot: u.Answer.Spot}))}
}

// under walks a thing's line and collects the stretches within reach of a tile.
func under(t Thing, ring plane.Ring, reach float64) []Piece {
	var out []Piece
	open := false
	for _, at := range t.looks() {
		in := ring.Contains(at.Point) || ring.Distance(at.Point) <= reach
		if in && !open {
			out = append(out, Piece{Thing: t, From: at.running, Run: runAt(t.RunEnds, at.running)})
		}
		if in {
			out[len(out)-1].To = at.running
		}
		open = in
	}
	return out
}

// A look is a place on a thing's line with its running length.
type look struct {
	plane.Point
	running float64
}

// looks are places along a thing's line, tileStep apart at most.
func (t Thing) looks() (out []look) {
	for i, p := range t.Line {
		next, n := min(i+1, len(t.Line)-1), 1 // the last point is a leg of its own, without length
		if leg := p.Dist(t.Line[next]); leg > tileStep {
			n = int(math.Ceil(leg / tileStep))
		}
		for k := range n {
			share, s := float64(k)/float64(n), 0.0
			if t.Along != nil {
				s = t.Along[i] + float64(share*(t.Along[next]-t.Along[i]))
			}
			out = append(out, look{p.Lerp(t.Line[next], share), s})
		}
	}
	return out
}

// sameOff is how much nearer a place must be to count as such, mm: along a tile's edge
// many are as near but for the last bits.
const sameOff = 1e-6

// nearestToRing is nearest for a whole tile: 0 for a line under it.
func nearestToRing(ring plane.Ring, line []plane.Point) (at plane.Point, off float64, leg int, share float64) {
	off = math.Inf(1)
	consider := func(p plane.Point, i int, s float64) {
		d := ring.Distance(p)
		if ring.Contains(p) {
			d = 0
		}
		if d < off-sameOff {
			at, off, leg, share = p, d, i, s
		}
	}
	consider(line[0], 0, 0)
	for i := 1; i < len(line); i++ {
		s := plane.Segment{A: line[i-1], B: line[i]}
		n := math.Ceil(s.Length() / tileStep)
		for k := 1.0; k <= n; k++ {
			consider(s.A.Lerp(s.B, k/n), i-1, k/n)
		}
	}
	return at, off, leg, share
}
