package build

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A BoxPlace is a place that the thermostat's box could have, and what the floor is like
// with it there.
type BoxPlace struct {
	On      job.BoxWall
	Along   float64 // mm from its start
	Lead    float64 // mm of cold lead over the floor, all cables'
	Tube    float64 // mm of the wired sensor's tube; 0: none could be placed
	Stacked float64 // mm of lead on lead
	Joints  int     // movement joints that a lead or tube passes
	Covered float64 // share of the floor that could be heated
	Refused string  // why no cable could be laid; empty: it lies
}

// How far apart places for a box are tried, mm, how many at most for a room, and how far
// they stay from corners, doorways and what stands at the wall.
const (
	boxStep   = 300.0
	mostBoxes = 36
	besideBox = 100.0
)

// BoxPlaces lays a room's floor with its box at places along some walls or partitions, the best
// first: those where a cable lies, with no lead on another, with few joints to pass, and
// then by the lengths of lead and tube.
func BoxPlaces(j *job.Job, room int, walls []job.BoxWall, search Search) []BoxPlace {
	r := &j.Rooms[room]
	var out []BoxPlace
	total := 0.0
	for _, w := range walls {
		total += w.Length()
	}
	step := math.Max(boxStep, total/mostBoxes)
	for _, w := range walls {
		for _, along := range stations(w.Length(), step) {
			if free(r, w, along) {
				out = append(out, tried(j, room, w, along, search))
			}
		}
	}
	slices.SortStableFunc(out, betterPlace)
	return out
}

// stations are places a step apart along a wall, off both its corners.
func stations(length, step float64) (out []float64) {
	for along := besideBox; along <= length-besideBox; along += step {
		out = append(out, along)
	}
	return out
}

// betterPlace compares two places: what is refused comes last, stacked leads count by
// whole centimetres, and floor covered by whole per cents.
func betterPlace(a, b BoxPlace) int {
	return cmp.Or(min(len(a.Refused), 1)-min(len(b.Refused), 1),
		cmp.Compare(math.Round(a.Stacked/10), math.Round(b.Stacked/10)), cmp.Compare(a.Joints, b.Joints),
		cmp.Compare(math.Round(100*b.Covered), math.Round(100*a.Covered)),
		cmp.Compare(a.Lead+a.Tube, b.Lead+b.Tube))
}

// free reports whether a box can hang at a place: beside doorways and windows, and in front
// of no fixture that would hide where its leads come down.
func free(r *job.Room, w job.BoxWall, along float64) bool {
	for _, o := range w.Openings {
		if along > o.From-besideBox && along < o.To+besideBox {
			return false
		}
	}
	foot := w.Before(along, besideBox+1)
	return r.Outline.Contains(foot) && !slices.ContainsFunc(r.Stands(), func(s job.Stand) bool {
		return s.Outline.Contains(foot) || s.Outline.Distance(foot) < besideBox
	})
}

// tried lays a room with its box at a place.
func tried(j *job.Job, room int, w job.BoxWall, along float64, search Search) BoxPlace {
	moved := j.Rooms[room].WithBox(w, along)
	place := BoxPlace{On: w, Along: along}
	d := draft{&layout.Room{Job: &moved}, j, &route.Steps{}, search}
	for _, said := range build(d, 1, func() {}) {
		if said.Severity == job.Error && place.Refused == "" {
			place.Refused = said.Message
		}
	}
	if place.Refused != "" || len(d.Cables) == 0 {
		return place
	}
	for i := range d.Cables {
		for _, e := range d.Cables[i].Ends() {
			place.Lead += plane.PathLength(e.Lead)
		}
	}
	for _, s := range d.Sensors {
		if !s.Spare {
			place.Tube = plane.PathLength(s.Lead)
		}
	}
	for _, s := range d.LeadStacks() {
		place.Stacked += s.Length
	}
	place.Joints = len(d.JointCrossings())
	place.Covered = d.Heated.Area() / heatable(d.Room, j, func(zone int) bool {
		return slices.ContainsFunc(d.Cables, func(c layout.Cable) bool { return c.Zone == zone })
	})
	return place
}
