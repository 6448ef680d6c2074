package layout

import (
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A Seen is what the photos of a room show of one of its cables.
type Seen struct {
	Cable  *Cable
	Share  float64  // of its length, closely enough for a cable to be told
	Unseen []string // names of its runs of which no photo shows half
}

// PhotosOf returns the photos of a room, in the order of its records.
func (p *Plan) PhotosOf(r *Room) (out []*job.Photo) {
	for i := range p.Job.Laid {
		if a := &p.Job.Laid[i]; &p.Rooms[a.Room] == r {
			for k := range a.Photos {
				out = append(out, &a.Photos[k])
			}
		}
	}
	return out
}

// Photos is how many photos the job has.
func (p *Plan) Photos() (n int) {
	for _, a := range p.Job.Laid {
		n += len(a.Photos)
	}
	return n
}

// seenStep is how far apart a cable is looked at, mm.
const seenStep = 20.0

// SeenIn returns what photos of a room show of a cable.
func (c *Cable) SeenIn(photos []*job.Photo) Seen {
	out := Seen{Cable: c}
	samples := route.Samples(c.Path, c.BendRadius, seenStep)
	if len(samples) == 0 {
		return out
	}
	seen := make([]bool, len(samples))
	n := 0
	for i := range samples {
		across := acrossAt(samples, i)
		seen[i] = slices.ContainsFunc(photos, func(ph *job.Photo) bool { return ph.Fit.Sees(samples[i].At, across) })
		if seen[i] {
			n++
		}
	}
	out.Share = float64(n) / float64(len(samples))
	cum := route.Stations(c.Path, c.BendRadius)
	for _, r := range c.Runs {
		all, there := 0, 0
		for i, s := range samples {
			if s.Along >= cum[r.Leg-1] && s.Along <= cum[r.Leg] {
				all++
				if seen[i] {
					there++
				}
			}
		}
		if 2*there < all {
			out.Unseen = append(out.Unseen, c.RunName(r.Number))
		}
	}
	return out
}

// acrossAt is the way across a cable at one of its samples.
func acrossAt(samples []route.Sample, i int) plane.Point {
	return samples[min(i+1, len(samples)-1)].At.Sub(samples[max(i-1, 0)].At).Unit().Left()
}

// WorstIn returns how far a place of a room's cable that is read off a photo may be off, mm, where
// the photo shows it least surely; 0 where it shows none of it.
func (r *Room) WorstIn(ph *job.Photo) (most float64) {
	for i := range r.Cables {
		most = max(most, r.Cables[i].worstIn(ph))
	}
	return most
}

// worstIn is the same of one cable.
func (c *Cable) worstIn(ph *job.Photo) (most float64) {
	samples := route.Samples(c.Path, c.BendRadius, 5*seenStep)
	for i, s := range samples {
		if !ph.Fit.Sees(s.At, acrossAt(samples, i)) {
			continue
		}
		at, _ := ph.Fit.Image(s.At)
		if mm, ok := ph.Fit.Error(at); ok {
			most = max(most, mm)
		}
	}
	return most
}
