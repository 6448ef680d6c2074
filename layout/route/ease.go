package route

import (
	"math"

	"oxturn/layout/plane"
)

// An Ease says how easily a path is laid by hand, by a person on their knees who counts
// pegs. The bounds of 5 and 10 pegs are our own choice.
type Ease struct {
	Long       float64 // share of the cable in runs of more than 10 pegs
	Runs       int     // legs but for links and jogs
	Short      int     // of them, those under 5 pegs
	Jogs       int     // short steps aside, between turns of opposite sense
	Directions int     // along how many axes runs of more than 10 pegs lie
	Block      int     // most runs in a row that are equally long, to a peg
}

const (
	shortRun = 5.0  // pegs
	easyRun  = 10.0 // pegs
)

// EaseOf measures a path of legs along and across a lattice; a leg of up to widest pegs
// between two turns of the same sense is a link from run to run.
func EaseOf(path []plane.Point, pitch float64, widest int) Ease {
	var e Ease
	total, long, block, last := 0.0, 0.0, 0, 0.0
	var lies [2]bool
	for i := 1; i < len(path); i++ {
		n := path[i].Dist(path[i-1]) / pitch
		total += n
		if i > 1 && i+1 < len(path) {
			back := turn(path, i-1)*turn(path, i) > 0
			if back && n < float64(widest)+0.5 {
				continue
			}
			if !back && n < shortRun {
				e.Jogs++
				continue
			}
		}
		e.Runs++
		if n < shortRun {
			e.Short++
		}
		if n > easyRun {
			long += n
			d := path[i].Sub(path[i-1]).Rotate(-math.Atan2(path[1].Y-path[0].Y, path[1].X-path[0].X))
			if math.Abs(d.X) > math.Abs(d.Y) {
				lies[0] = true
			} else {
				lies[1] = true
			}
		}
		if block++; math.Abs(n-last) > 1 {
			block = 1
		}
		last, e.Block = n, max(e.Block, block)
	}
	for _, on := range lies {
		if on {
			e.Directions++
		}
	}
	if total > 0 {
		e.Long = long / total
	}
	return e
}

// turn is positive where a path turns to the left at point i.
func turn(path []plane.Point, i int) float64 {
	return path[i].Sub(path[i-1]).Cross(path[i+1].Sub(path[i]))
}
