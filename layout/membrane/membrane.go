// Package membrane plans how the pegged membrane of a job is cut: which strips
// lie where, so that their pegs stay in step with the cable's, and from which
// roll or sheet each is cut.
//
//	+------+-----------+----+   a strip runs along the rows of pegs, a seam
//	|  1      |    2        |   lies in a channel between two of them
//	+---------+----+--------+
//	|  3           |   4    |   a strip longer than a roll, or than a sheet,
//	+--------------+--------+   is pieced
//
// A movement joint is never bridged: the floor to either side of it is covered
// apart, and the joint's own width is left open.
package membrane

import (
	"errors"
	"fmt"
	"math"

	"oxturn/layout/plane"
)

// Trim is how far a cut piece stays short of a wall or of what stands on the
// subfloor, mm: 1/4 in, common practice.
const Trim = 6.0

// Narrowest is the least width of a strip that is worth laying, mm: narrower
// ones are cut only where the floor itself is narrower. Common practice.
const Narrowest = 150.0

// A Stock is what the membrane is bought in. Lengths in mm.
type Stock struct {
	Width, Length float64
	Sheets        bool // single sheets; false: rolls
}

// An Input is a whole job: its rooms are cut from the same stock.
type Input struct {
	Stock Stock
	Pitch float64 // peg to peg, mm
	// peg to peg across the roll, where that is another: strips then lie along the angle only; 0: Pitch
	Across float64
	Rooms  []Room
}

// A Room is a floor to be covered.
type Room struct {
	Name     string
	Tiled    plane.Region // what gets membrane
	Origin   plane.Point  // a place where two channels of the peg lattice cross
	Angle    float64      // of the channels, radians counter-clockwise from east
	Joints   []Joint
	Doorways []plane.Ring // floor in front of doorways, where a seam is unwelcome
}

// A Joint is a movement joint of a width in mm.
type Joint struct {
	plane.Segment
	Width float64
}

// A Plan is a job's membrane, cut.
type Plan struct {
	Stock   Stock
	Pitch   float64
	Usable  float64 // width of a strip in whole pitches, mm
	Reach   float64 // length of a roll or sheet in whole pitches, mm
	Rooms   []Laid
	Packs   []Pack
	Bound   int     // fewest rolls or sheets from which any plan could cut these pieces
	Covered float64 // mm² of floor
	Taken   float64 // mm² cut off rolls or sheets, whole width
	Bought  float64 // mm² of whole rolls or sheets
}

// Waste returns the share of the membrane cut that does not lie on the floor.
func (p *Plan) Waste() float64 {
	if p.Taken == 0 {
		return 0
	}
	return 1 - p.Covered/p.Taken
}

// Fewest reports whether no plan could cut these pieces from fewer rolls or
// sheets.
func (p *Plan) Fewest() bool { return len(p.Packs) <= p.Bound }

// Pieces returns all pieces of the job, by number.
func (p *Plan) Pieces() []Piece {
	var out []Piece
	for _, r := range p.Rooms {
		out = append(out, r.Pieces...)
	}
	return out
}

// Seams returns the length of all seams in mm.
func (p *Plan) Seams() float64 {
	n := 0.0
	for _, r := range p.Rooms {
		for _, s := range r.Seams {
			n += s.Length()
		}
	}
	return n
}

// Laid is the membrane of one room.
type Laid struct {
	Name   string
	Along  float64 // direction of the strips, radians counter-clockwise from east
	Pieces []Piece
	Seams  []Seam
}

// A Piece is one piece of membrane, cut to size. It covers Shape; the strip it
// lies in is the rectangle Strip.
type Piece struct {
	Number int          // from 1 on, through the whole job
	Shape  plane.Region // the floor it covers, up to walls, joints and seams
	Strip  plane.Ring   // its rectangle on the floor, counter-clockwise, first side along the strip
	Length float64      // as cut, short of walls by Trim, mm
	Width  float64      // as cut, mm
	Rows   int          // pitches of width taken off the stock
	Cells  int          // pitches of length taken off the stock

	Notches []Notch // what is cut out of its rectangle square to its sides
	Traced  bool    // other cuts remain: slanting or round, traced on the floor
}

// A Notch is a rectangle cut out of a piece. It is measured on the piece as trimmed,
// from where its strip begins, along the strip and across it, in mm.
type Notch struct{ From, To, Low, High float64 }

// A Seam is where two pieces meet.
type Seam struct {
	plane.Segment
	Across  bool // at the ends of two pieces of one strip
	Doorway bool // part of it lies in a doorway
}

// limits keep a slip of the pen from taking all day.
const (
	maxLines = 20000 // channels across a room
	maxWork  = 2e7
)

// Cut plans the membrane of a job. The error says what keeps it from being
// planned: a stock too small for its pegs, or one out of all proportion to the
// rooms.
func Cut(in Input) (*Plan, error) {
	ways, err := in.stockWays()
	if err != nil {
		return nil, err
	}
	var best *Plan
	for _, w := range ways {
		p, err := in.cut(w)
		if err != nil {
			return nil, err
		}
		if best == nil || p.better(best) {
			best = p
		}
	}
	return best, nil
}

// stockWays returns the ways the stock may lie: a sheet along its length or
// across it, a roll in one way only.
func (in Input) stockWays() ([]Stock, error) {
	if !(in.Pitch > 0) || !(in.Stock.Width > 0) || !(in.Stock.Length > 0) || math.IsInf(in.Stock.Width+in.Stock.Length,
		0) {
		return nil, errors.New("no roll or sheet size is given")
	}
	if math.Min(in.Stock.Width, in.Stock.Length) < math.Max(in.Pitch, in.Across) {
		return nil, fmt.Errorf("%g x %g mm of membrane do not hold one peg of %g mm", in.Stock.Width,
			in.Stock.Length, math.Max(in.Pitch, in.Across))
	}
	ways := []Stock{in.Stock}
	if in.Stock.Sheets && in.Stock.Width != in.Stock.Length && in.Across == 0 {
		turned := in.Stock
		turned.Width, turned.Length = turned.Length, turned.Width
		ways = append(ways, turned)
	}
	return ways, nil
}

// better reports whether p takes fewer rolls than q, or less off them.
func (p *Plan) better(q *Plan) bool {
	if len(p.Packs) != len(q.Packs) {
		return len(p.Packs) < len(q.Packs)
	}
	return p.Taken < q.Taken-1
}

// cut plans a job with the stock lying one way.
func (in Input) cut(s Stock) (*Plan, error) {
	c := cutter{pitch: in.Pitch, across: in.Across, cells: whole(s.Length / in.Pitch)}
	c.rows = whole(s.Width / c.row())
	var choices [][]arrangement
	for _, r := range in.Rooms {
		both, err := c.room(r)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", r.Name, err)
		}
		choices = append(choices, both)
	}
	picked := c.pick(choices)
	p := &Plan{Stock: s, Pitch: in.Pitch, Usable: float64(c.rows) * c.row(), Reach: float64(c.cells) * in.Pitch}
	number := 1
	for i, r := range in.Rooms {
		laid, err := c.lay(r, choices[i][picked[i]], number)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", r.Name, err)
		}
		number += len(laid.Pieces)
		p.Rooms = append(p.Rooms, laid)
		p.Covered += covered(laid)
	}
	p.pack(c)
	return p, nil
}

// whole returns how many whole pitches there are, a rounding error short of
// one taken as one.
func whole(pitches float64) int { return int(math.Floor(pitches + plane.Hair)) }

func covered(l Laid) float64 {
	n := 0.0
	for _, p := range l.Pieces {
		n += p.Shape.Area()
	}
	return n
}
