package layout

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// straightRun is the shortest leg in pegs that an installer counts as a run;
// shorter legs are steps of a turn.
const straightRun = 3

// SamePeg is how near two places are the same peg's, mm.
const SamePeg = 1.0

// Runs lists a path as an installer reads it: its straight legs, each with
// direction, pegs, the step to the next in pegs, and the running length at its
// end. Legs shorter than straightRun pegs belong to the turn between runs.
func Runs(path []plane.Point, bend float64, pegs route.Lattice) []Run {
	cum := route.Stations(path, bend)
	var out []Run
	for i := 1; i < len(path); i++ {
		leg := plane.Segment{A: path[i-1], B: path[i]}
		pitch := pegs.Pegs(leg.B.Sub(leg.A))
		if pegs.Loose && math.Abs(leg.B.Sub(leg.A).Rotate(-pegs.Angle).Y) > SamePeg {
			continue // a turn, between two strips' clips
		}
		if leg.Length() < straightRun*pitch-SamePeg && !lone(path) {
			continue
		}
		out = append(out, Run{
			From: leg.A, To: leg.B, Leg: i,
			Direction: compass(leg.B.Sub(leg.A)), Pegs: int(math.Round(leg.Length() / pitch)), RunningEnd: cum[i],
		})
	}
	out = joinTurnLegs(out)
	for i := range out[:max(0, len(out)-1)] {
		out[i].GapToNext = gapToNext(out[i], out[i+1], pegs)
	}
	return out
}

func lone(path []plane.Point) bool { return len(path) == 2 }

// joinTurnLegs numbers what is left after a turn back has swallowed the leg
// between two parallel runs: a leg square to both neighbours, no longer than
// the widest turn, is not a run of its own.
func joinTurnLegs(rs []Run) []Run {
	var out []Run
	for i, r := range rs {
		if i > 0 && i+1 < len(rs) && turnBack(rs[i-1], r, rs[i+1]) {
			continue
		}
		r.Number = len(out) + 1
		out = append(out, r)
	}
	return out
}

// Of a turn: the cosine of two runs that go to and fro, and the most pegs of its link; and the sine
// above which two runs do not lie side by side.
const (
	backAgain = -0.99
	turnPegs  = 6
	askew     = 0.05
)

// turnBack reports whether b is the short link of a turn from a back along c.
func turnBack(a, b, c Run) bool {
	if b.Leg != a.Leg+1 || c.Leg != b.Leg+1 {
		return false
	}
	u, v := a.To.Sub(a.From).Unit(), c.To.Sub(c.From).Unit()
	return u.Dot(v) < backAgain && b.Length() < math.Min(a.Length(), c.Length())-SamePeg && b.Pegs <= turnPegs
}

// InPegs is how far past a run's start a mark falls, in pegs of that run; false where neither is known.
func (c *Cable) InPegs(m Mark) (n float64, ok bool) {
	for _, r := range c.Runs {
		if pitch := c.Lattice.Pegs(r.To.Sub(r.From)); r.Number == m.Run && pitch > 0 {
			return m.Into / pitch, true
		}
	}
	return 0, false
}

// PegsAcross is peg to peg across the longest run of the plan's first cable, mm: what a section through runs shows.
func (p *Plan) PegsAcross() float64 {
	for i := range p.Rooms {
		for _, c := range p.Rooms[i].Cables {
			if len(c.Runs) > 0 && c.Lattice.Pitch > 0 {
				r := slices.MaxFunc(c.Runs, func(a, b Run) int { return cmp.Compare(a.Length(), b.Length()) })
				return c.Lattice.Pegs(r.To.Sub(r.From).Left())
			}
		}
	}
	return p.Job.Membrane.Pitch
}

// Length is the run from end to end, mm.
func (r Run) Length() float64 { return r.From.Dist(r.To) }

// gapToNext is the distance in pegs between two runs that lie side by side, 0
// when they do not.
func gapToNext(a, b Run, pegs route.Lattice) int {
	u := a.To.Sub(a.From).Unit()
	if v := b.To.Sub(b.From).Unit(); math.Abs(u.Cross(v)) > askew {
		return 0
	}
	return int(math.Round(math.Abs(u.Cross(b.From.Sub(a.From))) / pegs.Pegs(u.Left())))
}

const eighths = 8

var compassNames = [eighths]string{"east", "north-east", "north", "north-west", "west", "south-west", "south",
	"south-east"}

// compass names the direction of d to the nearest eighth.
func compass(d plane.Point) string {
	return compassNames[eighth(d)]
}

// eighth is the direction of d in eighths of a turn from east, counter-clockwise.
func eighth(d plane.Point) int {
	return (int(math.Round(plane.Atan2(d.Y, d.X)/(2*math.Pi/eighths))) + eighths) % eighths
}

// Marks finds the quarter, half and three-quarter marks of a cable.
func Marks(path []plane.Point, bend float64, rs []Run) []Mark {
	cum := route.Stations(path, bend)
	total := cum[len(cum)-1]
	var out []Mark
	for k, name := range []string{"1/4", "1/2", "3/4"} {
		s := total * float64(k+1) / 4
		m := Mark{Name: name, Along: s, At: route.Along(path, bend, s)}
		m.Run, m.Into = PlaceOnRuns(rs, cum, s)
		out = append(out, m)
	}
	return out
}

// PlaceOnRuns says on which run a running length falls, or which it has just
// left, and how far past that run's start.
func PlaceOnRuns(rs []Run, cum []float64, s float64) (run int, into float64) {
	for _, r := range rs {
		start := cum[r.Leg-1]
		if run > 0 && s < start {
			break
		}
		run, into = r.Number, math.Max(0, s-start)
	}
	return run, into
}
