package warmth

import (
	"math"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// spotSamples is how many spots are looked at in the width of one.
const spotSamples = 7.0

// openShare is the share of a spot that must be open floor for a foot to stand there: all but
// what cells lose at a slanting edge.
const openShare = 0.95

// spots fills in the mean over a disc so wide about every few cells, of the floor within
// it, and where a foot would stand coldest and warmest.
func (g *ground) spots(out *layout.FloorState, surface []float64, wide float64) {
	radius := wide / 2 / g.Cell
	every := max(1, int(math.Round(wide/spotSamples/g.Cell)))
	sums := g.summed(surface)
	nx, ny := (g.NX-1)/every+1, (g.NY-1)/every+1
	out.Raster = plane.Raster{Origin: g.Origin.Sub(plane.Pt(1, 1).Mul(g.Cell * float64(every-1) / 2)),
		Cell: g.Cell * float64(every), NX: nx, NY: ny}
	out.Spots = make([]float64, 0, nx*ny)
	for y := range ny {
		for x := range nx {
			s := sums.disc(x*every, y*every, radius)
			if s.floor == 0 {
				out.Spots = append(out.Spots, layout.NoFloor)
				continue
			}
			t := math.Round((out.Air+s.rise/s.floor)*1e3) / 1e3
			out.Spots = append(out.Spots, t)
			if s.floor < openShare*s.cells {
				continue
			}
			at := g.Origin.Add(plane.Pt(float64(x*every)+0.5, float64(y*every)+0.5).Mul(g.Cell))
			if out.Coldest == nil || t < out.Coldest.Celsius {
				out.Coldest = &layout.FloorSpot{At: at, Celsius: t}
			}
			if out.Warmest == nil || t > out.Warmest.Celsius {
				out.Warmest = &layout.FloorSpot{At: at, Celsius: t}
			}
		}
	}
}

// A sum is what some cells come to: how many, how many of them are floor, and the rises
// of those.
type sum struct{ cells, floor, rise float64 }

// sums are those of every row from its start on, so that a stretch of it is a difference.
type sums struct {
	*ground
	upTo []sum // NX+1 a row
}

func (g *ground) summed(surface []float64) sums {
	out := sums{g, make([]sum, 0, (g.NX+1)*g.NY)}
	for y := range g.NY {
		s := sum{}
		out.upTo = append(out.upTo, s)
		for c := y * g.NX; c < (y+1)*g.NX; c++ {
			if g.ways[c] >= 0 {
				s.floor, s.rise = s.floor+1, s.rise+surface[c]
			}
			out.upTo = append(out.upTo, s)
		}
	}
	return out
}

// disc adds up the cells whose centres lie within a radius, in cells, of one's centre.
func (s sums) disc(x, y int, radius float64) (all sum) {
	r := int(radius)
	for dy := -r; dy <= r; dy++ {
		half := int(math.Sqrt(radius*radius - float64(dy*dy)))
		all.cells += float64(2*half + 1)
		if y+dy < 0 || y+dy >= s.NY {
			continue
		}
		row := s.upTo[(y+dy)*(s.NX+1) : (y+dy+1)*(s.NX+1)]
		from, to := row[max(0, x-half)], row[min(s.NX, x+half+1)]
		all.floor += to.floor - from.floor
		all.rise += to.rise - from.rise
	}
	return all
}
