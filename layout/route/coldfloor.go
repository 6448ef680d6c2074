package route

import (
	"math"
	"math/bits"
	"slices"

	"oxturn/layout/plane"
)

// A coldFloor is how much floor lies far from cable, and where.
type coldFloor struct {
	spots []coldSpot // the coldest, the worst first, each well away from the others
	ratio float64    // the worst's distance from cable over half the ideal spacing
	sum   float64    // over all cold cells, by how many half spacings they lie beyond mildBare; in pegs of floor
}

// A coldSpot is a cold cell in raster coordinates.
type coldSpot struct {
	at plane.Point
	d  float64 // from cable, cells
}

// mildBare is the distance from cable, over half the ideal spacing, from which
// floor counts as bare.
const mildBare = 1.6

// mostSpots bounds the bare spots that are told apart.
const mostSpots = 5

// mostSamples cold cells at most are looked at; of more, every so many.
const mostSamples = 400

// coldFloor measures the cold cells. Where none lies beyond mildBare, that is
// the ratio. It stops once the floor asks for more than limit of the score.
func (t *tally) coldFloor(legs []leg, limit float64) coldFloor {
	half := t.f.spacing / 2 / t.f.cell
	mild := max(t.reach, mildBare*half)
	out := coldFloor{ratio: mild / half}
	every := 1 + t.bare/mostSamples
	share := float64(every) / (fieldStep * fieldStep)
	n, hint := 0, 0
	for i, m := range t.cold {
		for ; m != 0; m &= m - 1 {
			if n++; n%every != 0 {
				continue
			}
			p := plane.Pt(float64(i%t.f.words*wordBits+bits.TrailingZeros64(m)), float64(i/t.f.words))
			var d float64
			if d, hint = nearestFrom(legs, p, hint, mild); d > mild {
				out.sum += (d - mild) / half
				out.note(coldSpot{p, d}, half)
				if out.penalty(share) > limit {
					return out.done(share)
				}
			}
		}
	}
	return out.done(share)
}

// done gives the sum its unit.
func (c coldFloor) done(share float64) coldFloor {
	c.sum *= share
	return c
}

// bareFrom times half the ideal spacing is how wide a bare spot may be before it costs.
const bareFrom = 1.5

// penalty is what the cold floor adds to the score, each unit of the sum being share.
func (c *coldFloor) penalty(share float64) float64 {
	return float64(weighBare*max(0, c.ratio-bareFrom)) + float64(weighCold*c.sum*share)
}

// note keeps a spot if it is the worst about here.
func (c *coldFloor) note(s coldSpot, half float64) {
	for i, o := range c.spots {
		if o.at.Dist(s.at) < 4*half {
			if s.d <= o.d {
				return
			}
			c.spots = slices.Delete(c.spots, i, i+1)
			break
		}
	}
	c.ratio = max(c.ratio, s.d/half)
	i := 0
	for i < len(c.spots) && c.spots[i].d >= s.d {
		i++
	}
	if i < mostSpots {
		c.spots = slices.Insert(c.spots, i, s)
		c.spots = c.spots[:min(len(c.spots), mostSpots)]
	}
}

// nearestFrom is how far p is from any leg, looking first at leg hint, and
// the nearest leg. Any distance up to enough will do.
func nearestFrom(legs []leg, p plane.Point, hint int, enough float64) (float64, int) {
	d, at, i := math.Inf(1), 0, hint
	for range legs {
		if q := legs[i].squaredTo(p); q < d {
			if d, at = q, i; d <= enough*enough {
				break
			}
		}
		if i++; i == len(legs) {
			i = 0
		}
	}
	return math.Sqrt(d), at
}
