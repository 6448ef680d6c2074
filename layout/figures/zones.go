package figures

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// A Zone is a part of a floor that the job speaks of.
type Zone struct {
	Name   string   `json:"name"`
	Heated float64  `json:"heated_m2" round:"3"` // of a cold one: what could be
	Cables []string `json:"cables"`              // as the drawings name them
	Heat   float64  `json:"heat_over_heated_w_m2" round:"1"`
	Cold   bool     `json:"cold"` // as asked
}

// A Start is where the heat of a cable was asked to start.
type Start struct {
	Corner string  `json:"corner"`           // by the letter of the wall that begins there
	Off    float64 `json:"off_mm" round:"0"` // how far from it the heat starts
}

// zones are the parts of a room that the job speaks of.
func zones(r *layout.Room) (out []Zone) {
	for i := range r.Job.Zones {
		z := &r.Job.Zones[i]
		one := Zone{Name: z.Name, Cold: z.Cold, Cables: []string{}}
		if z.Cold {
			one.Heated = squareMetres(nearestArea(r.Cold, z.At).Area())
		}
		watts := 0.0
		for k, region := range r.Zones {
			if r.Spoken(k) != z {
				continue
			}
			one.Heated = squareMetres(region.Area())
			for _, c := range r.Cables {
				if c.Zone == k {
					one.Cables, watts = append(one.Cables, c.ID), watts+c.Label.Watts
				}
			}
			one.Heat = density(watts, region.Area())
		}
		out = append(out, one)
	}
	return out
}

// nearestArea is the piece of a region that a place lies in or nearest to.
func nearestArea(r plane.Region, at plane.Point) (out plane.Region) {
	near := math.Inf(1)
	for _, p := range r {
		if d := -(plane.Region{p}).Depth(at); d < near {
			out, near = plane.Region{p}, d
		}
	}
	return out
}

// startOf is where a cable was asked to start, nil where the job does not say.
func startOf(r *layout.Room, c *layout.Cable) *Start {
	asked := r.AskOf(c.Zone).Start
	if asked == nil {
		return nil
	}
	for _, w := range r.Job.Walls {
		if w.A == *asked {
			return &Start{w.Letter, w.A.Dist(c.Path[0])}
		}
	}
	return nil
}

func (p *page) zone(z Zone) {
	switch {
	case z.Cold:
		p.put("zone", fmt.Sprintf("%s: %s stay without cable as asked", z.Name, p.area(z.Heated)))
	case len(z.Cables) == 0:
		p.put("zone", fmt.Sprintf("%s: %s have no cable", z.Name, p.area(z.Heated)))
	default:
		p.put("zone", fmt.Sprintf("%s: %s with %s", z.Name, p.area(z.Heated), strings.Join(z.Cables, ", ")),
			p.density(z.Heat)+" over it")
	}
}
