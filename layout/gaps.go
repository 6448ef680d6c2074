package layout

import (
	"math"
	"slices"

	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Gaps is what lies between a cable's runs and their neighbours, whichever
// cable those belong to. All 0 but Most where no two runs lie side by side.
type Gaps struct {
	Closest, Widest float64 // mm
	Beside          int     // number of the run beside the widest
	Densest         float64 // W/m², the most over three neighbouring runs
	Run             int     // number of the middle one of those
	Most            float64 // W/m² allowed, locally and overall; 0: no limit is given
	MostFrom        job.Source
	MostOver        string // what that limit is over, as the job has it
}

// besideFor is over how much of a run, in mm, a neighbour counts: shorter
// pieces are passings, such as round the end of a turn.
const besideFor = 200.0

// FindGaps measures the gaps of every cable of a room.
func (r *Room) FindGaps(j *job.Job) {
	reach := 2 * j.Far()
	between := openFloor{region: r.Heated, step: j.Peg() / 2}
	var all []plane.Segment
	for _, c := range r.Cables {
		for i := 1; i < len(c.Path); i++ {
			s := plane.Segment{A: c.Path[i-1], B: c.Path[i]}
			between.pieces = append(between.pieces, s)
			if s.Length() > reach {
				all = append(all, s)
			}
		}
	}
	for i := range r.Cables {
		g := r.Cables[i].gaps(all, reach, between)
		g.Most, g.MostFrom, g.MostOver = j.Supply.MaxDensity, j.Supply.MaxDensitySource, j.Supply.MaxDensityOver
		r.Cables[i].Gaps = g
	}
}

// gaps measures a cable's gaps to the runs of the room. Runs with a neighbour
// on both sides tell how dense it gets; only where there are none do two runs.
func (c *Cable) gaps(all []plane.Segment, reach float64, between openFloor) Gaps {
	g := Gaps{Closest: math.Inf(1)}
	two := Gaps{}
	perMetre := c.Label.Watts / (c.Label.Length / 1000)
	for _, run := range c.Runs {
		if run.Length() <= reach {
			continue
		}
		line := plane.Segment{A: run.From, B: run.To}
		for _, s := range stretches(line, all, reach) {
			g.Closest = min(g.Closest, s.left, s.right)
			for _, off := range []float64{s.left, -s.right} {
				if d := math.Abs(off); d > g.Widest && d <= reach && between.open(line, s, off) {
					g.Widest, g.Beside = d, run.Number
				}
			}
			to := &two
			if !math.IsInf(max(s.left, s.right), 1) {
				to = &g
			}
			if d, err := circuit.Local(perMetre, s.left, s.right); err == nil && d > to.Densest {
				to.Densest, to.Run = d, run.Number
			}
		}
	}
	if math.IsInf(g.Closest, 1) {
		return Gaps{}
	}
	if g.Densest == 0 {
		g.Densest, g.Run = two.Densest, two.Run
	}
	return g
}

// A stretch of a run has the same neighbours all along, from one place on the
// run to another: the gaps to them in mm, infinite for none.
type stretch struct{ from, to, left, right float64 }

// A neighbour lies beside a run from one place along it to another, off to
// the left of it, or to the right where off is negative.
type neighbour struct{ from, to, off float64 }

// stretches cuts a run where its neighbours begin and end, and returns the
// pieces that have any and are long enough to count.
func stretches(run plane.Segment, all []plane.Segment, reach float64) []stretch {
	near := neighbours(run, all, reach)
	ends := []float64{0, run.Length()}
	for _, n := range near {
		ends = append(ends, n.from, n.to)
	}
	slices.Sort(ends)
	var out []stretch
	for i := 1; i < len(ends); i++ {
		if ends[i]-ends[i-1] < besideFor {
			continue
		}
		mid, s := (ends[i]+ends[i-1])/2, stretch{ends[i-1], ends[i], math.Inf(1), math.Inf(1)}
		for _, n := range near {
			switch {
			case mid < n.from || mid > n.to:
			case n.off > 0:
				s.left = min(s.left, n.off)
			default:
				s.right = min(s.right, -n.off)
			}
		}
		if !math.IsInf(min(s.left, s.right), 1) {
			out = append(out, s)
		}
	}
	return out
}

// neighbours returns the runs parallel to a run and no farther off than reach.
func neighbours(run plane.Segment, all []plane.Segment, reach float64) []neighbour {
	const same = 1.0 // mm; nearer lines are the run itself
	n, u := run.Length(), run.B.Sub(run.A).Unit()
	var out []neighbour
	for _, o := range all {
		a, b := o.A.Sub(run.A), o.B.Sub(run.A)
		off := u.Cross(a)
		if math.Abs(off) <= same || math.Abs(off) > reach || math.Abs(off-u.Cross(b)) > same {
			continue
		}
		from, to := max(0, min(a.Dot(u), b.Dot(u))), min(n, max(a.Dot(u), b.Dot(u)))
		if to > from {
			out = append(out, neighbour{from, to, off})
		}
	}
	return out
}
